"""Conditions set for one run, in place of those that a scene file has: `--set sea_temperature="19 degC"`."""

from __future__ import annotations

import re
from collections.abc import Iterable, Mapping
from dataclasses import replace

from sonify.errors import BadChange, BadName, SonifyError
from sonify.inputs import readings
from sonify.inputs.document import one_line, shown
from sonify.records.fact import wrong
from sonify.records.scene import Change, Condition, Measure, Scene

#: hear.3.to: an end of a rule, by the rule's number in the scene, from 0.
_RULE = re.compile(r"hear\.(\d{1,2})\.(from|to|curve)")
_WHOLE = re.compile(r"\s*[-+]?\d{1,7}\s*")


def read_changes(texts: Iterable[str]) -> dict[str, str]:
    """Names and values of `NAME=VALUE` texts. Raises BadName where one has another shape, or a name comes twice.

    >>> read_changes(["sea_temperature=19 degC", "day = 355"])
    {'sea_temperature': '19 degC', 'day': '355'}
    """
    found: dict[str, str] = {}
    for text in texts:
        name, equals, value = (part.strip() for part in text.partition("="))
        if not (name and equals and value):
            raise BadName(wrong("error_inputs-set-write-name", text=shown(text)))
        if name in found:
            raise BadName(wrong("error_inputs-set-given-twice", name=one_line(name, 60)))
        found[name] = value.strip('"')
    return found


def rule_changes(changes: Mapping[str, str | int]) -> tuple[dict[str, str | int], dict[str, dict[str, object]]]:
    """Changes parted: conditions, and rules by their numbers, as `edits.edit_of` takes them.

    Raises BadChange for ends that are not two texts.

    >>> rule_changes({"day": 3, "hear.3.to": "pp, ff"})
    ({'day': 3}, {'3': {'to': ['pp', 'ff']}})
    """
    conditions: dict[str, str | int] = {}
    rules: dict[str, dict[str, object]] = {}
    for name, value in changes.items():
        found = _RULE.fullmatch(name)
        if found is None:
            conditions[name] = value
            continue
        number, side = found.groups()
        if side == "curve":
            rules.setdefault(number, {})[side] = str(value)
            continue
        ends = [end.strip().strip('"') for end in str(value).strip("[] ").split(",")]
        if len(ends) != 2 or not all(ends):
            raise BadChange(name, one_line(str(value), 60), wrong("error_inputs-set-two-ends", name=name))
        rules.setdefault(number, {})[side] = ends
    return conditions, rules


def with_changes(scene: Scene, changes: Mapping[str, str | int]) -> Scene:
    """The scene with conditions set anew for this run. Whether the process has them is for whoever knows it.

    Raises BadChange where a value is no measure.
    """
    if not changes:
        return scene
    written = {condition.name: condition.measure for condition in scene.conditions}
    made = tuple(
        Change(name=name, before=written.get(name), after=_measure(name, value)) for name, value in changes.items()
    )
    conditions = {**written, **{change.name: change.after for change in made}}
    return replace(
        scene,
        conditions=tuple(Condition(name=name, measure=measure) for name, measure in conditions.items()),
        changes=made,
    )


def _measure(name: str, value: str | int) -> Measure:
    """A value as a scene file would have it: a whole number bare, anything else with its unit."""
    text = str(value)
    if _WHOLE.fullmatch(text):
        return Measure(text=text.strip(), value=float(text), unit="1")
    try:
        return readings.measure_or_word(text)
    except SonifyError as error:
        raise BadChange(one_line(name, 60), one_line(text, 60), error) from None
