"""The mix: every part at its place, the room's answer to all of them, the natural sounds, the end's fade."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction

import numpy as np

from sonify.records.score import Score
from sonify.sound.beds import Beds
from sonify.sound.engine import players_of
from sonify.sound.events import FADE_S, length_frames
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


class Desk:
    """A Score on its way to the mix: `dry` the strokes, `finished` with room and natural sounds, block after block.

    The two halves share nothing, so that they may run in two threads, each in order.
    """

    def __init__(self, score: Score, bank: Bank, start: Fraction | int | None = None) -> None:
        self.score, self.frames = score, length_frames(score)
        self._players, self.first = players_of(score, bank, start)
        self._sides = [sides(place) for place in places(score)]
        self._room: Room | None = None  # made by the first `finished`, in its thread, as are the natural sounds
        self.beds: Beds | None = None

    @property
    def blocks(self) -> range:
        return range(self.first, -(-self.frames // BLOCK))

    def dry(self, block: int) -> Samples | None:
        """All parts at their places, 2 by BLOCK, or None for silence."""
        out: Samples | None = None
        part = np.empty(BLOCK, dtype=np.float32)
        for player, gains in zip(self._players, self._sides, strict=True):
            alone = player.block(block)
            if alone is None:
                continue
            if out is None:
                out = np.multiply(alone, np.array(gains, dtype=np.float32)[:, None])
                continue
            for ear, gain in enumerate(gains):
                np.multiply(alone, np.float32(gain), out=part)
                out[ear] += part
        return out

    def finished(self, dry: Samples | None, block: int) -> Samples:
        """The block as it sounds, unscaled, 2 by BLOCK; the last one cut at the end."""
        if self._room is None or self.beds is None:
            self._room, self.beds = Room(), Beds(self.score)
        out = np.zeros((2, BLOCK), dtype=np.float32) if dry is None else dry.copy()
        self._room.add(dry, out)
        self.beds.add(block, out)
        fade = fade_of(block, self.frames)
        if fade is not None:
            out *= fade
        return out[:, : self.frames - block * BLOCK]


def dry_blocks(desk: Desk) -> Iterator[tuple[Samples | None, int]]:
    """Every dry block with its number."""
    for block in desk.blocks:
        yield desk.dry(block), block


def blocks_of(score: Score, bank: Bank, start: Fraction | int | None = None) -> Iterator[Samples]:
    """The unscaled mix, 2 by BLOCK at a time, in one thread."""
    desk = Desk(score, bank, start)
    for block in desk.blocks:
        yield desk.finished(desk.dry(block), block)
