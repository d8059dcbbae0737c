"""Sheets in the pseudo-language: what in them was not said by the catalogue, and what runs off a page."""

from __future__ import annotations

import dataclasses
import re
import subprocess
from collections.abc import Iterable, Iterator
from pathlib import Path
from typing import Any

from lxml import etree

from sonify.kinds.pupil_sheets import PICTURES
from sonify.lesson.sheet_files import card_pictures, graphic
from sonify.notation.graphic import graphic_alt
from sonify.paper import conductor_pdf, poster_pdf, pupils_pdf, teacher_pdf
from sonify.records.fact import Fact
from sonify.records.lesson import Lesson
from sonify.say import speaking
from tests.paper.sheets import SVG, settings
from tests.paper.texts import page_texts
from tests.pinned.tagged import Unreadable, rows_of
from tests.say.pseudo import PSEUDO, unmarked

#: What is read aloud on a length, by a published method, in every language; and the engraved page that tests put in.
NOT_SAID = {"ta", "ti", "ka", "sh", "tam", "tim", "picture", "allegro"}
_WORD = re.compile(r'<word xMin="([-\d.]+)" yMin="([-\d.]+)" xMax="([-\d.]+)" yMax="([-\d.]+)">')
_PAGE = re.compile(r'<page width="([\d.]+)" height="([\d.]+)">')
#: Letters reach beyond their box by so many points at most (their side bearings).
HAIR = 1.0


def pseudo_sheets(lesson: Lesson, *, large_print: bool = False) -> dict[str, bytes]:
    """The four PDFs in the pseudo-language."""
    chosen = settings(large_print=large_print, also=(PICTURES,))
    with speaking(PSEUDO):
        pictures, drawn = card_pictures(lesson, chosen), graphic(lesson, chosen)
        return {
            "teacher": teacher_pdf(lesson, chosen, pictures),
            "pupils": pupils_pdf(lesson, chosen, pictures),
            "poster": poster_pdf(lesson, chosen),
            "conductor": conductor_pdf(lesson, (SVG,), chosen, graphic=drawn, told=graphic_alt(lesson.score)),
        }


def texts_in(record: Any) -> Iterator[str]:
    """Every bare text of a record and of what it holds: a person's own, an identifier, or a name of the catalogue."""
    if isinstance(record, str):
        yield record
    elif isinstance(record, Fact):
        for _, arg in record.args:
            yield from texts_in(arg)
    elif dataclasses.is_dataclass(record) and not isinstance(record, type):
        for field in dataclasses.fields(record):
            yield from texts_in(getattr(record, field.name))
    elif isinstance(record, dict):
        yield from texts_in(tuple(record.items()))
    elif isinstance(record, tuple | list | set | frozenset):
        for each in record:
            yield from texts_in(each)


def unsaid(data: bytes, lesson: Lesson) -> set[str]:
    """Words of a sheet that neither the catalogue said nor a record of the lesson holds."""
    # a long title is cut at the foot; a long file name breaks in the middle of a word
    named = re.escape(lesson.scene.name[:14]) + r"\S*"
    shown = [re.sub(rf"^=== page \d+:|\S*…|{named}", "", row) for row in rows(data)]
    return not_own((row for row in shown if not drawn_letters(row)), lesson)


def rows(data: bytes) -> list[str]:
    """A sheet's rows; what poppler finds by the line, where `tagged` does not read how its text is written."""
    try:
        return rows_of(data)
    except Unreadable:
        return [row for text in page_texts(data) for row in text.splitlines()]


def not_own(texts: Iterable[str], lesson: Lesson) -> set[str]:
    """Unmarked words of some texts that no record of the lesson holds."""
    own = {word for text in texts_in(lesson) for word in unmarked(text.lower())} | NOT_SAID
    return {word for text in texts for word in unmarked(text) if word.lower() not in own}


def drawn_letters(row: str) -> bool:
    """Whether a row is the letters of an SVG, which stand there without spaces: `drawn` looks at these one by one."""
    return row.startswith("[picture]") and (" " not in row[10:] or re.search(r"\d{6}", row) is not None)


def drawn(lesson: Lesson) -> list[str]:
    """The texts of the graphic score and of the lanes on the cards, one by one, in the pseudo-language."""
    with speaking(PSEUDO):
        pages = [*graphic(lesson, settings()), *(each.lane for each in card_pictures(lesson, settings()).values())]
    texts = (
        node for page in pages for node in etree.fromstring(page.encode()).iter("{http://www.w3.org/2000/svg}text")
    )
    return ["".join(node.itertext()) for node in texts]


def off_the_page(data: bytes, folder: Path) -> list[str]:
    """Words whose box leaves its page, by poppler's `pdftotext -bbox`."""
    file = folder / "sheet.pdf"
    file.write_bytes(data)
    told = subprocess.run(["pdftotext", "-bbox", str(file), "-"], capture_output=True, text=True, check=True).stdout
    found, width, height = [], 0.0, 0.0
    for line in told.splitlines():
        if page := _PAGE.search(line):
            width, height = float(page[1]), float(page[2])
        elif word := _WORD.search(line):
            left, top, right, bottom = (float(word[n]) for n in range(1, 5))
            if left < -HAIR or top < -HAIR or right > width + HAIR or bottom > height + HAIR:
                found.append(line.strip())
    return found
