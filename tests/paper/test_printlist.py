"""What is printed: pages that are there, copies that are enough, no more paper than promised; a brief of one page."""

from __future__ import annotations

from math import ceil

import pytest

from sonify.errors import UnknownName
from sonify.paper import Printing
from sonify.paper.printlist import MOST_SHEETS, Marks, print_list, sides, told
from tests.paper.packs import printed
from tests.studies import studied

#: The guide before its appendix: pages and words (the issue's own limits).
MOST_PAGES, MOST_WORDS = 5, 1_800


CASES = ["two-cups", pytest.param("harbour-water-cycle", marks=pytest.mark.long)]


@pytest.mark.parametrize("scene", CASES)
def test_the_brief_is_one_page_and_the_guide_short(scene: str) -> None:
    found = printed(scene)
    teacher, rows = found.teacher_pages, found.rows
    for head in ("Aim", "Pupils will be able to say", "Get out", "Print, in black and white", "Noise", "Cautions"):
        assert head in teacher[0]
    assert "The lesson, step by step" in teacher[1]
    end = next(place for place, text in enumerate(teacher) if text.startswith("Appendix"))
    assert end <= MOST_PAGES
    assert sum(len(text.split()) for text in teacher[:end]) <= MOST_WORDS
    assert rows[0].pages in (tuple(range(1, end + 1)), (1,))


@pytest.mark.parametrize("scene", CASES)
def test_a_class_needs_no_more_paper_than_promised(scene: str) -> None:
    found = printed(scene)
    rows, pupils = found.rows, found.pupils_pages
    assert sides(rows) == sum(len(row.pages) * row.copies for row in rows) <= MOST_SHEETS
    assert not any(row.colour for row in rows)
    for row in (row for row in rows if row.file == "pupils.pdf"):
        assert all(1 <= page <= len(pupils) for page in row.pages)


def test_the_pages_are_those_that_the_list_says() -> None:
    found = printed("two-cups")
    rows, pupils = found.rows, found.pupils_pages
    heads = {"order": "Put it in order", "sound": "Our sound, and why", "ticket": "Ticket", "long": "Group"}
    for row in rows:
        for page in row.pages if row.sheet in heads else ():
            assert heads[row.sheet] in pupils[page - 1][:150], (row, page)
    short = next(row for row in rows if row.sheet == "short")
    assert len(short.pages) == 5  # a card for each part but the quiet beats


def test_there_is_a_sheet_for_every_pupil() -> None:
    lesson = studied("two-cups")
    rows = printed("two-cups").rows
    halves = 2 * sum(row.sides for row in rows if row.sheet == "sound")
    assert halves >= lesson.classroom.pupils
    (tickets,) = (row for row in rows if row.sheet == "ticket")
    assert tickets.copies == ceil(lesson.classroom.pupils / 4)


def test_what_is_ticked_is_on_the_list_for_every_pupil() -> None:
    marks = Marks(pages={"order": (1,), "ticket": (2,), "words": (3,), "listening": (4, 5)}, up={"ticket": 4})
    lesson = studied("two-cups")
    usual = print_list(lesson, marks, (1, 2), (1,))
    rows = print_list(lesson, marks, (1, 2), (1,), also=("words", "listening"))
    assert [(row.sheet, row.pages, row.copies) for row in rows if row not in usual] == [
        ("words", (3,), 28),
        ("listening", (4, 5), 28),
    ]


def test_where_there_is_too_much_paper_the_first_to_share_are_those_who_cut_out() -> None:
    many = {f"group {n}": tuple(range(10 * n, 10 * n + 10)) for n in range(1, 6)}
    marks = Marks(pages={"order": (1,), "ticket": (2,), **many}, up={"ticket": 4})
    rows = {row.sheet: row for row in print_list(studied("two-cups"), marks, (1, 2, 3, 4), (1, 2))}
    assert rows["order"].copies == 1 and rows["brief"].pages == (1,) and rows["cues"].pages == (1,)
    assert sides(tuple(rows.values())) <= MOST_SHEETS


def test_what_is_still_too_much_is_shared_by_two_and_the_list_says_so() -> None:
    many = {f"group {n}": tuple(range(10 * n, 10 * n + 7)) for n in range(1, 6)}
    sounds = {f"sound {n} {level}": (n,) for n in range(1, 6) for level in ("help", "all", "more")}
    marks = Marks(pages={"order": (1,), "ticket": (2,), **many, **sounds}, up={"ticket": 2, **dict.fromkeys(sounds, 1)})
    rows = print_list(studied("two-cups"), marks, (1, 2, 3, 4), (1, 2))
    assert [row.copies for row in rows if row.sheet == "sound"] == [1] and sides(rows) <= MOST_SHEETS
    listed = {row["sheet"] for row in told(rows)}
    assert {"Our sound, and why; one for two pupils", "tickets, two on a page: cut"} <= listed


@pytest.mark.long
@pytest.mark.parametrize("scene", ["harbour-water-cycle", "sunflower-summer", "woodlice-count"])
def test_large_print_needs_no_more_paper_either(scene: str) -> None:
    assert sides(printed(scene, "few-instruments").rows) <= MOST_SHEETS


def test_an_unknown_sheet_is_refused_with_those_there_are() -> None:
    with pytest.raises(UnknownName, match="chart"):
        Printing(also=("wrods",))
