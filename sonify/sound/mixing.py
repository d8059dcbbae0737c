"""The mix: every part at its place, the room's answer to all of them, the natural sounds, the end's fade."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import chain

import numpy as np

from sonify.records.score import Score
from sonify.sound.balance import balance
from sonify.sound.beds import Beds
from sonify.sound.engine import players_of
from sonify.sound.events import FADE_S, SoundEvent, length_frames
from sonify.sound.hands import Sounds
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

    `near` and `far`: shared out between two hands, so that they may be made beside each other: here the strokes of some
    parts; there those of the others, and the natural sounds. Who has which part follows from the Score, so the sums are
    the same with one core. `finished`: both, with the room.
    """

    def __init__(self, score: Score, bank: Bank, start: Fraction | int | None = None) -> None:
        self.score, self.frames = score, length_frames(score)
        balanced = balance(score)
        played, self._levels = balanced.events, balanced.levels
        self._players, self.first = players_of(score, balanced, bank, start)
        self._sides = [sides(place) for place in places(score)]
        self._far = far_parts(played, len(self.blocks), len(score.beds))
        self._room = Room()
        self._beds: Beds | None = None

    @property
    def blocks(self) -> range:
        return range(self.first, -(-self.frames // BLOCK))

    def near(self, block: int) -> Samples | None:
        """The strokes of the parts that are made here, at their places, 2 by BLOCK, or None for silence."""
        return self._strokes(block, [part for part in range(len(self._players)) if part not in self._far])

    def far(self, block: int) -> Sounds:
        """The strokes of all other parts, and the natural sounds, which are made when they are first asked for."""
        if self._beds is None:
            self._beds = Beds(self.score, self._levels)
        background = np.zeros((2, BLOCK), dtype=np.float32) if self._beds.sounds(block) else None
        if background is not None:
            self._beds.add(block, background)
        return [self._strokes(block, sorted(self._far)), background]

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

    def finished(self, near: Samples | None, far: Sounds, block: int) -> Samples:
        """The block as it sounds, unscaled, 2 by BLOCK; the last one cut at the end."""
        strokes, background = far
        dry = near if strokes is None else strokes if near is None else near + strokes
        out = np.zeros((2, BLOCK), dtype=np.float32) if dry is None else dry.copy()
        self._room.add(dry, out)
        if background is not None:
            out += background
        fade = fade_of(block, self.frames)
        if fade is not None:
            out *= fade
        return out[:, : self.frames - block * BLOCK]


#: What things cost, about, in thousandths of a second: a new sound, a stroke, a block of a held note; of each block
#: room, measuring and scratch, and a bed; to make a bed's loops; a block of a part as a stem, and one of any stem in
#: the file. Only the balance between two hands rests on it.
NEW_SOUND, A_STROKE, HELD_BLOCK = 1.8, 0.04, 0.12
MIX_BLOCK, BED_BLOCK, BED_LOOPS = 1.5, 0.3, 30.0
STEM_BLOCK, FILE_BLOCK = 1.0, 0.3


def far_parts(played: Sequence[Sequence[SoundEvent]], blocks: int, beds: int) -> frozenset[int]:
    """The parts for the other hand, which has the natural sounds too, so that it has about half of the work."""
    costs = [_strokes_cost(events) + _sounds_cost(events) for events in played]
    begun = beds * (BED_LOOPS + BED_BLOCK * blocks)
    return _shared_out(costs, costs, MIX_BLOCK * blocks, begun)


def far_stems(played: Sequence[Sequence[SoundEvent]], blocks: int, made_far: frozenset[int]) -> frozenset[int]:
    """The parts whose stems are for the other hand. made_far: `far_parts`, whose sounds the other hand has already."""
    here, far, written = [], [], blocks
    for part, events in enumerate(played):
        sounding = _sounding_blocks(events)
        cost, sounds = _strokes_cost(events) + STEM_BLOCK * sounding, _sounds_cost(events)
        here.append(cost + sounds if part in made_far else cost)
        far.append(cost if part in made_far else cost + sounds)
        written += sounding
    return _shared_out(here, far, FILE_BLOCK * written, 0.0)


def _shared_out(here: Sequence[float], far: Sequence[float], begun_here: float, begun_far: float) -> frozenset[int]:
    """Which of the parts go to the other hand: the costliest first, each to where it is done sooner."""
    out = set()
    for part in sorted(range(len(here)), key=lambda part: (-here[part], part)):
        if begun_far + far[part] <= begun_here + here[part]:
            out.add(part)
            begun_far += far[part]
        else:
            begun_here += here[part]
    return frozenset(out)


def _strokes_cost(events: Sequence[SoundEvent]) -> float:
    held = sum((event.stop - event.start) / BLOCK + 1.0 for event in events if event.stroke.held)
    return A_STROKE * len(events) + HELD_BLOCK * held


def _sounding_blocks(events: Sequence[SoundEvent]) -> int:
    """Blocks in which a part's strokes begin, are held or ring."""
    spans = (range(event.start // BLOCK, max(event.start + BLOCK, event.stop) // BLOCK + 1) for event in events)
    return len(set(chain.from_iterable(spans)))


def _sounds_cost(events: Sequence[SoundEvent]) -> float:
    return NEW_SOUND * len({event.stroke for event in events})


def blocks_of(score: Score, bank: Bank, start: Fraction | int | None = None) -> Iterator[Samples]:
    """The unscaled mix, 2 by BLOCK at a time."""
    desk = MixingDesk(score, bank, start)
    for block in desk.blocks:
        yield desk.finished(desk.near(block), desk.far(block), block)
