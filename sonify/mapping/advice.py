"""What to write instead: ends of a rule that would be heard, each tried on this very piece before it is offered."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from math import ceil, floor, log10

import numpy as np

from sonify.frozen import dataclass
from sonify.kinds.controls import CONTROLS
from sonify.mapping.audibility import Audit, audit
from sonify.mapping.hearing import Hearing
from sonify.mapping.rules import BoundRule
from sonify.mapping.sound_words import marks, written_text
from sonify.records.fact import Fact, Named, fact
from sonify.records.findings import RuleChange
from sonify.records.scene import Music
from sonify.units import convert

#: A rule that uses less of its range than this is helped by another `from` before a wider `to` is tried.
_ROOMY = 0.6
#: In so many steps a `to` is widened to its limits.
_WIDENINGS = 12


@dataclass(frozen=True, slots=True, kw_only=True)
class FromEnds:
    """A range to write: its ends in SI, exactly as they follow from the texts."""

    low: float
    high: float
    texts: tuple[str, str]


@dataclass(frozen=True, slots=True, kw_only=True)
class Mend:
    """What to do, and the change of the rule where it is one."""

    words: Fact
    change: RuleChange | None = None


def from_ends(bound: BoundRule, low: float, high: float) -> FromEnds | None:
    """A `from` that covers low..high (SI), rounded outwards to numbers worth writing; None where no range can.

    The unit is that of the rule's own `from`.
    """
    ends = (bound.written(low), bound.written(high))
    if not ends[1] - ends[0] > 1e-12 * max(abs(ends[0]), abs(ends[1])):
        return None
    unit = bound.rule.low.unit
    written = round_ends(*ends)
    si = [float(convert(end, unit, bound.quantity.si_unit)) for end in written]
    if bound.curve.kind == "logarithmic" and not si[0] > 0.0:
        return None
    name = "" if unit == "1" else f" {unit}"
    return FromEnds(low=si[0], high=si[1], texts=(f"{written[0]:.10g}{name}", f"{written[1]:.10g}{name}"))


def round_ends(low: float, high: float) -> tuple[float, float]:
    """The ends of a range rounded outwards, to numbers worth writing.

    >>> round_ends(547.6, 688.3), round_ends(0.0, 1.0494)
    ((540.0, 690.0), (0.0, 1.1))
    """
    digits = 1 - floor(log10(high - low))
    step = 10.0**-digits
    places = max(digits, 0)
    # The small allowance keeps an end that is a round number already.
    return round(floor(low / step + 1e-9) * step, places), round(ceil(high / step - 1e-9) * step, places)


def covering(bound: BoundRule, low: float, high: float) -> FromEnds | None:
    """A `from` that keeps the rule's own ends where low..high stays inside them and moves out where it does not."""
    return from_ends(bound, min(low, bound.curve.low), max(high, bound.curve.high))


def written(bound: BoundRule, low_high: tuple[str, str] | None = None, to: tuple[str, str] | None = None) -> Mend:
    """What to write, and in which rule of the scene file."""
    rule = bound.rule
    ends = (("from", low_high), ("to", to))
    text = " and ".join(f'{name} = ["{pair[0]}", "{pair[1]}"]' for name, pair in ends if pair)
    words = fact(
        "mend-write",
        text=text,
        quantity=Named("quantity", rule.quantity),
        control=Named("control", rule.control),
        whom="part" if rule.part else "all",
        part=rule.part or "",
    )
    return Mend(words=words, change=RuleChange(rule=int(rule.key.rpartition(".")[2]), low_high=low_high, to=to))


def remedy(hearing: Hearing, found: Audit) -> Mend:
    """What to write so that the whole rule is heard, or that nothing written here can help."""
    better = advice(hearing, found, lambda audit: audit.good)
    if better is not None:
        return better
    rule = hearing.bound.rule
    words = fact(
        "mend-no-ends",
        control=Named("control", rule.control),
        quantity=Named("quantity", rule.quantity),
        others=tuple(Named("control", control) for control in CONTROLS if control != rule.control),
    )
    return Mend(words=words)


def advice(hearing: Hearing, found: Audit, enough: Callable[[Audit], bool]) -> Mend | None:
    """The least change to write after which the rule is heard well enough; None where none of those tried does it."""
    for changed, low_high, to in _trials(hearing, found):
        if enough(audit(changed)):
            return written(hearing.bound, low_high, to)
    return None


#: A rule with other ends, and the texts that make it so.
Trial = tuple[Hearing, tuple[str, str] | None, tuple[str, str] | None]


def _trials(hearing: Hearing, found: Audit) -> Iterator[Trial]:
    """Changed rules with the texts that make the change, the least change first; none leaves a value outside."""
    curve = hearing.bound.curve
    low, high = found.swing
    outside = bool(np.any(hearing.bound.outside(np.array(found.swing))))
    bases: list[Trial] = [] if outside else [(hearing, None, None)]
    fitted = [
        covering(hearing.bound, low, high) if outside else None,
        # One end moves before both do: a range that starts from nothing goes on starting from nothing.
        from_ends(hearing.bound, min(low, curve.low), high),
        from_ends(hearing.bound, low, max(high, curve.high)),
        from_ends(hearing.bound, low, high),
    ]
    bases += [(hearing.over(ends.low, ends.high), ends.texts, None) for ends in fitted if ends is not None]
    used = (min(high, curve.high) - max(low, curve.low)) / (curve.high - curve.low)
    narrowed = [base for base in bases if base[1]]
    widened: list[Trial] = [(base.onto(a, b), low_high, to) for base, low_high, _ in bases for a, b, to in _wider(base)]
    # A rule that uses little of its range is helped most by a narrower one, any other by more room for the sound.
    yield from [*narrowed, *widened] if outside or used < _ROOMY else [*widened, *narrowed]


def _wider(hearing: Hearing) -> Iterator[tuple[float, float, tuple[str, str]]]:
    """Wider and wider ends for the control (low end, high end, their texts), in the rule's own direction."""
    control, curve = hearing.bound.rule.control, hearing.bound.curve
    if hearing.bound.rule.asked is not None:
        return  # the class's instruments reach no further
    rising = curve.to_high > curve.to_low
    least, most = sorted((curve.to_low, curve.to_high))
    for low, high in _ranges(control, least, most, hearing.music):
        if low > least or high < most or (low, high) == (least, most):
            continue
        ends = (low, high) if rising else (high, low)
        first, last = (written_text(control, end).strip('"') for end in ends)
        yield (*ends, (first, last))


def _ranges(control: str, least: float, most: float, music: Music) -> Iterator[tuple[float, float]]:
    shares = [(step + 1) / _WIDENINGS for step in range(_WIDENINGS)]
    if control == "dynamics":
        yield from sorted(((a, b) for a in marks() for b in marks() if a < b), key=lambda ends: ends[1] / ends[0])
        return
    lowest, highest, digits = {
        "tempo": (ceil(music.slowest_bpm), floor(music.fastest_bpm), 0),
        "pitch": (max(least - 12.0, 21.0), min(most + 12.0, 108.0), 0),
        "density": (least / 2.0, min(2.0 * most, 24.0), 2),
        "brightness": (0.0, 1.0, 2),
    }[control]
    # Shares are written in steps of 5 %.
    grain = 0.05 if control == "brightness" else 10.0**-digits
    for share in shares:
        yield (
            round(grain * round((least - share * max(least - lowest, 0.0)) / grain), digits),
            round(grain * round((most + share * max(highest - most, 0.0)) / grain), digits),
        )
