"""What several sheets say about a Lesson, worked out once: groups, stages, bars, times and loudness in words."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

import numpy as np

from sonify.paper.settings import PaperSettings
from sonify.records.controls import StageBars
from sonify.records.lesson import Lesson
from sonify.records.palette import group_style
from sonify.records.score import Entry, Part, Score, Section
from sonify.records.timeline import Quantity
from sonify.records.words import clock_text, duration_text, dynamic_word, measure_text, number_text, tempo_word
from sonify.say import say

#: A tempo that changes by less than this ratio within a stage is called steady (our own limit).
STEADY = 1.06


def counted(number: int, one: str, many: str = "") -> str:
    """A number with its noun.

    >>> counted(1, "bar"), counted(4, "bar")
    ('1 bar', '4 bars')
    """
    return f"{number} {one if number == 1 else many or one + 's'}"


def sentence_start(words: str) -> str:
    """Words with a capital first: `capitalize` would make small letters of the rest."""
    return words[:1].upper() + words[1:]


def listed(names: list[str]) -> str:
    """Names as a sentence lists them.

    >>> listed(["sea"]), listed(["sea", "rain", "wind"])
    ('sea', 'sea, rain and wind')
    """
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}" if names else ""


def moment_text(time_s: float, clock_start: float | None) -> str:
    """A model time as people say it: the time of day where the process has one, else how long after the start.

    >>> moment_text(30_000, 6.0), moment_text(75_600, 6.0), moment_text(90, None), moment_text(0, None)
    ('14:20', '03:00 next day', '90 seconds', 'the start')
    """
    if clock_start is None:
        return duration_text(time_s) if time_s > 0 else "the start"
    minutes = round(clock_start * 60 + time_s / 60)
    days, minutes = divmod(minutes, 24 * 60)
    later = "" if not days else " next day" if days == 1 else f" on day {days + 1}"
    return f"{minutes // 60:02d}:{minutes % 60:02d}{later}"


def tempo_text(bpm: float) -> str:
    """A tempo with its words: '66 bpm, unhurried (Adagio)'."""
    italian, plain = tempo_word(bpm)
    return f"{number_text(bpm)} bpm, {plain} ({italian})"


def section_bpms(score: Score, section: Section) -> tuple[float, float]:
    """The tempo at the start of a section and in its last bar: the same where it is held."""
    return tempo_at(score, section.bar), tempo_at(score, section.bar + section.bars - 1)


def mean_bpm(score: Score, section: Section) -> float:
    """The tempo of a section, averaged over its bars where it glides."""
    return sum(tempo_at(score, bar) for bar in range(section.bar, section.bar + section.bars)) / section.bars


def stage_mean(quantity: Quantity, section: Section, lesson: Lesson) -> float:
    """A quantity's mean over a stage's beats, in SI: the one figure of a stage that every sheet prints."""
    beats = lesson.score.metre.beats
    at = np.arange((section.bar - 1) * beats, (section.bar - 1 + section.bars) * beats, dtype=float)
    return float(np.mean(lesson.timeline.at(quantity.name, lesson.controls.time_map.model_time_s(at))))


def stage_figure(value: float, unit: str) -> str:
    """A stage's mean to two digits, or in whole degrees: as finely on every sheet.

    >>> stage_figure(9.34, "g"), stage_figure(668.2, "m"), stage_figure(14.6, "degC")
    ('9.3 g', '668 m', '15 °C')
    """
    return measure_text(round(value), unit) if unit == "degC" else measure_text(value, unit, 2)


def bar_time(score: Score, bar: int, beat: Fraction = Fraction(1)) -> str:
    """The time of a beat of a bar, from the start of the recording with its count-in."""
    clock = score.clock
    return clock_text(float(clock.seconds(clock.beat_of_bar(bar) + beat - 1)))


def bars_text(bar: int, bars: int) -> str:
    """'bar 3' or 'bars 3 to 6'."""
    return f"bar {bar}" if bars == 1 else f"bars {bar} to {bar + bars - 1}"


def tempo_at(score: Score, bar: int) -> float:
    """Beats a minute in a bar."""
    return [tempo.bpm for tempo in score.tempi if tempo.bar <= max(bar, 1)][-1]


def groups(score: Score) -> dict[int, list[Part]]:
    """The parts of each group, groups in rising order. Two parts of one group go on one card."""
    found: dict[int, list[Part]] = {}
    for part in sorted(score.group_parts, key=lambda part: part.group):
        found.setdefault(part.group, []).append(part)
    return found


def badge(group: int, settings: PaperSettings) -> dict[str, Any]:
    """How a group is drawn: its number, colour and hatching."""
    look = group_style(settings.palette, group)
    return {"group": group, "colour": look.colour, "hatching": look.hatching}


def entries_of(part: Part, score: Score) -> tuple[Entry, ...]:
    """When a part plays: as arranged, or the runs of bars that hold its notes where the arranger named none."""
    if part.entries:
        return part.entries
    beats_a_bar = score.metre.beats
    sounding: set[int] = set()
    for note in part.notes:
        last = note.beat + note.beats - Fraction(1, 1_000)  # a note that ends on a bar line is not in the next bar
        sounding.update(range(note.beat // beats_a_bar + 1, last // beats_a_bar + 2))
    runs: list[list[int]] = []
    for bar in sorted(sounding):
        if runs and bar == runs[-1][-1] + 1:
            runs[-1].append(bar)
        else:
            runs.append([bar])
    return tuple(Entry(bar=run[0], bars=len(run)) for run in runs)


def playing(part: Part, score: Score) -> list[tuple[int, int]]:
    """The stretches (first bar, bars) in which a part plays, those that touch joined."""
    joined: list[tuple[int, int]] = []
    for entry in sorted(entries_of(part, score), key=lambda entry: entry.bar):
        if joined and entry.bar <= sum(joined[-1]):
            first, bars = joined[-1]
            joined[-1] = (first, max(bars, entry.bar + entry.bars - first))
        else:
            joined.append((entry.bar, entry.bars))
    return joined


def dynamic_text(mark: str) -> str:
    """'fairly loud (mf)'."""
    return f"{dynamic_word(mark)[1]} ({mark})"


def steady(first: float, last: float) -> bool:
    """Whether a tempo that glides from one to the other stays about the same to the ear."""
    return max(first, last) < STEADY * min(first, last)


def pace_text(first: float, last: float) -> str:
    """How a stage's beat goes, in a word or two.

    >>> pace_text(80, 80), pace_text(80, 81), pace_text(91, 144), pace_text(144, 91)
    ('walking pace', 'steady', 'quickening', 'slowing')
    """
    if first == last:
        return tempo_word(first)[1]
    return "steady" if steady(first, last) else "quickening" if last > first else "slowing"


def _glide_text(first: float, last: float) -> str:
    span = f"{number_text(first)} to {number_text(last)} bpm"
    return f"{span}, steady" if steady(first, last) else f"{span}, bar by bar"


def stage_rows(lesson: Lesson) -> list[dict[str, Any]]:
    """Each stage as every sheet names it: letter, title, bars, start, tempo, and how much model time its bars hold."""
    stages = {stage.stage: stage for stage in lesson.controls.time_map.stages}
    return [_stage_row(lesson, section, stages[section.name]) for section in lesson.score.sections]


def _stage_row(lesson: Lesson, section: Section, mapped: StageBars) -> dict[str, Any]:
    first, last = section_bpms(lesson.score, section)
    glides = first != last
    return {
        "name": section.name,
        "letter": section.letter,
        "title": say(section.title),
        "caption": say(section.caption),
        "bar": section.bar,
        "bars": section.bars,
        "where": bars_text(section.bar, section.bars),
        "time": bar_time(lesson.score, section.bar),
        "bpm": f"{number_text(first)} to {number_text(last)}" if glides else number_text(first),
        "pace": pace_text(first, last),
        "tempo": _glide_text(first, last) if glides else tempo_text(first),
        "squeezed": f"{duration_text(mapped.end_s - mapped.start_s)} in {counted(section.bars, 'bar')}",
    }
