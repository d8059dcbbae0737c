"""What is printed: pages that are there, copies that are enough, no more paper than promised; a brief of one page."""

from __future__ import annotations

import io
from dataclasses import replace
from functools import lru_cache
from math import ceil

import pytest
from pypdf import PdfReader

from sonify.errors import UnknownName
from sonify.paper import Printing, pupils_pdf, teacher_file
from sonify.paper.printlist import MOST_SHEETS, PrintRow, sides
from sonify.sheets import card_pictures
from tests.paper.sheets import pages, settings
from tests.studies import studied

#: The guide before its appendix: pages and words (the issue's own limits).
MOST_PAGES, MOST_WORDS = 5, 1_800


Printed = tuple[list[str], tuple[PrintRow, ...], list[str]]


def printed(scene: str, classroom: str = "well-stocked", also: tuple[str, ...] = ()) -> Printed:
    """The teacher's pages, the print list, the pupils' pages."""
    return _printed(scene, classroom, also)


@lru_cache
def _printed(scene: str, classroom: str, also: tuple[str, ...]) -> Printed:
    lesson, chosen = studied(scene, classroom), settings(also=also)
    large = replace(chosen, large_print="large print" in lesson.classroom.needs)
    pictures = card_pictures(lesson, large)
    teacher = teacher_file(lesson, chosen, pictures)
    pupils = PdfReader(io.BytesIO(pupils_pdf(lesson, large, pictures)))
    return pages(PdfReader(io.BytesIO(teacher.pdf))), teacher.print_list, pages(pupils)


CASES = [("two-cups", "well-stocked"), ("woodlice-count", "few-instruments")]


@pytest.mark.parametrize(("scene", "classroom"), CASES)
def test_the_brief_is_one_page_and_the_guide_short(scene: str, classroom: str) -> None:
    teacher, rows, _ = printed(scene, classroom)
    for head in ("Aim", "Pupils will be able to say", "Get out", "Print, in black and white", "Noise", "Cautions"):
        assert head in teacher[0]
    assert "The lesson, step by step" in teacher[1]
    end = next(place for place, text in enumerate(teacher) if text.startswith("Appendix"))
    assert end <= MOST_PAGES
    assert sum(len(text.split()) for text in teacher[:end]) <= MOST_WORDS
    assert rows[0].pages in (tuple(range(1, end + 1)), (1,))


@pytest.mark.parametrize(("scene", "classroom"), CASES)
def test_a_class_needs_no_more_paper_than_promised(scene: str, classroom: str) -> None:
    _, rows, pupils = printed(scene, classroom)
    assert sides(rows) == sum(len(row.pages) * row.copies for row in rows) <= MOST_SHEETS
    assert not any(row.colour for row in rows)
    for row in (row for row in rows if row.file == "pupils.pdf"):
        assert all(1 <= page <= len(pupils) for page in row.pages)


def test_the_pages_are_those_that_the_list_says() -> None:
    _, rows, pupils = printed("two-cups")
    heads = {"order": "Put it in order", "sound": "Our sound, and why", "ticket": "Ticket", "long": "Group"}
    for row in rows:
        for page in row.pages if row.sheet in heads else ():
            assert heads[row.sheet] in pupils[page - 1][:150], (row, page)
    short = next(row for row in rows if row.sheet == "short")
    assert len(short.pages) == 5  # a card for each part but the quiet beats


def test_there_is_a_sheet_for_every_pupil() -> None:
    lesson = studied("two-cups")
    _, rows, _ = printed("two-cups")
    halves = 2 * sum(row.sides for row in rows if row.sheet == "sound")
    assert halves >= lesson.classroom.pupils
    (tickets,) = (row for row in rows if row.sheet == "ticket")
    assert tickets.copies == ceil(lesson.classroom.pupils / 4)


def test_what_is_ticked_is_on_the_list_for_every_pupil() -> None:
    _, usual, _ = printed("two-cups")
    _, rows, pupils = printed("two-cups", also=("words", "listening"))
    more = [row for row in rows if row not in usual]
    assert [row.sheet for row in more] == ["words", "listening"]
    assert all(row.copies == 28 for row in more)
    assert "Words to know" in pupils[more[0].pages[0] - 1] and "What do you hear?" in pupils[more[1].pages[0] - 1]


def test_an_unknown_sheet_is_refused_with_those_there_are() -> None:
    with pytest.raises(UnknownName, match="chart"):
        Printing(also=("wrods",))
