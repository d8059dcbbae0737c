"""The conductor's engraved pages: free parts are boxes, and lines on which nothing new happens are told once."""

from __future__ import annotations

import re

import pytest

from sonify.notation.engrave import engraved_pages
from sonify.notation.free import FREE, free_as_boxes
from sonify.notation.musicxml import musicxml_bytes
from sonify.say import say
from tests.notation.test_blanks import engraved_boxes
from tests.studies import studied


def test_a_free_part_is_a_box_wherever_it_plays_and_says_how_much() -> None:
    score = studied("harbour-water-cycle").score
    boxed = free_as_boxes(score)
    (free,) = [part for part in score.group_parts if part.texture == FREE]
    for before, after in zip(score.parts, boxed.parts, strict=True):
        assert after.notes == (() if before is free else before.notes)
    (drawn,) = [part for part in boxed.parts if part.name == free.name]
    bars = [bar for blank in drawn.blanks for bar in range(blank.bar, blank.bar + blank.bars)]
    assert len(bars) == len(set(bars))
    assert {int(note.beat // score.metre.beats) + 1 for note in free.notes} <= set(bars)
    for blank in drawn.blanks:
        struck = sum(blank.bar <= note.beat // score.metre.beats + 1 < blank.bar + blank.bars for note in free.notes)
        (told,) = re.findall(r"\d+", say(blank.told))
        assert abs(int(told) - struck / blank.bars) <= 0.5


@pytest.mark.long
def test_an_open_piece_prints_no_line_on_which_nothing_new_happens() -> None:
    """Every bar is drawn or told by "as here to bar N"; the boxes that are drawn are those of the bars drawn."""
    score = studied("harbour-water-cycle", scaffold="open").score
    pages = engraved_pages(musicxml_bytes(score))
    words = " ".join(re.sub(r"<[^>]+>", "", re.sub(r"</t(ext|span)>", " ", page)) for page in pages)
    ends = [int(bar) for bar in re.findall(r"as\s+here\s+to\s+bar\s+(\d+)", words)]
    drawn = sum(len(re.findall(r'class="measure', page)) for page in pages)
    assert ends and drawn < score.bars + score.count_in_bars
    assert ends == sorted(ends) and ends[-1] <= score.bars
    boxes = engraved_boxes(pages)
    assert boxes[1] and boxes[5]
