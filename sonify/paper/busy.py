"""Free taps in words, from the taps that are written."""

from __future__ import annotations

from sonify.facts.sheet import held, in_bars
from sonify.records.fact import Amount, Claim, Reading, fact
from sonify.records.lesson import Lesson
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


def course(part: Part, entry: Entry, lesson: Lesson) -> str:
    """Whether few taps become many or many few, and in which bar most are; "" where no tap is written."""
    counts = taps_of_bars(part, entry, lesson.score)
    most = max(counts, key=lambda bar: (counts[bar], -bar))
    if not counts[most]:
        return ""
    each = each_text(counts[most], most, part)
    if runs := bursts(sorted(counts.items())):
        told = fact("taps-come-and-go", runs=bursts_told(part.name, runs), each=each)
        return say(held(told.or_else(fact("taps-even", each=each)), lesson))
    first, last = counts[entry.bar], counts[entry.bar + entry.bars - 1]
    if counts[most] < EVEN * max(min(counts.values()), 1):
        return say(fact("taps-even", each=each))
    peak = Amount(value=most, places=0, source=None, given="the bar with the most taps as written")
    plain = fact("taps-most", bar=peak, each=each)
    if counts[most] >= EVEN * max(first, last, 1):
        ends = {"taps-to-many-and-back": [(most, entry.bar), (most, entry.bar + entry.bars - 1)]}
    elif last > first:
        ends = {"taps-to-many": [(entry.bar + entry.bars - 1, entry.bar)]}
    else:
        ends = {"taps-to-few": [(entry.bar, entry.bar + entry.bars - 1)]}
    ((message, pairs),) = ends.items()
    claims = [Claim(kind="busier", left=_in_bar(part, many), right=_in_bar(part, few)) for many, few in pairs]
    return say(held(fact(message, *claims, bar=peak, each=each).or_else(plain), lesson))


def _in_bar(part: Part, bar: int) -> Reading:
    return in_bars("strokes a bar", bar, 1, part.name)


def each_text(taps: int, bar: int, part: Part) -> str:
    """What the taps of a bar are for each of those whose turn it is."""
    pupils = sum(len(seat.on_duty(bar)) for seat in part.seats) or 1
    each = taps / pupils
    return say(fact("taps-now-and-then")) if each < 0.75 else say(fact("taps-each", n=round(each)))
