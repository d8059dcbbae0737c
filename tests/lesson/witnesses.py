"""What each output says is played, read back from its own bytes: notes as (beat from bar 1, key), part by part.

MIDI by mido; MusicXML by a reading of our own of the published element meanings; the engraved pages as a person reads
them, from where noteheads lie between staff lines; the graphic score from its marks.
"""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from fractions import Fraction as F
from typing import Any

import mido
from lxml import etree

from tests.notation import drawn

Notes = set[tuple[F, int]]
SVG = "{http://www.w3.org/2000/svg}"
HREF = "{http://www.w3.org/1999/xlink}href"
LETTERS = "CDEFGAB"
SEMITONES = dict(zip(LETTERS, (0, 2, 4, 5, 7, 9, 11), strict=True))
#: SMuFL code points of the clefs, and the diatonic step (C0 = 0) of a staff's lowest line under each.
CLEFS = {"E050": 4 * 7 + 2, "E062": 2 * 7 + 4}
ONE_LINE = 4 * 7 + 2  # where a one-line staff's line is, in MusicXML's display steps


def of_score(told: dict[str, Any]) -> dict[str, Notes]:
    """score.json's own list."""
    return {part["name"]: {(F(note["beat"]), note["midi"]) for note in part["notes"]} for part in told["parts"]}


def of_midi(data: bytes, count_in_beats: int) -> dict[str, Notes]:
    """Track name -> what it strikes, by ticks."""
    file = mido.MidiFile(file=io.BytesIO(data), charset="utf-8")
    found: dict[str, Notes] = {}
    for track in file.tracks[1:]:
        ticks = 0
        for message in track:
            ticks += message.time
            if message.type == "note_on" and message.velocity:
                found.setdefault(track.name, set()).add((F(ticks, file.ticks_per_beat) - count_in_beats, message.note))
    return found


@dataclass
class Staff:
    """One part of a MusicXML file. heads: for each bar, each written note or chord as (beat in bar, diatonic steps)."""

    name: str
    shown: str
    short: str
    pitched: bool = True
    struck: Notes = field(default_factory=set)
    heads: list[list[tuple[F, tuple[int, ...]]]] = field(default_factory=list)


def of_musicxml(data: bytes) -> list[Staff]:
    root = etree.fromstring(data)
    keys = {
        sound.get("id"): int(sound.findtext("midi-unpitched")) - 1  # this element counts from 1
        for sound in root.iter("midi-instrument")
        if sound.find("midi-unpitched") is not None
    }
    staves = []
    for listed in root.iter("score-part"):
        part = next(part for part in root.findall("part") if part.get("id") == listed.get("id"))
        shown, short = (listed.findtext(f"part-{kind}-display/display-text") for kind in ("name", "abbreviation"))
        staff = Staff(name=listed.findtext("part-name"), shown=shown, short=short)
        _read_part(part, staff, keys)
        staves.append(staff)
    return staves


def _read_part(part: etree._Element, staff: Staff, keys: dict[str | None, int]) -> None:
    divisions = int(part.findtext(".//divisions"))
    beats = int(part.findtext(".//time/beats"))
    moved = int(part.findtext(".//transpose/chromatic", "0")) + 12 * int(
        part.findtext(".//transpose/octave-change", "0")
    )
    staff.pitched = part.find(".//clef/sign").text != "percussion"
    first = [measure.get("number") for measure in part.findall("measure")].index("1")
    for number, measure in enumerate(part.findall("measure")):
        at = before = F(0)
        heads: list[tuple[F, tuple[int, ...]]] = []
        for note in measure.findall("note"):
            start = before if note.find("chord") is not None else at
            before, at = start, start + F(int(note.findtext("duration")), divisions)
            if note.find("rest") is not None:
                continue
            step, key = _pitch(note, moved, keys)
            if heads and heads[-1][0] == start:
                heads[-1] = (start, tuple(sorted((*heads[-1][1], step))))
            else:
                heads.append((start, (step,)))
            if "stop" not in [tie.get("type") for tie in note.findall("tie")]:
                staff.struck.add((F((number - first) * beats) + start, key))
        staff.heads.append(heads)


def _pitch(note: etree._Element, moved: int, keys: dict[str | None, int]) -> tuple[int, int]:
    """Diatonic step as written, and the key that sounds."""
    if note.find("unpitched") is not None:
        step, octave = note.findtext("unpitched/display-step"), int(note.findtext("unpitched/display-octave"))
        return 7 * octave + LETTERS.index(step) - ONE_LINE, keys[note.find("instrument").get("id")]
    step, octave = note.findtext("pitch/step"), int(note.findtext("pitch/octave"))
    altered = int(note.findtext("pitch/alter", "0"))
    return 7 * octave + LETTERS.index(step), 12 * (octave + 1) + SEMITONES[step] + altered + moved


@dataclass
class Seen:
    """What stands in one bar of one staff of an engraved page: each note or chord as (x, diatonic steps)."""

    bar: int
    label: str
    heads: list[tuple[float, tuple[int, ...]]]


def of_engraving(pages: tuple[str, ...]) -> list[Seen]:
    """Every staff of every bar; bars count from 0, the first of the count-in. Labels without white space."""
    found: list[Seen] = []
    bar = 0
    for page in pages:
        root = etree.fromstring(page.encode())
        for system in _of_class(root, "system"):
            groups = [group for group in system if group.get("class", "") in ("label", "labelAbbr")]
            groups.sort(key=lambda group: float(next(group.iter(f"{SVG}text")).get("y", "0")))  # from the top down
            labels = [re.sub(r"\s", "", "".join(group.itertext())) for group in groups]
            lowest: dict[int, int] = {}
            for measure in _of_class(system, "measure"):
                staves = _of_class(measure, "staff")
                assert len(staves) == len(labels), "every staff of a system has its name"
                for index, staff in enumerate(staves):
                    for clef in _of_class(staff, "clef"):
                        glyph = next(clef.iter(f"{SVG}use")).get(HREF, "")[1:5]
                        lowest[index] = CLEFS.get(glyph, 0)
                    found.append(Seen(bar, labels[index], list(_heads(staff, lowest[index]))))
                bar += 1
    return found


def _of_class(root: etree._Element, name: str) -> list[etree._Element]:
    return [group for group in root.iter(f"{SVG}g") if name in group.get("class", "").split()]


def _heads(staff: etree._Element, lowest: int) -> Iterator[tuple[float, tuple[int, ...]]]:
    lines = [float(path.get("d", "").split()[1]) for path in staff.findall(f"{SVG}path")]

    def in_chord(group: etree._Element) -> bool:
        return any("chord" in up.get("class", "").split() for up in group.iterancestors())

    groups = (group for group in staff.iter(f"{SVG}g") if {"chord", "note"} & set(group.get("class", "").split()))
    for group in groups:  # in the order of the page's own text
        if in_chord(group):
            continue
        places = []
        for head in _of_class(group, "notehead"):
            place = re.match(r"translate\(([-\d.]+), ?([-\d.]+)\)", next(head.iter(f"{SVG}use")).get("transform", ""))
            assert place
            places.append((float(place[1]), float(place[2])))
        # half the gap between two lines is 75 of the page's units: 600 are a staff
        steps = tuple(sorted(lowest + round((max(lines) - y) / 75) for _, y in places))
        yield min(x for x, _ in places), steps


def of_drawing(pages: tuple[str, ...]) -> dict[str, Notes]:
    """The graphic score's marks, by part."""
    found: dict[str, Notes] = {}
    for page in pages:
        for mark in drawn.marks(page):
            found.setdefault(mark.part, set()).add((mark.beat, mark.key))
    return found
