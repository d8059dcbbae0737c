"""Which drawings go on which sheet: engraved and graphic score in, a lesson's PDFs out. Opens nothing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from sonify.notation.engrave import engraved_pages
from sonify.notation.graphic import graphic_score
from sonify.notation.systems import Canvas
from sonify.paper import PaperSettings, conductor_pdf, poster_pdf, pupils_pdf, teacher_pdf
from sonify.paper.settings import LARGE_PT, drawing_room_mm
from sonify.records.curve import science_curve
from sonify.records.lesson import Lesson

#: Height of a five-line staff on the conductor's score, and in large print.
STAFF_MM, LARGE_STAFF_MM = 6.0, 8.5
#: Words in a graphic score.
GRAPHIC_PT = 10.0


def sheets(lesson: Lesson, music: bytes, settings: PaperSettings) -> Iterator[tuple[str, bytes]]:
    """Each sheet's file name with its bytes, one after another. music: the Score as MusicXML.

    The class's need for large print is its pupils': it sets their file alone. `settings.large_print` sets them all.
    """
    yield "conductor.pdf", conductor_pdf(lesson, staves(music, settings), settings, graphic=graphic(lesson, settings))
    pupils = replace(settings, large_print=settings.large_print or "large print" in lesson.classroom.needs)
    yield "pupils.pdf", pupils_pdf(lesson, pupils)
    yield "teacher.pdf", teacher_pdf(lesson, settings)
    yield "poster.pdf", poster_pdf(lesson, settings)


def staves(music: bytes, settings: PaperSettings) -> tuple[str, ...]:
    """The engraved pages as the conductor's sheets take them."""
    return engraved_pages(music, paper=settings.paper, staff_mm=LARGE_STAFF_MM if settings.large_print else STAFF_MM)


def graphic(lesson: Lesson, settings: PaperSettings) -> tuple[str, ...]:
    """The pages of the graphic score, on their side."""
    width, height = drawing_room_mm(settings)
    points = LARGE_PT if settings.large_print else GRAPHIC_PT
    canvas = Canvas(width_mm=width, height_mm=height, palette=settings.palette, text_pt=points)
    return graphic_score(lesson.score, canvas, science_curve(lesson))
