"""The questions of the listening check, kind by kind: the clips in which something is heard, and what it tells."""

from __future__ import annotations

from bisect import bisect_left
from collections.abc import Iterator
from fractions import Fraction
from itertools import combinations

import numpy as np

from sonify.facts.growth import growth_of, growth_points, regrown
from sonify.kinds.timelines import TIMELINES
from sonify.records.controls import Key
from sonify.records.fact import Amount, Claim, Fact, Named, Reading, fact
from sonify.records.lesson import Lesson
from sonify.records.listening import Choice, Clip, ListeningItem, Points
from sonify.records.score import Note, Part, Score, Section
from sonify.records.timeline import FloatArray, Quantity

#: Most answers to choose from.
MOST_CHOICES = 3
#: Two clips one after the other are told apart from this share of what a change in one clip needs (our own limit).
BESIDE = 0.5
#: Bars of a clip, and how many bars a change is listened for.
CLIP_BARS, CHANGE_BARS = 4, (8, 6, 5, 4)
#: Two tempi are told apart by a class from this ratio up (our own limit: well above any published threshold).
TEMPO_RATIO = 1.12
#: A change of loudness, pitch or taps must be as large to be asked about (our own limits): velocity,
#: semitones, strokes a bar.
LEAST_SWING = {"dynamics": 24.0, "pitch": 5.0, "density": 2.0}
#: Notes and science change alike from this correlation of their bars up (our own limit).
ALIKE = 0.8
#: A bar moves on if it changes the science by this share of the clip's whole change (our own limit).
MOVES = 0.05


# What sounds when.


def _notes(part: Part, score: Score, clip: Clip) -> tuple[Note, ...]:
    """The notes of a clip: they stand in order of beat."""
    start, end = score.clock.beat_of_bar(clip.bar), score.clock.beat_of_bar(clip.bar + clip.bars)
    first = bisect_left(part.notes, start, key=_beat)
    return part.notes[first : bisect_left(part.notes, end, lo=first, key=_beat)]


def _beat(note: Note) -> Fraction:
    return note.beat


def _sounding(score: Score, clip: Clip) -> frozenset[str]:
    return frozenset(part.name for part in score.group_parts if _notes(part, score, clip))


def _middle(section: Section) -> Clip:
    """The middle of a stage: there it is most itself."""
    bars = min(CLIP_BARS, section.bars)
    return Clip(bar=section.bar + (section.bars - bars) // 2, bars=bars)


def _told_apart(score: Score, one: Clip, other: Clip) -> bool:
    """Whether two clips differ in who plays or in tempo."""
    ratio = score.bpm_at(one.bar) / score.bpm_at(other.bar)
    return _sounding(score, one) != _sounding(score, other) or max(ratio, 1 / ratio) >= TEMPO_RATIO


# The questions.


def by_stage(lesson: Lesson) -> Iterator[ListeningItem]:
    """Which stage is it? Asked where something sounds, among stages that sound otherwise; the last stages first."""
    score = lesson.score
    quantity = _leading(lesson)
    for section in sorted(score.sections, key=lambda s: (-len(_sounding(score, _middle(s))), s.bar)):
        clip = _middle(section)
        others = [s for s in score.sections if s is not section and _told_apart(score, clip, _middle(s))]
        others = sorted(others, key=lambda s: abs(s.bar - section.bar))[: MOST_CHOICES - 1]
        if not _sounding(score, clip) or not others:
            continue
        shown = sorted([section, *others], key=lambda s: s.bar)
        playing = [part.name for part in score.group_parts if part.name in _sounding(score, clip)]
        yield ListeningItem(
            kind="stage",
            clips=(clip,),
            question=fact("listen-which-stage"),
            choices=tuple(_stage_choice(s, quantity, lesson) for s in shown),
            answer=shown.index(section),
            why=fact(
                "listen-stage-why",
                *(Claim(kind="plays", left=_reading("bars sounding", clip, of=name)) for name in playing),
                letter=section.letter,
                title=section.title,
                bpm=_tempo_of(clip, score),
                parts=tuple(playing),
            ),
            quantity=quantity.name if quantity else "",
        )


def _leading(lesson: Lesson) -> Quantity | None:
    """The quantity that the whole piece follows, as pupils are told of it; else that of the first rule."""
    rules = [key.rule for key in lesson.controls.keys]
    rule = next((rule for rule in rules if rule.part is None), rules[0] if rules else None)
    return _told(rule.quantity, lesson) if rule else None


def _told(name: str, lesson: Lesson) -> Quantity:
    quantity = lesson.timeline.quantity(name)
    return lesson.timeline.quantity(quantity.companion) if quantity.companion else quantity


def _stage_choice(section: Section, quantity: Quantity | None, lesson: Lesson) -> Choice:
    bars = lesson.score.bars
    shaded = ((section.bar - 1) / bars, (section.bar - 1 + section.bars) / bars)
    joined = TIMELINES[lesson.timeline.kind].joined  # no line leads from one thing to another
    points = _curve(quantity, Clip(bar=1, bars=bars), lesson, 60) if quantity and joined else ()
    return Choice(words=section.title, points=points, shaded=shaded if points else None)


def _curve(quantity: Quantity, clip: Clip, lesson: Lesson, count: int) -> Points:
    """A quantity over some bars as points, lowest 0 and highest 1; none where it does not change."""
    values = _values(quantity, clip, lesson, count)
    low, high = float(values.min()), float(values.max())
    if high - low <= 1e-9 * max(abs(high), abs(low), 1e-300):
        return ()
    return tuple((place / (count - 1), float((value - low) / (high - low))) for place, value in enumerate(values))


def _values(quantity: Quantity, clip: Clip, lesson: Lesson, count: int) -> FloatArray:
    beats = lesson.score.metre.beats
    at = np.linspace((clip.bar - 1) * beats, (clip.bar - 1 + clip.bars) * beats - 1e-6, count)
    return lesson.timeline.at(quantity.name, lesson.controls.time_map.model_time_s(at))


def by_tempo(lesson: Lesson) -> Iterator[ListeningItem]:
    """Two clips of different tempo: does the quantity that the beat follows go up or down?"""
    score = lesson.score
    key = next((k for k in lesson.controls.keys if k.rule.control == "tempo" and k.rule.part is None), None)
    heard = [(s, _middle(s)) for s in score.sections if _sounding(score, _middle(s))]
    if key is None or len(heard) < 2:
        return
    pairs = combinations(heard, 2)
    (before, one), (after, two) = max(pairs, key=lambda pair: _ratio(score, pair[0][1], pair[1][1]))
    if _ratio(score, one, two) < TEMPO_RATIO:
        return
    quantity = lesson.timeline.quantity(key.rule.quantity)
    whole = [Clip(bar=section.bar, bars=section.bars) for section in (before, after)]
    values = [float(np.mean(_values(quantity, clip, lesson, 4 * clip.bars))) for clip in whole]
    words = _told(key.rule.quantity, lesson).name
    growth = "up" if values[1] > values[0] else "down"
    shown = ("up", "down", "level")
    quicker = score.bpm_at(two.bar) > score.bpm_at(one.bar)
    change = Claim(kind="quicker" if quicker else "slower", left=_reading("bpm", two), right=_reading("bpm", one))
    grown = Claim(
        kind="more" if growth == "up" else "less",
        left=_mean_of(quantity, after, lesson),
        right=_mean_of(quantity, before, lesson),
        slack=1e-9,
    )
    yield ListeningItem(
        kind="tempo",
        clips=(one, two),
        question=fact("listen-two-clips", quantity=Named("quantity", words)),
        choices=tuple(
            Choice(words=_growth(shape, *((grown,) if shape == growth else ())), points=growth_points(shape))
            for shape in shown
        ),
        answer=shown.index(growth),
        why=(
            fact(
                "listen-tempo-why",
                change,
                before=before.title,
                after=after.title,
                one=_tempo_of(one, score),
                two=_tempo_of(two, score),
            ),
            key.rule.why,
        ),
        quantity=words,
    )


def _ratio(score: Score, one: Clip, other: Clip) -> float:
    ratio = score.bpm_at(one.bar) / score.bpm_at(other.bar)
    return max(ratio, 1 / ratio)


def by_pair(lesson: Lesson) -> Iterator[ListeningItem]:
    """Two stages in one part: is there more of the quantity in the second, or less? Each part once before any twice."""
    rows = []
    for key in lesson.controls.keys:
        part = next((p for p in lesson.score.group_parts if p.name == key.rule.part), None)
        if part is None or key.rule.control not in LEAST_SWING:
            continue
        steps = {row: _step(key, part, row, lesson) for row in combinations(lesson.score.sections, 2)}
        found = [row for row, step in steps.items() if _unlike(step, key, row, lesson)]
        ranked = sorted(found, key=lambda row: -abs(steps[row]))
        rows += [(place, key, part, row) for place, row in enumerate(ranked)]
    for number, (_, key, part, row) in enumerate(sorted(rows, key=lambda row: row[0])):
        # the later stage comes first in every second question, so that no answer is right all along
        yield _pair_item(key, part, row if number % 2 == 0 else row[::-1], lesson)


def _step(key: Key, part: Part, pair: tuple[Section, Section], lesson: Lesson) -> float:
    """By how much a part's control differs between the middles of two stages; nan where it is silent in one."""
    heard = _heard(part, key.rule.control, lesson.score)
    one, two = (heard[clip.bar - 1 : clip.bar - 1 + clip.bars] for clip in map(_middle, pair))
    return float(np.mean(two) - np.mean(one))


def _unlike(step: float, key: Key, pair: tuple[Section, Section], lesson: Lesson) -> bool:
    """Whether a class hears the difference, and it goes the way of the science."""
    step *= -1.0 if key.rule.to_low > key.rule.to_high else 1.0
    one, two = (_mean(lesson.timeline.quantity(key.rule.quantity), section, lesson) for section in pair)
    return abs(step) >= BESIDE * LEAST_SWING[key.rule.control] and step * (two - one) > 0.0  # nan: one is silent


def _mean(quantity: Quantity, section: Section, lesson: Lesson) -> float:
    return float(np.mean(_values(quantity, Clip(bar=section.bar, bars=section.bars), lesson, 4 * section.bars)))


def _pair_item(key: Key, part: Part, pair: tuple[Section, Section], lesson: Lesson) -> ListeningItem:
    quantity = lesson.timeline.quantity(key.rule.quantity)
    before, after = pair
    up = _mean(quantity, after, lesson) > _mean(quantity, before, lesson)
    grown = Claim(
        kind="more" if up else "less",
        left=_mean_of(quantity, after, lesson),
        right=_mean_of(quantity, before, lesson),
        slack=1e-9,
    )
    words, shown = _told(key.rule.quantity, lesson).name, ("up", "down", "level")
    growth = "up" if up else "down"
    return ListeningItem(
        kind="pair",
        clips=(_middle(before), _middle(after)),
        question=fact(
            "listen-two-clips-of-part",
            part=part.name,
            group=part.group,
            control=key.rule.control,
            quantity=Named("quantity", words),
        ),
        choices=tuple(
            Choice(words=_growth(shape, *((grown,) if shape == growth else ())), points=growth_points(shape))
            for shape in shown
        ),
        answer=shown.index(growth),
        why=(fact("listen-pair", before=before.title, after=after.title), key.rule.why),
        part=part.name,
        quantity=words,
    )


def by_entry(lesson: Lesson) -> Iterator[ListeningItem]:
    """Which group comes in? Asked where one alone does, after a bar at least of silence of its own."""
    score = lesson.score
    for part in score.group_parts:
        for bar in sorted(entry.bar for entry in part.entries if entry.bar > 1):
            clip = Clip(bar=max(1, bar - 2), bars=min(CLIP_BARS, score.bars - max(1, bar - 2) + 1))
            before, after = Clip(bar=clip.bar, bars=bar - clip.bar), Clip(bar=bar, bars=clip.bar + clip.bars - bar)
            new = _sounding(score, after) - _sounding(score, before)
            if new != {part.name} or not _sounding(score, before):
                continue
            others = [p for p in score.group_parts if p.group != part.group]
            others = sorted(others, key=lambda p: (p.name in _sounding(score, clip), p.group))
            groups = {p.group: p for p in reversed([part, *others])}  # one choice a group
            shown = sorted(list(dict.fromkeys([part.group, *(p.group for p in others)]))[:MOST_CHOICES])
            if len(shown) < 2:
                continue
            yield ListeningItem(
                kind="entry",
                clips=(clip,),
                question=fact("listen-which-group"),
                choices=tuple(Choice(words=groups[group].name, group=group) for group in shown),
                answer=shown.index(part.group),
                why=fact(
                    "listen-entry-why",
                    Claim(kind="silent", left=_reading("bars sounding", before, of=part.name)),
                    Claim(kind="plays", left=_reading("bars sounding", after, of=part.name)),
                    group=part.group,
                    part=part.name,
                    bar=bar,
                ),
            )


def by_change(lesson: Lesson) -> Iterator[ListeningItem]:
    """What happens to a quantity, heard in one part? Asked where notes and quantity change alike; clearest first."""
    found = []
    for key in lesson.controls.keys:
        part = next((p for p in lesson.score.group_parts if p.name == key.rule.part), None)
        if part is None or key.rule.control not in LEAST_SWING:
            continue
        best = max(_windows(part, key, lesson), key=lambda row: row[0], default=None)
        if best is not None:
            found.append((best, key, part))
    for (_, clip, shape), key, part in sorted(found, key=lambda row: -row[0][0]):
        yield _change(clip, shape, key, part, lesson)


def _windows(part: Part, key: Key, lesson: Lesson) -> Iterator[tuple[float, Clip, str]]:
    """Clips in which the part's own notes and the quantity change alike: how clearly, where, and how the quantity."""
    score, rule = lesson.score, key.rule
    heard = _heard(part, rule.control, score) * (-1 if rule.to_low > rule.to_high else 1)
    whole = Clip(bar=1, bars=score.bars)
    science = _values(lesson.timeline.quantity(rule.quantity), whole, lesson, 2 * score.bars + 1)[1::2]  # mid-bar
    least = LEAST_SWING[rule.control]
    for bars in CHANGE_BARS:
        for first in range(score.bars - bars + 1):
            notes = heard[first : first + bars]
            swing = float(np.ptp(notes))
            if not swing >= least:  # nan where a bar is silent: nothing to compare
                continue
            values, shape = science[first : first + bars], growth_of(notes)
            if shape and growth_of(values) == shape and _alike(notes, values):
                yield swing / least + bars / 100, Clip(bar=first + 1, bars=bars), shape


def _alike(notes: FloatArray, science: FloatArray) -> bool:
    """Whether notes go with the science, and the science moves on in most bars: no jump at the end of a long rest."""
    moving = np.abs(np.diff(science)) > MOVES * float(np.ptp(science))
    ranks = [np.argsort(np.argsort(values)).astype(float) for values in (notes, science)]
    alike = min(
        np.corrcoef(notes, science)[0, 1], np.corrcoef(ranks[0], ranks[1])[0, 1]
    )  # as large, and in the same order
    return bool(alike >= ALIKE and np.mean(moving) > 0.5)


def _heard(part: Part, control: str, score: Score) -> FloatArray:
    """What is heard of a control in each bar; nan in a silent one."""
    told: list[list[int]] = [[] for _ in range(score.bars)]
    for note in part.notes:
        told[int(note.beat // score.metre.beats)].append(note.midi if control == "pitch" else note.velocity)
    means = [float(np.mean(bar)) if bar else np.nan for bar in told]
    return np.array([float(len(bar)) if bar else np.nan for bar in told] if control == "density" else means)


def _change(clip: Clip, shape: str, key: Key, part: Part, lesson: Lesson) -> ListeningItem:
    quantity = _told(key.rule.quantity, lesson)
    points = _curve(lesson.timeline.quantity(key.rule.quantity), clip, lesson, 24)
    shown = ("up", "down", "valley" if shape == "valley" else "hill")
    return ListeningItem(
        kind="change",
        clips=(clip,),
        question=fact(
            "listen-to-part",
            part=part.name,
            group=part.group,
            control=key.rule.control,
            quantity=Named("quantity", quantity.name),
        ),
        choices=tuple(
            Choice(words=_growth(s, *_goes(s, shape, clip, quantity, lesson)), points=regrown(points, shape, s))
            for s in shown
        ),
        answer=shown.index(shape),
        why=(fact("listen-bars", first=clip.bar, last=clip.bar + clip.bars - 1), key.rule.why),
        part=part.name,
        quantity=quantity.name,
    )


# The facts.


def _growth(shape: str, *claims: Claim) -> Fact:
    """An answer to tick: how a quantity goes. Only the right one claims it."""
    return fact(f"growth-{shape}", *claims)


def _goes(shown: str, shape: str, clip: Clip, quantity: Quantity, lesson: Lesson) -> tuple[Claim, ...]:
    """That the quantity goes this way over the clip's stretch of model time: the claim of the right answer."""
    if shown != shape:
        return ()
    beats = lesson.score.metre.beats
    start, end = ((clip.bar - 1 + offset) * beats for offset in (0.5, clip.bars - 0.5))
    first, last = lesson.controls.time_map.model_time_s(np.array([start, end], dtype=np.float64))
    kind = {"up": "rises", "down": "falls"}.get(shape, "swings")
    return (Claim(kind=kind, left=Reading(how="change", of=quantity.name, start=float(first), end=float(last))),)


def _reading(how: str, clip: Clip, of: str = "") -> Reading:
    return Reading(how=how, of=of, start=float(clip.bar), end=float(clip.bar + clip.bars))


def _tempo_of(clip: Clip, score: Score) -> Amount:
    return Amount(value=round(score.bpm_at(clip.bar)), digits=3, grain=1.0, source=_reading("bpm at", clip))


def _mean_of(quantity: Quantity, section: Section, lesson: Lesson) -> Reading:
    beats = lesson.score.metre.beats
    edges = np.array([(section.bar - 1) * beats, (section.bar - 1 + section.bars) * beats - 1e-6])
    start, end = lesson.controls.time_map.model_time_s(edges)
    return Reading(how="mean", of=quantity.name, start=float(start), end=float(end))
