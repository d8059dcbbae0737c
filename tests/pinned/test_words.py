"""The words of every output of every shipped scene as last meant: well-stocked class, seed 0, scaffold full.

Pinned text is our own output, kept so that a change of wording is seen. It is never evidence that a sentence is true:
that is for tests that compute the claim by other means. Figures in it are those of one set of library versions.
"""

from __future__ import annotations

import io
import re
from difflib import unified_diff

import pytest
from pypdf import PdfReader

from tests.paper.sheets import MAKERS, settings
from tests.pinned.sentences import found_sentences
from tests.pinned.tagged import rows_of
from tests.pinned.words import ALL, WORDS, told, words_of
from tests.sample import sample_lesson

#: Rows of a difference that are printed for each text, and for a scene.
MOST, MOST_A_SCENE = 12, 60


def pinned(scene: str) -> dict[str, str]:
    return {path.name.removesuffix(".txt"): path.read_text(encoding="utf-8") for path in (WORDS / scene).glob("*.txt")}


def difference(scene: str, before: dict[str, str], after: dict[str, str]) -> list[str]:
    """What changed, in short: the first rows of each text's difference."""
    rows: list[str] = []
    for name in sorted(before.keys() | after.keys()):
        told_before, told_after = before.get(name, "").splitlines(), after.get(name, "").splitlines()
        changed = list(unified_diff(told_before, told_after, f"pinned {scene}/{name}", "now", n=0, lineterm=""))
        rows += changed[:MOST] + ([f"... {len(changed) - MOST} rows more"] if len(changed) > MOST else [])
    return rows[:MOST_A_SCENE]


@pytest.mark.parametrize("scene", ALL)
def test_the_words_are_those_that_were_meant(scene: str) -> None:
    changed = difference(scene, pinned(scene), words_of(scene))
    if changed:
        renew = f"Where every change is meant: python -m tests.pinned.renew {scene}"
        pytest.fail("\n".join(["The words have changed.", *changed, renew]), pytrace=False)


def test_no_scene_is_pinned_that_is_not_there() -> None:
    assert {folder.name for folder in WORDS.iterdir()} == set(ALL)


def test_a_changed_word_is_shown_with_its_row() -> None:
    before = {"poster.pdf": told(["The sea warms. Vapour rises."])}
    after = {"poster.pdf": told(["The sea cools. Vapour rises."])}
    assert difference("harbour", before, after)[-2:] == ["-The sea warms.", "+The sea cools."]
    assert difference("harbour", before, before) == []


def words(text: str) -> set[str]:
    return set(re.findall(r"[^\W\d_]{4,}", text))


@pytest.mark.parametrize("sheet", MAKERS)
def test_our_reader_finds_the_words_that_pypdf_finds(sheet: str) -> None:
    data = MAKERS[sheet](sample_lesson(), settings())
    theirs = words("\n".join(page.extract_text() for page in PdfReader(io.BytesIO(data)).pages))
    ours = [re.sub(r"^=== page \d+:", "", row) for row in rows_of(data)]
    assert theirs <= words("\n".join(ours))
    assert words("\n".join(row for row in ours if not row.startswith("[picture]"))) <= theirs


def test_every_sentence_is_listed_with_its_places() -> None:
    found = found_sentences(["harbour-water-cycle"])
    assert len(found) > 300
    assert all(place.startswith("harbour-water-cycle/") for places in found.values() for place in places)
