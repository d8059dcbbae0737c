"""Sounds of pupils' own: what is kept of a file, what is refused, and what a scene says of them.

Files are written by soundfile (libsndfile), which is outside the project; levels and lengths are worked out here.
"""

from __future__ import annotations

import hashlib
import io
from pathlib import Path

import numpy as np
import pytest
import soundfile

from sonify import lesson
from sonify.errors import BadFile
from sonify.inputs.sound_file import KEPT_PEAK, LARGEST_BYTES, read_own_sound
from sonify.records.instrument import stands_for
from sonify.records.own_sound import KEPT_HZ
from tests.inputs.samples import SCENE

TONE_HZ = 1_000.0


def tone(seconds: float, rate_hz: int = 44_100, level: float = 0.2) -> np.ndarray:
    return level * np.sin(2 * np.pi * TONE_HZ * np.arange(round(seconds * rate_hz)) / rate_hz)


def as_file(samples: np.ndarray, rate_hz: int = 44_100, container: str = "WAV", subtype: str | None = None) -> bytes:
    out = io.BytesIO()
    soundfile.write(out, samples, rate_hz, format=container, subtype=subtype)
    return out.getvalue()


def kept(data: bytes) -> np.ndarray:
    return np.frombuffer(read_own_sound(data, file="crisps.wav"), dtype="<i2").astype(float)


@pytest.mark.parametrize(
    ("container", "rate_hz"), [("WAV", 44_100), ("WAV", 8_000), ("FLAC", 96_000), ("OGG", 48_000), ("MP3", 44_100)]
)
def test_a_sound_is_kept_as_one_channel_trimmed_and_at_its_pitch(container: str, rate_hz: int) -> None:
    quiet = np.zeros(rate_hz // 2)
    samples = np.concatenate([quiet, tone(0.5, rate_hz), quiet])
    found = kept(as_file(np.stack([samples, 0.5 * samples], axis=1), rate_hz, container))
    assert found.size / KEPT_HZ == pytest.approx(0.5, abs=0.08)
    assert np.abs(found).max() == pytest.approx(KEPT_PEAK, abs=1)
    spectrum = np.abs(np.fft.rfft(found * np.hanning(found.size)))
    assert np.fft.rfftfreq(found.size, 1 / KEPT_HZ)[spectrum.argmax()] == pytest.approx(TONE_HZ, abs=5)


def test_ten_seconds_are_kept_and_more_are_refused() -> None:
    assert kept(as_file(tone(10.0))).size == 10 * KEPT_HZ
    with pytest.raises(BadFile, match=r"crisps.wav: longer than 10 seconds"):
        kept(as_file(tone(10.2)))


@pytest.mark.parametrize(
    ("data", "told"),
    [
        (b"", "cannot be read as a sound"),
        (b"RIFF\xff\xff\xff\xffWAVE", "cannot be read as a sound"),
        (b"<html>" * 100, "cannot be read as a sound"),
        (as_file(tone(0.3), container="AIFF"), "no WAV, FLAC, OGG or MP3"),
        (as_file(np.zeros(44_100)), "no sound in it"),
        (as_file(np.full(44_100, np.nan), subtype="FLOAT"), "cannot be read as a sound"),
        (as_file(tone(0.3, 4_000), 4_000), "4000 samples a second"),
        (bytes(LARGEST_BYTES + 1), "larger than 8 MB"),
    ],
    ids=["empty", "head only", "a page", "AIFF", "silent", "no numbers", "slow", "large"],
)
def test_what_is_no_sound_is_told_in_one_line(data: bytes, told: str) -> None:
    with pytest.raises(BadFile) as refused:
        kept(data)
    assert told in str(refused.value) and "\n" not in str(refused.value)


SOUND = (
    SCENE.replace('sounds = ["claves", "claps"]', 'sounds = ["our crisp packets", "claves"]')
    + """
[[sound]]
name = "our crisp packets"
file = "crisps.wav"
"""
)


@pytest.fixture
def folder(tmp_path: Path) -> Path:
    (tmp_path / "rain.toml").write_text(SOUND, encoding="utf-8")
    (tmp_path / "crisps.wav").write_bytes(as_file(tone(0.3)))
    return tmp_path


def test_a_scene_carries_its_sounds_as_data(folder: Path) -> None:
    (found,) = lesson.load(folder / "rain.toml").sounds
    data = (folder / "crisps.wav").read_bytes()
    assert found.sha256 == hashlib.sha256(data).hexdigest()
    assert found.pcm == read_own_sound(data, file="crisps.wav")
    assert stands_for(found.id) == "egg-shaker" != found.id


@pytest.mark.parametrize(
    ("before", "after", "told"),
    [
        ("crisps.wav", "gone.wav", "sound.0.file: gone.wav: there is no such sound file"),
        ("crisps.wav", "../crisps.wav", "sound.0.file: a sound file lies beside this one"),
        ("crisps.wav", "crisps.exe", "sound.0.file: a sound file lies beside this one"),
        ('name = "our crisp packets"\nfile', 'name = "our bags"\nfile', 'no part plays "our bags"'),
        ("our crisp packets", "claves", '"claves" is an instrument already'),
        ('file = "crisps.wav"', 'file = "crisps.wav"\nlike = "glockenspiel"', "glockenspiel, which has notes"),
        ('file = "crisps.wav"', 'file = "crisps.wav"\nlike = "eg shaker"', "sound.0.like"),
    ],
)
def test_what_a_scene_says_wrongly_of_a_sound_names_line_and_key(
    folder: Path, before: str, after: str, told: str
) -> None:
    (folder / "rain.toml").write_text(SOUND.replace(before, after), encoding="utf-8")
    with pytest.raises(BadFile) as refused:
        lesson.load(folder / "rain.toml")
    assert told in str(refused.value) and "line 7" in str(refused.value)
