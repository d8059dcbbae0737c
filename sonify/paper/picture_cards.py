"""A card without words: what a part plays in each stage, for pupils new to English or who do not read yet.

One bar of each stage is a box of dots: as many as there are sounds in it, larger where it is louder, higher where it is
higher. What the dots show is read off the notes, and said in words for a reader's program.
"""

from __future__ import annotations

from typing import Any

from sonify.facts.excerpts import excerpts
from sonify.facts.sheet import evidence, held, in_bars
from sonify.kinds.marks import DYNAMICS
from sonify.paper import rhythm
from sonify.paper.facts import badge, groups
from sonify.paper.pictures import instrument_picture, stage_picture
from sonify.paper.settings import PaperSettings
from sonify.records.fact import Amount, Claim, Reading, fact
from sonify.records.lesson import Lesson
from sonify.records.score import Part, Score, Section
from sonify.say import say
from sonify.units import half_up

#: More sounds in a bar are drawn as so many: they would run into each other.
MOST_DOTS = 16
#: The conductor's gestures that a card repeats, each with what follows it.
GESTURES = ("ready", "come-in", "rest", "stop")


def picture_cards(lesson: Lesson, settings: PaperSettings) -> list[dict[str, Any]]:
    """A card for each part that is not the quiet beat of those who wait."""
    return [
        _card(part, lesson, settings) for parts in groups(lesson.score).values() for part in parts if not part.pulse
    ]


def _card(part: Part, lesson: Lesson, settings: PaperSettings) -> dict[str, Any]:
    score = lesson.score
    seats = [(score.instrument(seat.instrument), seat) for seat in part.seats]
    return {
        **badge(part.group, settings),
        "alt": say(fact("picture-card", group=part.group, part=part.name)),
        "seats": [
            {"picture": instrument_picture(row).for_sheet(), "count": 0 if row.bodily else seat.count}
            for row, seat in seats
        ],
        "stages": [_stage(section, part, lesson) for section in score.sections],
        "boxes": _boxes(part, score),
        "gestures": list(GESTURES),
    }


def _stage(section: Section, part: Part, lesson: Lesson) -> dict[str, Any]:
    """The picture of a stage, and what is heard of a part in it; no dots where it rests."""
    bpm = lesson.score.bpm_at(section.bar)
    quickest = max(lesson.score.bpm_at(each.bar) for each in lesson.score.sections)
    shown = {"letter": section.letter, "picture": stage_picture(section, lesson).for_sheet()}
    notes = _notes(part, section, lesson.score)
    bars = in_bars("strokes a bar", section.bar, section.bars, part.name)
    if not notes:
        quiet = fact("picture-rests", Claim(kind="silent", left=_reading("bars sounding", bars)), stage=section.title)
        return shown | {"dots": 0, "alt": say(held(quiet.or_else(fact("picture-waits", stage=section.title)), lesson))}
    every = [note for each in lesson.score.sections for note in _notes(part, each, lesson.score)]
    heights = [note.midi for note in every]
    strokes = evidence(lesson).value(bars)
    whole = float(half_up(strokes, 0))
    amount = Amount(value=whole, places=0, source=bars)
    some = fact("picture-plays", stage=section.title, strokes=amount, n=int(whole))
    few = fact("picture-plays-few", Claim(kind="plays", left=_reading("bars sounding", bars)), stage=section.title)
    told = some if whole else few
    return shown | {
        "dots": max(1, min(MOST_DOTS, int(whole))),
        "loud": _share(sum(note.velocity for note in notes) / len(notes), DYNAMICS["pp"], DYNAMICS["ff"]),
        "high": _share(sum(note.midi for note in notes) / len(notes), min(heights), max(heights)),
        "pitched": lesson.score.instrument(part.instrument).pitched and min(heights) < max(heights),
        "beat": bpm / quickest,
        "alt": say(held(told, lesson)),
    }


def _reading(how: str, bars: Reading) -> Reading:
    return Reading(how=how, of=bars.of, start=bars.start, end=bars.end)


def _notes(part: Part, section: Section, score: Score) -> list[Any]:
    beats = score.metre.beats
    first, end = (section.bar - 1) * beats, (section.bar - 1 + section.bars) * beats
    return [note for note in part.notes if first <= note.beat < end]


def _share(value: float, low: float, high: float) -> float:
    return min(1.0, max(0.0, (value - low) / (high - low))) if high > low else 0.5


def _boxes(part: Part, score: Score) -> dict[str, Any] | None:
    """Its first pattern in boxes, without a word; free taps have none."""
    found = [] if part.texture == "scatter" else list(excerpts(part, score))
    if not found:
        return None
    row, beats = score.instrument(part.instrument), score.metre.beats
    bars = min(found[0].bars, 2)
    hits = [hit for hit in found[0].hits if hit[0] < bars * beats]
    return rhythm.boxes(hits, bars * beats, beats, row, spoken=False)
