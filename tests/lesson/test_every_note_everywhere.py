"""Each note from each output, compared with score.json: MIDI, MusicXML, engraved and graphic score, cards.

Scenes of several kinds, classes rich and poor, and pieces with bars left to the pupils. What the recording and the
page sound is compared in `test_outputs_agree`.
"""

from __future__ import annotations

import json
import re
from dataclasses import dataclass
from fractions import Fraction as F
from pathlib import Path
from typing import Any

import pytest

from sonify import lesson
from sonify.data.exports import score_json
from sonify.notation.engrave import engraved_pages
from sonify.notation.graphic import Canvas, graphic_lane, graphic_score
from sonify.notation.midi import midi_bytes
from sonify.notation.midi_files import midi_files
from sonify.notation.musicxml import musicxml_bytes
from sonify.paper.cards import cards
from sonify.paper.rhythm import letter
from sonify.records.curve import science_curve
from sonify.records.lesson import Lesson
from sonify.records.score import COUNT_IN
from tests.lesson import witnesses
from tests.notation import drawn

ROOT = Path(__file__).resolve().parent.parent.parent
CASES = (
    ("harbour-water-cycle", "well-stocked", "full"),
    ("harbour-water-cycle", "few-instruments", "part"),
    ("stretch-test", "well-stocked", "full"),
    ("rain-garden-storm", "well-stocked", "part"),
)


@dataclass(frozen=True)
class Piece:
    lesson: Lesson
    told: dict[str, Any]  # score.json
    musicxml: bytes

    @property
    def beats(self) -> int:
        return int(self.told["metre"][0])

    @property
    def count_in_beats(self) -> int:
        return int(self.told["count_in_bars"]) * self.beats

    @property
    def canvas(self) -> Canvas:
        return Canvas(width_mm=186.0, height_mm=255.0, palette=lesson.palette(), text_pt=11.0)


@pytest.fixture(scope="module", params=CASES, ids=lambda case: " ".join(case))
def piece(request: pytest.FixtureRequest) -> Piece:
    scene, classroom, scaffold = request.param
    studied = lesson.study(scene, ROOT / "examples" / f"{classroom}.toml", scaffold=scaffold)
    told = json.loads(score_json(studied.score))
    assert any(part["blanks"] for part in told["parts"]) is (scaffold == "part")
    return Piece(lesson=studied, told=told, musicxml=musicxml_bytes(studied.score))


def sounding(found: dict[str, witnesses.Notes]) -> dict[str, witnesses.Notes]:
    """Without parts that are silent throughout."""
    return {name: notes for name, notes in found.items() if notes}


def test_midi_of_the_whole_and_of_each_group(piece: Piece) -> None:
    wanted = sounding(witnesses.of_score(piece.told))
    assert witnesses.of_midi(midi_bytes(piece.lesson.score), piece.count_in_beats) == wanted
    together: dict[str, witnesses.Notes] = {}
    for data in midi_files(piece.lesson.score).values():
        together |= witnesses.of_midi(data, piece.count_in_beats)
    assert together == wanted


def test_musicxml(piece: Piece) -> None:
    names = {row["id"]: row["name"].lower() for row in piece.told["instruments"]}
    staves = {staff.name: staff.struck for staff in witnesses.of_musicxml(piece.musicxml)}
    found: dict[str, witnesses.Notes] = {}
    for part in piece.told["parts"]:
        own = {part["instrument"], *(note["instrument"] for note in part["notes"])}
        mine = [staves.pop(n) for n in (part["name"], *(f"{part['name']}, {names[i]}" for i in own)) if n in staves]
        found[part["name"]] = set().union(*mine)
    assert found == witnesses.of_score(piece.told)
    assert not staves, "no staff belongs to nobody"


def test_the_engraved_pages_as_a_person_reads_them(piece: Piece) -> None:
    """Each bar of each staff has the noteheads that MusicXML writes there, at their heights, in their order; and what
    begins earlier in a bar stands further left, on whichever staff."""
    pages = engraved_pages(piece.musicxml)
    staves = witnesses.of_musicxml(piece.musicxml)
    seen = witnesses.of_engraving(pages)
    read: set[tuple[str, int]] = set()
    bars: dict[int, list[tuple[F, float]]] = {}
    for bar_of_staff in seen:
        played = [staff for staff in staves if _carries(bar_of_staff.label, staff)]
        assert played, bar_of_staff.label
        steps = [steps for _, steps in bar_of_staff.heads]
        heads = [staff.heads[bar_of_staff.bar] for staff in played]
        alike = [h for h in heads if [s for _, s in h] == steps]
        assert alike, (bar_of_staff, heads)
        read |= {(staff.name, bar_of_staff.bar) for staff, h in zip(played, heads, strict=True) if h in alike}
        bars.setdefault(bar_of_staff.bar, []).extend(
            (beat, x) for (beat, _), (x, _) in zip(alike[0], bar_of_staff.heads, strict=True)
        )
    for staff in staves:
        assert all((staff.name, bar) in read for bar, heads in enumerate(staff.heads) if heads), staff.name
    for begun in bars.values():
        for beat, x in begun:
            assert all(x < other + 1 for later, other in begun if later > beat)


def _carries(label: str, staff: witnesses.Staff) -> bool:
    """Whether a staff's label, in full or short, names this part and instrument: several may share one staff."""
    shown, short = (re.sub(r"\s", "", text) for text in (staff.shown, staff.short))
    if label in (shown, short):
        return True
    for whole in (staff.shown.partition("\n"), staff.short.partition(" ")):
        begins, instrument = (re.sub(r"\s", "", text) for text in whole[::2])
        if label.startswith(begins) and instrument.lower() in label.removeprefix(begins).lower().split(","):
            return True
    return False


def test_the_graphic_score(piece: Piece) -> None:
    wanted = {name: notes for name, notes in witnesses.of_score(piece.told).items() if name != COUNT_IN}
    pages = graphic_score(piece.lesson.score, piece.canvas, science_curve(piece.lesson))
    assert witnesses.of_drawing(pages) == sounding(wanted)
    empty = {(part["name"], bar) for part in piece.told["parts"] for b in part["blanks"]
             for bar in range(b["bar"], b["bar"] + b["bars"])}  # fmt: skip
    boxed = [
        (box.part, bar) for page in pages for box in drawn.blanks(page) for bar in range(box.bar, box.bar + box.bars)
    ]
    assert sorted(boxed) == sorted(empty)
    for name, notes in wanted.items():
        assert witnesses.of_drawing((graphic_lane(piece.lesson.score, name, piece.canvas),)).get(name, set()) == notes


def test_nothing_is_written_in_bars_left_to_the_pupils(piece: Piece) -> None:
    for part in piece.told["parts"]:
        empty = {bar for b in part["blanks"] for bar in range(b["bar"], b["bar"] + b["bars"])}
        for note in part["notes"]:
            last = note["beat"] + note["beats"]
            assert not any((bar - 1) * piece.beats < last and note["beat"] < bar * piece.beats for bar in empty)


def test_the_cards_tunes_and_patterns(piece: Piece) -> None:
    """Boxes and strips as the cards' templates get them, read back as (beat, letter on the bar)."""
    score = piece.lesson.score
    told = {part["name"]: part for part in piece.told["parts"]}
    compared = 0
    for card in cards(piece.lesson, lesson.sheet_settings()):
        for shown in card["parts"]:
            part = told[shown["name"]]
            row = score.instrument(part["instrument"])
            mine = {(F(n["beat"]), letter(n["midi"], row)) for n in part["notes"] if n["instrument"] == row.id}
            for strip in shown["strips"]:
                if not strip["head"].startswith(tuple(score.instrument(i.id).name for i in score.instruments)):
                    compared += _compare_strip(strip, mine, piece.beats)
            for pattern in shown["patterns"]:
                compared += _compare_boxes(pattern, part, mine, piece.beats, shown["entries"])
    assert compared > 10


def _compare_strip(strip: dict[str, Any], mine: set[tuple[F, str]], beats: int) -> int:
    for cell in strip["bars"]:
        for bar in range(int(cell["bar"].split(" to ")[0]), int(cell["bar"].split(" to ")[-1]) + 1):
            written = {
                ((bar - 1) * beats + F(note["at"]).limit_denominator(96) * beats, name)
                for note in cell["notes"]
                for name in note["letter"].split("+")
            }
            assert written == {(beat, name) for beat, name in mine if (bar - 1) * beats <= beat < bar * beats}, cell
    return len(strip["bars"])


def _compare_boxes(
    pattern: dict[str, Any], part: dict[str, Any], mine: set[tuple[F, str]], beats: int, entries: list[dict[str, Any]]
) -> int:
    """A pattern is what is played where the card says, with the notes that it names in place of others; its last notes
    may be left out where a phrase breathes."""
    cells = [cell for line in pattern["boxes"]["rows"] for cell in line]
    each = sum(1 for cell in cells if not cell["beat"]) // sum(1 for cell in cells if cell["beat"]) + 1
    written = {(F(at, each), name) for at, cell in enumerate(cells) for name in cell["sounds"]}
    bars = len(cells) // each // beats
    found = re.match(r"Bars? (\d+)", pattern["name"])
    starts = [int(found[1])] if found else [e["bar"] for e in part["entries"] if e["pattern"] == pattern["name"]]
    assert starts, pattern["name"]
    for start in starts:
        first = (start - 1) * beats
        played = {(beat - first, name) for beat, name in mine if first <= beat < first + bars * beats}
        told = next((entry["play"] for entry in entries if entry["bar"] == start), "")
        moved = {home: note for note, home in re.findall(r"(\S+) in place of ([^\s,.]+)", told)}
        there = {(beat, moved.get(name, name)) for beat, name in written}
        assert played <= there and {w for w in there if w[0] < bars * beats - 1} <= played, pattern["name"]
    return len(starts)
