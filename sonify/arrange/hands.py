"""What hands and breath can do: strokes a second, sustained and in short bursts. Our own limits, none published.

Two strokes a second sustained (`Instrument.fastest_per_s`), four in short bursts with alternating hands; the reasons
for such limits (children's tapping rates) could only be read in abstracts.
"""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from fractions import Fraction

from sonify.records.instrument import Instrument
from sonify.records.score import Note

#: A burst has to be made up for within so many seconds.
WINDOW_S = 4.0
#: Nobody of 7 to 11 strikes faster than this, even for a moment.
MOST_IN_A_BURST_PER_S = 4.0
#: Families on which one pupil can sound two notes at once; on all others one.
TWO_HANDED = ("bars", "keys", "strings")
#: Families that need breath, and the longest that a tune may go on without one.
BREATHING, BREATH_S = ("voice", "wind"), 9.0
#: Beats are exact, seconds are not quite: a hundred-thousandth of a second is no fault.
_SLACK_S = 1e-5


def burst_per_s(row: Instrument) -> float:
    """The fastest strokes of one player for a moment, both hands in turn."""
    return max(row.fastest_per_s, min(2.0 * row.fastest_per_s, MOST_IN_A_BURST_PER_S))


def most_in_window(row: Instrument) -> int:
    """The most strokes of one player within WINDOW_S (the stroke exactly so long ago does not count)."""
    return max(1, int(WINDOW_S * row.fastest_per_s + 1e-9))


class Hands:
    """One player's strokes so far, to ask whether one more can be played. Times only go forward."""

    def __init__(self, row: Instrument) -> None:
        self.row = row
        self.struck: list[float] = []
        self._soonest_s, self._most = 1.0 / burst_per_s(row) - _SLACK_S, most_in_window(row)

    def can_strike(self, second: float) -> bool:
        if not self.struck:
            return True
        if second - self.struck[-1] < self._soonest_s:
            return False
        recent = len(self.struck) - bisect_left(self.struck, second - WINDOW_S + _SLACK_S)
        return recent + 1 <= self._most

    def strike(self, second: float) -> None:
        self.struck.append(second)

    def copy(self) -> Hands:
        """The same strokes so far, to try some more."""
        found = Hands(self.row)
        found.struck = self.struck[-2 * most_in_window(self.row) :]
        return found


def beats_of(played: Sequence[Note]) -> list[Fraction]:
    """The beats on which some notes begin, each once, in order (compared as floats, which tell them apart)."""
    found: dict[float, Fraction] = {}
    for note in played:
        above, below = note.beat.as_integer_ratio()
        found[above / below] = note.beat
    return [found[at] for at in sorted(found)]


def too_fast_at(seconds: Sequence[float], row: Instrument) -> float | None:
    """The first moment at which one player of these strokes (in order) is over the limits, or None."""
    hands = Hands(row)
    for second in seconds:
        if not hands.can_strike(second):
            return second
        hands.strike(second)
    return None


def within_reach(seconds: Iterable[float], row: Instrument) -> list[bool]:
    """Which of these strokes (in order) one player can play, taking each that is still possible."""
    hands, kept = Hands(row), []
    for second in seconds:
        can = hands.can_strike(second)
        if can:
            hands.strike(second)
        kept.append(can)
    return kept
