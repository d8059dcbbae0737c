"""A class written as a file is read back equal, whatever it holds, and an author's comments stay."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

from hypothesis import given
from hypothesis import strategies as st

from sonify.inputs.class_file import read_class
from sonify.inputs.class_text import class_text
from sonify.kinds.needs import OF_ALL, OF_PUPILS
from sonify.lesson import catalogue
from sonify.records.classroom import Classroom, Need, Stock
from sonify.records.instrument import OwnInstrument
from sonify.records.scene import Origin

ROWS = catalogue()
NOWHERE = Origin(file="")
IDS = [row.id for row in ROWS.instruments]


def made(
    groups: int,
    more: int,
    own: tuple[OwnInstrument, ...],
    cupboard: tuple[Stock, ...],
    some: dict[str, tuple[int, int]],
    **rest: Any,
) -> Classroom:
    rest["pupils_need"] = tuple(
        Need(name=name, pupils=min(count, groups), group=min(group, groups)) for name, (count, group) in some.items()
    )
    cupboard += tuple(Stock(instrument=one.id, count=one.number + 1) for one in own)
    kept: dict[str, Any] = {"own": own, "cupboard": cupboard, **rest}
    return Classroom(groups=groups, pupils=groups + more, name="class", origin=NOWHERE, **kept)


classes = st.builds(
    made,
    groups=st.integers(1, 12),
    more=st.integers(0, 48),
    year=st.integers(3, 6),
    minutes=st.integers(10, 180),
    needs=st.lists(st.sampled_from(OF_ALL), unique=True).map(tuple),
    some=st.dictionaries(st.sampled_from(OF_PUPILS), st.tuples(st.integers(1, 12), st.integers(0, 12))),
    own=st.lists(
        st.tuples(st.sampled_from(["our gong", "Ida's drum", "a thing"]), st.sampled_from(IDS)), max_size=3
    ).map(
        lambda rows: tuple(
            OwnInstrument(name=name, like=like, number=number, how="Softly." * (number % 2))
            for number, (name, like) in enumerate(dict(rows).items(), start=1)
        )
    ),
    cupboard=st.dictionaries(st.sampled_from(IDS), st.integers(1, 100), max_size=40).map(
        lambda held: tuple(Stock(instrument=name, count=count) for name, count in held.items())
    ),
)


def read(text: str) -> Classroom:
    found = read_class(text, file="class.toml", name="class", catalogue=ROWS)
    return replace(found, origin=NOWHERE)


def stock(classroom: Classroom) -> Classroom:
    return replace(classroom, cupboard=tuple(sorted(classroom.cupboard, key=lambda row: row.instrument)))


@given(classes)
def test_written_and_read_back(classroom: Classroom) -> None:
    assert read(class_text(classroom, ROWS)) == classroom


@given(classes, classes)
def test_written_over_an_earlier_text(before: Classroom, after: Classroom) -> None:
    base = class_text(before, ROWS)
    assert stock(read(class_text(after, ROWS, base=base))) == stock(after)


BASE = """# Mine.
year = 4      # the kind ones
pupils = 30
groups = 5

[cupboard]    # counted in May
"frame drums" = 2   # one is torn
tambours = 1
claves = 8    # pairs
"""


def test_comments_and_names_of_an_earlier_text_stay() -> None:
    base = read(BASE)
    text = class_text(replace(base, pupils=28), ROWS, base=BASE)
    assert [line for line in text.splitlines() if line not in BASE.splitlines()] == ["pupils = 28"]
    assert read(text) == replace(base, pupils=28)


def test_a_key_that_the_earlier_text_leaves_out_does_not_become_an_instrument() -> None:
    base = read(BASE)
    text = class_text(replace(base, minutes=45), ROWS, base=BASE)
    assert text == f"minutes = 45\n{BASE}"
    assert read(text) == replace(base, minutes=45)


def test_two_names_of_one_instrument_become_one_line_when_the_count_changes() -> None:
    base = read(BASE)
    drums = next(row.instrument for row in base.cupboard if row.count == 3)
    fewer = tuple(replace(row, count=2) if row.instrument == drums else row for row in base.cupboard)
    text = class_text(replace(base, cupboard=fewer), ROWS, base=BASE)
    assert "tambours" not in text
    assert stock(read(text)) == stock(replace(base, cupboard=fewer))
