"""Sheets looked at by program, in ordinary and large print: nothing cut off, nothing on top of anything, no letters too
small, no half page left empty, and nothing lost in grey."""

from __future__ import annotations

from pathlib import Path

import numpy as np
import pytest

from sonify.lesson import study
from sonify.lesson.sheet_files import sheets, staves
from sonify.notation.free import free_as_boxes
from sonify.notation.musicxml import musicxml_bytes
from sonify.paper import conductor_file, cue_pages, poster_pdf
from sonify.paper.settings import LARGE_PT
from sonify.paper.typeset import SIZES
from tests.paper.looked import blank_halves, colliding, cut_off, grey_pages, small, words_of
from tests.paper.packs import Printed, printed
from tests.paper.sheets import PALETTE, settings
from tests.studies import studied

CLASSES = Path(__file__).resolve().parents[1] / "classes"

#: Scene, class, paper; the second class has the need for large print.
CASES = [
    ("two-cups", "well-stocked", "a4", SIZES["pupils"][1]),
    pytest.param("woodlice-count", "few-instruments", "us-letter", LARGE_PT, marks=pytest.mark.long),
    pytest.param("harbour-water-cycle", "few-instruments", "a4", LARGE_PT, marks=pytest.mark.long),
    pytest.param("a-frogs-life", "well-stocked", "us-letter", SIZES["pupils"][1], marks=pytest.mark.long),
    pytest.param("sunflower-summer", "well-stocked", "a4", SIZES["pupils"][1], marks=pytest.mark.long),
    pytest.param("sound-and-distance", "well-stocked", "a4", SIZES["pupils"][1], marks=pytest.mark.long),
    pytest.param("rain-garden-storm", "well-stocked", "a4", SIZES["pupils"][1], marks=pytest.mark.long),
    pytest.param("ice-rink-particles", "few-instruments", "us-letter", LARGE_PT, marks=pytest.mark.long),
]


def on_paper(found: Printed, folder: Path) -> dict[str, Path]:
    files = {"pupils": folder / "pupils.pdf", "teacher": folder / "teacher.pdf"}
    files["pupils"].write_bytes(found.pupils)
    files["teacher"].write_bytes(found.teacher)
    return files


@pytest.mark.parametrize(("scene", "classroom", "paper", "least_pt"), CASES)
def test_nothing_is_cut_off_on_top_of_anything_or_too_small(
    scene: str, classroom: str, paper: str, least_pt: float, tmp_path: Path
) -> None:
    found = printed(scene, classroom, paper=paper)
    for name, file in on_paper(found, tmp_path).items():
        assert cut_off(file) == [], name
        assert colliding(file) == [], name
    assert small(found.pupils, 12.0) == []
    assert small(found.pupils, least_pt * 0.66) == []
    printing = {page for row in found.rows if row.file == "pupils.pdf" for page in row.pages}
    assert printing.isdisjoint(blank_halves(tmp_path / "pupils.pdf"))
    guide = [page for row in found.rows if row.file == "teacher.pdf" for page in row.pages]
    assert set(guide[:-1]).isdisjoint(blank_halves(tmp_path / "teacher.pdf"))


def test_no_page_of_cues_is_nearly_empty(tmp_path: Path) -> None:
    """The cues of one scene are a little more than a page at the largest letters, those of the other just a page."""
    for number, scene in enumerate(("a-frogs-life", "the-drum-in-the-hall")):
        found = conductor_file(studied(scene), (), settings())
        (tmp_path / "conductor.pdf").write_bytes(found.pdf)
        assert len(found.pages.of("cues")) == 2 - number
        assert set(cue_pages(found.pages)).isdisjoint(blank_halves(tmp_path / "conductor.pdf"))


@pytest.mark.long
def test_long_names_of_staves_do_not_lie_on_each_other(tmp_path: Path) -> None:
    lesson = studied("spots-on-the-sun")
    for large in (False, True):
        pages = staves(musicxml_bytes(free_as_boxes(lesson.score)), settings(large_print=large))
        (tmp_path / "conductor.pdf").write_bytes(conductor_file(lesson, pages, settings(large_print=large)).pdf)
        assert colliding(tmp_path / "conductor.pdf") == []


def test_the_look_finds_what_is_wrong(tmp_path: Path) -> None:
    """A page made with faults: a word over another, one off the page, small letters, and an empty lower half."""
    import typst

    bad = tmp_path / "bad.pdf"
    text = '#set page("a5")\n#place(dx: 0pt)[Over]#place(dx: 4pt)[Under]#place(dx: 122mm, box(width: 60mm)[Outside])'
    bad.write_bytes(typst.compile((text + "\n#v(8mm)#text(size: 7pt)[tiny]").encode()))
    assert colliding(bad) and cut_off(bad) and blank_halves(bad) == [1]
    assert any("tiny" in words for words in small(bad.read_bytes(), 12.0))


def test_in_grey_every_group_is_told_apart_by_its_hatching_and_words_stay_dark(tmp_path: Path) -> None:
    """Words are darker than 0.35 of white: WCAG 2 asks for a contrast of 4.5, which grey of 0.46 on white has."""
    assert len({style.hatching for style in PALETTE[:6]}) == 6
    file = tmp_path / "pupils.pdf"
    file.write_bytes(printed("two-cups").pupils)
    for page in grey_pages(file):
        assert float(np.min(page)) < 0.35 * 255


@pytest.mark.long
def test_a_poster_in_large_print_has_every_name_of_a_curve_on_its_page(tmp_path: Path) -> None:
    """A name with too little room beside its curve goes on below: poppler tells no words beyond the edge."""
    file = tmp_path / "poster.pdf"
    file.write_bytes(poster_pdf(studied("the-sea-that-stayed-warm", "few-instruments"), settings(large_print=True)))
    for _, _, words in words_of(file)[:2]:
        assert "usually is" in " ".join(word.text for word in words)


@pytest.mark.parametrize("scene", ["ice-rink-particles", "salt-in-the-jar"])
def test_nine_groups_have_room_on_the_map_and_in_the_arc(scene: str, tmp_path: Path) -> None:
    """Names lay on names and on badges, where nine groups each keep the pulse besides."""
    lesson = study(scene, CLASSES / "nine-groups.toml", seed=5)
    for name, data in sheets(lesson, lambda: musicxml_bytes(free_as_boxes(lesson.score)), settings()):
        if name in ("teacher.pdf", "conductor.pdf"):
            file = tmp_path / name
            file.write_bytes(data)
            assert cut_off(file) == [] and colliding(file) == [], name
            if name == "conductor.pdf":
                gestures = ["ready:" in [word.text for word in words] for _, _, words in words_of(file)]
                assert not gestures[0] and any(gestures), "not on the map, and not lost"
