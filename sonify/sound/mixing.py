"""The mix: every part at its place, the room's answer to all of them, the natural sounds, the end's fade."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction

import numpy as np

from sonify.records.score import Score
from sonify.sound.balance import balance
from sonify.sound.beds import Beds
from sonify.sound.engine import players_of
from sonify.sound.events import FADE_S, SoundEvent, length_frames
from sonify.sound.rate import BLOCK, RATE_HZ, Samples
from sonify.sound.room import Room
from sonify.sound.seating import places, sides
from sonify.sound.voices.bank import Bank


def fade_of(block: int, frames: int) -> Samples | None:
    """The end's fade within a block, or None before it. Nothing sounds after the last frame."""
    start, fade = block * BLOCK, round(FADE_S * RATE_HZ)
    if start + BLOCK <= frames - fade:
        return None
    left = np.clip((frames - start - np.arange(BLOCK, dtype=np.float32)) / fade, 0.0, 1.0)
    return np.asarray(0.5 - 0.5 * np.cos(np.pi * left), dtype=np.float32)


class MixingDesk:
    """A Score on its way to the mix, block after block, each of these asked for its blocks in order.

    `near` and `far`: the strokes, parts shared out between two hands so that they may be made beside each other; who
    has which part follows from the Score, so the sums are the same with one core. `finished`: with room and natural
    sounds.
    """

    def __init__(self, score: Score, bank: Bank, start: Fraction | int | None = None) -> None:
        self.score, self.frames = score, length_frames(score)
        balanced = balance(score)
        played, self._levels = balanced.events, balanced.levels
        self._players, self.first = players_of(score, balanced, bank, start)
        self._sides = [sides(place) for place in places(score)]
        self._far = far_parts(played, len(self.blocks))
        self._room = Room()
        self._beds: Beds | None = None

    @property
    def blocks(self) -> range:
        return range(self.first, -(-self.frames // BLOCK))

    @property
    def beds(self) -> Beds:
        """The natural sounds, made when they are first asked for."""
        if self._beds is None:
            self._beds = Beds(self.score, self._levels)
        return self._beds

    def near(self, block: int) -> Samples | None:
        """The strokes of the parts that are made here, at their places, 2 by BLOCK, or None for silence."""
        return self._strokes(block, [part for part in range(len(self._players)) if part not in self._far])

    def far(self, block: int) -> Samples | None:
        """The strokes of all other parts."""
        return self._strokes(block, sorted(self._far))

    def _strokes(self, block: int, parts: Sequence[int]) -> Samples | None:
        out: Samples | None = None
        scaled = np.empty(BLOCK, dtype=np.float32)
        for part in parts:
            alone, gains = self._players[part].block(block), self._sides[part]
            if alone is None:
                continue
            if out is None:
                out = np.multiply(alone, np.array(gains, dtype=np.float32)[:, None])
                continue
            for ear, gain in enumerate(gains):
                np.multiply(alone, np.float32(gain), out=scaled)
                out[ear] += scaled
        return out

    def finished(self, near: Samples | None, far: Samples | None, block: int) -> Samples:
        """The block as it sounds, unscaled, 2 by BLOCK; the last one cut at the end."""
        dry = near if far is None else far if near is None else near + far
        out = np.zeros((2, BLOCK), dtype=np.float32) if dry is None else dry.copy()
        self._room.add(dry, out)
        self.beds.add(block, out)
        fade = fade_of(block, self.frames)
        if fade is not None:
            out *= fade
        return out[:, : self.frames - block * BLOCK]


#: What a part's strokes cost, about, in thousandths of a second: a new sound, a stroke, a block of a held note; what
#: each block costs besides: room, natural sounds, measuring. Only the balance between two hands rests on it.
NEW_SOUND, A_STROKE, HELD_BLOCK, OTHER_BLOCK = 1.0, 0.03, 0.1, 4.0


def far_parts(played: Sequence[Sequence[SoundEvent]], blocks: int) -> frozenset[int]:
    """The parts for the other hand: together about half of the work, or all of them where the rest is more."""
    costs = [_cost(events) for events in played]
    half, taken = (sum(costs) + OTHER_BLOCK * blocks) / 2.0, 0.0
    far: set[int] = set()
    for part in sorted(range(len(costs)), key=lambda part: (-costs[part], part)):
        if taken + costs[part] <= half:
            far.add(part)
            taken += costs[part]
    return frozenset(far)


def _cost(events: Sequence[SoundEvent]) -> float:
    held = sum((event.stop - event.start) / BLOCK + 1.0 for event in events if event.stroke.held)
    return NEW_SOUND * len({event.stroke for event in events}) + A_STROKE * len(events) + HELD_BLOCK * held


def blocks_of(score: Score, bank: Bank, start: Fraction | int | None = None) -> Iterator[Samples]:
    """The unscaled mix, 2 by BLOCK at a time."""
    desk = MixingDesk(score, bank, start)
    for block in desk.blocks:
        yield desk.finished(desk.near(block), desk.far(block), block)
