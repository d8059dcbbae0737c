"""What a pack prints: python -m tests.benchmarks.paper [SCENE...] [--class FILE] [--large-print].

For each scene the pages and words of its sheets, those of the teacher's guide before its appendix, and how many sheets
of paper the print list comes to, printed on one side.
"""

from __future__ import annotations

import argparse
import io
from collections.abc import Iterator
from dataclasses import dataclass

from pypdf import PdfReader

from sonify.lesson import Printing, sheet_settings, study
from sonify.lesson.sheet_files import sheets
from sonify.notation.musicxml import musicxml_bytes
from sonify.paper.printlist import PrintRow, sides
from sonify.records.fact import fact
from sonify.records.lesson import Lesson
from sonify.say import say
from tests.studies import SCENES


@dataclass(frozen=True, slots=True, kw_only=True)
class Counted:
    """A PDF's pages and words."""

    pages: int
    words: int


def counted(data: bytes) -> Counted:
    reader = PdfReader(io.BytesIO(data))
    texts = [page.extract_text() for page in reader.pages]
    return Counted(pages=len(texts), words=sum(len(text.split()) for text in texts))


def guide(data: bytes) -> Counted:
    """The teacher's pages before the appendix."""
    texts = [page.extract_text() for page in PdfReader(io.BytesIO(data)).pages]
    end = next(place for place, text in enumerate(texts) if say(fact("guide-appendix")) in text)
    return Counted(pages=end, words=sum(len(text.split()) for text in texts[:end]))


def measured(lesson: Lesson, printing: Printing) -> Iterator[tuple[str, Counted]]:
    """Each sheet's file with its pages and words; "guide" and "print list" besides."""
    listed: list[PrintRow] = []
    for name, data in sheets(lesson, lambda: musicxml_bytes(lesson.score), sheet_settings(printing), listed.extend):
        yield name, counted(data)
        if name == "teacher.pdf":
            yield "guide", guide(data)
    yield "print list", Counted(pages=sides(listed), words=0)


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.benchmarks.paper", description=__doc__)
    parser.add_argument("scenes", nargs="*", metavar="SCENE")
    parser.add_argument("--class", dest="classroom")
    parser.add_argument("--large-print", action="store_true")
    asked = parser.parse_args()
    printing = Printing(large_print=asked.large_print)
    for scene in asked.scenes or SCENES:
        rows = dict(measured(study(scene, asked.classroom), printing))
        print(
            f"{scene:28} " + "  ".join(f"{name} {row.pages} p {row.words} w" for name, row in rows.items()), flush=True
        )


if __name__ == "__main__":
    main()
