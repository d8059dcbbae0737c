"""What several sheets say about a Lesson, worked out once: groups, stages, bars, times and loudness in words."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from sonify.facts.sheet import held
from sonify.facts.times import squeezed
from sonify.paper.settings import PaperSettings
from sonify.records.controls import StageBars
from sonify.records.fact import fact
from sonify.records.lesson import Lesson
from sonify.records.palette import group_style
from sonify.records.score import Entry, Part, Score, Section
from sonify.records.words import tempo_term
from sonify.say import say
from sonify.say.parts import bars, elapsed, number, tempo_words

#: A tempo that changes by less than this ratio within a stage is called steady (our own limit).
STEADY = 1.06


def tempo_text(bpm: float) -> str:
    """A tempo with its words: '66 bpm, unhurried (Adagio)'."""
    return say(fact("sheet-tempo", bpm=number(bpm), words=tempo_words(bpm), term=tempo_term(bpm).capitalize()))


def section_bpms(score: Score, section: Section) -> tuple[float, float]:
    """The tempo at the start of a section and in its last bar: the same where it is held."""
    return score.bpm_at(section.bar), score.bpm_at(section.bar + section.bars - 1)


def bar_time(score: Score, bar: int, beat: Fraction = Fraction(1)) -> str:
    """The time of a beat of a bar, from the start of the recording with its count-in."""
    clock = score.clock
    return elapsed(float(clock.seconds(clock.beat_of_bar(bar) + beat - 1)))


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


def steady(first: float, last: float) -> bool:
    """Whether a tempo that glides from one to the other stays about the same to the ear."""
    return max(first, last) < STEADY * min(first, last)


def pace_text(first: float, last: float) -> str:
    """How a stage's beat goes, in a word or two.

    >>> pace_text(80, 80), pace_text(80, 81), pace_text(91, 144), pace_text(144, 91)
    ('strolling', 'steady', 'quickening', 'slowing')
    """
    if first == last:
        return tempo_words(first)
    way = "steady" if steady(first, last) else "quickening" if last > first else "slowing"
    return say(fact(f"sheet-pace-{way}"))


def _glide_text(first: float, last: float) -> str:
    even = "yes" if steady(first, last) else "no"
    return say(fact("sheet-glides", low=number(first), high=number(last), steady=even))


def stage_rows(lesson: Lesson) -> list[dict[str, Any]]:
    """Each stage as every sheet names it: letter, title, bars, start, tempo, and how much model time its bars hold."""
    stages = {stage.stage: stage for stage in lesson.controls.time_map.stages}
    return [_stage_row(lesson, section, stages[section.name]) for section in lesson.score.sections]


def _stage_row(lesson: Lesson, section: Section, mapped: StageBars) -> dict[str, Any]:
    first, last = section_bpms(lesson.score, section)
    glides = first != last
    bpm = say(fact("sheet-from-to", low=number(first), high=number(last))) if glides else number(first)
    return {
        "name": section.name,
        "letter": section.letter,
        "title": say(section.title),
        "caption": say(section.caption),
        "bar": section.bar,
        "bars": section.bars,
        "where": bars(section.bar, section.bars),
        "time": bar_time(lesson.score, section.bar),
        "bpm": bpm,
        "with_bpm": say(fact("sheet-bpm", bpm=bpm)),
        "pace": pace_text(first, last),
        "tempo": _glide_text(first, last) if glides else tempo_text(first),
        "squeezed": say(held(squeezed(mapped, lesson.timeline), lesson)),
    }
