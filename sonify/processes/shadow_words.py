"""The stages of a stick's shadow through a day, and what is told of them by the clock that hangs there."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from math import atan2, radians

import numpy as np

from sonify.processes.specs import Declared
from sonify.processes.telling import Stretch, fixed
from sonify.records.fact import Amount, Arg, Claim, Fact, Reading, Words, fact
from sonify.records.timeline import Event
from sonify.units import convert

SHADOW, HEIGHT, PACE = "shadow", "height of the Sun", "pace of the shadow"
ORDER = ("shrinking fast", "shrinking slowly", "growing slowly", "growing fast")
TWELVE_S = 12.0 * 3600.0
#: Lengths under this are told in millimetres, from the other on in metres.
SHORT_M, LONG_M = 0.02, 10.0
#: A shadow of no more than this share of its stick is told as none.
NONE = 0.005
#: A clock is read to the minute: what comes nearer to twelve than half of one comes at twelve.
HALF_A_MINUTE_S = 30.0

_DECLARED = Declared("shadow")
STAGES = tuple(_DECLARED.stage(name) for name in ORDER)


def told(whole: Stretch, found: Mapping[str, tuple[int, int]]) -> dict[str, Words]:
    """The facts of each stage, the slow ones beside the fast one of their half of the day."""
    cut = {name: whole.steps(*span) for name, span in found.items()}
    beside = {"shrinking slowly": "shrinking fast", "growing slowly": "growing fast"}
    return {name: _stage(name, here, cut.get(beside.get(name, ""))) for name, here in cut.items()}


def _stage(name: str, here: Stretch, fast: Stretch | None) -> Fact:
    way = "shrinks" if name.startswith("shrinking") else "grows"
    trend = here.falls(SHADOW) if way == "shrinks" else here.rises(SHADOW)
    figures: dict[str, Arg] = {
        "since": here.begins(name),
        "until": here.ends(name),
        "from": _long(here, "first"),
        "to": _long(here, "last"),
        "low": here.figure(HEIGHT, "first", places=0),
        "high": here.figure(HEIGHT, "last", places=0),
    }
    plain = fact(f"shadow-{way}", trend, **figures)
    if fast is None:
        return plain
    slower = Claim(kind="less", left=here.reading(PACE, "mean"), right=fast.reading(PACE, "mean"))
    return fact(f"shadow-{way}-slowly", trend, slower, **figures).or_else(plain)


def _long(here: Stretch, how: str) -> Amount:
    """A length of the shadow, in metres where it is very long and in millimetres where it is very short."""
    length = here.at(SHADOW, how)
    if length >= LONG_M:
        return here.figure(SHADOW, how, unit="m", places=1)
    return here.figure(SHADOW, how, unit="mm" if length < SHORT_M else "cm", places=0)


def events(whole: Stretch, found: Mapping[str, tuple[int, int]], stick: float) -> tuple[Event, ...]:
    """The shortest shadow, what twelve o'clock has, and when the shadow is as long as the stick."""
    highest = whole.steps(*found["growing slowly"]).start
    twelve = TWELVE_S - whole.hour_zero * 3600.0
    rows = [(highest, "shortest shadow")]
    if whole.start <= twelve <= whole.end and abs(twelve - highest) > HALF_A_MINUTE_S:
        rows.append((twelve, "twelve o'clock"))
    for half, name in ((ORDER[:2], "as long as the stick"), (ORDER[2:], "as long as the stick again")):
        cut = whole.between(whole.steps(*found[half[0]]).start, whole.steps(*found[half[1]]).end)
        moment = _at_45(cut)
        if moment is not None:
            rows.append((moment, name))
    return tuple(Event(name=name, time_s=at, text=_event(name, at, whole, stick)) for at, name in sorted(rows))


def _at_45(cut: Stretch) -> float | None:
    """When in this half of the day the Sun is seen at 45°; None where it is not, or only at its end."""
    inside = (cut.time_s > cut.start) & (cut.time_s < cut.end)
    off = np.abs(cut.quantities[HEIGHT].values[inside] - radians(45.0))
    return float(cut.time_s[inside][int(off.argmin())]) if off.min() < 1e-6 else None


def _event(name: str, at: float, whole: Stretch, stick: float) -> Words:
    here = whole.between(at, at)
    happens = Reading(how="happens", of=name)
    if name.startswith("as long"):
        stands = Amount(value=100.0 * stick, unit="cm", digits=3, source=Reading(how="condition", of="stick"))
        alike = Claim(
            kind="same", left=here.reading(SHADOW, "first"), right=Reading(how="condition", of="stick"), slack=1e-4
        )
        message = "shadow-as-long-again" if name.endswith("again") else "shadow-as-long"
        return fact(message, alike, stick=stands, high=here.figure(HEIGHT, "first", places=0))
    if name == "twelve o'clock":
        return _twelve(here, whole)
    return (_shortest(here, whole), _beside_twelve(at, happens, whole))


def _twelve(here: Stretch, whole: Stretch) -> Fact:
    """What the clock's twelve has, beside the shortest: longer, or the same as far as a class can read."""
    long, shortest = _long(here, "first"), _long(whole, "least")
    now, least = here.reading(SHADOW, "first"), whole.reading(SHADOW, "least")
    if (long.unit, f"{long.value:.{long.places}f}") == (shortest.unit, f"{shortest.value:.{shortest.places}f}"):
        step = float(convert(10.0 ** -(long.places or 0), long.unit, "m"))
        alike = Claim(kind="at most", left=replace(now, less=least), right=fixed(step))
        return fact("shadow-twelve-alike", alike, long=long)
    return fact("shadow-twelve", Claim(kind="more", left=now, right=least, slack=1e-6), long=long, shortest=shortest)


def _shortest(here: Stretch, whole: Stretch) -> Fact:
    length = here.reading(SHADOW, "first")
    is_least = Claim(kind="same", left=length, right=whole.reading(SHADOW, "least"), slack=1e-6)
    high = here.figure(HEIGHT, "first", places=0)
    none = Claim(kind="at most", left=replace(length, per=Reading(how="condition", of="stick")), right=fixed(NONE))
    shortest = fact("shadow-shortest", is_least, long=_long(here, "first"), high=high)
    if here.at(HEIGHT, "first") < atan2(1.0, NONE):
        return shortest
    return fact("shadow-none", is_least, none, high=high).or_else(shortest)


def _beside_twelve(at: float, happens: Reading, whole: Stretch) -> Fact:
    """How many minutes before or after twelve by the clock."""
    after = whole.hour_zero * 3600.0 + at - TWELVE_S
    apart = replace(happens, less=fixed(TWELVE_S - whole.hour_zero * 3600.0), times=1.0 if after > 0.0 else -1.0)
    half = fixed(HALF_A_MINUTE_S)
    if abs(after) <= HALF_A_MINUTE_S:
        return fact("shadow-at-twelve", Claim(kind="at most", left=apart, right=half))
    minutes = replace(apart, per=fixed(1.0), times=apart.times / 60.0)  # `per`: nothing is left to convert
    by = Amount(value=abs(after) / 60.0, unit="minute", places=0, source=minutes)
    message = "shadow-after-twelve" if after > 0.0 else "shadow-before-twelve"
    return fact(message, Claim(kind="at least", left=apart, right=half), by=by)
