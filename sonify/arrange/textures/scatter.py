"""Scatter: free taps. How many there are in each bar the density rule says; where in the bar they fall is chance.

That is a Poisson process given its counts: the moments are drawn with the seed, on a semiquaver grid. The count is what
the rule expects of the bar, rounded; what rounding adds or takes is made good in the bars after.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from math import floor

import numpy as np

from sonify.arrange.blocks import stretches
from sonify.arrange.hands import Hands
from sonify.arrange.pitches import tuning
from sonify.arrange.textures.closing import last_beat
from sonify.arrange.textures.task import Played, Stroke, Task, capped_figures, finding, from_bar, span
from sonify.records.fact import Claim, Fact, Words, fact
from sonify.records.findings import Finding
from sonify.records.instrument import Instrument
from sonify.records.score import Entry
from sonify.records.words import bursts, bursts_told

_SLOTS = 4  # in a beat
#: So often the moments of a bar are drawn again, until hands can play every tap of it.
_DRAWS = 24
#: Where no density rule is given: taps a beat at the edge and at the climax (our own choice).
_FEW, _MANY = 0.4, 2.0
#: How likely a tap is on each quarter of a beat, by line: on beats and halves, anywhere, or rather not on the beat.
_WHERE = {"easy": (1.0, 0.01, 1.0, 0.01), "core": (1.0, 1.0, 1.0, 1.0), "stretch": (0.05, 1.0, 1.0, 1.0)}
#: So many times as many taps are told as more (our own choice).
_CLEARLY = 1.25
#: Taps on a tuned instrument fall within so many scale steps of the rule's pitch.
_SPREAD = 2


def played(task: Task) -> Played:
    """The taps, each by a pupil who has had time to get ready; the card says it in words."""
    rng = task.generator()
    hands = {player: Hands(row) for player, row in _players(task)}
    strokes: list[Stroke] = []
    owed = 0.0
    asked_bars: dict[int, float] = {}
    taps: dict[int, int] = {}
    cap_bars: dict[int, float] = {}
    ends = {block.stage: block.end - 1 for block in task.blocks}
    silent = set(ends) if task.results("density") is None else set()  # without a rule no stage stays without a tap
    for block in task.blocks:
        for bar in range(block.bar, block.end):
            asked_bars[bar] = float(_density(task, bar).mean())
            cap_bars[bar] = _most_a_beat(task, bar)
            a_beat = np.minimum(_density(task, bar) / task.line.voices, cap_bars[bar])
            owed += float(a_beat.sum())
            least = 1 if block.stage in silent and bar == ends[block.stage] else 0
            count = min(max(floor(owed + 0.5), least), task.beats * _SLOTS)
            owed -= count
            fallen = _bar(task, bar, (count, a_beat), hands, rng)
            taps[bar] = len(fallen)
            silent -= {block.stage} if fallen else set()
            strokes += fallen
    return Played(
        strokes=tuple(strokes),
        entries=_entries(task, taps),
        words=_words(task),
        findings=tuple(_capped(task, asked_bars, cap_bars)),
        octaves=task.octaves,
    )


def _players(task: Task) -> list[tuple[int, Instrument]]:
    rows = [row for seat, row in zip(task.seats, task.rows, strict=True) for _ in range(seat.players)]
    return list(enumerate(rows, 1))


def _density(task: Task, bar: int) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    """Taps a beat in each beat of a bar: the density rule's, or from few to many and back with the piece's arc."""
    density = task.results("density")
    if density is None:
        return np.full(task.beats, _FEW + (_MANY - _FEW) * task.shape.arc(bar))
    return np.maximum(density[(bar - 1) * task.beats : bar * task.beats], 0.0)


def _most_a_beat(task: Task, bar: int) -> float:
    """Taps a beat that those on duty can keep up, and the grid can hold."""
    per_s = sum(row.fastest_per_s for _, row in task.on_duty(bar))
    return min(per_s * 60.0 / task.piece.bpm(bar), float(_SLOTS))


def _bar(
    task: Task,
    bar: int,
    wanted: tuple[int, np.ndarray[tuple[int], np.dtype[np.float64]]],
    hands: dict[int, Hands],
    rng: np.random.Generator,
) -> list[Stroke]:
    """A bar's taps, drawn until each has a pupil with a free hand; failing that the draw with the most taps."""
    count, a_beat = wanted
    best: list[tuple[Fraction, int, Instrument]] = []
    for _ in range(_DRAWS):
        slots = _drawn(count, a_beat, _WHERE[task.level], rng)
        if bar == task.piece.bars and slots:
            end = last_beat(task.beats) * _SLOTS
            slots = [*_before(end, slots[:-1], rng), end]
        elif bar == task.shape.breath:
            slots = _before((task.beats - 1) * _SLOTS, slots, rng)
        given = _given_out(task, bar, slots, hands, rng)
        best = given if len(given) > len(best) else best
        if len(best) == count:
            break
    found = []
    for (beat, player, row), second in zip(best, task.seconds([beat for beat, _, _ in best]), strict=True):
        hands[player].strike(second)
        midi, asked = _pitch(task, bar, row, rng)
        found.append(Stroke(beat=beat, beats=Fraction(1, _SLOTS), midi=midi, row=row, player=player, asked=asked))
    return found


def _drawn(
    count: int,
    a_beat: np.ndarray[tuple[int], np.dtype[np.float64]],
    where: tuple[float, ...],
    rng: np.random.Generator,
) -> list[int]:
    """`count` different semiquavers of a bar, more of them in the beats where the rule asks for more.

    where: how likely each quarter of a beat is.
    """
    if count == 0:
        return []
    # A beat without taps by the rule is used only where the others are full, or a tap is owed from bars before.
    weights = np.repeat(np.maximum(a_beat, 1e-6), _SLOTS) * np.tile(where, a_beat.size)
    return sorted(int(slot) for slot in rng.choice(len(weights), size=count, replace=False, p=weights / weights.sum()))


def _before(end: int, slots: Sequence[int], rng: np.random.Generator) -> list[int]:
    """As many taps, all of them before a slot: those that lie there, and free ones by lot."""
    kept = [slot for slot in slots if slot < end]
    free = [int(slot) for slot in rng.permutation(end) if int(slot) not in kept]
    return sorted([*kept, *free[: len(slots) - len(kept)]])


def _given_out(
    task: Task, bar: int, slots: Sequence[int], hands: dict[int, Hands], rng: np.random.Generator
) -> list[tuple[Fraction, int, Instrument]]:
    """Taps given to pupils: to the one who has waited longest, of those who can; nobody can: the tap is not played."""
    trial = {player: hand.copy() for player, hand in hands.items()}
    duty = task.on_duty(bar)
    first = task.first_beat(bar)
    beats = [first + Fraction(slot, _SLOTS) for slot in slots]
    found = []
    for beat, second in zip(beats, task.seconds(beats), strict=True):
        able = [(player, row) for player, row in duty if trial[player].can_strike(second)]
        if not able:
            continue
        waited = rng.permutation(len(able))
        player, row = min(
            (able[i] for i in waited), key=lambda one: trial[one[0]].struck[-1] if trial[one[0]].struck else -1e9
        )
        trial[player].strike(second)
        found.append((beat, player, row))
    return found


def _pitch(task: Task, bar: int, row: Instrument, rng: np.random.Generator) -> tuple[int, float | None]:
    """A tap's note: near the pitch rule's where there is one, else anywhere in the upper half of the range."""
    if not row.pitched:
        return row.gm_key, None
    notes, pitch = tuning(row, task.piece.scene.music.scale), task.results("pitch")
    if row is not task.main or pitch is None:
        upper = notes.notes[len(notes.notes) // 2 :]
        return upper[int(rng.integers(len(upper)))], None
    asked = float(pitch[(bar - 1) * task.beats])
    place = notes.index(asked + 12 * task.octaves)
    step = int(rng.integers(-_SPREAD, _SPREAD + 1))
    return notes.step(place + step), asked if step == 0 else None


def _entries(task: Task, taps: dict[int, int]) -> tuple[Entry, ...]:
    found = []
    for stretch in stretches(task.blocks):
        first, end = stretch[0].bar, stretch[-1].end
        runs = bursts([(bar, taps[bar]) for bar in range(first, end)])
        told = bursts_told(task.line.name, runs) if runs else _course(task, first, end, taps)
        found.append(Entry(bar=first, bars=end - first, instruction=told))
    return tuple(found)


def _course(task: Task, first: int, end: int, taps: dict[int, int]) -> Fact:
    """Whether taps grow more, or fewer, or both: by the bars at the start, at the end, and where most are."""
    size = max(1, (end - first) // 4)
    starts = range(first, end - size + 1)

    def count(bar: int) -> float:
        return sum(taps[each] for each in range(bar, bar + size)) / size

    last, most = end - size, max(starts, key=count)
    start, close, high = count(first), count(last), count(most)

    def busier(one: int, other: int) -> Claim:
        return Claim(kind="busier", left=span(task, one, one + size), right=span(task, other, other + size))

    if high > _CLEARLY * max(start, close):
        return fact("part-taps-and-back", busier(most, first), busier(most, last), bar=most + size // 2)
    if close > _CLEARLY * start:
        return fact("part-taps-more", busier(last, first))
    if start > _CLEARLY * close:
        return fact("part-taps-fewer", busier(first, last))
    return fact("part-taps-spread")


def _words(task: Task) -> tuple[Words, ...]:
    shared = (fact("part-fill-the-gaps"),) if task.line.voices > 1 else ()
    return (fact("part-tap-freely"), fact("part-watch-for-more"), *shared)


def _capped(task: Task, asked: dict[int, float], cap: dict[int, float]) -> list[Finding]:
    over = [bar for bar in asked if asked[bar] / task.line.voices > cap[bar] + 1e-9]
    if not over:
        return []
    bar = max(over, key=lambda b: asked[b] / task.line.voices - cap[b])
    why = "grid" if cap[bar] == _SLOTS else "hands"
    return [
        finding(
            task,
            fact(
                "play-taps-over",
                groups=task.line.voices,
                why=why,
                thinned=len(over),
                **capped_figures(task, asked[bar], cap[bar], bar),
            ),
            fact("play-lower-density-or-instruments"),
            where=from_bar(min(over)),
        )
    ]
