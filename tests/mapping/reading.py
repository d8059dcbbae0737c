"""What a finding says to write, taken: read the way a scene file is read, but by the tests' own reading."""

from __future__ import annotations

import re
from dataclasses import replace

from sonify.kinds.marks import DYNAMICS
from sonify.records.scene import Rule
from sonify.units import split
from tests.mapping.making import measure

NOTES = {"C": 0, "D": 2, "E♭": 3, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11, "C#": 1, "Eb": 3, "F#": 6, "G#": 8, "Bb": 10}


def taken(written: Rule, fix: str) -> Rule:
    """The rule with what a finding's fix says, read the way a scene file is read."""
    changed = written
    if found := re.search(r'from = \["([^"]+)", "([^"]+)"\]', fix):
        changed = replace(changed, low=measure(found[1]), high=measure(found[2]))
    if found := re.search(r'to = \["([^"]+)", "([^"]+)"\]', fix):
        low, high = (as_number(written.control, text) for text in found.groups())
        changed = replace(changed, to_low=low, to_high=high)
    assert changed != written, f"nothing to write in: {fix}"
    return changed


def as_number(control: str, text: str) -> float:
    if control == "pitch":
        return float(12 * (int(text[-1]) + 1) + NOTES[text[:-1]])
    if control == "dynamics":
        return float(DYNAMICS[text])
    number, unit = split(text)
    assert unit == {"tempo": "bpm", "density": "per beat", "brightness": "%"}[control]
    return number / 100.0 if control == "brightness" else number
