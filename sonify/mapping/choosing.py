"""Rules to start from, for any process: which of its quantities could be heard as what, each tried on this very run."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from itertools import takewhile

import numpy as np

from sonify.frozen import dataclass
from sonify.kinds.marks import DYNAMICS
from sonify.mapping.advice import round_ends
from sonify.mapping.piece import map_scene
from sonify.records.process import ProcessSpec
from sonify.records.scene import Measure, Music, PartPlan, Rule, Scene
from sonify.records.timeline import FloatArray, Quantity, Timeline
from sonify.units import convert, known

#: What the two ends become, as a file writes it and in the control's own unit (our own choice, all well inside the
#: limits), and the texture that shows the control best.
USUAL = {
    "tempo": (("66 bpm", 66.0), ("120 bpm", 120.0)),
    "pitch": (("C4", 60.0), ("A5", 81.0)),
    "density": (("1 per bar", 0.25), ("3 per beat", 3.0)),
    "dynamics": (("pp", float(DYNAMICS["pp"])), ("f", float(DYNAMICS["f"]))),
    "brightness": (("10 %", 0.1), ("90 %", 0.9)),
}
TEXTURE = {"pitch": "melody", "density": "scatter", "dynamics": "drone", "brightness": "ostinato"}
#: Two quantities that go together more closely than this tell one story twice (our own choice).
ALIKE = 0.97
EARS = (7, 9)  # the ages for whose ears a rule is tried: each has thresholds of its own
MOST_ALIKE = 4  # that can be compared by ear
POINTS = 40  # in each stage, at which quantities are compared


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleChoice:
    """Rules that all can be heard, at most one for each control. gliding: the tempo has to follow bar by bar."""

    rules: tuple[Rule, ...]
    gliding: bool = False


def chosen(process: ProcessSpec, timeline: Timeline, why: Callable[[str, str], str]) -> RuleChoice:
    """Rules for a process's run, by what the ear can tell apart; its first quantities are asked first.

    The beat is for all, so it follows what is nobody's alone; what is measured of several alike ("temperature of cup A"
    and B) is heard by one rule, over one range. why: the sentence for a control and a quantity.
    """
    moving = {quantity.name: quantity for quantity in timeline.quantities if _moves(quantity)}
    shapes = {name: _shape(quantity, timeline) for name, quantity in moving.items()}
    alone = [name for name in moving if len(family(name, moving)) == 1]
    counted = [name for name in alone or moving if moving[name].true_zero]
    tempo, gliding = _beat(process, timeline, [_rules("tempo", [moving[name]], why) for name in counted])
    rules = list(tempo)
    used: list[str] = []
    for control in TEXTURE:
        names = moving if control == "pitch" else alone
        fresh = [family(name, moving) for name in names if not _told(shapes, name, used)]
        tried = (_rules(control, [moving[name] for name in members], why) for members in fresh)
        found = next((each for each in tried if _distinct(process, timeline, each, gliding)), ())
        used += [rule.quantity for rule in found]
        rules += found
    return RuleChoice(rules=tuple(replace(rule, key=f"hear.{n}") for n, rule in enumerate(rules)), gliding=gliding)


def family(name: str, others: Mapping[str, Quantity]) -> list[str]:
    """The quantities that are measured of several alike: "temperature of cup A" and B.

    Their names begin with the same words, share two at least, and differ in one place; their unit is the same.
    """
    found = [other for other in others if others[other].unit == others[name].unit and _alike(name, other)]
    return found if 1 < len(found) <= MOST_ALIKE else [name]


def _alike(one: str, other: str) -> bool:
    if one == other:
        return True
    mine, theirs = one.split(), other.split()
    before = _same(mine, theirs)
    after = _same(mine[before:][::-1], theirs[before:][::-1])
    return before > 0 and before + after > 1 and min(len(mine), len(theirs)) > before + after


def _same(mine: Sequence[str], theirs: Sequence[str]) -> int:
    """How many words both begin with."""
    return sum(1 for _ in takewhile(lambda pair: pair[0] == pair[1], zip(mine, theirs, strict=False)))


def _beat(process: ProcessSpec, timeline: Timeline, tried: Sequence[tuple[Rule, ...]]) -> tuple[tuple[Rule, ...], bool]:
    """The rule for the tempo that tells most stages apart, and whether it must glide; none where none can be heard.

    What is felt as one with another quantity (a molecule's speed with the temperature) comes before all others.
    """
    specs = {spec.name: spec for spec in process.quantities}
    for glides in (False, True):
        told = [_distinct(process, timeline, rules, glides) for rules in tried]
        if any(told):
            worth = [
                bool(n) * (n + 100 * bool(specs[r[0].quantity].companion)) for r, n in zip(tried, told, strict=True)
            ]
            return tried[worth.index(max(worth))], glides
    return (), False


def _moves(quantity: Quantity) -> bool:
    """Whether it changes by more than rounding, and has a unit that a file can write."""
    least, most = float(quantity.values.min()), float(quantity.values.max())
    return quantity.unit != "1" and known(quantity.unit) and most - least > 1e-9 * max(abs(least), abs(most), 1e-12)


def _shape(quantity: Quantity, timeline: Timeline) -> FloatArray:
    """How the quantity goes, every stage counting alike."""
    moments = [np.linspace(stage.start_s, stage.end_s, POINTS) for stage in timeline.stages]
    return np.interp(np.concatenate(moments), timeline.time_s, quantity.values)


def _told(shapes: dict[str, FloatArray], name: str, used: Sequence[str]) -> bool:
    """Whether a quantity that is heard already goes the same way, or just the other."""
    mine = shapes[name]
    if float(np.std(mine)) == 0.0:
        return True
    return any(abs(float(np.corrcoef(mine, shapes[other])[0, 1])) > ALIKE for other in used)


def _rules(control: str, quantities: Sequence[Quantity], why: Callable[[str, str], str]) -> tuple[Rule, ...]:
    """Rules that take all that the quantities do in this run onto the control's usual ends: one range for all."""
    values = np.concatenate([convert(each.values, each.si_unit, each.unit) for each in quantities])
    low, high = round_ends(float(values.min()), float(values.max()))
    (low_text, to_low), (high_text, to_high) = USUAL[control]
    return tuple(
        Rule(
            quantity=each.name,
            control=control,
            low=_measure(low, each.unit),
            high=_measure(high, each.unit),
            to_low=to_low,
            to_high=to_high,
            to_low_text=low_text,
            to_high_text=high_text,
            why=why(control, each.name),
            part=None if control == "tempo" else each.name[:1].upper() + each.name[1:],
            key=f"hear.{number}",
        )
        for number, each in enumerate(quantities)
    )


def _measure(value: float, unit: str) -> Measure:
    return Measure(text=f"{value:.10g} {unit}", value=value, unit=unit)


def _distinct(process: ProcessSpec, timeline: Timeline, rules: tuple[Rule, ...], gliding: bool) -> int:
    """How many sounds the stages have by these rules; 0 where one cannot be heard, or something is to be mended."""
    scene = Scene(
        name="choice",
        title="",
        process=process.name,
        story="",
        ages=(min(EARS), max(EARS)),
        music=replace(Music(), gliding=gliding),
        rules=rules,
        parts=tuple(_part(rule) for rule in rules if rule.part),
    )
    told = 0
    for youngest in EARS:
        controls, findings = map_scene(scene, timeline, process, youngest=youngest)
        if not all(key.audible for key in controls.keys) or any(f.serious and f.kind != "science" for f in findings):
            return 0
        told = max(len({sound for _, _, sound in key.stages}) for key in controls.keys)
    return told


def _part(rule: Rule) -> PartPlan:
    return PartPlan(name=rule.part or "", texture=TEXTURE[rule.control], sounds=())
