"""Frozen records behave as the standard library's own: the same source is made by both decorators and compared."""

from __future__ import annotations

import copy
import dataclasses
import pickle
from collections.abc import Callable
from typing import Any

import pytest

from sonify.frozen import dataclass

Made = dict[str, Any]

SOURCE = """
@decorate(frozen=True, slots=True, kw_only=True)
class Note:
    '''A note.'''

    midi: int
    name: str = "c"
    marks: tuple[str, ...] = ()
    found: list[int] = dataclasses.field(default_factory=list)
    aside: int = dataclasses.field(default=3, compare=False, repr=False)
    made: int = dataclasses.field(default=7, init=False)
    missing: int = 5
    put: int = 6


@decorate(frozen=True, slots=True)
class Place:
    row: int
    seat: int = 2

    def __post_init__(self):
        if self.row < 0:
            raise ValueError("no such row")


@decorate(frozen=True, slots=True)
class Own(Place):
    third: int = 4

    def __repr__(self):
        return "mine"


@decorate(frozen=True, kw_only=True, eq=False)
class Loose:
    value: int = 1


@decorate
class Open:
    value: int = 1


@decorate(frozen=True, slots=True)
class Span:
    bar: int
    notes: list[int] = dataclasses.field(default_factory=list, hash=False)


twice = decorate(frozen=True)


@twice
class First:
    value: int = 1


@twice
class Second:
    value: int = 1
"""
NOTES = ({"midi": 60}, {"midi": 60, "aside": 9}, {"midi": 61, "name": "d"}, {"midi": 60, "found": [1]})


def made_by(decorate: Callable[..., Any]) -> Made:
    space: Made = {"decorate": decorate, "dataclasses": dataclasses, "__name__": __name__}
    exec(SOURCE, space)
    return space


OURS, THEIRS = made_by(dataclass), made_by(dataclasses.dataclass)
Note, Place = OURS["Note"], OURS["Place"]
globals().update({name: OURS[name] for name in ("Note", "Place", "Own", "Loose")})  # where pickle looks for them


def told(act: Callable[[], object]) -> str:
    """What comes of something, or the kind of error."""
    try:
        return repr(act())
    except Exception as error:
        return type(error).__name__


@pytest.mark.parametrize(
    "act",
    [
        lambda m: [m["Note"](**given) for given in NOTES],
        lambda m: [[m["Note"](**one) == m["Note"](**other) for one in NOTES] for other in NOTES],
        lambda m: hash(m["Place"](1)) == hash(m["Place"](1, 2)) != hash(m["Place"](1, 3)),
        lambda m: hash(m["Note"](**NOTES[0])),  # a list has none
        lambda m: (hash(m["Span"](1)) == hash(m["Span"](1, [2])), m["Span"](1) == m["Span"](1, [2])),
        lambda m: m["Place"](1) == m["Own"](1),
        lambda m: (m["Place"](1, seat=5), m["Own"](1), m["Own"](2).third),
        lambda m: m["Place"](-1),
        lambda m: dataclasses.replace(m["Place"](1), row=-1),
        lambda m: dataclasses.replace(m["Note"](midi=1), midi=2),
        lambda m: [field.name for field in dataclasses.fields(m["Note"])],
        lambda m: dataclasses.asdict(m["Note"](midi=1)),
        lambda m: m["Note"](1),
        lambda m: m["Note"](),
        lambda m: m["Note"](midi=1, made=2),
        lambda m: m["Note"](midi=1, other=2),
        lambda m: m["Note"](midi=1).made,
        lambda m: setattr(m["Note"](midi=1), "midi", 2),
        lambda m: delattr(m["Note"](midi=1), "midi"),
        lambda m: setattr(m["Loose"](), "value", 2),
        lambda m: (m["Loose"]() == m["Loose"](), m["Loose"](value=3)),
        lambda m: m["Note"](midi=1).found is m["Note"](midi=1).found,
        lambda m: copy.deepcopy(m["Note"](midi=1, found=[1])),
        lambda m: m["Place"].__match_args__,
        lambda m: setattr(m["Second"](), "value", 2),
        lambda m: (m["Open"](), setattr(m["Open"](), "value", 2)),
    ],
)
def test_it_is_as_the_standard_library_has_it(act: Callable[[Made], object]) -> None:
    assert told(lambda: act(OURS)) == told(lambda: act(THEIRS))


def test_records_go_through_pickle_and_hold_nothing_else() -> None:
    note = Note(midi=60, found=[1])
    assert pickle.loads(pickle.dumps(note)) == note
    assert not hasattr(note, "__dict__")
