"""The MIDI file: onsets, tempi, tracks and channels as two other libraries read them."""

from __future__ import annotations

import io
from collections import Counter
from dataclasses import replace
from fractions import Fraction as F
from typing import Any

import mido
import pretty_midi
import pytest

from sonify.errors import OutOfRange
from sonify.notation.midi import midi_bytes
from sonify.records.clock import Tempo, microseconds
from sonify.records.score import COUNT_IN, Note, Part, Score
from tests.catalogue import catalogue
from tests.notation.reading import timed
from tests.sample import sample_score

MS = 0.001


def read(data: bytes) -> mido.MidiFile:
    return mido.MidiFile(file=io.BytesIO(data), charset="utf-8")


def read_pretty(data: bytes) -> pretty_midi.PrettyMIDI:
    return pretty_midi.PrettyMIDI(io.BytesIO(data))


def messages(data: bytes, track: int, kind: str) -> list[tuple[F, Any]]:
    file = read(data)
    return [(beat, m) for beat, m in timed(file.tracks[track], file.ticks_per_beat) if m.type == kind]


def with_parts(score: Score, *parts: Part) -> Score:
    return replace(score, parts=parts, instruments=catalogue().instruments)


def part(name: str, instrument: str, *notes: Note) -> Part:
    return Part(name=name, group=1, instrument=instrument, texture="melody", notes=notes)


def note(beat: F | int, beats: F | int = 1, midi: int = 60, velocity: int = 64, **more: Any) -> Note:
    return Note(beat=F(beat), beats=F(beats), midi=midi, velocity=velocity, **more)


def test_every_onset_is_where_the_clock_has_it_to_a_millisecond() -> None:
    score = sample_score()
    heard = read_pretty(midi_bytes(score))
    assert [instrument.name for instrument in heard.instruments] == [p.name for p in score.parts]
    for instrument, of_score in zip(heard.instruments, score.parts, strict=True):
        expected = sorted((float(score.clock.seconds(n.beat)), n.midi, n.velocity) for n in of_score.notes)
        found = sorted((n.start, n.pitch, n.velocity) for n in instrument.notes)
        assert [f[1:] for f in found] == [e[1:] for e in expected]
        for (start, *_), (wanted, *_) in zip(found, expected, strict=True):
            assert start == pytest.approx(wanted, abs=MS)


def test_odd_beats_are_whole_ticks_or_a_fortieth_of_a_millisecond_off() -> None:
    beats = [F(1, 7), F(17, 11), F(5, 3), F(2)]
    score = with_parts(sample_score(), part("odd", "recorder", *(note(beat, F(1, 10), 72) for beat in beats)))
    assert read(midi_bytes(score)).ticks_per_beat == 960 * 34  # 7 * 11 * 960 would not fit 15 bits
    starts = [n.start for n in read_pretty(midi_bytes(score)).instruments[0].notes]
    assert starts == pytest.approx([float(score.clock.seconds(beat)) for beat in beats], abs=0.04 * MS)
    sevenths = with_parts(score, part("odd", "recorder", note(F(1, 7), 1, 72)))
    assert read(midi_bytes(sevenths)).ticks_per_beat == 960 * 7
    assert messages(midi_bytes(sevenths), 1, "note_on")[0][0] == 8 + F(1, 7)


def test_tempo_map_is_the_clocks_own() -> None:
    score = replace(sample_score(), tempi=(Tempo(bar=1, bpm=66), Tempo(bar=5, bpm=103.7), Tempo(bar=9, bpm=80)))
    found = [(beat, m.tempo) for beat, m in messages(midi_bytes(score), 0, "set_tempo")]
    assert found == [(0, microseconds(66)), (8 + 16, microseconds(103.7)), (8 + 32, microseconds(80))]


def test_conductor_track_has_metre_key_markers_and_cues() -> None:
    data = midi_bytes(sample_score())
    assert read(data).type == 1
    metre = messages(data, 0, "time_signature")[0][1]
    assert (metre.numerator, metre.denominator) == (4, 4)
    assert messages(data, 0, "key_signature")[0][1].key == "C"
    assert [(beat, m.text) for beat, m in messages(data, 0, "marker")] == [
        (8, "A Evaporation"),
        (24, "B Condensation"),
        (40, "C Precipitation"),
    ]
    cues = [(beat, m.text) for beat, m in messages(data, 0, "cue_marker")]
    assert cues[0] == (8, "Everybody: start, 66 bpm")
    assert cues[2] == (8 + 16, "Everybody: new beat, 104 bpm")
    assert cues[-1] == (8 + 47, "Everybody: stop")
    assert len(cues) == 7


def test_parts_have_names_instruments_programs_and_channels() -> None:
    score = sample_score()
    data = midi_bytes(score)
    for index, of_score in enumerate(score.parts, 1):
        row = score.instrument(of_score.instrument)
        assert messages(data, index, "instrument_name")[0][1].name == row.name
        [(_, program)] = messages(data, index, "program_change")
        assert program.program == (row.gm_program - 1 if row.pitched else 0)
        channels = {m.channel for _, m in messages(data, index, "note_on")}
        assert channels == {program.channel}
        assert (program.channel == 9) is not row.pitched
        texts = [m.text for _, m in messages(data, index, "text")]
        assert texts == ([f"Stand-in: {row.stand_in}"] if row.stand_in else [])


def test_a_key_is_released_before_it_is_pressed_again() -> None:
    # Two players on one key together, then a third while both still last.
    notes = (note(0, 2, 70), note(0, 1, 70), note(1, 1, 70), note(F(7, 2), 4, 70))
    data = midi_bytes(with_parts(sample_score(), part("taps", "egg-shaker", *notes)))
    events = [
        (beat - 8, m.type) for beat, m in timed(read(data).tracks[1], read(data).ticks_per_beat) if "note_" in m.type
    ]
    assert events == [
        (0, "note_on"),
        (0, "note_on"),
        (1, "note_off"),
        (1, "note_off"),
        (1, "note_on"),
        (2, "note_off"),
        (F(7, 2), "note_on"),
        (F(15, 2), "note_off"),
    ]
    assert Counter(n.start for n in read_pretty(data).instruments[0].notes).most_common(1)[0][1] == 2


def test_tracks_last_to_the_end_of_the_piece() -> None:
    score = sample_score()
    file = read(midi_bytes(score))
    for track in file.tracks:
        assert sum(message.time for message in track) == (8 + score.end_beat) * file.ticks_per_beat


def test_same_score_same_bytes() -> None:
    assert midi_bytes(sample_score()) == midi_bytes(sample_score())


def test_without_the_count_in_bar_one_begins_at_once() -> None:
    data = midi_bytes(sample_score(), count_in=False)
    assert [track.name for track in read(data).tracks[1:]] == [p.name for p in sample_score().group_parts]
    assert messages(data, 1, "note_on")[0][0] == 0
    assert [beat for beat, _ in messages(data, 0, "marker")] == [0, 16, 32]


def test_a_groups_file_has_its_parts_the_count_in_and_the_cues_that_concern_it() -> None:
    data = midi_bytes(sample_score(), group=4)
    assert [track.name for track in read(data).tracks[1:]] == [COUNT_IN, "The rain", "The storm"]
    cued = {m.text.partition(":")[0] for _, m in messages(data, 0, "cue_marker")}
    assert cued == {"Everybody", "The rain", "The storm"}
    whole = midi_bytes(sample_score())
    onsets = [(beat, m.note, m.velocity) for beat, m in messages(whole, 5, "note_on")]
    assert [(beat, m.note, m.velocity) for beat, m in messages(data, 2, "note_on")] == onsets


def test_for_keyboards_nothing_is_on_channel_ten_and_all_keys_exist() -> None:
    score = sample_score()
    data = midi_bytes(score, for_keyboard=True)
    file = read(data)
    keys_of_unpitched = []
    for index, of_score in enumerate(score.parts, 1):
        found = [m for _, m in messages(data, index, "note_on")]
        assert 9 not in {m.channel for m in found}
        assert all(36 <= m.note <= 96 for m in found)  # a 61-key keyboard, reference table 5.4
        assert len(found) == len(of_score.notes)
        if not score.instrument(of_score.instrument).pitched:
            [key] = {m.note for m in found}
            keys_of_unpitched.append(key)
            assert f"on key {key}" in messages(data, index, "text")[0][1].text
    assert len(set(keys_of_unpitched)) == len(keys_of_unpitched)
    assert {key % 12 for key in keys_of_unpitched} <= {0, 2, 4, 5, 7, 9, 11}
    # The glockenspiel's C7 to A7 lie above the keyboard: an octave down, and the file says so.
    high = with_parts(score, part("high", "soprano-glockenspiel", note(0, 1, 96), note(1, 1, 105)))
    assert [m.note for _, m in messages(midi_bytes(high, for_keyboard=True), 1, "note_on")] == [84, 93]
    assert "Moved by -12" in messages(midi_bytes(high, for_keyboard=True), 1, "text")[0][1].text
    assert len(file.tracks) == 1 + len(score.parts)


def test_expression_swells_within_a_long_held_note_and_returns() -> None:
    held = part("tune", "recorder", note(0, 4, 72, 60), note(4, 4, 72, 90), note(8, 1, 72, 70), note(10, 4, 72, 44))
    struck = part("bars", "alto-xylophone", note(0, 4, 60, 60), note(4, 4, 60, 90))
    data = midi_bytes(with_parts(sample_score(), held, struck))
    curve = [(beat - 8, m.value) for beat, m in messages(data, 1, "control_change") if m.control == 11]
    level = int(127 / (90 / 60))
    assert curve[0] == (-8, level)
    rising = [value for beat, value in curve if 0 < beat < 4]
    assert rising == sorted(rising) and len(rising) == 15
    assert rising[-1] == pytest.approx(level * 90 / 60, rel=0.05)
    assert (4, level) in curve
    falling = [value for beat, value in curve if 4 < beat < 8]
    assert falling == sorted(falling, reverse=True) and falling[-1] < level
    assert not [beat for beat, _ in curve if beat > 8]  # what ends before a rest does not swell
    assert [m.value for _, m in messages(data, 2, "control_change") if m.control == 11] == [level]


def test_brightness_is_sent_where_it_changes() -> None:
    score = with_parts(
        sample_score(),
        part("bars", "alto-xylophone", note(0, brightness=0.0), note(1, brightness=0.0), note(2, brightness=1.0)),
        part("taps", "claves", note(0, midi=75, brightness=1.0)),
    )
    data = midi_bytes(score)
    assert [(b - 8, m.value) for b, m in messages(data, 1, "control_change") if m.control == 74] == [(0, 0), (2, 127)]
    assert not messages(data, 2, "control_change")  # channel 10 belongs to everybody


def test_two_instruments_of_one_part_share_its_track() -> None:
    mixed = part("mixed", "alto-xylophone", note(0), note(1, midi=75, instrument="claves"))
    data = midi_bytes(with_parts(sample_score(), mixed))
    assert len(read(data).tracks) == 2
    assert [(m.channel, m.note) for _, m in messages(data, 1, "note_on")] == [(0, 60), (9, 75)]
    assert messages(data, 1, "instrument_name")[0][1].name == "Alto xylophone and Claves"


def test_more_than_fifteen_pitched_parts_share_channels_by_program_and_say_so() -> None:
    parts = [part(f"part {k}", ("alto-xylophone", "recorder")[k % 2], note(k, midi=72)) for k in range(16)]
    data = midi_bytes(with_parts(sample_score(), *parts))
    channels = [messages(data, k + 1, "note_on")[0][1].channel for k in range(16)]
    assert channels == [0, 1] * 8
    assert "Shares channel 2 with the other parts of this sound" in [m.text for _, m in messages(data, 2, "text")]


def test_more_than_fifteen_sounds_are_refused() -> None:
    base = catalogue()["recorder"]
    rows = tuple(replace(base, id=f"pipe-{k}", gm_program=70 + k) for k in range(16))
    parts = tuple(part(f"part {k}", f"pipe-{k}", note(k, midi=72)) for k in range(16))
    with pytest.raises(OutOfRange, match="different pitched sounds is 16 .*at most 15"):
        midi_bytes(replace(sample_score(), parts=parts, instruments=rows))


def test_names_in_any_alphabet_survive() -> None:
    score = replace(sample_score(), title="Møre – 雨")  # ASCII where that can be read alike, and the rest as it is
    assert read(midi_bytes(score)).tracks[0].name == "More - 雨"
