"""Exact time. Beats are fractions of a crotchet; seconds follow from the tempo as a MIDI file stores it.

Beat 0 is the first beat of bar 1; the count-in has negative beats. Seconds count from the start of the file,
that is from the start of the count-in. Nothing here rounds but `microseconds`, once, as the file format does.
"""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Iterable, Iterator
from fractions import Fraction
from functools import lru_cache

from sonify.frozen import dataclass

MICROSECONDS_A_SECOND = 1_000_000
MICROSECONDS_A_MINUTE = 60 * MICROSECONDS_A_SECOND


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

    def seconds(self, beat: Fraction | int) -> Fraction:
        """Exact seconds from the start of the file."""
        return self.many_seconds([Fraction(beat)])[0]

    def many_seconds(self, beats: Iterable[Fraction]) -> list[Fraction]:
        """`seconds` of each beat."""
        return [Fraction(above, below) for above, below in self._ratios(beats)]

    def float_seconds(self, beats: Iterable[Fraction]) -> list[float]:
        """`many_seconds` as floats, each the nearest to its fraction, which need not be made for it."""
        return [above / below for above, below in self._ratios(beats)]

    def _ratios(self, beats: Iterable[Fraction]) -> Iterator[tuple[int, int]]:
        """The seconds of each beat as one whole number over another. Corners lie on whole beats."""
        starts, corners = _corners(self)
        for beat in beats:
            above, below = beat.as_integer_ratio()
            start, begun_us, beat_us = corners[max(0, bisect_right(starts, above // below) - 1)]
            yield begun_us * below + (above - start * below) * beat_us, MICROSECONDS_A_SECOND * below

    def beat_at(self, second: Fraction | float) -> Fraction:
        """The beat that sounds at a time: the inverse of `seconds`."""
        _, corners = _corners(self)
        at_us = Fraction(second) * MICROSECONDS_A_SECOND
        start, begun_us, beat_us = corners[max(0, bisect_right([corner[1] for corner in corners], at_us) - 1)]
        return start + (at_us - begun_us) / beat_us

    def beat_of_bar(self, bar: int) -> Fraction:
        """The absolute beat on which a bar begins. Bar 1 begins on beat 0."""
        return Fraction((bar - 1) * self.beats_a_bar)

    def bar_and_beat(self, beat: Fraction | int) -> tuple[int, Fraction]:
        """Bar from 1, and beat within the bar from 1. The bar before bar 1 is bar 0."""
        bar = int(Fraction(beat) // self.beats_a_bar)
        return bar + 1, Fraction(beat) - bar * self.beats_a_bar + 1


@lru_cache(maxsize=64)
def _corners(clock: Clock) -> tuple[list[int], list[tuple[int, int, int]]]:
    """Where tempi begin, the count-in first: the beats, and (beat, microseconds at it, microseconds a beat)."""
    beat, begun_us, beat_us = -clock.count_in_beats, 0, microseconds(clock.tempi[0].bpm)
    corners = [(beat, begun_us, beat_us)]
    for tempo in clock.tempi[1:]:
        start = (tempo.bar - 1) * clock.beats_a_bar
        begun_us += (start - beat) * beat_us
        beat, beat_us = start, microseconds(tempo.bpm)
        corners.append((beat, begun_us, beat_us))
    return [corner[0] for corner in corners], corners
