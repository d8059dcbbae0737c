"""The stages of a soaking test, found in its output, and the facts that are told of them, with this test's figures."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from sonify.processes.declared import Adviser, events_at, first, spans
from sonify.processes.soaking_model import MATERIALS, STOPPED, Material, Soak, Strip, soak
from sonify.processes.specs import Declared
from sonify.processes.telling import Stretch, fixed
from sonify.records.fact import Amount, Arg, Claim, Duration, Fact, Reading, Words, fact
from sonify.records.process import ConditionSpec
from sonify.records.timeline import Event, Missing

HALF = 0.5  # of all that is drunk in the test
LATE = 0.02  # of the test: a settled stretch shorter than this is none
AHEAD = 0.01  # so much more, as a share, and a cloth has clearly drunk more
TENTH_M3 = 0.1e-6  # a tenth of a millilitre
NEAR = 1e-6  # for the rounding of machine numbers, as a share

DECLARED = Declared("soaking")
_SHARE = Amount(value=100.0 * STOPPED, unit="percent", given="our own limit of having stopped")

STAGES = (
    DECLARED.stage("rushing"),
    DECLARED.stage("slowing", seen_as=fact("soaking-seen-slowing", share=_SHARE)),
    DECLARED.stage("parting", seen_as=fact("soaking-seen-parting", share=_SHARE)),
    DECLARED.stage("settled"),
)


def cloth(material: Material) -> Fact:
    """A cloth by its name, to stand in a sentence."""
    return fact(f"soaking-cloth-{material.key}")


def found(test: Soak) -> dict[str, tuple[int, int]]:
    """First and last sample of each stage that came."""
    last = test.time_s.size - 1
    stops = [test.stopped_at(strip) for strip in test.strips if strip.limit_m3 > 0.0]
    stopped = [stop for stop in stops if stop is not None]
    settled = max(stopped) if len(stopped) == len(stops) else None
    if settled is not None and last - settled < LATE * last:
        settled = None
    starts = {
        "rushing": 0,
        "slowing": first(test.total_m3 >= HALF * test.total_m3[-1]),
        "parting": min(stopped, default=None),
        "settled": settled,
    }
    return spans(starts, last)


def told(test: Soak, whole: Stretch, came: Mapping[str, tuple[int, int]]) -> dict[str, Words]:
    """The facts of each stage, with this test's own figures."""
    writers = {"rushing": _rushing, "slowing": _slowing, "parting": _parting, "settled": _settled}
    return {name: writers[name](test, whole.steps(*span)) for name, span in came.items()}


def _held(stretch: Stretch, material: Material) -> Amount:
    """What a cloth holds at the end of the stretch, to a tenth of a millilitre; less than that to one digit."""
    name = f"water in the {material.name}"
    if stretch.at(name, "last") < TENTH_M3:
        return stretch.figure(name, "last", digits=1)
    return stretch.figure(name, "last", places=1)


def _ranked(stretch: Stretch) -> list[Material]:
    """The cloths by what they hold at the end of the stretch, most first."""
    return sorted(MATERIALS, key=lambda m: -stretch.at(f"water in the {m.name}", "last"))


def _each(stretch: Stretch) -> tuple[Fact, ...]:
    """What each cloth holds at the end of the stretch, most first."""
    return tuple(fact("soaking-holds", cloth=cloth(m), volume=_held(stretch, m)) for m in _ranked(stretch))


def _order(stretch: Stretch) -> list[Claim]:
    """That each cloth of the list holds no less than the next."""
    readings = [stretch.reading(f"water in the {m.name}", "last") for m in _ranked(stretch)]
    return [Claim(kind="at least", left=more, right=less) for more, less in zip(readings, readings[1:], strict=False)]


def _pace(stretch: Stretch) -> Reading:
    """Water that goes in over the stretch, m³/s."""
    lasts = fixed(stretch.end - stretch.start)
    return replace(stretch.reading("water drunk", "change"), per=lasts)


def _a_minute(stretch: Stretch) -> Amount:
    value = 60e6 * stretch.at("water drunk", "change") / (stretch.end - stretch.start)
    return Amount(value=value, unit="ml", digits=2, source=replace(_pace(stretch), times=60e6))


def _rushing(test: Soak, stretch: Stretch) -> Words:
    return fact(
        "soaking-rushing",
        *_order(stretch),
        lasts=stretch.lasts("rushing"),
        together=stretch.figure("water drunk", "last", places=1),
        rate=_a_minute(stretch),
        each=_each(stretch),
    )


def _slowing(test: Soak, stretch: Stretch) -> Words:
    slower = Claim(kind="less", left=_pace(stretch), right=_pace(stretch.between(0.0, stretch.start)))
    figures: dict[str, Arg] = {"lasts": stretch.lasts("slowing"), "rate": _a_minute(stretch), "each": _each(stretch)}
    plain = fact("soaking-slowing-plain", *_order(stretch), **figures)
    return fact("soaking-slowing", slower, *_order(stretch), **figures).or_else(plain)


def _parting(test: Soak, stretch: Stretch) -> Words:
    last = int(np.searchsorted(test.time_s, stretch.end))
    stops = [(stop, strip) for strip in test.strips if (stop := test.stopped_at(strip)) is not None and stop <= last]
    stops.sort(key=lambda each: each[0])
    since = Duration(seconds=stretch.start, source=Reading(how="begins", of="parting"))
    because = [_because(strip, stretch.steps(stop, stop)) for stop, strip in stops]
    moments = [Reading(how="happens", of=f"{strip.material.name} stops") for _, strip in stops]
    if len(stops) > 1 and stops[0][0] < stops[1][0]:
        after = [Claim(kind="less", left=one, right=two) for one, two in zip(moments, moments[1:], strict=False)]
        if len({stop for stop, _ in stops}) == len(stops):
            return fact("soaking-parting", *after, **{"from": since}), *because
    here = Reading(how="begins", of="parting")
    at_least = Claim(kind="at least", left=here, right=moments[0])
    return fact("soaking-first-stops", at_least, **{"from": since}), *because


def _because(strip: Strip, here: Stretch) -> Fact:
    """Why a strip stops, with its own figures at that moment."""
    name = strip.material.name
    height = here.figure(f"wet height of the {name}", "first", digits=3)
    volume = _held(here, strip.material)
    high, length = here.reading(f"wet height of the {name}", "first"), Reading(how="condition", of="strip_length")
    limit = strip.limited_by
    if limit == "jar":
        left = here.reading(f"jar of the {name}", "first")
        full = Reading(how="condition", of="jar", times=1.0 - STOPPED + NEAR)
        return fact(
            "soaking-because-jar",
            Claim(kind="at most", left=left, right=full),
            cloth=cloth(strip.material),
            volume=volume,
        )
    claim = (
        Claim(kind="at least", left=high, right=replace(length, times=STOPPED - NEAR))
        if limit == "top"
        else Claim(kind="less", left=high, right=length, slack=NEAR)
    )
    return fact(f"soaking-because-{limit}", claim, cloth=cloth(strip.material), height=height, volume=volume)


def _settled(test: Soak, stretch: Stretch) -> Words:
    after = Duration(seconds=stretch.start, source=Reading(how="begins", of="settled"))
    left = Reading(how="last", of="water drunk", start=stretch.start, end=stretch.end, times=1.01 - STOPPED)
    little = Claim(kind="at most", left=stretch.reading("water drunk", "change"), right=left)
    return fact("soaking-settled", little, after=after), _winner(stretch)


def _winner(stretch: Stretch) -> Fact:
    """Who has drunk most, where somebody has."""
    best, second = _ranked(stretch)[:2]
    one, two = (stretch.reading(f"water in the {m.name}", "last") for m in (best, second))
    if stretch.at(one.of, "last") > (1.0 + AHEAD) * stretch.at(two.of, "last"):
        ahead = Claim(kind="more", left=one, right=two, slack=AHEAD)
        return fact("soaking-most", ahead, *_order(stretch), cloth=cloth(best), each=_each(stretch))
    alike = Claim(kind="same", left=one, right=two, slack=AHEAD)
    return fact("soaking-no-winner", alike, *_order(stretch), each=_each(stretch))


def events(test: Soak, whole: Stretch) -> tuple[Event, ...]:
    """Who leads, who overtakes whom, who stops, in order."""
    moments: list[tuple[int, str, Fact]] = []
    for strip in test.strips:
        stop, name = test.stopped_at(strip), strip.material.name
        if strip.limit_m3 <= 0.0:
            drunk, nothing = whole.reading(f"water in the {name}", "most"), fixed(0.0)
            dry = fact(
                "soaking-stays-dry", Claim(kind="at most", left=drunk, right=nothing), cloth=cloth(strip.material)
            )
            moments.append((0, f"{name} stays dry", dry))
        elif stop is not None:
            moments.append((stop, f"{name} stops", _because(strip, whole.steps(stop, stop))))
    for one in MATERIALS:
        for other in MATERIALS:
            when = _overtakes(test, one.key, other.key)
            if when is not None:
                moments.append(
                    (when, f"{one.name} overtakes {other.name}", _overtaking(one, other, whole.steps(when, when)))
                )
    return events_at(moments, test.time_s)


def _overtaking(one: Material, other: Material, here: Stretch) -> Fact:
    ahead = Claim(
        kind="at least",
        left=here.reading(f"water in the {one.name}", "first"),
        right=here.reading(f"water in the {other.name}", "first"),
    )
    return fact("soaking-overtakes", ahead, one=cloth(one), other=cloth(other), volume=_held(here, one))


def _overtakes(test: Soak, one: str, other: str) -> int | None:
    """The sample from which one cloth holds more than another that held more before."""
    ahead = test.cloth_m3[one] - test.cloth_m3[other]
    behind = np.flatnonzero(ahead[1:] < 0.0) + 1
    if not behind.size or ahead[-1] <= 0.0:
        return None
    return int(behind[-1]) + 1


def missing(
    test: Soak, came: Mapping[str, tuple[int, int]], conditions: Mapping[str, float], specs: tuple[ConditionSpec, ...]
) -> tuple[Missing, ...]:
    """Why a stage did not come, and what to change."""
    adviser = Adviser(specs=specs, conditions=conditions, found=lambda changed: found(soak(changed)))
    longest = float(test.time_s[-1])
    longer = [("test_time", factor * longest) for factor in (2.0, 4.0, 10.0, 30.0)]
    shorter = [("test_time", factor * longest) for factor in (0.5, 0.2)]
    after = Duration(seconds=longest, source=Reading(how="ends"))
    alike = [("towel_winding", 2.0 * conditions["towel_winding"]), ("towel_gap", 0.5 * conditions["towel_gap"])]
    no_parting = (fact("soaking-no-parting", share=_SHARE), longer)
    if "settled" in came:
        no_parting = (fact("soaking-no-parting-alike"), [*alike, *shorter])
    reasons = {
        "slowing": (
            fact("soaking-no-slowing"),
            [("strip_length", 2.0 * conditions["strip_length"]), ("jar", 4.0 * conditions["jar"]), *shorter],
        ),
        "parting": no_parting,
        "settled": (
            fact("soaking-no-settled", after=after),
            [*longer, ("strip_length", 0.5 * conditions["strip_length"])],
        ),
        "rushing": (fact("soaking-no-rushing"), longer),
    }
    return tuple(
        adviser.missing(stage.name, reasons[stage.name][0], reasons[stage.name][1])
        for stage in STAGES
        if stage.name not in came
    )
