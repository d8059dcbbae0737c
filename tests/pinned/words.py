"""Every word that a lesson's outputs carry, as rows of plain text: one sentence, cell or cue a row.

What is left out: the loudness findings of `sonify check`, which need the recording; drawn letters inside the engraved
pages, which are those of the MusicXML; the temperature beside each picture of the particle box.
"""

from __future__ import annotations

import io
import json
import os
import re
from collections.abc import Callable, Iterable, Iterator
from contextlib import redirect_stdout
from html.parser import HTMLParser
from itertools import groupby
from pathlib import Path
from typing import Any
from unittest.mock import patch

import mido
from lxml import etree

import sonify
from sonify.cli.views import findings_view, lesson_view
from sonify.data.exports import score_json
from sonify.kinds.pupil_sheets import PICTURES
from sonify.lesson import particle_film
from sonify.lesson.sheet_files import card_pictures, graphic
from sonify.notation.graphic import graphic_alt
from sonify.notation.midi import midi_bytes
from sonify.notation.midi_files import midi_files
from sonify.notation.musicxml import musicxml_bytes
from sonify.page import served_page_html
from sonify.paper import conductor_pdf, poster_pdf, pupils_pdf, teacher_pdf
from sonify.records.lesson import Lesson
from sonify.say.pieces import script_words
from sonify.study.film import is_warm
from sonify.templates import template
from tests.paper.sheets import PALETTE, SVG, settings
from tests.pinned.tagged import plain, rows_of
from tests.studies import FEWER, studied

WORDS = Path(__file__).parent / "words"
#: Where the modules of the pages stand.
PAGE = Path(sonify.__file__).parent / "page"
#: Where each scene's words stand, and those that every page shares.
EVERY_PAGE = "every-page"
#: So wide that nothing wraps: a changed word changes its own line only.
TERMINAL_COLUMNS = "5000"

SENTENCE_END = re.compile(r"(?:(?<=[.?!])|(?<=[.?!][”’\")]))\s+(?=[“‘\"(]?[A-Z0-9])")
WORD = re.compile(r"[A-Za-z]{2}")
#: Texts that nobody reads: the page's tokens, and the particle box's packed pictures.
UNREAD = {"first", "moves", "knocks", "coldest", "hottest", "temperatures", "id", "key", "colour", "hatch", "unit"}
#: A list of texts no longer than this stands on one row, a figure that stays once.
FIGURE = 24
SHOWN_ATTRIBUTES = ("alt", "aria-label", "aria-description", "title", "placeholder", "label", "value")


def sentences(row: str) -> Iterator[str]:
    """A row's sentences, each after the first set in; what heads a page stays whole."""
    for number, sentence in enumerate([row] if row.startswith("===") else SENTENCE_END.split(row)):
        yield ("  " if number else "") + sentence


def told(rows: Iterable[str]) -> str:
    return "".join(f"{sentence}\n" for row in rows if row.strip() for sentence in sentences(row.strip()))


# --- sheets ----------------------------------------------------------------------------------------------------------


def conductor(lesson: Lesson) -> list[str]:
    """The sheet, with a blank for the engraved pages; then the graphic score's words."""
    drawn = graphic(lesson, settings())
    made = conductor_pdf(lesson, (SVG,), settings(), graphic=(SVG,) * len(drawn), told=graphic_alt(lesson.score))
    rows = [row for row in rows_of(made) if row != "[picture] Allegro"]
    for number, page in enumerate(drawn, start=1):
        rows.append(f"=== graphic score {number}")
        texts = etree.fromstring(page.encode()).iter("{http://www.w3.org/2000/svg}text")
        rows += [text for text in (plain("".join(node.itertext())) for node in texts) if WORD.search(text)]
    return rows


def pupils(lesson: Lesson) -> list[str]:
    return rows_of(pupils_pdf(lesson, settings(also=(PICTURES,)), card_pictures(lesson, settings())))


def teacher(lesson: Lesson) -> list[str]:
    return rows_of(teacher_pdf(lesson, settings(), card_pictures(lesson, settings())))


def poster(lesson: Lesson) -> list[str]:
    return rows_of(poster_pdf(lesson, settings()))


# --- page ------------------------------------------------------------------------------------------------------------


class Shown(HTMLParser):
    """The texts of a page: what stands between tags, what its attributes say, and the words in its data."""

    #: Tags within a row; any other begins a row of its own.
    INLINE = {"a", "abbr", "b", "bdi", "br", "code", "em", "i", "kbd", "span", "strong", "sub", "sup", "text", "tspan"}

    def __init__(self) -> None:
        super().__init__()
        self.rows: list[str] = []
        self.open = ""
        self.inside = ""

    def handle_starttag(self, tag: str, attrs: list[tuple[str, str | None]]) -> None:
        facts = dict(attrs)
        if tag not in self.INLINE:
            self.end_row()
        if tag in ("script", "style"):
            self.inside = str(facts.get("id") or tag)
        for name in SHOWN_ATTRIBUTES:
            value = facts.get(name) or ""
            if WORD.search(value) and not (name == "value" and tag != "input"):
                self.rows.append(f"[{name}] {plain(value)}")

    def handle_endtag(self, tag: str) -> None:
        if tag not in self.INLINE:
            self.end_row()
        if tag in ("script", "style"):
            self.inside = ""

    def handle_data(self, data: str) -> None:
        if not self.inside:
            self.open += data
        elif self.inside not in ("script", "style", "words-data") and data.strip():  # those words: `scripts`
            self.end_row()
            self.rows.append(f"=== data {self.inside}")
            self.rows += data_words(json.loads(data))

    def end_row(self) -> None:
        if plain(self.open):
            self.rows.append(plain(self.open))
        self.open = ""


def data_words(data: Any, name: str = "") -> Iterator[str]:
    """Every text with a word in it, after the name that it stands under."""
    if isinstance(data, str):
        if WORD.search(data):
            yield f"{name}: {plain(data)}" if name else plain(data)
    elif isinstance(data, dict):
        for key, value in data.items():
            if key not in UNREAD:
                yield from data_words(value, key)
    elif isinstance(data, list) and all(isinstance(value, str) and len(value) <= FIGURE for value in data):
        if WORD.search(" ".join(data)):
            yield f"{name}: {'; '.join(value for value, _ in groupby(data))}"
    elif isinstance(data, list):
        for value in data:
            yield from data_words(value, name)


def page(lesson: Lesson) -> list[str]:
    """The page as a running server gives it out: that of the pack, without the sounds."""
    film = particle_film(lesson) if is_warm(lesson) else ""
    shown = Shown()
    shown.feed(served_page_html(lesson, PALETTE, film, "/sounds"))
    shown.close()
    shown.end_row()
    return shown.rows


#: A comment, or a text between quotes, of a script.
LITERAL = re.compile(
    r"//[^\n]*|/\*.*?\*/|'((?:[^'\\\n]|\\.)*)'|\"((?:[^\"\\\n]|\\.)*)\"|`((?:[^`\\]|\\.)*)`", re.DOTALL
)


def scripts() -> list[str]:
    """What the pages' scripts carry and say, the same for every scene. Of texts: what has a capital or a space."""
    rows = []
    for name in sorted(path.name for path in PAGE.glob("*.js")):
        rows.append(f"=== {name}")
        texts = (plain(next(filter(None, found.groups()), "")) for found in LITERAL.finditer(template("page", name)))
        rows += [text for text in texts if re.search(r"[A-Z][a-z]|[a-z] [a-z]", text) and text != "use strict"]
    return [*rows, "=== words", *data_words(script_words())]


# --- terminal and music ----------------------------------------------------------------------------------------------


def terminal(view: Callable[[], None]) -> list[str]:
    """What a command prints, its columns divided by |."""
    out = io.StringIO()
    with patch.dict(os.environ, {"COLUMNS": TERMINAL_COLUMNS, "NO_COLOR": "1"}), redirect_stdout(out):
        view()
    return [re.sub(r"(?<=\S) {2,}", " | ", line.strip()) for line in out.getvalue().splitlines()]


def show(lesson: Lesson) -> list[str]:
    return terminal(lambda: lesson_view(lesson, lesson.scene.name))


def check(lesson: Lesson) -> list[str]:
    return terminal(lambda: findings_view(lesson.findings))


def midi(lesson: Lesson) -> list[str]:
    """The text events of soundscape.mid, track by track; of the groups' files those that are not in it."""
    rows = ["=== soundscape.mid", *midi_texts(midi_bytes(lesson.score))]
    known = set(rows)
    for name, data in midi_files(lesson.score).items():
        rows += [f"=== {name}", *(row for row in midi_texts(data) if row not in known)]
    return rows


def midi_texts(data: bytes) -> Iterator[str]:
    for track in mido.MidiFile(file=io.BytesIO(data), charset="utf-8").tracks:
        for message in track:
            text = getattr(message, "text", None) or getattr(message, "name", None)
            if message.is_meta and text:
                yield f"{message.type}: {text}"


#: Elements of MusicXML whose text is read by a person.
READ = {"work-title", "movement-title", "creator", "rights", "credit-words", "part-name", "part-abbreviation"}
READ |= {"group-name", "instrument-name", "display-text", "words", "rehearsal", "text", "other-direction"}


def musicxml(lesson: Lesson) -> list[str]:
    rows, bar, before = [], "", ""
    for node in etree.fromstring(musicxml_bytes(lesson.score), etree.XMLParser(load_dtd=False, no_network=True)).iter(
        etree.Element
    ):
        if node.tag == "measure":
            bar = f"bar {node.get('number')}"
        elif node.tag == "part":
            rows.append(f"=== part {node.get('id')}")
        elif node.tag in READ and node.text and WORD.search(node.text):
            row = f"{bar} {node.tag}: {plain(node.text)}".strip()
            rows += [row] if row != before else []
            before = row
    return rows


def score(lesson: Lesson) -> list[str]:
    """score.json: cues one a row, then every other text."""
    data = json.loads(score_json(lesson.score))
    rows = ["=== cues"]
    for cue in data.pop("cues"):
        place = f"bar {cue['bar']} beat {cue['beat']}: {cue['part'] or 'everybody'} {cue['action']} {cue['detail']}"
        rows += [f"{place.strip()} | {cue['gesture']} | {cue['why']}"]
        rows += [f"  and {own['part']} {own['detail']}".rstrip() for own in cue["also"]]
    for part in data["parts"]:
        del part["notes"]
    return [*rows, "=== the rest", *data_words(data)]


OUTPUTS: dict[str, Callable[[Lesson], list[str]]] = {
    "teacher.pdf": teacher,
    "pupils.pdf": pupils,
    "conductor.pdf": conductor,
    "poster.pdf": poster,
    "page.html": page,
    "show": show,
    "check": check,
    "soundscape.mid": midi,
    "score.musicxml": musicxml,
    "score.json": score,
}


def words_of(scene: str) -> dict[str, str]:
    """A scene's outputs by name, each as the text that is pinned."""
    if scene == EVERY_PAGE:
        return {"scripts": "".join(f"{row}\n" for row in scripts())}
    lesson = studied(scene)
    return {name: told(output(lesson)) for name, output in OUTPUTS.items()}


ALL = (*FEWER, EVERY_PAGE)
