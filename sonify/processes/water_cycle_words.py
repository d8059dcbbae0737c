"""What a teacher reads about the water's day: a sentence a stage and the moments worth naming, with its figures."""

from __future__ import annotations

import numpy as np

from sonify.processes.water_cycle_model import (
    LAND_SHARE,
    SEA_SHARE,
    SHALLOWS_SHARE,
    STEP_S,
    drop_diameter,
    fall_speed,
)
from sonify.processes.water_cycle_stages import Day
from sonify.records.timeline import Event
from sonify.science.rain import MM_PER_HOUR

FOG_BASE_M = 50.0  # a cloud that begins lower is called fog here


def science_sentences(day: Day, spans: dict[str, tuple[int, int]]) -> dict[str, str]:
    """One sentence a stage, with this day's own figures."""
    writers = {
        "warming": warming_sentence,
        "evaporation": evaporation_sentence,
        "condensation": condensation_sentence,
        "precipitation": precipitation_sentence,
        "collection": collection_sentence,
    }
    return {name: writers[name](day, *span) for name, span in spans.items()}


def degrees(temperature_k: float) -> str:
    return f"{temperature_k - 273.15:.1f} °C".replace("-0.0 °C", "0.0 °C").replace("-", "−")


def warming_sentence(day: Day, start: int, end: int) -> str:
    water = day["shallows_k"]
    height = float(np.degrees(day["sun_rad"][start : end + 1].max()))
    return (
        f"From {day.clock(start)} to {day.clock(end)} the Sun, up to {height:.0f}° high, warms the shallows from "
        f"{degrees(water[start])} to {degrees(water[end])}, while the deep sea stays at {degrees(day['sea_k'][end])}."
    )


def depth_mm(depth: float) -> str:
    return f"{depth:.1f} mm" if depth >= 0.1 else "less than 0.1 mm"


def evaporation_sentence(day: Day, start: int, end: int) -> str:
    span = slice(start, end)
    rate, warmest = day.evaporation_mm_h[span].max(), day["shallows_k"][span].max()
    depth, whole_day = (day["evaporation"][steps].sum() / (SEA_SHARE + SHALLOWS_SHARE) for steps in (span, slice(None)))
    return (
        f"From {day.clock(start)} to {day.clock(end)} {depth_mm(depth)} of water leave the sea as vapour that no one "
        f"can see, {rate:.2f} mm an hour with the shallows at {degrees(warmest)}. The whole day takes {whole_day:.1f} "
        f"mm: {whole_day * (SEA_SHARE + SHALLOWS_SHARE):.1f} mm if it were spread over sea and land together."
    )


def condensation_sentence(day: Day, start: int, end: int) -> str:
    base, top = day["base_m"][start], day["top_k"][start : end + 1].min()
    if base < FOG_BASE_M:
        return (
            f"From {day.clock(start)} on the air holds all the vapour it can, down to {base:.0f} m above the sea: "
            f"vapour becomes tiny drops of liquid water, fog and low cloud, as cold as {degrees(top)}."
        )
    return (
        f"From {day.clock(start)} on the air that climbs the hill cools to its dew point at {base:.0f} m, and vapour "
        f"becomes tiny drops of liquid water: a cloud, as cold as {degrees(top)}."
    )


def precipitation_sentence(day: Day, start: int, end: int) -> str:
    rain = day["rain_rate_m_s"]
    most = float(rain.max())
    total = 1000.0 * float(rain.sum()) * STEP_S
    return (
        f"From {day.clock(start)} on drops fall, of {1000 * drop_diameter(most):.1f} mm and {fall_speed(most):.1f} m a "
        f"second when the rain is heaviest ({most / MM_PER_HOUR:.1f} mm an hour at {day.clock(int(rain.argmax()))}); "
        f"the day brings {total:.1f} mm to town and hill, {total * LAND_SHARE:.1f} mm if it were spread over sea and "
        "land together."
    )


def collection_sentence(day: Day, start: int, end: int) -> str:
    back = float(day["returning"][:end].sum()) / LAND_SHARE
    held = float(day["hillside"][end] + day["river"][end]) / LAND_SHARE
    return (
        f"By {day.clock(start)} nine tenths of the rain have fallen; ground and river carry it home: {back:.1f} mm are "
        f"back in the sea by {day.clock(end)}, {held:.1f} mm are still on their way."
    )


def events(day: Day, spans: dict[str, tuple[int, int]]) -> tuple[Event, ...]:
    """Moments of the day in order: the Sun's own, and the firsts of cloud and rain."""
    sun, rain = day["sun_rad"], day["rain_rate_m_s"]
    noon = int(np.argmax(sun))
    moments = [(noon, "noon", f"The Sun stands highest, at {np.degrees(sun[noon]):.0f}°.")]
    sunset = np.flatnonzero(sun[noon:] < 0.0)
    if sunset.size:
        moments.append((noon + int(sunset[0]), "sunset", "The Sun sets; nothing warms the water now."))
    if "condensation" in spans:
        start = spans["condensation"][0]
        moments.append((start, "first cloud", f"The first cloud forms at {day['base_m'][start]:.0f} m."))
    if "precipitation" in spans:
        start, heaviest = spans["precipitation"][0], int(np.argmax(rain))
        moments.append((start, "first rain", "The first drops of rain fall."))
        text = f"The rain is heaviest, {rain[heaviest] / MM_PER_HOUR:.1f} mm an hour."
        moments.append((heaviest, "heaviest rain", text))
    return tuple(Event(name=name, time_s=step * STEP_S, text=text) for step, name, text in sorted(moments))
