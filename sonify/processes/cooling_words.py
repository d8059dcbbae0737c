"""What a teacher reads about the race of two cups: a sentence a stage, moments, and what did not come."""

from __future__ import annotations

import numpy as np

from sonify.processes.cooling_model import CUPS, Cup, Race
from sonify.records.timeline import Event, FloatArray
from sonify.records.words import duration_text, number_text

Spans = dict[str, tuple[int, int]]


def degrees(temperature_k: float) -> str:
    return f"{temperature_k - 273.15:.1f} °C".replace("-0.0 °C", "0.0 °C").replace("-", "−")


def apart(gap_k: float) -> str:
    return f"{number_text(gap_k, 2)} °C"


def science_sentences(race: Race, cups: tuple[Cup, Cup], spans: Spans) -> dict[str, str]:
    """One sentence a stage, with this run's own figures."""
    writers = {"level": _level, "apart": _apart, "closing": _closing, "home": _home}
    return {name: writers[name](race, cups, span) for name, span in spans.items()}


def _both(cups: tuple[Cup, Cup], step: int) -> str:
    return f"cup A is at {degrees(cups[0].drink_k[step])}, cup B at {degrees(cups[1].drink_k[step])}"


def _level(race: Race, cups: tuple[Cup, Cup], span: tuple[int, int]) -> str:
    start, end = span
    paces = " and ".join(
        f"cup {name} by {number_text(60.0 * float(cup.pace_k_s[start:end].mean()), 2)} °C a minute"
        for name, cup in zip(CUPS, cups, strict=True)
    )
    does = "cool" if race.ahead_k > 0.0 else "warm"
    return (
        f"Both start at {degrees(race.start_temperature)} and {does} fastest now, when they differ most from the room, "
        f"{degrees(race.room_temperature)}: {paces}. The cups themselves take the first share of it."
    )


def _apart(race: Race, cups: tuple[Cup, Cup], span: tuple[int, int]) -> str:
    start, end = span
    gap = np.abs(cups[0].drink_k - cups[1].drink_k)
    grows = f"the gap grows from {apart(gap[start])} to {apart(gap[end])}"
    return f"The wrapping tells: {grows}; in the end {_both(cups, end)}."


def _closing(race: Race, cups: tuple[Cup, Cup], span: tuple[int, int]) -> str:
    start, end = span
    quick, slow = sorted(cups, key=lambda cup: abs(cup.drink_k[end] - race.room_temperature))
    return (
        f"The cup in front has little left to lose and slows down, so the other catches up: {_both(cups, end)}. "
        f"The one loses half of its difference in {duration_text(quick.half_life_s)}, the other in "
        f"{duration_text(slow.half_life_s)}."
    )


def _home(race: Race, cups: tuple[Cup, Cup], span: tuple[int, int]) -> str:
    _, end = span
    return (
        f"Both come slowly home to the room's {degrees(race.room_temperature)} and end there, whatever they are "
        f"wrapped in: after {duration_text(race.duration)} {_both(cups, end)}."
    )


def events(race: Race, cups: tuple[Cup, Cup], time_s: FloatArray) -> tuple[Event, ...]:
    """When each cup has lost half of its difference from the room."""
    found: list[Event] = []
    for name, cup in zip(CUPS, cups, strict=True):
        left = (cup.drink_k - race.room_temperature) / race.ahead_k
        halved = np.flatnonzero(left <= 0.5)
        if halved.size:
            at = float(time_s[halved[0]])
            text = f"Cup {name} is half way to the room: {degrees(cup.drink_k[halved[0]])}."
            found.append(Event(name=f"half way, cup {name}", time_s=at, text=text))
    return tuple(sorted(found, key=lambda event: event.time_s))
