"""What may be recorded beside the WAV: other formats, a group left out, a click. Read back with soundfile."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest
import soundfile

from sonify import lesson
from sonify.errors import UnknownName
from sonify.recording import Wishes, write_recordings
from tests.sample import sample_lesson, sample_score

SCORE = sample_score()


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    made = tmp_path_factory.mktemp("recordings")
    wishes = Wishes(audio=("flac", "ogg", "mp3", "wav24"), without=("2", "The rain"), click=True)
    write_recordings(SCORE, made, wishes, lambda share: None)
    return made


def test_flac_holds_the_very_samples_of_the_wav(folder: Path) -> None:
    wav, _ = soundfile.read(folder / "soundscape.wav", dtype="int16")
    flac, _ = soundfile.read(folder / "soundscape.flac", dtype="int16")
    np.testing.assert_array_equal(flac, wav)


@pytest.mark.parametrize("kind", ["ogg", "mp3"])
def test_lossy_formats_sound_like_the_wav(folder: Path, kind: str) -> None:
    wav, _ = soundfile.read(folder / "soundscape.wav")
    lossy, rate = soundfile.read(folder / f"soundscape.{kind}")
    assert rate == 44_100 and abs(len(lossy) - len(wav)) < 2_500  # an MP3 is made of frames of 1152 samples
    n = min(len(wav), len(lossy))
    assert np.sqrt(np.mean(lossy[:n] ** 2)) == pytest.approx(np.sqrt(np.mean(wav[:n] ** 2)), rel=0.05)


def test_24_bit_is_the_same_mix_without_dither(folder: Path) -> None:
    fine, _ = soundfile.read(folder / "soundscape-24-bit.wav")
    wav, _ = soundfile.read(folder / "soundscape.wav")
    assert soundfile.info(folder / "soundscape-24-bit.wav").subtype == "PCM_24"
    assert np.abs(fine * 32_767 / 32_768 - wav).max() <= 1.51 / 32_768


def test_a_group_left_out_is_missing_and_the_rest_plays(folder: Path) -> None:
    whole, rate = soundfile.read(folder / "soundscape.wav")
    for name in ("minus-2", "minus-the-rain"):
        minus, _ = soundfile.read(folder / f"{name}.wav")
        assert len(minus) == len(whole)
        assert np.abs(minus).max() > 0.05
        assert np.abs(minus - whole).max() > 0.01


def test_markers_stand_at_stages_and_cues(folder: Path) -> None:
    told = soundfile.info(folder / "soundscape.wav", verbose=True).extra_info
    assert f"Count : {len(SCORE.sections) + len(SCORE.cues)}" in told


def test_the_click_is_a_recording_of_its_own(folder: Path) -> None:
    assert soundfile.info(folder / "soundscape-with-click.wav").frames > 0
    assert len(list((folder / "stems").glob("*.wav"))) == len(SCORE.parts) + 1


def test_unknown_formats_and_groups_are_refused_before_anything_is_written(tmp_path: Path) -> None:
    with pytest.raises(UnknownName, match=r'unknown audio format "flak"; did you mean "flac"'):
        Wishes(audio=("flak",))
    with pytest.raises(UnknownName, match='unknown group "9"'):
        lesson.write_pack(sample_lesson(), out=tmp_path / "pack", wishes=Wishes(without=("9",)))
    assert list(tmp_path.iterdir()) == []
