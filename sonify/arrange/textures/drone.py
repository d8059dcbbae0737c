"""Drone: one sound that goes on. What can be held is held a bar or two; what rings is struck again in time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

import numpy as np

from sonify.arrange.blocks import Block, stretches
from sonify.arrange.hands import TWO_HANDED, too_fast_at
from sonify.arrange.pitches import Tuning, fitted
from sonify.arrange.textures.task import Played, Sounding, Stroke, Task, capital, doubled, finding, span
from sonify.frozen import dataclass
from sonify.records.fact import Claim, Fact, Note, Words, fact
from sonify.records.findings import Finding
from sonify.records.instrument import Instrument
from sonify.records.score import Entry

# A drone's chord on tuned instruments: which notes sound in each phrase, and which pupil plays which ------------------
#
# Without a loudness rule of its own a drone is the open fifth. With one it grows as its quantity grows: the lowest
# note, then the fifth, the third, the octave. Two pupils share the notes out, so that each has two beaters for two
# notes.

_THIRDS = (3, 4)
_OCTAVE = 12
#: The chord without a rule: the lowest note and the fifth.
_FIFTH = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Chord:
    """tones: for each stage MIDI notes, in the order in which they join. sizes: how many of them sound, by each block's
    first bar.

    pairs: whether two pupils share the notes, the first with the odd ones in that order, the second with the others.
    """

    tones: dict[int, tuple[int, ...]]
    sizes: dict[int, int]
    pairs: bool

    def grows(self) -> bool:
        """Whether the number of notes changes in the piece."""
        return len(set(self.sizes.values())) > 1

    def moves(self) -> bool:
        """Whether it stands on other notes in another stage."""
        return len(set(self.tones.values())) > 1

    @property
    def notes(self) -> tuple[int, ...]:
        """Those of the first stage that it sounds in."""
        return next(iter(self.tones.values()))

    def at(self, block: Block) -> tuple[int, ...]:
        return self.tones[block.stage][: self.sizes[block.bar]]


def chord(task: Task) -> Chord:
    """The notes and when they join; one note on an instrument on which a pupil sounds one at a time."""
    tones = {block.stage: _notes(task.tuning, task.root(block.stage)) for block in task.blocks}
    if task.main.family not in TWO_HANDED:
        tones = {stage: notes[:1] for stage, notes in tones.items()}
    fewest = min((len(notes) for notes in tones.values()), default=1)
    players = min((sum(row is task.main for _, row in task.on_duty(block.bar)) for block in task.blocks), default=0)
    most = min(fewest, 4 if players > 1 else _FIFTH)
    level = task.results("dynamics", own=True)
    if level is None:
        sizes = {block.bar: min(_FIFTH, most) for block in task.blocks}
    else:
        sizes = {block.bar: _size(task, block, most) for block in task.blocks}
    shared = any(seat.players > seat.count for seat, row in zip(task.seats, task.rows, strict=True) if row is task.main)
    return Chord(
        tones={stage: notes[:most] for stage, notes in tones.items()},
        sizes=sizes,
        pairs=most > 1 and players > 1 and (level is not None or shared),
    )


def _notes(notes: Tuning, place: int) -> tuple[int, ...]:
    """Root, fifth, third, octave, as far as the scale and the instrument have them."""
    root = notes.notes[place]
    third = next((root + step for step in _THIRDS if root + step in notes.notes), None)
    octave = root + _OCTAVE if root + _OCTAVE in notes.notes else None
    found = (root, notes.notes[notes.fifth_above(place)], third, octave)
    return tuple(dict.fromkeys(note for note in found if note is not None))


def _size(task: Task, block: Block, most: int) -> int:
    """How many notes a phrase has: the share of the rule's loudness that its mean reaches, in equal steps."""
    curve = task.piece.curve("dynamics", task.line.plan.name, own=True)
    assert curve is not None
    low, high = sorted((curve.rule.to_low, curve.rule.to_high))
    run = task.run_at(block.bar)
    level = float(np.mean(curve.results[(run.bar - 1) * task.beats : (run.end - 1) * task.beats]))
    share = 1.0 if high == low else (level - low) / (high - low)
    return min(max(1 + int(share * most), 1), most)


def players_of(task: Task, found: Chord, bar: int, turn: int, notes: int) -> list[int]:
    """The player of each of the notes struck: 0 for all together; where more than two are there, pair after pair."""
    if not found.pairs or notes == 1:
        return [0] * notes
    duty = [player for player, row in task.on_duty(bar) if row is task.main]
    pair = [duty[(2 * turn + hand) % len(duty)] for hand in (0, 1)]
    return [pair[place % 2] for place in range(notes)]


def chord_words(task: Task, found: Chord) -> tuple[Words, ...]:
    """Who plays which notes, and what makes the chord grow."""
    words: list[Words] = [fact("part-chord-moves")] if found.moves() else []
    moves = "yes" if found.moves() else "no"
    if len(found.notes) == 1:
        return tuple(words)
    if found.grows():
        words += [fact("part-chord-grows"), fact("part-chord-watch")]
    if not found.pairs:
        grows = "yes" if found.grows() else "no"
        return (*words, fact("part-chord-two-beaters", grows=grows, moves=moves, notes=chord_notes(found.notes)))
    most = max(found.sizes.values())
    first, second = found.notes[:most:2], found.notes[1:most:2]
    duty = sum(row is task.main for _, row in task.on_duty(task.blocks[0].bar))
    if second:
        where = fact("part-in-twos" if len(task.rows) == 1 else "part-in-twos-at", instruments=task.main.plural)
        if found.moves():  # the entries name the notes of each chord in the order in which they join
            words.append(fact("part-chord-shared-moving", where=where, most=most))
        else:
            words.append(fact("part-chord-shared", where=where, one=chord_notes(first), other=chord_notes(second)))
        words += [fact("part-two-after-two")] if duty > 2 else []
    if found.grows() and 1 in found.sizes.values():
        words.append(fact("part-chord-one-note", moves=moves, note=chord_notes(found.notes[:1])))
    words += [
        fact("part-chord-along", who=capital(row.plural)) for row in task.rows[1:] if row.pitched and found.grows()
    ]
    return tuple(words)


def chord_notes(notes: Sequence[int]) -> tuple[Note, ...]:
    return tuple(map(Note, notes))


#: Nobody of 7 to 11 holds a breath or a swirl longer than this (our own limit).
_LONGEST_S = 6.0
#: A ringing sound is struck again when so much of its ring is over.
_RING_SHARE = 1.5
_SWELL = 4


def played(task: Task) -> Played:
    """Long notes through every block."""
    found: list[Stroke] = []
    places, octaves, held = _places(task)
    tones = chord(task) if task.main.pitched and places is None else None
    wave = 0
    for block in task.blocks:  # no note goes on over a block's end: there the tempo may change, or the way home begin
        for start, beats in _lengths(task, block):
            found += _struck(task, block, (start, beats), tones if places is None else places, wave)
            wave += 1
    return Played(
        strokes=tuple(_joined(task, found, tones)),
        entries=_entries(task, tones),
        words=(*_words(task, tones), *(chord_words(task, tones) if tones else ())),
        findings=tuple(_held_on(task, held)),
        octaves=octaves,
    )


def _held_on(task: Task, held: int) -> list[Finding]:
    if not held:
        return []
    return [
        finding(
            task,
            fact("play-drone-beyond-range", bars=held, instrument=task.main.called),
            fact("play-narrow-pitches"),
        )
    ]


def _lengths(task: Task, block: Block) -> list[tuple[Fraction, Fraction]]:
    """The notes of a block, alike all through it: (start, beats) each, of two bars, a bar, or several in a bar."""
    bars, count = _way(task, block)
    if count > 1:
        each = Fraction(task.beats, count)
        return [(task.first_beat(bar) + i * each, each) for bar in range(block.bar, block.end) for i in range(count)]
    return [
        (task.first_beat(bar), Fraction(min(bars, block.end - bar) * task.beats))
        for bar in range(block.bar, block.end, bars)
    ]


def _way(task: Task, block: Block) -> tuple[int, int]:
    """Bars to a note, and notes to a bar (one of them is 1), so that the slowest bar of the run is still filled."""
    row, block = task.main, task.run_at(block.bar)
    slowest = max(task.piece.bar_seconds(bar) for bar in range(block.bar, block.end))
    if row.sustains:
        if slowest > _LONGEST_S:
            return 1, 2 if task.beats % 2 == 0 else task.beats
        return (2 if 2.0 * slowest <= _LONGEST_S and block.bars > 1 else 1), 1
    if 2.0 * slowest <= _RING_SHARE * row.ring_s and block.bars > 1:
        return 2, 1
    for count in (1, 2, task.beats):
        if task.beats % count == 0 and slowest / count <= max(_RING_SHARE * row.ring_s, 0.9):
            break
    fastest = task.beats * 60.0 / task.piece.fastest_bpm(block.bar, block.bars)
    return 1, _possible(row, fastest, count, task.beats)


def _possible(row: Instrument, seconds: float, count: int, beats: int) -> int:
    """At most so many strokes a bar as one player can keep up."""
    for fewer in (count, 2, 1):
        if fewer <= count and beats % fewer == 0:
            times = [i * seconds / fewer for i in range(fewer * 4)]
            if too_fast_at(times, row) is None:
                return fewer
    return 1


def _struck(
    task: Task,
    block: Block,
    note: tuple[Fraction, Fraction],
    pitches: Chord | dict[int, tuple[int, float]] | None,
    wave: int,
) -> list[Stroke]:
    """One long note, or for a tuned instrument the chord (or the note that its pitch rule asks for)."""
    row, (start, beats) = task.main, note
    accent = _SWELL if wave % 2 == 0 else -_SWELL
    if pitches is None:
        return [Stroke(beat=start, beats=beats, midi=row.gm_key, row=row, accent=accent)]
    bar = int(start // task.beats) + 1
    if isinstance(pitches, dict):
        place, asked = pitches[bar]
        return [Stroke(beat=start, beats=beats, midi=task.tuning.notes[place], row=row, asked=asked, accent=accent)]
    midis = pitches.at(block)
    if _style(task, block) != "level" and len(midis) > 1 and beats >= 2:
        return _broken(task, block, note, pitches, accent)
    players = players_of(task, pitches, bar, wave, len(midis))
    return [
        Stroke(beat=start, beats=beats, midi=midi, row=row, player=player, accent=accent)
        for midi, player in zip(midis, players, strict=True)
    ]


#: How a bordun is played (common practice): both notes at once, one after the other, or crossing to the octave.
_STYLES = ("level", "broken", "crossover")


def _style(task: Task, block: Block) -> str:
    """Both at once on the easy line and where a rule sets how many notes there are; else another way by the stage."""
    if task.level == "easy" or task.results("dynamics", own=True) is not None:
        return "level"
    if task.level == "stretch":
        return _STYLES[1 + block.stage % 2]
    turn = int(task.piece.generator(task.line.plan.name, "bordun").integers(2))
    return _STYLES[(block.stage + turn) % 2]


def _broken(task: Task, block: Block, note: tuple[Fraction, Fraction], found: Chord, accent: int) -> list[Stroke]:
    """A note of the bordun in the first half of its time, the other in the second."""
    start, beats = note
    half = Fraction(int(beats) // 2)
    low, fifth = found.at(block)[:2]
    bar = int(start // task.beats)
    high = low + 12 if low + 12 in task.tuning.notes else fifth
    second = high if _style(task, block) == "crossover" and bar % 2 else fifth
    times = ((start, half, low), (start + half, beats - half, second))
    return [Stroke(beat=at, beats=lasts, midi=midi, row=task.main, accent=accent) for at, lasts, midi in times]


def _joined(task: Task, strokes: list[Stroke], tones: Chord | None) -> list[Stroke]:
    """The strokes, with what other instruments play along: of a chord the first two notes, one for each hand."""
    if tones is None:
        return doubled(task, strokes)
    # of the chord of its own stage: another stage's root may be this one's octave, a third note for two hands
    low = {bar: tones.tones[block.stage][:2] for block in task.blocks for bar in range(block.bar, block.end)}
    lead = [replace(each, player=0) for each in strokes if each.midi in low[int(each.beat // task.beats) + 1]]
    sounding = Sounding(strokes)
    return strokes + [copy for copy in doubled(task, lead)[len(lead) :] if sounding.free(copy)]


def _places(task: Task) -> tuple[dict[int, tuple[int, float]] | None, int, int]:
    """For each bar the place of the note its own pitch rule asks for, the octaves added, the bars held at an end."""
    asked = task.results("pitch", own=True)
    if asked is None or not task.main.pitched:
        return None, 0, 0
    bars = task.bars
    values = [float(asked[(bar - 1) * task.beats]) for bar in bars]
    fit = fitted(values, task.tuning)
    return dict(zip(bars, zip(fit.places, values, strict=True), strict=True)), fit.octaves, fit.held


def _entries(task: Task, tones: Chord | None) -> tuple[Entry, ...]:
    """An entry for each stretch, and a new one wherever the strokes or the chord change."""
    found: list[Entry] = []
    for stretch in stretches(task.blocks):
        first = len(found)
        for block in stretch:
            text = _how(task, block, tones)
            if len(found) > first and found[-1].instruction == text:
                found[-1] = replace(found[-1], bars=found[-1].bars + block.bars)
            else:
                found.append(Entry(bar=block.bar, bars=block.bars, instruction=text))
    return tuple(found)


def _how(task: Task, block: Block, tones: Chord | None) -> Fact:
    bars, count = _way(task, block)
    if task.main.sustains:
        how = fact("part-waves")
    elif count > 1:
        how = fact("part-even-strokes", count=count)
    else:
        how = fact("part-let-ring", bars=bars)
    return (
        fact("part-with-notes", notes=chord_notes(tones.at(block)), how=how)
        if tones and (tones.grows() or tones.moves())
        else how
    )


def _words(task: Task, tones: Chord | None) -> tuple[Words, ...]:
    through = set(task.bars) == set(range(1, task.piece.bars + 1))
    steady = fact("part-keep-steady")
    claim = Claim(kind="plays throughout", left=span(task, 1, task.piece.bars + 1))
    words: list[Words] = [fact("part-all-the-way", claim).or_else(steady) if through else steady]
    if task.main.family in ("voice", "wind"):
        words.append(fact("part-breathe-in-turn"))
    if task.line.voices > 1 and task.line.voice:
        words.append(fact("part-share-the-sound"))
    odd = [block for block in task.blocks if _way(task, block)[0] == 2 and block.bars % 2]
    if fresh := [block.end for block in odd if block.end in task.bars]:
        words.append(fact("part-early-stroke", count=len(fresh), bars=tuple(map(str, fresh))))
    return tuple(words)
