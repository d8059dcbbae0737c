"""What a teacher reads about the heating curve: a sentence a stage, and the moments at its corners."""

from __future__ import annotations

from sonify.processes.heating_curve_model import Curve, Leg
from sonify.records.timeline import Event
from sonify.records.words import duration_text


def degrees(temperature_k: float) -> str:
    return f"{temperature_k - 273.15:.1f} °C".replace("-0.0 °C", "0.0 °C").replace("-", "−")


def kilojoules(heat_j: float) -> str:
    return f"{heat_j / 1000.0:.1f} kJ" if heat_j < 99_950.0 else f"{heat_j / 1000.0:.0f} kJ"


def science_sentences(curve: Curve) -> dict[str, str]:
    """One sentence a stage, with this run's own figures."""
    return {leg.stage: (_changing if leg.latent else _warming)(curve, leg) for leg in curve.legs}


_STATES = {"ice": "the ice", "water": "the water", "steam": "the steam"}
_CHANGES = {"melting": ("ice", "melt"), "boiling": ("water", "boil away")}


def _warming(curve: Curve, leg: Leg) -> str:
    start, end = curve.spans[leg.stage]
    first, last = curve.temperature_k[start], curve.temperature_k[end]
    taken = float(curve.water_j[end] - curve.water_j[start])
    text = (
        f"In {duration_text(leg.seconds)} {_STATES[leg.stage]} warms from {degrees(first)} to {degrees(last)} and "
        f"takes {kilojoules(taken)}: {taken / 1000.0 / max(last - first, 1e-9):.2f} kJ for each degree."
    )
    return text if leg.whole else f"{text} {_stuck(curve, last)}"


def _stuck(curve: Curve, temperature_k: float) -> str:
    return f"Warmer it hardly gets: at {degrees(temperature_k)} the room takes {curve.loss_w[-1]:.0f} W of the heat."


def _changing(curve: Curve, leg: Leg) -> str:
    start, end = curve.spans[leg.stage]
    what, does = _CHANGES[leg.stage]
    taken = float(curve.water_j[end] - curve.water_j[start])
    grams = 1000.0 * float(leg.changed_kg(curve.pan, leg.seconds))
    return (
        f"For {duration_text(leg.seconds)} the temperature stays at {degrees(leg.start_k)} while {grams:.0f} g of "
        f"{what} {does}: {kilojoules(taken)} change the state and warm nothing."
    )


def events(curve: Curve) -> tuple[Event, ...]:
    """The corners of the curve."""
    moments: list[Event] = []
    for leg in curve.legs:
        start, end = (float(curve.time_s[i]) for i in curve.spans[leg.stage])
        if leg.stage == "melting":
            moments.append(Event(name="first melting", time_s=start, text="The first of the ice turns into water."))
            if leg.whole:
                moments.append(Event(name="ice gone", time_s=end, text="The last of the ice is gone."))
        if leg.stage == "boiling":
            moments.append(Event(name="boiling begins", time_s=start, text="The water begins to boil."))
    boiled = float(curve.boiled_kg[-1]) / curve.pan.mass
    text = f"The heater is switched off; {100.0 * boiled:.0f} % of the water has become steam."
    return (*moments, Event(name="heater off", time_s=float(curve.time_s[-1]), text=text))
