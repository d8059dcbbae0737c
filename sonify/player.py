"""Playing through the machine's loudspeaker: the only place that opens a sound device."""

from __future__ import annotations

from collections.abc import Callable

from sonify.errors import SonifyError
from sonify.records.score import Score
from sonify.sound.live import stream_blocks
from sonify.sound.rate import RATE_HZ


class NoSoundDevice(SonifyError):
    """This machine cannot play: PortAudio or an output device is missing."""


def play(score: Score, at: Callable[[float], None]) -> None:
    """Play the Score while it renders, telling `at` the seconds heard so far. Raises NoSoundDevice."""
    try:
        import sounddevice
    except OSError as error:  # raised on import where the PortAudio library is missing
        raise NoSoundDevice(f"no sound can be played here: {error}") from error
    try:
        with sounddevice.OutputStream(samplerate=RATE_HZ, channels=2, dtype="float32") as stream:
            sent = 0
            for block in stream_blocks(score):
                stream.write(block)
                sent += len(block)
                at(max(0.0, sent / RATE_HZ - float(stream.latency)))
    except sounddevice.PortAudioError as error:
        raise NoSoundDevice(f"no sound can be played here: {error}") from error
