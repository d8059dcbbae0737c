"""A Score heard at once: live, on a page, or every sound there is in turn."""

from __future__ import annotations

from collections.abc import Callable
from pathlib import Path

from sonify.errors import SonifyError
from sonify.recording import write_wav
from sonify.records.fact import wrong
from sonify.records.instrument import Instrument
from sonify.records.score import Score
from sonify.records.sounds import PageSounds
from sonify.sound.landscape import KINDS as BACKGROUND_KINDS
from sonify.sound.page import page_sounds
from sonify.study.reading import catalogue


def play(score: Score, at: Callable[[float], None], ask: Callable[[], str] = lambda: "") -> Path | None:
    """Play the Score, telling `at` the seconds heard so far and asking `ask` for commands (see `player.Playing`).

    Where nothing can play, returns a WAV made instead.
    """
    from sonify.recording import player

    try:
        player.play(score, at, ask)
    except player.NoSoundDevice:
        return write_wav(score, _free_path(score.scene))
    return None


def sounds() -> tuple[tuple[Instrument, ...], tuple[str, ...]]:
    """Everything that can sound: the instruments of the catalogue, and the backgrounds."""
    return catalogue().instruments, tuple(BACKGROUND_KINDS)


def write_sounds(path: str | Path) -> Path:
    """A recording of every instrument and background in turn, with a marker where each begins."""
    from sonify.sound.showcase import showcase

    if Path(path).suffix.lower() != ".wav":
        raise SonifyError(wrong("error_files-recording-wav-file", path=path))
    return write_wav(showcase(*sounds()), path)


def _free_path(stem: str) -> Path:
    """`STEM.wav`, or the first of `STEM-2.wav` and so on that is not there yet."""
    path, number = Path(f"{stem}.wav"), 2
    while path.exists():
        path, number = Path(f"{stem}-{number}.wav"), number + 1
    return path


def sounds_of(score: Score) -> PageSounds:
    """The Score's sounds for a page that is heard at once: as loud as the recording will be, as near as can be told."""
    return page_sounds(score)
