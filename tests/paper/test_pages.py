"""The pupils' pages as laid out: every page of a card has its banner, and no page holds a lonely rest."""

from __future__ import annotations

import io
import re

import pytest
from pypdf import PdfReader

from sonify.kinds.pupil_sheets import PICTURES
from sonify.lesson.sheet_files import card_pictures
from sonify.paper import pupils_pdf
from tests.paper.sheets import pages, settings
from tests.studies import studied

#: Lessons whose cards are full: many entries, long tunes, two parts a group, large print.
FULL = [
    ("the-sea-that-stayed-warm", "few-instruments", "a4", False),
    ("which-cloth-drinks-most", "well-stocked", "us-letter", False),
    ("two-cups", "well-stocked", "us-letter", False),
    ("ice-rink-particles", "few-instruments", "us-letter", True),
]


#: A card by pictures alone: its group, how many of each instrument, a letter a stage.
BY_PICTURES = re.compile(r"\d(?: × \d+| \d)*(?: [A-Z]\b){2,}")


@pytest.mark.parametrize(("scene", "classroom", "paper", "large"), FULL)
def test_every_page_of_a_card_begins_with_its_banner_and_counts_right(
    scene: str, classroom: str, paper: str, large: bool
) -> None:
    lesson = studied(scene, classroom)
    chosen = settings(paper=paper, large_print=large, also=(PICTURES,))
    found = pages(PdfReader(io.BytesIO(pupils_pdf(lesson, chosen, card_pictures(lesson, chosen)))))
    banners = [re.match(r"\d Group (\d)((?:, part \d of \d)?)(?:, page (\d) of (\d))?", text) for text in found]
    first = next(i for i, banner in enumerate(banners) if banner)
    last = next(i for i, text in enumerate(found) if re.match(r"\d Our sound, and why", text))
    told: dict[tuple[str, str], list[tuple[str, str]]] = {}
    for banner in banners[first:last]:
        assert banner is not None
        told.setdefault((banner[1], banner[2]), []).append((banner[3] or "1", banner[4] or "1"))
    assert len(told) == len(lesson.score.group_parts)
    for numbers in told.values():
        assert numbers == [(str(n), str(len(numbers))) for n in range(1, len(numbers) + 1)]
    # the running foot alone is about as long as the title; a page has more to say than that, but for pictures alone
    assert all(len(text) > 150 or BY_PICTURES.match(text) for text in found[first:])
