"""The stages of the water's day, found in the model's output by thresholds."""

from __future__ import annotations

import numpy as np

from sonify.constants import STANDARD_ATMOSPHERE_PA
from sonify.frozen import dataclass
from sonify.processes.declared import first
from sonify.processes.specs import Declared
from sonify.processes.water_cycle_model import AIR_KG_PER_M2, SEA_SHARE, SHALLOWS_SHARE, STEP_S, Morning, simulate
from sonify.records.fact import Amount, Fact, fact
from sonify.records.timeline import FloatArray
from sonify.science.humidity import vapour_pressure
from sonify.science.lifting import condensation_height
from sonify.science.rain import MM_PER_HOUR
from sonify.science.saturation import dew_point

WARMED_K = 0.5  # the least warming of the shallows that counts
EVAPORATION_MM = 0.02  # the least water, over the column, that must rise before a cloud forms
CLOUD_MM = 0.01  # the least cloud water, over the column, that counts as a cloud
RAIN_M_S = 0.1 * MM_PER_HOUR  # the least rain that counts
FALLEN = 0.9  # share of the day's rain after which collecting it is what mostly goes on
SHORTEST = 5  # steps: ten minutes

_DECLARED = Declared("water_cycle")


def _seen(stage: str, value: float, unit: str) -> Fact:
    """How a stage is found that begins at a limit."""
    return fact(f"water_cycle-seen-{stage}", limit=Amount(value=value, unit=unit, given="our own limit"))


STAGES = (
    _DECLARED.stage("warming", seen_as=_seen("warming", WARMED_K, "delta_degC")),
    _DECLARED.stage("evaporation"),
    _DECLARED.stage("condensation", seen_as=_seen("condensation", CLOUD_MM, "mm")),
    _DECLARED.stage("precipitation", seen_as=_seen("precipitation", RAIN_M_S / MM_PER_HOUR, "millimetre/hour")),
    _DECLARED.stage("collection"),
)
ORDER = tuple(stage.name for stage in STAGES)


@dataclass(frozen=True, slots=True, eq=False)
class Day:
    """The model's output and what is derived from it, for those who read it. Arrays over the steps."""

    morning: Morning
    model: dict[str, FloatArray]
    evaporation_mm_h: FloatArray  # from the water's surface
    lcl_m: FloatArray  # where a cloud would begin, were air lifted so far
    dew_point_k: FloatArray

    def __getitem__(self, name: str) -> FloatArray:
        return self.model[name]

    @property
    def last(self) -> int:
        return len(self.model["time_s"]) - 1

    @property
    def climb_m(self) -> FloatArray:
        return np.minimum(self["reach_m"], self.morning.hill_height)


def observe(morning: Morning) -> Day:
    """The model's day, with what is read off it."""
    model = simulate(morning)
    e_air = vapour_pressure(model["vapour"] / AIR_KG_PER_M2, STANDARD_ATMOSPHERE_PA)
    dew = np.minimum(dew_point(e_air), model["air_k"])
    return Day(
        morning=morning,
        model=model,
        evaporation_mm_h=model["evaporation"] / (SEA_SHARE + SHALLOWS_SHARE) * 3600.0 / STEP_S,
        lcl_m=condensation_height(model["air_k"], dew),
        dew_point_k=dew,
    )


def found(day: Day) -> dict[str, tuple[int, int]]:
    """The stages that came: first and last step of each, in order, following each other without a gap."""
    starts = list(stage_starts(day).items())
    spans: dict[str, tuple[int, int]] = {}
    for (name, start), (_, end) in zip(starts, [*starts[1:], ("", day.last)], strict=False):
        spans[name] = (start, end)
    if spans:
        name, (start, _) = list(spans.items())[-1]
        spans[name] = (start, max(last_step(day, name, start), start + 1))
    return spans


def stage_starts(day: Day) -> dict[str, int]:
    """The step at which each stage that came begins, in order."""
    cloud = first(day["cloud"] >= CLOUD_MM)
    horizon = day.last if cloud is None else cloud
    coldest, half_way = warming_steps(day, horizon)
    starts: dict[str, int] = {}
    evaporating = evaporation_step(day, horizon, half_way)
    until = horizon if evaporating is None else evaporating
    warms = day["shallows_k"][: horizon + 1].max() - day["shallows_k"][coldest] >= WARMED_K
    if warms and until - coldest >= SHORTEST:
        starts["warming"] = coldest
    if evaporating is not None:
        starts["evaporation"] = evaporating
    if cloud is None or cloud >= day.last:
        return starts
    starts["condensation"] = cloud
    rain = first(day["rain_rate_m_s"] >= RAIN_M_S, cloud + 1)
    if rain is None or rain >= day.last:
        return starts
    starts["precipitation"] = rain
    fallen = np.cumsum(day["rain_rate_m_s"])
    collecting = first(fallen >= FALLEN * fallen[-1], rain + 1)
    if collecting is not None and collecting < day.last:
        starts["collection"] = collecting
    return starts


def warming_steps(day: Day, horizon: int) -> tuple[int, int]:
    """When the shallows are coldest before their warmest (up to a step), and when half of that warming is done."""
    water_k = day["shallows_k"][: horizon + 1]
    warmest = int(np.argmax(water_k))
    coldest = int(np.argmin(water_k[: warmest + 1]))
    half = 0.5 * (water_k[coldest] + water_k[warmest])
    return coldest, coldest + int(np.argmax(water_k[coldest : warmest + 1] >= half))


def evaporation_step(day: Day, horizon: int, half_way: int) -> int | None:
    """When evaporation has half climbed; where its rate only falls, when the shallows have half warmed."""
    rate = day.evaporation_mm_h[: horizon + 1]
    if np.maximum(day["evaporation"][:horizon], 0.0).sum() < EVAPORATION_MM:
        return None
    highest = int(np.argmax(rate))
    lowest = int(np.argmin(rate[: highest + 1]))
    rises = rate[highest] - rate[lowest] >= 0.1 * rate[highest]
    step = lowest + int(np.argmax(rate[lowest : highest + 1] >= 0.5 * (rate[lowest] + rate[highest])))
    start = step if rises else half_way
    return start if horizon - start >= SHORTEST else None


def last_step(day: Day, name: str, start: int) -> int:
    """When the last stage that came is over: cloud gone, sun down, or the day's end."""
    if name == "condensation":
        left = np.flatnonzero(day["cloud"] >= CLOUD_MM)
        return min(int(left[-1]) + 1, day.last)
    if name in ("warming", "evaporation"):
        sunset = first(day["sun_rad"] < 0.0, max(start, day.last // 8))
        return day.last if sunset is None else sunset
    return day.last
