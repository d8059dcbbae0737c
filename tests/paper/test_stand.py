"""The cue page for a music stand: one page, numbers of 24 points, and all entries and stops of the score."""

from __future__ import annotations

import io

import pytest
from pypdf import PdfReader, PdfWriter

from sonify.paper import conductor_pdf
from sonify.paper.conductor import stand
from tests.paper.looked import small
from tests.paper.sheets import SVG, settings
from tests.studies import SCENES, studied

LEAST_PT = 24.0


@pytest.mark.parametrize("scene", SCENES)
def test_it_has_every_entry_and_every_stop_of_the_score(scene: str) -> None:
    score = studied(scene).score
    rows = stand(studied(scene), settings())["rows"]
    assert [row["bar"] for row in rows] == sorted(row["bar"] for row in rows)
    assert [row["bar"] for row in rows if row["kind"] == "stage"] == [section.bar for section in score.sections]
    group = {part.name: part.group for part in score.group_parts}
    shown = {(row["bar"], each["group"]) for row in rows for each in row["groups"]}
    for cue in score.cues:
        if cue.part in group and cue.action in ("enter", "rest"):
            assert (cue.bar, group[cue.part]) in shown, cue


def test_the_stages_have_the_beat_of_the_score() -> None:
    score = studied("two-cups").score
    rows = [row for row in stand(studied("two-cups"), settings())["rows"] if row["kind"] == "stage"]
    assert [row["bpm"] for row in rows] == [str(round(score.bpm_at(section.bar))) for section in score.sections]


@pytest.mark.parametrize(
    "scene",
    ["harbour-water-cycle", *(pytest.param(s, marks=pytest.mark.long) for s in ("valley-snow-melt", "two-cups"))],
)
def test_it_is_one_page_with_numbers_to_be_read_at_arms_length(scene: str) -> None:
    reader = PdfReader(io.BytesIO(conductor_pdf(studied(scene), (SVG,), settings())))
    (page,) = [page for page in reader.pages if (page.extract_text() or "").lstrip().startswith("Cue page")]
    assert float(page.mediabox.width) > float(page.mediabox.height)
    alone, out = PdfWriter(), io.BytesIO()
    alone.add_page(page)
    alone.write(out)
    title = studied(scene).score.title
    for told in small(out.getvalue(), LEAST_PT):
        words = told.split(" pt: ")[1]
        assert not words.isdigit() or words in title, told
