"""The stages of a valley's snow-melt, found in the model's output, and what a teacher reads about them."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import dataclass

import numpy as np

from sonify.constants import ZERO_CELSIUS_K
from sonify.errors import BadCondition
from sonify.processes.declared import Adviser, first, spans
from sonify.processes.snow_melt_model import BANDS, BARE_MM, DAY_S, STEP_S, Valley, Weather, celsius, checked, simulate
from sonify.records.process import ConditionSpec, StageSpec
from sonify.records.timeline import Event, FloatArray, Missing
from sonify.records.words import duration_text, number_text

RUNS_MM_H = 0.01  # the least melt water, over the valley, that counts as running out of the snow
HALF = 0.5

STAGES = (
    StageSpec(
        name="frost",
        title="The snow waits in the frost",
        seen_as=f"less than {RUNS_MM_H:g} mm of melt water an hour runs out of the snow",
    ),
    StageSpec(
        name="first-melt",
        title="The first snow melts",
        seen_as="melt water runs out of the snow, and snow still lies everywhere",
    ),
    StageSpec(
        name="rushing",
        title="The stream rushes",
        seen_as="the valley's floor is bare, and snow lies on more than half of the valley",
    ),
    StageSpec(
        name="patches",
        title="Snow lies only high up",
        seen_as="half of the valley or more is bare, and some snow is left",
    ),
    StageSpec(
        name="springs",
        title="Ground water feeds the stream",
        seen_as=f"less than {BARE_MM:g} mm of water is left in any of the valley's snow",
    ),
)


@dataclass(frozen=True, slots=True, eq=False)
class Spring:
    """The model's output and what is derived from it. Arrays over the steps."""

    valley: Valley
    sky: Weather
    model: dict[str, FloatArray]

    def __getitem__(self, name: str) -> FloatArray:
        return self.model[name]

    @property
    def last(self) -> int:
        return self.sky.time_s.size - 1

    @property
    def bare_share(self) -> FloatArray:
        """The share of the valley where no snow is left."""
        return np.asarray(np.mean(self["bands"] < BARE_MM, axis=1))

    @property
    def snow_line_m(self) -> FloatArray:
        """Height above the floor down to which snow lies; the ridge where none is left."""
        lies = self["bands"] >= BARE_MM
        lowest = np.where(lies.any(axis=1), lies.argmax(axis=1), BANDS)
        return lowest / BANDS * self.valley.valley_depth

    @property
    def floor_k(self) -> FloatArray:
        """Temperature of the air over the valley's floor."""
        return self.sky.air_k[:, 0]

    @property
    def stream_m3_s(self) -> FloatArray:
        """Water that leaves the valley in a second."""
        return self["leaving"] * 1.0e-3 * self.valley.area / STEP_S

    def when(self, step: int) -> str:
        """Day and hour of a step, "day 3, 09:15"."""
        minutes = round(step * STEP_S / 60.0)
        return f"day {minutes // 1440 + 1}, {minutes // 60 % 24:02d}:{minutes % 60:02d}"


def observe(valley: Valley) -> Spring:
    """The model's spring."""
    sky, model = simulate(valley)
    return Spring(valley, sky, model)


def found(spring: Spring) -> dict[str, tuple[int, int]]:
    """First and last step of each stage that came."""
    runs = first(spring["outflow"] * 3600.0 / STEP_S >= RUNS_MM_H)
    bare = spring.bare_share
    starts = {
        "frost": 0,
        "first-melt": runs,
        "rushing": None if runs is None else first(bare > 0.0, runs),
        "patches": None if runs is None else first(bare >= HALF, runs),
        "springs": None if runs is None else first(bare >= 1.0, runs),
    }
    return spans(starts, spring.last)


def flow(spring: Spring, step: int) -> str:
    return litres(float(spring.stream_m3_s[step]))


def litres(flow_m3_s: float) -> str:
    return f"{number_text(float(f'{1000.0 * flow_m3_s:.2g}'), 2)} litres a second"


def mm(depth: float) -> str:
    return f"{number_text(depth, 2)} mm"


def science_sentences(spring: Spring, came: Mapping[str, tuple[int, int]]) -> dict[str, str]:
    """One sentence a stage, with this spring's own figures."""
    writers = {
        "frost": _frost,
        "first-melt": _first_melt,
        "rushing": _rushing,
        "patches": _patches,
        "springs": _springs,
    }
    return {name: writers[name](spring, *span) for name, span in came.items()}


def _frost(spring: Spring, start: int, end: int) -> str:
    coldest = float(spring.floor_k[start : end + 1].min())
    return (
        f"For {duration_text((end - start) * STEP_S)} the snow holds {mm(float(spring['snow'][start]))} of water and "
        f"lets none go: the night's air is as cold as {celsius(coldest)}, and the Sun must first warm the snow to 0 °C."
        f" Ground water alone feeds the stream, {flow(spring, end)}."
    )


def _first_melt(spring: Spring, start: int, end: int) -> str:
    span = slice(start, end + 1)
    melted, frozen = float(spring["melt"][span].sum()), float(spring["freezing"][span].sum())
    return (
        f"From {spring.when(start)} on the snow melts by day, {mm(melted)} of water by {spring.when(end)}, and "
        f"{mm(frozen)} of it freezes again by night. The stream swells from {flow(spring, start)} to "
        f"{litres(float(spring.stream_m3_s[span].max()))}, hours after the Sun stood highest."
    )


def _rushing(spring: Spring, start: int, end: int) -> str:
    span = slice(start, end + 1)
    stream = spring.stream_m3_s[span]
    return (
        f"From {spring.when(start)} on the valley's floor is bare and the snow line climbs, by {spring.when(end)} to "
        f"{spring.snow_line_m[end]:.0f} m. Each afternoon the stream rushes, with up to {litres(float(stream.max()))}; "
        f"before dawn it carries as little as {litres(float(stream.min()))}."
    )


def _patches(spring: Spring, start: int, end: int) -> str:
    warmest = float(spring.floor_k[start : end + 1].max())
    left = "none" if spring["snow"][end] < BARE_MM else mm(float(spring["snow"][end]))
    return (
        f"From {spring.when(start)} on half of the valley or more is bare. The afternoons are as warm as "
        f"{celsius(warmest)}, yet day by day less water comes, for there is less snow to melt: "
        f"{mm(float(spring['snow'][start]))} of water are left in it at first, {left} on {spring.when(end)}."
    )


def _springs(spring: Spring, start: int, end: int) -> str:
    return (
        f"On {spring.when(start)} the last snow is gone. The stream runs on, without day and night: ground water, "
        f"{mm(float(spring['ground'][start]))} of it, comes out in springs, {flow(spring, end)} at the end. In all "
        f"{mm(float(spring['gone'][end]))} of water have left the valley, and {mm(float(spring['ground'][end]))} are "
        "still in the ground."
    )


def events(spring: Spring) -> tuple[Event, ...]:
    """The firsts and the lasts, in order."""
    bare, line = spring.bare_share, spring.snow_line_m
    stream, melted = spring.stream_m3_s, np.cumsum(spring["melt"] - spring["freezing"])
    fastest = int(np.argmax(stream))
    moments: list[tuple[int | None, str, str]] = [
        (
            first(spring["outflow"] * 3600.0 / STEP_S >= RUNS_MM_H),
            "first melt",
            "The first melt water runs out of the snow.",
        ),
        (
            first(bare > 0.0) if bare[0] == 0.0 else None,
            "first bare ground",
            "The first bare ground shows, on the valley's floor.",
        ),
        (fastest, "fastest stream", f"The stream carries most, {litres(float(stream[fastest]))}."),
        (first(bare >= 1.0), "last snow gone", f"The last snow is gone, {spring.valley.valley_depth:.0f} m up."),
    ]
    half = first(bare >= HALF)
    if half is not None and bare[0] < HALF:
        moments.append((half, "half bare", f"Half of the valley is bare, up to {line[half]:.0f} m."))
    if melted[-1] > 0.0:
        most = int(np.argmax(spring["melt"]))
        rate = spring["melt"][most] * 3600.0 / STEP_S
        moments.append((most, "quickest melt", f"The snow melts quickest, {number_text(rate, 2)} mm an hour."))
    came = sorted((step, name, text) for step, name, text in moments if step is not None)
    return tuple(Event(name=name, time_s=step * STEP_S, text=text) for step, name, text in came)


def missing(
    spring: Spring,
    came: Mapping[str, tuple[int, int]],
    conditions: Mapping[str, float],
    specs: tuple[ConditionSpec, ...],
) -> tuple[Missing, ...]:
    """Why a stage did not come, and what to change: each piece of advice is tried out."""
    lacking = [stage.name for stage in STAGES if stage.name not in came]
    if not lacking:
        return ()
    adviser = Adviser(specs=specs, conditions=conditions, found=brought)
    return tuple(adviser.missing(name, *_reasons(spring, name)) for name in lacking)


def brought(conditions: Mapping[str, float]) -> Collection[str]:
    """The stages that conditions bring; none where they do not go together."""
    try:
        return found(observe(checked(Valley.of(conditions))))
    except BadCondition:
        return ()


def _reasons(spring: Spring, stage: str) -> tuple[str, list[tuple[str, float]]]:
    valley = spring.valley
    warmer = [("afternoon_temperature", valley.afternoon_temperature + rise) for rise in (5.0, 10.0)]
    longer = [("days", min(factor * valley.days, 21.0)) for factor in (1.5, 2.5)]
    thinner = [("snow_high", share * valley.snow_high) for share in (0.6, 0.3)]
    if stage == "frost":
        reason = "melt water runs out of the snow from the first hour: it brings no frost with it"
        return reason, [("snow_temperature", ZERO_CELSIUS_K - cold) for cold in (3.0, 8.0)]
    if first(spring["outflow"] * 3600.0 / STEP_S >= RUNS_MM_H) is None:
        warmest = celsius(float(spring.floor_k.max()))
        reason = f"no melt water runs out of the snow in {duration_text(valley.days * DAY_S)}, at {warmest} at most"
        return reason, [*warmer, *longer]
    bare = float(spring.bare_share[-1])
    if stage in ("first-melt", "rushing") and spring.bare_share[0] + bare > 0.0:
        reason = "the valley's floor has next to no snow to melt, compared with the slopes"
        deeper = [("snow_low", 0.5 * valley.snow_high), ("snow_low", 0.8 * valley.snow_high)]
        return reason, [*deeper, ("snow_high", 2.0 * valley.snow_high + 0.05)]
    left = float(spring["snow"][-1])
    reason = f"snow with {mm(left)} of water is left when the {round(valley.days)} days end, {100 * bare:.0f} % bare"
    if stage == "rushing":
        return reason, [*longer, ("snow_low", 0.3 * valley.snow_low), *warmer]
    return reason, [longer[0], warmer[0], thinner[0], longer[1], warmer[1], thinner[1]]
