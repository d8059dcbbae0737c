"""The tags of every sheet as a screen reader walks them, read with pypdf: headings, tables, figures, pages in order.

What PDF/UA-1 (ISO 14289-1) asks: headings that skip no level, header cells in tables, words for figures (from memory of
the standard, not verified).
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache
from typing import Any

import pytest
from pypdf import PdfReader

from sonify.records.fact import fact
from sonify.say import say
from tests.paper.large import large_lesson
from tests.paper.sheets import MAKERS, made, pages, sample

SHEETS = list(MAKERS)


def tags(reader: PdfReader) -> Iterator[tuple[str, Any]]:
    """Each tag in reading order with its element."""

    def walk(node: Any) -> Iterator[tuple[str, Any]]:
        node = node.get_object() if hasattr(node, "get_object") else node
        if isinstance(node, list):
            for kid in node:
                yield from walk(kid)
        elif isinstance(node, dict):
            if "/S" in node:
                yield str(node["/S"]), node
            yield from walk(node.get("/K", []))

    root: Any = reader.trailer["/Root"]
    yield from walk(root["/StructTreeRoot"]["/K"])


@lru_cache
def large(sheet: str) -> PdfReader:
    return made(sheet, large_lesson(stages=9, groups=6, parts_a_group=2))


def levels(reader: PdfReader) -> list[int]:
    return [int(name[2:]) for name, _ in tags(reader) if re.fullmatch(r"/H[1-6]", name)]


@pytest.mark.parametrize("sheet", SHEETS)
def test_headings_begin_at_the_top_and_skip_no_level(sheet: str) -> None:
    for reader in (sample(sheet), large(sheet)):
        found = levels(reader)
        assert found[0] == 1
        assert all(after <= before + 1 for before, after in zip(found, found[1:], strict=False))


@pytest.mark.parametrize("sheet", ["conductor", "teacher"])
def test_tables_have_header_cells_and_rows_of_cells(sheet: str) -> None:
    found = [name for name, _ in tags(sample(sheet))]
    assert found.count("/Table") >= 1
    assert found.count("/TH") >= 3 * found.count("/Table") - 3  # three columns and more, or one table of two
    assert found.count("/TD") > found.count("/TR")


@pytest.mark.parametrize("sheet", SHEETS)
def test_what_is_tagged_lies_on_every_page_and_pages_follow_each_other(sheet: str) -> None:
    reader = sample(sheet)
    numbers = {
        page.indirect_reference.idnum: number for number, page in enumerate(reader.pages) if page.indirect_reference
    }
    order = [numbers[node.raw_get("/Pg").idnum] for _, node in tags(reader) if "/Pg" in node]
    assert set(order) == set(range(len(reader.pages)))
    firsts = [order.index(number) for number in range(len(reader.pages))]
    assert firsts == sorted(firsts)


@pytest.mark.parametrize("sheet", ["conductor", "poster"])
@pytest.mark.parametrize(
    "title",
    [
        "رحلة قطرة ماء حول الميناء",
        "\u202egnirts a\u202c b\u0301e\u0308\u200d\u200b",
        "水の旅" * 100,
        "A\tB\nC\x00D",
    ],
    ids=["arabic", "turned", "long-han", "control"],
)
def test_any_title_is_set_on_as_many_pages_with_the_title_in_the_file(sheet: str, title: str) -> None:
    from tests.paper.test_files import titled

    reader = made(sheet, titled(title))
    assert len(reader.pages) - len(sample(sheet).pages) in (0, 1)
    assert reader.metadata is not None and reader.metadata.title
    kept = [letter for letter in title if letter.isalnum()]
    assert [letter for letter in reader.metadata.title if letter.isalnum()] == kept
    assert "\x00" not in reader.metadata.title and "\n" not in reader.metadata.title


@pytest.mark.parametrize("sheet", SHEETS)
def test_no_page_holds_a_lonely_line(sheet: str) -> None:
    for text in pages(large(sheet)):
        if "Allegro" in text:
            continue  # a drawn page of the score
        assert len(re.sub(r"\d+ of \d+$", "", text).split()) > 12, text


def test_copies_to_cut_apart_are_no_bookmarks_of_their_own() -> None:
    """A reader's program lists "Ticket" once, though it lies on its page four times."""

    def titles(entries: list[Any]) -> Iterator[str]:
        for entry in entries:
            if isinstance(entry, list):
                yield from titles(entry)
            else:
                yield str(entry.title)

    found = list(titles(sample("pupils").outline))
    assert found.count(say(fact("pupils-ticket"))) == 1
    assert len(found) == len(levels(sample("pupils")))
