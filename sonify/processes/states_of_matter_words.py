"""What is told of the particle box: facts for each stage, moments worth naming, and why a stage did not come.

Lengths are told in widths of a particle, and how long something takes in the widths that it travels meanwhile: no
reader knows a picosecond.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from sonify.constants import GAS_CONSTANT_J_PER_MOL_K
from sonify.processes.states_of_matter_box import BoxParams
from sonify.processes.states_of_matter_stages import BREAKING_FREE, FREE, MELTS, MOLTEN, ORDER
from sonify.processes.telling import Stretch, fixed
from sonify.records.fact import Amount, Arg, Claim, Fact, Reading, Words, fact
from sonify.records.timeline import Event, Missing
from sonify.science.particles import ARGON_DIAMETER_M

PATH_S = 10.0e-12  # over so long it is looked how far particles get
CROWDED = 0.35  # particles in a square diameter: beyond it so many are always near that few are alone (our own measure)
FEW = 120  # particles: in a smaller crystal so many stand at the rim that it crumbles before it has melted
#: "Nearly as close": the six nearest are at most so many times as far away (our own choice).
NEARLY = 1.25
#: "Gets nowhere": at most so much of the way that was travelled (our own choice).
NOWHERE = 0.6

#: What has happened where a stage begins: to a quantity, which way, to what share (of the order: of that at the start).
TURNS = {
    "melting": ("order", "at most", MELTS),
    "liquid": ("order", "at most", MOLTEN),
    "evaporating": ("isolated share", "at least", BREAKING_FREE),
    "gas": ("isolated share", "at least", FREE),
}

Spans = dict[str, tuple[int, int]]


def told(whole: Stretch, spans: Spans) -> dict[str, Words]:
    """The facts of each stage, with this run's own figures."""
    stretches = {name: whole.steps(*span) for name, span in spans.items()}
    return {name: _WRITERS[name](stretches, name) for name in stretches}


def _solid(stages: dict[str, Stretch], name: str) -> Words:
    here = stages[name]
    figures: dict[str, Arg] = {"speed": _speed(here), "path": _path(here), "got": _got(here)}
    own_size = Claim(kind="less", left=_widths(here, "wandering"), right=fixed(1.0))
    solid = fact("states_of_matter-solid", own_size, **figures)
    return (solid.or_else(fact("states_of_matter-solid-loose", **figures)), *_warms(here))


def _melting(stages: dict[str, Stretch], name: str) -> Words:
    here = stages[name]
    order = {how: here.figure("order", how, places=0) for how in ("first", "last")}
    ends: dict[str, Arg] = {"from": order["first"], "to": order["last"]}
    if round(order["first"].value) == round(order["last"].value):
        return (fact("states_of_matter-melting-at", order=order["last"]), *_heat_share(here))
    plain = fact("states_of_matter-melting-from-to", **ends)
    return (fact("states_of_matter-melting", here.falls("order"), **ends).or_else(plain), *_heat_share(here))


def _liquid(stages: dict[str, Stretch], name: str) -> Words:
    here = stages[name]
    figures: dict[str, Arg] = {"near": here.figure("number of neighbours", "mean", places=1)}
    figures |= {"path": _path(here), "got": _got(here)}
    nowhere = Claim(
        kind="less",
        left=here.reading("wandering", "mean"),
        right=replace(here.reading("mean speed", "mean"), times=NOWHERE * PATH_S),
    )
    liquid = fact("states_of_matter-liquid", nowhere, **figures)
    return (liquid.or_else(fact("states_of_matter-liquid-free", **figures)), *_closeness(stages, here))


def _closeness(stages: dict[str, Stretch], here: Stretch) -> tuple[Fact, ...]:
    """How much further apart than in the solid particles are, away from every edge."""
    if "solid" not in stages:
        return ()
    liquid, solid = (stretch.reading("spacing inside", "mean") for stretch in (here, stages["solid"]))
    ratio = here.at("spacing inside", "mean") / stages["solid"].at("spacing inside", "mean")
    further = Amount(
        value=100.0 * (ratio - 1.0),
        unit="%",
        places=0,
        source=replace(liquid, less=solid, per=solid, times=100.0),
    )
    nearly = Claim(kind="at most", left=liquid, right=replace(solid, times=NEARLY))
    if round(further.value) <= 0:
        return ()
    close = fact("states_of_matter-nearly-as-close", nearly, further=further)
    return (close.or_else(fact("states_of_matter-further", further=further)),)


def _evaporating(stages: dict[str, Stretch], name: str) -> Words:
    here = stages[name]
    alone = {how: here.figure("isolated share", how, places=0) for how in ("first", "last")}
    ends: dict[str, Arg] = {"from": alone["first"], "to": alone["last"]}
    if round(alone["first"].value) == round(alone["last"].value):
        return (fact("states_of_matter-evaporating-at", alone=alone["last"]), *_heat_share(here))
    plain = fact("states_of_matter-evaporating-from-to", **ends)
    grows = fact("states_of_matter-evaporating", here.rises("isolated share"), **ends)
    return (grows.or_else(plain), *_heat_share(here))


def _gas(stages: dict[str, Stretch], name: str) -> Words:
    here = stages[name]
    most = Claim(kind="more", left=here.reading("isolated share", "mean"), right=fixed(0.5))
    far = {"spacing": _widths_figure(here, "spacing")}
    gas = fact("states_of_matter-gas", most, **far).or_else(fact("states_of_matter-gas-many", **far))
    warmth: dict[str, Arg] = {"speed": _speed(here), "warmth": here.figure("temperature", "mean", places=0)}
    plain = fact("states_of_matter-gas-speed", **warmth)
    before = next((stages[each] for each in reversed(ORDER[:-1]) if each in stages), None)
    if before is None:
        return (gas, plain)
    faster, warmer = (
        Claim(kind="more", left=here.reading(of, "mean"), right=before.reading(of, "mean"), slack=1e-9)
        for of in ("mean speed", "temperature")
    )
    return (gas, fact("states_of_matter-gas-faster", faster, warmer, **warmth).or_else(plain))


_WRITERS: dict[str, Callable[[dict[str, Stretch], str], Words]] = {
    "solid": _solid,
    "melting": _melting,
    "liquid": _liquid,
    "evaporating": _evaporating,
    "gas": _gas,
}


def _warms(here: Stretch) -> tuple[Fact, ...]:
    first, last = (here.figure("temperature", how, places=0) for how in ("first", "last"))
    if round(first.value) >= round(last.value):
        return ()
    ends: dict[str, Arg] = {"from": first, "to": last}
    warms = fact("states_of_matter-warms", here.rises("temperature"), **ends)
    return (warms.or_else(fact("states_of_matter-warmer", **ends)),)


def _heat_share(here: Stretch) -> tuple[Fact, ...]:
    """How much of the heat of a stage made the particles faster: in the flat, motion holds R T for a mole."""
    given = here.reading("heat given", "change")
    reading = replace(here.reading("temperature", "change"), per=given, times=100.0 * GAS_CONSTANT_J_PER_MOL_K)
    warmed, heat = here.at("temperature", "change"), here.at("heat given", "change")
    share = Amount(value=100.0 * GAS_CONSTANT_J_PER_MOL_K * warmed / heat, unit="%", places=0, source=reading)
    if share.value < 0.5:
        no_warmer = Claim(
            kind="at most",
            left=here.reading("temperature", "last"),
            right=replace(here.reading("temperature", "first"), times=1.01),
        )
        return (fact("states_of_matter-no-warmer", no_warmer),)
    if share.value > 95.0:
        return ()
    if share.value > 45.0:
        return (fact("states_of_matter-share", share=share),)
    less = Claim(kind="less", left=reading, right=fixed(50.0))
    return (fact("states_of_matter-only", less, share=share),)


def _speed(here: Stretch) -> Amount:
    return here.figure("mean speed", "mean", places=0)


def _path(here: Stretch) -> Amount:
    """The way that a particle travels in PATH_S, in its own widths."""
    widths = PATH_S / ARGON_DIAMETER_M
    reading = replace(here.reading("mean speed", "mean"), times=widths)
    return Amount(value=widths * here.at("mean speed", "mean"), digits=2, source=reading)


def _widths(here: Stretch, name: str) -> Reading:
    return replace(here.reading(name, "mean"), times=1.0 / ARGON_DIAMETER_M)


def _widths_figure(here: Stretch, name: str) -> Amount:
    """A length in widths of a particle, on average."""
    return Amount(value=here.at(name, "mean") / ARGON_DIAMETER_M, digits=2, source=_widths(here, name))


def _got(here: Stretch) -> Amount:
    """How far from where it was a particle is after PATH_S."""
    return _widths_figure(here, "wandering")


def events(whole: Stretch, spans: Spans) -> tuple[Event, ...]:
    """The turning points of the heating."""
    starts = [(name, float(whole.time_s[spans[name][0]])) for name in ORDER[1:] if name in spans and spans[name][0] > 0]
    return tuple(_event(name, whole, whole.between(start_s, start_s)) for name, start_s in starts)


def _event(name: str, whole: Stretch, here: Stretch) -> Event:
    of, kind, share = TURNS[name]
    least = fixed(share)
    if of == "order":
        least = Reading(how="first", of=of, start=whole.start, end=whole.end, times=share)
    turned = Claim(kind=kind, left=here.reading(of, "first"), right=least)
    warmth = here.figure("temperature", "first", places=0)
    text = fact(f"states_of_matter-{name}-begins", turned, warmth=warmth)
    return Event(name=f"{name} begins", time_s=here.start, text=text)


def missing(whole: Stretch, spans: Spans, params: BoxParams) -> tuple[Missing, ...]:
    """Why each stage that did not come stayed away, and which condition to change."""
    return tuple(_missing(name, whole, spans, params) for name in ORDER if name not in spans)


def _missing(name: str, whole: Stretch, spans: Spans, params: BoxParams) -> Missing:
    latest = max(ORDER.index(stage) for stage in spans)
    if ORDER.index(name) < latest:
        later = next(stage for stage in ORDER[ORDER.index(name) + 1 :] if stage in spans)
        if params.particles < FEW:
            return _lacking(name, fact("states_of_matter-so-few", later=later), "particles", "200")
        return _lacking(name, fact("states_of_matter-overtaken", later=later), "duration", '"400 ps"')
    if name == "gas" and params.density > CROWDED:
        width_nm = 1e9 * params.width_m * (params.density / 0.16) ** 0.5
        return _lacking(name, fact("states_of_matter-crowded"), "box_width", f'"{width_nm:.0f} nm"')
    more = "3 kJ/mol" if params.heat_j_per_mol < 2800.0 else "6 kJ/mol"
    reached = fact("states_of_matter-reached", warmth=whole.figure("temperature", "last", places=0))
    return _lacking(name, reached, "heat", f'"{more}"')


def _lacking(stage: str, reason: Fact, condition: str, value: str) -> Missing:
    fix = fact("science-set", condition=condition, value=value)
    return Missing(stage=stage, reason=reason, condition=condition, fix=fix)
