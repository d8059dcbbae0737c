"""Tremolo: one sound repeated fast, as measured quavers or semiquavers that go round the group from pupil to pupil.

One pupil cannot strike that fast for long; several in turn can. What shakes, swirls or blows is simply held on.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache

import numpy as np

from sonify.arrange.blocks import Block, stretches
from sonify.arrange.hands import Hands
from sonify.arrange.pitches import tuning
from sonify.arrange.textures.task import (
    Played,
    Sounding,
    Stroke,
    Task,
    answer_words,
    capped_figures,
    finding,
    from_bar,
    span,
)
from sonify.frozen import dataclass
from sonify.records.fact import Claim, Fact, Words, fact
from sonify.records.findings import Finding
from sonify.records.instrument import Instrument
from sonify.records.score import Entry

#: What can be struck no faster than this, but held, is held.
_SLOW_PER_S = 1.0
#: Waves of so many bars, this much softer at their ends and louder in their middle.
_WAVE_BARS, _SWELL = 2, 4
#: Strokes a beat without a density rule, by line (our own choice).
_UNRULED = {"easy": 1.0, "core": 2.0, "stretch": 4.0}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Roll:
    """a_beat strokes in each of the first `beats` beats of a bar."""

    a_beat: int
    beats: int

    def a_bar(self) -> int:
        return self.a_beat * self.beats


def played(task: Task) -> Played:
    """The roll in every block, as fast as its rule asks and hands allow; the last beat of a phrase is a breath.

    Each kind of instrument of the group keeps its own roll, as fast as its pupils can.
    """
    if task.main.sustains and task.main.fastest_per_s <= _SLOW_PER_S:
        return _held_on(task)
    sounding = Sounding()
    rolls: dict[int, _Roll] = {}
    strokes: list[Stroke] = []
    for row in task.rows:
        by_run = {run: _roll(task, run, row) for run in task.runs}
        own = {block.bar: by_run[task.run_at(block.bar)] for block in task.blocks}
        rolls = rolls or own
        for stroke in _rolled(task, row, own):
            if sounding.free(stroke):
                sounding.add(stroke)
                strokes.append(stroke)
    return Played(
        strokes=tuple(strokes),
        entries=_entries(task, rolls),
        words=_words(task, strokes),
        findings=tuple(_capped(task, rolls)),
        octaves=task.octaves,
    )


def _rolled(task: Task, row: Instrument, rolls: dict[int, _Roll]) -> list[Stroke]:
    """One kind of instrument's strokes, each by the next of its pupils who can reach it."""
    hands = {player: Hands(row) for player in range(1, sum(seat.players for seat in task.seats) + 1)}
    found: list[Stroke] = []
    turn = 0
    for block in task.blocks:
        for bar in range(block.bar, block.end):
            if not task.answers(bar):
                continue
            duty = [player for player, own in task.on_duty(bar) if own is row]
            onsets = _onsets(rolls[block.bar], task.beats - (bar == block.end - 1 and block.bars >= 4))
            first, gap = task.first_beat(bar), Fraction(1, rolls[block.bar].a_beat)
            midi, asked = _pitch(task, bar, row)
            for onset, second in zip(onsets, task.seconds([first + onset for onset in onsets]), strict=True):
                player = _next(duty, hands, second, turn)
                if player is None:
                    continue
                turn = duty.index(player) + 1
                hands[player].strike(second)
                found.append(
                    Stroke(
                        beat=first + onset,
                        beats=gap,
                        midi=midi,
                        row=row,
                        player=player,
                        asked=asked,
                        accent=_swell(task, bar, onset),
                    )
                )
    return found


def _next(duty: Sequence[int], hands: dict[int, Hands], second: float, turn: int) -> int | None:
    """The next player whose hands are free, going round from `turn`."""
    order = (duty[(turn + ahead) % len(duty)] for ahead in range(len(duty)))
    return next((player for player in order if hands[player].can_strike(second)), None)


def _onsets(roll: _Roll, beats: int) -> list[Fraction]:
    return [Fraction(i, roll.a_beat) for i in range(roll.a_bar()) if Fraction(i, roll.a_beat) < beats]


def _swell(task: Task, bar: int, onset: Fraction) -> int:
    """A wave of two bars: up to the middle, down to the end."""
    share = (task.beats * ((bar - 1) % _WAVE_BARS) + float(onset)) / (_WAVE_BARS * task.beats)
    return round(_SWELL * (1.0 - 4.0 * abs(share - 0.5)))


def _pitch(task: Task, bar: int, row: Instrument) -> tuple[int, float | None]:
    if not row.pitched:
        return row.gm_key, None
    pitch, notes = task.results("pitch"), tuning(row, task.piece.scene.music.scale)
    if pitch is None or row is not task.main:
        return notes.notes[notes.tonics[-1]], None
    asked = float(pitch[(bar - 1) * task.beats])
    return notes.notes[notes.index(asked + 12 * task.octaves)], asked


def _wanted(task: Task, block: Block) -> float | None:
    """Strokes a beat that the density rule asks for, the mean over a run; None without a rule."""
    density = task.results("density")
    if density is None:
        return None
    return float(np.mean(density[(block.bar - 1) * task.beats : (block.end - 1) * task.beats]))


def _roll(task: Task, block: Block, row: Instrument) -> _Roll:
    """The roll nearest to what is asked, of those that the pupils at one instrument can keep up through a run."""
    halves = max(task.beats // 2, 1)
    options = [_Roll(a_beat=a, beats=b) for a, b in ((4, task.beats), (2, task.beats), (4, halves), (2, halves))]
    options += [_Roll(a_beat=1, beats=task.beats)]
    bpm = task.piece.fastest_bpm(block.bar, block.bars)
    players = sum(own is row for _, own in task.on_duty(block.bar))
    able = [roll for roll in options if _kept_up(roll, task.beats, bpm, row, players)] or [options[-1]]
    wanted = _wanted(task, block)
    wanted = _UNRULED[task.level] if wanted is None else wanted
    return min(able, key=lambda roll: abs(roll.a_bar() - wanted * task.beats))


@lru_cache(maxsize=4096)
def _kept_up(roll: _Roll, beats: int, bpm: float, row: Instrument, players: int) -> bool:
    """Whether so many pupils can play the roll in turn, over and over at a tempo."""
    hands = {player: Hands(row) for player in range(players)}
    turn = 0
    for bar in range(6):
        for onset in _onsets(roll, beats):
            second = (bar * beats + float(onset)) * 60.0 / bpm
            player = _next(list(hands), hands, second, turn)
            if player is None:
                return False
            hands[player].strike(second)
            turn = player + 1
    return True


def _held_on(task: Task) -> Played:
    """Shaken, swirled or blown on: a bar at a time, or two where a bar is shorter than one such movement."""
    strokes = []
    for block in task.blocks:
        bar = block.bar
        while bar < block.end:
            short = task.piece.bar_seconds(bar) * task.main.fastest_per_s < 1.0
            bars = 2 if short and bar + 1 < block.end else 1
            if task.answers(bar):
                midi, asked = _pitch(task, bar, task.main)
                beats = Fraction(bars * task.beats)
                strokes.append(Stroke(beat=task.first_beat(bar), beats=beats, midi=midi, row=task.main, asked=asked))
            bar += bars
    entries = [
        Entry(bar=stretch[0].bar, bars=stretch[-1].end - stretch[0].bar, instruction=fact("part-keep-moving"))
        for stretch in stretches(task.blocks)
    ]
    words = (fact("part-keep-moving-all-the-time"), *answer_words(task))
    findings = []
    if task.results("density", own=True) is not None:
        findings.append(
            finding(
                task,
                fact("play-no-strokes", instrument=task.main.called),
                fact("play-hear-as-dynamics"),
            )
        )
    return Played(
        strokes=tuple(strokes),
        entries=tuple(entries),
        words=words,
        findings=tuple(findings),
        octaves=task.octaves,
    )


def _entries(task: Task, rolls: dict[int, _Roll]) -> tuple[Entry, ...]:
    """An entry for each speed of the roll, in words for one pupil: what all make together nobody plays alone."""
    found: list[Entry] = []
    before: _Roll | None = None
    for block in task.blocks:
        roll = rolls[block.bar]
        last = found[-1] if found else None
        follows = last is not None and last.bar + last.bars == block.bar
        if last and follows and roll == before:
            found[-1] = replace(last, bars=last.bars + block.bars)
        else:
            text = _change(task, block, (last, before) if last and follows and before else None, roll)
            found.append(Entry(bar=block.bar, bars=block.bars, instruction=text))
        before = roll
    return tuple(found)


def _change(task: Task, block: Block, last: tuple[Entry, _Roll] | None, roll: _Roll) -> Fact:
    """What a pupil does differently from here on, or does at an entry. last: what came just before."""
    pace = "quick" if roll.a_beat > 2 else "slow" if roll.a_beat == 1 else "easy"
    plain = fact("part-roll", pace=pace, beats=roll.beats, whole="yes" if roll.beats == task.beats else "no")
    if last is None:
        return plain
    entry, before = last
    more = roll.a_bar() > before.a_bar()
    if roll.a_beat == before.a_beat or (roll.a_beat > before.a_beat) != more or roll.a_bar() == before.a_bar():
        return plain
    here, there = span(task, block.bar, block.end), span(task, entry.bar, entry.bar + entry.bars)
    claim = Claim(kind="busier" if more else "sparser", left=here, right=there)
    return fact("part-roll-more" if more else "part-roll-fewer", claim, how=plain).or_else(plain)


def _words(task: Task, strokes: Sequence[Stroke]) -> tuple[Words, ...]:
    if len(task.on_duty(task.blocks[0].bar)) == 1:
        how = fact("part-hands-in-turn")
    else:
        over = span(task, task.blocks[0].bar, task.blocks[-1].end)
        by_kind = fact("part-in-turn-by-kind", Claim(kind="in turn by kind", left=over))
        alone = len({stroke.beat for stroke in strokes}) == len(strokes)
        how = fact("part-in-turn", Claim(kind="in turn", left=over)).or_else(by_kind) if alone else by_kind
    boxes = () if len(task.on_duty(task.blocks[0].bar)) == 1 else (fact("part-boxes-of-all"),)
    return (how, *boxes, fact("part-grow-like-a-wave"), *answer_words(task))


def _capped(task: Task, rolls: dict[int, _Roll]) -> list[Finding]:
    over = [
        (wanted, rolls[block.bar].a_bar() / task.beats, block)
        for block in task.runs
        if (wanted := _wanted(task, block)) is not None and wanted > rolls[block.bar].a_bar() / task.beats + 0.5
    ]
    if not over:
        return []
    wanted, most, block = max(over, key=lambda item: item[0] - item[1])
    return [
        finding(
            task,
            fact("play-density-over-beat", **capped_figures(task, wanted, most, block.bar)),
            fact("play-lower-density-or-instruments"),
            where=from_bar(block.bar),
        )
    ]
