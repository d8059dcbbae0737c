"""A melody's printed bars, held against the notes it plays."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F
from typing import Any

from sonify.paper.strips import note_letters, span_text, strips
from sonify.records.lesson import Lesson
from sonify.records.score import Entry, Note, Part
from tests.paper.sheets import made, pages
from tests.paper.test_pupils import first_part, with_part
from tests.sample import sample_lesson

LOW_C = 84  # the lowest C of a soprano glockenspiel, as it sounds


def tune(*bars: tuple[int, ...]) -> tuple[Note, ...]:
    """Crotchets from bar 1 on, so many semitones over the low C."""
    return tuple(
        Note(beat=F(4 * bar + place), beats=F(1), midi=LOW_C + step, velocity=70)
        for bar, steps in enumerate(bars)
        for place, step in enumerate(steps)
    )


def cloud(notes: tuple[Note, ...], *entries: Entry, **changes: Any) -> tuple[Part, Lesson]:
    lesson = with_part(
        sample_lesson(), "The cloud", notes=notes, entries=entries, texture="melody", patterns=(), **changes
    )
    return next(p for p in lesson.score.parts if p.name == "The cloud"), lesson


def read(piece: dict[str, Any]) -> list[tuple[str, list[str]]]:
    return [(bar["bar"], [note["letter"] for note in bar["notes"]]) for bar in piece["bars"]]


def test_every_bar_shows_its_own_notes_and_number() -> None:
    part, lesson = cloud(tune((0, 2), (4,), (12, 7)), Entry(bar=1, bars=3))
    (piece,) = strips(part, lesson.score)
    assert piece["head"] == "Bars 1 to 3"
    assert read(piece) == [("1", ["C", "D"]), ("2", ["E"]), ("3", ["C′", "G"])]


def test_bars_that_come_again_at_once_are_drawn_once() -> None:
    part, lesson = cloud(tune((0,), (0,), (0,), (4,)), Entry(bar=1, bars=4))
    found = strips(part, lesson.score)
    assert [piece["head"] for piece in found] == ["Each of bars 1 to 3", "Bar 4"]
    assert [read(piece) for piece in found] == [[("1 to 3", ["C"])], [("4", ["E"])]]


def test_a_phrase_that_comes_again_names_the_bars_of_both() -> None:
    part, lesson = cloud(tune((0,), (4,), (0,), (4,), (7,)), Entry(bar=1, bars=5))
    assert [piece["head"] for piece in strips(part, lesson.score)] == [
        "Bars 1 to 2, the same again in bars 3 to 4",
        "Bar 5",
    ]


def test_each_entry_has_a_strip_of_its_own() -> None:
    part, lesson = cloud(tune((0,), (), (), (0,)), Entry(bar=1, bars=1), Entry(bar=4, bars=1))
    assert [piece["head"] for piece in strips(part, lesson.score)] == ["Bar 1", "Bar 4"]


def test_a_long_note_keeps_its_length_and_place() -> None:
    note = Note(beat=F(1), beats=F(3), midi=LOW_C, velocity=70)
    part, lesson = cloud((note,), Entry(bar=1, bars=1))
    ((told,),) = (bar["notes"] for piece in strips(part, lesson.score) for bar in piece["bars"])
    assert (told["at"], told["share"], told["long"]) == (0.25, 0.75, True)


def test_a_rules_own_notes_give_the_range() -> None:
    asked = tuple(replace(note, asked=60.0) for note in tune((0,), (7,)))
    part, lesson = cloud((*asked, *tune((), (), (24,))), Entry(bar=1, bars=3))
    assert span_text(note_letters(part, lesson.score)) == "C to G"
    assert note_letters(part, lesson.score, first=2, bars=1) == ["G"]


def test_the_card_tells_the_notes_and_an_easy_way() -> None:
    _, lesson = cloud(tune((0, 2), (4,)), Entry(bar=1, bars=2), instructions=("Breathe.",))
    told = first_part(lesson, 3)
    assert told["instructions"] == ["Breathe."]
    assert told["entries"][0]["play"] == "Your notes, bars 1 to 2, for 2 bars"
    text = " ".join(pages(made("pupils", lesson)))
    assert "Easy: play only the bold notes and let it ring." in text


def test_a_phrase_begins_where_phrases_do() -> None:
    part, lesson = cloud(tune((7,), (0,), (4,), (0,), (4,)), Entry(bar=1, bars=5))
    assert [piece["head"] for piece in strips(part, lesson.score)] == ["Bars 1 to 5"]


def test_a_long_tune_is_cut_into_strips_that_a_page_can_hold() -> None:
    part, lesson = cloud(tune(*[(bar % 7,) for bar in range(70)]), Entry(bar=1, bars=70))
    assert [piece["head"] for piece in strips(part, lesson.score)] == ["Bars 1 to 32", "Bars 33 to 64", "Bars 65 to 70"]
