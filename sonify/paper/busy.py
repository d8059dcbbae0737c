"""Free taps in words, from the taps that are written."""

from __future__ import annotations

from sonify.records.score import Entry, Part, Score
from sonify.records.words import bursts, bursts_told
from sonify.say import say

#: Less of a change than this is called the same (our own choice).
EVEN = 1.25


def taps_of_bars(part: Part, entry: Entry, score: Score) -> dict[int, int]:
    """How many taps the whole group has in each bar of an entry."""
    counts = dict.fromkeys(range(entry.bar, entry.bar + entry.bars), 0)
    for note in part.notes:
        bar = int(note.beat // score.metre.beats) + 1
        if bar in counts:
            counts[bar] += 1
    return counts


def course(part: Part, entry: Entry, score: Score) -> str:
    """Whether few taps become many or many few, and in which bar most are; "" where no tap is written."""
    counts = taps_of_bars(part, entry, score)
    most = max(counts, key=lambda bar: (counts[bar], -bar))
    if not counts[most]:
        return ""
    if runs := bursts(sorted(counts.items())):
        return f"{say(bursts_told(part.name, runs))}; where you are busiest, {each_text(counts[most], most, part)}"
    first, last = counts[entry.bar], counts[entry.bar + entry.bars - 1]
    peak = f"most in bar {most} ({each_text(counts[most], most, part)})"
    if counts[most] < EVEN * max(min(counts.values()), 1):
        return f"about as many taps all through: {each_text(counts[most], most, part)}"
    if counts[most] >= EVEN * max(first, last, 1):
        return f"from few taps to many and back: {peak}"
    return f"from few taps to many: {peak}" if last > first else f"from many taps to few: {peak}"


def each_text(taps: int, bar: int, part: Part) -> str:
    """What the taps of a bar are for each of those whose turn it is."""
    pupils = sum(len(seat.on_duty(bar)) for seat in part.seats) or 1
    each = taps / pupils
    if each < 0.75:
        return "a tap now and then each"
    return f"about {round(each)} tap{'' if round(each) == 1 else 's'} each"
