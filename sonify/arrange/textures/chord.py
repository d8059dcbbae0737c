"""A drone's chord on tuned instruments: which notes sound in each phrase, and which pupil plays which.

Without a loudness rule of its own a drone is the open fifth. With one it grows as its quantity grows: the lowest note,
then the fifth, the third, the octave. Two pupils share the notes out, so that each has two beaters for two notes.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from sonify.arrange.blocks import Block
from sonify.arrange.hands import TWO_HANDED
from sonify.arrange.pitches import Tuning
from sonify.arrange.textures.task import Task, capital
from sonify.records.fact import Note, Words, fact

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
    if len(found.notes) == 1:
        return tuple(words)
    if found.grows():
        words += [fact("part-chord-grows"), fact("part-chord-watch")]
    if not found.pairs:
        grows = "yes" if found.grows() else "no"
        return (*words, fact("part-chord-two-beaters", grows=grows, notes=chord_notes(found.notes)))
    most = max(found.sizes.values())
    first, second = found.notes[:most:2], found.notes[1:most:2]
    duty = sum(row is task.main for _, row in task.on_duty(task.blocks[0].bar))
    if second:
        where = fact("part-in-twos" if len(task.rows) == 1 else "part-in-twos-at", instruments=task.main.plural)
        words.append(fact("part-chord-shared", where=where, one=chord_notes(first), other=chord_notes(second)))
        words += [fact("part-two-after-two")] if duty > 2 else []
    if found.grows() and 1 in found.sizes.values():
        words.append(fact("part-chord-one-note", note=chord_notes(found.notes[:1])))
    words += [
        fact("part-chord-along", who=capital(row.plural)) for row in task.rows[1:] if row.pitched and found.grows()
    ]
    return tuple(words)


def chord_notes(notes: Sequence[int]) -> tuple[Note, ...]:
    return tuple(map(Note, notes))
