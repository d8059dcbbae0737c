"""The pseudo-language says every message of English, marked, longer, and with the same places."""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from sonify.records.fact import Amount, Duration, fact
from sonify.records.letters import drawable
from sonify.say import say, speaking

from .catalogue import FOLDER, messages
from .pseudo import MARKED, PLAIN, PSEUDO, marked, pseudo_messages, unmarked

FILES = sorted(FOLDER.glob("*.ftl"))
PLACES = re.compile(r"\$\w+|^\s*\*?\[\w+\]", re.MULTILINE)


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_every_place_and_every_choice_stays(path: Path) -> None:
    kept, there = (PLACES.findall(text) for text in (pseudo_messages(path.stem), path.read_text(encoding="utf-8")))
    assert [each.strip() for each in kept] == [each.strip() for each in there]


def test_every_letter_has_a_mark_of_its_own_that_can_be_printed() -> None:
    assert len(set(MARKED)) == len(PLAIN) == len(MARKED)
    assert {ord(letter) for letter in MARKED} <= drawable()
    assert unmarked(marked(PLAIN)) == []


def test_the_catalogue_as_a_whole_is_about_a_third_longer() -> None:
    text = " ".join(row.id for row in messages()).replace("-", " ")
    assert 1.25 < len(marked(text)) / len(text) < 1.45


def test_words_and_figures_are_said_in_it_and_a_persons_own_stay() -> None:
    with speaking(PSEUDO):
        told = say(fact("cooling-half-way", cup="Oma", temperature=Amount(value=50.0, unit="degC")))
        assert unmarked(told) == ["Oma"] and "50 °C" in told
        assert unmarked(say(fact("cooling-halving", cup=("a", "b"), lasts=Duration(seconds=9_600)))) == []
        assert say("Our own words") == "Our own words"
    assert unmarked(say(fact("cooling-too-soon")))[:3] == ["it", "is", "over"]
