"""The stages of a storm over a rain garden, found in the model's output, and what a teacher reads about them."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

import numpy as np

from sonify.processes.declared import Adviser, first, spans
from sonify.processes.rain_garden_model import Garden, Storm, simulate
from sonify.records.process import ConditionSpec, StageSpec
from sonify.records.timeline import Event, FloatArray, Missing
from sonify.records.words import duration_text, number_text

ARRIVES_M3_S = 0.1e-3 / 60.0  # a tenth of a litre a minute: the least run-off that counts as arriving
PUDDLE_M = 0.002  # the least water standing in the hollow that counts as a pond
LITRES = 1000.0

STAGES = (
    StageSpec(
        name="first-drops",
        title="The first drops wet everything",
        seen_as="it rains, and less than a tenth of a litre a minute runs off roofs and paths into the garden",
    ),
    StageSpec(
        name="drinking",
        title="The soil drinks it all",
        seen_as=f"run-off arrives, and less than {1000 * PUDDLE_M:g} mm of water stand in the hollow",
    ),
    StageSpec(
        name="ponding",
        title="A pond grows",
        seen_as="more arrives than the soil can drink, and the pond stays below the hollow's lip",
    ),
    StageSpec(name="overflow", title="The pond spills over", seen_as="water runs over the hollow's lip"),
    StageSpec(
        name="sinking",
        title="The pond sinks away",
        seen_as=f"nothing spills any more, and {1000 * PUDDLE_M:g} mm of water or more stand in the hollow",
    ),
    StageSpec(
        name="ground",
        title="Ground water feeds the brook",
        seen_as="the rain is over, nothing arrives, and no pond is left",
    ),
)


@dataclass(frozen=True, slots=True, eq=False)
class Flood:
    """The model's output and what is derived from it. Arrays over the steps."""

    garden: Garden
    storm: Storm
    model: dict[str, FloatArray]

    def __getitem__(self, name: str) -> FloatArray:
        return self.model[name]

    @property
    def step_s(self) -> float:
        return float(self.storm.time_s[1])

    @property
    def last(self) -> int:
        return self.storm.time_s.size - 1

    @property
    def depth_m(self) -> FloatArray:
        """Of the pond."""
        return self["pond"] / self.garden.garden_area

    @property
    def soaking_m_s(self) -> FloatArray:
        """How fast the garden's soil drinks."""
        return self["soaking"] / (self.garden.garden_area * self.step_s)

    @property
    def rain_m_s(self) -> FloatArray:
        return np.append(np.diff(self.storm.fallen_m), 0.0) / self.step_s

    @property
    def coming_m3_s(self) -> FloatArray:
        """What comes into the garden: run-off, and the rain on the garden itself."""
        return (self["arriving"] + self["on_garden"]) / self.step_s

    def rate_m3_s(self, flux: str) -> FloatArray:
        return self[flux] / self.step_s

    def after(self, step: int) -> str:
        """How long after the first drop, "25 minutes"."""
        return duration_text(float(self.storm.time_s[step]))


def observe(garden: Garden) -> Flood:
    """The model's storm."""
    storm, model = simulate(garden)
    return Flood(garden, storm, model)


def found(flood: Flood) -> dict[str, tuple[int, int]]:
    """First and last step of each stage that came."""
    arrives = flood.rate_m3_s("arriving") >= ARRIVES_M3_S
    stands, spills = flood.depth_m >= PUDDLE_M, np.flatnonzero(flood["spill"] > 0.0)
    over = flood.storm.time_s >= flood.garden.storm_length
    pond = first(stands)
    settles = int(spills[-1]) + 1 if spills.size else int(np.argmax(flood["pond"]))
    starts = {
        "first-drops": 0,
        "drinking": first(arrives),
        "ponding": pond,
        "overflow": int(spills[0]) if spills.size else None,
        "sinking": None if pond is None else settles,
        "ground": first(over & ~arrives & ~stands),
    }
    return spans(starts, flood.last)


def litres(volume_m3: float) -> str:
    return f"{LITRES * volume_m3:.0f} litres"


def a_minute(flow_m3_s: float) -> str:
    return f"{number_text(60.0 * LITRES * flow_m3_s, 2)} litres a minute"


def an_hour(rate_m_s: float) -> str:
    return f"{number_text(3.6e6 * rate_m_s, 2)} mm an hour"


def cm(depth_m: float) -> str:
    return f"{number_text(100.0 * depth_m, 2)} cm"


def science_sentences(flood: Flood, came: Mapping[str, tuple[int, int]]) -> dict[str, str]:
    """One sentence a stage, with this storm's own figures."""
    writers = {
        "first-drops": _first_drops,
        "drinking": _drinking,
        "ponding": _ponding,
        "overflow": _overflow,
        "sinking": _sinking,
        "ground": _ground,
    }
    return {name: writers[name](flood, *span) for name, span in came.items()}


def _first_drops(flood: Flood, start: int, end: int) -> str:
    fallen = 1000.0 * float(flood.storm.fallen_m[end])
    return (
        f"In the first {flood.after(end)} {number_text(fallen, 2)} mm of rain fall. Roofs and paths only get wet and "
        f"keep {litres(float(flood['wetting'][end]))}; what falls on the garden soaks in at once, "
        f"{litres(float(flood['soil'][end]))}."
    )


def _drinking(flood: Flood, start: int, end: int) -> str:
    span = slice(start, end + 1)
    return (
        f"After {flood.after(start)} water runs off roofs and paths into the garden, up to "
        f"{a_minute(float(flood.coming_m3_s[span].max()))} with the rain. The soil is thirsty and drinks up to "
        f"{an_hour(float(flood.soaking_m_s[span].max()))}."
    )


def _ponding(flood: Flood, start: int, end: int) -> str:
    most = a_minute(float(flood.coming_m3_s[start : end + 1].max()))
    at_first, later = drinks(flood, start, end)
    return (
        f"After {flood.after(start)} more comes in, up to {most}, than the soil can drink: the wetter it gets, the "
        f"more slowly it drinks, {at_first} at first and {later} later. The pond grows to "
        f"{cm(float(flood.depth_m[end]))}."
    )


def _overflow(flood: Flood, start: int, end: int) -> str:
    spilt = float(flood["drain"][end] - flood["drain"][start])
    most = a_minute(float(flood.rate_m3_s("spill")[start:end].max()))
    return (
        f"From {flood.after(start)} to {flood.after(end)} the hollow is full, {cm(flood.garden.garden_depth)} deep, "
        f"and {litres(spilt)} run over its lip into the street drain, up to {most}."
    )


def _sinking(flood: Flood, start: int, end: int) -> str:
    at_first, later = drinks(flood, start, end)
    before, after = (litres(float(flood["ground"][step])) for step in (start, end))
    return (
        f"From {flood.after(start)} to {flood.after(end)} the pond sinks from {cm(float(flood.depth_m[start]))} to "
        f"{cm(float(flood.depth_m[end]))}. The soil drinks {at_first} at first and {later} at the end, and passes it "
        f"on downwards: the ground water grows from {before} to {after}."
    )


def _ground(flood: Flood, start: int, end: int) -> str:
    springs = flood.rate_m3_s("springs")
    fullest = int(np.argmax(springs))
    most = f"{number_text(3.6e6 * float(springs[fullest]), 2)} litres an hour"
    came = sum(float(flood[store][end]) for store in ("pond", "soil", "ground", "brook", "drain"))
    return (
        f"After {flood.after(start)} nothing is to be seen of the storm. Under the garden its water seeps on and feeds "
        f"the brook, which is fullest {flood.after(fullest)} after the first drop, with {most}. Of the "
        f"{litres(came - flood.garden.ground_m3)} that came into the garden {litres(float(flood['drain'][end]))} went "
        "down the drain."
    )


def drinks(flood: Flood, start: int, end: int) -> tuple[str, str]:
    """How fast the soil drinks at the start of a stretch and just before its end."""
    soaking = flood.soaking_m_s
    return an_hour(float(soaking[start])), an_hour(float(soaking[max(end - 1, start)]))


def events(flood: Flood) -> tuple[Event, ...]:
    """The moments of the storm and after, in order."""
    rain, depth, springs = flood.rain_m_s, flood.depth_m, flood.rate_m3_s("springs")
    heaviest, deepest, fullest = int(np.argmax(rain)), int(np.argmax(depth)), int(np.argmax(springs))
    came = found(flood)
    moments: list[tuple[int, str, str]] = [
        (0, "first drops", "The first drops fall."),
        (heaviest, "heaviest rain", f"It rains hardest, {an_hour(float(rain[heaviest]))}."),
    ]
    puddle = first(depth >= PUDDLE_M)
    if puddle is not None:
        moments.append((puddle, "first puddle", "The first puddle stands in the garden."))
        moments.append((deepest, "deepest pond", f"The pond is deepest, {cm(float(depth[deepest]))}."))
    spills = first(flood["spill"] > 0.0)
    if spills is not None:
        moments.append((spills, "first overflow", "The pond runs over its lip for the first time."))
    ends = first(flood.storm.time_s >= flood.garden.storm_length)
    if ends is not None:
        moments.append((ends, "last drops", f"The rain stops: {1000.0 * flood.garden.rain:.0f} mm have fallen."))
    if "ground" in came and puddle is not None:
        moments.append((came["ground"][0], "pond gone", "The pond is gone."))
    if 0 < fullest < flood.last:
        text = f"The brook gets most from the ground, {number_text(3.6e6 * float(springs[fullest]), 2)} litres an hour."
        moments.append((fullest, "brook fullest", text))
    return tuple(
        Event(name=name, time_s=float(flood.storm.time_s[step]), text=text) for step, name, text in sorted(moments)
    )


def missing(
    flood: Flood, came: Collection[str], conditions: Mapping[str, float], specs: tuple[ConditionSpec, ...]
) -> tuple[Missing, ...]:
    """Why a stage did not come, and what to change: each piece of advice is tried out."""
    adviser = Adviser(specs=specs, conditions=conditions, found=lambda changed: found(observe(Garden.of(changed))))
    return tuple(
        adviser.missing(stage.name, *_reasons(flood, stage.name, came)) for stage in STAGES if stage.name not in came
    )


def _reasons(flood: Flood, stage: str, came: Collection[str]) -> tuple[str, list[tuple[str, float]]]:
    garden = flood.garden
    longer = [("watched", garden.watched * factor) for factor in (2.0, 4.0)]
    more_rain = [("rain", garden.rain * factor) for factor in (2.0, 4.0)]
    slower = [("soil_conductivity", garden.soil_conductivity * share) for share in (0.4, 0.1)]
    deepest = float(flood.depth_m.max())
    if stage == "drinking":
        if garden.roof_area + garden.path_area <= 0.0:
            return "there are no roofs or paths whose water could come", [("roof_area", 60.0), ("path_area", 60.0)]
        if first(flood.rate_m3_s("arriving") >= ARRIVES_M3_S) is None:
            return "so little rain falls that roofs and paths only get wet", [*more_rain, ("rain", 0.02)]
        reason = "a pond stands in the garden before any run-off arrives, so slowly does the soil drink"
        return reason, [("soil_conductivity", 3.0 * garden.soil_conductivity), ("soil_wetness", 0.3), ("rain", 0.01)]
    if stage == "ponding":
        if deepest >= PUDDLE_M:
            return "the hollow is so shallow that it spills at once", [("garden_depth", 0.10), ("garden_depth", 0.3)]
        reason = f"the soil drinks all that comes; never more than {1000.0 * deepest:.1f} mm stand in the garden"
        return reason, [*more_rain, *slower, ("roof_area", 3.0 * garden.roof_area + 50.0)]
    if stage == "overflow":
        reason = f"the pond is {cm(deepest)} deep at most, and the hollow holds {cm(garden.garden_depth)}"
        return reason, [("garden_depth", 0.7 * deepest), *more_rain, ("roof_area", 3.0 * garden.roof_area + 50.0)]
    if stage == "sinking":
        if "ponding" not in came and "overflow" not in came:
            return "no pond stands that could sink", [*more_rain, *slower]
        return f"the pond has not begun to sink after {duration_text(garden.watched)}", longer
    left = (
        f"{cm(float(flood.depth_m[-1]))} of water still stand in the garden" if deepest >= PUDDLE_M else "it rains on"
    )
    faster = [("soil_conductivity", factor * garden.soil_conductivity) for factor in (5.0, 30.0)]
    return f"{left} after {duration_text(garden.watched)}", [*longer, *faster]
