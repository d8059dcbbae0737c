"""Tremolo: one sound repeated fast, as measured quavers or semiquavers that go round the group from pupil to pupil.

One pupil cannot strike that fast for long; several in turn can. What shakes, swirls or blows is simply held on.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np

from sonify.arrange.hands import Hands
from sonify.arrange.pitches import fitted, tuning
from sonify.arrange.shape import Block, stretches
from sonify.arrange.textures.task import Played, Stroke, Task, answer_words, finding
from sonify.records.findings import Finding
from sonify.records.instrument import Instrument
from sonify.records.score import Entry

#: What can be struck no faster than this, but held, is held.
_SLOW_PER_S = 1.0
#: Waves of so many bars, this much softer at their ends and louder in their middle.
_WAVE_BARS, _SWELL = 2, 4
#: Without a density rule: semiquavers from here on the way to the climax, quavers before and after.
_NEAR_CLIMAX = 0.85


@dataclass(frozen=True, slots=True, kw_only=True)
class _Roll:
    """a_beat strokes in each of the first `beats` beats of a bar."""

    a_beat: int
    beats: int

    def a_bar(self) -> int:
        return self.a_beat * self.beats


def played(task: Task) -> Played:
    """The roll in every block, as fast as its rule asks and hands allow; the last beat of a phrase is a breath."""
    if task.main.sustains and task.main.fastest_per_s <= _SLOW_PER_S:
        return _held_on(task)
    rolls = {block.bar: _roll(task, block) for block in task.blocks}
    hands = {player: Hands(row) for player, row in _players(task)}
    strokes: list[Stroke] = []
    turn, octaves = 0, _octaves(task)
    for block in task.blocks:
        for bar in range(block.bar, block.end):
            if not task.answers(block, bar):
                continue
            breath = bar == block.end - 1 and block.bars >= 4
            beats = _onsets(rolls[block.bar], task.beats - 1 if breath else task.beats)
            struck, turn = _bar(task, bar, beats, hands, (turn, octaves))
            strokes += struck
    return Played(
        strokes=tuple(strokes),
        entries=_entries(task, rolls),
        words=_words(task),
        findings=tuple(_capped(task, rolls)),
        octaves=octaves,
        difficulty="core",
    )


def _players(task: Task) -> list[tuple[int, Instrument]]:
    rows = [row for seat, row in zip(task.seats, task.rows, strict=True) for _ in range(seat.players)]
    return list(enumerate(rows, 1))


def _onsets(roll: _Roll, beats: int) -> list[Fraction]:
    return [Fraction(i, roll.a_beat) for i in range(roll.a_bar()) if Fraction(i, roll.a_beat) < beats]


def _bar(
    task: Task, bar: int, onsets: Sequence[Fraction], hands: dict[int, Hands], state: tuple[int, int]
) -> tuple[list[Stroke], int]:
    """One bar's strokes, each by the next pupil whose turn it is; a stroke that nobody can reach is left out."""
    turn, octaves = state
    duty = task.on_duty(bar)
    first = task.first_beat(bar)
    seconds = task.seconds([first + onset for onset in onsets])
    gap = onsets[1] - onsets[0] if len(onsets) > 1 else Fraction(1)
    found = []
    for onset, second in zip(onsets, seconds, strict=True):
        for ahead in range(len(duty)):
            player, row = duty[(turn + ahead) % len(duty)]
            if hands[player].can_strike(second):
                hands[player].strike(second)
                midi, asked = _pitch(task, bar, row, octaves)
                accent = _swell(task, bar, onset)
                found.append(
                    Stroke(beat=first + onset, beats=gap, midi=midi, row=row, player=player, asked=asked, accent=accent)
                )
                turn += ahead + 1
                break
    return found, turn


def _swell(task: Task, bar: int, onset: Fraction) -> int:
    """A wave of two bars: up to the middle, down to the end."""
    share = (task.beats * ((bar - 1) % _WAVE_BARS) + float(onset)) / (_WAVE_BARS * task.beats)
    return round(_SWELL * (1.0 - 4.0 * abs(share - 0.5)))


def _pitch(task: Task, bar: int, row: Instrument, octaves: int) -> tuple[int, float | None]:
    if not row.pitched:
        return row.gm_key, None
    pitch, notes = task.results("pitch"), tuning(row, task.piece.scene.music.scale)
    if pitch is None or row is not task.main:
        return notes.notes[notes.tonics[-1]], None
    asked = float(pitch[(bar - 1) * task.beats])
    return notes.notes[notes.index(asked + 12 * octaves)], asked


def _octaves(task: Task) -> int:
    pitch = task.results("pitch")
    if pitch is None or not task.main.pitched:
        return 0
    bars = [bar for block in task.blocks for bar in range(block.bar, block.end)]
    return fitted([float(pitch[(bar - 1) * task.beats]) for bar in bars], task.tuning).octaves


def _wanted(task: Task, block: Block) -> float | None:
    """Strokes a beat that the density rule asks for, the mean over a block; None without a rule."""
    density = task.results("density")
    if density is None:
        return None
    return float(np.mean(density[(block.bar - 1) * task.beats : (block.end - 1) * task.beats]))


def _roll(task: Task, block: Block) -> _Roll:
    """The roll nearest to what is asked, or the fastest, of those that the group can keep up through the block."""
    halves = max(task.beats // 2, 1)
    options = [_Roll(a_beat=a, beats=b) for a, b in ((4, task.beats), (2, task.beats), (4, halves), (2, halves))]
    options += [_Roll(a_beat=1, beats=task.beats)]
    able = [roll for roll in options if _kept_up(task, block, roll)] or [options[-1]]
    wanted = _wanted(task, block)
    if wanted is None:
        wanted = 4.0 if task.shape.arc(block.bar + block.bars / 2) >= _NEAR_CLIMAX else 2.0
    return min(able, key=lambda roll: abs(roll.a_bar() - wanted * task.beats))


def _kept_up(task: Task, block: Block, roll: _Roll) -> bool:
    """Whether the pupils on duty can play the roll over and over at the block's tempo."""
    second = 60.0 / task.piece.fastest_bpm(block.bar, block.bars)
    duty = task.on_duty(block.bar)
    hands = {player: Hands(row) for player, row in duty}
    turn = 0
    for number in range(6):
        for onset in _onsets(roll, task.beats):
            at = (number * task.beats + float(onset)) * second
            able = next((i for i in range(len(duty)) if hands[duty[(turn + i) % len(duty)][0]].can_strike(at)), None)
            if able is None:
                return False
            hands[duty[(turn + able) % len(duty)][0]].strike(at)
            turn += able + 1
    return True


def _held_on(task: Task) -> Played:
    """Shaken, swirled or blown on: a bar at a time, or two where a bar is shorter than one such movement."""
    strokes, octaves = [], _octaves(task)
    for block in task.blocks:
        bar = block.bar
        while bar < block.end:
            short = task.piece.bar_seconds(bar) * task.main.fastest_per_s < 1.0
            bars = 2 if short and bar + 1 < block.end else 1
            if task.answers(block, bar):
                midi, asked = _pitch(task, bar, task.main, octaves)
                beats = Fraction(bars * task.beats)
                strokes.append(Stroke(beat=task.first_beat(bar), beats=beats, midi=midi, row=task.main, asked=asked))
            bar += bars
    entries = [
        Entry(
            bar=stretch[0].bar, bars=stretch[-1].end - stretch[0].bar, instruction="keep it moving, growing and fading"
        )
        for stretch in stretches(task.blocks)
    ]
    words = ("Keep the sound moving all the time; grow and fade with the conductor's hands.", *answer_words(task))
    findings = []
    if task.results("density", own=True) is not None:
        findings.append(
            finding(
                task,
                f"Its density rule cannot be heard: a {task.main.name.lower()} sounds on without strokes.",
                "Hear the quantity as dynamics instead, or list a struck instrument first.",
            )
        )
    return Played(
        strokes=tuple(strokes),
        entries=tuple(entries),
        words=words,
        findings=tuple(findings),
        octaves=octaves,
        difficulty="easy",
    )


def _speed(roll: _Roll, beats: int) -> str:
    name = {4: "semiquavers", 2: "quavers", 1: "crotchets"}[roll.a_beat]
    return f"{name} all through" if roll.beats == beats else f"{name} on the first {roll.beats} beats, then let it ring"


def _entries(task: Task, rolls: dict[int, _Roll]) -> tuple[Entry, ...]:
    found: list[Entry] = []
    for block in task.blocks:
        text = _speed(rolls[block.bar], task.beats)
        last = found[-1] if found else None
        if last and last.bar + last.bars == block.bar and last.instruction == text:
            found[-1] = Entry(bar=last.bar, bars=last.bars + block.bars, instruction=text)
        else:
            found.append(Entry(bar=block.bar, bars=block.bars, instruction=text))
    return tuple(found)


def _words(task: Task) -> tuple[str, ...]:
    alone = len(task.on_duty(task.blocks[0].bar)) == 1
    how = (
        "Hands in turn, light and even."
        if alone
        else "Keep light, quick strokes going, about two a second each, not together: the group makes the roll."
    )
    return (how, "Grow and fade like a wave; the last beat of each phrase is silent.", *answer_words(task))


def _capped(task: Task, rolls: dict[int, _Roll]) -> list[Finding]:
    over = [
        (wanted, rolls[block.bar].a_bar() / task.beats, block)
        for block in task.blocks
        if (wanted := _wanted(task, block)) is not None and wanted > rolls[block.bar].a_bar() / task.beats + 0.5
    ]
    if not over:
        return []
    wanted, most, block = max(over, key=lambda item: item[0] - item[1])
    return [
        finding(
            task,
            f"Its density asks for {wanted:.1f} strokes a beat; at {task.piece.bpm(block.bar):g} beats a minute the "
            f"group plays {most:.1f}.",
            "Lower the rule's density or the tempo, or give the group more instruments.",
            where=f"from bar {block.bar}",
        )
    ]
