from __future__ import annotations

import hashlib
import io
import os
import subprocess
import sys
from dataclasses import replace
from fractions import Fraction as F
from pathlib import Path

import numpy as np
import pytest

from sonify.recording import second_core
from sonify.recording.second_core import beside
from sonify.records.clock import Tempo
from sonify.records.score import Note, Part, Score
from sonify.sound.balance import balance
from sonify.sound.engine import Player, cut_short, players_of
from sonify.sound.events import events_of, frames_at
from sonify.sound.hands import Beside, here
from sonify.sound.live import stream_blocks
from sonify.sound.rate import BLOCK, RATE_HZ, frame
from sonify.sound.voices.bank import VOICES, Bank, strength, stroke_of
from sonify.sound.voices.records import Blown, Shaken, Struck
from tests.catalogue import catalogue
from tests.sample import sample_score
from tests.sound.recording import brief_score

ROOT = Path(__file__).resolve().parents[2]
HELD = [
    row
    for row in catalogue().instruments
    if isinstance(voice := VOICES[row.id], Blown) or (isinstance(voice, Shaken) and voice.always_held)
]


def alone(instrument: str, *notes: Note, texture: str = "melody", blocks: int = 12) -> np.ndarray:
    """A part's dry sound with nothing else."""
    part = Part(name="x", group=1, instrument=instrument, texture=texture, notes=notes)
    score = replace(sample_score(), tempi=(Tempo(bar=1, bpm=60),), count_in_bars=0, parts=(part,))
    player = Player(events_of(score, part), Bank(1))
    silence = np.zeros(BLOCK, dtype=np.float32)
    return np.concatenate([silence if (b := player.block(n)) is None else b.copy() for n in range(blocks)])


def note(beat: float, beats: float = 1.0, midi: int = 67, velocity: int = 100) -> Note:
    return Note(beat=F(beat), beats=F(beats), midi=midi, velocity=velocity)


def level_db(samples: np.ndarray, start_s: float, end_s: float) -> float:
    piece = samples[round(start_s * 44_100) : round(end_s * 44_100)]
    return float(10 * np.log10(np.mean(piece.astype(float) ** 2) + 1e-15))


@pytest.mark.parametrize("instrument", ["voices-oo", "recorder"])
def test_groups_that_hold_one_note_together_are_several_and_not_one_that_is_twice_as_strong(instrument: str) -> None:
    """Sounds that have nothing in common add up to 3 dB more, the very same sound twice to 6 dB more."""
    notes = tuple(note(beat, 0.9) for beat in range(1, 9))
    parts = tuple(
        Part(name=name, group=1, instrument=instrument, texture="melody", notes=notes) for name in ("one", "other")
    )
    score = replace(sample_score(), tempi=(Tempo(bar=1, bpm=60),), count_in_bars=0, parts=parts, sections=())
    players, _ = players_of(score, balance(score), Bank(1))
    heard = [[block.copy() for n in range(8) if (block := player.block(n)) is not None] for player in players]
    one, other = (np.concatenate(blocks).astype(float) for blocks in heard)
    together_db = 10.0 * np.log10(np.sum((one + other) ** 2) / np.sum(one**2))
    assert 1.0 < together_db < 5.0, together_db


def test_many_beats_fall_where_the_clock_has_them() -> None:
    clock = sample_score().clock
    beats = [F(k, 7) - 8 for k in range(300)]
    expected = [frame(float(s)) for s in clock.many_seconds(beats)]
    np.testing.assert_allclose(frames_at(clock, [float(beat) for beat in beats]), expected, atol=0)


@pytest.mark.parametrize("instrument", ["hand-bells", "keyboard"])
def test_damped_strokes_stop_at_the_notes_end(instrument: str) -> None:
    samples = alone(instrument, note(0, 1.0))
    assert level_db(samples, 1.5, 1.7) < level_db(samples, 0.8, 1.0) - 30
    voice = VOICES[instrument]
    assert isinstance(voice, Struck)
    third = voice.damp_s / 3  # 20 dB
    fall = level_db(samples, 0.98, 1.0) - level_db(samples, 1.0 + third - 0.01, 1.0 + third + 0.01)
    assert 14 < fall < 28
    ringing = alone(instrument, note(0, 8.0))
    assert level_db(ringing, 1.5, 1.7) > level_db(samples, 1.5, 1.7) + 20


def test_a_metallophone_rings_into_the_next_note_and_is_stopped_at_a_rest() -> None:
    through = alone("alto-metallophone", note(0, 1.0), note(1, 1.0, midi=60))
    rest = alone("alto-metallophone", note(0, 1.0), note(3, 1.0, midi=60))
    assert level_db(rest, 2.0, 2.5) < level_db(rest, 0.8, 1.0) - 40
    spectrum = np.abs(np.fft.rfft(through[88_200:132_300]))
    first = round(440 * 2 ** ((67 - 69) / 12))
    assert spectrum[first - 3 : first + 4].max() > 30 * np.median(spectrum[first - 40 : first - 10])


@pytest.mark.parametrize("row", HELD, ids=lambda row: row.id)
def test_a_held_note_lasts_its_length_and_no_click_marks_its_ends(row) -> None:  # type: ignore[no-untyped-def]
    key = row.low if row.pitched else row.gm_key
    samples = alone(row.id, note(0.25, 3.0, midi=key), texture="drone")
    voice = VOICES[row.id]
    assert level_db(samples, 0.5, 3.0) > -60
    gone = round((3.25 + voice.release_s + 0.05) * 44_100)
    assert not samples[gone:].any() and not samples[: round(0.25 * 44_100)].any()
    inside = np.abs(np.diff(samples[22_050:132_300]))
    edges = np.concatenate([np.diff(samples[11_000:11_200]), np.diff(samples[gone - 2400 : gone])])
    assert np.abs(edges).max() <= inside.max()


def test_a_note_longer_than_its_loop_goes_on_without_a_seam() -> None:
    samples = alone("recorder", note(0, 9.0, midi=79), texture="drone", blocks=11)
    steady = samples[44_100 : 8 * 44_100]
    jumps = np.abs(np.diff(steady))
    assert jumps.max() < 1.2 * np.quantile(jumps, 0.999)
    levels = [level_db(steady, t, t + 0.5) for t in np.arange(0, 6.5, 0.5)]
    assert max(levels) - min(levels) < 0.5


def test_waves_break_at_unequal_distances() -> None:
    """Eight waves of an ocean drum, alike on paper: from crest to crest, by the level of every 50 ms."""
    samples = alone("ocean-drum", *(note(4.0 * k, 4.0, midi=69) for k in range(8)), texture="drone", blocks=32)
    size = 2205
    levels = (samples[: samples.size // size * size].reshape(-1, size).astype(float) ** 2).mean(axis=1)
    smooth = np.convolve(levels, np.hanning(13), "same")
    crests = [80 * k + int(np.argmax(smooth[80 * k : 80 * (k + 1)])) for k in range(8)]
    apart = np.diff(crests) * 0.05
    assert apart.max() - apart.min() > 0.8
    assert np.all(np.abs(apart - 4.0) < 2.0)


def test_rings_are_cut_short_where_strokes_come_thick_and_only_there() -> None:
    """Four strokes a second: each is over in about a second, the time of the four after it; the last ones ring out."""
    notes = tuple(note(0.25 * k, 0.25, midi=81) for k in range(9))
    part = Part(name="x", group=1, instrument="triangle", texture="scatter", notes=notes)
    score = replace(sample_score(), tempi=(Tempo(bar=1, bpm=60),), count_in_bars=0)
    assert [event.ring_s for event in events_of(score, part)] == [1.3] * 5 + [0.0] * 4
    lone = alone("triangle", note(0, midi=81))
    assert level_db(lone, 1.9, 2.0) - level_db(lone, 0.1, 0.2) > -30.0
    shot, kept = lone[: 3 * RATE_HZ], cut_short(lone[: 3 * RATE_HZ], 1.3)
    np.testing.assert_array_equal(kept[:4096], shot[:4096])  # as loud, and begun alike
    third = 4096 + round(1.3 / 3 * RATE_HZ)
    assert abs(kept[third - 50 : third + 50] / shot[third - 50 : third + 50] - 0.1).max() < 0.01  # 20 dB further down


def test_level_goes_with_velocity_by_the_published_law() -> None:
    # 40 log10(v / 127) dB: v 108/89/70/57/44/32 -> -2.8/-6.2/-10.3/-13.9/-18.4/-23.9 (reference table 5.3)
    printed = {108: "-2.8", 89: "-6.2", 70: "-10.3", 57: "-13.9", 44: "-18.4", 32: "-23.9"}
    for velocity, db in printed.items():
        assert 20 * np.log10(strength(velocity)) == pytest.approx(float(db), abs=0.051)


def test_repeated_strokes_differ_a_little() -> None:
    samples = alone("wood-block", note(0, 0.5), note(1, 0.5), note(2, 0.5), note(3, 0.5))
    strokes = [samples[k * 44_100 : k * 44_100 + 4000] for k in range(4)]
    np.testing.assert_array_equal(strokes[0], strokes[3])  # three variants in turn
    for k in (1, 2):
        assert not np.array_equal(strokes[0], strokes[k])
        assert abs(level_db(strokes[0], 0, 0.09) - level_db(strokes[k], 0, 0.09)) < 1.0


def digest(score: Score, by: Beside = here, *, in_one_go: bool = True) -> str:
    from sonify.sound.render import render, write_stems, write_wav
    from sonify.sound.writing import stem_names

    rendering = render(score, io.BytesIO(), stems=in_one_go, beside=by)
    outs = [io.BytesIO() for _ in range(1 + len(stem_names(score)))]
    write_wav(rendering, outs[0])
    write_stems(rendering, outs[1:], beside=by)
    return hashlib.sha256(b"".join(out.getvalue() for out in outs)).hexdigest()


@pytest.mark.skipif(not hasattr(os, "sched_setaffinity"), reason="cores can be taken away on Linux only")
def test_bytes_do_not_depend_on_the_number_of_cores() -> None:
    script = (
        "import os\n"
        "os.sched_setaffinity(0, {sorted(os.sched_getaffinity(0))[0]})\n"
        "from tests.sound.recording import brief_score\n"
        "from tests.sound.test_engine import digest\n"
        "print(digest(brief_score()))\n"
    )
    env = {**os.environ, "OPENBLAS_NUM_THREADS": "1", "PYTHONPATH": str(ROOT)}
    one_core = subprocess.run(
        [sys.executable, "-c", script], capture_output=True, text=True, check=True, cwd=ROOT, env=env
    )
    assert one_core.stdout.strip() == digest(brief_score())


@pytest.mark.skipif(not hasattr(os, "fork"), reason="this system does not copy processes")
def test_bytes_do_not_depend_on_whether_a_second_core_helps(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(second_core, "can_help", lambda: True)
    helped = digest(brief_score(), beside)
    assert helped == digest(brief_score()) == digest(brief_score(), beside, in_one_go=False)


def test_samples_do_not_depend_on_the_size_of_the_blocks_asked_for() -> None:
    whole = np.concatenate(list(stream_blocks(brief_score())))
    for frames in (64, 1000, 100_000):
        np.testing.assert_array_equal(np.concatenate(list(stream_blocks(brief_score(), frames=frames))), whole)


def test_a_stroke_kept_in_16_bits_is_the_stroke_that_was_made() -> None:
    """The noise of keeping lies 96 dB and more under its peak: less than the recording's own 16 bits have."""
    bank = Bank(1)
    stroke = stroke_of("alto-metallophone", 67, 100, 0.8, turn=0, held=False)
    made, kept = bank._make(stroke).samples, bank.shot(stroke).samples
    assert not np.array_equal(made, kept)
    assert 10 * np.log10(np.mean((made - kept) ** 2.0) / np.max(made**2.0)) < -96
