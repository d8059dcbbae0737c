"""Melody: a tune that stands where the pitch rule puts it, in phrases from the grammar of `tunes`.

The notes on the strong beats are the pitch rule's own, on the nearest note of the scale. What stands between them is
ornament, softer, printed lighter, and may be left out: it climbs while the quantity rises, sinks while it falls, asks
and answers while it stays. So each note can be traced, and the whole is a tune and not a staircase. Every phrase ends
with a breath, and so does every second bar in its middle where it is long.

Tunes that one rule gives the same notes at one time would cover each other: there the note goes round, a beat each.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import lru_cache

import numpy as np

from sonify.arrange.blocks import Block, stretches
from sonify.arrange.compared import of_one_height, under_one_rule
from sonify.arrange.hands import BREATHING, too_fast_at
from sonify.arrange.pitches import Fitted, fitted
from sonify.arrange.rhythms import Rhythm
from sonify.arrange.textures import contour
from sonify.arrange.textures.task import (
    Played,
    Stroke,
    Task,
    answer_words,
    breath_words,
    breathed,
    capital,
    doubled,
    finding,
    octave_of,
)
from sonify.arrange.textures.tunes import STRONG, Family, Gap, Motif, families, motifs, ornament, strong_before
from sonify.frozen import dataclass
from sonify.records.fact import Claim, Fact, Named, Note, Reading, Words, fact
from sonify.records.findings import Finding
from sonify.records.instrument import Instrument
from sonify.records.score import Entry, Pattern

#: Above this tempo a tune has no quavers (our own limit).
_QUAVERS_BPM = 104.0
#: A tune that plays for so many bars has two motifs at the least.
_TWO_FROM_BARS = 16
#: One of so many bars has at least so many different ones.
_LONG_BARS, _MANY = 28, 8
#: The first note of a bar is a little stronger, an ornament softer than the notes that the key has placed.
_FIRST, _LIGHT = 3, -6

#: For each strong beat (absolute) the place of the key's note, and what the rule asks: None without one.
Anchors = dict[int, tuple[int, float | None]]


@dataclass(frozen=True, slots=True, kw_only=True)
class _Phrase:
    """A block as the tune has it. way: 1 where it asks or climbs, -1 where it answers or sinks. turn: the beats of a
    bar that are this tune's, from 0, where several play the same notes; () where it has all."""

    block: Block
    motif: int
    rhythms: Family
    way: int
    turn: tuple[int, ...] = ()


def played(task: Task) -> Played:
    """The tune over the line's blocks; on instruments without notes a contour of high and low sounds."""
    if not task.main.pitched:
        return contour.played(task)
    anchors, fit = _anchors(task)
    chosen = _motifs(task)
    phrases = _phrases(task, chosen)
    strokes = [
        stroke for phrase in phrases for stroke in _strokes(task, phrase, chosen[phrase.motif].ornament, anchors)
    ]
    strokes = breathed(task, strokes, task.main)
    return Played(
        strokes=tuple(doubled(task, strokes, strong=True)),
        entries=_entries(task),
        words=_words(task, strokes),
        patterns=_patterns(task, phrases, strokes),
        findings=tuple(_held(task, fit)),
        octaves=fit.octaves,
    )


def learnt(task: Task) -> tuple[Pattern, ...]:
    """The first pattern of a line that is not played: what stands on the card, so that a pupil can choose."""
    if not task.main.pitched:
        return ()
    anchors, _ = _anchors(task)
    chosen = _motifs(task)
    phrases = _phrases(task, chosen)
    first = _first_of(phrases, phrases[0].motif) if phrases else []
    for phrase in first:
        strokes = breathed(task, _strokes(task, phrase, chosen[phrase.motif].ornament, anchors), task.main)
        if strokes:
            return (_pattern(task, 1, phrase, strokes),)
    return ()


def _anchors(task: Task) -> tuple[Anchors, Fitted]:
    """The place of the rule's note at each strong beat that the line plays.

    Without a pitch rule the tune climbs with the piece's own arc over a fifth from the tonic, and nothing is "asked".
    """
    beats = [(bar - 1) * task.beats + beat for bar in task.bars for beat in STRONG[task.beats]]
    pitch, notes = task.results("pitch"), task.tuning
    if pitch is None:
        low = notes.notes[notes.tonics[0]]
        values = [low + 7.0 * task.shape.arc(1 + beat // task.beats) for beat in beats]
        fit = fitted(values, notes)
        return {beat: (place, None) for beat, place in zip(beats, fit.places, strict=True)}, fit
    asked = [float(pitch[beat]) for beat in beats]
    fit = fitted(asked, notes, list(_asked_of_mates(task)))
    return {beat: (place, value) for beat, place, value in zip(beats, fit.places, asked, strict=True)}, fit


def _asked_of_mates(task: Task) -> Iterator[float]:
    """What the rule asks, bar by bar, of the parts in which the same value is to be the same note."""
    piece, own = task.piece, task.piece.curve("pitch", task.line.plan.name)
    for name in of_one_height(piece.scene, task.line.plan.name):
        curve = piece.curve("pitch", name)
        if curve is not None:
            bars = range(1, piece.bars + 1) if curve is own else task.bars
            yield from (float(curve.results[(bar - 1) * task.beats]) for bar in bars)


def _motifs(task: Task) -> tuple[Motif, ...]:
    """The motifs that the group learns: what hands can play somewhere in the piece, as different as can be."""
    able = [
        family
        for family in families(task.beats, task.level, task.piece.classroom.year)
        if any(_able(task, family, block) for block in task.blocks)
    ] or list(families(task.beats, "easy", 3)[:1])
    density = task.results("density", own=True)
    if density is not None:
        want = float(np.mean([density[(bar - 1) * task.beats : bar * task.beats].sum() for bar in task.bars]))
        able = sorted(able, key=lambda family: abs(_hits(family) - want))[: max(2, len(able) // 2)]
    long = len(task.bars) >= _LONG_BARS
    count = max(task.patterns, 2 if len(task.bars) >= _TWO_FROM_BARS else 1)
    return motifs(able, count, _MANY if long else 0, task.generator(shared=True), task.level)


def _hits(family: Family) -> float:
    return float(np.mean([len(family.bars[number].hits) for number in (0, 1, 0, 2)]))


def _able(task: Task, family: Family, block: Block) -> bool:
    bpm = task.piece.fastest_bpm(block.bar, block.bars)
    return not (family.quick and bpm > _QUAVERS_BPM) and _reachable(family, task.beats, bpm, task.main)


@lru_cache(maxsize=4096)
def _reachable(family: Family, beats: int, bpm: float, row: Instrument) -> bool:
    """Whether one pupil can play a family's phrase over and over at a tempo."""
    times = [
        (float(start) + beats * (4 * turn + number)) * 60.0 / bpm
        for turn in range(2)
        for number in range(4)
        for start, _ in family.bar(number, 4).hits
    ]
    return too_fast_at(times, row) is None


def _phrases(task: Task, chosen: Sequence[Motif]) -> list[_Phrase]:
    """A motif for each block: another one from stage to stage, the first one at the beginning and in the end, the
    busiest where the piece is fullest."""
    blocks, last = task.blocks, len(task.piece.stages) - 1
    busiest = max(range(len(chosen)), key=lambda number: _hits(chosen[number].rhythms))
    fullest = {task.shape.blocks[i].bar for i in task.shape.climax}
    used: Counter[int] = Counter()
    found: list[_Phrase] = []
    for number, block in enumerate(blocks):
        inside = sum(other.stage == block.stage for other in blocks[:number])
        wish = (inside // 2 if block.stage in (0, last) else block.stage + inside // 2) % len(chosen)
        able = [at for at, motif in enumerate(chosen) if _able(task, motif.rhythms, block)]
        motif = next(
            (at for at in (busiest if block.bar in fullest else wish, wish) if at in able),
            min(able, key=lambda at: used[at], default=wish),
        )
        rhythms = chosen[motif].rhythms if able else _sparsest(task, block)
        used[motif] += block.bars
        way, turn = 1 if number % 2 == 0 else -1, _turn(task, block)
        found.append(_Phrase(block=block, motif=motif, rhythms=rhythms, way=way, turn=turn))
    return found


def _turn(task: Task, block: Block) -> tuple[int, ...]:
    """The beats of a bar that are this tune's where others have its rule and play, too; () where it plays alone."""
    shape, plan_name = task.shape, task.piece.plan_name
    playing = {plan_name(name) for name, own in shape.sounding.items() if shape.blocks.index(block) in own}
    round_of = [name for name in under_one_rule(task.piece.scene) if name in playing]
    if task.line.plan.name not in round_of or len(round_of) < 2:
        return ()
    place = round_of.index(task.line.plan.name) % task.beats
    return tuple(range(place, task.beats, len(round_of)))


def _sparsest(task: Task, block: Block) -> Family:
    easy = families(task.beats, "easy", 3)
    return next((family for family in easy if _able(task, family, block)), easy[0])


def _bar_rhythm(phrase: _Phrase, number: int) -> Rhythm:
    return phrase.rhythms.bar(number, phrase.block.bars)


def _strokes(task: Task, phrase: _Phrase, kind: str, anchors: Anchors) -> list[Stroke]:
    found: list[Stroke] = []
    chord = task.chord(phrase.block.stage)
    for number in range(phrase.block.bars):
        bar = phrase.block.bar + number
        if not task.answers(bar):
            continue
        first = (bar - 1) * task.beats
        if phrase.turn:
            found += [_in_turn(task, anchors, first, beat) for beat in phrase.turn]
            continue
        hits = _bar_rhythm(phrase, number).hits
        between: dict[int, list[Fraction]] = {}
        for start, _ in hits:
            strong = strong_before(start, task.beats)
            if start != strong:
                between.setdefault(strong, []).append(start)
        for start, beats in hits:
            strong = strong_before(start, task.beats)
            place, asked = anchors[first + strong]
            own = start == strong
            if not own:
                gap = between[strong]
                last = number == phrase.block.bars - 1 and number > 0
                which = (gap.index(start), len(gap))
                around = _gap(task, phrase, anchors, first + strong, which)
                place = ornament("bordun" if last else kind, around, task.tuning, chord)
            found.append(
                Stroke(
                    beat=first + start,
                    beats=beats,
                    midi=task.tuning.notes[place],
                    row=task.main,
                    asked=asked if own else None,
                    accent=_FIRST if start == 0 else 0 if own or kind == "echo" else _LIGHT,
                )
            )
    return found


def _in_turn(task: Task, anchors: Anchors, first: int, beat: int) -> Stroke:
    """The key's note on a beat of the bar that begins at `first`: no ornament, so each turn says what the rule says."""
    place, asked = anchors[first + strong_before(Fraction(beat), task.beats)]
    midi = task.tuning.notes[place]
    return Stroke(beat=Fraction(first + beat), beats=Fraction(1), midi=midi, row=task.main, asked=asked)


def _gap(task: Task, phrase: _Phrase, anchors: Anchors, strong: int, which: tuple[int, int]) -> Gap:
    """What stands between a strong beat and the next one that the line plays."""
    here = anchors[strong][0]
    steps = [beat for beat in (strong + 1, strong + 2, strong + 3, strong + 4) if beat in anchors]
    after = anchors[steps[0]][0] if steps else here
    root = task.root(phrase.block.stage)
    fifth = task.tuning.fifth_above(root)
    return Gap(before=here, after=after, root=root, fifth=fifth, number=which[0], many=which[1], way=phrase.way)


def _patterns(task: Task, phrases: Sequence[_Phrase], strokes: Sequence[Stroke]) -> tuple[Pattern, ...]:
    """Each motif as it first comes, whole phrases before short ones; as many as the group may learn."""
    found: list[Pattern] = []
    for motif in dict.fromkeys(phrase.motif for phrase in phrases if not phrase.turn):
        if len(found) == task.patterns:
            break
        for phrase in _first_of(phrases, motif):
            first, bars = task.first_beat(phrase.block.bar), min(phrase.block.bars, 4)
            own = [stroke for stroke in strokes if first <= stroke.beat < first + bars * task.beats]
            if own:
                found.append(_pattern(task, len(found) + 1, phrase, own))
                break
    return tuple(found)


def _first_of(phrases: Sequence[_Phrase], motif: int) -> list[_Phrase]:
    """The phrases of a motif, whole ones before short ones."""
    return sorted(
        (p for p in phrases if p.motif == motif and not p.turn), key=lambda p: (-min(p.block.bars, 4), p.block.bar)
    )


def _pattern(task: Task, number: int, phrase: _Phrase, strokes: Sequence[Stroke]) -> Pattern:
    """The strokes of a phrase's first bars as a pattern."""
    first, bars = task.first_beat(phrase.block.bar), min(phrase.block.bars, 4)
    return Pattern(
        number=number,
        bars=bars,
        hits=tuple((stroke.beat - first, stroke.beats, stroke.midi) for stroke in strokes),
        words=_pattern_words([stroke.midi for stroke in strokes]),
        light=tuple(place for place, stroke in enumerate(strokes) if stroke.accent == _LIGHT),
    )


def _pattern_words(notes: Sequence[int]) -> Fact:
    """What a phrase does, in words that are true of its notes."""
    up, down, end = max(notes) > notes[0], min(notes) < notes[0], notes[-1] - notes[0]
    if end > 0:
        return fact("part-tune-climbs", both="no")
    if end < 0:
        return fact("part-tune-sinks")
    way = "both" if up and down else "up" if up else "down" if down else "none"
    return fact("part-tune-asks", way=way, home="yes" if up or down else "no")


def _entries(task: Task) -> tuple[Entry, ...]:
    """Where the tune sounds: what to play there are its notes, which the card prints."""
    return tuple(Entry(bar=stretch[0].bar, bars=stretch[-1].end - stretch[0].bar) for stretch in stretches(task.blocks))


def _words(task: Task, strokes: Sequence[Stroke]) -> tuple[Words, ...]:
    rule = task.piece.curve("pitch", task.line.plan.name)
    words: list[Words] = [fact("part-learn-slowly")]
    if rule is not None and rule.rule.quantity:
        at_most, at_least = (float(rule.results[each(rule.quantity_values)]) for each in (np.argmax, np.argmin))
        way = "lower" if at_most < at_least else "higher"
        ends = (Reading(how=f"sound at {end} end", of=rule.rule.key) for end in ("high", "low"))
        claim = Claim(kind="less" if way == "lower" else "more", left=next(ends), right=next(ends))
        words.append(fact("part-tune-follows", claim, quantity=Named("quantity", rule.rule.quantity), way=way))
    if task.level != "easy":
        words.append(fact("part-tune-light"))
    words.append(fact("part-breathe-after-tune"))
    words += _round_words(task)
    if task.main.family in BREATHING:
        words += breath_words(task)
    return (*words, *(_along(task, strokes, row) for row in task.rows[1:]), *answer_words(task))


def _round_words(task: Task) -> list[Words]:
    """In which bars the note goes round, and whose beats are whose; in its last bar a piece ends together."""
    runs: list[tuple[tuple[int, ...], int, int]] = []
    for block in task.blocks:
        turn, end = _turn(task, block), min(block.end, task.piece.bars)
        if runs and runs[-1][0] == turn and runs[-1][2] == block.bar:
            runs[-1] = (turn, runs[-1][1], end)
        else:
            runs.append((turn, block.bar, end))
    return [
        fact(
            "part-note-goes-round",
            first=first,
            last=end - 1,
            beats=tuple(str(beat + 1) for beat in turn),
            n=len(turn),
        )
        for turn, first, end in runs
        if turn and end > first
    ]


def _along(task: Task, strokes: Sequence[Stroke], row: Instrument) -> Fact:
    """What the line's other instruments do; of a tune that is compared, whether they lie in another octave."""
    told = {"who": capital(row.plural), "main": task.main.plural}
    if not row.pitched:
        return fact("part-first-beats", **told)
    shift = octave_of(task, strokes, row)
    if not shift or not of_one_height(task.piece.scene, task.line.plan.name):
        return fact("part-along", **told)
    return fact("part-along-octave", **told, way="higher" if shift > 0 else "lower")


def _held(task: Task, fit: Fitted) -> list[Finding]:
    if not fit.held:
        return []
    return [
        finding(
            task,
            fact(
                "play-beyond-range",
                bars=fit.held,
                instrument=task.main.called,
                low=Note(task.tuning.notes[0]),
                high=Note(task.tuning.notes[-1]),
            ),
            fact("play-narrow-pitches"),
        )
    ]
