"""The bars a card writes out: staff, lane and boxes hold the same notes, those of the Score."""

from __future__ import annotations

import re
from fractions import Fraction

import pytest
from lxml import etree

from sonify.facts.excerpts import excerpts
from sonify.notation.graphic import Canvas
from sonify.notation.snippets import part_pictures
from sonify.paper.cards import cards
from sonify.records.fact import fact
from sonify.records.score import Part, Score
from tests.paper.sheets import PALETTE, settings
from tests.sample import sample_score
from tests.studies import studied

WHOLE = Canvas(width_mm=180, height_mm=30, palette=PALETTE, text_pt=12)
SMALL = Canvas(width_mm=90, height_mm=15, palette=PALETTE, text_pt=12)
LESSONS = ("harbour-water-cycle", "stretch-test", "two-cups")


def onsets(part: Part, score: Score) -> list[list[tuple[Fraction, int]]]:
    return [sorted({(n.beat, n.midi) for n in excerpt.notes}) for excerpt in excerpts(part, score)]


@pytest.mark.parametrize("scene", LESSONS)
def test_staff_lane_and_boxes_hold_the_notes_of_the_excerpt(scene: str) -> None:
    lesson = studied(scene)
    score = lesson.score
    pictures = part_pictures(score, WHOLE, SMALL)
    told = {part["name"]: part for card in cards(lesson, settings(), pictures) for part in card["parts"]}
    for part in score.group_parts:
        wanted = onsets(part, score)
        drawn = pictures[part.name]
        assert len(wanted) == len(drawn.staves) == len(drawn.lanes) == len(told[part.name]["patterns"])
        for notes, staff, lane, pattern in zip(
            wanted, drawn.staves, drawn.lanes, told[part.name]["patterns"], strict=True
        ):
            marks = re.findall(r'data-beat="([^"]*)" data-key="(\d+)"', lane)
            assert sorted({(Fraction(beat), int(key)) for beat, key in marks}) == notes
            # a note tied over a bar line or a beat is drawn as more than one
            assert len(re.findall(r'class="note(?: [^"]*)?"', staff)) >= len(notes)
            cells = [cell for row in pattern["boxes"]["rows"] for cell in row]
            each = Fraction(len(cells), round(len(cells) / boxes_a_beat(cells)))
            struck = {Fraction(i) / each for i, cell in enumerate(cells) if cell["sounds"]}
            assert struck == {beat for beat, _ in notes}


def boxes_a_beat(cells: list[dict[str, object]]) -> int:
    """From the boxes themselves: beats are shaded."""
    return round(len(cells) / sum(1 for cell in cells if cell["beat"]))


@pytest.mark.parametrize("scene", LESSONS)
def test_excerpts_are_bars_of_the_piece(scene: str) -> None:
    score = studied(scene).score
    for part in score.group_parts:
        for excerpt in excerpts(part, score):
            if part.texture == "ostinato":
                pattern = next(p for p in part.patterns if fact("cue-pattern", number=p.number) == excerpt.name)
                assert excerpt.hits == sorted(pattern.hits)
                continue
            start = (excerpt.bar - 1) * score.metre.beats
            played = {
                (n.beat - start, n.midi) for n in part.notes if (n.instrument or part.instrument) == part.instrument
            }
            assert {(n.beat, n.midi) for n in excerpt.notes} <= played
            assert excerpt.notes


def test_a_silent_part_has_no_excerpt_and_still_its_lane() -> None:
    score = studied("harbour-water-cycle", scaffold="open").score
    silent = [part for part in score.group_parts if not part.notes and not part.patterns]
    pictures = part_pictures(score, WHOLE, SMALL)
    assert silent
    for part in silent:
        assert pictures[part.name].staves == ()
        assert etree.fromstring(pictures[part.name].lane.encode()).tag.endswith("svg")


def test_staff_snippets_carry_neither_names_nor_tempo_and_letters_under_pitched_notes() -> None:
    pictures = part_pictures(sample_score(), WHOLE, SMALL)
    assert said(pictures["Rising vapour"].staves[0]) == "CEGE"  # the sample's pattern: C4 E4 G4 E4
    assert said(pictures["The rain"].staves[0]) == ""


def said(staff: str) -> str:
    """The letters that a staff shows."""
    root = etree.fromstring(staff.encode())
    texts = root.iter("{http://www.w3.org/2000/svg}text")
    return "".join("".join(text.itertext()) for text in texts).replace(" ", "").replace("\n", "")


def test_a_card_writes_out_a_tune_from_its_first_bar() -> None:
    score = studied("two-cups").score
    tunes = [part for part in score.group_parts if part.texture in ("melody", "drone") and part.notes]
    assert len(tunes) >= 2
    for part in tunes:
        first = min(note.beat for note in part.notes)
        (shown,) = excerpts(part, score)
        assert shown.bar == int(first // score.metre.beats) + 1
