"""Pieces of a scene file that a program writes: its rules and parts, texts in quotation marks, ends of a range."""

from __future__ import annotations

import json
from collections.abc import Sequence
from math import ceil, floor, log10

import numpy as np

from sonify.frozen import dataclass
from sonify.records.things import NUMBER_OF, are_things
from sonify.records.timeline import FloatArray
from sonify.units import NO_UNIT, YES_OR_NO

#: A range that begins so near to nothing, as a share of its greatest value, begins with nothing (our own).
NEAR_NOTHING = 0.35
#: A scene file allows no longer name of a part.
LONGEST_PART = 40


def quoted(text: str) -> str:
    """A text as TOML writes it; JSON's escapes are TOML's."""
    return json.dumps(text, ensure_ascii=False)


def part_name(name: str, job: str = "") -> str:
    """A part called after a column or a group, no longer than a scene file allows: cut between two words.

    >>> part_name("bounce height", "tune")
    'Bounce height: tune'
    >>> part_name("number of steel paper clips that the bar magnet lifted", "tune")
    'Number of steel paper clips that: tune'
    """
    end = f": {job}" if job else ""
    room = LONGEST_PART - len(end)
    kept = name if len(name) <= room else name[: room + 1].rpartition(" ")[0] or name[:room]
    return f"{kept[:1].upper()}{kept[1:]}".rstrip(" ,:;(") + end


def unlike(names: Sequence[str]) -> list[str]:
    """The same names, those that are alike with a number.

    >>> unlike(["Cup", "Jar", "Cup"])
    ['Cup 1', 'Jar', 'Cup 3']
    """
    many = {name for name in names if names.count(name) > 1}
    numbered = (f"{name[: LONGEST_PART - 3]} {number}" for number, name in enumerate(names, 1))
    return [made if name in many else name for name, made in zip(names, numbered, strict=True)]


def the_more(name: str, unit: str) -> str:
    """How a sentence about more of a quantity begins: of numbers of things, of answers, of anything else.

    >>> the_more("hours of daylight", "no unit"), the_more("height of plants", "cm")
    ('The more hours of daylight', 'The greater the height of plants')
    """
    if unit == YES_OR_NO:
        return "The nearer to yes"
    things = unit == NO_UNIT and are_things(name) and not name.startswith(NUMBER_OF)
    return f"{'The more' if things else 'The greater the'} {name}"


def was(name: str) -> str:
    """The verb of a class's own name: "the bounces were", "the number of bounces was"."""
    return "were" if are_things(name) and not name.startswith(NUMBER_OF) else "was"


def listed(texts: Sequence[str]) -> str:
    return json.dumps(list(texts), ensure_ascii=False)


def round_ends(values: FloatArray, *, from_nothing: bool = False) -> tuple[float, float]:
    """A range that holds all values, its ends rounded outwards to numbers worth writing.

    from_nothing: values that come near 0 have their range begin there. What never changes gets room on both sides.

    >>> round_ends(np.array([2.0, 43.7])), round_ends(np.array([2.0, 43.7]), from_nothing=True)
    ((2.0, 44.0), (0.0, 44.0))
    """
    low, high = float(np.nanmin(values)), float(np.nanmax(values))
    if from_nothing and 0.0 <= low <= NEAR_NOTHING * high:
        low = 0.0
    if high - low <= 1e-9 * max(abs(low), abs(high)):
        room = abs(low) or 1.0
        low, high = low - room, high + room
    digits = 1 - floor(log10(high - low))
    step = 10.0**-digits
    return round(floor(low / step + 1e-9) * step, digits), round(ceil(high / step - 1e-9) * step, digits)


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleBlock:
    """A [[hear]]: the ends of a quantity, in `unit`, become `to`. asleep: written as remarks, to be woken by hand."""

    quantity: str
    unit: str
    ends: tuple[float, float]
    control: str
    to: tuple[str, str]
    why: str
    part: str = ""
    asleep: bool = False

    def text(self) -> str:
        low, high = (f"{end:.10g} {self.unit}" for end in self.ends)
        lines = [
            "[[hear]]",
            f"quantity = {quoted(self.quantity)}",
            f'as       = "{self.control}"',
            *([f"part     = {quoted(self.part)}"] if self.part else []),
            f"from     = [{quoted(low)}, {quoted(high)}]",
            f'to       = ["{self.to[0]}", "{self.to[1]}"]',
            f"why      = {quoted(self.why)}",
        ]
        return _block(lines, asleep=self.asleep)


@dataclass(frozen=True, slots=True, kw_only=True)
class PartBlock:
    """A [[part]]."""

    name: str
    texture: str
    sounds: Sequence[str]
    meaning: str
    stages: Sequence[str] = ()
    asleep: bool = False

    def text(self) -> str:
        stages = listed(self.stages) if self.stages else '"all"'
        lines = [
            "[[part]]",
            f"name    = {quoted(self.name)}",
            f'texture = "{self.texture}"',
            f"stages  = {stages}",
            f"sounds  = {listed(self.sounds)}",
            f"meaning = {quoted(self.meaning)}",
        ]
        return _block(lines, asleep=self.asleep)


def _block(lines: Sequence[str], *, asleep: bool) -> str:
    told = "\n# To hear how sure we are, take away the # and the space before these lines:\n" if asleep else ""
    return told + "\n" + "".join(f"{'# ' if asleep else ''}{line}\n" for line in lines)
