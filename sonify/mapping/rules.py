"""Rules at work: a scene's `hear QUANTITY as CONTROL` tied to the quantity it names, in SI units."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from math import log

import numpy as np

from sonify.errors import BadRule, OutOfRange, UnknownName
from sonify.frozen import dataclass
from sonify.kinds.controls import CONTROLS
from sonify.records.fact import wrong
from sonify.records.process import ProcessSpec
from sonify.records.scene import CURVES, Measure, Rule, Scene
from sonify.records.timeline import FloatArray, Quantity, Timeline
from sonify.units import UnitError, convert, printed

# How a quantity runs along its control: a share from 0 at the rule's low end to 1 at its high end, and back.
#
# Nothing here clamps: a value outside the range is refused, and holding one at the end is the caller's open choice
# (`held`).


@dataclass(frozen=True, slots=True, kw_only=True)
class RuleCurve:
    """low < high of one measure, run onto to_low..to_high of another; to_low and to_high differ, either is larger.

    kind "linear": equal steps of the measure are equal steps of the control. "logarithmic": equal *ratios* of the
    measure are equal steps of the control, and low is above 0. "decibels", of a loudness: equal steps of the measure
    are equal ratios of the velocity, so equal steps in decibels.
    """

    kind: str
    low: float
    high: float
    to_low: float
    to_high: float

    def __post_init__(self) -> None:
        if not self.low < self.high or self.to_low == self.to_high:
            raise ValueError("a curve has a low end, a high end and something to run between")
        if self.kind == "logarithmic" and not self.low > 0.0:
            raise ValueError("a logarithmic curve starts above 0")
        if self.kind == "decibels" and not min(self.to_low, self.to_high) > 0.0:
            raise ValueError("decibels run between two sounds, and silence is none")

    def share(self, values: FloatArray) -> FloatArray:
        """How far along the range, 0 at low, 1 at high; beyond the ends the curve runs on (a logarithm needs > 0)."""
        if self.kind == "logarithmic":
            return np.asarray(np.log(values / self.low) / np.log(self.high / self.low))
        return (values - self.low) / (self.high - self.low)

    def forward(self, values: FloatArray) -> FloatArray:
        """The control for each value, exact at both ends. Raises OutOfRange outside low..high."""
        _refuse(values, self.low, self.high, "value")
        if self.kind == "decibels":
            share = self.share(values)
            found = np.where(share == 1.0, self.to_high, self.to_low * (self.to_high / self.to_low) ** share)
            return _within(found, min(self.to_low, self.to_high), max(self.to_low, self.to_high))
        return _between(self.share(values), self.to_low, self.to_high)

    def inverse(self, controls: FloatArray) -> FloatArray:
        """The value for each control, exact at both ends. Raises OutOfRange outside to_low..to_high."""
        _refuse(controls, min(self.to_low, self.to_high), max(self.to_low, self.to_high), "control")
        if self.kind == "decibels":
            share = np.asarray(np.log(controls / self.to_low) / np.log(self.to_high / self.to_low))
        else:
            share = (controls - self.to_low) / (self.to_high - self.to_low)
        if self.kind == "logarithmic":
            return _within(self.low * (self.high / self.low) ** share, self.low, self.high)
        return _between(share, self.low, self.high)

    def held(self, values: FloatArray) -> tuple[FloatArray, FloatArray]:
        """The values with those outside held at the nearer end, and by how much each lay outside (0 within)."""
        kept = np.clip(values, self.low, self.high)
        return kept, values - kept


def _refuse(values: FloatArray, least: float, most: float, name: str) -> None:
    for end in (np.min(values), np.max(values)):
        if not least <= end <= most:  # "not <=", so that nan fails too
            raise OutOfRange(name, float(end), "", f"{least:g} to {most:g}", "the curve")


def _between(share: FloatArray, start: float, end: float) -> FloatArray:
    """start at 0, end at 1, exactly, and never past them by a rounding error."""
    found = np.where(share == 1.0, end, start + share * (end - start))
    return _within(found, min(start, end), max(start, end))


def _within(values: FloatArray, least: float, most: float) -> FloatArray:
    # Takes off the last bit that floating point may add at an end; values outside were refused before.
    return np.minimum(np.maximum(values, least), most)


#: What each control can be at all, as scene files allow: our own limits, but for MIDI's velocities.
CONTROL_LIMITS = {
    "tempo": (30.0, 240.0),
    "pitch": (21.0, 108.0),
    "density": (0.0, 24.0),
    "dynamics": (1.0, 127.0),
    "brightness": (0.0, 1.0),
}


#: A slope this near to 1 is called no exaggeration (our own choice).
SAME_SLOPE = 0.05


def sound_ratio(control: str, low: float, high: float) -> float | None:
    """The ratio of the sound from one value of a control to another, None where it has none.

    Tempo and density as they are; pitch as frequency, 2^(semitones / 12); dynamics as amplitude, by the law of 40 log10
    of the velocity in dB, that is the velocities' ratio squared.

    >>> sound_ratio("pitch", 60.0, 72.0), sound_ratio("dynamics", 44.0, 88.0), sound_ratio("brightness", 0.2, 0.4)
    (2.0, 4.0, None)
    """
    if control == "pitch":
        return float(2.0 ** ((high - low) / 12.0))
    if control == "brightness" or low <= 0.0 or high <= 0.0:
        return None
    return float((high / low) ** (2 if control == "dynamics" else 1))


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class BoundRule:
    """A rule, the quantity it hears, and its curve in SI (a range written from high to low is turned round)."""

    rule: Rule
    quantity: Quantity
    curve: RuleCurve

    @property
    def place(self) -> str:
        """The rule in words: "rain rate as density for The rain"."""
        whom = f" for {self.rule.part}" if self.rule.part else ""
        return f"{self.rule.quantity} as {self.rule.control}{whom}"

    def apply(self, values: FloatArray) -> FloatArray:
        """The control for each value; a value outside the range sounds as the nearer end."""
        return self.curve.forward(self.curve.held(values)[0])

    def outside(self, values: FloatArray) -> FloatArray:
        """By how much each value lies outside the range, SI, 0 within: what `apply` held.

        A billionth of the range counts as within: a change of units may round so much.
        """
        beyond = self.curve.held(values)[1]
        return np.where(np.abs(beyond) <= 1e-9 * (self.curve.high - self.curve.low), 0.0, beyond)

    def over(self, low: float, high: float) -> BoundRule:
        """The same rule with another `from` (SI), to try out what it would do."""
        return replace(self, curve=replace(self.curve, low=low, high=high))

    def onto(self, to_low: float, to_high: float) -> BoundRule:
        """The same rule with another `to`, to try out what it would do."""
        return replace(self, curve=replace(self.curve, to_low=to_low, to_high=to_high))

    @property
    def slope(self) -> float | None:
        """ln(ratio of the sound) / ln(ratio of the quantity) over the whole range, None where a ratio means nothing."""
        ratio = sound_ratio(self.rule.control, self.curve.to_low, self.curve.to_high)
        if ratio is None or not self.quantity.true_zero or self.curve.low <= 0.0:
            return None
        return log(ratio) / log(self.curve.high / self.curve.low)

    @property
    def as_science(self) -> bool:
        """The sound changes as strongly as the science does, the same way: nothing is exaggerated."""
        return self.slope is not None and abs(self.slope - 1.0) <= SAME_SLOPE

    def written(self, si_value: float) -> float:
        """A value in the unit that the rule's `from` is written in."""
        return float(convert(si_value, self.quantity.si_unit, self.rule.low.unit))

    def readable(self, si_value: float) -> float:
        """A value in the unit that people read."""
        return float(convert(si_value, self.quantity.si_unit, self.quantity.unit))


def bound_rules(scene: Scene, timeline: Timeline, process: ProcessSpec) -> tuple[BoundRule, ...]:
    """Every rule of the scene, checked and tied to its quantity. Raises BadRule or UnknownName, naming the key."""
    _refuse_rivals(scene.rules)
    parts = [part.name for part in scene.parts]
    for rule in scene.rules:
        if rule.part is not None and rule.part not in parts:
            raise UnknownName("part", rule.part, parts, where=f"{rule.key}.part")
    return tuple(bound_rule(rule, timeline, process) for rule in scene.rules)


def bound_rule(rule: Rule, timeline: Timeline, process: ProcessSpec) -> BoundRule:
    """One rule, checked and tied to its quantity. Raises BadRule or UnknownName, naming the key."""
    if rule.control not in CONTROLS:
        raise UnknownName("control", rule.control, CONTROLS, where=f"{rule.key}.as")
    if rule.curve not in CURVES:
        raise UnknownName("curve", rule.curve, CURVES, where=f"{rule.key}.curve")
    if rule.control == "tempo" and rule.part is not None:
        raise BadRule(
            f"{rule.key}.part",
            wrong("error_mapping-tempo-class-follows", part=rule.part),
        )
    quantity = _quantity(rule, timeline, process)
    (low, to_low), (high, to_high) = sorted(
        [
            (_si(rule.low, quantity, f"{rule.key}.from"), rule.to_low),
            (_si(rule.high, quantity, f"{rule.key}.from"), rule.to_high),
        ]
    )
    _check_ends(rule, quantity, (low, high))
    return BoundRule(
        rule=rule,
        quantity=quantity,
        curve=RuleCurve(kind=rule.curve, low=low, high=high, to_low=float(to_low), to_high=float(to_high)),
    )


def _refuse_rivals(rules: Iterable[Rule]) -> None:
    first: dict[tuple[str, str | None], Rule] = {}
    for rule in rules:
        rival = first.setdefault((rule.control, rule.part), rule)
        if rival is not rule:
            whole = rule.part is None
            place = wrong("error_mapping-whole-piece") if whole else wrong("error_mapping-one-part", part=rule.part)
            raise BadRule(
                rule.key,
                wrong("error_mapping-sets-sets-already", control=rule.control, place=place, key=rival.key),
            )


def _quantity(rule: Rule, timeline: Timeline, process: ProcessSpec) -> Quantity:
    names = [spec.name for spec in process.quantities] or [quantity.name for quantity in timeline.quantities]
    if rule.quantity not in names:
        raise UnknownName("quantity", rule.quantity, names, where=f"{rule.key}.quantity")
    return timeline.quantity(rule.quantity)


def _si(measure: Measure, quantity: Quantity, key: str) -> float:
    try:
        return float(convert(measure.value, measure.unit, quantity.si_unit))
    except UnitError as error:
        raise BadRule(
            key,
            wrong(
                "error_mapping-measure-write",
                text=measure.text,
                name=quantity.name,
                printed=printed(quantity.unit),
                value=f"{measure.value:g}",
                unit=quantity.unit,
            ),
        ) from error


def _check_ends(rule: Rule, quantity: Quantity, ends: tuple[float, float]) -> None:
    low, high = ends
    if not (np.isfinite(low) and np.isfinite(high) and low < high):
        raise BadRule(
            f"{rule.key}.from", wrong("error_mapping-range-write-values", text=rule.low.text, text_2=rule.high.text)
        )
    least, most = CONTROL_LIMITS[rule.control]
    for text, value in ((rule.to_low_text, rule.to_low), (rule.to_high_text, rule.to_high)):
        if not least <= value <= most:
            unit = CONTROLS[rule.control].unit
            raise BadRule(
                f"{rule.key}.to",
                wrong(
                    "error_mapping-goes",
                    text=text,
                    control=rule.control,
                    least=f"{least:g}",
                    most=f"{most:g}",
                    unit=unit,
                ),
            )
    if rule.to_low == rule.to_high:
        raise BadRule(f"{rule.key}.to", wrong("error_mapping-both-ends-nothing", to_low_text=rule.to_low_text))
    if rule.curve == "decibels" and rule.control != "dynamics":
        raise BadRule(f"{rule.key}.curve", wrong("error_mapping-decibels-of-loudness", control=rule.control))
    if rule.curve == "logarithmic" and not (quantity.true_zero and low > 0.0):
        zero = "from" if quantity.true_zero else "scale"
        told = wrong(f"error_mapping-logarithmic-{zero}", name=quantity.name, unit=quantity.unit)
        raise BadRule(f"{rule.key}.curve", told)
