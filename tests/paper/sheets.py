"""Sheets made for tests, read back with a general-purpose PDF library."""

from __future__ import annotations

import io
from collections.abc import Callable, Iterator
from functools import lru_cache
from pathlib import Path
from typing import Any

from pypdf import PdfReader

from sonify.paper import PaperSettings, conductor_pdf, poster_pdf, pupils_pdf, teacher_pdf
from sonify.paper.handouts import handouts
from sonify.paper.printlist import print_list
from sonify.paper.teacher import sheet as teacher_sheet
from sonify.records.lesson import Lesson
from sonify.records.palette import read_palette
from tests.paper.texts import page_texts
from tests.sample import sample_lesson

SHARED = Path(__file__).resolve().parents[2] / "shared"
FONTS = SHARED / "fonts"
PALETTE = read_palette((SHARED / "palette.toml").read_text(encoding="utf-8"))

#: A page of engraving as the notation room hands it over: upright, and with text in the sheets' font.
SVG = (
    '<svg xmlns="http://www.w3.org/2000/svg" width="2100px" height="2970px" viewBox="0 0 2100 2970">'
    '<rect x="100" y="100" width="1900" height="2770" fill="none" stroke="black"/>'
    '<text x="200" y="400" font-family="Andika" font-size="60">Allegro</text></svg>'
)


def settings(**changes: Any) -> PaperSettings:
    return PaperSettings(**{"fonts_dir": str(FONTS), "palette": PALETTE, **changes})


MAKERS: dict[str, Callable[[Lesson, PaperSettings], bytes]] = {
    "conductor": lambda lesson, chosen: conductor_pdf(lesson, (SVG, SVG), chosen),
    "pupils": pupils_pdf,
    "teacher": teacher_pdf,
    "poster": poster_pdf,
}


def made(sheet: str, lesson: Lesson, **changes: Any) -> PdfReader:
    return PdfReader(io.BytesIO(MAKERS[sheet](lesson, settings(**changes))))


def teacher_data(lesson: Lesson, **changes: Any) -> dict[str, Any]:
    """What the teacher's template is given, with a guide of five pages."""
    chosen = settings(**changes)
    handout = handouts(lesson, chosen)
    return teacher_sheet(lesson, chosen, handout, print_list(lesson, handout.marks, range(1, 6), (1, 2)))


@lru_cache
def sample(sheet: str) -> PdfReader:
    """The sample lesson's sheet, typeset once for all tests that only read it."""
    return made(sheet, sample_lesson())


def plain(text: str) -> str:
    """Text without line breaks and break marks, so that sentences can be looked for."""
    return " ".join(text.replace("\N{ZERO WIDTH SPACE}", "").split())


def pages(reader: PdfReader) -> list[str]:
    reader.stream.seek(0)
    return [plain(text) for text in page_texts(reader.stream.read())]


def fonts(reader: PdfReader) -> Iterator[tuple[str, bool]]:
    """Each font's name and whether the file carries it."""
    for page in reader.pages:
        for font in page["/Resources"].get("/Font", {}).values():
            inner = font.get_object()["/DescendantFonts"][0].get_object()
            descriptor = inner["/FontDescriptor"].get_object()
            yield str(descriptor["/FontName"]), any(f"/FontFile{n}" in descriptor for n in ("", "2", "3"))
