"""A fall from rest through air: gaining speed, losing the gain, and falling on at one speed."""

from __future__ import annotations

from collections.abc import Mapping
from math import atanh, log

import numpy as np

from sonify.processes.declared import Adviser, drift, first, quantities, spans, stages
from sonify.processes.specs import Declared, always, share_of_ours
from sonify.processes.telling import Stretch, fixed
from sonify.records.fact import Amount, Arg, Claim, Duration, Fact, Reading, Words, fact
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Conserved, Event, FloatArray, Missing, Timeline
from sonify.science.falling import fall_time, fallen, falling_speed, heat_of_fall, terminal_speed
from sonify.science.pendulum import GRAVITY

# What is told of a fall: how the speed grows, how the air takes over, and how it falls on -----------------------------

SPEED, SHARE = "speed", "share of the air"
#: From 95 % of its last speed on it gains no more than this share of it.
HARDLY = 0.055


def told(whole: Stretch, found: Mapping[str, tuple[int, int]], top: float) -> dict[str, Words]:
    """The facts of each stage. top: the speed that it would come to."""
    writers = {"gaining speed": _gaining, "air pushes back": _pushing, "steady fall": _steady}
    return {name: writers[name](name, whole.steps(*span)) for name, span in found.items()}


def _gaining(name: str, stretch: Stretch) -> Fact:
    return fact(
        "falling-gaining",
        stretch.rises(SPEED),
        speed=stretch.figure(SPEED, "last"),
        lasts=_lasts(name, stretch),
        fallen=_way(stretch, "change"),
        share=stretch.figure(SHARE, "last", digits=2),
    )


def _pushing(name: str, stretch: Stretch) -> Fact:
    gains = [
        Reading(how="change", of=SPEED, start=start, end=end)
        for start, end in ((stretch.start, _middle(stretch)), (_middle(stretch), stretch.end))
    ]
    less = Claim(kind="less", left=gains[1], right=gains[0])
    figures: dict[str, Arg] = {
        "from": stretch.figure(SPEED, "first"),
        "to": stretch.figure(SPEED, "last"),
        "lasts": _lasts(name, stretch),
        "share": stretch.figure(SHARE, "last", digits=2),
    }
    pushing = fact("falling-pushing", stretch.rises(SHARE), stretch.rises(SPEED), less, **figures)
    return pushing.or_else(fact("falling-on", speed=figures["to"], share=figures["share"], lasts=figures["lasts"]))


def _middle(stretch: Stretch) -> float:
    return 0.5 * (stretch.start + stretch.end)


def _steady(name: str, stretch: Stretch) -> Fact:
    figures: dict[str, Arg] = {
        "speed": stretch.figure(SPEED, "last"),
        "share": stretch.figure(SHARE, "last", digits=2),
        "lasts": _lasts(name, stretch),
    }
    fallen = _way(stretch, "change")
    steady = fact("falling-steady", stretch.steady(SPEED, HARDLY), fallen=fallen, **figures)
    return steady.or_else(fact("falling-on", **figures))


def _lasts(name: str, stretch: Stretch) -> Duration:
    return stretch.lasts(name)


def events(whole: Stretch) -> tuple[Event, ...]:
    """Landing: how long it took, and how fast it would have been with no air."""
    lands = Duration(seconds=whole.end, source=Reading(how="happens", of="landing"))
    here = whole.between(whole.end, whole.end)
    speed, bare = here.figure(SPEED, "first"), here.figure("speed with no air", "first")
    slower = Claim(
        kind="less", left=here.reading(SPEED, "first"), right=here.reading("speed with no air", "first"), slack=0.005
    )
    plain = fact("falling-landing-plain", lands=lands, speed=speed)
    text = fact("falling-landing", slower, lands=lands, speed=speed, bare=bare).or_else(plain)
    return (Event(name="landing", time_s=whole.end, text=text),)


def reasons(whole: Stretch, share: float) -> Fact:
    """Why a stage did not come: the ground came before the air pushed hard enough."""
    most = whole.figure(SHARE, "most", digits=2)
    under = Claim(kind="at most", left=whole.reading(SHARE, "most"), right=fixed(share**2))
    return fact("falling-too-short", under, share=most, height=_way(whole, "last"))


def _way(stretch: Stretch, how: str) -> Amount:
    """How far it falls, in centimetres where that is less than a metre."""
    unit = "cm" if stretch.at("distance fallen", how) < 1.0 else "m"
    return stretch.figure("distance fallen", how, unit=unit)


#: Shares of the speed that it comes to, at which the stages part (our own choice).
HALF, STEADY = 0.5, 0.95
#: So many of the times in which the speed settles are looked at closely; after that little happens.
SETTLED, CLOSELY, COARSELY = 6.0, 240, 120

_DECLARED = Declared("falling")
_M_S, _M = ("m/s", "m/s"), ("m", "m")

CONDITIONS = (
    _DECLARED.condition("mass", ("kg", "kg"), 85.0, (1e-4, 500.0)),
    _DECLARED.condition("area", ("m**2", "m**2"), 0.7, (1e-5, 100.0)),
    _DECLARED.condition("drag", ("%", "1"), 1.0, (0.04, 2.0)),
    _DECLARED.condition("air_density", ("kg/m**3", "kg/m**3"), 1.21, (0.02, 10.0)),
    _DECLARED.condition("gravity", ("m/s**2", "m/s**2"), GRAVITY, (1.0, 30.0)),
    _DECLARED.condition("height", _M, 1500.0, (0.2, 10_000.0)),
)


STAGES = (
    _DECLARED.stage("gaining speed", seen_as=fact("falling-seen-gaining", share=share_of_ours(HALF))),
    _DECLARED.stage("air pushes back", seen_as=fact("falling-seen-pushing", share=share_of_ours(STEADY))),
    _DECLARED.stage("steady fall"),
)
ORDER = tuple(stage.name for stage in STAGES)

QUANTITIES = (
    _DECLARED.quantity(SPEED, "v", _M_S),
    _DECLARED.quantity("gain of speed", "a", ("m/s**2", "m/s**2")),
    _DECLARED.quantity("share of the air", "f", ("%", "1")),
    _DECLARED.quantity("distance fallen", "s", _M),
    _DECLARED.quantity("height left", "h", _M),
    _DECLARED.quantity("push of the air", "F", ("N", "N")),
    _DECLARED.quantity("speed with no air", "v_0", _M_S),
)


def run(conditions: Mapping[str, float]) -> Timeline:
    """The fall that follows from the conditions (SI units), from letting go to the ground."""
    time_s, values, kept = _fall(conditions)
    found, made = _found(values[SPEED], _top(conditions)), quantities(QUANTITIES, values)
    whole = Stretch.whole(time_s, made)
    return Timeline(
        process=PROCESS.name,
        time_s=time_s,
        quantities=made,
        stages=stages(STAGES, found, time_s, told(whole, found, _top(conditions))),
        events=events(whole),
        missing=_missing(whole, found, conditions),
        conserved=(kept,),
    )


def _top(conditions: Mapping[str, float]) -> float:
    names = ("mass", "area", "drag", "air_density", "gravity")
    return float(terminal_speed(*(conditions[name] for name in names)))


def _fall(conditions: Mapping[str, float]) -> tuple[FloatArray, dict[str, FloatArray], Conserved]:
    """Every quantity over time, SI, and what the energies come to."""
    top, pull, height, mass = _top(conditions), conditions["gravity"], conditions["height"], conditions["mass"]
    lands = float(fall_time(height, top, pull))
    time_s = _times(lands, top / pull)
    speed, way = falling_speed(time_s, top, pull), np.minimum(fallen(time_s, top, pull), height)
    way[-1] = height
    share = (speed / top) ** 2
    values = {
        SPEED: speed,
        "gain of speed": pull * (1.0 - share),
        "share of the air": share,
        "distance fallen": way,
        "height left": height - way,
        "push of the air": mass * pull * share,
        "speed with no air": np.sqrt(2.0 * pull * way),
    }
    stores = [mass * pull * (height - way), 0.5 * mass * speed**2, mass * heat_of_fall(time_s, top, pull)]
    kept = Conserved(name="energy of the fall", relative_drift=drift(stores, mass * pull * height))
    return time_s, values, kept


def _times(lands: float, settling: float) -> FloatArray:
    """From letting go to landing, close together while the speed changes, the ends of the stages among them."""
    marks = [settling * atanh(share) for share in (HALF, STEADY)]
    close = np.linspace(0.0, min(lands, SETTLED * settling), CLOSELY)
    wide = np.linspace(close[-1], lands, COARSELY) if close[-1] < lands else np.array([])
    return np.unique(np.concatenate([close, wide, [mark for mark in marks if mark < lands], [lands]]))


def _found(speed: FloatArray, top: float) -> dict[str, tuple[int, int]]:
    """First and last sample of each stage that came."""
    shares = (speed / top) * (1.0 + 1e-12)  # a mark itself belongs to what begins there
    starts = {ORDER[0]: 0, ORDER[1]: first(shares >= HALF), ORDER[2]: first(shares >= STEADY)}
    return spans(starts, speed.size - 1)


def _missing(
    whole: Stretch, found: Mapping[str, tuple[int, int]], conditions: Mapping[str, float]
) -> tuple[Missing, ...]:
    def tried(changed: Mapping[str, float]) -> dict[str, tuple[int, int]]:
        _, values, _ = _fall(changed)
        return _found(values[SPEED], _top(changed))

    adviser = Adviser(specs=CONDITIONS, conditions=conditions, found=tried)
    top, pull, height = _top(conditions), conditions["gravity"], conditions["height"]
    lacking = []
    for name, share in ((ORDER[1], HALF), (ORDER[2], STEADY)):
        if name not in found:
            wanted = -1.5 * log(1.0 - share**2) * top**2 / (2.0 * pull)  # half as far again as it takes to get there
            changes = [
                ("height", wanted),
                ("mass", conditions["mass"] * height / wanted),
                ("area", conditions["area"] * wanted / height),
            ]
            lacking.append(adviser.missing(name, reasons(whole, share), changes))
    return tuple(lacking)


PROCESS = ProcessSpec(
    name="falling",
    title=_DECLARED.words("title"),
    summary=_DECLARED.words("summary"),
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=_DECLARED.honesty(5),
    sources=("OPENSTAX-CP1",),
    cautions=always("dropping"),
)
