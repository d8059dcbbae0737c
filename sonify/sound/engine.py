"""A Score as blocks of sound: every part's dry strokes on the block grid, before panning and room."""

from __future__ import annotations

import zlib
from collections.abc import Sequence
from fractions import Fraction
from functools import cache

import numpy as np

from sonify.records.score import Score
from sonify.sound.balance import Balance
from sonify.sound.ducking import DUCK_STEP
from sonify.sound.events import SOUNDED, SoundEvent
from sonify.sound.ramps import ramps
from sonify.sound.rate import BLOCK, RATE_HZ, STEP, Floats, Samples, frame
from sonify.sound.voices.bank import Bank, longest_frames
from sonify.sound.voices.keeping import KeptVoice
from sonify.sound.voices.modal import LN_1000
from sonify.sound.voices.recorded import recorded
from sonify.sound.voices.records import Shot

RING_BLOCKS = -(-longest_frames() // BLOCK) + 2


class Player:
    """One part's dry sound, block after block, on a ring of memory as long as the longest stroke."""

    def __init__(
        self,
        events: list[SoundEvent],
        bank: Bank,
        first_block: int = 0,
        table: Samples | None = None,
        under: Samples | None = None,
        place: int = 0,
    ) -> None:
        """table: to work on, as long as the longest stroke; Players of one thread may share it.

        under: gain at the corners of every DUCK_STEP, for a part that gives way to others. place: the part's own, so
        that parts which hold one note together are several voices, not one that is louder.
        """
        self._bank = bank
        self._under = under
        self._place = place
        self._events = events
        self._next = next((i for i, e in enumerate(events) if e.start >= first_block * BLOCK), len(events))
        longest = longest_of(events)
        self._blocks = RING_BLOCKS if longest <= longest_frames() else -(-longest // BLOCK) + 2
        self._ring = np.zeros((self._blocks, BLOCK), dtype=np.float32)
        self._flat = self._ring.reshape(-1)
        self._dirty = [False] * self._blocks
        self._held: list[tuple[SoundEvent, Shot]] = []
        self._table = table if table is not None and table.size >= longest else np.empty(longest, dtype=np.float32)

    def block(self, number: int) -> Samples | None:
        """Block `number`, or None for silence. Blocks are asked for in order; the array is lent until the next call."""
        end = (number + 1) * BLOCK
        slot = number % self._blocks
        before = (number - 1) % self._blocks
        if self._dirty[before]:
            self._ring[before] = 0.0
            self._dirty[before] = False
        while self._next < len(self._events) and self._events[self._next].start < end:
            event = self._events[self._next]
            self._next += 1
            kept = self._bank.kept(event.stroke)
            if kept.steps.size:
                self._strike(event, kept)
            if kept.held.loop.size:
                self._held.append((event, kept.held))
        if self._held:
            for event, shot in self._held:
                self._sustain(event, shot, number)
            self._held = [(event, shot) for event, shot in self._held if _gone(event, shot) > end]
            self._dirty[slot] = True
        if not self._dirty[slot]:
            return None
        if self._under is not None:  # later blocks add nothing to this one, so it may be changed where it lies
            first = number * (BLOCK // DUCK_STEP)
            self._ring[slot] *= ramps(self._under[first : first + BLOCK // DUCK_STEP + 1], DUCK_STEP)
        return np.asarray(self._ring[slot])

    def _strike(self, event: SoundEvent, kept: KeptVoice) -> None:
        steps, damped, fading = kept.steps, None, None
        if event.ring_s:
            fading = dying(event.ring_s)
            steps = steps[: SOUNDED + fading.size]
        if event.stop and kept.held.damp_s:
            damped = damping(kept.held.damp_s)
            steps = steps[: event.stop - event.start + damped.size]
        scaled = self._table[: steps.size]
        np.copyto(scaled, steps)
        scaled *= np.float32(event.gain) * kept.unit
        if fading is not None:
            tail = scaled[SOUNDED:]
            tail *= fading[: tail.size]
        if damped is not None:
            tail = scaled[event.stop - event.start :]
            tail *= damped[: tail.size]
        at = event.start % self._flat.size
        first = min(steps.size, self._flat.size - at)
        self._flat[at : at + first] += scaled[:first]
        if first < steps.size:
            self._flat[: steps.size - first] += scaled[first:]
        for block in range(event.start // BLOCK, (event.start + steps.size - 1) // BLOCK + 1):
            self._dirty[block % self._blocks] = True

    def _sustain(self, event: SoundEvent, shot: Shot, number: int) -> None:
        """The held note's stretch within a block."""
        begin = max(event.start, number * BLOCK)
        end = min(_gone(event, shot), (number + 1) * BLOCK)
        if end <= begin:
            return
        offset = begin - event.start
        first = offset // STEP
        last = (end - event.start - 1) // STEP + 1
        at = (np.arange(first, last + 1) * STEP) / RATE_HZ
        length_s = (event.stop - event.start) / RATE_HZ
        gain = ramps(envelope(shot, at, length_s, crest_of(event)) * event.gain, STEP)
        gain = gain[offset - first * STEP :][: end - begin]
        # No two notes begin at the same place of the loop; what is shaken with the beat begins at another beat of it.
        shake = event.stroke.shake
        begun = self._place * shake if shake else event.start * 7919 + self._place * 104_729
        where = (offset + begun) % shot.loop.size
        index = begin - number * BLOCK
        out = self._ring[number % self._blocks]
        done = 0
        while done < gain.size:
            run = min(gain.size - done, shot.loop.size - where)
            out[index + done : index + done + run] += shot.loop[where : where + run] * gain[done : done + run]
            done, where = done + run, 0


def longest_of(events: Sequence[SoundEvent]) -> int:
    """No stroke of a part is longer than so many frames."""
    own = (recorded(name) for name in {event.stroke.instrument for event in events})
    return max([longest_frames(), *(voice.steps.size for voice in own if voice is not None)])


def _gone(event: SoundEvent, shot: Shot) -> int:
    return event.stop + round(shot.release_s * RATE_HZ)


def crest_of(event: SoundEvent) -> float:
    return CRESTS[zlib.crc32(event.start.to_bytes(8, "little")) % len(CRESTS)]


@cache
def dying(ring_s: float) -> Samples:
    """Gain of a ring that is cut short: straight down in decibels, and nothing 60 dB later."""
    t = np.arange(round(ring_s * RATE_HZ), dtype=np.float32) / RATE_HZ
    return np.asarray(np.exp(-LN_1000 / ring_s * t), dtype=np.float32)


def cut_short(samples: Samples, ring_s: float) -> Samples:
    """A stroke whose ring is cut short, as a Player sounds it; 0: as it is."""
    if not ring_s:
        return samples
    fading = dying(ring_s)
    out = samples[: SOUNDED + fading.size].copy()
    out[SOUNDED:] *= fading[: max(0, out.size - SOUNDED)]
    return out


@cache
def damping(damp_s: float) -> Samples:
    """Gain of a stroke after a hand has stopped it: it dies with a T60 of damp_s, and is gone 12 dB later."""
    t = np.arange(round(1.2 * damp_s * RATE_HZ), dtype=np.float32) / RATE_HZ
    return np.asarray(np.exp(-LN_1000 / damp_s * t), dtype=np.float32)


#: Where waves break: 0.25, 0.37, 0.44, 0.52 and 0.63 of their length, so that crests come at unequal distances, from
#: 0.6 to 1.4 of a wave. Which of them follows from where the note begins.
CRESTS = (0.85, 0.5, 1.5, 0.7, 1.05)


#: A note of SUNG_S or more swells by 4 dB to its crest, at two fifths of it, and as much back (ours).
SUNG, SUNG_S, SUNG_CREST = 0.23, 2.0, 0.75


def envelope(shot: Shot, t: Floats, length_s: float, crest: float = CRESTS[0]) -> Floats:
    """Gain of a held note, t seconds after its start. crest: one of CRESTS, for waves.

    steady: in, hold, out. wave: one swell, as beads run from side to side. fall: soon there, then slowly running dry.
    roll: it grows while it is shaken, and rings a while. sung: it swells and gives way, as breath does; the longer the
    note, the more.
    """
    attack, release = min(shot.attack_s, 0.5 * length_s), shot.release_s
    rise = np.clip(t / max(attack, 1e-4), 0.0, 1.0)
    after = np.clip((length_s + release - t) / max(release, 1e-4), 0.0, 1.0)
    edges = (rise * (2.0 - rise)) * (after * after * (3.0 - 2.0 * after))
    x = np.clip(t / (length_s + release), 0.0, 1.0)
    if shot.envelope == "wave":
        return np.asarray(edges * (0.12 + 1.3 * np.sin(np.pi * x**crest) ** 2))
    if shot.envelope == "roll":
        return np.asarray(
            edges * (0.25 + 0.75 * np.minimum(1.0, x / 0.35) ** 1.5) * (1.0 - 0.5 * np.maximum(0.0, x - 0.5))
        )
    if shot.envelope == "sung":
        much = SUNG * min(1.0, length_s / SUNG_S)
        return np.asarray(edges * (1.0 + much * (2.0 * np.sin(np.pi * x**SUNG_CREST) ** 2 - 1.0)))
    if shot.envelope == "fall":
        return np.asarray(edges * np.minimum(1.0, 0.35 + 6.0 * x) * (1.0 - 0.75 * x**1.5) * 1.3)
    return np.asarray(edges)


def players_of(
    score: Score, balanced: Balance, bank: Bank, start: Fraction | int | None = None
) -> tuple[list[Player], int]:
    """One Player a part, and the number of the block that holds beat `start` (None: the beginning of the file)."""
    first = 0 if start is None else frame(score.clock.seconds(start)) // BLOCK
    table = np.empty(longest_frames(), dtype=np.float32)
    parts = enumerate(zip(balanced.events, balanced.under, strict=True))
    return [Player(events, bank, first, table, under, place) for place, (events, under) in parts], first
