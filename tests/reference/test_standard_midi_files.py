"""Standard MIDI Files 1.0 (MIDI Manufacturers Association, 1988, RP-001).

The specification itself was not at hand. The variable-length numbers below are its table as a general-purpose library
(mido 1.3.3) prints it and as reference tables pass it on; the meaning of header and meta events was read on public
pages; the example's bytes are worked out by hand from them.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from sonify.notation.midi import midi_bytes
from sonify.records.clock import Tempo
from sonify.records.scene import Metre
from sonify.records.score import FOR_THE_MUSIC, Cue, Note, Part, Score, Section
from tests.catalogue import catalogue
from tests.sample import PENTATONIC

# number, its bytes
VARIABLE_LENGTH = [
    (0x00, "00"),
    (0x40, "40"),
    (0x7F, "7F"),
    (0x80, "81 00"),
    (0x2000, "C0 00"),
    (0x3FFF, "FF 7F"),
    (0x4000, "81 80 00"),
    (0x1FFFFF, "FF FF 7F"),
    (0x200000, "81 80 80 00"),
    (0x0FFFFFFF, "FF FF FF 7F"),
]


def tiny(*notes: Note, bars: int = 1, bpm: float = 120.0) -> Score:
    """One part for claves, no count-in."""
    part = Part(name="taps", group=1, instrument="claves", texture="ostinato", notes=notes)
    return Score(
        title="tiny",
        scene="tiny",
        metre=Metre(beats=3),
        scale=PENTATONIC,
        bars=bars,
        tempi=(Tempo(bar=1, bpm=bpm),),
        sections=(Section(name="rain", title="Rain", letter="A", bar=1, bars=bars),),
        parts=(part,),
        cues=(Cue(bar=1, beat=F(2), part="taps", action="enter", gesture="come-in", reason=FOR_THE_MUSIC),),
        instruments=(catalogue()["claves"],),
        count_in_bars=0,
    )


@pytest.mark.parametrize(("ticks", "printed"), VARIABLE_LENGTH)
def test_time_before_a_note_is_written_as_the_specifications_table_has_it(ticks: int, printed: str) -> None:
    stroke = Note(beat=F(ticks, 960), beats=F(1), midi=75, velocity=64)
    data = midi_bytes(tiny(stroke, bars=ticks // 2880 + 2))
    program, note_on = bytes.fromhex("00 C9 00"), bytes.fromhex("99 4B 40")
    assert program + bytes.fromhex(printed) + note_on in data


def test_a_whole_file_byte_by_byte() -> None:
    data = midi_bytes(tiny(Note(beat=F(1), beats=F(1, 2), midi=75, velocity=89)))
    conductor = bytes.fromhex(
        "00 FF 03 04 74 69 6E 79"  # track name "tiny"
        "00 FF 58 04 03 02 18 08"  # three crotchets a bar, 24 clocks a click, 8 demisemiquavers a crotchet
        "00 FF 59 02 00 00"  # no sharps or flats, major
        "00 FF 51 03 07 A1 20"  # 500,000 microseconds a crotchet
        "00 FF 06 06 41 20 52 61 69 6E"  # marker "A Rain"
        "87 40 FF 07 0D 74 61 70 73 3A 20 63 6F 6D 65 20 69 6E"  # 960 ticks later: cue point "taps: come in"
        "8F 00 FF 2F 00"  # 1,920 ticks later: end of track
    )
    part = bytes.fromhex(
        "00 FF 03 04 74 61 70 73"  # track name "taps"
        "00 FF 04 06 43 6C 61 76 65 73"  # instrument name "Claves"
        "00 C9 00"  # channel 10, program 1
        "87 40 99 4B 59"  # 960 ticks later: note on, key 75, velocity 89
        "83 60 89 4B 00"  # 480 ticks later: note off
        "8B 20 FF 2F 00"  # 1,440 ticks later: end of track
    )
    header = bytes.fromhex("4D 54 68 64 00 00 00 06 00 01 00 02 03 C0")  # MThd, 6 bytes, type 1, 2 tracks, 960 ticks
    chunks = [b"MTrk" + len(track).to_bytes(4, "big") + track for track in (conductor, part)]
    assert data.hex(" ") == b"".join([header, *chunks]).hex(" ")


# beats a minute, microseconds a crotchet, three bytes (reference table 5.2)
TEMPI = [(60, 1_000_000, "0F 42 40"), (90, 666_667, "0A 2C 2B"), (120, 500_000, "07 A1 20"), (240, 250_000, "03 D0 90")]


@pytest.mark.parametrize(("bpm", "microseconds", "printed"), TEMPI)
def test_a_tempo_is_microseconds_a_crotchet(bpm: float, microseconds: int, printed: str) -> None:
    assert int(printed.replace(" ", ""), 16) == microseconds
    data = midi_bytes(tiny(Note(beat=F(0), beats=F(1), midi=75, velocity=64), bpm=bpm))
    assert bytes.fromhex("FF 51 03" + printed) in data


def test_d_major_has_two_sharps() -> None:
    scale = replace(PENTATONIC, name="D major", tonic=2, pitch_classes=(2, 4, 6, 7, 9, 11, 1))
    assert bytes.fromhex("FF 59 02 02 00") in midi_bytes(replace(tiny(), scale=scale))
