"""Which drawings go on which sheet: engraved and graphic score in, a lesson's PDFs out. Opens nothing."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace

from sonify.facts.excerpts import PartPictures
from sonify.kinds.needs import LARGE_PRINT
from sonify.notation.engrave import engraved_pages
from sonify.notation.graphic import graphic_alt, graphic_score
from sonify.notation.snippets import part_pictures
from sonify.notation.systems import Canvas
from sonify.paper import PaperSettings, conductor_pdf, cue_pages, poster_pdf, pupils_pdf, teacher_file
from sonify.paper.poster import drawn_curve
from sonify.paper.printlist import PrintRow
from sonify.paper.settings import LARGE_PT, drawing_room_mm
from sonify.paper.typeset import forget
from sonify.records.lesson import Lesson

#: Height of a five-line staff on the conductor's score, and in large print.
STAFF_MM, LARGE_STAFF_MM = 6.0, 8.5
#: Words in a graphic score.
GRAPHIC_PT = 10.0
#: Words in the lane of a card, and the lane's size in ordinary print.
CARD_PT, CARD_LANE_MM = 12.0, (180.0, 30.0)


def sheets(
    lesson: Lesson,
    music: bytes,
    settings: PaperSettings,
    listed: Callable[[tuple[PrintRow, ...]], None] = lambda rows: None,
) -> Iterator[tuple[str, bytes]]:
    """Each sheet's file name with its bytes, one after another. music: the Score as MusicXML. listed: told what to
    print.

    The class's need for large print is its pupils': it sets their file alone. `settings.large_print` sets them all.
    """
    drawn, told = graphic(lesson, settings), graphic_alt(lesson.score)
    yield "conductor.pdf", conductor_pdf(lesson, staves(music, settings), settings, graphic=drawn, told=told)
    forget(settings)
    pupils = replace(settings, large_print=settings.large_print or LARGE_PRINT in lesson.classroom.needs)
    pictures = card_pictures(lesson, pupils)
    yield "pupils.pdf", pupils_pdf(lesson, pupils, pictures)
    teacher = teacher_file(lesson, settings, pictures, cues=cue_pages(lesson, settings))
    listed(teacher.print_list)
    yield "teacher.pdf", teacher.pdf
    forget(settings)
    yield "poster.pdf", poster_pdf(lesson, settings)


def staves(music: bytes, settings: PaperSettings) -> tuple[str, ...]:
    """The engraved pages as the conductor's sheets take them."""
    if settings.large_print:
        return engraved_pages(music, paper=settings.paper, staff_mm=LARGE_STAFF_MM, text_pt=LARGE_PT)
    return engraved_pages(music, paper=settings.paper, staff_mm=STAFF_MM)


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
