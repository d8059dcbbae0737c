"""A Score's stems, unscaled, block after block: every part with a room of its own."""

from __future__ import annotations

import numpy as np

from sonify.records.score import Score
from sonify.sound.balance import balance
from sonify.sound.engine import Player, players_of
from sonify.sound.events import length_frames
from sonify.sound.hands import Sounds
from sonify.sound.mixing import far_parts, far_stems
from sonify.sound.rate import BLOCK, Samples
from sonify.sound.room import Room
from sonify.sound.seating import places, sides
from sonify.sound.voices.bank import Bank


class Stems:
    """The parts at their places, asked for block after block: `far`, those of the other hand, and `all`, with them."""

    def __init__(self, score: Score, bank: Bank) -> None:
        self._score, self._bank = score, bank
        events, blocks = balance(score).events, -(-length_frames(score) // BLOCK)
        made_far = far_parts(events, blocks, len(score.beds))
        self.far_parts = sorted(far_stems(events, blocks, made_far))
        self._sides = [sides(place) for place in places(score)]
        self._players: list[Player] = []
        self._rooms: list[Room] = []

    def far(self, block: int) -> Sounds:
        """The stems of the other hand's parts."""
        return [self._stem(part, block) for part in self.far_parts]

    def all(self, block: int, far: Sounds) -> Sounds:
        """All parts' stems in order."""
        others = dict(zip(self.far_parts, far, strict=True))
        return [others[n] if n in others else self._stem(n, block) for n in range(len(self._sides))]

    def _stem(self, part: int, block: int) -> Samples | None:
        """A part's block at its place in the room."""
        if not self._players:  # each hand makes its own, when it comes to them
            self._players = players_of(self._score, balance(self._score), self._bank)[0]
            self._rooms = [Room(gains) for gains in self._sides]
        dry, room = self._players[part].block(block), self._rooms[part]
        if dry is None:
            if room.quiet:
                return None
            out = np.zeros((2, BLOCK), dtype=np.float32)
            room.add(None, out)
        else:
            out = np.multiply(dry, np.array(self._sides[part], dtype=np.float32)[:, None])
            room.add(dry[None], out)
        return out
