"""The scene file that `sonify measure` writes beside a class's readings, and what it says it understood of them."""

from __future__ import annotations

import json
import re
from collections.abc import Sequence
from dataclasses import dataclass
from math import ceil, floor, log10

import numpy as np

from sonify.inputs.document import one_line
from sonify.inputs.logger_checks import spikes
from sonify.records.table import Column, Table, complete_readings, tries
from sonify.records.words import duration_text, measure_text, number_text
from sonify.templates import template

IN_ORDER = "in order"  # the last stage of a table of results
LONGEST_PART = 28
MOST_PARTS = 12

_TUNE = ("alto glockenspiel", "soprano glockenspiel", "recorder", "keyboard", "voices on oo")
_TAPS = ("claves", "wood block", "egg shaker", "finger cymbals", "finger snaps")
_SHIMMER = ("sleigh bells", "triangle", "tambourine", "maracas", "claps")
_GROUND = ("ocean drum", "cabasa", "maracas", "egg shaker", "voices on sh")
_CLOCK = ("wood block", "two-tone block", "claves", "hand drum", "knee taps")
#: One sound for each row's name, as unlike as a cupboard allows; all sound in one octave, so that the highest is the
#: greatest.
_SOUNDS = (
    ("alto xylophone", "alto metallophone", "chime bars", "hand bells", "voices on oo"),
    ("alto metallophone", "alto xylophone", "hand bells", "chime bars", "voices on mm"),
    ("chime bars", "alto xylophone", "alto metallophone", "keyboard", "voices on oo"),
    ("hand bells", "alto metallophone", "alto xylophone", "keyboard", "voices on mm"),
    ("keyboard", "alto xylophone", "chime bars", "hand bells", "voices on oo"),
)


@dataclass(frozen=True, slots=True)
class _Rule:
    """A [[hear]] to be written."""

    column: Column
    control: str
    to: tuple[str, str]
    why: str
    part: str = ""
    whole: bool = False  # the range has every reading: in a table of results one that differs is no slip

    def text(self) -> str:
        low, high = _ends(self.column, whole=self.whole)
        lines = [
            "",
            "[[hear]]",
            f"quantity = {_quoted(self.column.name)}",
            f'as       = "{self.control}"',
            *([f"part     = {_quoted(self.part)}"] if self.part else []),
            f"from     = [{_quoted(low)}, {_quoted(high)}]",
            f'to       = ["{self.to[0]}", "{self.to[1]}"]',
            f"why      = {_quoted(self.why)}",
        ]
        return "\n".join(lines) + "\n"


@dataclass(frozen=True, slots=True)
class _Part:
    """A [[part]] to be written."""

    name: str
    texture: str
    sounds: Sequence[str]
    meaning: str
    stages: Sequence[str] = ()

    def text(self) -> str:
        stages = json.dumps(list(self.stages), ensure_ascii=False) if self.stages else '"all"'
        lines = [
            "",
            "[[part]]",
            f"name    = {_quoted(self.name)}",
            f'texture = "{self.texture}"',
            f"stages  = {stages}",
            f"sounds  = {json.dumps(list(self.sounds))}",
            f"meaning = {_quoted(self.meaning)}",
        ]
        return "\n".join(lines) + "\n"


def process_for(table: Table) -> str:
    """The process that plays a table: "results-table" where its rows are named and have no time, else "measured"."""
    return "results-table" if table.labels and table.time_s is None else "measured"


def measured_scene_text(table: Table, name: str, *, gliding: bool = False) -> str:
    """A commented scene file for a table, to be written beside it.

    Args:
        table: the readings.
        name: the scene's name, the stem of its file.
        gliding: the beat follows the readings bar by bar, because steps from stage to stage could not be told apart.
    """
    results = process_for(table) == "results-table"
    played = _varying(tuple(column for column, _ in tries(table.columns)) if results else table.columns)
    rules, parts = _results(table, played) if results else _over_time(played)
    first = played[0].name
    filled = {
        "file": one_line(table.file),
        "title": _quoted(f"Our readings: {one_line(name, 80)}"),
        "process": process_for(table),
        "data": _quoted(table.file),
        "conditions": _RESULT_CONDITIONS if results else _conditions(table),
        "gliding": _GLIDING if gliding else _STEPPING,
        "slowest": "84" if results else "60",
        "fastest": "84" if results else "132",
        "rules": "".join(rule.text() for rule in rules),
        "parts": "".join(part.text() for part in parts),
        "stages": _RESULT_STAGES if results else _STAGES,
        "plotted": "bar chart" if results else "line graph",
        "ask": _quoted(f"Where was the tune highest, and what does that tell you about the {first}?"),
        "answer": _quoted(f"Where the {first} was greatest: the rule says so."),
    }
    # In one pass: what is filled in may itself hold braces.
    return re.sub(r"\{(\w+)\}", lambda found: filled[found[1]], template("inputs", "measured_scene.toml"))


def understood(table: Table) -> list[str]:
    """What was understood of a file, in sentences."""
    rows, writing = table.rows, table.writing
    between = f", cells between {writing.separator}" if writing.separator else ""
    found = [
        f"{table.file}: {rows.size} rows of readings (rows {rows.min()} to {rows.max()} of the file), "
        f"{writing.encoding}{between}, decimal {writing.decimal}."
    ]
    if writing.above:
        found.append(f"{writing.above} line{'' if writing.above == 1 else 's'} above the table: passed over.")
    found.append(_time_sentence(table))
    if process_for(table) == "results-table":
        labels = list(dict.fromkeys(table.labels))
        named = ", ".join(labels[:8]) + (f" and {len(labels) - 8} more" if len(labels) > 8 else "")
        found.append(f"Each row is about one of these, in the column {table.label_heading}: {named}.")
    found += [_column_sentence(column) for column in table.columns]
    return found


_KINDS = {"elapsed": "time from the start", "clock": "times of day", "date": "dates"}


def _time_sentence(table: Table) -> str:
    if table.time_s is None:
        return "Time: there is none; the rows are taken in the order of the file."
    kind = _KINDS[table.time_kind] + (" and times of day" if table.time_kind == "date" and table.clock_start else "")
    span = duration_text(float(table.time_s[-1]))
    steps = [float(step) for step in (table.time_s[1:] - table.time_s[:-1]) if step > 0.0]
    every = f", a reading every {duration_text(sorted(steps)[len(steps) // 2])}" if steps else ""
    return f"Time: {kind} in the column {table.time_heading}, from {table.start} to {table.end}: {span}{every}."


def _column_sentence(column: Column) -> str:
    read = column.read
    ends = f"{measure_text(float(read.min()), column.unit)} to {measure_text(float(read.max()), column.unit)}"
    return f"{column.name}: {number_text(read.size, 12)} readings, {ends}."


def _varying(columns: tuple[Column, ...]) -> tuple[Column, ...]:
    """Columns whose readings differ; all of them where none does."""
    return tuple(column for column in columns if column.read.min() < column.read.max()) or columns


def _quoted(text: str) -> str:
    """A text as TOML writes it; JSON's escapes are TOML's."""
    return json.dumps(text, ensure_ascii=False)


def _ends(column: Column, *, whole: bool) -> tuple[str, str]:
    """The range of the readings, rounded outwards to numbers worth writing; not `whole`: single wild ones left out."""
    usual = column.values if whole else np.delete(column.values, spikes(column.values))
    low, high = float(np.nanmin(usual)), float(np.nanmax(usual))
    if high - low <= 1e-9 * max(abs(low), abs(high)):
        room = abs(low) or 1.0
        low, high = low - room, high + room
    digits = 1 - floor(log10(high - low))
    step = 10.0**-digits
    ends = (round(floor(low / step + 1e-9) * step, digits), round(ceil(high / step - 1e-9) * step, digits))
    return f"{ends[0]:.10g} {column.unit}", f"{ends[1]:.10g} {column.unit}"


def _short(name: str) -> str:
    return name[:1].upper() + name[1:LONGEST_PART].rstrip()


def _over_time(played: tuple[Column, ...]) -> tuple[list[_Rule], list[_Part]]:
    """A tune, taps and more for readings over time: one column is heard in several ways, more columns in one each."""
    first, second = played[0], played[min(1, len(played) - 1)]
    tune, taps, ground = f"{_short(first.name)}: tune", f"{_short(second.name)}: taps", "The ground"
    rules = [
        _Rule(first, "tempo", ("66 bpm", "120 bpm"), f"The higher the {first.name}, the quicker the beat."),
        _Rule(first, "pitch", ("C4", "A5"), f"The higher the {first.name}, the higher our notes.", tune),
        _Rule(second, "density", ("1 per bar", "3 per beat"), f"The higher the {second.name}, the more we tap.", taps),
        _Rule(first, "dynamics", ("pp", "f"), f"The higher the {first.name}, the louder we are.", ground),
    ]
    parts = [
        _Part(tune, "melody", _TUNE, f"You are the {first.name}. Your tune goes up and down with it."),
        _Part(taps, "scatter", _TAPS, f"You are the {second.name}. The higher it is, the more you tap."),
        _Part(ground, "drone", _GROUND, f"You are the ground of it all. You swell with the {first.name}."),
        _Part("The clock", "ostinato", _CLOCK, "You are the clock of the logger. You come round again and again."),
    ]
    if len(played) > 2:
        third, name = played[2], f"{_short(played[2].name)}: shimmer"
        rules.append(
            _Rule(third, "dynamics", ("pp", "f"), f"The higher the {third.name}, the louder we shimmer.", name)
        )
        parts.append(_Part(name, "tremolo", _SHIMMER, f"You are the {third.name}. You swell and fade with it."))
    return rules, parts


def _results(table: Table, played: tuple[Column, ...]) -> tuple[list[_Rule], list[_Part]]:
    """One sound a material, the same rules for all."""
    first, second = played[0], played[min(1, len(played) - 1)]
    same = " The rule is the same for everybody."
    rules = [
        _Rule(first, "pitch", ("C4", "A5"), f"The greater the {first.name}, the higher the notes.{same}", whole=True),
        _Rule(second, "dynamics", ("p", "f"), f"The greater the {second.name}, the louder we play.{same}", whole=True),
    ]
    materials = list(dict.fromkeys(table.labels[row] for row, _ in complete_readings(table)))[:MOST_PARTS]
    parts = [
        _Part(
            _short(material),
            "melody",
            _SOUNDS[number % len(_SOUNDS)],
            f"You are the {material}. Your notes say what was measured of you.",
            (material, IN_ORDER),
        )
        for number, material in enumerate(materials)
    ]
    if len(parts) < MOST_PARTS:
        meaning = f"You are the ruler. You measure everybody in the same way, whatever the {table.label_heading}."
        parts.append(_Part("The ruler", "ostinato", _CLOCK, meaning))
    return rules, parts


def _conditions(table: Table) -> str:
    interval = ""
    if table.time_s is None:
        interval = (
            'interval  = "1 min"       # CHANGE THIS: the file has no times; how long from one row to the next?\n'
        )
    return f"""
[conditions]
level     = "10 %"        # a stretch that rises or falls by less than this share of the whole range counts as level
stretches = 6             # the readings are followed with so many straight lines at most
follow    = 1             # the column in which the stretches are looked for, the time not counted
{interval}"""


_GLIDING = (
    "true                # the stages are too alike on average: false would be easier to conduct, and say nothing"
)
_STEPPING = "false               # true: the beat follows the readings bar by bar, which is harder to conduct"

_RESULT_CONDITIONS = """
[conditions]
turn = "1 min"                # how long one reading lasts on the plots; nothing in the music changes with it
"""

_STAGES = """# The stretches found in the readings are called "stretch 1", "stretch 2" and so on: see them with
# sonify show. To say in your own words what happened in one, take away the # before these lines:
# [[stage]]
# name    = "stretch 1"
# caption = "In the morning the sun came round and it grew warm."
"""

_RESULT_STAGES = """# Each material is a stage of its own name, and the last stage is "in order". To say something in
# your own words about one, take away the # before these lines:
# [[stage]]
# name    = "in order"
# caption = "All of them in order, from the least to the most."
"""
