"""All sheets of a lesson with their drawings, for few and many of everything, and without the fonts."""

from __future__ import annotations

import io
from dataclasses import replace
from pathlib import Path

import pytest
from pypdf import PdfReader

from sonify.errors import SonifyError
from sonify.lesson.sheet_files import sheets
from sonify.notation.musicxml import musicxml_bytes
from tests.paper.large import large_lesson
from tests.paper.sheets import pages, settings
from tests.paper.test_tags import tags
from tests.sample import sample_lesson


@pytest.mark.parametrize(
    "size",
    [{"stages": 1, "groups": 2, "quantities": 1}, {"stages": 4, "groups": 6, "parts_a_group": 2, "quantities": 3}],
    ids=["one-stage-two-groups", "twelve-parts"],
)
def test_few_and_many_parts_are_drawn_engraved_and_printed(size: dict[str, int]) -> None:
    lesson = large_lesson(**size)
    found = dict(sheets(lesson, lambda: musicxml_bytes(lesson.score), settings(paper="us-letter")))
    assert list(found) == ["conductor.pdf", "pupils.pdf", "teacher.pdf", "poster.pdf"]
    text = " ".join(pages(PdfReader(io.BytesIO(found["conductor.pdf"]))))
    assert text.index("Cue sheet") < text.index("Graphic score") < text.rindex("Score")
    spoken = [
        str(node.get("/Alt", ""))
        for name, node in tags(PdfReader(io.BytesIO(found["conductor.pdf"])))
        if name == "/Figure"
    ]
    (drawn,) = [words for words in spoken if words.startswith("Graphic score, page 1 of")]
    assert all(part.name in drawn for part in lesson.score.group_parts)
    for name in ("conductor.pdf", "poster.pdf"):
        printed = " ".join(pages(PdfReader(io.BytesIO(found[name]))))
        assert all(part.name in printed for part in lesson.score.group_parts), name


def test_large_print_reaches_every_sheet_and_the_class_need_only_the_pupils() -> None:
    lesson = sample_lesson()
    music = musicxml_bytes(lesson.score)
    usual = dict(sheets(lesson, lambda: music, settings()))
    large = dict(sheets(lesson, lambda: music, settings(large_print=True)))
    assert all(usual[name] != large[name] for name in usual)
    needed = replace(lesson, classroom=replace(lesson.classroom, needs=("large print",)))
    asked = dict(sheets(needed, lambda: music, settings()))
    assert asked["pupils.pdf"] == large["pupils.pdf"] != usual["pupils.pdf"]
    assert (asked["conductor.pdf"], asked["poster.pdf"]) == (usual["conductor.pdf"], usual["poster.pdf"])


def test_without_the_font_one_message_says_what_to_do(tmp_path: Path) -> None:
    lesson = sample_lesson()
    with pytest.raises(SonifyError, match=r"the font Andika .* install the toolkit again") as caught:
        list(sheets(lesson, lambda: musicxml_bytes(lesson.score), settings(fonts_dir=str(tmp_path))))
    assert "\n" not in str(caught.value)
