"""Sheets of shipped scenes with their drawings, made once for the tests that look at paper."""

from __future__ import annotations

import io
from dataclasses import dataclass, replace
from functools import lru_cache

from pypdf import PdfReader

from sonify.kinds.needs import LARGE_PRINT
from sonify.lesson.sheet_files import card_pictures
from sonify.paper import PaperSettings, pupils_file, teacher_file
from sonify.paper.printlist import PrintRow
from tests.paper.sheets import pages, settings
from tests.studies import studied


@dataclass(frozen=True, slots=True)
class Printed:
    """The teacher's and the pupils' file of a lesson, and what of them is printed."""

    teacher: bytes
    pupils: bytes
    rows: tuple[PrintRow, ...]

    @property
    def teacher_pages(self) -> list[str]:
        return pages(PdfReader(io.BytesIO(self.teacher)))

    @property
    def pupils_pages(self) -> list[str]:
        return pages(PdfReader(io.BytesIO(self.pupils)))


def printed(scene: str, classroom: str = "well-stocked", **changes: object) -> Printed:
    return _printed(scene, classroom, settings(**changes))


@lru_cache(maxsize=8)
def _printed(scene: str, classroom: str, chosen: PaperSettings) -> Printed:
    lesson = studied(scene, classroom)
    large = replace(chosen, large_print=chosen.large_print or LARGE_PRINT in lesson.classroom.needs)
    pictures = card_pictures(lesson, large)
    pupils = pupils_file(lesson, large, pictures)
    teacher = teacher_file(lesson, chosen, pupils=pupils.pages)
    return Printed(teacher=teacher.pdf, pupils=pupils.pdf, rows=teacher.print_list)
