"""How much a rule exaggerates: both changes side by side, as a child can check them, and for machines the slope.

The slope is ln(ratio of sound) / ln(ratio of quantity): 1 where the sound changes as strongly as the science. It is no
multiple: 3 % that became 70 % are 23 times as many per cent, and a slope of 18. Pupils are told the two changes.
"""

from __future__ import annotations

from dataclasses import replace
from math import log

from sonify.frozen import dataclass
from sonify.mapping.companions import ValueWords
from sonify.mapping.rules import SAME_SLOPE, BoundRule, sound_ratio
from sonify.records.fact import Amount, Claim, Fact, Named, Reading, fact

#: From this slope on the two changes are told to pupils, too (our own choice).
WORTH_TELLING = 1.5
#: A change is told as a multiple ("3.4 times as much") from this ratio on, and below its inverse; else in per cent.
_TIMES = 2.0
#: Differences, whose zero is their own: a ratio of them says how they grow, and not "from absolute zero".
_DIFFERENCES = ("K", "delta_degC")

#: An end of a rule is reached from so near, as a share of its range (our own: ends are rounded outwards).
REACHED = 0.1


@dataclass(frozen=True, slots=True, kw_only=True)
class Exaggeration:
    """slope: for machines, None where a ratio means nothing. words: both changes, and what they come to.

    for_pupils: the same in a child's words, where the sound changes a good deal more than the science.
    """

    slope: float | None
    words: tuple[Fact, ...]
    for_pupils: tuple[Fact, ...] = ()


def exaggeration(bound: BoundRule, values: ValueWords, whose: Fact) -> Exaggeration:
    """The slope over the rule's whole range, and both changes in words. whose: whose quantity it is."""
    control, curve, quantity = bound.rule.control, bound.curve, bound.quantity
    named = Named("quantity", quantity.name)
    if control == "brightness":
        return _none(fact("change-no-unit"))
    if not quantity.true_zero:
        return _none(fact("change-no-zero", quantity=named))
    if curve.low <= 0.0:
        nothing = Claim(kind="at most", left=Reading(how="low end", of=bound.rule.key), right=Reading(how="fixed"))
        begins = "at" if curve.low == 0.0 else "below"
        return _none(fact("change-from-nothing", nothing, quantity=named, begins=begins))
    ratio = sound_ratio(control, curve.to_low, curve.to_high)
    if ratio is None:
        return _none(fact("change-from-silence"))
    real = curve.high / curve.low
    slope = log(ratio) / log(real)
    in_kelvin = quantity.si_unit == "K" and quantity.unit not in _DIFFERENCES
    told = fact(
        "change-both",
        *_as_told(bound, ratio),
        low=values.told(curve.low),
        high=values.told(curve.high),
        whose=whose,
        kelvin="yes" if in_kelvin else "no",
        real=_change(real),
        control=control,
        sound=_change(ratio),
    )
    pupils = fact(
        "change-for-pupils",
        *_as_told(bound, ratio),
        subject=_subject(bound),
        reached="yes" if _reached(bound) else "no",
        quantity=named,
        low=values.for_a_child(curve.low),
        high=values.for_a_child(curve.high),
        real=_change(real),
        control=control,
        sound=_change(ratio),
    )
    # Pupils read degrees from freezing: a share counted from absolute zero would be a riddle.
    worth_telling = abs(slope) >= WORTH_TELLING and not in_kelvin
    return Exaggeration(
        slope=slope, words=(told, _sense(bound, real, ratio)), for_pupils=(pupils,) if worth_telling else ()
    )


def _none(why: Fact) -> Exaggeration:
    return Exaggeration(slope=None, words=(why,))


def _reached(bound: BoundRule) -> bool:
    """Whether the quantity goes from end to end of its rule, about; one of several that are compared may not."""
    low, high, values = bound.curve.low, bound.curve.high, bound.quantity.values
    near = REACHED * (high - low)
    return bool(values.min() <= low + near and values.max() >= high - near)


def _sound_reading(bound: BoundRule) -> Reading:
    high, low = (
        Reading(how="size by rule", of=bound.rule.key, level=end) for end in (bound.curve.high, bound.curve.low)
    )
    return Reading(how="size by rule", of=bound.rule.key, level=high.level, per=low)


def _as_told(bound: BoundRule, ratio: float) -> tuple[Claim, ...]:
    """That the ends of the rule sound as the ratio says, which way it goes included."""
    return (
        Claim(kind="by rule", left=_sound_reading(bound), right=Reading(how="fixed", level=ratio), slack=1e-6 * ratio),
    )


def _change(ratio: float) -> Fact:
    """A ratio as a pupil reads it: "rises by 70 %", "becomes 3.4 times as much", "falls by 12 %", "falls to 25 %"."""
    if ratio >= _TIMES:
        return fact("change-times", times=_figure(ratio))
    if ratio <= 1.0 / _TIMES:
        return fact("change-down-to", percent=_figure(100.0 * ratio))
    if ratio >= 1.0:
        return fact("change-up-by", percent=_figure(100.0 * (ratio - 1.0)))
    return fact("change-down-by", percent=_figure(100.0 * (1.0 - ratio)))


def _figure(value: float) -> Amount:
    return Amount(value=value, digits=2, given="worked out from the ends of the rule, which the claim holds")


def _sense(bound: BoundRule, real: float, ratio: float) -> Fact:
    """What the two changes come to: as strong, stronger, weaker; and whether the sound goes the other way."""
    slope = log(ratio) / log(real)
    turned = "yes" if slope < 0.0 else "no"
    if abs(abs(slope) - 1.0) <= SAME_SLOPE:
        return fact("change-as-strong", as_strong(bound), subject=_subject(bound), turned=turned)
    kind, message = ("more", "change-stronger") if abs(slope) > 1.0 else ("less", "change-weaker")
    return fact(message, replace(as_strong(bound), kind=kind, slack=1e-9), subject=_subject(bound), turned=turned)


def _subject(bound: BoundRule) -> str:
    """What the sound is compared with: the science, or a drawing, which is none."""
    return "drawing" if bound.quantity.drawn else "science"


def as_strong(bound: BoundRule) -> Claim:
    """That the sound becomes as many times as much over the whole rule as the science, or as many times less."""
    key, curve = bound.rule.key, bound.curve
    falls = curve.to_high < curve.to_low
    more, less = (curve.low, curve.high) if falls else (curve.high, curve.low)
    sound = Reading(how="size by rule", of=key, level=more, per=Reading(how="size by rule", of=key, level=less))
    science = Reading(how="high end", of=key, per=Reading(how="low end", of=key))
    slack = 1.0 - (curve.high / curve.low) ** -SAME_SLOPE + 1e-9
    return Claim(kind="same", left=sound, right=science, slack=slack)
