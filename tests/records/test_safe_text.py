"""Text for terminals, documents, MIDI files and spreadsheets. Unicode's own tables say what turns the writing."""

from __future__ import annotations

import json
import unicodedata

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.records.safe_text import for_document, for_heading, for_midi, for_terminal, turns

EVERY = [chr(code) for code in range(0x110000)]
#: Unicode Standard Annex 9: what is of one of these classes embeds, overrides, isolates or ends that.
TURNING_CLASSES = {"LRE", "RLE", "LRO", "RLO", "PDF", "LRI", "RLI", "FSI", "PDI"}
IMPLICIT_MARKS = {"\N{LEFT-TO-RIGHT MARK}", "\N{RIGHT-TO-LEFT MARK}", "\N{ARABIC LETTER MARK}"}


def test_the_marks_that_turn_the_writing_are_those_of_the_standard() -> None:
    assert {c for c in EVERY if turns(c)} == IMPLICIT_MARKS | {
        c for c in EVERY if unicodedata.bidirectional(c) in TURNING_CLASSES
    }


def test_no_control_no_half_letter_and_no_turning_mark_is_left() -> None:
    for clean in (for_terminal, for_document, for_midi, for_heading):
        left = clean("".join(EVERY))
        odd = {c for c in left if unicodedata.category(c) in {"Cc", "Cs"} or turns(c)}
        assert odd <= {"\n", "\t"}, clean
        left.encode("utf-8")


@given(st.text())
def test_what_a_terminal_shows_of_json_reads_back_alike(text: str) -> None:
    """RFC 8259: any letter of a string may be written as an escape."""
    assert json.loads(for_terminal(json.dumps([text], ensure_ascii=False))) == [text]


@given(st.text())
def test_cleaning_twice_changes_nothing_more(text: str) -> None:
    for clean in (for_document, for_midi, for_terminal):
        assert clean(clean(text)) == clean(text)


@pytest.mark.parametrize(
    ("words", "read"),
    [
        ("Sea at 14 °C", "Sea at 14 degrees C"),
        ("54°", "54 degrees"),
        ("warm – “then” cold’s", 'warm - "then" cold\'s'),
        ("W/m², 3 × 10 µm…", "W/m2, 3 x 10 um..."),
        ("Café Łódź, Tŷ Gŵyr", "Cafe Lodz, Ty Gwyr"),
    ],
)
def test_midi_words_read_alike_in_latin_1_and_utf_8(words: str, read: str) -> None:
    assert for_midi(words) == read
    assert for_midi(words).encode("utf-8").decode("latin-1") == read


def test_a_language_without_such_a_spelling_stays_as_it_is() -> None:
    assert for_midi("Το νερό βράζει") == "Το νερό βράζει"


@pytest.mark.parametrize("name", ["=1+1", "+1", "-2", "@SUM(A1)", "\t=1", " =1", "\r=cmd|' /C calc'!A0"])
def test_no_heading_begins_as_a_formula_does(name: str) -> None:
    """What a spreadsheet takes for a formula begins with one of these, white space before it aside (OWASP, "CSV
    Injection", from memory)."""
    assert for_heading(f"{name} [no unit]").startswith("'")


def test_an_ordinary_heading_stays_as_it_is() -> None:
    for name in ("sea temperature [degC]", "rain [mm/h]", "température [degC]", "1-minute mean [1]"):
        assert for_heading(name) == name
