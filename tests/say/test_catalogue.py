"""The catalogue is whole: it parses, every message stands in its file and declares what it claims."""

from __future__ import annotations

import re
from pathlib import Path

import pytest
from fluent.syntax import FluentSerializer, ast

from sonify.kinds.claims import CLAIMS

from .catalogue import FOLDER, messages, resource

FILES = sorted(FOLDER.glob("*.ftl"))


@pytest.mark.parametrize("path", FILES, ids=lambda path: path.name)
def test_every_line_of_a_file_is_understood(path: Path) -> None:
    junk = [entry.content for entry in resource(path).body if isinstance(entry, ast.Junk)]
    assert not junk, junk[0]


def test_a_message_stands_in_the_file_that_its_first_word_names() -> None:
    wrong = [row.id for row in messages() if row.id.partition("-")[0] != row.file.removesuffix(".ftl")]
    assert not wrong


def test_no_message_stands_twice() -> None:
    names = [row.id for row in messages()]
    assert len(names) == len(set(names)), sorted(name for name in names if names.count(name) > 1)


def test_every_message_declares_what_it_claims() -> None:
    silent = [row.id for row in messages() if not row.kind]
    assert not silent


def test_every_declared_claim_is_one_of_the_table() -> None:
    unknown = {row.id: kinds - set(CLAIMS) for row in messages() for kinds in row.claims if kinds - set(CLAIMS)}
    assert not unknown


def test_what_makes_no_claim_says_why() -> None:
    bare = [row.id for row in messages() if row.kind in ("no claim", "phrase", "plain") and len(row.about.split()) < 2]
    assert not bare


#: Ways to go, each with what it must not be told as.
WAYS = [("rises", "falls"), ("warmer", "colder"), ("higher", "lower"), ("more", "less"), ("quicker", "slower")]
WAYS += [("louder", "softer"), ("most", "least"), ("greatest", "least")]
OPPOSITE = {one: other for pair in WAYS for one, other in (pair, pair[::-1])}
#: Messages named by a way that say it with another word.
OTHERWISE = {
    "cue-show-louder": "raise",
    "cue-show-softer": "lower",
    "cue-show-quicker": "fast",
    "cue-show-slower": "slow",
    "cue-quicker": "$because",
    "cue-slower": "$because",
    "experiment-least": "fewest",
    "meaning-greatest": "warmest",
    "meaning-least": "coldest",
    "part-taps-more": "to many",
    "states_of_matter-warmer": "box",
    "states_of_matter-no-warmer": "hardly",
    "drying-dew-falls": "condenses",
    "rain_garden-brook-falls": "less",
    "sound_level-falls-less": "at first",
    "water_cycle-falls": "drops fall",
}


def test_a_claim_or_cue_that_is_named_by_a_way_to_go_says_that_way() -> None:
    tried = 0
    for row in messages():
        way = row.id.removesuffix("-here").rpartition("-")[2]
        if way not in OPPOSITE or (row.kind != "claims" and row.file != "cue.ftl"):
            continue
        told = FluentSerializer().serialize_entry(row.entry).partition("=")[2].lower()
        if row.id in OTHERWISE:
            assert OTHERWISE[row.id] in told, row.id
            continue
        tried += 1
        assert re.search(rf"\b{way}\b", told) and not re.search(rf"\b{OPPOSITE[way]}\b", told), row.id
    assert tried > 40
