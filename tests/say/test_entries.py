"""Messages read one by one are those that Fluent's own parser finds in the whole file."""

from __future__ import annotations

from pathlib import Path

import pytest
from fluent.syntax import FluentParser, ast

from sonify.say import Language, say
from sonify.say.entries import entries, plain_text

ENGLISH = Path(say.__code__.co_filename).parent / "en"


def _checked(file: Path) -> int:
    parser, text = FluentParser(with_spans=False), file.read_text(encoding="utf-8")
    whole = {entry.id.name: entry for entry in parser.parse(text).body if isinstance(entry, ast.Message)}
    found = entries(text)
    assert list(found) == list(whole), file.name
    for name, source in found.items():
        (alone,) = parser.parse(source).body
        assert isinstance(alone, ast.Message) and alone.equals(whole[name], ["span", "comment"]), name
        said = plain_text(source)
        if said is not None:
            assert alone.value is not None and [e.to_json() for e in alone.value.elements] == [
                ast.TextElement(said).to_json()
            ]
    return len(found)


def test_messages_read_one_by_one_are_those_of_the_whole_file() -> None:
    assert sum(_checked(file) for file in sorted(ENGLISH.glob("m*.ftl"))) > 200


@pytest.mark.long
def test_so_they_are_in_all_files() -> None:
    files = sorted(ENGLISH.glob("*.ftl"))
    assert sum(_checked(file) for file in files) > 3_000 and len(files) > 100


def test_a_message_that_stands_in_another_is_read_with_it() -> None:
    text = "# of many\ntold-one = { told-two }, and { $more }\ntold-two =\n    two\n    lines\ntold-three = three\n"
    language = Language("en", "en_GB", {"told": text}.__getitem__)
    assert language.message("told-one", {"more": "more"}) == "two\nlines, and more"
    assert language.message("told-three") == "three" and not language.knows("told-four")
