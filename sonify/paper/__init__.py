"""Typeset sheets: the conductor's, the pupils' and the teacher's PDF, functions of a Lesson.

Python works out every word and number and hands them over as JSON; the `.typ` templates only place them.
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from typing import Any

from sonify.facts.excerpts import PartPictures
from sonify.frozen import dataclass
from sonify.paper.printlist import Marks, PrintRow
from sonify.paper.settings import PaperSettings, Printing
from sonify.records.lesson import Lesson
from sonify.records.listened import Listened, ReadBack

__all__ = [
    "PaperFile",
    "PaperSettings",
    "Printing",
    "TeacherFile",
    "conductor_file",
    "conductor_pdf",
    "cue_pages",
    "performed_pdf",
    "poster_pdf",
    "pupils_file",
    "pupils_pdf",
    "teacher_file",
    "teacher_pdf",
]

#: Pages of the guide before its appendix, as it usually comes out.
GUIDE_PAGES = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperFile:
    """A file, and the pages of each of its sheets."""

    pdf: bytes
    pages: Marks


def conductor_file(
    lesson: Lesson,
    pages: tuple[str, ...],
    settings: PaperSettings,
    *,
    graphic: tuple[str, ...] = (),
    told: str = "",
) -> PaperFile:
    """The map of the piece, the cue sheet, the graphic score and the engraved one: SVG texts, one a page.

    told: the graphic score in words, for those who do not see it.
    """
    from sonify.paper.conductor import sheet

    return _file("conductor", sheet(lesson, pages, settings, graphic, told), settings, _images(pages, graphic))


def conductor_pdf(
    lesson: Lesson,
    pages: tuple[str, ...],
    settings: PaperSettings,
    *,
    graphic: tuple[str, ...] = (),
    told: str = "",
) -> bytes:
    """The conductor's file alone."""
    return conductor_file(lesson, pages, settings, graphic=graphic, told=told).pdf


def _file(name: str, data: Mapping[str, Any], settings: PaperSettings, images: Mapping[str, bytes]) -> PaperFile:
    from sonify.paper.handouts import pages_of
    from sonify.paper.typeset import typeset

    made = typeset(name, data, settings, images)
    return PaperFile(pdf=made.pdf, pages=pages_of(made.marks))


def _images(pages: tuple[str, ...], graphic: tuple[str, ...]) -> dict[str, bytes]:
    images = {f"score-{number}.svg": page.encode() for number, page in enumerate(pages, start=1)}
    return images | {f"graphic-{number}.svg": page.encode() for number, page in enumerate(graphic, start=1)}


def cue_pages(conductor: Marks) -> tuple[int, ...]:
    """The pages of the conductor's file that she conducts from."""
    return conductor.of("stand", "cues")


def poster_pdf(lesson: Lesson, settings: PaperSettings) -> bytes:
    """One page for the wall or the projector: the stages with the science as a curve, who plays, and the key."""
    from sonify.paper.poster import sheet
    from sonify.paper.typeset import pdf

    return pdf("poster", sheet(lesson, settings), settings)


def performed_pdf(title: str, found: Listened, back: ReadBack | None, settings: PaperSettings) -> bytes:
    """One page to talk about: the class's own beat beside the science, and what to do in the next run."""
    from sonify.paper.performed import sheet
    from sonify.paper.typeset import pdf

    return pdf("performed", sheet(title, found, back), settings)


def pupils_file(
    lesson: Lesson, settings: PaperSettings, pictures: Mapping[str, PartPictures] | None = None
) -> PaperFile:
    """The flow chart to put in order, a card for each group, the words, the thinking sheets and the listening check.

    pictures: each part's drawings by its name. Without them a card has its boxes alone.
    """
    from sonify.paper.cards import picture_files
    from sonify.paper.pupils import sheet

    drawn = pictures or {}
    return _file("pupils", sheet(lesson, settings, drawn), settings, picture_files(lesson.score, drawn))


def pupils_pdf(lesson: Lesson, settings: PaperSettings, pictures: Mapping[str, PartPictures] | None = None) -> bytes:
    """The pupils' file alone."""
    return pupils_file(lesson, settings, pictures).pdf


@dataclass(frozen=True, slots=True, kw_only=True)
class TeacherFile:
    """The teacher's file, and the print list that its first page shows."""

    pdf: bytes
    print_list: tuple[PrintRow, ...]


def teacher_file(
    lesson: Lesson,
    settings: PaperSettings,
    pictures: Mapping[str, PartPictures] | None = None,
    *,
    pupils: Marks | None = None,
    cues: Sequence[int] = (2, 3),
) -> TeacherFile:
    """The brief, the guide and the appendix. pictures: those of the pupils' file, whose pages it names. pupils: those
    pages, where that file has been set. cues: the pages of the conductor's file that are to be printed."""
    from sonify.paper.handouts import handouts, handouts_at, pages_of
    from sonify.paper.printlist import print_list
    from sonify.paper.teacher import sheet
    from sonify.paper.typeset import typeset

    handout = handouts(lesson, settings, pictures or {}) if pupils is None else handouts_at(lesson, pupils)
    guide: tuple[int, ...] = tuple(range(1, GUIDE_PAGES + 1))
    for _ in range(2):  # how many pages the guide has is known once it is set
        rows = print_list(lesson, handout.marks, guide, cues, settings.also)
        made = typeset("teacher", sheet(lesson, settings, handout, rows), settings)
        found = pages_of(made.marks).of("brief", "guide")
        if found == guide:
            break
        guide = found
    return TeacherFile(pdf=made.pdf, print_list=rows)


def teacher_pdf(lesson: Lesson, settings: PaperSettings, pictures: Mapping[str, PartPictures] | None = None) -> bytes:
    """The teacher's file alone."""
    return teacher_file(lesson, settings, pictures).pdf
