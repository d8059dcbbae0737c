"""What is told of a fall: how the speed grows, how the air takes over, and how it falls on."""

from __future__ import annotations

from collections.abc import Mapping

from sonify.processes.telling import Stretch, fixed
from sonify.records.fact import Amount, Arg, Claim, Duration, Fact, Reading, Words, fact
from sonify.records.timeline import Event

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
