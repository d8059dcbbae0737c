"""What pupils invent is silent and an empty box of the right length, in every notation alike."""

from __future__ import annotations

from dataclasses import replace

import pytest
from lxml import etree

from sonify.notation.engrave import engraved_pages
from sonify.notation.graphic import Canvas, graphic_score
from sonify.notation.midi import midi_bytes
from sonify.notation.musicxml import musicxml_bytes
from sonify.records.fact import fact
from sonify.records.palette import read_palette
from sonify.records.score import Blank, Score
from tests.catalogue import ROOT
from tests.notation import drawn
from tests.notation.reading import timed
from tests.notation.test_midi import read
from tests.sample import cue, sample_score

SVG = "{http://www.w3.org/2000/svg}"
PALETTE = read_palette((ROOT / "shared" / "palette.toml").read_text(encoding="utf-8"))
EMPTY = {"The cloud": range(9, 11), "The storm": range(9, 11), "The rain": range(8, 11)}


def emptied() -> Score:
    """The sample with three stretches left to the pupils, one on a staff of five lines and two on one line."""
    score = sample_score()
    parts = []
    for part in score.parts:
        bars = EMPTY.get(part.name, range(0))
        blanks = tuple([Blank(bar=bars[0], bars=len(bars), ask="Invent this.")] if bars else [])
        notes = tuple(note for note in part.notes if note.beat // 4 + 1 not in bars)
        parts.append(replace(part, notes=notes, blanks=blanks))
    asked = cue(9, "The cloud", "change", gesture="own-idea", what=fact("cue-own-idea"))
    return replace(score, parts=tuple(parts), cues=(*score.cues, asked))


def of_class(root: etree._Element, name: str) -> list[etree._Element]:
    return [group for group in root.iter(f"{SVG}g") if name in group.get("class", "").split()]


def engraved_boxes(pages: tuple[str, ...]) -> dict[int, list[tuple[int, float, float]]]:
    """By staff lines (1 or 5): bars a box says it has, its own width, and the width of the bars below it."""
    found: dict[int, list[tuple[int, float, float]]] = {1: [], 5: []}
    for page in pages:
        root = etree.fromstring(page.encode())
        for system in of_class(root, "system"):
            staves = [staff for bar in of_class(system, "measure") for staff in of_class(bar, "staff")]
            for box in system.findall(f"{SVG}rect[@class='blank']"):
                left, top, width, height = (float(box.get(side)) for side in ("x", "y", "width", "height"))
                below = []
                for staff in staves:
                    lines = [
                        p.get("d", "").replace("M", "").replace("L", "").split() for p in staff.findall(f"{SVG}path")
                    ]
                    x, y, end, _ = map(float, lines[0])
                    if top - 1 <= y <= top + height + 1 and left < (x + end) / 2 < left + width:
                        below.append((end - x, len(lines)))
                assert len({lines for _, lines in below}) == 1, "a box lies on one staff"
                found[below[0][1]].append((int(box.get("data-bars", "0")), width, sum(long for long, _ in below)))
                assert len(below) == int(box.get("data-bars", "0"))
    return found


def test_the_engraved_box_is_as_long_as_its_bars_on_every_line() -> None:
    found = engraved_boxes(engraved_pages(musicxml_bytes(emptied())))
    assert sum(bars for bars, _, _ in found[5]) == 2
    assert sum(bars for bars, _, _ in found[1]) == 5
    for bars, width, below in [*found[1], *found[5]]:
        assert width == pytest.approx(below, rel=0.25), (bars, width, below)  # the first bar of a line has a clef


def test_no_box_is_drawn_where_nothing_is_left_empty() -> None:
    assert engraved_boxes(engraved_pages(musicxml_bytes(sample_score()))) == {1: [], 5: []}


def test_words_in_a_frame_stand_only_where_no_cue_says_it() -> None:
    """The cloud is told by its cue that it plays its own idea; rain and storm have no cue of their own for it."""
    pages = engraved_pages(musicxml_bytes(emptied()))
    told = " ".join(" ".join(etree.fromstring(page.encode()).itertext()) for page in pages)
    assert "their own idea" in told
    assert told.count("your idea") == 1  # the rain's: the storm's bar 9 has its cue "Come in"


def test_midi_is_silent_there_and_says_why() -> None:
    file = read(midi_bytes(emptied()))
    for track in file.tracks[1:]:
        bars = EMPTY.get(track.name, range(0))
        sounding = {int((beat - 8) // 4) + 1 for beat, m in timed(track, file.ticks_per_beat) if m.type == "note_on"}
        assert not sounding & set(bars), track.name
        told = [(beat, m.text) for beat, m in timed(track, file.ticks_per_beat)
                if m.type == "text" and "idea" in m.text]  # fmt: skip
        if bars:
            assert told == [(8 + 4 * (bars[0] - 1), f"Your own idea: {len(bars)} bars from bar {bars[0]}")]
        else:
            assert told == []


def test_musicxml_has_bars_of_unseen_rest_there_and_nowhere_else() -> None:
    root = etree.fromstring(musicxml_bytes(emptied()))
    names = [element.text for element in root.iter("part-name")]
    for name, part in zip(names, root.findall("part"), strict=True):
        unseen = [m.get("number") for m in part.findall("measure") if m.find("note[@print-object='no']") is not None]
        assert unseen == [str(bar) for bar in EMPTY.get(name or "", range(0))]


def test_the_graphic_score_has_the_same_boxes() -> None:
    canvas = Canvas(width_mm=186.0, height_mm=255.0, palette=PALETTE)
    found = {
        box.part: range(box.bar, box.bar + box.bars)
        for page in graphic_score(emptied(), canvas)
        for box in drawn.blanks(page)
    }
    assert found == EMPTY
