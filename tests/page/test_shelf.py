"""The page that leads to many packs: read as a browser reads it, by another parser than the one that wrote it."""

from __future__ import annotations

from html.parser import HTMLParser

import pytest

from sonify import lesson
from sonify.kinds.packfiles import FOR_PEOPLE
from sonify.page.shelf import shelf_html, topics_of
from tests.batch.stub import CARD


class Read(HTMLParser):
    """Headings, links, pictures and whatever would want the network or a script."""

    def __init__(self, text: str) -> None:
        super().__init__()
        self.headings: list[tuple[str, str]] = []
        self.links: list[str] = []
        self.ids: list[str] = []
        self.pictures: list[str] = []
        self.outside: list[str] = []
        self._in = ""
        self.feed(text)

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        given = dict(attrs)
        self._in = tag
        self.ids += [given["id"] or ""] if "id" in given else []
        if tag == "a":
            self.links.append(given["href"] or "")
        if given.get("role") == "img":
            self.pictures.append(given.get("aria-label") or "")
        if tag in ("script", "link", "img", "iframe") or "src" in given or (given.get("href") or "").startswith("http"):
            self.outside.append(tag)

    def handle_data(self, data: str) -> None:
        if self._in in ("h1", "h2", "h3") and data.strip():
            self.headings.append((self._in, data.strip()))


def test_the_shelf_leads_to_every_pack_with_headings_pictures_and_no_network() -> None:
    hostile = {**CARD, "title": "<b>Ice & steam", "curve": 'a "b', "years": [5], "class": "4B <i>"}
    read = Read(shelf_html([("rain/3a", CARD), ("rain/4 b#", CARD), ("ice/4b", hostile)]))
    assert [tag for tag, _ in read.headings] == ["h1", "h2", "h2", "h3", "h3", "h2", "h3"]
    assert ("h2", "<b>Ice & steam") in read.headings
    assert read.pictures == ["heat. It rises.", 'a "b. It rises.']
    assert read.outside == []
    files = [link for link in read.links if not link.startswith("#")]
    assert len(files) == 3 * len(FOR_PEOPLE)
    assert "rain/4%20b%23/page.html" in files
    assert {link[1:] for link in read.links if link.startswith("#")} <= set(read.ids)
    assert len(read.ids) == len(set(read.ids))


@pytest.mark.parametrize("name", lesson.scene_names())
def test_every_ready_made_scene_has_a_topic_and_a_year_of_its_own(name: str) -> None:
    topics = topics_of(lesson.load(name))
    assert topics
    assert all(years.startswith("Year") and set(covered) <= set(range(1, 7)) for years, _, covered in topics)
