"""What a person may move: each condition and each end of a rule as steps, in the unit that the file is written in.

A page shows these steps and sends back their texts: it reckons with no unit and rounds no number.
"""

from __future__ import annotations

from bisect import bisect_left
from math import ceil, floor, log10

from sonify.frozen import dataclass
from sonify.kinds.marks import DYNAMICS
from sonify.records.fact import Amount
from sonify.records.process import ConditionSpec
from sonify.records.scene import Measure, Music, Rule
from sonify.records.timeline import Quantity
from sonify.records.words import number_text
from sonify.units import convert, printed

#: About so many steps for a condition and for an end of a rule (our own choice).
CONDITION_STEPS, RULE_STEPS = 100, 40
#: A range whose ends differ by more than this factor moves by ratios, not by differences (our own choice).
WIDE = 200.0
#: How far beyond what a quantity does in this run the `from` of a rule can be set, as a share of its span.
BEYOND = 0.25

_NICE = (1.0, 2.0, 5.0, 10.0)
#: Densities as a class counts them: strokes a bar, then strokes a beat.
_TAPS = (*(f"{n} per bar" for n in (1, 2, 3, 4, 6)), *(f"{n} per beat" for n in (2, 3, 4, 5, 6, 8, 10, 12)))
_LETTERS = ("C", "C#", "D", "Eb", "E", "F", "F#", "G", "G#", "A", "Bb", "B")
#: C2 to C7: what school instruments can sound, with room to spare. Brightness in per cent.
_LOWEST, _HIGHEST = 36, 96


@dataclass(frozen=True, slots=True, kw_only=True)
class Steps:
    """Texts in rising order, as a file has them; `shown` the same for people; `at` where the present value stands."""

    texts: tuple[str, ...]
    shown: tuple[str, ...]
    at: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Slider:
    """A condition's slider in the unit of the file. choices: the values to choose where equal steps would not serve."""

    value: float
    unit: str
    low: float
    high: float
    step: float
    choices: Steps | None = None


def nice_step(span: float, steps: int) -> float:
    """The round number that parts a span into at most so many steps.

    >>> nice_step(30.0, 100), nice_step(364.0, 100)
    (0.5, 5.0)
    """
    least = span / steps
    power = 10.0 ** floor(log10(least))
    return next(power * each for each in _NICE if power * each >= least * (1.0 - 1e-9))


def tidy(value: float) -> float:
    """A number without the dust of a change of units."""
    return float(f"{value:.9g}") + 0.0


def plain(value: float) -> str:
    """A number as a file has it: digits, no exponent.

    >>> plain(0.00001), plain(14.0), plain(2.50)
    ('0.00001', '14', '2.5')
    """
    text = f"{value:.12f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


def written_decimals(text: str) -> int:
    """How many decimals a measure was written with: "46.5 deg" has one."""
    number = text.split()[0] if text.split() else ""
    return len(number.partition(".")[2].rstrip("0%°abcdefghijklmnopqrstuvwxyz/*"))


def slider_of(spec: ConditionSpec, measure: Measure) -> Slider:
    """The slider of a condition, from its least to its most allowed value."""
    if spec.choices:
        at = spec.choices.index(measure.text)
        words = Steps(texts=spec.choices, shown=spec.choices, at=at)
        return Slider(value=float(at), unit="", low=0.0, high=len(spec.choices) - 1.0, step=1.0, choices=words)
    unit = measure.unit
    low, high = sorted(tidy(convert(end, spec.si_unit, unit)) for end in (spec.low, spec.high))
    if spec.whole:
        return Slider(value=measure.value, unit="", low=ceil(low), high=floor(high), step=1.0)
    if low > 0.0 and high / low > WIDE:
        values = ratio_values(low, high)
        return Slider(
            value=measure.value,
            unit=unit,
            low=low,
            high=high,
            step=tidy(values[1] - values[0]),
            choices=_steps(values, unit, measure),
        )
    step = min(nice_step(high - low, CONDITION_STEPS), 10.0 ** -written_decimals(measure.text) if measure.text else 1e9)
    if spec.si_unit != "1" or unit != "1":
        step = max(step, (high - low) / 20_000)
    return Slider(
        value=measure.value,
        unit=unit,
        low=tidy(ceil(low / step - 1e-6) * step),
        high=tidy(floor(high / step + 1e-6) * step),
        step=tidy(step),
    )


def ratio_values(low: float, high: float) -> list[float]:
    """Round numbers that rise by about the same ratio, the ends among them."""
    mantissas = (1.0, 1.2, 1.5, 2.0, 2.5, 3.0, 4.0, 5.0, 6.0, 8.0)
    found = [m * 10.0**power for power in range(floor(log10(low)), ceil(log10(high)) + 1) for m in mantissas]
    inner = [tidy(value) for value in found if low * (1 + 1e-9) < value < high * (1 - 1e-9)]
    return [low, *inner, high]


def _steps(values: list[float], unit: str, now: Measure) -> Steps:
    """Values as texts of a file, the present one among them exactly as it is written."""
    rows = [(value, f"{plain(value)} {unit}".strip()) for value in values if abs(value - now.value) > 1e-9]
    place = bisect_left([value for value, _ in rows], now.value)
    rows.insert(place, (now.value, now.text))
    return Steps(
        texts=tuple(text for _, text in rows),
        shown=tuple(f"{number_text(value, 4)} {printed(unit)}".strip() for value, _ in rows),
        at=place,
    )


def from_steps(rule: Rule, quantity: Quantity) -> tuple[Steps, Steps]:
    """Steps for both ends of a rule's `from`: what the quantity does in this run, and some room on both sides."""
    found = []
    for end in (rule.low, rule.high):
        other = rule.high if end is rule.low else rule.low
        values = convert(quantity.values, quantity.si_unit, end.unit)
        others = tidy(convert(convert(other.value, other.unit, quantity.si_unit), quantity.si_unit, end.unit))
        low, high = min(float(values.min()), end.value, others), max(float(values.max()), end.value, others)
        room = BEYOND * (high - low)
        least = max(0.0, low - room) if quantity.true_zero and low >= 0.0 else low - room
        step = nice_step(high + room - least, RULE_STEPS)
        first, last = floor(least / step), ceil((high + room) / step)
        found.append(_steps([tidy(number * step) for number in range(first, last + 1)], end.unit, end))
    return found[0], found[1]


def to_texts(control: str, music: Music) -> tuple[str, ...]:
    """The sounds that an end of a rule can be set to, rising."""
    if control == "tempo":
        return tuple(f"{bpm} bpm" for bpm in range(ceil(music.slowest_bpm), floor(music.fastest_bpm) + 1, 2))
    if control == "pitch":
        return tuple(f"{_LETTERS[note % 12]}{note // 12 - 1}" for note in range(_LOWEST, _HIGHEST + 1))
    if control == "density":
        return _TAPS
    if control == "dynamics":
        return tuple(DYNAMICS)
    return tuple(f"{share} %" for share in range(0, 101, 5))


def to_values(control: str, texts: tuple[str, ...], music: Music) -> list[float]:
    """The same in the control's own unit."""
    if control == "dynamics":
        return [float(DYNAMICS[text]) for text in texts]
    if control == "pitch":
        return [float(_LOWEST + place) for place in range(len(texts))]
    numbers = [float(text.split()[0]) for text in texts]
    if control == "brightness":
        return [number / 100.0 for number in numbers]
    if control == "density":
        return [n / music.metre.beats if t.endswith("bar") else n for n, t in zip(numbers, texts, strict=True)]
    return numbers


def to_steps(rule: Rule, music: Music) -> tuple[Steps, Steps]:
    """Steps for both ends of a rule's `to`, the present ones exactly as they are written."""
    texts = to_texts(rule.control, music)
    rows = sorted(zip(to_values(rule.control, texts, music), texts, strict=True))
    found = []
    for value, text in ((rule.to_low, rule.to_low_text), (rule.to_high, rule.to_high_text)):
        others = [row for row in rows if abs(row[0] - value) > 1e-9]
        place = bisect_left([row[0] for row in others], value)
        mine = [row[1] for row in others]
        mine.insert(place, text)
        found.append(Steps(texts=tuple(mine), shown=tuple(read_as(rule.control, each) for each in mine), at=place))
    return found[0], found[1]


def ends(rule: Rule) -> dict[str, str | Amount]:
    """Both ends of a rule as people read them, for a sentence: low and high of its quantity, to_low and to_high."""
    low, high = (Amount(value=end.value, unit=end.unit, digits=4) for end in (rule.low, rule.high))
    to_low, to_high = (read_as(rule.control, text) for text in (rule.to_low_text, rule.to_high_text))
    return {"low": low, "high": high, "to_low": to_low, "to_high": to_high}


def short_ends(rule: Rule) -> dict[str, str | Amount]:
    """The same for a narrow line: the first of two alike says no unit, "56 to 126 beats a minute"."""
    told = ends(rule)
    if rule.low.unit == rule.high.unit:
        told["low"] = Amount(value=rule.low.value, digits=4)
    (number, unit), (_, other) = (_parted(str(told[end])) for end in ("to_low", "to_high"))
    if unit == other:
        told["to_low"] = number
    return told


def _parted(text: str) -> tuple[str, str]:
    """A sound's number and what it counts, whatever the number: one tap a beat and two taps a beat are alike."""
    number, _, unit = text.partition(" ")
    return number, unit.replace("tap ", "taps ")


def read_as(control: str, text: str) -> str:
    """A sound as people read it: "66 beats a minute", "F♯4", "2 taps a beat"."""
    if control == "tempo":
        return text.replace("bpm", "beats a minute")
    if control == "pitch":
        return text[0] + text[1:].replace("#", "♯").replace("b", "♭")
    if control == "density":
        count, _, per = text.partition(" per ")
        return f"{count} {'tap' if count == '1' else 'taps'} a {per}"
    return text
