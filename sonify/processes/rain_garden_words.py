"""The stages of a storm over a rain garden, found in the model's output, and the facts told of them."""

from __future__ import annotations

from collections.abc import Collection, Mapping

import numpy as np

from sonify.frozen import dataclass
from sonify.processes.declared import Adviser, events_at, first, spans
from sonify.processes.rain_garden_model import Garden, Storm, simulate
from sonify.processes.specs import Declared
from sonify.processes.telling import Stretch, added, fixed, given, source_of, told_apart
from sonify.records.fact import Amount, Arg, Claim, Duration, Fact, Reading, Words, fact
from sonify.records.process import ConditionSpec
from sonify.records.timeline import Event, FloatArray, Missing
from sonify.units import convert

ARRIVES_M3_S = 0.1e-3 / 60.0  # a tenth of a litre a minute: the least run-off that counts as arriving
PUDDLE_M = 0.002  # the least water standing in the hollow that counts as a pond

_DECLARED = Declared("rain_garden")
_PUDDLE = Amount(value=1000.0 * PUDDLE_M, unit="mm", given="our own limit")

STAGES = (
    _DECLARED.stage("first-drops"),
    _DECLARED.stage("drinking", seen_as=fact("rain_garden-seen-drinking", puddle=_PUDDLE)),
    _DECLARED.stage("ponding"),
    _DECLARED.stage("overflow"),
    _DECLARED.stage("sinking", seen_as=fact("rain_garden-seen-sinking", puddle=_PUDDLE)),
    _DECLARED.stage("ground"),
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


Changes = list[tuple[str, float]]


def told(flood: Flood, whole: Stretch, came: Mapping[str, tuple[int, int]]) -> dict[str, Words]:
    """The facts of each stage, with this storm's own figures."""
    writers = {
        "first-drops": _first_drops,
        "drinking": _drinking,
        "ponding": _ponding,
        "overflow": _overflow,
        "sinking": _sinking,
        "ground": _ground,
    }
    return {name: writers[name](flood, whole.steps(*span)) for name, span in came.items()}


def _litres(stretch: Stretch, store: str, how: str = "last") -> Amount:
    return stretch.figure(store, how, digits=2 if stretch.at(store, how) < 1e-3 else 3, unit="litre")


def _a_minute(stretch: Stretch, flux: str) -> Amount:
    return stretch.figure(flux, "most", digits=2, unit="litre/minute")


def _an_hour(stretch: Stretch, rate: str, how: str) -> Amount:
    return stretch.figure(rate, how, digits=2, unit="millimetre/hour")


def _deep(stretch: Stretch, how: str) -> Amount:
    return stretch.figure("pond depth", how, digits=2)


def _after(stretch: Stretch, stage: str, edge: str = "begins") -> Duration:
    """How long after the first drop a stage begins or ends."""
    return Duration(seconds=stretch.start if edge == "begins" else stretch.end, source=Reading(how=edge, of=stage))


def _drinks(flood: Flood, stretch: Stretch) -> dict[str, Amount]:
    """How fast the garden's soil drinks at the start of a stretch and just before its end."""
    inside = stretch.between(stretch.start, max(stretch.end - flood.step_s, stretch.start))
    return {"first": _an_hour(inside, "soaking rate", "first"), "later": _an_hour(inside, "soaking rate", "last")}


def _first_drops(flood: Flood, stretch: Stretch) -> Words:
    rain = stretch.figure("rain so far", "last", digits=2)
    told: dict[str, Arg] = {
        "lasts": _after(stretch, "first-drops", "ends"),
        "rain": rain,
        "soil": _litres(stretch, "water in the soil"),
    }
    if flood.garden.roof_area + flood.garden.path_area <= 0.0:
        return fact("rain_garden-first-drops-alone", **told)
    return fact("rain_garden-first-drops", kept=_litres(stretch, "water on roofs and paths"), **told)


def _drinking(flood: Flood, stretch: Stretch) -> Words:
    return fact(
        "rain_garden-drinking",
        after=_after(stretch, "drinking"),
        most=_a_minute(stretch, "water coming in"),
        drinks=_an_hour(stretch, "soaking rate", "most"),
    )


def _ponding(flood: Flood, stretch: Stretch) -> Words:
    after, drinks, deep = _after(stretch, "ponding"), _drinks(flood, stretch), _deep(stretch, "last")
    rises = stretch.rises("pond depth")
    more: dict[str, Arg] = {"after": after, "most": _a_minute(stretch, "water coming in"), "deep": deep}
    slower = Claim(kind="less", left=source_of(drinks["later"]), right=source_of(drinks["first"]))
    stands = fact("rain_garden-stands", after=after, deep=deep)
    plain = fact("rain_garden-ponding-plain", rises, **more).or_else(stands)
    if drinks["later"].value >= 0.99 * drinks["first"].value or told_apart(drinks["first"], drinks["later"], 2) is None:
        return plain
    return fact("rain_garden-ponding", rises, slower, **more, **drinks).or_else(plain)


def _nothing(stretch: Stretch, name: str, how: str) -> Claim:
    """That a reading is 0, where it is told as nothing."""
    return Claim(kind="at most", left=stretch.reading(name, how), right=fixed(0.0))


def _overflow(flood: Flood, stretch: Stretch) -> Words:
    spilt: dict[str, Arg] = {
        "after": _after(stretch, "overflow"),
        "until": _after(stretch, "overflow", "ends"),
        "spilt": stretch.figure("water down the drain", "change", digits=3, unit="litre"),
        "most": _a_minute(stretch, "overflow"),
    }
    if flood.garden.garden_depth <= 0.0:
        return fact("rain_garden-no-hollow", _level(), **spilt)
    return fact("rain_garden-overflow", deep=_deep(stretch, "most"), **spilt)


def _hollow(flood: Flood) -> Amount:
    return given(convert(flood.garden.garden_depth, "m", "cm"), "cm", "garden_depth", digits=2)


def _level() -> Claim:
    """That the garden has no hollow at all."""
    return Claim(kind="at most", left=Reading(how="condition", of="garden_depth"), right=fixed(0.0))


def _sinking(flood: Flood, stretch: Stretch) -> Words:
    after, until = _after(stretch, "sinking"), _after(stretch, "sinking", "ends")
    depths = told_apart(_deep(stretch, "first"), _deep(stretch, "last"))
    if depths is None:
        return fact("rain_garden-stands-on", after=after, until=until, deep=_deep(stretch, "last"))
    still = fact("rain_garden-stands-on", after=after, until=until, deep=depths[1])
    sinks = fact("rain_garden-sinks", stretch.falls("pond depth"), after=after, until=until, **_from_to(depths))
    if stretch.at("pond depth", "last") < PUDDLE_M:
        gone = Claim(kind="at most", left=stretch.reading("pond depth", "last"), right=fixed(PUDDLE_M))
        sinks = fact("rain_garden-sinks-away", gone, after=after, until=until, deep=depths[0])
    drinks = fact("rain_garden-drinks", **_drinks(flood, stretch))
    return (sinks.or_else(still), drinks, *_ground_water(stretch))


def _from_to(pair: tuple[Amount, Amount]) -> dict[str, Amount]:
    return {"from": pair[0], "to": pair[1]}


def _ground_water(stretch: Stretch) -> tuple[Fact, ...]:
    """What the ground has before and after; nothing where the two read the same."""
    stores = told_apart(_litres(stretch, "ground water", "first"), _litres(stretch, "ground water"))
    if stores is None:
        return ()
    plain = fact("rain_garden-ground-water", **_from_to(stores))
    if stretch.at("ground water", "change") > 0.0:
        return (fact("rain_garden-ground-fills", stretch.rises("ground water"), **_from_to(stores)).or_else(plain),)
    return (fact("rain_garden-ground-empties", stretch.falls("ground water"), **_from_to(stores)).or_else(plain),)


def _ground(flood: Flood, stretch: Stretch) -> Words:
    dry = Claim(kind="at most", left=stretch.reading("pond depth", "first"), right=fixed(PUDDLE_M))
    return (
        fact("rain_garden-gone", dry, after=_after(stretch, "ground")),
        _brook(flood, stretch),
        _account(stretch),
    )


def _brook(flood: Flood, stretch: Stretch) -> Words:
    """What the brook gets: when most, or that it grows or dies away to the end."""
    run = stretch.between(0.0, stretch.end)
    most = run.moment("flow to the brook", "when most")
    flow = run.figure("flow to the brook", "most", digits=2, unit="litre/hour")
    if flow.value <= 0.0:
        return fact("rain_garden-brook-dry", Claim(kind="at most", left=source_of(flow), right=fixed(0.0)))
    plain = fact("rain_garden-brook-gets", flow=flow)
    if most <= 0.0:
        return fact("rain_garden-brook-falls", run.falls("flow to the brook"), flow=flow).or_else(plain)
    if most >= stretch.end:
        return fact("rain_garden-brook-grows", stretch.rises("flow to the brook"), flow=flow).or_else(plain)
    fullest = Duration(seconds=most, source=run.reading("flow to the brook", "when most"))
    return fact("rain_garden-brook", fullest=fullest, flow=flow)


def _account(stretch: Stretch) -> Fact:
    """What came into the garden, and what of it went down the drain."""
    run = stretch.between(0.0, stretch.end)
    stores = ("water in the soil", "water in the brook", "water down the drain")
    readings = [run.reading("water in the pond", "last"), *(run.reading(store, "last") for store in stores)]
    value = sum(run.at(reading.of, "last") for reading in readings) + run.at("ground water", "change")
    source = added(*readings, run.reading("ground water", "change"))
    came = Amount(value=float(convert(value, "m**3", "litre")), unit="litre", digits=3, source=source)
    spilt = stretch.figure("water down the drain", "last", digits=3, unit="litre")
    if spilt.value <= 0.0:
        kept = Claim(kind="at most", left=source_of(spilt), right=fixed(0.0))
        return fact("rain_garden-account-kept", kept, came=came)
    return fact("rain_garden-account", came=came, spilt=spilt)


def events(flood: Flood, whole: Stretch) -> tuple[Event, ...]:
    """The moments of the storm and after, in order."""
    rain, depth, springs = flood.rain_m_s, flood.depth_m, flood.rate_m3_s("springs")
    heaviest, deepest, fullest = int(np.argmax(rain)), int(np.argmax(depth)), int(np.argmax(springs))
    came = found(flood)
    moments: list[tuple[int, str, Fact]] = [
        (0, "first drops", fact("rain_garden-first-drop")),
        (heaviest, "heaviest rain", fact("rain_garden-heaviest", rate=_an_hour(whole, "rain rate", "most"))),
    ]
    puddle = first(depth >= PUDDLE_M)
    if puddle is not None:
        stands = whole.steps(puddle, puddle).reading("pond depth", "first")
        least = Claim(kind="at least", left=stands, right=fixed(PUDDLE_M))
        moments.append((puddle, "first puddle", fact("rain_garden-puddle", least)))
        moments.append((deepest, "deepest pond", fact("rain_garden-deepest", depth=_deep(whole, "most"))))
    spills = first(flood["spill"] > 0.0)
    if spills is not None:
        runs = Claim(kind="more", left=whole.steps(spills, spills).reading("overflow", "first"), right=fixed(0.0))
        moments.append((spills, "first overflow", fact("rain_garden-spills", runs)))
    ends = first(flood.storm.time_s >= flood.garden.storm_length)
    if ends is not None:
        fallen = given(convert(flood.garden.rain, "m", "mm"), "mm", "rain")
        moments.append((ends, "last drops", fact("rain_garden-last-drops", rain=fallen)))
    if "ground" in came and puddle is not None:
        at = came["ground"][0]
        dry = Claim(kind="at most", left=whole.steps(at, at).reading("pond depth", "first"), right=fixed(PUDDLE_M))
        moments.append((at, "pond gone", fact("rain_garden-pond-gone", dry)))
    if 0 < fullest < flood.last:
        flow = whole.figure("flow to the brook", "most", digits=2, unit="litre/hour")
        moments.append((fullest, "brook fullest", fact("rain_garden-fullest", flow=flow)))
    return events_at(moments, flood.storm.time_s)


def missing(
    flood: Flood,
    whole: Stretch,
    came: Collection[str],
    conditions: Mapping[str, float],
    specs: tuple[ConditionSpec, ...],
) -> tuple[Missing, ...]:
    """Why a stage did not come, and what to change: each piece of advice is tried out."""
    adviser = Adviser(specs=specs, conditions=conditions, found=lambda changed: found(observe(Garden.of(changed))))
    reasons = {
        "first-drops": _no_first_drops,
        "drinking": _no_drinking,
        "ponding": _no_ponding,
        "overflow": _no_overflow,
        "sinking": _no_sinking,
        "ground": _no_ground,
    }
    return tuple(
        adviser.missing(stage.name, *reasons[stage.name](flood, whole)) for stage in STAGES if stage.name not in came
    )


def _more_rain(flood: Flood) -> Changes:
    return [("rain", flood.garden.rain * factor) for factor in (2.0, 4.0)]


def _slower_soil(flood: Flood) -> Changes:
    return [("soil_conductivity", flood.garden.soil_conductivity * share) for share in (0.4, 0.1)]


def _more_roof(flood: Flood) -> tuple[str, float]:
    return ("roof_area", 3.0 * flood.garden.roof_area + 50.0)


def _watched(flood: Flood) -> Duration:
    return Duration(seconds=flood.garden.watched, source=Reading(how="condition", of="watched"))


def _no_first_drops(flood: Flood, whole: Stretch) -> tuple[Fact, Changes]:
    """It begins at the first moment: only what begins then, too, takes its place."""
    changes = [("garden_depth", 0.10), ("garden_depth", 0.3), ("rain", 0.3 * flood.garden.rain)]
    return fact("rain_garden-spills-at-once", most=_a_minute(whole, "overflow")), changes


def _no_drinking(flood: Flood, whole: Stretch) -> tuple[Fact, Changes]:
    garden = flood.garden
    if garden.roof_area + garden.path_area <= 0.0:
        none = [
            Claim(kind="at most", left=Reading(how="condition", of=area), right=fixed(0.0))
            for area in ("roof_area", "path_area")
        ]
        return fact("rain_garden-no-roofs", *none), [("roof_area", 60.0), ("path_area", 60.0)]
    arrives = first(flood.rate_m3_s("arriving") >= ARRIVES_M3_S)
    if arrives is None:
        reason = fact("rain_garden-only-wet", most=_a_minute(whole, "run-off"))
        if whole.at("run-off", "most") <= 0.0:
            reason = fact("rain_garden-all-wets", _nothing(whole, "run-off", "most"))
        return reason, [*_more_rain(flood), ("rain", 0.02), ("watched", 2.0 * garden.watched)]
    changes = [("soil_conductivity", 3.0 * garden.soil_conductivity), ("soil_wetness", 0.3), ("rain", 0.01)]
    before = whole.between(0.0, float(flood.storm.time_s[arrives]))
    if before.at("pond depth", "most") >= PUDDLE_M:
        return fact("rain_garden-pond-first", deep=_deep(before, "most")), changes
    if before.at("water down the drain", "last") > 0.0:
        return fact("rain_garden-spills-first", spilt=_litres(before, "water down the drain")), changes
    return fact("rain_garden-runs-late", run=_a_minute(whole, "run-off")), [*_more_rain(flood), *changes]


def _no_ponding(flood: Flood, whole: Stretch) -> tuple[Fact, Changes]:
    deeper = [("garden_depth", 0.10), ("garden_depth", 0.3)]
    spilt = _litres(whole, "water down the drain")
    if spilt.value > 0.0 and flood.garden.garden_depth <= 0.0:
        return fact("rain_garden-too-flat", _level(), spilt=spilt), deeper
    if spilt.value > 0.0:
        quick = flood.garden.garden_depth >= PUDDLE_M
        message = "rain_garden-fills-at-once" if quick else "rain_garden-too-shallow"
        return fact(message, depth=_hollow(flood), spilt=spilt), deeper
    deepest = whole.figure("pond depth", "most", digits=2, unit="mm")
    if whole.at("pond depth", "most") >= PUDDLE_M:
        return fact("rain_garden-brief-pond", deep=deepest), [*_more_rain(flood), ("watched", 2.0 * whole.end)]
    changes = [*_more_rain(flood), *_slower_soil(flood), _more_roof(flood)]
    if deepest.value <= 0.0:
        return fact("rain_garden-drinks-at-once", _nothing(whole, "pond depth", "most")), changes
    return fact("rain_garden-drinks-all", deep=deepest), changes


def _no_overflow(flood: Flood, whole: Stretch) -> tuple[Fact, Changes]:
    deepest = float(flood.depth_m.max())
    changes = [("garden_depth", 0.7 * deepest), *_more_rain(flood), _more_roof(flood)]
    spilt = _litres(whole, "water down the drain")
    if spilt.value > 0.0:
        return fact("rain_garden-brief-spill", spilt=spilt), changes
    if deepest <= 0.0:
        return fact("rain_garden-drinks-at-once", _nothing(whole, "pond depth", "most")), changes
    depths = told_apart(_deep(whole, "most"), _hollow(flood))
    if depths is None:
        return fact("rain_garden-to-the-lip", depth=_hollow(flood)), changes
    shallower = Claim(kind="less", left=source_of(depths[0]), right=source_of(depths[1]), slack=1e-6)
    return fact("rain_garden-not-full", shallower, deep=depths[0], depth=depths[1]), changes


def _no_sinking(flood: Flood, whole: Stretch) -> tuple[Fact, Changes]:
    if float(flood.depth_m.max()) < PUDDLE_M:
        deepest = whole.figure("pond depth", "most", digits=2, unit="mm")
        deeper = [("garden_depth", 0.10)] if flood["drain"][-1] > 0.0 else []
        reason = fact("rain_garden-no-pond", deep=deepest)
        if deepest.value <= 0.0:
            reason = fact("rain_garden-nothing-stands", _nothing(whole, "pond depth", "most"))
        return reason, [*deeper, *_more_rain(flood), *_slower_soil(flood)]
    if flood.depth_m[-1] >= PUDDLE_M:
        return fact("rain_garden-not-yet", watched=_watched(flood), deep=_deep(whole, "last")), _longer(flood)
    return fact("rain_garden-gone-at-once", deep=_deep(whole, "most")), [*_slower_soil(flood), *_more_rain(flood)]


def _longer(flood: Flood) -> Changes:
    return [("watched", flood.garden.watched * factor) for factor in (2.0, 4.0)]


def _no_ground(flood: Flood, whole: Stretch) -> tuple[Fact, Changes]:
    garden = flood.garden
    faster = [("soil_conductivity", factor * garden.soil_conductivity) for factor in (5.0, 30.0)]
    watched = _watched(flood)
    if flood.depth_m[-1] >= PUDDLE_M:
        reason = fact("rain_garden-still-stands", deep=_deep(whole, "last"), watched=watched)
    elif garden.storm_length > garden.watched:
        length = Reading(how="condition", of="storm_length")
        longer = Claim(kind="more", left=length, right=Reading(how="condition", of="watched"))
        reason = fact("rain_garden-rains-on", longer, watched=watched)
    else:
        reason = fact("rain_garden-still-runs", watched=watched)
    return reason, [*_longer(flood), *faster]
