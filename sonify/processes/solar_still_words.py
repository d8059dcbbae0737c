"""The stages of a day in the still, found in the model's output, and the facts told of them."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from sonify.errors import OutOfRange
from sonify.processes.declared import Adviser, events_at, first, spans
from sonify.processes.solar_still_model import KEPT_EVERY, Day, Setup, simulate
from sonify.processes.specs import Declared
from sonify.processes.telling import Stretch, fixed, given, source_of, told_apart
from sonify.records.fact import Amount, Arg, Claim, ClockTime, Fact, Reading, Words, fact
from sonify.records.process import ConditionSpec
from sonify.records.timeline import Event, Missing
from sonify.science.sun import HORIZON_RAD

BEGUN = 0.1  # of the day's greatest evaporation: the cover begins to mist over
RUNNING = 0.02  # of the day's greatest dripping: it has begun
FEWER, OVER = 0.5, 0.05  # of it, after its peak: it grows less, and is over
LEAST_KG_S = 3.0e-6  # for a square metre, some 10 ml an hour: less is no dripping and no misting

_DECLARED = Declared("solar_still")


def _seen(stage: str, share: float) -> Fact:
    """How a stage is found that begins or ends at a share of the day's greatest."""
    limit = Amount(value=100.0 * share, unit="%", given="our own limit")
    return fact(f"solar_still-seen-{stage}", share=limit)


STAGES = (
    _DECLARED.stage("warming", seen_as=_seen("warming", BEGUN)),
    _DECLARED.stage("misting"),
    _DECLARED.stage("dripping"),
    _DECLARED.stage("evening", seen_as=_seen("evening", OVER)),
    _DECLARED.stage("night"),
)


def found(day: Day) -> dict[str, tuple[int, int]]:
    """First and last sample of each stage that came."""
    rising, dripping = day["evaporation"], day["dripping"]
    misty = float(rising.max()) >= LEAST_KG_S
    wet = float(dripping.max()) >= LEAST_KG_S
    peak = int(np.argmax(dripping))
    fewer = first(dripping <= FEWER * dripping[peak], peak) if wet else None
    starts = {
        "warming": 0,
        "misting": first(rising >= BEGUN * rising.max()) if misty else None,
        "dripping": first(dripping >= RUNNING * dripping[peak]) if wet else None,
        "evening": fewer,
        "night": first(dripping <= OVER * dripping[peak], fewer) if fewer is not None else None,
    }
    return spans(starts, day.last)


Changes = list[tuple[str, float]]


def told(day: Day, whole: Stretch, came: Mapping[str, tuple[int, int]]) -> dict[str, Words]:
    """The facts of each stage, with this day's own figures."""
    if len(came) == 1:
        return {name: _dull(whole) for name in came}
    writers = {
        "warming": _warming,
        "misting": _misting,
        "dripping": _dripping,
        "evening": _evening,
        "night": _night,
    }
    return {name: writers[name](whole.steps(*span)) for name, span in came.items()}


def _water(stretch: Stretch, store: str, how: str = "last") -> Amount:
    """Water as a household measures it: litres, or millilitres below one."""
    unit = "litre" if stretch.at(store, how) >= 1e-3 else "ml"
    return stretch.figure(store, how, digits=2, unit=unit)


def _hourly(stretch: Stretch, rate: str) -> Amount:
    unit = "litre/hour" if stretch.at(rate, "most") >= 1e-3 / 3600.0 else "millilitre/hour"
    return stretch.figure(rate, "most", digits=2, unit=unit)


def _warmth(stretch: Stretch, of: str, how: str) -> Amount:
    return stretch.figure(f"{of} temperature", how, places=0)


def _clocks(stretch: Stretch, stage: str) -> dict[str, ClockTime]:
    return {"after": stretch.begins(stage), "until": stretch.ends(stage)}


def _brine(stretch: Stretch) -> dict[str, Amount] | None:
    """How warm the salt water is before and after; None where a thermometer shows no difference."""
    places = [(_warmth(stretch, "brine", how), stretch.figure("brine temperature", how, places=1)) for how in _ENDS]
    for pair in zip(*places, strict=True):
        if round(pair[0].value, pair[0].places) != round(pair[1].value, pair[1].places):
            return dict(zip(("from", "to"), pair, strict=True))
    return None


_ENDS = ("first", "last")


def _dull(whole: Stretch) -> Words:
    """A day without enough warmth for anything to be seen."""
    brine: dict[str, Arg] = {
        "sunrise": whole.clock(0.0, Reading(how="begins")),
        "coldest": whole.figure("brine temperature", "least", places=1),
        "warmest": whole.figure("brine temperature", "most", places=1),
    }
    most = _hourly(whole, "evaporation rate")
    if most.value <= 0.0:
        return fact("solar_still-dry", _none(whole, "evaporation rate"), **brine)
    return fact("solar_still-dull", most=most, **brine)


def _none(whole: Stretch, rate: str) -> Claim:
    """That nothing of the kind moves at all."""
    return Claim(kind="at most", left=whole.reading(rate, "most"), right=fixed(0.0))


def _warming(stretch: Stretch) -> Words:
    clocks, height = _clocks(stretch, "warming"), stretch.figure("sun height", "most", places=0)
    run = stretch.between(float(stretch.time_s[0]), float(stretch.time_s[-1]))
    little = Claim(
        kind="at most",
        left=stretch.between(stretch.start, float(stretch.time_s[stretch.time_s < stretch.end][-1])).reading(
            "evaporation rate", "most"
        ),
        right=Reading(how="most", of="evaporation rate", start=run.start, end=run.end, times=1.001 * BEGUN),
    )
    hardly = fact("solar_still-hardly-any", little)
    ends, warmth = _brine(stretch), stretch.figure("brine temperature", "last", places=1)
    still = fact("solar_still-sun-up", height=height, warmth=warmth, **clocks)
    if ends is None or stretch.at("brine temperature", "change") <= 0.0:
        return (still, hardly)
    rises = stretch.rises("brine temperature")
    enough = Claim(
        kind="at least",
        left=stretch.reading("heat taken in", "change"),
        right=stretch.reading("heat in the still", "change"),
    )
    warms = fact("solar_still-warming", rises, enough, height=height, **clocks, **ends)
    return (warms.or_else(still), hardly)


def _misting(stretch: Stretch) -> Words:
    cooler = Claim(
        kind="less",
        left=stretch.reading("cover temperature", "last"),
        right=stretch.reading("brine temperature", "last"),
        slack=1e-6,
    )
    drops: dict[str, Arg] = {"drops": _water(stretch, "drops on the cover"), **_clocks(stretch, "misting")}
    return fact(
        "solar_still-misting",
        cooler,
        brine=stretch.figure("brine temperature", "last", places=1),
        cover=stretch.figure("cover temperature", "last", places=1),
        **drops,
    ).or_else(fact("solar_still-mist", **drops))


def _dripping(stretch: Stretch) -> Words:
    most = stretch.moment("dripping rate", "when most")
    return fact(
        "solar_still-dripping",
        at=stretch.clock(most, stretch.reading("dripping rate", "when most")),
        most=_hourly(stretch, "dripping rate"),
        brine=_warmth(stretch, "brine", "most"),
        cover=_warmth(stretch, "cover", "most"),
        cup=_water(stretch, "fresh water"),
        **_clocks(stretch, "dripping"),
    )


def _evening(stretch: Stretch) -> Words:
    clocks, ends = _clocks(stretch, "evening"), _brine(stretch)
    arrives = fact("solar_still-arrives", drips=_water(stretch, "fresh water", "change"), **clocks)
    if ends is None:
        return arrives
    cools = fact(
        "solar_still-cools",
        stretch.falls("brine temperature"),
        drips=_water(stretch, "fresh water", "change"),
        **clocks,
        **ends,
    ).or_else(arrives)
    lowest = stretch.moment("sun height", "when least")
    if stretch.at("sun height", "first") <= 0.0 or lowest <= stretch.start:
        return cools
    return (fact("solar_still-sun-sinks", stretch.between(stretch.start, lowest).falls("sun height")), cools)


def _night(stretch: Stretch) -> Words:
    run = stretch.between(float(stretch.time_s[0]), stretch.end)
    cup = fact("solar_still-cup", until=stretch.ends("night"), cup=_water(stretch, "fresh water"))
    kept = stretch.figure("salt in the basin", "last")
    same = Claim(kind="same", left=source_of(kept), right=run.reading("salt in the basin", "first"), slack=1e-6)
    crystals = stretch.figure("salt crystals", "last", digits=2)
    salt = fact("solar_still-salt", same, salt=kept)
    if crystals.value > 0.1:
        salt = fact("solar_still-salt-crystals", same, salt=kept, crystals=crystals)
    strengths = told_apart(run.figure("saltiness", "first", digits=2), run.figure("saltiness", "last", digits=2))
    if strengths is None:
        return (cup, salt)
    before, after = (_grams(each) for each in strengths)
    saltier = Claim(kind="more", left=source_of(after), right=source_of(before), slack=1e-6)
    return (cup, salt, fact("solar_still-saltier", saltier, before=before, after=after))


def _grams(strength: Amount) -> Amount:
    """Grams in a kilogram, where the sentence names the kilogram."""
    source = source_of(strength)
    per_kilogram = Reading(how=source.how, of=source.of, start=source.start, end=source.end, times=1000.0)
    return Amount(value=strength.value, unit="1", digits=strength.digits, source=per_kilogram)


def events(day: Day, whole: Stretch, came: Mapping[str, tuple[int, int]]) -> tuple[Event, ...]:
    """Moments of the day, in order."""
    sun = day.weather.sun_rad[::KEPT_EVERY]
    noon, hottest = int(np.argmax(sun)), int(np.argmax(day["basin_k"]))
    moments: list[tuple[int, str, Fact]] = [
        (noon, "noon", fact("solar_still-noon", height=whole.figure("sun height", "most", places=0))),
        (hottest, "hottest brine", fact("solar_still-hottest", warmth=_warmth(whole, "brine", "most"))),
    ]
    sunset = first(sun < HORIZON_RAD, noon)  # sunrise is told by the same horizon
    if sunset is not None:
        height = whole.steps(sunset, sunset).reading("sun height", "first")
        below = Claim(kind="at most", left=height, right=fixed(HORIZON_RAD))
        moments.append((sunset, "sunset", fact("solar_still-sunset", below)))
    if "dripping" in came:
        at = came["dripping"][0]
        rate = _hourly(whole.steps(at, at), "dripping rate")
        moments.append((at, "first drop", fact("solar_still-first-drop", rate=rate)))
    crystals = first(day["crystals"] > 0.0)
    if crystals is not None:
        some = Claim(
            kind="more", left=whole.steps(crystals, crystals).reading("salt crystals", "first"), right=fixed(0)
        )
        moments.append((crystals, "first crystals", fact("solar_still-first-crystals", some)))
    return events_at(moments, day.time_s)


def missing(
    day: Day,
    whole: Stretch,
    came: Mapping[str, tuple[int, int]],
    conditions: Mapping[str, float],
    specs: tuple[ConditionSpec, ...],
) -> tuple[Missing, ...]:
    """Why a stage did not come, and what to change."""

    def stages_under(changed: Mapping[str, float]) -> set[str]:
        try:
            return set(found(simulate(Setup.of(changed))))
        except OutOfRange:
            return set()

    adviser = Adviser(specs=specs, conditions=conditions, found=stages_under)
    reasons = _reasons(day, whole, came, conditions)
    return tuple(adviser.missing(stage.name, *reasons[stage.name]) for stage in STAGES if stage.name not in came)


def _reasons(
    day: Day, whole: Stretch, came: Mapping[str, tuple[int, int]], conditions: Mapping[str, float]
) -> dict[str, tuple[Fact, Changes]]:
    summer = 172.0 if conditions["latitude"] >= 0.0 else 355.0
    sunnier = [("cloud", 0.1), ("day", summer), ("depth", 0.01), ("insulation", 1.0), ("latitude", 0.3)]
    lasting = [("depth", 0.02), ("depth", 0.01), ("insulation", 5.0)]
    sky: dict[str, Arg] = {
        "height": whole.figure("sun height", "most", places=0),
        "cloud": given(100.0 * conditions["cloud"], "%", "cloud", places=0),
    }
    at_once = fact("solar_still-at-once", rate=_hourly(whole.between(0.0, 0.0), "evaporation rate"))
    evaporates = fact("solar_still-no-mist", most=_hourly(whole, "evaporation rate"), **sky)
    drops = fact("solar_still-no-drops", drops=_water(whole, "drops on the cover", "most"), **sky)
    if day["evaporation"].max() <= 0.0:
        evaporates = drops = fact("solar_still-no-vapour", _none(whole, "evaporation rate"), **sky)
    if "dripping" in came:
        halved = fact("solar_still-not-halved", rate=_hourly(whole.between(whole.end, whole.end), "dripping rate"))
        on = fact("solar_still-drips-on", rate=_hourly(whole.between(whole.end, whole.end), "dripping rate"))
        late = {"evening": (halved, lasting), "night": (on, lasting)}
    else:
        none = fact("solar_still-no-drop", most=_hourly(whole, "dripping rate"))
        if day["dripping"].max() <= 0.0:
            none = fact("solar_still-no-drop-at-all", _none(whole, "dripping rate"))
        late = {"evening": (none, sunnier), "night": (none, sunnier)}
    return {
        "warming": (at_once, [("depth", 0.03), ("insulation", 3.0), ("day", summer)]),
        "misting": (evaporates, sunnier),
        "dripping": (drops, sunnier),
        **late,
    }
