"""The stages of a day in the still, found in the model's output, and what a teacher reads about them, with figures."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from sonify.constants import ZERO_CELSIUS_K
from sonify.errors import OutOfRange
from sonify.processes.declared import Adviser, first, spans
from sonify.processes.solar_still_model import KEPT_EVERY, Day, Setup, simulate
from sonify.records.process import ConditionSpec, StageSpec
from sonify.records.timeline import Event, Missing
from sonify.records.words import number_text

BEGUN = 0.1  # of the day's greatest evaporation: the cover begins to mist over
RUNNING = 0.02  # of the day's greatest dripping: it has begun
FEWER, OVER = 0.5, 0.05  # of it, after its peak: it grows less, and is over
LEAST_KG_S = 3.0e-6  # for a square metre, some 10 ml an hour: less is no dripping and no misting

STAGES = (
    StageSpec(
        name="warming",
        title="The sun warms the salt water",
        seen_as=f"from sunrise until evaporation reaches {100 * BEGUN:g} % of the day's greatest",
    ),
    StageSpec(
        name="misting",
        title="The cover mists over",
        seen_as="from then until the first drops run down",
    ),
    StageSpec(
        name="dripping",
        title="Fresh water, drop by drop",
        seen_as="from the first running drops until, past its peak, the dripping has fallen to half",
    ),
    StageSpec(
        name="evening",
        title="The drops grow fewer",
        seen_as=f"from then until the dripping has fallen to {100 * OVER:g} %",
    ),
    StageSpec(
        name="night",
        title="The salt is still there",
        seen_as="from then to the next sunrise",
    ),
)


def found(day: Day) -> dict[str, tuple[int, int]]:
    """First and last sample of each stage that came."""
    rising, dripping = day["evaporation"], day["dripping"]
    misty = float(rising.max()) >= LEAST_KG_S
    wet = float(dripping.max()) >= LEAST_KG_S
    peak = int(np.argmax(dripping))
    fewer = first(dripping <= FEWER * dripping[peak], peak) if wet else None
    starts = {
        "warming": 0,
        "misting": first(rising >= BEGUN * rising.max()) if misty else None,
        "dripping": first(dripping >= RUNNING * dripping[peak]) if wet else None,
        "evening": fewer,
        "night": first(dripping <= OVER * dripping[peak], fewer) if fewer is not None else None,
    }
    return spans(starts, day.last)


def degrees(temperature_k: float) -> str:
    return f"{temperature_k - ZERO_CELSIUS_K:.0f} °C".replace("-", "−")


def litres(mass_kg: float) -> str:
    """Fresh water: a kilogram is a litre."""
    return f"{mass_kg:.1f} l" if mass_kg >= 1.0 else f"{1000.0 * mass_kg:.0f} ml"


def saltiness(day: Day, sample: int) -> float:
    """Grams of dissolved salt in a kilogram of brine."""
    salt = float(day["dissolved"][sample])
    return 1000.0 * salt / (salt + float(day["brine"][sample]))


def science_sentences(day: Day, came: Mapping[str, tuple[int, int]]) -> dict[str, str]:
    """One sentence or two a stage, with this day's own figures."""
    writers = {
        "warming": _warming,
        "misting": _misting,
        "dripping": _dripping,
        "evening": _evening,
        "night": _night,
    }
    return {name: writers[name](day, *span) for name, span in came.items()}


def _warming(day: Day, start: int, end: int) -> str:
    height = float(np.degrees(day.weather.sun_rad[start * KEPT_EVERY : end * KEPT_EVERY + 1].max()))
    return (
        f"From {day.clock(start)} to {day.clock(end)} the Sun, up to {height:.0f}° high, warms the salt water from "
        f"{degrees(day['basin_k'][start])} to {degrees(day['basin_k'][end])}. Hardly any vapour rises yet."
    )


def _misting(day: Day, start: int, end: int) -> str:
    area = day.setup.area
    return (
        f"From {day.clock(start)} on water evaporates from the brine ({degrees(day['basin_k'][end])}), and the vapour "
        f"meets the cooler cover ({degrees(day['cover_k'][end])}) and condenses: {litres(area * day['film'][end])} of "
        f"tiny drops hang there by {day.clock(end)}."
    )


def _dripping(day: Day, start: int, end: int) -> str:
    area, peak = day.setup.area, int(np.argmax(day["dripping"]))
    hourly = 3600.0 * area * float(day["dripping"][peak])
    brine, cover = (degrees(float(day[name][start : end + 1].max())) for name in ("basin_k", "cover_k"))
    return (
        f"From {day.clock(start)} to {day.clock(end)} the drops run together and down into the cup, most of them at "
        f"{day.clock(peak)}: {litres(hourly)} an hour, with the brine at up to {brine} and the cover at up to {cover}. "
        f"The cup holds {litres(area * day['cup'][end])} of fresh water."
    )


def _evening(day: Day, start: int, end: int) -> str:
    area = day.setup.area
    return (
        f"The Sun sinks, and from {day.clock(start)} to {day.clock(end)} the brine cools from "
        f"{degrees(day['basin_k'][start])} to {degrees(day['basin_k'][end])}; its stored warmth still brings "
        f"{litres(area * (day['cup'][end] - day['cup'][start]))}."
    )


def _night(day: Day, start: int, end: int) -> str:
    area = day.setup.area
    salt = area * float(day["dissolved"][end] + day["crystals"][end])
    crystals = area * float(day["crystals"][end])
    lies = f", {number_text(1000.0 * crystals, 2)} g of it as crystals" if crystals > 1e-4 else ""
    return (
        f"By {day.clock(end)} there are {litres(area * day['cup'][end])} of fresh water in the cup. All "
        f"{number_text(1000.0 * salt, 3)} g of salt are still in the basin{lies}: what is left there is saltier, "
        f"{saltiness(day, end):.0f} g in a kilogram instead of {saltiness(day, 0):.0f} g."
    )


def events(day: Day, came: Mapping[str, tuple[int, int]]) -> tuple[Event, ...]:
    """Moments of the day, in order."""
    sun = day.weather.sun_rad[::KEPT_EVERY]
    noon = int(np.argmax(sun))
    moments: list[tuple[int, str, str]] = [
        (noon, "noon", f"The Sun stands highest, at {np.degrees(sun[noon]):.0f}°."),
        (
            int(np.argmax(day["basin_k"])),
            "hottest brine",
            f"The salt water is hottest: {degrees(float(day['basin_k'].max()))}.",
        ),
    ]
    sunset = first(sun < 0.0, noon)
    if sunset is not None:
        moments.append((sunset, "sunset", "The Sun sets."))
    if "dripping" in came:
        moments.append((came["dripping"][0], "first drop", "The first drop runs into the cup."))
    crystals = first(day["crystals"] > 0.0)
    if crystals is not None:
        moments.append((crystals, "first crystals", "The water can hold no more salt: the first crystals form."))
    return tuple(Event(name=name, time_s=float(day.time_s[at]), text=text) for at, name, text in sorted(moments))


def missing(
    day: Day, came: Mapping[str, tuple[int, int]], conditions: Mapping[str, float], specs: tuple[ConditionSpec, ...]
) -> tuple[Missing, ...]:
    """Why a stage did not come, and what to change."""

    def stages_under(changed: Mapping[str, float]) -> set[str]:
        try:
            return set(found(simulate(Setup.of(changed))))
        except OutOfRange:
            return set()

    adviser = Adviser(specs=specs, conditions=conditions, found=stages_under)
    noon = float(np.degrees(day.weather.sun_rad.max()))
    summer = 172.0 if conditions["latitude"] >= 0.0 else 355.0
    sunnier = [("cloud", 0.1), ("day", summer), ("depth", 0.01), ("insulation", 1.0), ("latitude", 0.3)]
    weak = f"with the Sun up to {noon:.0f}° and {100.0 * conditions['cloud']:.0f} % cloud"
    lasting = [("depth", 0.02), ("depth", 0.01), ("insulation", 5.0)]
    reasons = {
        "warming": ("vapour rises from the very first minute", [("depth", 0.03), ("insulation", 3.0), ("day", summer)]),
        "misting": (f"{weak} next to no water evaporates", sunnier),
        "dripping": (f"{weak} too few drops gather on the cover to run down", sunnier),
        "evening": (
            "no drop runs down at all" if "dripping" not in came else "the dripping has not halved by sunrise",
            sunnier if "dripping" not in came else lasting,
        ),
        "night": (
            "no drop runs down at all" if "dripping" not in came else "it still drips at sunrise",
            sunnier if "dripping" not in came else lasting,
        ),
    }
    return tuple(adviser.missing(stage.name, *reasons[stage.name]) for stage in STAGES if stage.name not in came)
