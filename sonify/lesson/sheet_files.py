"""Which drawings go on which sheet: engraved and graphic score in, a lesson's PDFs out. Opens nothing."""

from __future__ import annotations

import hashlib
import json
from collections.abc import Callable, Iterator
from dataclasses import replace
from typing import Any, TypeVar

from sonify.facts.excerpts import PartPictures
from sonify.kinds.needs import LARGE_PRINT
from sonify.notation.engrave import TEXT_PT, engraved_pages
from sonify.notation.graphic import graphic_alt, graphic_score
from sonify.notation.snippets import part_pictures
from sonify.notation.systems import Canvas
from sonify.paper import (
    PaperFile,
    PaperSettings,
    conductor_file,
    cue_pages,
    poster_pdf,
    pupils_file,
    teacher_file,
)
from sonify.paper.poster import drawn_curve
from sonify.paper.printlist import PrintRow
from sonify.paper.settings import LARGE_PT, drawing_room_mm
from sonify.records.lesson import Lesson
from sonify.storage.kept import kept

#: Height of a five-line staff on the conductor's score, and in large print.
STAFF_MM, LARGE_STAFF_MM = 6.0, 8.5
#: Words in a graphic score.
GRAPHIC_PT = 10.0
#: Words in the lane of a card, and the lane's size in ordinary print.
CARD_PT, CARD_LANE_MM = 12.0, (180.0, 30.0)


Made = TypeVar("Made")
#: Begins a piece of work; what comes back waits for it and hands over what it made.
Begin = Callable[[Callable[[], Made]], Callable[[], Made]]


def when_asked(work: Callable[[], Made]) -> Callable[[], Made]:
    """Begins nothing before it is asked for."""
    return work


#: Does a piece of work and hands over what it made.
Do = Callable[[Callable[[], Made]], Made]


def at_once(work: Callable[[], Made]) -> Made:
    """Does the work here."""
    return work()


def sheets(
    lesson: Lesson,
    music: Callable[[], bytes],
    settings: PaperSettings,
    listed: Callable[[tuple[PrintRow, ...]], None] = lambda rows: None,
    begin: Begin[Any] = when_asked,
    alone: Do[Any] = at_once,
) -> Iterator[tuple[str, bytes]]:
    """Each sheet's file name with its bytes, one after another. music: makes the Score's MusicXML. listed: told what to
    print. begin: where files that need nothing of each other are made side by side, from now on. alone: what takes much
    memory that is not to stay: the engraver holds twice what the typesetter needs in a piece of half an hour.

    The class's need for large print is its pupils': it sets their file alone. `settings.large_print` sets them all.
    """
    large = replace(settings, large_print=settings.large_print or LARGE_PRINT in lesson.classroom.needs)
    for_pupils = begin(lambda: _pupils(lesson, large))
    for_conductor = begin(lambda: _conductor(lesson, music, settings, alone))

    def coming() -> Iterator[tuple[str, bytes]]:
        conductor, pupils = for_conductor(), for_pupils()
        cues = cue_pages(conductor.pages)
        for_teacher = begin(lambda: teacher_file(lesson, settings, pupils=pupils.pages, cues=cues))
        for_the_wall = begin(lambda: poster_pdf(lesson, settings))
        yield "conductor.pdf", conductor.pdf
        yield "pupils.pdf", pupils.pdf
        teacher = for_teacher()
        listed(teacher.print_list)
        yield "teacher.pdf", teacher.pdf
        yield "poster.pdf", for_the_wall()

    return coming()


def _pupils(lesson: Lesson, settings: PaperSettings) -> PaperFile:
    return pupils_file(lesson, settings, card_pictures(lesson, settings))


def _conductor(lesson: Lesson, music: Callable[[], bytes], settings: PaperSettings, alone: Do[Any]) -> PaperFile:
    pages = alone(lambda: staves(music(), settings))
    drawn, told = graphic(lesson, settings), graphic_alt(lesson.score)
    return conductor_file(lesson, pages, settings, graphic=drawn, told=told)


def staves(music: bytes, settings: PaperSettings) -> tuple[str, ...]:
    """The engraved pages as the conductor's sheets take them."""
    staff_mm, text_pt = (LARGE_STAFF_MM, LARGE_PT) if settings.large_print else (STAFF_MM, TEXT_PT)

    def made() -> bytes:
        return json.dumps(engraved_pages(music, paper=settings.paper, staff_mm=staff_mm, text_pt=text_pt)).encode()

    key = f"engraved {settings.paper} {staff_mm} {text_pt} {hashlib.sha256(music).hexdigest()}"
    return tuple(json.loads(kept(key, made)))


def card_pictures(lesson: Lesson, settings: PaperSettings) -> dict[str, PartPictures]:
    """What the pupils' cards show of each part: its lane, and its patterns on a staff and as marks."""
    points = LARGE_PT if settings.large_print else CARD_PT
    width, height = CARD_LANE_MM
    lane = Canvas(width_mm=width, height_mm=height * points / CARD_PT, palette=settings.palette, text_pt=points)
    small = Canvas(width_mm=width / 2, height_mm=height / 2, palette=settings.palette, text_pt=points)
    staff_mm = STAFF_MM * points / CARD_PT
    return part_pictures(lesson.score, lane, small, staff_mm=staff_mm)


def graphic(lesson: Lesson, settings: PaperSettings) -> tuple[str, ...]:
    """The pages of the graphic score, on their side."""
    width, height = drawing_room_mm(settings)
    points = LARGE_PT if settings.large_print else GRAPHIC_PT
    canvas = Canvas(width_mm=width, height_mm=height, palette=settings.palette, text_pt=points)
    return graphic_score(lesson.score, canvas, drawn_curve(lesson))
