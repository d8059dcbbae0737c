"""The stages of a valley's snow-melt, found in the model's output, and the facts told of them."""

from __future__ import annotations

from collections.abc import Collection, Mapping
from dataclasses import replace

import numpy as np

from sonify.constants import DAY_S, ZERO_CELSIUS_K
from sonify.errors import BadCondition
from sonify.frozen import dataclass
from sonify.processes.declared import Adviser, first, spans
from sonify.processes.snow_melt_model import BANDS, BARE_MM, STEP_S, Valley, Weather, checked, simulate
from sonify.processes.specs import Declared
from sonify.processes.telling import Stretch, fixed, source_of, told_apart
from sonify.records.fact import Amount, Arg, Claim, Duration, Fact, Reading, Words, fact
from sonify.records.process import ConditionSpec
from sonify.records.timeline import Event, FloatArray, Missing

RUNS_MM_H = 0.01  # the least melt water, over the valley, that counts as running out of the snow
HALF = 0.5
_GROUND_ALONE = 0.9  # of the stream's water: then it is said to be ground water alone

_DECLARED = Declared("snow_melt")

STAGES = (
    _DECLARED.stage(
        "frost", seen_as=fact("snow_melt-seen-frost", limit=Amount(value=RUNS_MM_H, unit="mm", given="our own limit"))
    ),
    _DECLARED.stage("first-melt"),
    _DECLARED.stage("rushing"),
    _DECLARED.stage("patches"),
    _DECLARED.stage(
        "springs", seen_as=fact("snow_melt-seen-springs", limit=Amount(value=BARE_MM, unit="mm", given="our own limit"))
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


Changes = list[tuple[str, float]]


def told(spring: Spring, whole: Stretch, came: Mapping[str, tuple[int, int]]) -> dict[str, Words]:
    """The facts of each stage, with this spring's own figures."""
    writers = {
        "frost": _frost,
        "first-melt": _first_melt,
        "rushing": _rushing,
        "patches": _patches,
        "springs": _springs,
    }
    return {name: writers[name](spring, whole.steps(*span)) for name, span in came.items()}


def _when(stretch: Stretch, moment: float, source: Reading) -> Fact:
    """A moment as day and hour: "day 3, 09:15"."""
    days = replace(source, less=fixed(moment % DAY_S - DAY_S), per=fixed(DAY_S))
    number = Amount(value=moment // DAY_S + 1.0, unit="1", places=0, source=days)
    return fact("snow_melt-when", day=number, time=stretch.clock(moment, source))


def _begins(stretch: Stretch, stage: str) -> Fact:
    return _when(stretch, stretch.start, Reading(how="begins", of=stage))


def _ends(stretch: Stretch, stage: str) -> Fact:
    source = Reading(how="ends", of=stage)
    if stretch.end % DAY_S == 0.0:
        days = Amount(value=stretch.end / DAY_S, unit="1", places=0, source=replace(source, per=fixed(DAY_S)))
        return fact("snow_melt-end-of-day", day=days)
    return _when(stretch, stretch.end, source)


def _flow(stretch: Stretch, how: str, of: str = "stream flow") -> Amount:
    return stretch.figure(of, how, digits=2, unit="litre/second")


def _water(stretch: Stretch, store: str, how: str) -> Amount:
    return stretch.figure(store, how, digits=2)


def _nothing(figure: Amount) -> Claim:
    """That a figure, which is told as nothing, is nothing."""
    return Claim(kind="at most", left=source_of(figure), right=fixed(0.0))


def _frost(spring: Spring, stretch: Stretch) -> Words:
    limit = RUNS_MM_H * 1.0e-3 / 3600.0
    before = stretch.between(stretch.start, max(stretch.end - STEP_S, stretch.start))
    little = Claim(
        kind="at most", left=before.reading("melt water running out", "most"), right=fixed(limit * (1.0 + 1e-9))
    )
    waits = fact(
        "snow_melt-waits",
        little,
        lasts=Duration(seconds=stretch.end - stretch.start, source=Reading(how="lasts", of="frost")),
        snow=_water(stretch, "snow", "first"),
    )
    told: list[Fact] = [waits]
    if spring.valley.snow_temperature < ZERO_CELSIUS_K - 0.05:
        cold = Amount(
            value=spring.valley.snow_temperature - ZERO_CELSIUS_K,
            unit="degC",
            places=1,
            source=Reading(how="condition", of="snow_temperature"),
        )
        told.append(fact("snow_melt-cold-snow", cold=cold))
    if stretch.at("air temperature", "least") < ZERO_CELSIUS_K:
        coldest = stretch.figure("air temperature", "least", places=1)
        freezes = Claim(kind="at most", left=source_of(coldest), right=fixed(ZERO_CELSIUS_K))
        told.append(fact("snow_melt-cold-air", freezes, coldest=coldest))
    return (*told, _ground_feeds(stretch))


def _ground_feeds(stretch: Stretch) -> Fact:
    """What the stream carries while next to no melt water comes."""
    flow = _flow(stretch, "last")
    if flow.value <= 0.0:
        return fact("snow_melt-dry", _nothing(flow))
    if stretch.at("flow from the springs", "total") < _GROUND_ALONE * stretch.at("stream flow", "total"):
        return fact("snow_melt-carries", flow=flow)
    springs, stream = stretch.reading("flow from the springs", "total"), stretch.reading("stream flow", "total")
    most = Claim(kind="at least", left=springs, right=replace(stream, times=_GROUND_ALONE))
    return fact("snow_melt-ground-feeds", most, flow=flow)


def _first_melt(spring: Spring, stretch: Stretch) -> Words:
    melted, frozen = stretch.total("melt rate", "mm"), stretch.total("freezing rate", "mm")
    whole: dict[str, Arg] = {
        "from": _begins(stretch, "first-melt"),
        "until": _ends(stretch, "first-melt"),
        "melted": melted,
    }
    first_melt = fact("snow_melt-melts", **whole)
    if 0.005 * melted.value < frozen.value < melted.value:
        less = Claim(kind="less", left=source_of(frozen), right=source_of(melted))
        first_melt = fact("snow_melt-melts-and-freezes", less, frozen=frozen, **whole).or_else(first_melt)
    return (first_melt, *_swells(stretch))


def _swells(stretch: Stretch) -> tuple[Fact, ...]:
    """How the stream swells, and how long after noon it carries most."""
    flows = told_apart(_flow(stretch, "first"), _flow(stretch, "most"))
    if flows is None:
        return ()
    peak = stretch.moment("stream flow", "when most")
    noon = peak // DAY_S * DAY_S + 0.5 * DAY_S
    swells: dict[str, Arg] = {"from": flows[0], "to": flows[1]}
    if peak - noon < 3600.0:
        return (fact("snow_melt-swells", **swells),)
    source = stretch.reading("stream flow", "when most")
    late = Duration(seconds=peak - noon, source=replace(source, less=fixed(noon)))
    return (fact("snow_melt-swells-late", late=late, time=stretch.clock(peak, source), **swells),)


def _rushing(spring: Spring, stretch: Stretch) -> Words:
    bare = Claim(kind="more", left=stretch.reading("snow line", "first"), right=fixed(0.0))
    bounds: dict[str, Arg] = {"from": _begins(stretch, "rushing"), "until": _ends(stretch, "rushing")}
    plain = fact("snow_melt-bare", cover=stretch.figure("snow cover", "last", digits=2), **bounds)
    if stretch.at("snow line", "change") <= 0.0:
        return (plain, _goes_up_and_down(stretch))
    line = stretch.figure("snow line", "last", places=0)
    climbs = fact("snow_melt-line-climbs", bare, stretch.rises("snow line"), line=line, **bounds).or_else(plain)
    return (climbs, _goes_up_and_down(stretch))


def _goes_up_and_down(stretch: Stretch) -> Fact:
    """The stream's swings: by the day where there are two whole ones with their peaks after noon, else its bounds."""
    bounds: dict[str, Arg] = {"most": _flow(stretch, "most"), "least": _flow(stretch, "least")}
    plain = fact("snow_melt-between", **bounds)
    days = _whole_days(stretch)
    if len(days) < 2 or any(each.moment("stream flow", "when most") % DAY_S < 0.5 * DAY_S for each in days):
        return plain
    afternoons = [
        Claim(
            kind="at least",
            left=replace(each.reading("stream flow", "when most"), less=fixed(each.start)),
            right=fixed(0.5 * DAY_S),
        )
        for each in days
    ]
    return fact("snow_melt-every-afternoon", *afternoons, **bounds).or_else(plain)


def _whole_days(stretch: Stretch) -> list[Stretch]:
    """The days, midnight to midnight, that lie within a stretch."""
    first_day, after = int(-(-stretch.start // DAY_S)), int(stretch.end // DAY_S)
    return [stretch.between(day * DAY_S, (day + 1) * DAY_S) for day in range(first_day, after)]


def _patches(spring: Spring, stretch: Stretch) -> Words:
    before, left = _water(stretch, "snow", "first"), _water(stretch, "snow", "last")
    bounds: dict[str, Arg] = {"from": _begins(stretch, "patches"), "until": _ends(stretch, "patches"), "before": before}
    goes = fact("snow_melt-patches", left=left, **bounds)
    if stretch.at("snow", "last") * 1e3 < BARE_MM:
        goes = fact("snow_melt-patches-go", stretch.falls("snow"), **bounds).or_else(goes)
    warm = fact("snow_melt-warm", warmest=stretch.figure("air temperature", "most", places=1))
    return (goes, warm, *_shrinks(stretch))


def _shrinks(stretch: Stretch) -> tuple[Fact, ...]:
    """That the stream carries less in the second half of the stage than in the first, where it does and days passed."""
    if stretch.end - stretch.start < 2 * DAY_S:
        return ()
    middle = 0.5 * (stretch.start + stretch.end)
    halves = stretch.between(stretch.start, middle), stretch.between(middle, stretch.end)
    flows = told_apart(_flow(halves[0], "mean"), _flow(halves[1], "mean"))
    if flows is None or flows[1].value >= flows[0].value:
        return ()
    less = Claim(kind="less", left=source_of(flows[1]), right=source_of(flows[0]), slack=1e-6)
    return (fact("snow_melt-less-comes", less, before=flows[0], after=flows[1]),)


def _springs(spring: Spring, stretch: Stretch) -> Words:
    gone = Claim(kind="at most", left=stretch.reading("snow cover", "first"), right=fixed(0.0))
    ground, flow = _water(stretch, "ground water", "first"), _flow(stretch, "last")
    told: list[Fact] = [fact("snow_melt-all-gone", gone, at=_begins(stretch, "springs"))]
    if ground.value <= 0.0:
        told.append(fact("snow_melt-no-ground-water", _nothing(ground)))
    else:
        told.append(fact("snow_melt-runs-on", ground=ground, flow=flow))
    left, kept = _water(stretch, "water that has left", "last"), _water(stretch, "ground water", "last")
    if kept.value <= 0.0:
        return (*told, fact("snow_melt-account-dry", _nothing(kept), left=left))
    return (*told, fact("snow_melt-account", left=left, kept=kept))


def events(spring: Spring, whole: Stretch) -> tuple[Event, ...]:
    """The firsts and the lasts, in order."""
    bare, stream = spring.bare_share, spring.stream_m3_s
    moments = [
        (first(spring["outflow"] * 3600.0 / STEP_S >= RUNS_MM_H), "first melt", _runs),
        (first(bare > 0.0) if bare[0] == 0.0 else None, "first bare ground", _bare),
        (int(np.argmax(stream)), "fastest stream", _fastest),
        (first(bare >= 1.0), "last snow gone", _gone),
        (first(bare >= HALF) if bare[0] < HALF else None, "half bare", _half_bare),
        (int(np.argmax(spring["melt"])) if spring["melt"].max() > 0.0 else None, "quickest melt", _quickest),
    ]
    came = sorted((step, name, text(whole.steps(step, step))) for step, name, text in moments if step is not None)
    return tuple(Event(name=name, time_s=step * STEP_S, text=text) for step, name, text in came)


def _runs(moment: Stretch) -> Fact:
    least = fixed(RUNS_MM_H * (1.0 - 1e-9) * 1.0e-3 / 3600.0)
    runs = Claim(kind="at least", left=moment.reading("melt water running out", "first"), right=least)
    return fact("snow_melt-first-runs", runs)


def _bare(moment: Stretch) -> Fact:
    less = Claim(kind="less", left=moment.reading("snow cover", "first"), right=fixed(1.0))
    floor = Claim(kind="more", left=moment.reading("snow line", "first"), right=fixed(0.0))
    return fact("snow_melt-first-bare", less, floor).or_else(fact("snow_melt-first-bare-somewhere", less))


def _fastest(moment: Stretch) -> Fact:
    return fact("snow_melt-carries-most", flow=_flow(moment, "first"))


def _gone(moment: Stretch) -> Fact:
    none = Claim(kind="at most", left=moment.reading("snow cover", "first"), right=fixed(0.0))
    return fact("snow_melt-last-gone", none)


def _half_bare(moment: Stretch) -> Fact:
    half = Claim(kind="at most", left=moment.reading("snow cover", "first"), right=fixed(HALF))
    below = Claim(kind="more", left=moment.reading("snow line", "first"), right=fixed(0.0))
    line = moment.figure("snow line", "first", places=0)
    return fact("snow_melt-half-bare", half, below, line=line).or_else(fact("snow_melt-half-bare-somewhere", half))


def _quickest(moment: Stretch) -> Fact:
    return fact("snow_melt-quickest", rate=moment.figure("melt rate", "first", digits=2, unit="millimetre/hour"))


def missing(
    spring: Spring,
    whole: Stretch,
    came: Mapping[str, tuple[int, int]],
    conditions: Mapping[str, float],
    specs: tuple[ConditionSpec, ...],
) -> tuple[Missing, ...]:
    """Why a stage did not come, and what to change: each piece of advice is tried out."""
    lacking = [stage.name for stage in STAGES if stage.name not in came]
    if not lacking:
        return ()
    adviser = Adviser(specs=specs, conditions=conditions, found=brought)
    return tuple(adviser.missing(name, *_reasons(spring, whole, name)) for name in lacking)


def brought(conditions: Mapping[str, float]) -> Collection[str]:
    """The stages that conditions bring; none where they do not go together."""
    try:
        return found(observe(checked(Valley.of(conditions))))
    except BadCondition:
        return ()


def _reasons(spring: Spring, whole: Stretch, stage: str) -> tuple[Fact, Changes]:
    valley = spring.valley
    warmer = [("afternoon_temperature", valley.afternoon_temperature + rise) for rise in (5.0, 10.0)]
    longer = [("days", min(factor * valley.days, 21.0)) for factor in (1.5, 2.5)]
    thinner = [("snow_high", share * valley.snow_high) for share in (0.6, 0.3)]
    runs = first(spring["outflow"] * 3600.0 / STEP_S >= RUNS_MM_H)
    watched = Duration(seconds=valley.days * DAY_S, source=Reading(how="condition", of="days", times=DAY_S))
    if stage == "frost":
        at_once = source_of(whole.figure("melt water running out", "first"))
        least = fixed(RUNS_MM_H * (1.0 - 1e-9) * 1.0e-3 / 3600.0)
        reason = fact("snow_melt-no-frost", Claim(kind="at least", left=at_once, right=least))
        return reason, [("snow_temperature", ZERO_CELSIUS_K - cold) for cold in (3.0, 8.0)]
    if runs is None:
        warmest = whole.figure("air temperature", "most", places=1)
        limit = fixed(RUNS_MM_H * 1.0e-3 / 3600.0)
        little = Claim(kind="at most", left=whole.reading("melt water running out", "most"), right=limit)
        return fact("snow_melt-no-melt", little, watched=watched, warmest=warmest), [*warmer, *longer]
    bare, bare_then = float(spring.bare_share[-1]), float(spring.bare_share[runs])
    deeper = [
        ("snow_low", 0.5 * valley.snow_high),
        ("snow_low", 0.8 * valley.snow_high),
        ("snow_high", 2.0 * valley.snow_high + 0.05),
    ]
    if stage == "first-melt" and bare_then > 0.0:
        return _bare_before(whole.steps(runs, runs)), deeper
    half = first(spring.bare_share >= HALF)
    if stage == "rushing" and half is not None:
        bare_at_half = whole.steps(half, half).figure("snow cover", "first", digits=2)
        return fact("snow_melt-half-at-once", cover=bare_at_half), deeper
    left = fact(
        "snow_melt-snow-left",
        watched=watched,
        left=_water(whole, "snow", "last"),
        cover=whole.figure("snow cover", "last", digits=2),
    )
    if bare >= 1.0:
        left = fact("snow_melt-too-quick", gone=_gone_when(spring, whole))
    if stage == "rushing":
        return left, [*longer, ("snow_low", 0.3 * valley.snow_low), *warmer]
    return left, [longer[0], warmer[0], thinner[0], longer[1], warmer[1], thinner[1]]


def _bare_before(moment: Stretch) -> Fact:
    less = Claim(kind="less", left=moment.reading("snow cover", "first"), right=fixed(1.0))
    return fact("snow_melt-bare-before", less)


def _gone_when(spring: Spring, whole: Stretch) -> Fact:
    at = float(first(spring.bare_share >= 1.0) or 0) * STEP_S
    return _when(whole, at, Reading(how="happens", of="last snow gone"))
