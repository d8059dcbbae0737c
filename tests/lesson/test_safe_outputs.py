"""A scene and a table with what other programs would obey, through to every output that carries their words.

Independent readers: mido (in Latin-1 and in UTF-8), lxml, pypdf, and Python's own csv.
"""

from __future__ import annotations

import csv
import io
from dataclasses import replace
from functools import lru_cache
from pathlib import Path

import mido
import pytest
from lxml import etree
from pypdf import PdfReader

from sonify import lesson
from sonify.data.exports import science_csv
from sonify.lesson.sheet_files import sheets
from sonify.notation.midi import midi_bytes
from sonify.notation.musicxml import musicxml_bytes
from sonify.page import page_html
from sonify.records.lesson import Lesson
from sonify.records.safe_text import turns
from tests.studies import SCENES, studied

TITLE = "Salt\u202e gpj.\u2066 and\u200f water"
ROWS = "".join(f"{60 * n},{20 + 0.5 * n},{50 - n},{(7 * n) % 11}\n" for n in range(30))
TABLE = f'time (s),"=HYPERLINK(""x"") (degC)",@noise (dB),-light (lux)\n{ROWS}'


@lru_cache(maxsize=1)
def turned() -> Lesson:
    """The two cups under a title that runs backwards."""
    scene = lesson.load("two-cups")
    return lesson.study(replace(scene, title=TITLE))


def texts_of(data: bytes, charset: str) -> list[str]:
    file = mido.MidiFile(file=io.BytesIO(data), charset=charset)
    return [getattr(m, "text", getattr(m, "name", "")) for track in file.tracks for m in track if m.is_meta]


def test_no_mark_turns_a_title_in_midi_musicxml_pdf_or_page() -> None:
    made = turned()
    music = musicxml_bytes(made.score)
    titles = {
        "MIDI": texts_of(midi_bytes(made.score), "utf-8")[0],
        "MusicXML": "".join(etree.fromstring(music).itertext()),
    }
    for name, data in sheets(made, lambda: music, lesson.sheet_settings()):
        titles[name] = str(PdfReader(io.BytesIO(data)).metadata.title)  # type: ignore[union-attr]
    sounds = lesson.sounds_of(made.score)
    titles["page"] = page_html(made, sounds, lesson.palette())
    for where, text in titles.items():
        assert "Salt gpj. and water" in text, where
        assert not any(turns(letter) for letter in text), where


@pytest.mark.parametrize("scene", SCENES)
def test_the_midi_texts_of_every_scene_read_alike_in_latin_1_and_utf_8(scene: str) -> None:
    data = midi_bytes(studied(scene).score)
    assert texts_of(data, "utf-8") == texts_of(data, "latin-1")


def test_headings_of_a_person_s_table_are_no_formulae_in_science_csv(tmp_path: Path) -> None:
    (tmp_path / "pond.csv").write_text(TABLE, encoding="utf-8")
    path, _, _ = lesson.measure(tmp_path / "pond.csv")
    text = science_csv(lesson.study(path).timeline)
    headings = next(csv.reader(io.StringIO(text)))
    assert headings[0] == "time [s]"
    assert sum(heading.startswith("'") for heading in headings) == 3
    assert not any(heading.startswith(("=", "+", "-", "@")) for heading in headings)
    assert [float(row[0]) for row in list(csv.reader(io.StringIO(text)))[1:3]] == [0.0, 60.0]
