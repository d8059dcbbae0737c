"""The bars that cards write out, engraved on a staff and drawn as a lane, as small SVG texts."""

from __future__ import annotations

from dataclasses import replace

from lxml import etree

from sonify.facts.excerpts import TUNE_BARS, Excerpt, PartPictures, excerpt_score, excerpts
from sonify.notation.drawing import box, document, rule
from sonify.notation.engrave import engraved_snippets
from sonify.notation.graphic import Canvas, graphic_lane, lane_alt
from sonify.notation.lanes import Frame, lane
from sonify.notation.musicxml import musicxml_bytes
from sonify.records.palette import group_style
from sonify.records.score import Part, Score

EDGE_MM, TICK_MM = 0.3, 1.4
#: Marks of a pattern are drawn at least as large as this: it is learned before it is played softly.
PLAIN_VELOCITY = 112


def part_pictures(score: Score, whole: Canvas, small: Canvas, *, staff_mm: float = 6.0) -> dict[str, PartPictures]:
    """What each group part's card shows as pictures, by the part's name.

    whole: the canvas of a whole part's lane. small: that of an excerpt's lane, which is all music.
    """
    cut = {part.name: excerpts(part, score) for part in score.group_parts}
    texts = [_plain_xml(e, score) for found in cut.values() for e in found]
    staves = iter(engraved_snippets(texts, staff_mm=staff_mm, text_pt=whole.text_pt))
    return {
        part.name: PartPictures(
            lane=graphic_lane(score, part.name, whole),
            staves=tuple(next(staves) for _ in cut[part.name]),
            lanes=tuple(_small_lane(e, part, score, small) for e in cut[part.name]),
        )
        for part in score.group_parts
    }


def _small_lane(excerpt: Excerpt, part: Part, score: Score, canvas: Canvas) -> str:
    """An excerpt's marks, with its bar lines and a tick for each beat."""
    plain = tuple(replace(note, velocity=max(note.velocity, PLAIN_VELOCITY)) for note in excerpt.notes)
    alone = excerpt_score(replace(excerpt, notes=plain), score)
    drawn = replace(alone.group_parts[0], texture="scatter")  # a dot a tap, as in the boxes above it
    beats = score.metre.beats
    width_mm = canvas.width_mm * excerpt.bars / TUNE_BARS  # a bar alone stands in half the room
    frame = Frame(
        x=EDGE_MM,
        y=EDGE_MM,
        height=canvas.height_mm - 2 * EDGE_MM,
        first=1,
        last=excerpt.bars,
        bar_mm=(width_mm - 2 * EDGE_MM) / excerpt.bars,
        beats=beats,
    )
    foot = frame.y + frame.height
    body = [*lane(alone, drawn, frame, group_style(canvas.palette, part.group), "c0")]
    for beat in range(1, excerpt.bars * beats):
        x = frame.at(beat)
        body.append(rule(x, frame.y if beat % beats == 0 else foot - TICK_MM, x, foot, pen=0.3))
    body.append(box(frame.x, frame.y, frame.end - frame.x, frame.height, pen=0.4))
    return document(width_mm, canvas.height_mm, lane_alt(alone, part.name), body)


def _plain_xml(excerpt: Excerpt, score: Score) -> bytes:
    """The excerpt for the engraver, without tempo, words and names: they stand beside it on the card."""
    root = etree.fromstring(musicxml_bytes(excerpt_score(excerpt, score), note_names=True, count_in=False))
    for element in list(root.iter("direction", "part-name-display", "part-abbreviation-display")):
        element.getparent().remove(element)
    for name in root.iter("part-name", "part-abbreviation"):
        name.text = ""
    written: bytes = etree.tostring(root, xml_declaration=True, encoding="UTF-8")
    return written
