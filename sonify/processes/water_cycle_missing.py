"""Why a stage of the water's day did not come, and which condition to change: each piece of advice is tried out."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import replace
from functools import lru_cache

import numpy as np

from sonify.frozen import dataclass
from sonify.processes.declared import first
from sonify.processes.telling import Stretch, fixed, source_of
from sonify.processes.water_cycle_model import STEP_S, Morning
from sonify.processes.water_cycle_stages import (
    CLOUD_MM,
    ORDER,
    RAIN_M_S,
    WARMED_K,
    Day,
    observe,
    stage_starts,
    warming_steps,
)
from sonify.records.fact import Amount, Claim, Fact, Reading, fact, wrong
from sonify.records.timeline import Missing
from sonify.science.lifting import DRY_LAPSE_K_PER_M
from sonify.science.saturation import saturation_vapour_pressure

DEW_POINT_LAPSE_K_PER_M = 0.0018  # of unsaturated rising air, common textbook value
MOST_TRIALS = 3  # runs of the model spent on one stage's advice
EARLY = 1 / 8  # of the day: a cloud before that comes too soon for the sun

#: The range of each condition within which advice stays.
_ADVISED = {
    "hill_height": (50.0, 2500.0),
    "humidity": (0.10, 0.97),
    "sea_temperature": (274.15, 303.15),
    "air_temperature": (274.15, 305.15),
    "wind": (1.0, 15.0),
    "day": (1.0, 365.0),
}


@dataclass(frozen=True, slots=True)
class Change:
    """One condition set to another value (SI)."""

    condition: str
    value: float

    @property
    def possible(self) -> bool:
        low, high = _ADVISED[self.condition]
        return low <= self.value <= high

    @property
    def written(self) -> str:
        """The value as the scene file has it: `"650 m"`."""
        return {
            "hill_height": f'"{self.value:.0f} m"',
            "humidity": f'"{100 * self.value:.0f} %"',
            "wind": f'"{self.value:.0f} m/s"',
            "day": f"{self.value:.0f}",
        }.get(self.condition, f'"{self.value - 273.15:.0f} degC"')

    @property
    def line(self) -> str:
        """The line of the scene file: `hill_height = "650 m"`."""
        return f"{self.condition} = {self.written}"

    def made(self, morning: Morning) -> Morning:
        return replace(morning, **{self.condition: self.value})


def missing(day: Day, whole: Stretch, spans: dict[str, tuple[int, int]]) -> tuple[Missing, ...]:
    """Why each stage that did not come stayed away, which condition to change, and how."""
    lacking: list[Missing] = []
    for name in ORDER:
        if name in spans:
            continue
        before = lacking[-1] if lacking else None
        if before is not None and (before.stage, name) in _FOLLOWS:
            reason = _FOLLOWS[before.stage, name](whole)
            lacking.append(replace(before, stage=name, reason=reason))
            continue
        reason, changes = _REASONS[name](day, whole)
        change, found = advised(day, name, changes)
        lacking.append(Missing(stage=name, reason=reason, condition=found, fix=change))
    return tuple(lacking)


def advised(day: Day, stage: str, changes: Iterable[Change]) -> tuple[Fact, str]:
    """The first change with which the model brings the stage, and rain after a cloud; if none does, that is said."""
    possible = [change for change in changes if change.possible]
    half: tuple[Fact, str] | None = None
    for change in possible[:MOST_TRIALS]:
        brought = tried(change.made(day.morning))
        if stage not in brought:
            continue
        if stage in ("warming", "evaporation") or "collection" in brought:
            return fact("science-set", condition=change.condition, value=change.written), change.condition
        cloud = fact("water_cycle-set-for-cloud", condition=change.condition, value=change.written)
        half = half or (cloud, change.condition)
    if half is not None:
        return half
    condition = possible[0].condition if possible else "day"
    usual = ", ".join(sorted({change.condition for change in possible}) or ["day"])
    return fact("science-no-single-change", conditions=usual), condition


def nothing(day: Day) -> tuple[str, Fact]:
    """Of a day on which nothing comes at all: the condition to change, and the line of the scene file that would."""
    for change in (midsummer(day), warm_air(day), Change("wind", 3.0)):
        if change.possible and tried(change.made(day.morning)):
            return change.condition, wrong("error_processes-set", line=change.line)
    return "day", wrong("error_processes-go-back")


@lru_cache(maxsize=16)
def tried(morning: Morning) -> tuple[str, ...]:
    """The stages that a morning brings; two stages often ask for the same change."""
    return tuple(stage_starts(observe(morning)))


def midsummer(day: Day) -> Change:
    return Change("day", 172.0 if day.morning.latitude >= 0.0 else 355.0)


def first_cloud(day: Day) -> int | None:
    return first(day["cloud"] >= CLOUD_MM)


def too_soon(day: Day, whole: Stretch) -> tuple[Fact, list[Change]] | None:
    """Where cloud forms before the sun has done anything: when, and what would hold it off."""
    cloud = first_cloud(day)
    if cloud is None or cloud > day.last * EARLY or cloud >= day.last:
        return None
    lifted = float(day.climb_m[cloud])
    drier = math.floor(100.0 * humidity_for(day, cloud, lifted + 400.0)) / 100.0
    lower = math.floor((float(day.lcl_m[0]) - 150.0) / 50.0) * 50.0
    changes = [Change("humidity", drier), Change("hill_height", lower), Change("wind", 3.0)]
    if day.morning.sea_temperature - day.morning.air_temperature > 8.0:
        changes.insert(0, warm_air(day))
    at = whole.steps(cloud, cloud).begins("condensation")
    return fact("water_cycle-cloud-too-soon", at=at), changes


def warm_air(day: Day) -> Change:
    return Change("air_temperature", round(day.morning.sea_temperature - 273.15 - 2.0) + 273.15)


def no_warming(day: Day, whole: Stretch) -> tuple[Fact, list[Change]]:
    soon = too_soon(day, whole)
    if soon:
        return soon
    cloud = first_cloud(day)
    coldest, _ = warming_steps(day, day.last if cloud is None else cloud)
    until = whole.steps(coldest, day.last if cloud is None else max(cloud, coldest))
    warmed = until.at("shallows temperature", "most") - until.at("shallows temperature", "first")
    source = replace(until.reading("shallows temperature", "most"), less=until.reading("shallows temperature", "first"))
    rise = Amount(value=warmed, unit="delta_degC", digits=2, source=source)
    height = whole.figure("sun height", "most", places=0)
    calm, mild = Change("wind", 3.0), warm_air(day)
    if warmed >= WARMED_K:
        return fact("water_cycle-evaporates-first", rise=rise), [calm, mild, Change("humidity", 0.8)]
    changes = [midsummer(day), calm, mild] if height.value < 25.0 else [calm, mild, Change("humidity", 0.8)]
    if height.value < 0.5:
        low = Claim(kind="at most", left=whole.reading("sun height", "most"), right=_degrees(0.5))
        return fact("water_cycle-no-sun", low), changes
    if rise.value < 0.05:
        little = Claim(kind="at most", left=source, right=fixed(0.05))
        return fact("water_cycle-hardly-warmer", little, height=height), changes
    return fact("water_cycle-little-warmer", height=height, rise=rise), changes


def _degrees(angle: float) -> Reading:
    return fixed(math.radians(angle))


def no_evaporation(day: Day, whole: Stretch) -> tuple[Fact, list[Change]]:
    cloud = first_cloud(day)
    until = whole.steps(0, day.last if cloud is None else max(cloud, 1))
    mean = until.figure("evaporation rate", "mean", digits=2, unit="millimetre/hour")
    if mean.value <= 0.0:
        dew = replace(mean, value=-mean.value, source=replace(source_of(mean), times=-3.6e6, per=_ONE))
        warmest = float(day.dew_point_k[0]) - 273.15
        warmer = Change("sea_temperature", math.ceil(warmest + 3.0) + 273.15)
        return fact("water_cycle-dew", dew=dew), [warmer, *dry_enough(day), Change("hill_height", 100.0)]
    soon = too_soon(day, whole)
    if soon:
        return soon
    depth = until.total("evaporation rate", "mm")
    message = "water_cycle-little-evaporates" if cloud is None else "water_cycle-little-evaporates-before"
    return fact(message, depth=depth), dry_enough(day)


_ONE = fixed(1.0)  # tells whoever checks it that nothing is left to convert


def dry_enough(day: Day) -> list[Change]:
    return [Change("humidity", share) for share in (0.6, 0.4) if share < day.morning.humidity]


def no_cloud(day: Day, whole: Stretch) -> tuple[Fact, list[Change]]:
    """Which of hill, humidity or season would lift air past its condensation level."""
    spare = day["reach_m"] - day.lcl_m
    best, hill = int(np.argmax(spare)), day.morning.hill_height
    if spare[best] > 30.0:
        base = float(day.lcl_m[best])
        higher = math.ceil((base + min(0.7 * float(spare[best]), 150.0)) / 50.0) * 50.0
        return _too_low(day, whole, best, hilly=True), [Change("hill_height", higher), *moister(day, 0.9)]
    level = int(np.argmax(np.minimum(day["reach_m"], hill) - day.lcl_m))
    lifted = float(min(day["reach_m"][level], hill))
    needed = math.ceil(100.0 * humidity_for(day, level, max(lifted - 80.0, 20.0))) / 100.0
    changes = [Change("humidity", needed + 0.02), *moister(day, 0.95), midsummer(day)]
    return _too_low(day, whole, level, hilly=False), changes


def _too_low(day: Day, whole: Stretch, step: int, *, hilly: bool) -> Fact:
    """That the air does not climb to where cloud forms; where it does, that what forms is next to none."""
    thin = whole.figure("cloud water", "most", digits=2)
    if thin.value > 0.0:
        return fact("water_cycle-thin-cloud", water=thin)
    moment = whole.steps(step, step)
    base = moment.figure("cloud base", "first", places=0)
    lifted = moment.figure("height the air climbs", "first", places=0)
    less = Claim(kind="at most", left=source_of(lifted), right=source_of(base))
    if lifted.value > base.value or round(lifted.value) == round(base.value):
        return fact("water_cycle-just-below", base=base)
    if lifted.value < 0.5:
        level = Claim(kind="at most", left=source_of(lifted), right=fixed(0.5))
        return fact("water_cycle-not-lifted", level, base=base)
    message = "water_cycle-hill-too-low" if hilly else "water_cycle-air-too-low"
    return fact(message, less, base=base, lifted=lifted)


def humidity_for(day: Day, step: int, base_m: float) -> float:
    """The humidity at dawn that would bring the cloud base at a step to a height, all else the same."""
    dew = float(day.dew_point_k[step])
    moved = dew + (float(day.lcl_m[step]) - base_m) * (DRY_LAPSE_K_PER_M - DEW_POINT_LAPSE_K_PER_M)
    ratio = saturation_vapour_pressure(min(moved, 330.0)) / saturation_vapour_pressure(dew)
    return day.morning.humidity * float(ratio)


def moister(day: Day, share: float) -> list[Change]:
    return [Change("humidity", share)] if share > day.morning.humidity else []


def no_rain(day: Day, whole: Stretch) -> tuple[Fact, list[Change]]:
    hill = day.morning.hill_height
    higher = Change("hill_height", math.ceil((hill + 300.0) / 50.0) * 50.0)
    damper = [*moister(day, round(day.morning.humidity + 0.08, 2)), *moister(day, 0.95)]
    lifts_on = float(np.max(day["reach_m"])) > hill + 100.0
    return _dry_cloud(day, whole), [higher, *damper] if lifts_on else [*damper, higher]


def _dry_cloud(day: Day, whole: Stretch) -> Fact:
    water = whole.figure("cloud water", "most", digits=2)
    rain = whole.figure("rain rate", "most", digits=2, unit="millimetre/hour")
    if day["rain_rate_m_s"].max() >= RAIN_M_S:
        return fact("water_cycle-rain-too-late", rate=rain)
    if rain.value >= 1e-3:
        return fact("water_cycle-drizzle", water=water, rate=rain)
    none = Claim(kind="at most", left=source_of(rain), right=fixed(1e-6 / 3600.0))
    return fact("water_cycle-no-rain", none, water=water)


def no_collection(day: Day, whole: Stretch) -> tuple[Fact, list[Change]]:
    rain = int(np.argmax(day["rain_rate_m_s"] >= RAIN_M_S))
    at = whole.clock(rain * STEP_S, Reading(how="happens", of="first rain"))
    changes = [*moister(day, round(day.morning.humidity + 0.08, 2)), *moister(day, 0.95)]
    return fact("water_cycle-rains-late", at=at), changes


def _no_cloud_no_rain(whole: Stretch) -> Fact:
    limit = fixed(RAIN_M_S)
    return fact(
        "water_cycle-no-cloud-no-rain", Claim(kind="at most", left=whole.reading("rain rate", "most"), right=limit)
    )


def _no_rain_no_river(whole: Stretch) -> Fact:
    rain = whole.total("rain rate", "mm")
    if rain.value < 0.005:
        limit = fixed(5e-6)
        return fact("water_cycle-no-rain-no-river", Claim(kind="at most", left=source_of(rain), right=limit))
    return fact("water_cycle-little-rain", rain=rain)


_REASONS = {
    "warming": no_warming,
    "evaporation": no_evaporation,
    "condensation": no_cloud,
    "precipitation": no_rain,
    "collection": no_collection,
}
#: A stage that lacks only because the one before it does: the same advice, its own reason.
_FOLLOWS = {
    ("condensation", "precipitation"): _no_cloud_no_rain,
    ("precipitation", "collection"): _no_rain_no_river,
}
