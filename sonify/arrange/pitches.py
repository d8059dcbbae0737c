"""The scale on an instrument: which of its notes it has, which bars come off, and a rule's pitch as a note."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from functools import lru_cache

import numpy as np

from sonify.frozen import dataclass
from sonify.records.fact import Fact, fact
from sonify.records.instrument import Instrument
from sonify.records.scene import Scale
from sonify.records.timeline import FloatArray
from sonify.records.words import NOTE_LETTERS

#: Swap bars that come with barred instruments: F sharp for F, B flat for B (reference table 5.4, from memory).
SWAP_BARS = {6: 5, 10: 11}
#: Instruments whose bars lift off a frame; of single bars, bells and tubes the unwanted are simply not given out.
_LIFTED = ("xylophone", "metallophone", "glockenspiel")


@dataclass(frozen=True, slots=True, kw_only=True)
class Tuning:
    """The scale as one instrument has it. notes: MIDI, rising. missing: pitch classes of the scale that it lacks."""

    notes: tuple[int, ...]
    tonic: int
    off: tuple[int, ...]
    on: tuple[int, ...]
    missing: tuple[int, ...]

    def index(self, note: float) -> int:
        """The place of the note nearest to a pitch; halfway, the lower."""
        above = bisect_left(self.notes, note)
        near = range(max(above - 1, 0), min(above + 1, len(self.notes)))
        return min(near, key=lambda i: abs(self.notes[i] - note))

    def step(self, place: int) -> int:
        """The note so many scale steps up from the lowest; beyond the ends the steps turn back."""
        top = len(self.notes) - 1
        if place < 0:
            place = -place
        if place > top:
            place = 2 * top - place
        return self.notes[min(max(place, 0), top)]

    @property
    def tonics(self) -> tuple[int, ...]:
        found = tuple(i for i, note in enumerate(self.notes) if note % 12 == self.tonic)
        return found or (0,)

    def chord_root(self, above: int) -> int:
        """The place of a chord's root, so many semitones over the tonic, nearest to the lowest one; else the tonic."""
        home = self.tonics[0]
        wanted = [i for i, note in enumerate(self.notes) if (note - self.tonic) % 12 == above % 12]
        return min(wanted, key=lambda i: (abs(self.notes[i] - self.notes[home]), i)) if wanted else home

    def fifth_above(self, place: int) -> int:
        """The place of the scale note nearest to a fifth above, or a fourth below where that is too high."""
        wanted = self.notes[place] + 7
        return self.index(wanted if wanted <= self.notes[-1] + 1 else wanted - 12)


@lru_cache(maxsize=1024)
def tuning(row: Instrument, scale: Scale) -> Tuning:
    """The notes of a scale on a pitched instrument."""
    scale_notes = set(scale.pitch_classes)
    has = set(row.bars) or set(range(12))
    on: set[int] = set()
    if row.bars and row.family == "bars":
        # A swap bar takes the place of its neighbour: only where the scale does not want that one, too.
        on = {bar for bar, place in SWAP_BARS.items() if bar in scale_notes and place not in scale_notes}
    usable = scale_notes & (has | on)
    missing = scale_notes - usable
    if not usable:
        usable = has
    notes = tuple(n for n in range(row.low, row.high + 1) if n % 12 in usable)
    off = tuple(sorted(pc for pc in has - scale_notes)) if row.bars else ()
    return Tuning(
        notes=notes or (row.low,),
        tonic=scale.tonic,
        off=off,
        on=tuple(sorted(on)),
        missing=tuple(sorted(missing)),
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Fitted:
    """A rule's pitches as notes, and their places in a tuning. octaves: added to fit. held: how many lay outside the
    range even so."""

    notes: tuple[int, ...]
    places: tuple[int, ...]
    octaves: int
    held: int


def fitted(asked: Sequence[float], notes: Tuning, beside: Sequence[float] = ()) -> Fitted:
    """Each asked pitch as the nearest note, moved by whole octaves so that as many as possible are in range.

    Direction is kept: what still lies outside is held at the end of the range, and counted. beside: what parts ask that
    are to be compared with this one, moved by the same octaves.
    """
    whole = np.asarray([*asked, *beside], dtype=float)
    values = np.asarray(asked, dtype=float)
    low, high = notes.notes[0] - 0.5, notes.notes[-1] + 0.5

    def outside(pitches: FloatArray, octaves: int) -> int:
        moved = pitches + 12 * octaves
        return int(np.sum((moved < low) | (moved > high)))

    octaves = min(range(-6, 7), key=lambda k: (outside(whole, k), abs(k), k))
    places = tuple(notes.index(float(value) + 12 * octaves) for value in values)
    at = tuple(notes.notes[place] for place in places)
    return Fitted(notes=at, places=places, octaves=octaves, held=outside(values, octaves))


def letters(pitch_classes: Iterable[int]) -> tuple[str, ...]:
    """Pitch classes by their letters.

    >>> letters([5, 11])
    ('F', 'B')
    """
    return tuple(NOTE_LETTERS[pc] for pc in pitch_classes)


def bars_sentence(row: Instrument, notes: Tuning) -> Fact | None:
    """What to do to the instrument before the lesson; None where nothing."""
    if not row.bars:
        return None
    lifted = row.id.rpartition("-")[2] in _LIFTED
    swapped = [SWAP_BARS[pc] for pc in notes.on]
    off = [pc for pc in notes.off if pc not in swapped]
    words = []
    if swapped:
        words.append(fact("part-put-on", on=letters(notes.on), off=letters(swapped)))
    if off:
        words.append(fact("part-take-off" if lifted else "part-leave-out", bars=letters(off)))
    if not words:
        return None
    what = words[0] if len(words) == 1 else fact("part-job-and", one=words[0], other=words[1])
    return fact("part-bars-ready", instrument=row.name, what=what)
