"""Ostinato: a short pattern over and over, thinner and thicker as the density rule asks, three patterns at the most."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache

import numpy as np

from sonify.arrange.blocks import Block, stretches
from sonify.arrange.hands import too_fast_at
from sonify.arrange.pitches import Tuning, fitted
from sonify.arrange.rhythms import Rhythm, breathed, evenly, on_beat, rhythms
from sonify.arrange.says import halves_beat
from sonify.arrange.seating import taking_turns
from sonify.arrange.textures.task import (
    Played,
    Stroke,
    Task,
    answer_words,
    breath_words,
    capped_figures,
    doubled,
    finding,
    from_bar,
    span,
)
from sonify.frozen import dataclass
from sonify.records.fact import Claim, Note, Words, fact
from sonify.records.findings import Finding
from sonify.records.instrument import Instrument
from sonify.records.score import Entry, Pattern, Seat

#: Strokes a beat where no rule asks for any (our own choice).
_UNRULED = 1.0
#: Scale steps of the pattern's strokes from its lowest note, one row for each ostinato of the piece: the broken fifth
#: with its octave, the call of children's songs (so la so mi), and steps. "f" is the fifth, "o" the octave.
_CONTOURS: tuple[tuple[int | str, ...], ...] = (
    (0, "f", "o", "f"),
    ("f", "f+", "f", 2),
    (0, 1, 2, 1),
    (0, "f", 2, "f"),
    (0, 0, "f", 0),
    (0, 2, "f", 2),
    ("o", "f", 2, "f"),
    (0, "f", "f+", "f"),
)
_ACCENT = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class _Learnt:
    """A pattern with the rhythm of each of its bars, and the scale place of each stroke (0 where unpitched).

    root: the place that the pitch rule asked for, and asked: what it asked, None without such a rule. stage: whose
    chord its notes are of.
    """

    pattern: Pattern
    bars: tuple[Rhythm, ...]
    places: tuple[tuple[int, ...], ...]
    root: int
    asked: float | None
    stage: int


def played(task: Task) -> Played:
    """The patterns, and the bars in which each is played."""
    wanted, possible, halves = _asked_for(task)
    known, levels = _chosen(task, wanted, possible)
    chosen = [_nearest(level, known) for level in levels]
    strokes, entries = _strokes(task, chosen), _entries(task, chosen)
    return Played(
        strokes=tuple(doubled(task, strokes)),
        entries=entries,
        words=_words(task, chosen),
        patterns=tuple(item.pattern for item in known.values()),
        findings=tuple(_capped(task, wanted, possible)),
        seats=_halved(task.seats) if halves else None,
        octaves=_octaves(task),
    )


def onsets(task: Task) -> tuple[Fraction, ...]:
    """Where in the bar the patterns of a line strike."""
    wanted, possible, _ = _asked_for(task)
    known, _ = _chosen(task, wanted, possible)
    return tuple(sorted({start for item in known.values() for bar in item.bars for start in bar.onsets}))


def _asked_for(task: Task) -> tuple[list[float], list[list[Rhythm]], bool]:
    """For each run the strokes a bar that it should have and the bars that hands can play; whether in halves."""
    wanted = [_wanted(task, run) for run in task.runs]
    halves = _needs_halves(task, wanted)
    return wanted, [_possible(task, run, halves) for run in task.runs], halves


def _chosen(
    task: Task, wanted: Sequence[float], possible: Sequence[Sequence[Rhythm]]
) -> tuple[dict[int, _Learnt], list[int]]:
    """The patterns by their strokes a bar, and each run's strokes a bar."""
    most = [max(len(bar.hits) for bar in bank) for bank in possible]
    levels = _levels([min(one, other) for one, other in zip(wanted, most, strict=True)], task.patterns)
    return _learn(task, levels, possible), levels


def learnt(task: Task) -> tuple[Pattern, ...]:
    """The first pattern of a line that is not played: what stands on the card, so that a pupil can choose."""
    wanted, possible, _ = _asked_for(task)
    known, _ = _chosen(task, wanted, possible)
    return tuple(item.pattern for item in known.values())[:1]


def _wanted(task: Task, block: Block) -> float:
    """Strokes a bar that a run should have: the density rule's mean, else one pattern all through."""
    density = task.results("density")
    if task.line.plan.on_beat:
        return float(len(_possible(task, block, False)[0].hits))
    if density is not None:
        return float(density[(block.bar - 1) * task.beats : (block.end - 1) * task.beats].mean()) * task.beats
    return _UNRULED * task.beats


@lru_cache(maxsize=4096)
def _reachable(bar: Rhythm, beats: int, bpm: float, row: Instrument, halves: bool) -> bool:
    """Whether one pupil can play a bar over and over at a tempo; in halves, every other bar."""
    step = 2 if halves else 1
    times = [
        (float(start) + beats * number) * 60.0 / bpm for number in range(0, 8 * step, step) for start, _ in bar.hits
    ]
    return too_fast_at(times, row) is None


def _possible(task: Task, block: Block, halves: bool) -> list[Rhythm]:
    bank = evenly(task.beats) if task.line.plan.even else rhythms(task.beats, task.piece.classroom.year)
    bpm = task.piece.fastest_bpm(block.bar, block.bars)
    if task.line.plan.on_beat:
        every = on_beat(task.beats, halved=False)
        fits = not halves_beat(task.piece, block.bar, block.end) and _reachable(
            every, task.beats, bpm, task.main, False
        )
        return [every if fits else on_beat(task.beats, halved=True)]
    found = [bar for bar in bank if _reachable(bar, task.beats, bpm, task.main, halves)]
    return found or [bank[0]]


def _needs_halves(task: Task, wanted: Sequence[float]) -> bool:
    """Two halves of the group take turns, a bar each, where the rule asks for more than one pupil can keep up."""
    if task.results("density") is None or len(task.seats) != 1 or task.line.plan.on_beat:
        return False
    if task.seats[0].players < 2 or task.seats[0].at_once:
        return False
    return any(
        want > max(len(bar.hits) for bar in _possible(task, block, False)) + 0.5
        for want, block in zip(wanted, task.runs, strict=True)
    )


def _halved(seats: tuple[Seat, ...]) -> tuple[Seat, ...]:
    seat = seats[0]
    return (taking_turns(seat, seat.players // 2, 1),)


def _levels(wanted: Sequence[float], most: int) -> list[int]:
    """Each block's strokes a bar, rounded, as at most so many different numbers."""
    rounded = [max(1, round(want)) for want in wanted]
    distinct = sorted(set(rounded))
    if len(distinct) > most:
        picks = np.linspace(0, len(distinct) - 1, max(most, 1)) if most > 1 else np.array([len(distinct) // 2])
        kept = [distinct[round(float(pick))] for pick in picks]
        rounded = [min(kept, key=lambda level: (abs(level - want), level)) for want in rounded]
    return rounded


def _learn(task: Task, levels: Sequence[int], possible: Sequence[Sequence[Rhythm]]) -> dict[int, _Learnt]:
    """A pattern for each level, named in the order in which they come."""
    learnt: dict[int, _Learnt] = {}
    rng = task.generator(shared=True)
    for level in dict.fromkeys(levels):
        where = [i for i, other in enumerate(levels) if other == level]
        allowed = [bar for bar in possible[where[0]] if all(bar in possible[i] for i in where)] or [
            possible[where[0]][0]
        ]
        allowed = _of_line(task.level, level, allowed)
        first = _pick(task, level, allowed, rng, ())
        bars: tuple[Rhythm, ...] = (first,)
        if task.level != "easy" and not _one_bar(task):
            # A question, and an answer that differs; on the stretch line three times the first, or the answer between.
            answer = _pick(task, level, [bar for bar in allowed if bar != first] or allowed, rng, first.hits)
            bars = (first, answer)
            if task.level == "stretch":
                others = [bar for bar in allowed if bar not in bars] or allowed
                bars = (first, answer, first, _pick(task, level, others, rng, first.hits))
        learnt[level] = _pattern(task, len(learnt) + 1, bars, [task.runs[i] for i in where])
    return learnt


def _of_line(line: str, level: int, allowed: Sequence[Rhythm]) -> list[Rhythm]:
    """Bars with as many strokes as can be had: on the beats for the easy line, between them, too, for the stretch."""

    def off(bar: Rhythm) -> bool:
        return any(onset.denominator > 1 for onset in bar.onsets)

    wanted = [bar for bar in allowed if line == "core" or off(bar) == (line == "stretch")]
    near = min((abs(len(bar.hits) - level) for bar in allowed), default=0)
    return wanted if any(abs(len(bar.hits) - level) <= near for bar in wanted) else list(allowed)


def _pick(
    task: Task, level: int, allowed: Sequence[Rhythm], rng: np.random.Generator, before: Sequence[object]
) -> Rhythm:
    """The bar with the nearest number of strokes that leaves most room for the ostinati before; chance decides ties.

    An answer ends with a long note or a rest where one is to be had.
    """
    busy = set(task.busy)
    order = rng.permutation(len(allowed))

    def cost(i: int) -> tuple[int, int, float, int]:
        bar = allowed[i]
        open_end = bool(before) and max(bar.onsets) > task.beats - 2
        crowd = len(bar.onsets & busy) / len(bar.onsets)
        return (abs(len(bar.hits) - level), open_end, crowd, int(order[i]))

    return allowed[min(range(len(allowed)), key=cost)]


def _pattern(task: Task, number: int, bars: tuple[Rhythm, ...], blocks: Sequence[Block]) -> _Learnt:
    places, root, asked = _melodic(task, bars, blocks)
    notes = task.tuning.notes if task.main.pitched else ()
    hits = tuple(
        (start + number * task.beats, beats, notes[place] if notes else task.main.gm_key)
        for number, (bar, row) in enumerate(zip(bars, places, strict=True))
        for (start, beats), place in zip(bar.hits, row, strict=True)
    )
    pattern = Pattern(number=number, bars=len(bars), hits=hits)
    return _Learnt(pattern=pattern, bars=bars, places=places, root=root, asked=asked, stage=blocks[0].stage)


def _melodic(
    task: Task, bars: tuple[Rhythm, ...], blocks: Sequence[Block]
) -> tuple[tuple[tuple[int, ...], ...], int, float | None]:
    """The scale places of a pattern: a contour on the tonic, or on the note that the pitch rule asks for there."""
    if not task.main.pitched:
        return tuple((0,) * len(bar.hits) for bar in bars), 0, None
    notes, asked = task.tuning, _asked(task, blocks)
    root = task.root(blocks[0].stage) if asked is None else notes.index(asked + 12 * _octaves(task))
    return _on_root(task, bars, root), root, asked


def _on_root(task: Task, bars: Sequence[Rhythm], root: int) -> tuple[tuple[int, ...], ...]:
    """The scale places of a pattern's strokes that stands on a note; the easy line keeps to it and its fifth."""
    order = [_CONTOURS[int(at)] for at in task.piece.generator("contours").permutation(len(_CONTOURS))]
    rooted = [shape for shape in order if shape[0] == 0]
    if task.results("pitch") is not None or task.place == 0:
        shape = rooted[task.place % len(rooted)]  # the key's own note comes first
    else:
        shape = [other for other in order if other is not rooted[0]][(task.place - 1) % (len(order) - 1)]
    steps = [_step(step, root, task.tuning) for step in ((0, "f") if task.level == "easy" else shape)]
    places, count = [], 0
    for bar in bars:
        places.append(tuple(steps[(count + i) % len(steps)] for i in range(len(bar.hits))))
        count += len(bar.hits)
    return tuple(places)


def _step(step: int | str, root: int, notes: Tuning) -> int:
    top = len(notes.notes) - 1
    fifth = notes.fifth_above(root)
    if step == "o":
        octave = notes.index(notes.notes[root] + 12)
        return octave if notes.notes[octave] == notes.notes[root] + 12 else root
    place = {"f": fifth, "f+": fifth + 1}[step] if isinstance(step, str) else root + step
    return place if place <= top else 2 * top - place


def _asked(task: Task, blocks: Sequence[Block]) -> float | None:
    """The mean of the pitch rule over a pattern's blocks."""
    pitch = task.results("pitch")
    if pitch is None or not task.main.pitched:
        return None
    bars = [bar for block in blocks for bar in range(block.bar, block.end)]
    return float(np.mean([pitch[(bar - 1) * task.beats : bar * task.beats].mean() for bar in bars]))


def _octaves(task: Task) -> int:
    asked = _asked(task, task.blocks)
    return 0 if asked is None else fitted([asked], task.tuning).octaves


def _nearest(level: int, learnt: dict[int, _Learnt]) -> _Learnt:
    return learnt[min(learnt, key=lambda other: (abs(other - level), other))]


def _strokes(task: Task, chosen: Sequence[_Learnt]) -> list[Stroke]:
    found = []
    by_run = dict(zip(task.runs, chosen, strict=True))
    for block in task.blocks:
        item = by_run[task.run_at(block.bar)]
        moved = _moved(task, block, item)
        places = [[moved.get(place, place) for place in row] for row in item.places]
        for bar in range(block.bar, block.end):
            if not task.answers(bar):
                continue
            number = (bar - block.bar) % len(item.bars)
            whole = item.bars[number]
            # The last bar of a phrase ends with a breath.
            now = breathed(whole, task.beats) if bar == block.end - 1 and _breathes(task, block) else whole
            for (start, beats), place in zip(now.hits, places[number], strict=False):
                found.append(_stroke(task, bar, (start, beats), place, item))
    return found


def _breathes(task: Task, block: Block) -> bool:
    return block.bars >= 4 and not _one_bar(task)


def _one_bar(task: Task) -> bool:
    """Whether the line is one bar over and over, with no answer and no breath."""
    return task.line.plan.on_beat or task.line.plan.even


def _stroke(task: Task, bar: int, hit: tuple[Fraction, Fraction], place: int, item: _Learnt) -> Stroke:
    start, beats = hit
    return Stroke(
        beat=task.first_beat(bar) + start,
        beats=beats,
        midi=task.tuning.notes[place] if task.main.pitched else task.main.gm_key,
        row=task.main,
        asked=item.asked if place == item.root else None,
        accent=_ACCENT if start == 0 else 0 if start.denominator == 1 else -_ACCENT,
    )


def _entries(task: Task, chosen: Sequence[_Learnt]) -> tuple[Entry, ...]:
    """One entry for each stretch of one pattern on one chord."""
    found: list[Entry] = []
    by_run = dict(zip(task.runs, chosen, strict=True))
    for block in task.blocks:
        item = by_run[task.run_at(block.bar)]
        told = _moved_words(task, item, _moved(task, block, item))
        now = Entry(bar=block.bar, bars=block.bars, pattern=item.pattern.number, instruction=told)
        last = found[-1] if found else None
        same = last and (last.pattern, last.instruction) == (now.pattern, now.instruction)
        if last and same and last.bar + last.bars == block.bar:
            found[-1] = replace(last, bars=last.bars + block.bars)
        else:
            found.append(now)
    return tuple(found)


def _moved(task: Task, block: Block, item: _Learnt) -> dict[int, int]:
    """Which place stands for each place of a pattern on a stage's chord; {} where it stays on its own.

    It stays, too, where one bar would stand for two: then nobody could be told what to play instead.
    """
    if not task.main.pitched or item.asked is not None or (root := task.root(block.stage)) == item.root:
        return {}
    found: dict[int, int] = {}
    for before, after in zip(item.places, _on_root(task, item.bars, root), strict=True):
        for place, other in zip(before, after, strict=True):
            if found.setdefault(place, other) != other:
                return {}
    return found


def _moved_words(task: Task, item: _Learnt, moved: dict[int, int]) -> Words:
    """Which notes a pattern has in place of those in its boxes; "" where it stays as it is."""
    notes = task.tuning.notes
    pairs = tuple(
        fact("part-note-for", note=Note(notes[other]), home=Note(notes[place]))
        for place, other in sorted(moved.items())
        if other != place
    )
    return (
        fact("part-pattern-on", pattern=fact("cue-pattern", number=item.pattern.number), notes=pairs) if pairs else ""
    )


def _words(task: Task, chosen: Sequence[_Learnt]) -> tuple[Words, ...]:
    several = len({item.pattern.number for item in chosen}) > 1
    words: list[Words] = [fact("part-patterns" if several else "part-pattern")]
    if task.line.plan.on_beat:
        words = _beat_words(task, chosen)
    elif any(_breathes(task, block) for block in task.blocks):
        words += [fact("part-breathe-after-phrase"), *breath_words(task)]
    return (*words, *answer_words(task))


def _beat_words(task: Task, chosen: Sequence[_Learnt]) -> list[Words]:
    """That the part is the beat: on every beat where it can be, else as its patterns show."""
    every = [len(item.pattern.hits) == task.beats * item.pattern.bars for item in chosen]
    if not all(every):
        return [fact("part-beat-halved" if any(every) else "part-every-second-beat")]
    spans = [(stretch[0].bar, min(stretch[-1].end, task.piece.bars)) for stretch in stretches(task.blocks)]
    # in the last bar the beat, too, ends on the stroke that all share
    claims = [Claim(kind="every beat", left=span(task, first, end)) for first, end in spans if first < end]
    return [fact("part-every-beat", *claims).or_else(fact("part-is-the-beat"))]


def _capped(task: Task, wanted: Sequence[float], possible: Sequence[Sequence[Rhythm]]) -> list[Finding]:
    """Where the density rule asks for more strokes than hands can play."""
    if task.results("density") is None or task.line.plan.on_beat:
        return []
    over = [
        (want, max(len(bar.hits) for bar in bank), block)
        for want, bank, block in zip(wanted, possible, task.runs, strict=True)
        if want > max(len(bar.hits) for bar in bank) + 0.5
    ]
    if not over:
        return []
    want, most, block = max(over, key=lambda item: item[0] - item[1])
    return [
        finding(
            task,
            fact("play-density-over-bar", **capped_figures(task, want, most, block.bar)),
            fact("play-lower-density-or-texture"),
            where=from_bar(block.bar),
        )
    ]
