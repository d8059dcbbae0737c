"""A melody without notes: high and low sounds in place of pitches, as far as the group's instruments allow."""

from __future__ import annotations

import numpy as np

from sonify.arrange.blocks import stretches
from sonify.arrange.hands import within_reach
from sonify.arrange.rhythms import rhythm
from sonify.arrange.textures.task import Played, Stroke, Task, answer_words, bars_told, finding
from sonify.kinds.instruments import REGISTERS
from sonify.records.fact import Words, fact
from sonify.records.findings import Finding
from sonify.records.instrument import Instrument
from sonify.records.score import Entry

_RHYTHMS = {4: ("q q h", "h q r"), 3: ("q q q", "h r"), 2: ("q q", "q r")}
#: With one sound only, the height is heard as softer and stronger: velocity added from the lowest to the highest.
_ONE_SOUND_SWING = 12


def played(task: Task) -> Played:
    """Each bar on the sound whose register stands for the height that the pitch rule asks for there."""
    sounds = sorted(task.rows, key=lambda row: REGISTERS.index(row.register))
    heights = _heights(task)
    strokes: list[Stroke] = []
    for block in task.blocks:
        for bar in range(block.bar, block.end):
            if not task.answers(bar):
                continue
            row = sounds[min(int(heights[bar] * len(sounds)), len(sounds) - 1)]
            accent = 0 if len(sounds) > 1 else round((heights[bar] - 0.5) * _ONE_SOUND_SWING)
            strokes += _bar(task, bar, (bar - block.bar) % 2, row, accent)
    strokes = _reached(task, strokes)
    return Played(
        strokes=tuple(strokes),
        entries=_entries(task, heights, sounds),
        words=(*_words(sounds), *answer_words(task)),
        findings=(_said(task, sounds),),
    )


def _heights(task: Task) -> dict[int, float]:
    """For each bar how high the tune is, 0 to 1: the pitch rule over its range in this part, or the piece's arc."""
    bars = task.bars
    pitch = task.results("pitch")
    values = np.array([task.shape.arc(bar) if pitch is None else pitch[(bar - 1) * task.beats] for bar in bars])
    span = float(np.ptp(values))
    shares = (values - values.min()) / span if span > 1e-9 else np.full(len(bars), 0.5)
    return {bar: float(share) for bar, share in zip(bars, shares, strict=True)}


def _bar(task: Task, bar: int, number: int, row: Instrument, accent: int) -> list[Stroke]:
    first = task.first_beat(bar)
    return [
        Stroke(beat=first + start, beats=beats, midi=row.gm_key, row=row, accent=accent + (3 if start == 0 else 0))
        for start, beats in rhythm(_RHYTHMS[task.beats][number]).hits
    ]


def _reached(task: Task, strokes: list[Stroke]) -> list[Stroke]:
    """What hands can play, instrument by instrument."""
    kept: list[Stroke] = []
    for row in task.rows:
        own = [stroke for stroke in strokes if stroke.row is row]
        reach = within_reach(task.seconds([stroke.beat for stroke in own]), row)
        kept += [stroke for stroke, can in zip(own, reach, strict=True) if can]
    return sorted(kept, key=lambda stroke: stroke.beat)


def _entries(task: Task, heights: dict[int, float], sounds: list[Instrument]) -> tuple[Entry, ...]:
    found = []
    for stretch in stretches(task.blocks):
        first, last = heights[stretch[0].bar], heights[stretch[-1].end - 1]
        way = "rising" if last > first + 0.05 else "falling" if last < first - 0.05 else "steady"
        text = fact("part-contour", way=way, by="sounds" if len(sounds) > 1 else "strength")
        found.append(Entry(bar=stretch[0].bar, bars=stretch[-1].end - stretch[0].bar, instruction=text))
    return tuple(found)


def _words(sounds: list[Instrument]) -> tuple[Words, ...]:
    if len(sounds) == 1:
        return (fact("part-no-notes-one-sound"),)
    return (fact("part-no-notes", sounds=tuple(row.plural for row in sounds)),)


def _said(task: Task, sounds: list[Instrument]) -> Finding:
    how = "sounds" if len(sounds) > 1 else "strength"
    return finding(
        task,
        fact("play-no-tuned-instrument", sounds=tuple(row.plural for row in sounds), how=how),
        fact("play-add-tuned-instrument"),
        where=bars_told(task.blocks[0].bar, task.blocks[-1].end - task.blocks[0].bar),
    )
