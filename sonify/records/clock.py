"""Exact time. Beats are fractions of a crotchet; seconds follow from the tempo as a MIDI file stores it.

Beat 0 is the first beat of bar 1; the count-in has negative beats. Seconds count from the start of the file,
that is from the start of the count-in. Nothing here rounds but `microseconds`, once, as the file format does.
"""

from __future__ import annotations

from bisect import bisect_right
from dataclasses import dataclass
from fractions import Fraction

MICROSECONDS_A_MINUTE = 60_000_000


def microseconds(bpm: float) -> int:
    """Microseconds a crotchet, as a Standard MIDI File stores a tempo.

    >>> microseconds(120), microseconds(90)
    (500000, 666667)
    """
    return round(MICROSECONDS_A_MINUTE / bpm)


@dataclass(frozen=True, slots=True, kw_only=True)
class Tempo:
    """From the first beat of `bar` on, `bpm` crotchets a minute."""

    bar: int
    bpm: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Clock:
    """Beats to seconds and back. `tempi` in order of bars, the first at bar 1; the count-in takes the first tempo."""

    beats_a_bar: int
    count_in_bars: int
    tempi: tuple[Tempo, ...]

    def __post_init__(self) -> None:
        if not self.tempi or self.tempi[0].bar != 1:
            raise ValueError("the first tempo belongs to bar 1")
        if any(b.bar <= a.bar for a, b in zip(self.tempi, self.tempi[1:], strict=False)):
            raise ValueError("tempi come in order of bars")

    @property
    def count_in_beats(self) -> int:
        return self.count_in_bars * self.beats_a_bar

    def _corners(self) -> list[tuple[Fraction, Fraction, Fraction]]:
        """(beat, seconds at that beat, seconds a beat) where a tempo begins, the count-in first."""
        corners: list[tuple[Fraction, Fraction, Fraction]] = []
        beat, second = Fraction(-self.count_in_beats), Fraction(0)
        per_beat = Fraction(microseconds(self.tempi[0].bpm), 1_000_000)
        corners.append((beat, second, per_beat))
        for tempo in self.tempi[1:]:
            start = Fraction((tempo.bar - 1) * self.beats_a_bar)
            second += (start - beat) * per_beat
            beat, per_beat = start, Fraction(microseconds(tempo.bpm), 1_000_000)
            corners.append((beat, second, per_beat))
        return corners

    def seconds(self, beat: Fraction | int) -> Fraction:
        """Exact seconds from the start of the file."""
        return self.many_seconds([Fraction(beat)])[0]

    def many_seconds(self, beats: list[Fraction]) -> list[Fraction]:
        """`seconds` of each beat, working out the corners once."""
        corners = self._corners()
        starts = [corner[0] for corner in corners]
        found = []
        for beat in beats:
            start, second, per_beat = corners[max(0, bisect_right(starts, beat) - 1)]
            found.append(second + (beat - start) * per_beat)
        return found

    def beat_at(self, second: Fraction | float) -> Fraction:
        """The beat that sounds at a time: the inverse of `seconds`."""
        corners = self._corners()
        at = Fraction(second)
        start, begun, per_beat = corners[max(0, bisect_right([c[1] for c in corners], at) - 1)]
        return start + (at - begun) / per_beat

    def beat_of_bar(self, bar: int) -> Fraction:
        """The absolute beat on which a bar begins. Bar 1 begins on beat 0."""
        return Fraction((bar - 1) * self.beats_a_bar)

    def bar_and_beat(self, beat: Fraction | int) -> tuple[int, Fraction]:
        """Bar from 1, and beat within the bar from 1. The bar before bar 1 is bar 0."""
        bar = int(Fraction(beat) // self.beats_a_bar)
        return bar + 1, Fraction(beat) - bar * self.beats_a_bar + 1
