"""A card of its own for each place that is kept: an easier line, another way in, a cue to see or to feel.

It says what to do and never why, so that it can lie on any table.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sonify.facts.places import Place, loud_bars, places, struck_with_beaters
from sonify.facts.sheet import held, in_bars
from sonify.kinds.needs import (
    BLIND,
    DOES_NOT_SPEAK,
    HEARING_AID,
    NEW_TO_ENGLISH,
    ONE_HAND,
    PARTNER,
    SHORT_REACH,
    STARTLES,
)
from sonify.paper import rhythm
from sonify.paper.cards import entry_rows
from sonify.paper.facts import badge, playing
from sonify.paper.pictures import instrument_picture, stage_picture
from sonify.paper.settings import PaperSettings
from sonify.records.fact import Claim, fact
from sonify.records.lesson import Lesson
from sonify.records.score import Score
from sonify.say import say, sentence
from sonify.say.parts import bars as bars_words
from sonify.say.parts import counted, listed

#: Points along a curve that is to be felt.
FELT_POINTS = 60


def own_cards(lesson: Lesson, settings: PaperSettings) -> list[dict[str, Any]]:
    """A card for each place, in their order."""
    return [_card(place, lesson, settings) for place in places(lesson)]


def _card(place: Place, lesson: Lesson, settings: PaperSettings) -> dict[str, Any]:
    part, score = place.part, lesson.score
    row = score.instrument(place.seat.instrument)
    return {
        **badge(part.group, settings),
        "number": place.number,
        "name": part.name,
        "group_name": say(fact("sheet-group", group=part.group)),
        "picture": instrument_picture(row).for_sheet(),
        "what": row.of(1) if not row.bodily else row.called,
        "how": [say(fact(message, **places_of)) for message, places_of in _how(place, score)],
        "boxes": _boxes(place, score, settings),
        "entries": [
            {name: entry[name] for name in ("at", "letter", "play")} | {"cue": _cue(place, entry["bar"])}
            for entry in entry_rows(part, lesson)
        ],
        "steps": _steps(place, lesson) if place.need == BLIND else [],
    }


def _how(place: Place, score: Score) -> list[tuple[str, dict[str, Any]]]:
    """What to do, message by message."""
    row = score.instrument(place.seat.instrument)
    found: list[tuple[str, dict[str, Any]]] = []
    if place.need == ONE_HAND and not row.bodily:  # hands and voices neither stand nor lie anywhere
        found.append(("own-beater" if struck_with_beaters(place, score) else "own-stands", {}))
    if place.need == SHORT_REACH and not row.bodily:
        letters = dict.fromkeys(rhythm.letter(midi, row) for _, _, midi in sorted(place.hits, key=lambda hit: hit[2]))
        found.append(("own-bars", {"bars": listed(list(letters))}) if row.pitched and place.hits else ("own-near", {}))
    if place.left:
        found.append(("own-rest-of-it", {}))
    if place.need == PARTNER:
        found.append(("own-pair", {}))
    if place.need == DOES_NOT_SPEAK:
        found.append(("own-show", {}))
    if place.need == STARTLES and (loud := loud_bars(place, score)):
        found.append(("own-palm", {"bars": _listed_bars(loud)}))
    if place.need == HEARING_AID:
        found += [("own-feel", {})] if row.register == "low" and not row.bodily else []
        found.append(("own-watch", {}))
    if place.need == BLIND:
        found.append(("own-tap", {}))
    return found


def _listed_bars(bars: tuple[int, ...]) -> str:
    return listed([str(bar) for bar in bars])


def _cue(place: Place, bar: int) -> str:
    """How an entry is told, seen or felt; "" where the card's other words will do."""
    if place.cue == "touch":
        return say(fact("own-cue-touch", bar=bar - 1))
    if place.cue == "look":
        return say(fact("own-cue-look"))
    return ""


def _boxes(place: Place, score: Score, settings: PaperSettings) -> dict[str, Any] | None:
    """What is played, without a syllable; free taps have none."""
    if not place.hits:
        return None
    row, beats = score.instrument(place.part.instrument), score.metre.beats
    in_row = 8 if settings.large_print else 16
    return rhythm.boxes(list(place.hits), place.bars * beats, beats, row, most_in_row=in_row, spoken=False)


def _steps(place: Place, lesson: Lesson) -> list[str]:
    """The piece as a list in order: rest so long, then play so long, from the first bar to the last."""
    part, score, next_bar = place.part, lesson.score, 1
    found = []
    entries = {entry["bar"]: entry for entry in entry_rows(part, lesson)}
    for first, bars in playing(part, score):
        if first > next_bar:
            found.append(_rest(part.name, next_bar, first - next_bar, lesson))
        told = entries[first]["play"] if first in entries else counted("bar", bars)
        found.append(sentence(fact("own-step-play", bars=bars_words(first, bars), play=told)))
        next_bar = first + bars
    if next_bar <= score.bars:
        found.append(_rest(part.name, next_bar, score.bars + 1 - next_bar, lesson))
    return found


def _rest(part: str, first: int, bars: int, lesson: Lesson) -> str:
    silent = Claim(kind="silent", left=in_bars("bars sounding", first, bars, part))
    told = fact("own-step-rest", silent, bars=bars_words(first, bars), count=counted("bar", bars))
    return sentence(held(told.or_else(fact("own-step-wait", bars=bars_words(first, bars))), lesson))


# --- what is felt, and what is told the conductor ---------------------------------------------------------------------


def felt(lesson: Lesson, curve: Mapping[str, Any] | None) -> dict[str, Any]:
    """Large drawings in outline for a copy that can be felt: each stage, and the course of the science. curve: that of
    the poster."""
    if not any(place.need == BLIND for place in places(lesson)):
        return {"stages": [], "curve": None}
    stages = [
        {"letter": section.letter, "title": say(section.title), "picture": stage_picture(section, lesson).for_sheet()}
        for section in lesson.score.sections
    ]
    lines = [[trace["points"] for trace in stage] for stage in curve["stages"]] if curve else []
    drawn = curve is not None and all(len(points) > 1 for stage in lines for points in stage)
    return {"stages": stages, "curve": {**curve, "lines": lines} if drawn and curve else None}


def notes_for_conductor(lesson: Lesson) -> list[str]:
    """How some groups are cued besides, by group and bar, and by nothing else."""
    found = []
    for place in places(lesson):
        if place.need == STARTLES and (bars := loud_bars(place, lesson.score)):
            found.append(fact("own-note-palm", group=place.part.group, bars=_listed_bars(bars), n=len(bars)))
        if place.need == HEARING_AID:
            found.append(fact("own-note-face", group=place.part.group))
        if place.cue == "touch":
            found.append(fact("own-note-touch", group=place.part.group))
    return list(dict.fromkeys(say(each) for each in found))


def picture_copies(lesson: Lesson) -> list[tuple[int, int]]:
    """Groups (0 for any) and how many pupils of each have a card by pictures alone."""
    return [(need.group, need.pupils) for need in lesson.classroom.pupils_need if need.name == NEW_TO_ENGLISH]
