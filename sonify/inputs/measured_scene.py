"""The scene file that `sonify measure` writes beside a class's readings, and what it says it understood of them."""

from __future__ import annotations

import re

import numpy as np

from sonify.inputs.document import one_line
from sonify.inputs.experiment_words import AS_READ, listed
from sonify.inputs.logger_checks import spikes
from sonify.inputs.scene_blocks import PartBlock, RuleBlock, part_name, quoted, round_ends, the_more, unlike, was
from sonify.inputs.scene_sounds import GROUND, SHIMMER, STEADY, TAPS, TUNES
from sonify.records.fact import Amount, Duration, Fact, Words, fact
from sonify.records.table import Column, Table, complete_readings, tries
from sonify.templates import template

IN_ORDER = "in order"  # the last stage of a table of results
MOST_PARTS = 12

_TUNE = ("alto glockenspiel", "soprano glockenspiel", "recorder", "keyboard", "voices on oo")


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
        "title": quoted(f"Our readings: {one_line(name, 80)}"),
        "process": process_for(table),
        "data": quoted(table.file),
        "conditions": _RESULT_CONDITIONS if results else _conditions(table),
        "gliding": _GLIDING if gliding else _STEPPING,
        "slowest": "84" if results else "60",
        "fastest": "84" if results else "132",
        "rules": "".join(rule.text() for rule in rules),
        "parts": "".join(part.text() for part in parts),
        "stages": _RESULT_STAGES if results else _STAGES,
        "plotted": "bar chart" if results else "line graph",
        "ask": quoted(f"Where was the tune highest, and what does that tell you about the {first}?"),
        "answer": quoted(f"Where the {first} {was(first)} greatest: the rule says so."),
    }
    # In one pass: what is filled in may itself hold braces.
    return re.sub(r"\{(\w+)\}", lambda found: filled[found[1]], template("inputs", "measured_scene.toml"))


def understood(table: Table) -> list[Words]:
    """What was understood of a file, in sentences."""
    rows, writing = table.rows, table.writing
    told: list[Words] = [
        fact(
            "logger-understood-file",
            file=table.file,
            rows=int(rows.size),
            first=str(rows.min()),
            last=str(rows.max()),
            encoding=writing.encoding,
            between=writing.separator,
            decimal=writing.decimal,
        )
    ]
    if writing.above:
        told.append(fact("logger-understood-above", n=writing.above))
    told.append(_time_told(table))
    if process_for(table) == "results-table":
        told.append(fact("logger-understood-rows", heading=table.label_heading, names=listed(table.labels)))
    return told + [_column_told(column) for column in table.columns]


def _time_told(table: Table) -> Fact:
    if table.time_s is None:
        return fact("logger-understood-no-time")
    kind = "moment" if table.time_kind == "date" and table.clock_start else table.time_kind
    steps = sorted(float(step) for step in (table.time_s[1:] - table.time_s[:-1]) if step > 0.0)
    return fact(
        "logger-understood-time-every" if steps else "logger-understood-time",
        kind=kind,
        heading=table.time_heading,
        start=table.start,
        end=table.end,
        lasts=Duration(seconds=float(table.time_s[-1]), given=AS_READ),
        every=Duration(seconds=steps[len(steps) // 2] if steps else 0.0, given=AS_READ),
    )


def _column_told(column: Column) -> Fact:
    least, most = (
        Amount(value=float(end), unit=column.unit, given=AS_READ) for end in (column.read.min(), column.read.max())
    )
    return fact("logger-understood-column", column=column.name, n=int(column.read.size), least=least, most=most)


def _varying(columns: tuple[Column, ...]) -> tuple[Column, ...]:
    """Columns whose readings differ; all of them where none does."""
    return tuple(column for column in columns if column.read.min() < column.read.max()) or columns


def _rule(
    column: Column, control: str, to: tuple[str, str], why: str, part: str = "", *, whole: bool = False
) -> RuleBlock:
    """A rule on all that a column holds. whole: in a table of results one that differs is no slip; else single wild
    readings are left out of the range."""
    usual = column.values if whole else np.delete(column.values, spikes(column.values))
    return RuleBlock(
        quantity=column.name, unit=column.unit, ends=round_ends(usual), control=control, to=to, why=why, part=part
    )


def _over_time(played: tuple[Column, ...]) -> tuple[list[RuleBlock], list[PartBlock]]:
    """A tune, taps and more for readings over time: one column is heard in several ways, more columns in one each."""
    first, second = played[0], played[min(1, len(played) - 1)]
    tune, taps, ground = part_name(first.name, "tune"), part_name(second.name, "taps"), "The ground"
    rules = [
        _rule(first, "tempo", ("66 bpm", "120 bpm"), f"The higher the {first.name}, the quicker the beat."),
        _rule(first, "pitch", ("C4", "A5"), f"The higher the {first.name}, the higher our notes.", tune),
        _rule(second, "density", ("1 per bar", "3 per beat"), f"The higher the {second.name}, the more we tap.", taps),
        _rule(first, "dynamics", ("pp", "f"), f"The higher the {first.name}, the louder we are.", ground),
    ]
    parts = [
        PartBlock(
            name=tune,
            texture="melody",
            sounds=_TUNE,
            meaning=f"You are the {first.name}. Your tune goes up and down with it.",
        ),
        PartBlock(
            name=taps,
            texture="scatter",
            sounds=TAPS,
            meaning=f"You are the {second.name}. The higher it is, the more you tap.",
        ),
        PartBlock(
            name=ground,
            texture="drone",
            sounds=GROUND,
            meaning=f"You are the ground of it all. You swell with the {first.name}.",
        ),
        PartBlock(
            name="The clock",
            texture="ostinato",
            sounds=STEADY,
            meaning="You are the clock of the logger. You come round again and again.",
        ),
    ]
    if len(played) > 2:
        third, name = played[2], part_name(played[2].name, "shimmer")
        rules.append(
            _rule(third, "dynamics", ("pp", "f"), f"The higher the {third.name}, the louder we shimmer.", name)
        )
        parts.append(
            PartBlock(
                name=name,
                texture="tremolo",
                sounds=SHIMMER,
                meaning=f"You are the {third.name}. You swell and fade with it.",
            )
        )
    return rules, parts


def _results(table: Table, played: tuple[Column, ...]) -> tuple[list[RuleBlock], list[PartBlock]]:
    """One sound a material, the same rules for all."""
    first, second = played[0], played[min(1, len(played) - 1)]
    same = " The rule is the same for everybody."
    rules = [
        _rule(
            first, "pitch", ("C4", "A5"), f"{the_more(first.name, first.unit)}, the higher the notes.{same}", whole=True
        ),
        _rule(
            second,
            "dynamics",
            ("p", "f"),
            f"{the_more(second.name, second.unit)}, the louder we play.{same}",
            whole=True,
        ),
    ]
    materials = list(dict.fromkeys(table.labels[row] for row, _ in complete_readings(table)))[:MOST_PARTS]
    names = unlike([part_name(material) for material in materials])
    parts = [
        PartBlock(
            name=name,
            texture="melody",
            sounds=TUNES[number % len(TUNES)],
            meaning=f"You are the {material}. Your notes say what was measured of you.",
            stages=(material, IN_ORDER),
        )
        for number, (material, name) in enumerate(zip(materials, names, strict=True))
    ]
    if len(parts) < MOST_PARTS:
        meaning = f"You are the ruler. You measure everybody in the same way, whatever the {table.label_heading}."
        parts.append(PartBlock(name="The ruler", texture="ostinato", sounds=STEADY, meaning=meaning))
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
