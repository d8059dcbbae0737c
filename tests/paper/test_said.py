"""Three scenes' sheets in the pseudo-language (all of them in `python -m tests.campaign words`): nothing is left that
the catalogue does not say, and longer words run off no page. Templates hold no words of their own."""

from __future__ import annotations

import re
import shutil
from pathlib import Path

import pytest

from sonify.paper.typeset import SHOWN, TEMPLATES, shown_words
from sonify.templates import template
from tests.paper.said import drawn, not_own, off_the_page, pseudo_sheets, unsaid
from tests.say.pseudo import marked
from tests.studies import studied

LESSONS = [("harbour-water-cycle", False), ("stretch-test", False), ("two-cups", True)]
#: Texts in a template that no reader sees: names of fonts, papers, gestures, hatchings, messages and marks.
UNSEEN = re.compile(r"^[a-z#/][a-z0-9 /-]*(\.[a-z]+)?$|^Andika$|^GB$|^#[0-9a-fA-F]{6}$|^\\u\{\w+\}$")


@pytest.mark.parametrize(("scene", "large_print"), LESSONS)
def test_every_word_of_the_sheets_is_said_and_stays_on_the_page(scene: str, large_print: bool, tmp_path: Path) -> None:
    lesson = studied(scene)
    assert not_own(drawn(lesson), lesson) == set()
    for sheet, data in pseudo_sheets(lesson, large_print=large_print).items():
        assert unsaid(data, lesson) == set(), sheet
        if shutil.which("pdftotext"):
            assert off_the_page(data, tmp_path) == [], sheet


@pytest.mark.parametrize("name", TEMPLATES)
def test_a_template_holds_no_words(name: str) -> None:
    code = re.sub(r"//.*", "", template("paper", f"{name}.typ"))
    texts = [text for text in re.findall(r'"([^"]*)"', code) if re.search(r"[A-Za-z]{2}", text)]
    assert [text for text in texts if not UNSEEN.match(text) and "regex" not in text and "[0-9]" not in text] == []
    content = re.sub(r'"[^"]*"', '""', code)
    content = re.sub(r"#[a-z][\w.-]*(\((?:[^()]|\([^()]*\))*\))*", "", content)
    words = [
        cell for cell in re.findall(r"\[([^\[\]{}=]*)\]", content) if re.search(r"[A-Z][a-z]+|[a-z]{3} [a-z]{3}", cell)
    ]
    assert [cell for cell in words if not re.search(r"[(){};]|\blet\b|\.at\b", cell)] == []


@pytest.mark.parametrize("sheet", SHOWN)
def test_every_message_that_a_template_shows_is_there(sheet: str) -> None:
    used = {
        "conductor": ("conductor", "map", "cues", "style"),
        "pupils": ("pupils", "flow", "card", "pieces", "boxes", "halves", "rows", "style"),
        "teacher": ("teacher", "plots", "style"),
        "poster": ("poster", "style"),
        "performed": ("performed", "style"),
    }[sheet]
    text = "".join(template("paper", f"{name}.typ") for name in used)
    names = {name for name in re.findall(r'(?:say|filled)\("([a-z-]+)"', text) if not name.endswith("-")}
    assert names and names <= set(shown_words(sheet))


def test_the_check_sees_a_word_that_nobody_said() -> None:
    lesson = studied("two-cups")
    from tests.paper.sheets import MAKERS, settings

    plain = MAKERS["poster"](lesson, settings())
    assert "quicker" in unsaid(plain, lesson) and marked("quicker") not in unsaid(plain, lesson)
