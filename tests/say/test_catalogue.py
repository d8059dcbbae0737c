"""The catalogue is whole: it parses, every message stands in its file and declares what it claims."""

from __future__ import annotations

from pathlib import Path

import pytest
from fluent.syntax import ast

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
