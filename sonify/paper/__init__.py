"""Typeset sheets: the conductor's, the pupils' and the teacher's PDF, functions of a Lesson.

Python works out every word and number and hands them over as JSON; the `.typ` templates only place them.
"""

from __future__ import annotations

from collections.abc import Mapping

from sonify.facts.excerpts import PartPictures
from sonify.paper.settings import PaperSettings, Printing
from sonify.records.lesson import Lesson

__all__ = ["PaperSettings", "Printing", "conductor_pdf", "poster_pdf", "pupils_pdf", "teacher_pdf"]


def conductor_pdf(
    lesson: Lesson,
    pages: tuple[str, ...],
    settings: PaperSettings,
    *,
    graphic: tuple[str, ...] = (),
    told: str = "",
) -> bytes:
    """The map of the piece, the cue sheet, the graphic score and the engraved one: SVG texts, one a page.

    told: the graphic score in words, for those who do not see it.
    """
    from sonify.paper.conductor import sheet
    from sonify.paper.typeset import pdf

    images = {f"score-{number}.svg": page.encode() for number, page in enumerate(pages, start=1)}
    images |= {f"graphic-{number}.svg": page.encode() for number, page in enumerate(graphic, start=1)}
    return pdf("conductor", sheet(lesson, pages, settings, graphic, told), settings, images)


def poster_pdf(lesson: Lesson, settings: PaperSettings) -> bytes:
    """One page for the wall or the projector: the stages with the science as a curve, who plays, and the key."""
    from sonify.paper.poster import sheet
    from sonify.paper.typeset import pdf

    return pdf("poster", sheet(lesson, settings), settings)


def pupils_pdf(lesson: Lesson, settings: PaperSettings, pictures: Mapping[str, PartPictures] | None = None) -> bytes:
    """The flow chart to put in order, a card for each group, the words, the thinking sheets and the listening check.

    pictures: each part's drawings by its name. Without them a card has its boxes alone.
    """
    from sonify.paper.cards import picture_files
    from sonify.paper.pupils import sheet
    from sonify.paper.typeset import pdf

    drawn = pictures or {}
    return pdf("pupils", sheet(lesson, settings, drawn), settings, picture_files(lesson.score, drawn))


def teacher_pdf(lesson: Lesson, settings: PaperSettings, pictures: Mapping[str, PartPictures] | None = None) -> bytes:
    """The plan in minutes, what to prepare, the science with plots, the key, cautions, answers and sources.

    pictures: those of the pupils' file, whose pages it names.
    """
    from sonify.paper.teacher import sheet
    from sonify.paper.typeset import pdf

    return pdf("teacher", sheet(lesson, settings, pictures or {}), settings)
