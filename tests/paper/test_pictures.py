"""Pictures: every symbol is drawn and has its words, every stage has one, and a card by pictures alone has no words."""

from __future__ import annotations

import io
import re
from dataclasses import replace

import pytest
from pypdf import PdfReader

from sonify.errors import SonifyError
from sonify.inputs.scene_file import read_scene
from sonify.kinds.ideas import IDEAS
from sonify.kinds.pictured import IDEA_SIGNS, INSTRUMENTS, STAGES
from sonify.kinds.pictures import COLUMNS, HELD, STAGE_PICTURES, SYMBOLS, THINGS
from sonify.kinds.pupil_sheets import PICTURES
from sonify.paper import pupils_pdf
from sonify.paper.pictures import stage_picture, symbol_words
from sonify.processes import PROCESSES
from sonify.records.lesson import Lesson
from sonify.templates import template
from tests.catalogue import catalogue
from tests.paper.sheets import settings
from tests.paper.test_tags import tags
from tests.studies import A_FEW_OR_ALL, EXAMPLES, studied

#: Their stages are the author's, or the readings': pictures stand in the scene, or follow from what rises and falls.
WITHOUT_STAGES = {"drawn", "in-order", "measured", "experiment", "results-table"}

#: Three waves alike: what comes again looks as before.
COMES_AGAIN = {"spots-on-the-sun"}


def test_every_symbol_is_drawn_and_has_words_of_its_own() -> None:
    drawn = re.findall(r'^  "([^"]+)": ', template("paper", "symbols.typ"), re.M)
    assert sorted(drawn) == sorted({*STAGE_PICTURES, *HELD})
    assert len(set(SYMBOLS)) == len(SYMBOLS) == len(drawn) + len(COLUMNS)
    words = [symbol_words(name) for name in drawn]
    assert len(set(words)) == len(words)
    assert len(THINGS) > 60


def test_every_stage_of_a_process_and_every_instrument_has_its_picture() -> None:
    for name, process in PROCESSES.items():
        if name not in WITHOUT_STAGES:
            assert list(STAGES[name]) == [stage.name for stage in process.stages], name
    assert {row.id for row in catalogue().instruments} == set(INSTRUMENTS)
    assert set(INSTRUMENTS.values()) == set(HELD)
    assert set(IDEA_SIGNS) == set(IDEAS)
    shown = {name for stages in STAGES.values() for names in stages.values() for name in names}
    assert shown <= set(STAGE_PICTURES)


@A_FEW_OR_ALL
def test_every_stage_of_a_shipped_scene_looks_different_from_the_others(scenes: tuple[str, ...]) -> None:
    for scene in scenes:
        lesson = studied(scene)
        found = [stage_picture(section, lesson) for section in lesson.score.sections]
        assert all(set(picture.names) <= set(SYMBOLS) and picture.alt for picture in found)
        assert any(set(picture.names) & set(THINGS) for picture in found)
        if scene not in COMES_AGAIN:
            assert len({picture.names for picture in found}) == len(found), scene


def without_pictures(lesson: Lesson) -> Lesson:
    """The same of a person who named no symbol."""
    stages = tuple(replace(note, picture=()) for note in lesson.scene.stages)
    return replace(lesson, scene=replace(lesson.scene, stages=stages))


def test_a_persons_own_stages_show_what_rises_and_falls_or_how_they_sound() -> None:
    sea = without_pictures(studied("the-sea-that-stayed-warm"))
    ways = [stage_picture(section, sea).names for section in sea.score.sections]
    titles = [section.name for section in sea.score.sections]
    temperature = sea.timeline.quantity("sea temperature")
    for name, way in zip(titles, ways, strict=True):
        stage = next(stage for stage in sea.timeline.stages if stage.name == name)
        first, last = sea.timeline.at(temperature.name, [stage.start_s, stage.end_s])  # type: ignore[arg-type]
        assert way in (("up",) if last > first else ("down",), ("up and down",), ("column 8",)), name
    assert {("up",), ("down",)} <= set(ways)
    frog = without_pictures(studied("a-frogs-life"))
    assert stage_picture(frog.score.sections[0], frog).names == ("slower", "softer", "fewer")


def test_a_picture_that_nobody_drew_is_named_with_what_is_near() -> None:
    text = template_scene('picture = ["taller plant"]')
    with pytest.raises(SonifyError, match=r"taller plant.*tall plant"):
        read_scene(text, file="own.toml", name="own")


def template_scene(line: str) -> str:
    text = (EXAMPLES.parent / "scenes" / "a-frogs-life.toml").read_text(encoding="utf-8")
    return text.replace('picture = ["spawn"]', line)


@pytest.mark.long
def test_a_card_by_pictures_alone_has_no_words_but_for_a_reader_s_program() -> None:
    lesson = studied("two-cups")
    reader = PdfReader(io.BytesIO(pupils_pdf(lesson, settings(also=(PICTURES,)))))
    cards = [part for part in lesson.score.group_parts if not part.pulse]
    pages = reader.pages[-len(cards) :]
    assert len(PdfReader(io.BytesIO(pupils_pdf(lesson, settings()))).pages) == len(reader.pages) - len(cards)
    for page in pages:
        text = page.extract_text().replace(lesson.score.title, "")
        text = re.sub(r"\d+ of \d+", "", text)
        assert not re.findall(r"[A-Za-z]{2,}", text), text
    told = [str(node["/Alt"]) for name, node in tags(reader) if name == "/Figure" and "/Alt" in node]
    assert sum(words.startswith("A picture: ") for words in told) > len(cards) * len(lesson.score.sections)
