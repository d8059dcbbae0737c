"""Why a stage of the water's day did not come, which condition to change, and how."""

from __future__ import annotations

import math

import numpy as np

from sonify.processes.water_cycle_stages import CLOUD_MM, ORDER, RAIN_M_S, Day, first
from sonify.records.timeline import Missing
from sonify.science.lifting import DRY_LAPSE_K_PER_M
from sonify.science.saturation import saturation_vapour_pressure

DEW_POINT_LAPSE_K_PER_M = 0.0018  # of unsaturated rising air, common textbook value


def missing(day: Day, spans: dict[str, tuple[int, int]]) -> tuple[Missing, ...]:
    """Why each stage that did not come stayed away, which condition to change, and how."""
    lacking: list[Missing] = []
    reasons = {"warming": no_warming, "evaporation": no_evaporation, "condensation": no_cloud}
    reasons |= {"precipitation": no_rain, "collection": no_collection}
    for name in ORDER:
        if name not in spans:
            reason, condition, fix = reasons[name](day)
            lacking.append(Missing(stage=name, reason=reason, condition=condition, fix=fix))
    return tuple(lacking)


Why = tuple[str, str, str]


def no_warming(day: Day) -> Why:
    cloud = first(day["cloud"] >= CLOUD_MM)
    noon = float(np.degrees(day["sun_rad"].max()))
    if cloud is not None and cloud < day.last // 8:
        reason = f"cloud or fog covers the sky from {day.clock(cloud)}, before the sun can warm the shallows"
        return reason, "humidity", drier(day)
    if noon < 25.0:
        summer = "172 (21 June)" if day.morning.latitude >= 0.0 else "355 (21 December)"
        reason = f"the sun climbs to {noon:.0f}° only, and the shallows lose more heat than it brings"
        return reason, "day", f"choose a day nearer to midsummer, day = {summer}"
    reason = "the air is so cold or the wind so strong that the shallows cool in spite of the sun"
    return (
        reason,
        "air_temperature",
        f"make the air at dawn nearly as warm as the sea, {celsius(day.morning.sea_temperature)}",
    )


def no_evaporation(day: Day) -> Why:
    cloud = first(day["cloud"] >= CLOUD_MM)
    if float(day["evaporation"][: day.last if cloud is None else max(cloud, 1)].mean()) <= 0.0:
        dew = float(day.dew_point_k[0])
        reason = f"the water is colder than the dew point of the air ({celsius(dew)}), so vapour turns to dew on it"
        return reason, "sea_temperature", f"make the sea warmer than {celsius(dew + 2.0)}, or the air drier"
    if cloud is not None and cloud < day.last // 8:
        reason = f"cloud or fog forms at {day.clock(cloud)}, before evaporation can grow"
        return reason, "humidity", drier(day)
    reason = "next to no water evaporates before the first cloud"
    return reason, "humidity", drier(day)


def no_cloud(day: Day) -> Why:
    """Which of hill, humidity, wind or season would lift air past its condensation level."""
    spare = day["reach_m"] - day.lcl_m
    best = int(np.argmax(spare))
    base, reach, hill = float(day.lcl_m[best]), float(day["reach_m"][best]), day.morning.hill_height
    if spare[best] > 30.0:
        needed = math.ceil((base + min(0.7 * float(spare[best]), 150.0)) / 50.0) * 50
        reason = f"cloud would form at {base:.0f} m, but the hill lifts the air by {hill:.0f} m only"
        return reason, "hill_height", f"make the hill at least {needed} m high"
    level = int(np.argmin(day.lcl_m - np.minimum(day["reach_m"], hill)))
    base, lifted = float(day.lcl_m[level]), float(min(day["reach_m"][level], hill))
    reason = f"cloud would form at {base:.0f} m, but the air climbs to {lifted:.0f} m only"
    moister = humidity_for(day, level, max(lifted - 60.0, 20.0))
    if moister <= 0.97:
        return reason, "humidity", f"make the air moister, at least {math.ceil(100 * moister)} %"
    if reach < hill:
        summer = "172 (21 June)" if day.morning.latitude >= 0.0 else "355 (21 December)"
        return reason, "day", f"choose a day nearer to midsummer, day = {summer}, when the sun lifts the air higher"
    return reason, "hill_height", f"make the hill higher than {math.ceil(base / 50.0) * 50 + 100} m and the air moister"


def humidity_for(day: Day, step: int, base_m: float) -> float:
    """The humidity at dawn that would bring the cloud base at a step down to a height, all else the same."""
    dew = float(day.dew_point_k[step])
    raised = dew + (float(day.lcl_m[step]) - base_m) * (DRY_LAPSE_K_PER_M - DEW_POINT_LAPSE_K_PER_M)
    ratio = saturation_vapour_pressure(min(raised, 330.0)) / saturation_vapour_pressure(dew)
    return day.morning.humidity * float(ratio) + 0.01


def no_rain(day: Day) -> Why:
    if first(day["cloud"] >= CLOUD_MM) is None:
        _, condition, fix = no_cloud(day)
        return "no cloud forms, so no rain can fall", condition, fix
    thickest = float(day["cloud"].max())
    reason = f"the cloud holds {thickest:.2f} mm of water at most, too little for its drops to merge into rain"
    hill = day.morning.hill_height
    if hill < 2700.0 and float(np.max(day["reach_m"] - hill)) > 100.0:
        higher = math.ceil((hill + 300.0) / 50.0) * 50
        return reason, "hill_height", f"make the hill higher, {higher} m or more"
    return reason, "humidity", moister_still(day)


def no_collection(day: Day) -> Why:
    rained = bool(np.any(day["rain_rate_m_s"] >= RAIN_M_S))
    if not rained:
        _, condition, fix = no_rain(day)
        return "no rain falls, so there is none to collect", condition, fix
    return "the rain begins only as the day ends", "humidity", moister_still(day)


def moister_still(day: Day) -> str:
    return f"make the air moister, {min(100 * day.morning.humidity + 8.0, 97.0):.0f} % or more"


def drier(day: Day) -> str:
    return f"make the air drier, {max(min(100 * day.morning.humidity - 15.0, 75.0), 5.0):.0f} % or less"


def celsius(temperature_k: float) -> str:
    return f"{temperature_k - 273.15:.0f} °C".replace("-0 °C", "0 °C").replace("-", "−")
