"""Class files: what a right one becomes, and what each wrong one says."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.errors import BadFile, SonifyError
from sonify.inputs.class_file import read_class
from sonify.kinds.instruments import FAMILIES, STAND_INS
from sonify.records.classroom import Classroom, Stock
from sonify.records.instrument import OwnInstrument
from tests.catalogue import catalogue
from tests.inputs.samples import CLASS, changed


def classroom(text: str) -> Classroom:
    return read_class(text, file="class.toml", name="five-b", catalogue=catalogue())


def test_a_class_file_becomes_a_classroom() -> None:
    found = classroom(CLASS)
    assert (found.name, found.year, found.pupils, found.groups, found.minutes) == ("five-b", 5, 28, 5, 60)
    assert found.needs == ("large print",)
    assert found.cupboard == (
        Stock(instrument="soprano-glockenspiel", count=3),
        Stock(instrument="ocean-drum", count=1),
        Stock(instrument="triangle", count=2),
    )
    assert found.origin.line("cupboard.ocean drum") == 9


def test_a_cupboard_may_be_empty_or_left_out() -> None:
    start = CLASS[: CLASS.index("[cupboard]")]
    assert classroom(start).cupboard == classroom(start + "[cupboard]\n").cupboard == ()


def test_two_names_of_one_instrument_are_added_up() -> None:
    found = classroom(CLASS + '"frame drums" = 3\nTambours = 2\n')
    assert found.count("hand-drum") == 5
    assert sum(stock.instrument == "hand-drum" for stock in found.cupboard) == 1


def test_none_of_an_instrument_is_the_same_as_no_line() -> None:
    assert classroom(changed(CLASS, "triangle = 2", "triangle = 0")).cupboard == classroom(CLASS).cupboard[:2]


def test_how_hard_lines_are_is_one_of_three() -> None:
    assert [classroom(f'line = "{line}"\n{CLASS}').line for line in ("easy", "core", "stretch")] == [
        *("easy", "core", "stretch")
    ]
    with pytest.raises(BadFile, match='line 1: line: unknown line "mad"'):
        classroom(f'line = "mad"\n{CLASS}')


def test_a_need_written_twice_is_one_need_in_any_case() -> None:
    assert classroom(changed(CLASS, '["large print"]', '["Large  Print", "large print"]')).needs == ("large print",)


OTHER = """
[[other]]
name = "our thunder sheet"
family = "metal"

[[other]]
name = "Ida's box"
family = "skin"
like = "cajon"
count = 2
how = "Tap it."
"""


def test_what_the_catalogue_has_not_is_the_classs_own_and_sounds_as_its_familys_stand_in() -> None:
    found = classroom(CLASS + OTHER)
    assert found.own == (
        OwnInstrument(name="our thunder sheet", like="triangle", number=1),
        OwnInstrument(name="Ida's box", like="cajon", number=2, how="Tap it."),
    )
    assert found.cupboard[-2:] == (Stock(instrument="triangle.1", count=1), Stock(instrument="cajon.2", count=2))
    rows = catalogue().with_own(found.own)
    sheet, box = rows["triangle.1"], rows["cajon.2"]
    assert (sheet.name, sheet.called, sheet.of(1), sheet.how) == (
        "Our thunder sheet",
        "our thunder sheet",
        "thunder sheet",
        "",
    )
    assert (box.called, box.of(2), box.gm_key, box.stand_in) == (
        "Ida's box",
        "Ida's box",
        43,
        "high floor tom, for Ida's box",
    )


def test_every_family_has_a_stand_in_of_its_own() -> None:
    assert tuple(STAND_INS) == FAMILIES
    assert all(catalogue()[name].family == family for family, name in STAND_INS.items())


WRONG = [
    ("year = 5", "year = 7", r"class.toml, line 1: year: is 7; allowed: 3 to 6, the school years of 7 to 11"),
    ("year = 5", "year = true", "line 1: year: is true; wanted: a whole number from 3 to 6"),
    ("year = 5", 'year = "5"', 'line 1: year: is "5"; wanted: a whole number from 3 to 6'),
    ("year = 5\n", "", "class.toml: year: missing; wanted: a whole number from 3 to 6"),
    ("pupils = 28", "pupils = 0", "line 2: pupils: is 0; allowed: 1 to 60"),
    ("pupils = 28", "pupils = -3", "line 2: pupils: is -3; allowed: 1 to 60"),
    ("pupils = 28", "pupils = 28.5", "line 2: pupils: is 28.5; wanted: a whole number from 1 to 60"),
    ("pupils = 28", "pupils = 4", "line 3: groups: 5 groups need at least 5 pupils, and there are 4"),
    (
        "pupils = 28",
        "pupil = 28",
        r'line 2: pupil: unknown key; did you mean "pupils"\? Allowed here: cupboard, groups',
    ),
    ("groups = 5", "groups = 0", "line 3: groups: is 0; allowed: 1 to 12"),
    ("minutes = 60", "minutes = 5", "line 4: minutes: is 5; allowed: 10 to 180"),
    ('["large print"]', '["large prnt"]', r'line 5: needs.0: unknown need .* did you mean "large print"\? Allowed'),
    ('["large print"]', '"large print"', 'line 5: needs: is "large print"; wanted: a list of any of'),
    ("glockenspiel = 3", "glockenspeil = 3", r'line 8: cupboard.glockenspeil: .* did you mean "glockenspiel"\? Allow'),
    ("glockenspiel = 3", "glockenspiel = -1", "line 8: cupboard.glockenspiel: is -1; allowed: 0 to 100"),
    ("glockenspiel = 3", "glockenspiel = 1.5", "line 8: cupboard.glockenspiel: is 1.5; wanted: .* a whole number"),
    ("glockenspiel = 3", 'glockenspiel = "3"\nglock = 1', 'line 8: cupboard.glockenspiel: is "3"; wanted'),
    ("glockenspiel = 3", "glockenspiel = true", "line 8: cupboard.glockenspiel: is true; wanted"),
    ('"ocean drum" = 1', "ocean drum = 1", "line 9: not valid TOML .* a name with a space in it needs quotation marks"),
    ("triangle = 2", "triangle = 2\nminutes = 50", 'cupboard.minutes: "minutes" is no instrument; .* top of the file'),
    ("triangle = 2", "triangle = 2\ntriangle = 3", "line 11: cupboard.triangle: given twice, first on line 10"),
    (
        "year = 5",
        'year = 5\nother = "our gong"',
        r"line 2: other: .* wanted: a table for each .* \[\[other\]\] with name =",
    ),
    ("triangle = 2", "triangle = 2\nkazoo = 2", r"cupboard.kazoo: unknown instrument .* below a line \[\[other\]\]"),
    (
        "triangle = 2",
        'triangle = 2\n[[other]]\nname = "gong"',
        "other.0.family: missing; wanted: one of bars, bells, metal",
    ),
    (
        "triangle = 2",
        'triangle = 2\n[[other]]\nname = "x"\nfamily = "wood"\nlike = "triangle"',
        r'other.0.family: "triangle" is of the family metal; write that family, or leave out like',
    ),
    (
        "triangle = 2",
        'triangle = 2\n[[other]]\nname = "x"\nfamily = "wood"\n[[other]]\nname = "X"\nfamily = "wood"',
        r'other.1.name: the name "X" stands there twice',
    ),
    ("[cupboard]", "[cupbord]", r'line 7: cupbord: unknown key; did you mean "cupboard"\?'),
]


@pytest.mark.parametrize(("old", "new", "says"), WRONG, ids=[row[1].strip()[:30] or "left out" for row in WRONG])
def test_a_wrong_line_is_named_with_what_is_allowed(old: str, new: str, says: str) -> None:
    with pytest.raises(BadFile, match=says):
        classroom(changed(CLASS, old, new))


def test_several_faults_are_named_at_once() -> None:
    text = changed(changed(CLASS, "pupils = 28", "pupils = 0"), "triangle", "triangel")
    with pytest.raises(BadFile, match=r"2 things to mend\n  class.toml, line 2: pupils.*\n  class.toml, line 10: cup"):
        classroom(text)


KEYS = st.sampled_from(
    ["other", "year", "pupils", "groups", "needs", "cupboard", "claves", '"ocean drum"', '"\\u0000"']
)
LEAVES = st.sampled_from(["1", "-1", "0x" + "f" * 400, "1e999", "nan", "true", '"x"', '["large print"]', "{claves=1}"])
LINES = st.builds("{} = {}".format, KEYS, LEAVES) | st.builds("[{}]".format, KEYS)


@given(st.text() | st.lists(LINES).map("\n".join))
def test_any_text_is_a_class_or_a_clear_refusal(text: str) -> None:
    try:
        classroom(text)
    except SonifyError as error:
        assert str(error).startswith("class.toml")


@given(st.integers(0, CLASS.count("\n")), LINES)
def test_any_line_put_anywhere_is_a_class_or_a_clear_refusal(at: int, line: str) -> None:
    rows = CLASS.split("\n")
    rows.insert(at, line)
    try:
        assert classroom("\n".join(rows)).pupils
    except SonifyError as error:
        assert str(error).startswith("class.toml")
