"""Every scene's sheets for three classes read back from their PDFs: do figures agree with score.json and science.csv?

Looked at as a reader would: the text of each page alone, the score as JSON, the table as CSV. A value of a stage must
lie within what the table has in that stage; a beat must be what the stage's beats and seconds come to.
"""

from __future__ import annotations

import csv
import io
import json
import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property
from typing import Any

import numpy as np

from sonify import lesson
from sonify.data.exports import science_csv, score_json
from sonify.lesson import sheet_files
from sonify.notation.free import free_as_boxes
from sonify.notation.musicxml import musicxml_bytes
from sonify.records.lesson import Lesson
from sonify.units import printed as unit_printed
from tests.campaign.claims import CLASSES, classroom
from tests.campaign.tally import Tally
from tests.paper.sheets import settings
from tests.pinned.tagged import rows_of
from tests.studies import SCENES

#: Half a beat a minute, and what rounding to a whole one adds.
NEAR_BPM = 0.51
NUMBER = r"[−-]?\d[\d,]*(?:\.\d+)?"
RULE = re.compile(r"How (fast|high|loud|busy|bright) \(([^)]+)\) (.*?)(?= How |Bars? \d|Pattern [A-Z]|\[picture\]|$)")
STEP = re.compile(rf"(?:^|→ )([A-Z]) (?:about )?({NUMBER}) ([^\s:,]+)[^:→]*: ")
BEATS = re.compile(r"(?:^|→ )([A-Z]) [^:→]*: (\d+) beats a minute")
ENTRY = re.compile(r"\bBar (\d+) \(([A-Z])\)")
STAND = re.compile(r"Bar (\d+): stage ([A-Z]), (\d+) beats a minute")
POSTER = re.compile(r"\b(\d+)(?: to (\d+))? bpm\b")
WENT = re.compile(r"From stage ([A-Z]) to stage ([A-Z]): when the ([^,]+?) went (up|down), ([^:]*?became \w+)")
BUSY = re.compile(r"is the busiest stage, with ([\d.]+) sounds a bar at (\d+) bpm")


def sheets(tally: Tally, every: int, seed: int) -> None:
    """A share of the scenes, each for the three classes. seed: which share."""
    for scene in SCENES[(seed - 1) % every :: every]:
        for room in CLASSES:
            found = lesson.study(scene, classroom(room))
            check(tally, found, f"{scene}, {room}")


def check(tally: Tally, found: Lesson, where: str) -> None:
    pack = Pack(found)
    made = sheet_files.sheets(found, lambda: musicxml_bytes(free_as_boxes(found.score)), settings())
    for file, data in made:
        for text in _pages(data):
            for kind, fault in READERS[file](pack, text):
                tally.add(kind)
                if fault:
                    tally.wrong(kind, fault, f"{where}, {file}")


def _pages(data: bytes) -> list[str]:
    """Each page as one text."""
    pages: list[list[str]] = []
    for row in rows_of(data):
        if row.startswith("=== page"):
            pages.append([])
        pages[-1].append(row.strip().lstrip("|#- ").strip())
    return [" ".join(rows) for rows in pages]


@dataclass(frozen=True)
class Pack:
    """What stands beside the sheets in a pack."""

    lesson: Lesson

    @cached_property
    def score(self) -> dict[str, Any]:
        found: dict[str, Any] = json.loads(score_json(self.lesson.score))
        return found

    @cached_property
    def sections(self) -> dict[str, dict[str, Any]]:
        return {section["letter"]: section for section in self.score["sections"]}

    @cached_property
    def table(self) -> tuple[list[str], np.ndarray]:
        heading, *rows = csv.reader(io.StringIO(science_csv(self.lesson.timeline)))
        return heading, np.array(rows, dtype=float).T

    def bpm(self, letter: str) -> float:
        section = self.sections[letter]
        return 60.0 * section["bars"] * self.lesson.score.metre.beats / section["seconds"]

    def tempi(self, letter: str) -> list[float]:
        section = self.sections[letter]
        first, end = section["bar"], section["bar"] + section["bars"]
        before = [row["bpm"] for row in self.score["tempo"] if row["bar"] <= first][-1:]
        return before + [row["bpm"] for row in self.score["tempo"] if first < row["bar"] < end]

    def values(self, letter: str, quantity: str, unit: str = "") -> np.ndarray | None:
        """What the table has of a quantity in a stage, None where it has no such column in this unit."""
        heading, columns = self.table
        name = self.sections[letter]["name"]
        stage = next(stage for stage in self.lesson.timeline.stages if stage.name == name)
        inside = (columns[0] >= stage.start_s - 1e-6) & (columns[0] <= stage.end_s + 1e-6)
        for text, values in zip(heading[1:], columns[1:], strict=True):
            told, _, column_unit = text.removesuffix("]").rpartition(" [")
            if told.removeprefix("'") == quantity and unit in ("", unit_printed(column_unit)):
                return np.asarray(values[inside])
        return None


Checks = Iterator[tuple[str, str]]


def _cards(pack: Pack, text: str) -> Checks:
    for control, quantity, steps in RULE.findall(text):
        for letter, number, unit in STEP.findall(steps):
            values = pack.values(letter, quantity, unit) if letter in pack.sections else None
            if values is not None:
                value = float(number.replace("−", "-").replace(",", ""))
                half = 0.51 * 10.0 ** -len(number.partition(".")[2])
                good = values.min() - half <= value <= values.max() + half
                yield "values of a stage", "" if good else f"{quantity} {number} {unit} in {letter}"
        for letter, beats in BEATS.findall(steps) if control == "fast" else ():
            good = letter in pack.sections and abs(int(beats) - pack.bpm(letter)) <= NEAR_BPM
            yield "beats a minute", "" if good else f"{beats} in {letter}: {pack.bpm(letter):.2f}"
    for bar, letter in ENTRY.findall(text):
        section = pack.sections.get(letter)
        good = section is not None and section["bar"] <= int(bar) < section["bar"] + section["bars"]
        yield "bars of entries", "" if good else f"bar {bar} ({letter})"


def _stand(pack: Pack, text: str) -> Checks:
    for bar, letter, beats in STAND.findall(text):
        good = pack.sections[letter]["bar"] == int(bar) and abs(pack.tempi(letter)[0] - int(beats)) <= NEAR_BPM
        yield "the stand page", "" if good else f"bar {bar}, {letter}, {beats}"


def _poster(pack: Pack, text: str) -> Checks:
    told = POSTER.findall(text)
    ends = [(min(pack.tempi(letter)), max(pack.tempi(letter))) for letter in pack.sections]
    for texts in told:
        low, high = sorted(int(each or texts[0]) for each in texts)
        good = any(abs(low - least) <= 1 and abs(high - most) <= 1 for least, most in ends)
        yield "beats on the poster", "" if good else f"{low} to {high}: {ends}"


def _teacher(pack: Pack, text: str) -> Checks:
    for first, last, quantity, way, sound in WENT.findall(text):
        before, after = (pack.values(letter, quantity) for letter in (first, last))
        if before is not None and after is not None:
            good = (after.mean() > before.mean()) == (way == "up")
            yield "ways of a quantity", "" if good else f"{quantity} {way} from {first} to {last}"
        if sound.startswith("the beat became"):
            good = (pack.bpm(last) > pack.bpm(first)) == sound.endswith("quicker")
            yield "ways of the beat", "" if good else f"{sound} from {first} to {last}"
    for sounds, beats in BUSY.findall(text):
        counts = [(count, pack.bpm(letter)) for letter, count in _sounds_a_bar(pack).items()]
        good = any(abs(float(sounds) - n) <= 0.51 and abs(int(beats) - bpm) <= NEAR_BPM for n, bpm in counts)
        yield "the busiest stage", "" if good else f"{sounds} at {beats}: {counts}"


def _sounds_a_bar(pack: Pack) -> dict[str, float]:
    """Sounds a bar in each stage, the count-in and the quiet beat of those who wait left out."""
    beats = pack.lesson.score.metre.beats
    quiet = {part.name for part in pack.lesson.score.parts if part.pulse} | {"count-in"}
    onsets = [note["beat"] for part in pack.score["parts"] if part["name"] not in quiet for note in part["notes"]]
    found = {}
    for letter, section in pack.sections.items():
        first, end = (section["bar"] - 1) * beats, (section["bar"] - 1 + section["bars"]) * beats
        found[letter] = sum(first <= float(onset) < end for onset in onsets) / section["bars"]
    return found


READERS = {"pupils.pdf": _cards, "conductor.pdf": _stand, "teacher.pdf": _teacher, "poster.pdf": _poster}
