"""Playing through the machine's loudspeaker: the only place that opens a sound device."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, field
from fractions import Fraction
from typing import Protocol

from sonify.errors import SonifyError
from sonify.records.fact import wrong
from sonify.records.score import Score
from sonify.sound.live import stream_blocks
from sonify.sound.rate import RATE_HZ, Samples

IDLE_FRAMES = RATE_HZ // 20  # silence while paused: keys answer within 50 ms


class NoSoundDevice(SonifyError):
    """This machine cannot play: PortAudio or an output device is missing."""


class Output(Protocol):
    """What a sound device must be able to do: take blocks of frames by 2."""

    @property
    def latency(self) -> float: ...
    def write(self, data: Samples) -> object: ...


@dataclass
class Playing:
    """Playing a Score while it renders, under commands. `ask` returns a command or ""; `at` is told seconds heard.

    Commands: "pause" (and on again), "stop", "again" (the stage from its start), "next" and "before" (a stage).
    """

    score: Score
    at: Callable[[float], None]
    ask: Callable[[], str] = field(default=lambda: "")
    paused: bool = False

    def through(self, output: Output) -> None:
        """Play to the end or until "stop"."""
        start = self._from(None, output)
        while start is not None:
            start = self._from(start, output)

    def _from(self, start: Fraction | None, output: Output) -> Fraction | None:
        """Play from a beat (None: the count-in); returns the beat to go on from, or None at the end or "stop"."""
        clock = self.score.clock
        second = 0.0 if start is None else float(clock.seconds(start))
        for block in stream_blocks(self.score, start):
            while True:
                command = self.ask()
                if command == "stop":
                    return None
                if command == "pause":
                    self.paused = not self.paused
                elif command:
                    return self._stage(command, clock.beat_at(second))
                if not self.paused:
                    break
                output.write(silence())
            output.write(block)
            second += len(block) / RATE_HZ
            self.at(max(0.0, second - float(output.latency)))
        return None

    def _stage(self, command: str, beat: Fraction) -> Fraction:
        """The first beat of this stage, the next or the one before; the last stage has no next."""
        clock, sections = self.score.clock, self.score.sections
        bar, _ = clock.bar_and_beat(beat)
        here = max([k for k, section in enumerate(sections) if section.bar <= max(bar, 1)], default=0)
        there = here + {"again": 0, "next": 1, "before": -1}[command]
        return clock.beat_of_bar(sections[min(max(there, 0), len(sections) - 1)].bar)


def silence() -> Samples:
    import numpy as np

    return np.zeros((IDLE_FRAMES, 2), dtype=np.float32)


def play(score: Score, at: Callable[[float], None], ask: Callable[[], str] = lambda: "") -> None:
    """Play the Score while it renders, telling `at` the seconds heard so far. Raises NoSoundDevice."""
    try:
        import sounddevice
    except OSError as error:  # raised on import where the PortAudio library is missing
        raise NoSoundDevice(wrong("error_files-sound-played-here", error=error)) from error
    try:
        with sounddevice.OutputStream(samplerate=RATE_HZ, channels=2, dtype="float32") as output:
            Playing(score, at, ask).through(output)
    except sounddevice.PortAudioError as error:
        raise NoSoundDevice(wrong("error_files-sound-played-here", error=error)) from error
