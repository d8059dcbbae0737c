"""The stages of a soaking test, found in its output, and what a teacher reads about them, with this test's figures."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from sonify.processes.declared import Adviser, first, spans
from sonify.processes.soaking_model import MATERIALS, STOPPED, Soak, Strip, soak
from sonify.records.process import ConditionSpec, StageSpec
from sonify.records.timeline import Event, Missing
from sonify.records.words import duration_text, number_text

ML = 1.0e6  # millilitres to a cubic metre
HALF = 0.5  # of all that is drunk in the test
LATE = 0.02  # of the test: a settled stretch shorter than this is none

STAGES = (
    StageSpec(
        name="rushing",
        title="Water rushes in",
        seen_as="from the dip until half of all that will be drunk in the test is drunk",
    ),
    StageSpec(
        name="slowing",
        title="All drink more slowly",
        seen_as=f"until the first cloth has {100 * STOPPED:g} % of what it can take",
    ),
    StageSpec(
        name="parting",
        title="One by one they stop",
        seen_as=f"from then until the last cloth has {100 * STOPPED:g} % of what it can take, or the test ends",
    ),
    StageSpec(
        name="settled",
        title="Nothing more goes in",
        seen_as="from then to the end of the test",
    ),
)


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


def ml(volume_m3: float) -> str:
    return f"{ML * volume_m3:.1f} ml"


def _each(test: Soak, sample: int) -> str:
    """What each cloth holds at a sample, most first: "the sponge cloth 12.9 ml, the ..."."""
    holds = sorted(((float(test.cloth_m3[m.key][sample]), m.name) for m in MATERIALS), reverse=True)
    return ", ".join(f"the {name} {ml(volume)}" for volume, name in holds)


def because(strip: Strip) -> str:
    """Why a strip stops, with its own figures."""
    height = 100.0 * strip.limit_m3 / strip.room_m2
    return {
        "top": f"is all but wet to the top ({number_text(height, 3)} cm), where {ml(strip.limit_m3)} fill it",
        "weight": f"can pull water no higher than {number_text(height, 3)} cm against its weight, and holds "
        f"{ml(strip.limit_m3)}",
        "jar": f"has emptied its jar of {ml(strip.limit_m3)}",
    }[strip.limited_by]


def science_sentences(test: Soak, came: Mapping[str, tuple[int, int]]) -> dict[str, str]:
    """One sentence a stage, with this test's own figures."""
    writers = {"rushing": _rushing, "slowing": _slowing, "parting": _parting, "settled": _settled}
    return {name: writers[name](test, *span) for name, span in came.items()}


def _rushing(test: Soak, start: int, end: int) -> str:
    drunk, seconds = float(test.total_m3[end]), float(test.time_s[end])
    return (
        f"In the first {duration_text(seconds)} the three strips drink {ml(drunk)} together, "
        f"{number_text(60.0 * ML * drunk / seconds, 2)} ml a minute: {_each(test, end)}."
    )


def _slowing(test: Soak, start: int, end: int) -> str:
    seconds = float(test.time_s[end] - test.time_s[start])
    drunk = float(test.total_m3[end] - test.total_m3[start])
    return (
        f"The further the water has to climb, the more the narrow gaps hold it back: in these {duration_text(seconds)} "
        f"only {number_text(60.0 * ML * drunk / seconds, 2)} ml a minute go in, and now the cloths hold: "
        f"{_each(test, end)}."
    )


def _parting(test: Soak, start: int, end: int) -> str:
    stops = [(stop, strip) for strip in test.strips if (stop := test.stopped_at(strip)) is not None and stop <= end]
    told = "; ".join(f"the {strip.material.name} {because(strip)}" for _, strip in sorted(stops, key=lambda s: s[0]))
    return f"From {duration_text(float(test.time_s[start]))} on they stop one after another: {told}."


def _settled(test: Soak, start: int, end: int) -> str:
    return (
        f"After {duration_text(float(test.time_s[start]))} hardly anything moves any more. Most has been drunk by: "
        f"{_each(test, end)}."
    )


def events(test: Soak) -> tuple[Event, ...]:
    """Who leads, who overtakes whom, who stops, in order."""
    moments: list[tuple[int, str, str]] = []
    for strip in test.strips:
        stop, name = test.stopped_at(strip), strip.material.name
        if strip.limit_m3 <= 0.0:
            moments.append((0, f"{name} stays dry", f"Water does not wet the {name}: it drinks nothing."))
        elif stop is not None:
            moments.append((stop, f"{name} stops", f"The {name} all but stops: it {because(strip)}."))
    for one in MATERIALS:
        for other in MATERIALS:
            when = _overtakes(test, one.key, other.key)
            if when is not None:
                text = f"The {one.name} overtakes the {other.name}: {ml(float(test.cloth_m3[one.key][when]))}."
                moments.append((when, f"{one.name} overtakes {other.name}", text))
    return tuple(
        Event(name=name, time_s=float(test.time_s[sample]), text=text) for sample, name, text in sorted(moments)
    )


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
    reasons = {
        "slowing": (
            "a cloth stops before half of all that is drunk has gone in",
            [("strip_length", 2.0 * conditions["strip_length"]), ("jar", 4.0 * conditions["jar"]), *shorter],
        ),
        "parting": (f"no cloth has {100 * STOPPED:g} % of what it can take when the test ends", longer),
        "settled": (
            f"a cloth is still drinking when the test ends after {duration_text(longest)}",
            [*longer, ("strip_length", 0.5 * conditions["strip_length"])],
        ),
        "rushing": ("nothing is drunk at first", longer),
    }
    return tuple(
        adviser.missing(stage.name, reasons[stage.name][0], reasons[stage.name][1])
        for stage in STAGES
        if stage.name not in came
    )
