"""Which letters can be printed, and what is said about the others."""

from __future__ import annotations

from collections import Counter

import pytest
from fontTools.ttLib import TTFont

from sonify.paper.typeset import LONGEST_WORD, missing_note, printable, printable_data
from sonify.records.letters import STAND_IN, drawable
from tests.paper.sheets import FONTS


@pytest.mark.parametrize("cut", ["Regular", "Bold"])
def test_the_list_of_letters_is_what_the_font_file_says(cut: str) -> None:
    # outside check: the font's own character map, read by fontTools
    in_font = set(TTFont(FONTS / f"Andika-{cut}.ttf").getBestCmap())
    assert drawable() == in_font


@pytest.mark.parametrize("letter", list("₂⁻²°→←≈×−–—½♯♭′“”’•…éŴ"))
def test_what_the_sheets_need_can_be_drawn(letter: str) -> None:
    missing: Counter[str] = Counter()
    assert printable(letter, missing) == letter
    assert not missing


def test_a_letter_that_cannot_be_drawn_is_shown_and_owned_up_to() -> None:
    missing: Counter[str] = Counter()
    assert printable("水の旅 5", missing) == f"{STAND_IN * 3} 5"
    assert missing == Counter("水の旅")
    note = missing_note(missing)
    assert "hiragana letter no (U+306E)" in note and "U+6C34" in note


def test_only_the_first_missing_letters_are_named_and_the_rest_counted() -> None:
    assert missing_note(Counter("אבגדהוזח")).endswith("and 2 more.")
    assert missing_note(Counter()) == ""


def test_marks_that_turn_the_direction_of_writing_are_taken_out() -> None:
    missing: Counter[str] = Counter()
    assert printable("a\u202eb\u2066c", missing) == "abc"
    assert set(missing) == {"\u202e", "\u2066"}


def test_letter_and_accent_become_one_letter() -> None:
    missing: Counter[str] = Counter()
    assert printable("cafe\u0301", missing) == "café"
    assert not missing


def test_white_space_of_every_kind_becomes_one_space() -> None:
    assert printable("a\n\n  b\tc", Counter()) == "a b c"


def test_a_word_longer_than_a_line_may_be_broken_and_loses_nothing() -> None:
    found = printable("x" * 300, Counter())
    assert found.replace("\u200b", "") == "x" * 300
    assert max(len(run) for run in found.split("\u200b")) == LONGEST_WORD


def test_every_text_in_the_data_is_made_printable_and_nothing_else_changes() -> None:
    data = {"a": ["水", {"b": "x"}], "n": 3, "f": 0.5, "none": None, "yes": True}
    missing: Counter[str] = Counter()
    ready = printable_data(data, missing)
    assert ready == {"a": [STAND_IN, {"b": "x"}], "n": 3, "f": 0.5, "none": None, "yes": True}
    assert missing["水"] == 1
