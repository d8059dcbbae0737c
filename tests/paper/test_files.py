"""What holds for every sheet as a file: tagged, titled, embedded, the same bytes twice, and data never run as code."""

from __future__ import annotations

from dataclasses import replace
from pathlib import Path

import pytest

from sonify.errors import SonifyError
from sonify.paper import typeset
from sonify.paper.settings import PaperSettings
from sonify.records.lesson import Lesson
from sonify.templates import template
from tests.paper.large import large_lesson
from tests.paper.sheets import MAKERS, PALETTE, fonts, made, pages, plain, sample, settings
from tests.sample import sample_lesson

SHEETS = list(MAKERS)
MM = 72 / 25.4
SIZES_MM = {"a4": (210, 297), "us-letter": (215.9, 279.4)}  # ISO 216; ANSI/ASME Y14.1 size A


def titled(title: str) -> Lesson:
    lesson = sample_lesson()
    return replace(lesson, scene=replace(lesson.scene, title=title), score=replace(lesson.score, title=title))


@pytest.mark.parametrize("sheet", SHEETS)
def test_the_file_is_tagged_titled_and_in_british_english(sheet: str) -> None:
    # the entries that ISO 14289-1 (PDF/UA-1) asks for, read by pypdf; from memory of the standard, not verified
    reader = sample(sheet)
    root = reader.trailer["/Root"]
    assert reader.metadata is not None and reader.metadata.title == "A sample piece"
    assert root["/Lang"] == "en-GB"
    assert root["/MarkInfo"]["/Marked"]
    assert "/StructTreeRoot" in root
    assert root["/ViewerPreferences"]["/DisplayDocTitle"]
    assert reader.xmp_metadata is not None
    assert b"<pdfuaid:part>1</pdfuaid:part>" in root["/Metadata"].get_object().get_data()


@pytest.mark.parametrize("sheet", SHEETS)
def test_only_the_sheets_font_is_used_and_the_file_carries_it(sheet: str) -> None:
    found = set(fonts(sample(sheet)))
    assert {name.split("+")[1] for name, _ in found} == {"Andika", "Andika-Bold"}
    assert all(embedded for _, embedded in found)


@pytest.mark.parametrize("sheet", SHEETS)
def test_every_picture_has_words_for_those_who_listen(sheet: str) -> None:
    figures = []

    def walk(node: object) -> None:
        node = node.get_object() if hasattr(node, "get_object") else node
        if isinstance(node, list):
            for kid in node:
                walk(kid)
        elif isinstance(node, dict):
            if node.get("/S") == "/Figure":
                figures.append(str(node.get("/Alt", "")))
            walk(node.get("/K", []))

    walk(sample(sheet).trailer["/Root"]["/StructTreeRoot"]["/K"])
    assert figures
    assert all(len(words) > 10 for words in figures)


@pytest.mark.parametrize("sheet", SHEETS)
def test_the_same_lesson_makes_the_same_bytes(sheet: str) -> None:
    assert MAKERS[sheet](sample_lesson(), settings()) == MAKERS[sheet](sample_lesson(), settings())


@pytest.mark.parametrize("sheet", SHEETS)
@pytest.mark.parametrize(("paper", "large_print"), [("us-letter", False), ("a4", True)])
def test_every_page_has_the_paper_asked_for(sheet: str, paper: str, large_print: bool) -> None:
    for page in made(sheet, sample_lesson(), paper=paper, large_print=large_print).pages:
        size = sorted((float(page.mediabox.width) / MM, float(page.mediabox.height) / MM))
        assert size == pytest.approx(SIZES_MM[paper], abs=0.1)


@pytest.mark.parametrize("sheet", SHEETS)
def test_text_that_looks_like_code_is_printed_and_not_run(sheet: str) -> None:
    title = '#panic("run") *bold* _x_ $y$ <a> @b `c` \\ // d [e] #import "f": *'
    reader = made(sheet, titled(title))
    assert plain(title) in " ".join(pages(reader))
    assert reader.metadata is not None and reader.metadata.title == title


@pytest.mark.parametrize("sheet", SHEETS)
def test_letters_the_font_lacks_are_owned_up_to_and_the_title_kept(sheet: str) -> None:
    reader = made(sheet, titled("דרכה של טיפה 💧"))
    text = " ".join(pages(reader))
    assert "hebrew letter" in text and "stands for a letter" in text
    assert reader.metadata is not None and reader.metadata.title == "דרכה של טיפה 💧"


@pytest.mark.parametrize("title", ["The very long journey of one drop of water, " * 7, "x" * 300])
@pytest.mark.parametrize("sheet", SHEETS)
def test_a_title_of_300_letters_is_printed_whole_on_no_more_pages(sheet: str, title: str) -> None:
    reader = made(sheet, titled(title))
    first = pages(reader)[0].replace(" ", "")
    assert plain(title).replace(" ", "") in first
    assert len(reader.pages) - len(sample(sheet).pages) in (0, 1)


@pytest.mark.parametrize("sheet", SHEETS)
@pytest.mark.parametrize(
    "size",
    [
        {"stages": 1, "groups": 2, "quantities": 1},
        {"stages": 9, "groups": 6, "parts_a_group": 2, "quantities": 6},
    ],
    ids=["small", "large"],
)
def test_few_and_many_of_everything_can_be_set(sheet: str, size: dict[str, int]) -> None:
    lesson = large_lesson(**size)
    text = " ".join(pages(made(sheet, lesson, large_print=True)))
    for part in lesson.score.group_parts:
        assert part.name in text
    for section in lesson.score.sections:
        assert section.title in text


def test_a_folder_without_the_font_says_so(tmp_path: Path) -> None:
    with pytest.raises(SonifyError, match=r"Andika \(regular and bold\) is not in"):
        MAKERS["teacher"](sample_lesson(), settings(fonts_dir=str(tmp_path)))


@pytest.mark.parametrize(
    ("changes", "message"), [({"paper": "a3"}, 'paper is "a3"'), ({"palette": ()}, "the palette is empty")]
)
def test_settings_that_cannot_be_set_are_refused(changes: dict[str, object], message: str) -> None:
    given = {"fonts_dir": ".", "palette": PALETTE, **changes}
    with pytest.raises(ValueError, match=message):
        PaperSettings(**given)  # type: ignore[arg-type]


def test_a_warning_of_the_typesetter_is_a_fault(monkeypatch: pytest.MonkeyPatch) -> None:
    # typst only warns of a font that is not there, and would print in another or not at all
    monkeypatch.setattr(typeset, "template", lambda room, name: template(room, name).replace("Andika", "Nowhere"))
    with pytest.raises(RuntimeError, match="teacher: .*nowhere"):
        MAKERS["teacher"](sample_lesson(), settings())
