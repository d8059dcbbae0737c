"""How much a rule exaggerates: the ratio of the sound against the ratio of the quantity, in a number and in words."""

from __future__ import annotations

from dataclasses import dataclass
from math import log

from sonify.mapping.companions import ValueWords
from sonify.mapping.rules import BoundRule
from sonify.records.words import number_text

#: A factor this near to 1 is called no exaggeration (our own choice).
_SAME = 0.05

#: What has a ratio in each control. Brightness has none.
_WHAT = {
    "tempo": "the beat",
    "pitch": "the frequency of the notes",
    "density": "the number of taps",
    "dynamics": "the amplitude of the sound",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Exaggeration:
    """factor: ln(ratio of sound) / ln(ratio of quantity), None where a ratio means nothing. words: always there."""

    factor: float | None
    words: str


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


def exaggeration(bound: BoundRule, words: ValueWords, subject: str) -> Exaggeration:
    """The factor over the rule's whole range, and words for the teacher. subject: whose quantity it is, in words."""
    control, curve, quantity = bound.rule.control, bound.curve, bound.quantity
    if control == "brightness":
        return _none("brightness has no unit, so a ratio of it means nothing: it only goes from dark to bright.")
    if not quantity.true_zero:
        return _none(
            f"the zero of the {quantity.name} is only a point on its scale, so a ratio of it means nothing; "
            "compare differences."
        )
    if curve.low <= 0.0:
        begins = "starts from nothing" if curve.low == 0.0 else "goes below nothing"
        return _none(f"the range of the {quantity.name} {begins}, and no number of times nothing makes something.")
    ratio = sound_ratio(control, curve.to_low, curve.to_high)
    if ratio is None:
        return _none("the sound starts from silence, and no number of times silence makes a sound.")
    real = curve.high / curve.low
    factor = log(ratio) / log(real)
    kelvin = ", counted in kelvin from absolute zero," if quantity.si_unit == "K" else ""
    span = f"From {words.text(curve.low)} to {words.text(curve.high)}"
    changes = f"{span} {subject}{kelvin} {_change(real)}, {_WHAT[control]} {_change(ratio)}"
    return Exaggeration(factor=factor, words=f"{changes}: {_verdict(factor)}")


def _none(why: str) -> Exaggeration:
    return Exaggeration(factor=None, words=f"How many times bigger the sound makes it cannot be said: {why}")


def _change(ratio: float) -> str:
    """A ratio as a pupil reads it.

    >>> _change(1.697), _change(3.4), _change(0.88), _change(0.25)
    ('rises by 70 %', 'becomes 3.4 times as much', 'falls by 12 %', 'falls to 25 %')
    """
    if ratio >= 2.0:
        return f"becomes {number_text(ratio, 2)} times as much"
    if ratio >= 1.0:
        return f"rises by {number_text(100.0 * (ratio - 1.0), 2)} %"
    if ratio > 0.5:
        return f"falls by {number_text(100.0 * (1.0 - ratio), 2)} %"
    return f"falls to {number_text(100.0 * ratio, 2)} %"


def _verdict(factor: float) -> str:
    size = abs(factor)
    turned = ", and goes the other way" if factor < 0.0 else ""
    if abs(size - 1.0) <= _SAME:
        return f"the sound changes as strongly as the science does{turned}. Nothing is exaggerated."
    if size > 1.0:
        return (
            f"the sound exaggerates the change {number_text(size, 2)} times{turned}. "
            "Do not read the real change off the music."
        )
    return f"the sound changes less than the science does (factor {number_text(size, 2)}){turned}."
