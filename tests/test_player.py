"""Playing under commands: a stand-in for the sound device takes the blocks."""

from __future__ import annotations

from collections.abc import Callable

import numpy as np
import pytest

from sonify.recording.player import IDLE_FRAMES, Playing
from sonify.sound.rate import RATE_HZ, Samples
from tests.sample import sample_score

SCORE = sample_score()
CLOCK = SCORE.clock


class Tape:
    """Keeps what it is given; `latency` in seconds, as sounddevice has it."""

    latency = 0.1

    def __init__(self) -> None:
        self.blocks: list[Samples] = []

    def write(self, data: Samples) -> None:
        self.blocks.append(data)

    @property
    def seconds(self) -> float:
        return sum(map(len, self.blocks)) / RATE_HZ


def asked(script: dict[int, str]) -> Callable[[], str]:
    """Commands by the number of the question: {30: "pause"}."""
    count = iter(range(10**9))
    return lambda: script.get(next(count), "")


def played(script: dict[int, str]) -> tuple[Tape, list[float]]:
    tape, heard = Tape(), []  # type: ignore[var-annotated]
    Playing(SCORE, heard.append, asked(script)).through(tape)
    return tape, heard


def test_the_piece_is_played_whole_and_the_time_told_is_what_is_heard() -> None:
    tape, heard = played({})
    assert tape.seconds >= float(CLOCK.seconds(SCORE.end_beat))
    assert heard == sorted(heard)
    assert heard[-1] == pytest.approx(tape.seconds - Tape.latency)


def test_stop_stops_at_once() -> None:
    tape, _ = played({20: "stop"})
    assert len(tape.blocks) == 20


def test_pause_plays_silence_and_the_same_block_follows() -> None:
    straight, _ = played({60: "stop"})
    tape, _ = played({30: "pause", 40: "pause", 72: "stop"})
    silent = [k for k, block in enumerate(tape.blocks) if len(block) == IDLE_FRAMES and not block.any()]
    assert silent == list(range(30, 40))
    with_sound = [block for k, block in enumerate(tape.blocks) if k not in silent]
    for ours, theirs in zip(with_sound, straight.blocks, strict=False):
        np.testing.assert_array_equal(ours, theirs)


@pytest.mark.parametrize(("command", "bar"), [("again", 1), ("next", 5), ("before", 1)])
def test_a_stage_begins_on_its_own_bar(command: str, bar: int) -> None:
    told: list[float] = []
    script = asked({100: command, 102: "stop"})  # ten seconds in: bar 1 of the first stage has begun
    Playing(SCORE, told.append, script).through(Tape())
    start = float(CLOCK.seconds(CLOCK.beat_of_bar(bar)))
    assert told[-1] == pytest.approx(start + 0.1 - Tape.latency, abs=0.02)
