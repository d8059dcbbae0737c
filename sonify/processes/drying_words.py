"""What a teacher reads about the drying puddle: a sentence a stage, and the moments a class would chalk."""

from __future__ import annotations

from sonify.processes.drying_model import STEP_S, Weather
from sonify.records.timeline import Event, FloatArray
from sonify.records.words import duration_text, number_text

Spans = dict[str, tuple[int, int]]
Day = dict[str, FloatArray]


def degrees(temperature_k: float) -> str:
    return f"{temperature_k - 273.15:.1f} °C".replace("-0.0 °C", "0.0 °C").replace("-", "−")


def litres(mass_kg: float) -> str:
    return f"{number_text(mass_kg, 2)} litres" if mass_kg >= 1.0 else f"{number_text(1000.0 * mass_kg, 2)} ml"


def science_sentences(weather: Weather, day: Day, spans: Spans) -> dict[str, str]:
    """One sentence a stage, with this run's own figures."""
    writers = {"warming": _warming, "drying": _drying, "patches": _patches, "dry": _dry}
    return {name: writers[name](weather, day, span) for name, span in spans.items()}


def _rate(day: Day, step: int) -> str:
    return f"{number_text(3600.0 * float(day['rate_kg_m2_s'][step]), 2)} mm an hour"


def _warming(weather: Weather, day: Day, span: tuple[int, int]) -> str:
    start, end = span
    by = "sun and air" if weather.sunlight > 0.0 else "the air"
    return (
        f"In {duration_text((end - start) * STEP_S)} {by} warm the puddle from {degrees(day['surface_k'][start])} to "
        f"{degrees(day['surface_k'][end])}, and the evaporation grows from {_rate(day, start)} to {_rate(day, end)}."
    )


def _drying(weather: Weather, day: Day, span: tuple[int, int]) -> str:
    start, end = span
    gone = float(day["vapour_kg"][end] - day["vapour_kg"][start])
    warmer = float(day["surface_k"][end]) - weather.air_temperature
    beside = "warmer" if warmer > 0.0 else "colder"
    return (
        f"In {duration_text((end - start) * STEP_S)} {litres(gone)} leave as vapour. The water stays at "
        f"{degrees(day['surface_k'][end])}, {number_text(abs(warmer), 2)} °C {beside} than the air: as much heat comes "
        f"in as evaporation takes. The edge creeps in from {_area(day, start)} to {_area(day, end)}."
    )


def _area(day: Day, step: int) -> str:
    return f"{number_text(float(day['area_m2'][step]), 2)} m²"


def _patches(weather: Weather, day: Day, span: tuple[int, int]) -> str:
    start, end = span
    return (
        f"Less than a quarter is left, {litres(float(day['water_kg'][start]))}. Each wet spot dries as fast as before, "
        f"{_rate(day, start)}, but there is less and less of it, so ever less water leaves: from "
        f"{_leaving(day, start)} down to {_leaving(day, end)}."
    )


def _leaving(day: Day, step: int) -> str:
    grams = 60_000.0 * float(day["leaving_kg_s"][step])
    return f"{number_text(grams, 2)} g a minute" if grams > 0.0 else "nothing"


def _dry(weather: Weather, day: Day, span: tuple[int, int]) -> str:
    start, _ = span
    gone = litres(float(day["vapour_kg"][-1]))
    return (
        f"After {duration_text(start * STEP_S)} the ground is dry. All {gone} are in the air now, as water vapour that "
        "no one can see: none of it is lost."
    )


def events(day: Day, spans: Spans) -> tuple[Event, ...]:
    """Half of the area, half of the water, and the last drop."""
    moments = []
    for name, values, text in (
        ("half the water", day["water_kg"], "Half of the water has gone."),
        ("half the area", day["area_m2"], "The puddle covers half of the ground that it covered at first."),
    ):
        below = [step for step, value in enumerate(values) if value <= 0.5 * values[0]]
        if below:
            moments.append(Event(name=name, time_s=below[0] * STEP_S, text=text))
    if "dry" in spans:
        moments.append(Event(name="dry", time_s=spans["dry"][0] * STEP_S, text="The last of the water has gone."))
    return tuple(sorted(moments, key=lambda event: event.time_s))
