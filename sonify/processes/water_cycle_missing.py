"""Why a stage of the water's day did not come, and which condition to change: each piece of advice is tried out."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np

from sonify.processes.declared import first
from sonify.processes.water_cycle_model import Morning
from sonify.processes.water_cycle_stages import CLOUD_MM, ORDER, RAIN_M_S, Day, observe, stage_starts
from sonify.records.timeline import Missing
from sonify.science.lifting import DRY_LAPSE_K_PER_M
from sonify.science.saturation import saturation_vapour_pressure

DEW_POINT_LAPSE_K_PER_M = 0.0018  # of unsaturated rising air, common textbook value
MOST_TRIALS = 3  # runs of the model spent on one stage's advice
EARLY = 1 / 8  # of the day: a cloud before that comes too soon for the sun

#: How each condition's value is written, what it is called, and the range within which advice stays.
_WRITTEN = {
    "hill_height": ("the hill {} high", 50.0, 2500.0),
    "humidity": ("the air {} full of vapour", 0.10, 0.97),
    "sea_temperature": ("the sea {}", 274.15, 303.15),
    "air_temperature": ("the air at dawn {}", 274.15, 305.15),
    "wind": ("the wind {}", 1.0, 15.0),
    "day": ("the day of the year {}", 1.0, 365.0),
}


@dataclass(frozen=True, slots=True)
class Change:
    """One condition set to another value (SI)."""

    condition: str
    value: float

    @property
    def possible(self) -> bool:
        _, low, high = _WRITTEN[self.condition]
        return low <= self.value <= high

    @property
    def written(self) -> str:
        """The line of the scene file: `hill_height = "650 m"`."""
        value = {
            "hill_height": f'"{self.value:.0f} m"',
            "humidity": f'"{100 * self.value:.0f} %"',
            "wind": f'"{self.value:.0f} m/s"',
            "day": f"{self.value:.0f}",
        }.get(self.condition, f'"{self.value - 273.15:.0f} degC"')
        return f"{self.condition} = {value}"

    def made(self, morning: Morning) -> Morning:
        return replace(morning, **{self.condition: self.value})


def missing(day: Day, spans: dict[str, tuple[int, int]]) -> tuple[Missing, ...]:
    """Why each stage that did not come stayed away, which condition to change, and how."""
    lacking: list[Missing] = []
    for name in ORDER:
        if name in spans:
            continue
        before = lacking[-1] if lacking else None
        if before is not None and (before.stage, name) in _FOLLOWS:
            lacking.append(replace(before, stage=name, reason=_FOLLOWS[before.stage, name]))
            continue
        reason, changes = _REASONS[name](day)
        lacking.append(advised(day, name, reason, changes))
    return tuple(lacking)


def advised(day: Day, stage: str, reason: str, changes: Iterable[Change]) -> Missing:
    """The first change with which the model brings the stage, and rain after a cloud; if none does, that is said."""
    possible = [change for change in changes if change.possible]
    half: Missing | None = None
    for change in possible[:MOST_TRIALS]:
        brought = tried(change.made(day.morning))
        if stage not in brought:
            continue
        if stage in ("warming", "evaporation") or "collection" in brought:
            return Missing(stage=stage, reason=reason, condition=change.condition, fix=f"Set {change.written}.")
        fix = f"Set {change.written}: the cloud then forms, though rain may need more of the same."
        half = half or Missing(stage=stage, reason=reason, condition=change.condition, fix=fix)
    if half is not None:
        return half
    condition = possible[0].condition if possible else "day"
    usual = ", ".join(sorted({change.condition for change in possible}) or ["day"])
    fix = f"No single change brings it; go back towards the usual values of {usual}."
    return Missing(stage=stage, reason=reason, condition=condition, fix=fix)


@lru_cache(maxsize=16)
def tried(morning: Morning) -> tuple[str, ...]:
    """The stages that a morning brings; two stages often ask for the same change."""
    return tuple(stage_starts(observe(morning)))


def midsummer(day: Day) -> Change:
    return Change("day", 172.0 if day.morning.latitude >= 0.0 else 355.0)


def first_cloud(day: Day) -> int | None:
    return first(day["cloud"] >= CLOUD_MM)


def too_soon(day: Day) -> tuple[str, list[Change]] | None:
    """Where cloud forms before the sun has done anything: when, and what would hold it off."""
    cloud = first_cloud(day)
    if cloud is None or cloud > day.last * EARLY:
        return None
    lifted = float(day.climb_m[cloud])
    drier = math.floor(100.0 * humidity_for(day, cloud, lifted + 400.0)) / 100.0
    lower = math.floor((float(day.lcl_m[0]) - 150.0) / 50.0) * 50.0
    changes = [Change("humidity", drier), Change("hill_height", lower), Change("wind", 3.0)]
    if day.morning.sea_temperature - day.morning.air_temperature > 8.0:
        changes.insert(0, warm_air(day))
    return f"cloud or fog forms at {day.clock(cloud)}, before the Sun can warm the water", changes


def warm_air(day: Day) -> Change:
    return Change("air_temperature", round(day.morning.sea_temperature - 273.15 - 2.0) + 273.15)


def no_warming(day: Day) -> tuple[str, list[Change]]:
    soon = too_soon(day)
    if soon:
        return soon
    noon = float(np.degrees(day["sun_rad"].max()))
    calm, mild = Change("wind", 3.0), warm_air(day)
    if noon < 25.0:
        reason = f"the Sun climbs to {noon:.0f}° only, and the shallows lose more heat than it brings"
        return reason, [midsummer(day), calm, mild]
    reason = "wind, dry air or cold air take more heat from the shallows than the Sun brings"
    return reason, [calm, mild, Change("humidity", 0.8)]


def no_evaporation(day: Day) -> tuple[str, list[Change]]:
    cloud = first_cloud(day)
    until = day.last if cloud is None else max(cloud, 1)
    if float(day["evaporation"][:until].mean()) <= 0.0:
        dew = float(day.dew_point_k[0])
        reason = f"the water is colder than the dew point of the air ({dew - 273.15:.0f} °C): vapour turns to dew on it"
        warmer = Change("sea_temperature", math.ceil(dew - 273.15 + 3.0) + 273.15)
        return reason, [warmer, *dry_enough(day), Change("hill_height", 100.0)]
    soon = too_soon(day)
    return soon if soon else ("next to no water evaporates before the first cloud", dry_enough(day))


def dry_enough(day: Day) -> list[Change]:
    return [Change("humidity", share) for share in (0.6, 0.4) if share < day.morning.humidity]


def no_cloud(day: Day) -> tuple[str, list[Change]]:
    """Which of hill, humidity or season would lift air past its condensation level."""
    spare = day["reach_m"] - day.lcl_m
    best, hill = int(np.argmax(spare)), day.morning.hill_height
    if spare[best] > 30.0:
        base = float(day.lcl_m[best])
        higher = math.ceil((base + min(0.7 * float(spare[best]), 150.0)) / 50.0) * 50.0
        reason = f"cloud would form at {base:.0f} m, but the hill lifts the air by {hill:.0f} m only"
        return reason, [Change("hill_height", higher), *moister(day, 0.9)]
    level = int(np.argmax(np.minimum(day["reach_m"], hill) - day.lcl_m))
    base, lifted = float(day.lcl_m[level]), float(min(day["reach_m"][level], hill))
    reason = f"cloud would form at {base:.0f} m, but the air climbs to {lifted:.0f} m only"
    needed = math.ceil(100.0 * humidity_for(day, level, max(lifted - 80.0, 20.0))) / 100.0
    return reason, [Change("humidity", needed + 0.02), *moister(day, 0.95), midsummer(day)]


def humidity_for(day: Day, step: int, base_m: float) -> float:
    """The humidity at dawn that would bring the cloud base at a step to a height, all else the same."""
    dew = float(day.dew_point_k[step])
    moved = dew + (float(day.lcl_m[step]) - base_m) * (DRY_LAPSE_K_PER_M - DEW_POINT_LAPSE_K_PER_M)
    ratio = saturation_vapour_pressure(min(moved, 330.0)) / saturation_vapour_pressure(dew)
    return day.morning.humidity * float(ratio)


def moister(day: Day, share: float) -> list[Change]:
    return [Change("humidity", share)] if share > day.morning.humidity else []


def no_rain(day: Day) -> tuple[str, list[Change]]:
    thickest, hill = float(day["cloud"].max()), day.morning.hill_height
    reason = f"the cloud holds {thickest:.2f} mm of water at most, too little for its drops to merge into rain"
    higher = Change("hill_height", math.ceil((hill + 300.0) / 50.0) * 50.0)
    damper = [*moister(day, round(day.morning.humidity + 0.08, 2)), *moister(day, 0.95)]
    lifts_on = float(np.max(day["reach_m"])) > hill + 100.0
    return reason, [higher, *damper] if lifts_on else [*damper, higher]


def no_collection(day: Day) -> tuple[str, list[Change]]:
    rain = int(np.argmax(day["rain_rate_m_s"] >= RAIN_M_S))
    reason = f"the rain begins only at {day.clock(rain)}, as the day ends"
    return reason, [*moister(day, round(day.morning.humidity + 0.08, 2)), *moister(day, 0.95)]


_REASONS = {
    "warming": no_warming,
    "evaporation": no_evaporation,
    "condensation": no_cloud,
    "precipitation": no_rain,
    "collection": no_collection,
}
#: A stage that lacks only because the one before it does: the same advice, its own reason.
_FOLLOWS = {
    ("condensation", "precipitation"): "no cloud forms, so no rain can fall",
    ("precipitation", "collection"): "no rain falls, so there is none to collect",
}
