from __future__ import annotations

import io
from dataclasses import replace
from fractions import Fraction as F

import librosa
import numpy as np
import pyloudnorm
import pytest
import soundfile
from scipy.signal import resample_poly

from sonify.sound.events import TAIL_S
from sonify.sound.render import render
from sonify.sound.writing import stem_names, write_stems
from tests.sample import sample_score
from tests.sound.recording import read, read_24, record, recording


def test_the_wav_is_16_bit_stereo_of_the_promised_length() -> None:
    info = soundfile.info(io.BytesIO(recording().wav))
    score = recording().score
    assert (info.samplerate, info.channels, info.subtype) == (44_100, 2, "PCM_16")
    assert info.frames == round(float(score.clock.seconds(score.end_beat)) * 44_100) + round(TAIL_S * 44_100)


def test_loudness_by_another_meter_is_minus_18() -> None:
    oracle = pyloudnorm.Meter(44_100, filter_class="DeMan").integrated_loudness(read(recording().wav).T)
    assert oracle == pytest.approx(-18.0, abs=0.1)
    assert recording().rendering.lufs == pytest.approx(oracle, abs=0.05)
    assert recording().rendering.on_target


def test_true_peak_by_another_oversampler_is_at_most_minus_1() -> None:
    peak = max(np.abs(resample_poly(channel, 8, 1)).max() for channel in read(recording().wav))
    assert 20 * np.log10(peak) <= -1.0 + 0.05  # 16-bit dither adds a little; the meters' filters differ
    assert 20 * np.log10(peak) == pytest.approx(recording().rendering.peak_dbtp, abs=0.3)


def test_stems_sum_to_the_mix_within_one_24_bit_step() -> None:
    total = sum(read_24(wav) for wav in recording().stems.values())
    assert np.abs(total - recording().mix * 8_388_607.0).max() <= 1.0


def test_there_is_one_stem_a_part_and_one_for_the_background() -> None:
    score = recording().score
    assert stem_names(score) == (*(part.name for part in score.parts), "background")
    assert all(np.abs(read_24(wav)).max() > 10_000 for wav in recording().stems.values())


def test_the_same_score_gives_the_same_bytes_and_another_seed_does_not() -> None:
    assert record(sample_score(), stems=False).wav == recording().wav
    assert record(replace(sample_score(), seed=1), stems=False).wav != recording().wav


def test_there_is_no_direct_current() -> None:
    assert np.abs(read(recording().wav).mean(axis=1)).max() < 1e-4


def test_the_end_is_silent() -> None:
    assert np.abs(recording().mix[:, -20:]).max() < 1e-4
    assert np.abs(recording().mix[:, -441:]).max() < 1e-3


def test_a_part_is_silent_until_it_enters() -> None:
    score = recording().score
    part = next(p for p in score.parts if p.name == "The cloud")
    entry = round(float(score.clock.seconds(part.notes[0].beat)) * 44_100)
    stem = read_24(recording().stems["The cloud"])
    assert not stem[:, :entry].any()
    assert np.abs(stem[:, entry : entry + 441]).max() > 1000


@pytest.mark.long  # tests/lesson/test_outputs_agree.py hears the stems of a whole pack
@pytest.mark.parametrize("name", ["count-in", "Rising vapour", "The cloud", "The rain"])
def test_onsets_heard_in_a_stem_are_those_of_the_score(name: str) -> None:
    score = recording().score
    part = next(p for p in score.parts if p.name == name)
    written = np.array([float(score.clock.seconds(note.beat)) for note in part.notes])
    sound = (read_24(recording().stems[name]).sum(axis=0) / 2**23).astype(np.float32)
    sound = np.concatenate([np.zeros(4410, np.float32), sound])  # a stroke at 0 s has nothing to rise from
    heard = _onsets(sound) - 0.1
    for onset in written:
        assert np.abs(heard - onset).min() < 0.010, f"{name}: nothing heard at {onset:.3f} s"


def _onsets(sound: np.ndarray) -> np.ndarray:
    """Peaks of librosa's onset strength, picked by scipy: librosa's own picker is compiled at run time, and crashed."""
    from scipy.signal import find_peaks

    strength = librosa.onset.onset_strength(y=sound, sr=44_100, hop_length=64, n_fft=512, n_mels=40)
    peaks, _ = find_peaks(strength / strength.max(), prominence=0.05, distance=20)
    return peaks * 64 / 44_100


def test_where_the_score_is_silent_the_recording_is() -> None:
    """Two strokes of claves far apart: between them, once the room has died, nothing at all."""
    score = sample_score()
    count_in = replace(score.parts[0], notes=(score.parts[0].notes[0], replace(score.parts[0].notes[1], beat=F(30))))
    mix = record(replace(score, parts=(count_in,), beds=()), stems=False).mix
    second = round(float(score.clock.seconds(30)) * 44_100)
    assert np.abs(mix[:, :4410]).max() > 0.01 and np.abs(mix[:, second : second + 4410]).max() > 0.01
    assert not mix[:, 2 * 44_100 : second].any()


def test_a_silent_score_is_rendered_as_silence_and_reported() -> None:
    score = sample_score()
    empty = replace(score, parts=tuple(replace(part, notes=()) for part in score.parts), beds=())
    rendering = render(empty, io.BytesIO())
    assert not rendering.on_target and rendering.lufs == -np.inf


def test_the_wrong_number_of_stems_is_refused() -> None:
    with pytest.raises(ValueError, match="7 stems need as many outputs, not 1"):
        write_stems(recording().rendering, [io.BytesIO()])


def test_notes_fall_on_their_sample() -> None:
    """The first sample of the first stroke is where the clock has it."""
    score = sample_score()
    lone = replace(
        score,
        beds=(),
        parts=tuple(replace(p, notes=p.notes[:1] if p.name == "Rising vapour" else ()) for p in score.parts),
    )
    mix = record(lone, stems=False).mix
    first = int(np.flatnonzero(np.abs(mix).sum(axis=0) > 1e-6)[0])
    assert first - round(float(score.clock.seconds(F(8))) * 44_100) in (0, 1)
