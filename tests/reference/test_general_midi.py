"""General MIDI 1 program and percussion names, as pretty_midi lists them (identical to a public page that cites the
General MIDI 1 document, p. 6; reference table 5.1). The document itself was not at hand."""

from __future__ import annotations

import re

import pretty_midi
import pytest

from sonify.kinds.instruments import FAMILIES
from sonify.notation.channels import KEYBOARD_PROGRAMS
from sonify.records.instrument import Instrument
from tests.catalogue import catalogue

ROWS = catalogue().instruments
#: GM's own abbreviations, and words that tell two versions of one instrument apart but not instruments.
SAME_WORD = {"high": "hi", "piano": "keyboard", "snaps": "snap", "oohs": "oo", "ooh": "oo", "voices": "voice"}
GM1_KEYS = range(35, 82)  # 82 to 87 came with General MIDI 2: silent on many players


def gm_name(row: Instrument) -> str:
    if row.pitched:
        return str(pretty_midi.program_to_instrument_name(row.gm_program - 1))
    return str(pretty_midi.note_number_to_drum_name(row.gm_key))


def words(text: str) -> set[str]:
    found = {SAME_WORD.get(word, word) for word in re.findall(r"[a-z]+", text.lower())}
    return {word.removesuffix("s") for word in found}


@pytest.mark.parametrize("row", ROWS, ids=lambda row: row.id)
def test_the_general_midi_sound_is_the_instrument_or_a_declared_stand_in(row: Instrument) -> None:
    sound = words(gm_name(row)) - {"hi", "low", "open", "mute", "short", "acoustic", "grand", "hand", "crash"}
    if row.stand_in:
        declared = words(row.stand_in.partition(",")[0])
        assert declared & sound, f"{row.id}: the file plays {gm_name(row)}, the catalogue says {row.stand_in}"
        assert row.stand_in.partition(",")[2], f"{row.id}: for what does it stand in?"
    else:
        assert sound & words(row.name), f"{row.id}: the file plays {gm_name(row)}, undeclared"


@pytest.mark.parametrize("row", [row for row in ROWS if not row.pitched], ids=lambda row: row.id)
def test_percussion_keys_are_general_midi_1(row: Instrument) -> None:
    assert row.gm_key in GM1_KEYS and row.gm_program == 0


@pytest.mark.parametrize("row", [row for row in ROWS if row.pitched], ids=lambda row: row.id)
def test_programs_are_general_midi_1(row: Instrument) -> None:
    assert 1 <= row.gm_program <= 128 and row.gm_key == 0


# reference table 5.1, by hand: 1-based programs
PROGRAMS = [
    (9, "Celesta"),
    (10, "Glockenspiel"),
    (12, "Vibraphone"),
    (13, "Marimba"),
    (14, "Xylophone"),
    (75, "Recorder"),
]


@pytest.mark.parametrize(("program", "printed"), PROGRAMS)
def test_programs_count_from_one(program: int, printed: str) -> None:
    assert pretty_midi.program_to_instrument_name(program - 1) == printed
    assert any(row.gm_program == program for row in ROWS if row.pitched)


@pytest.mark.parametrize(("family", "program"), KEYBOARD_PROGRAMS.items())
def test_keyboard_stand_ins_say_what_they_are(family: str, program: tuple[int, str]) -> None:
    assert family in FAMILIES
    assert pretty_midi.program_to_instrument_name(program[0] - 1).lower().startswith(program[1].removesuffix(" drum"))
