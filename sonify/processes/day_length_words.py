"""The stages of a year of sunlight, and what a teacher reads about them, with this year's own figures."""

from __future__ import annotations

from collections.abc import Mapping
from math import degrees

import numpy as np

from sonify.records.process import StageSpec
from sonify.records.timeline import Event, FloatArray
from sonify.records.words import date_text, number_text

DAY_S = 86_400.0
#: 1 January 2000, counted from 1 January of the year 1.
DAY_2000 = 730_120

STAGES = (
    StageSpec(
        name="light returns",
        title="The light comes back",
        seen_as="from the shortest day until the day is half way between shortest and longest",
    ),
    StageSpec(name="long days grow", title="Long days grow longer", seen_as="from then until the longest day"),
    StageSpec(name="days shrink", title="Long days grow shorter", seen_as="from then until the day is half way again"),
    StageSpec(name="darkness grows", title="The nights take over", seen_as="from then until the next shortest day"),
)


def date_of(days: float, parts: str = "dm") -> str:
    """A moment in days from noon of 1 January 2000 as a date."""
    return date_text(DAY_2000 + int(np.floor(days + 0.5)), parts)


def clock(seconds: float) -> str:
    """A length of time in hours and minutes.

    >>> clock(59_820)
    '16 h 37 min'
    """
    minutes = round(seconds / 60.0)
    return f"{minutes // 60} h {minutes % 60:02d} min"


def _high(height_rad: float) -> str:
    return f"{number_text(degrees(height_rad), 3)}°"


def science_sentences(
    values: Mapping[str, FloatArray], time_s: FloatArray, begins: float, found: Mapping[str, tuple[int, int]]
) -> dict[str, str]:
    """One sentence a stage."""
    lit, noon, change = values["day length"], values["noon height of the Sun"], values["change of the day"]
    said = {}
    for name, (start, end) in found.items():
        dates = f"From {date_of(begins + time_s[start] / DAY_S)} to {date_of(begins + time_s[end] / DAY_S)}"
        days = f"from {clock(lit[start])} to {clock(lit[end])}"
        steepest = float(np.max(np.abs(change[start : end + 1]))) * 1440.0
        fast = f"at most {number_text(steepest, 2)} minutes a day"
        verb = "grows" if lit[end] > lit[start] else "shrinks"
        climbs = f"the noon Sun goes from {_high(noon[start])} to {_high(noon[end])}"
        said[name] = f"{dates} the day {verb} {days}, {fast}, and {climbs}."
    return said


def events(values: Mapping[str, FloatArray], time_s: FloatArray, begins: float) -> tuple[Event, ...]:
    """The shortest and the longest day, and the two days on which the light changes fastest."""
    lit, noon, change = values["day length"], values["noon height of the Sun"], values["change of the day"]
    longest = int(np.argmax(lit))
    rows = [
        (0, "shortest day", f"the shortest day, {clock(lit[0])}, the noon Sun {_high(noon[0])} high"),
        (int(np.argmax(change)), "fastest growth", f"the days grow fastest, {_minutes(change.max())} a day"),
        (longest, "longest day", f"the longest day, {clock(lit[longest])}, the noon Sun {_high(noon[longest])} high"),
        (int(np.argmin(change)), "fastest loss", f"the days shrink fastest, {_minutes(-change.min())} a day"),
    ]
    return tuple(
        Event(name=name, time_s=float(time_s[at]), text=f"{date_of(begins + time_s[at] / DAY_S)}: {text}.")
        for at, name, text in sorted(rows)
    )


def _minutes(change: float) -> str:
    return f"{number_text(float(change) * 1440.0, 2)} minutes"
