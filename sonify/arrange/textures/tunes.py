"""The grammar of tunes: families of rhythm and of ornament, for classroom percussion and voices (our own).

A tune is phrases of four bars, "a b a c": c comes to rest. On the strong beats stand the notes that the pitch rule asks
for, each where the key puts it. What stands between them is ornament: it may be left out (the easy line repeats the
note before it), and none of it is on a strong beat.
"""

from __future__ import annotations

from collections.abc import Callable, Collection, Sequence
from fractions import Fraction
from functools import cache

import numpy as np

from sonify.arrange.pitches import Tuning
from sonify.arrange.rhythms import Rhythm, rhythm
from sonify.frozen import dataclass
from sonify.kinds.lines import LINES

#: Beats of a bar, from 0, that the key's own notes stand on.
STRONG = {4: (0, 2), 3: (0,), 2: (0,)}

#: Beats in a bar -> family: bars a, b and c, the plainest line that has it, the youngest year.
_RHYTHMS: dict[int, dict[str, tuple[tuple[str, str, str], str, int]]] = {
    4: {
        "long": (("h h", "H q", "H r"), "easy", 3),
        "sway": (("h h", "q H", "w"), "easy", 3),
        "walk": (("q q q q", "q q h", "h q r"), "easy", 3),
        "stride": (("h q q", "h h", "q q q r"), "easy", 3),
        "call": (("q q h", "q r r q", "q r q r"), "easy", 3),
        "march": (("q q q r", "h q q", "q q R"), "easy", 3),
        "gap": (("q r q q", "q q r q", "q q q r"), "easy", 3),
        "run": (("q ee q q", "q q h", "q ee q r"), "easy", 3),
        "gallop": (("ee q ee q", "ee q q q", "ee q q r"), "stretch", 4),
        "skip": (("d e q q", "q q d e", "d e q r"), "stretch", 5),
        "late": (("q xe q q", "q q q xe", "q xe q r"), "stretch", 5),
    },
    3: {
        "long": (("H", "h q", "h r"), "easy", 3),
        "walk": (("q q q", "h q", "q q r"), "easy", 3),
        "swing": (("h q", "q q q", "q R"), "easy", 3),
        "lilt": (("q h", "H", "q q r"), "easy", 3),
        "run": (("q ee q", "h q", "q ee r"), "easy", 3),
        "patter": (("ee q q", "q h", "ee q r"), "easy", 4),
        "gallop": (("ee ee q", "q ee q", "ee q r"), "stretch", 4),
        "skip": (("d e q", "q d e", "d e r"), "stretch", 5),
        "late": (("q xe q", "q q xe", "q xe r"), "stretch", 5),
    },
    2: {
        "long": (("h", "q q", "q r"), "easy", 3),
        "walk": (("q q", "h", "q r"), "easy", 3),
        "gap": (("q r", "q q", "q r"), "easy", 3),
        "run": (("q ee", "q q", "q r"), "easy", 3),
        "turn": (("ee q", "q ee", "ee r"), "core", 4),
        "gallop": (("ee ee", "ee q", "ee r"), "core", 4),
        "skip": (("d e", "q q", "q xe"), "stretch", 5),
        "late": (("q xe", "q ee", "q r"), "stretch", 5),
    },
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Family:
    """Three bars that go together: a begins, b differs, c comes to rest."""

    name: str
    bars: tuple[Rhythm, Rhythm, Rhythm]
    line: str

    def __hash__(self) -> int:
        return hash(self.name)

    @property
    def quick(self) -> bool:
        """Whether there is anything between the beats."""
        return any(onset.denominator > 1 for bar in self.bars for onset in bar.onsets)

    def bar(self, number: int, bars: int) -> Rhythm:
        """The rhythm of a bar, from 0, in a phrase of so many: a b a c, shorter ones cut in the middle."""
        if number == bars - 1 and bars > 1:
            return self.bars[2]
        return self.bars[number % 2]


@cache
def families(beats: int, line: str, year: int) -> tuple[Family, ...]:
    """Those that a line may use, in the order of the table."""
    able = LINES[: LINES.index(line) + 1]
    return tuple(
        Family(name=name, bars=(rhythm(a), rhythm(b), rhythm(c)), line=least)
        for name, ((a, b, c), least, since) in _RHYTHMS[beats].items()
        if least in able and year >= since
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class Gap:
    """What an ornament has to go by: the place of the key's note before it and after it, the chord's root and fifth
    (places), its number among `many`, and which way to turn where the key stays (1 up, -1 down)."""

    before: int
    after: int
    root: int
    fifth: int
    number: int
    many: int
    way: int


def _towards(gap: Gap) -> int:
    if gap.after == gap.before:
        return gap.way
    return 1 if gap.after > gap.before else -1


def _passing(gap: Gap) -> int:
    far = abs(gap.after - gap.before)
    return gap.before + _towards(gap) * min(gap.number + 1, max(far - 1, 1))


def _nearest(gap: Gap, *places: int) -> int:
    """The chord's place nearest to the key's note, but another one; else its neighbour."""
    others = [place for place in places if 0 < abs(place - gap.before) <= 2]
    return min(others, key=lambda place: abs(place - gap.before)) if others else gap.before + gap.way


#: Families of ornament: the scale place of each note between the key's notes.
ORNAMENTS: dict[str, Callable[[Gap], int]] = {
    "echo": lambda gap: gap.before,
    "neighbour": lambda gap: gap.before + (gap.way if gap.number % 2 == 0 else 0),
    "turn": lambda gap: gap.before + (gap.way, -gap.way)[gap.number % 2],
    "passing": _passing,
    "third": lambda gap: gap.before + 2 * _towards(gap),
    "early": lambda gap: gap.after if gap.after != gap.before else gap.before + gap.way,
    "home": lambda gap: _nearest(gap, gap.root),
    "bordun": lambda gap: _nearest(gap, *((gap.root, gap.fifth) if gap.number % 2 else (gap.fifth, gap.root))),
    "arch": lambda gap: gap.before + _towards(gap) * min(gap.number + 1, gap.many - gap.number),
}


def ornament(name: str, gap: Gap, notes: Tuning, chord: Collection[int]) -> int:
    """The place of an ornament on an instrument, drawn to a note of the chord (pitch classes) that lies beside it.

    Beyond the ends of the instrument it goes the other way.
    """
    place = ORNAMENTS[name](gap)
    if not 0 <= place < len(notes.notes):
        place = 2 * gap.before - place
    place = min(max(place, 0), len(notes.notes) - 1)
    if name == "echo" or notes.notes[place] % 12 in chord:
        return place
    near = [at for at in (place + gap.way, place - gap.way) if 0 <= at < len(notes.notes) and at != gap.before]
    return next((at for at in near if notes.notes[at] % 12 in chord), place)


@dataclass(frozen=True, slots=True, kw_only=True)
class Motif:
    """A tune that a group learns: its rhythms and its ornament."""

    rhythms: Family
    ornament: str


def motifs(able: Sequence[Family], count: int, bars: int, rng: np.random.Generator, line: str) -> tuple[Motif, ...]:
    """By lot `count` motifs, or more, until there are so many different bars; each brings at least two that are new."""
    left = [able[int(place)] for place in rng.permutation(len(able))]
    if line == "stretch":
        left.sort(key=lambda family: family.line != "stretch")  # what only this line has comes first
    chosen: list[Family] = []
    heard: set[frozenset[Fraction]] = set()
    while left and (len(chosen) < count or len(heard) < bars):
        new = [len({bar.onsets for bar in family.bars} - heard) for family in left]
        at = next((i for i, fresh in enumerate(new) if fresh >= min(2, max(new))), 0)
        if chosen and max(new) == 0 and len(chosen) >= count:
            break
        chosen.append(left.pop(at))
        heard |= {bar.onsets for bar in chosen[-1].bars}
    kinds = list(ORNAMENTS)[1:]
    order = [kinds[int(place)] for place in rng.permutation(len(kinds))]
    return tuple(
        Motif(rhythms=family, ornament="echo" if line == "easy" else order[number % len(order)])
        for number, family in enumerate(chosen)
    )


def strong_before(onset: Fraction, beats: int) -> int:
    """The strong beat that an onset in a bar stands on or after."""
    return max(beat for beat in STRONG[beats] if beat <= onset)
