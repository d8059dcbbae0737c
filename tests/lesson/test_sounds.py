"""Every instrument and background in one recording, with markers: read back from the file."""

from __future__ import annotations

import struct
from pathlib import Path

import numpy as np
import pytest
import soundfile

from sonify import lesson
from sonify.errors import SonifyError

SECONDS_A_BAR = 4 * 60 / 90


@pytest.fixture(scope="module")
def recording(tmp_path_factory: pytest.TempPathFactory) -> Path:
    return lesson.write_sounds(tmp_path_factory.mktemp("sounds") / "sounds.wav")


def markers(wav: bytes) -> dict[str, int]:
    """Label and frame of every marker, by the RIFF and WAVE descriptions (Microsoft and IBM 1991, from memory)."""
    frames, labels, at = {}, {}, 12
    while at < len(wav):
        kind, size = struct.unpack_from("<4sI", wav, at)
        body = wav[at + 8 : at + 8 + size]
        if kind == b"cue ":
            for row in range(struct.unpack_from("<I", body)[0]):
                name, *_, frame = struct.unpack_from("<II4sIII", body, 4 + 24 * row)
                frames[name] = frame
        if kind == b"LIST" and body[:4] == b"adtl":
            inner = 4
            while inner < len(body):
                _, length, name = struct.unpack_from("<4sII", body, inner)
                labels[name] = body[inner + 12 : inner + 8 + length].rstrip(b"\0").decode("utf-8")
                inner += 8 + length + length % 2
        at += 8 + size + size % 2
    return {labels[name]: frame for name, frame in frames.items()}


def test_a_marker_names_every_instrument_and_background_where_it_begins(recording: Path) -> None:
    instruments, backgrounds = lesson.sounds()
    found = markers(recording.read_bytes())
    names = [row.name for row in instruments] + [f"{kind.capitalize()} (background)" for kind in backgrounds]
    assert list(found) == [f"{number} {name}" for number, name in enumerate(names, start=1)]
    bars = np.concatenate([2 * np.arange(len(instruments)), 2 * len(instruments) + 4 * np.arange(len(backgrounds))])
    np.testing.assert_allclose(list(found.values()), bars * SECONDS_A_BAR * 44_100, rtol=0, atol=50)


def test_every_one_of_them_is_heard_in_its_place(recording: Path) -> None:
    mix, rate = soundfile.read(recording)
    places = sorted(markers(recording.read_bytes()).values())
    for first, last in zip(places, [*places[1:], len(mix)], strict=True):
        strokes = mix[first : first + rate] if last - first < 6 * rate else mix[first:last]  # backgrounds swell
        assert np.sqrt(np.mean(strokes**2)) > 0.003, f"nothing at {first / rate:.1f} s"


def test_only_a_wav_is_written(tmp_path: Path) -> None:
    with pytest.raises(SonifyError, match=r"sounds.mp3: the recording is a WAV file"):
        lesson.write_sounds(tmp_path / "sounds.mp3")
    assert list(tmp_path.iterdir()) == []
