"""Each view of the page printed to PDF: a few sheets, its words on them, and no buttons."""

from __future__ import annotations

from io import BytesIO

import pytest
from pypdf import PdfReader

from tests.browser.conftest import Opener

pytestmark = pytest.mark.browser


@pytest.mark.parametrize(
    ("view", "most", "words", "buttons"),
    [
        ("hear", 5, ("The science", "The groups, as you face them", "Take care"), ("Next stage", "Everyone plays")),
        ("particles", 2, ("A model, not to scale.", "How fast are real molecules?"), ("Heat slowly",)),
        ("listening", 1, ("Listening check", "1. "), ("Show the answer", "Next question", "Play clip")),
        ("conduct", 1, ("Playing", "Next"), ("Rehearsal tempo", "Repeat stage")),
    ],
)
def test_a_view_on_paper(
    opened: Opener, view: str, most: int, words: tuple[str, ...], buttons: tuple[str, ...]
) -> None:
    page = opened(view=view)
    pages = PdfReader(BytesIO(page.pdf(format="A4"))).pages
    text = " ".join(" ".join(sheet.extract_text() for sheet in pages).split())
    assert 1 <= len(pages) <= most
    for word in words:
        assert word in text
    for word in buttons:
        assert word not in text
