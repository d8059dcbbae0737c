"""Typeset sheets: the conductor's, the pupils' and the teacher's PDF, functions of a Lesson.

Python works out every word and number and hands them over as JSON; the `.typ` templates only place them.
"""

from __future__ import annotations

from sonify.paper.settings import PaperSettings
from sonify.records.lesson import Lesson

__all__ = ["PaperSettings", "conductor_pdf", "pupils_pdf", "teacher_pdf"]


def conductor_pdf(lesson: Lesson, pages: tuple[str, ...], settings: PaperSettings) -> bytes:
    """The map of the piece, the cue sheet, and the engraved score: `pages` are SVG texts, one a page."""
    from sonify.paper.conductor import sheet
    from sonify.paper.typeset import pdf

    images = {f"score-{number}.svg": page.encode() for number, page in enumerate(pages, start=1)}
    return pdf("conductor", sheet(lesson, pages, settings), settings, images)


def pupils_pdf(lesson: Lesson, settings: PaperSettings) -> bytes:
    """The flow chart to put in order, a card for each group, the words, and "Our sound, and why"."""
    from sonify.paper.pupils import sheet
    from sonify.paper.typeset import pdf

    return pdf("pupils", sheet(lesson, settings), settings)


def teacher_pdf(lesson: Lesson, settings: PaperSettings) -> bytes:
    """The plan in minutes, what to prepare, the science with plots, the key, cautions, answers and sources."""
    from sonify.paper.teacher import sheet
    from sonify.paper.typeset import pdf

    return pdf("teacher", sheet(lesson, settings), settings)
