"""The scene file that `sonify new --process` writes: one process laid out, with all that its author may change."""

from __future__ import annotations

import json
import re
import textwrap
from collections.abc import Iterable, Sequence

from sonify.frozen import dataclass
from sonify.records.scene import PartPlan, Rule
from sonify.templates import template

WIDTH = 119  # of a remark

#: Instruments for a texture, the favourite first, each list ending with what needs no cupboard.
SOUNDS = {
    "melody": ("alto glockenspiel", "soprano glockenspiel", "alto xylophone", "recorder", "voices on oo"),
    "scatter": ("claves", "wood block", "egg shaker", "finger cymbals", "finger snaps"),
    "drone": ("ocean drum", "cabasa", "maracas", "egg shaker", "voices on sh"),
    "ostinato": ("hand drum", "goblet drum", "two-tone block", "chime bars", "knee taps"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """Something declared, with what is said about it. value: of a condition, as the file writes it."""

    name: str
    says: str
    value: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Outline:
    """What a scene file is written from. about: what the process is. stages: says holds the title, value how found."""

    title: str
    process: str
    about: str
    conditions: Sequence[Row]
    quantities: Sequence[Row]
    stages: Sequence[Row]
    rules: Sequence[Rule]
    parts: Sequence[PartPlan]
    cautions: Sequence[str] = ()
    gliding: bool = False
    data: str = ""


def outline_text(outline: Outline) -> str:
    """The commented scene file."""
    steps = "false               # true: the beat follows the science bar by bar, which is harder to conduct"
    glides = "true                # the stages are too alike on average for a beat in steps"
    filled = {
        "title": _quoted(outline.title),
        "process": _quoted(outline.process),
        "about": _remark(outline.about),
        "data": f"data    = {_quoted(outline.data)}   # the readings, beside this file\n" if outline.data else "",
        "cautions": "".join(f"\n    {_quoted(each)}," for each in outline.cautions) + "\n" * bool(outline.cautions),
        "conditions": _conditions(outline.conditions),
        "gliding": glides if outline.gliding else steps,
        "quantities": "\n".join(_remark(f"{_quoted(row.name)}: {row.says}", "  ") for row in outline.quantities),
        "rules": "".join(map(_rule, outline.rules)),
        "parts": "".join(map(_part, outline.parts)),
        "stages": "\n".join(map(_stage, outline.stages)) + "\n",
        "first": _quoted(outline.quantities[0].name),
    }
    # In one pass: what is filled in may itself hold braces.
    return re.sub(r"\{(\w+)\}", lambda found: filled[found[1]], template("inputs", "outline.toml"))


def _quoted(text: str) -> str:
    """A text as TOML writes it; JSON's escapes are TOML's."""
    return json.dumps(text, ensure_ascii=False)


def _listed(texts: Iterable[str]) -> str:
    return json.dumps(list(texts), ensure_ascii=False)


def _remark(text: str, indent: str = "") -> str:
    return "\n".join(textwrap.wrap(text, WIDTH, initial_indent=f"# {indent}", subsequent_indent=f"# {indent}  "))


def _conditions(rows: Sequence[Row]) -> str:
    if not rows:
        return ""
    head = f"\n# --- The conditions {'-' * 99}\n# Change them and the science changes.\n\n[conditions]\n"
    return head + "".join(f"{_remark(row.says)}\n{row.name} = {row.value}\n" for row in rows)


def _rule(rule: Rule) -> str:
    part = f"part     = {_quoted(rule.part)}\n" if rule.part else ""
    return f"""
[[hear]]
quantity = {_quoted(rule.quantity)}
as       = {_quoted(rule.control)}
{part}from     = {_listed((rule.low.text, rule.high.text))}
to       = {_listed((rule.to_low_text, rule.to_high_text))}
why      = {_quoted(rule.why)}
"""


def _part(part: PartPlan) -> str:
    return f"""
[[part]]
name    = {_quoted(part.name)}
texture = {_quoted(part.texture)}
stages  = "all"
sounds  = {_listed(part.sounds)}
meaning = {_quoted(part.meaning)}
"""


def _stage(row: Row) -> str:
    found = _remark(f"{row.says}. {row.value}")
    return f'\n{found}\n# [[stage]]\n# name    = {_quoted(row.name)}\n# caption = "..."'
