"""The stages of salt dissolving, found in the model's output, and the facts that are told of them, with figures."""

from __future__ import annotations

import math
from collections.abc import Mapping
from dataclasses import replace

import numpy as np

from sonify.processes.declared import Adviser, events_at, first, spans
from sonify.processes.dissolving_model import Jar, Setup, dissolve
from sonify.processes.specs import Declared
from sonify.processes.telling import Stretch, fixed
from sonify.records.fact import Amount, Arg, Claim, Duration, Fact, Reading, Words, fact
from sonify.records.process import ConditionSpec
from sonify.records.timeline import Event, Missing

HALF, OVER = 0.5, 0.02  # of the greatest rate after stirring began
NONE_LEFT = 1.0e-3  # of the salt: the grains count as gone
NEAR = 1.0 + 1e-9  # for the rounding of machine numbers

DECLARED = Declared("dissolving")
_OVER = Amount(value=100.0 * OVER, unit="percent", given="our own limit of hardly dissolving")

STAGES = (
    DECLARED.stage("resting"),
    DECLARED.stage("stirring"),
    DECLARED.stage("slowing", seen_as=fact("dissolving-seen-slowing", share=_OVER)),
    DECLARED.stage("full"),
)


def found(jar: Jar) -> dict[str, tuple[int, int]]:
    """First and last sample of each stage that came."""
    last = jar.time_s.size - 1
    gone = jar.grains_kg <= NONE_LEFT * jar.setup.salt
    begun = first(jar.turning_rad_s > 0.0)
    if begun is not None and (gone[begun] or begun >= last):
        begun = None
    half = over = None
    if begun is not None:
        peak = begun + int(np.argmax(jar.rate_kg_s[begun:]))
        greatest = float(jar.rate_kg_s[peak])
        half = first(jar.rate_kg_s <= HALF * greatest, peak)
        over = first((jar.rate_kg_s <= OVER * greatest) | gone, half) if half is not None else None
    starts = {"resting": 0 if begun != 0 else None, "stirring": begun, "slowing": half, "full": over}
    return spans(starts, last)


def told(jar: Jar, whole: Stretch, came: Mapping[str, tuple[int, int]]) -> dict[str, Words]:
    """The facts of each stage, with this run's own figures."""
    writers = {"resting": _resting, "stirring": _stirring, "slowing": _slowing, "full": _full}
    return {name: writers[name](jar, whole.steps(*span)) for name, span in came.items()}


def _grams(stretch: Stretch, name: str, how: str) -> Amount:
    """Salt to a tenth of a gram; less than that to one digit."""
    if stretch.at(name, how) < 0.1e-3:
        return stretch.figure(name, how, digits=1)
    return stretch.figure(name, how, places=1)


def _a_minute(stretch: Stretch, how: str) -> Amount:
    return stretch.scaled("dissolving rate", how, 60e3, "g", digits=2)


def _but_one(jar: Jar, stretch: Stretch) -> Stretch:
    """The stretch without its last sample: a rate is that of the time from a sample to the next."""
    end = int(np.searchsorted(jar.time_s, stretch.end))
    return stretch.between(stretch.start, float(jar.time_s[max(end - 1, 0)]))


def _resting(jar: Jar, stretch: Stretch) -> Words:
    salt, gone = "undissolved salt", stretch.reading("dissolved salt", "last")
    figures: dict[str, Arg] = {
        "salt": _grams(stretch, salt, "first"),
        "lasts": stretch.lasts("resting"),
        "gone": _grams(stretch, gone.of, "last"),
    }
    plain = fact("dissolving-resting-plain", **figures)
    flowing = _but_one(jar, stretch)
    if flowing.end <= flowing.start:
        return plain
    fast, slow = (flowing.reading("dissolving rate", how) for how in ("first", "last"))
    rates = {"first": _a_minute(flowing, "first"), "last": _a_minute(flowing, "last")}
    fades = fact("dissolving-fades", Claim(kind="less", left=slow, right=fast), **rates)
    few = stretch.at(gone.of, "last") < HALF * jar.setup.salt
    if not few or flowing.at(slow.of, "last") > HALF * flowing.at(fast.of, "first"):
        return (plain, fades) if flowing.at(slow.of, "last") < 0.99 * flowing.at(fast.of, "first") else plain
    only = Claim(kind="less", left=gone, right=replace(stretch.reading(salt, "first"), times=HALF), slack=1e-9)
    fills = Claim(kind="at most", left=slow, right=replace(fast, times=HALF))
    layer = stretch.figure("clinging layer", "first", digits=2)
    return fact("dissolving-resting", only, fills, layer=layer, **figures).or_else(plain), fades


def _stirring(jar: Jar, stretch: Stretch) -> Words:
    turns = Amount(
        value=60.0 * jar.setup.stirring / (2.0 * math.pi),
        digits=2,
        source=Reading(how="condition", of="stirring", times=60.0 / (2.0 * math.pi)),
    )
    layer = stretch.reading("clinging layer", "first")
    # in still water the layer is half as thick as the grain
    still = replace(stretch.reading("grain size", "first"), times=0.5)
    thinner = Claim(kind="less", left=layer, right=still, slack=0.02)
    plain = fact("dissolving-stirred-plain", turns=turns)
    stirred = fact("dissolving-stirred", thinner, turns=turns, layer=stretch.figure(layer.of, "first", digits=2))
    if stretch.at(layer.of, "first") >= 0.98 * 0.5 * stretch.at("grain size", "first"):
        stirred = plain
    return stirred, fact(
        "dissolving-stirring",
        rate=_a_minute(stretch, "most"),
        lasts=stretch.lasts("stirring"),
        dissolved=_grams(stretch, "dissolved salt", "last"),
    )


def _slowing(jar: Jar, stretch: Stretch) -> Words:
    figures: dict[str, Arg] = {
        "lasts": stretch.lasts("slowing"),
        "first": _a_minute(stretch, "first"),
        "last": _a_minute(stretch, "last"),
    }
    less = [stretch.falls(name) for name in ("dissolving rate", "room left", "grain size")]
    size = stretch.figure("grain size", "first", digits=2)
    plain = fact("dissolving-slowing-plain", **figures)
    return fact("dissolving-slowing", *less, size=size, **figures).or_else(plain), _so_full(stretch)


def _so_full(stretch: Stretch) -> Fact:
    return fact("dissolving-so-full", share=stretch.figure("fullness", "last", places=0))


def _most(stretch: Stretch) -> Reading:
    """The most salt that the water can hold: what is dissolved against the share that this is."""
    return replace(stretch.reading("dissolved salt", "last"), per=stretch.reading("fullness", "last"))


def _full(jar: Jar, stretch: Stretch) -> Words:
    grains = stretch.reading("undissolved salt", "last")
    put_in, one = Reading(how="first", of=grains.of), fixed(1.0)
    most = Amount(value=1e3 * jar.setup.most_kg, unit="g", places=1, source=replace(_most(stretch), times=1e3))
    if stretch.at(grains.of, "last") <= NONE_LEFT * jar.setup.salt:
        gone = Claim(kind="at most", left=grains, right=replace(put_in, times=NONE_LEFT * NEAR))
        kept = Claim(kind="same", left=stretch.reading("dissolved salt", "last"), right=put_in, slack=2.0 * NONE_LEFT)
        dissolved = _grams(stretch, "dissolved salt", "last")
        return fact("dissolving-all", gone, kept, dissolved=dissolved, most=most), _so_full(stretch)
    left = _grams(stretch, grains.of, "last")
    rest = jar.setup.salt - jar.setup.most_kg
    if rest <= 0.05e-3:
        rate = stretch.reading("dissolving rate", "first")
        hardly = Claim(kind="at most", left=rate, right=replace(_greatest(jar, stretch), times=OVER * NEAR))
        return fact("dissolving-hardly", hardly, left=left, most=most), _so_full(stretch)
    too_much = Claim(kind="more", left=put_in, right=_most(stretch), slack=1e-9)
    stays = Amount(
        value=1e3 * rest, unit="g", places=1, source=replace(put_in, less=_most(stretch), per=one, times=1e3)
    )
    return fact("dissolving-full", too_much, most=most, rest=stays, left=left)


def _greatest(jar: Jar, stretch: Stretch) -> Reading:
    """The greatest rate since stirring began."""
    begun = first(jar.turning_rad_s > 0.0) or 0
    return stretch.steps(begun, jar.time_s.size - 1).reading("dissolving rate", "most")


def events(jar: Jar, whole: Stretch, came: Mapping[str, tuple[int, int]]) -> tuple[Event, ...]:
    """Moments worth naming, in order."""
    grains, last = "undissolved salt", jar.time_s.size - 1
    salt = Reading(how="first", of=grains)
    moments: list[tuple[int, str, Fact]] = [(0, "salt goes in", fact("dissolving-goes-in"))]

    def add(at: int, name: str, message: str, quantity: str, kind: str, right: Reading, **args: Arg) -> None:
        here = whole.steps(at, at).reading(quantity, "first")
        moments.append((at, name, fact(message, Claim(kind=kind, left=here, right=right), **args)))

    if "stirring" in came:
        add(came["stirring"][0], "first turn", "dissolving-first-turn", "spoon", "more", fixed(0.0))
    half = first(jar.dissolved_kg >= HALF * jar.setup.salt)
    if half is not None:
        enough = replace(salt, times=HALF / NEAR)
        add(half, "half dissolved", "dissolving-half", "dissolved salt", "at least", enough)
    gone = first(jar.grains_kg <= NONE_LEFT * jar.setup.salt)
    if gone is not None:
        add(gone, "last grain", "dissolving-last-grain", grains, "at most", replace(salt, times=NONE_LEFT * NEAR))
    elif "full" in came:
        at = came["full"][0]
        hardly = replace(_greatest(jar, whole), times=OVER * NEAR)
        left = _grams(whole.steps(at, at), grains, "first")
        add(at, "water nearly full", "dissolving-nearly-full", "dissolving rate", "at most", hardly, left=left)
        if last > at:
            text = fact("dissolving-what-is-left", left=_grams(whole.steps(last, last), grains, "first"))
            moments.append((last, "what is left", text))
    return events_at(moments, jar.time_s)


def _unstirred(jar: Jar, whole: Stretch) -> Fact:
    """Why stirring did not come."""
    begun = first(jar.turning_rad_s > 0.0)
    if jar.setup.stirring <= 0.0:
        spoon = Reading(how="condition", of="stirring")
        return fact("dissolving-nobody", Claim(kind="at most", left=spoon, right=fixed(0.0)))
    if begun is None or begun >= jar.time_s.size - 1:
        after, watched = Reading(how="condition", of="stir_after"), Reading(how="condition", of="watching")
        sample = 1.0 - 1.0 / (jar.time_s.size - 1)
        return fact(
            "dissolving-too-late", Claim(kind="at least", left=after, right=replace(watched, times=sample / NEAR))
        )
    left = whole.steps(begun, begun).reading("undissolved salt", "first")
    none = replace(Reading(how="first", of=left.of), times=NONE_LEFT * NEAR)
    return fact("dissolving-all-before", Claim(kind="at most", left=left, right=none))


def missing(
    jar: Jar,
    whole: Stretch,
    came: Mapping[str, tuple[int, int]],
    conditions: Mapping[str, float],
    specs: tuple[ConditionSpec, ...],
) -> tuple[Missing, ...]:
    """Why a stage did not come, and what to change."""
    adviser = Adviser(specs=specs, conditions=conditions, found=lambda changed: found(dissolve(Setup.of(changed))))
    usual = {spec.name: spec.default for spec in specs}
    setup = jar.setup
    longer = [("watching", factor * setup.watching) for factor in (2.0, 5.0, 12.0)]
    unstirred = _unstirred(jar, whole)
    begin = [
        ("stirring", usual["stirring"]),
        ("stir_after", 0.2 * setup.watching),
        ("stir_after", 0.0),
        ("salt", 5.0 * setup.salt),
    ]
    stirred = "stirring" in came
    at_once = Claim(kind="at most", left=Reading(how="condition", of="stir_after"), right=fixed(0.0))
    slow = fact("dissolving-no-slowing-quick" if "full" in came else "dissolving-no-slowing")
    still = fact("dissolving-no-full", after=Duration(seconds=whole.end, source=Reading(how="ends")))
    sooner = [*longer, ("grain", 0.3 * setup.grain)] if stirred else begin
    if "full" in came:
        sooner = [("grain", 3.0 * setup.grain), ("watching", 0.2 * setup.watching)]
    reasons: dict[str, tuple[Words, list[tuple[str, float]]]] = {
        "resting": (fact("dissolving-no-resting", at_once), [("stir_after", 0.2 * setup.watching)]),
        "stirring": (unstirred, begin),
        "slowing": (slow if stirred else unstirred, sooner),
        "full": (still if stirred else unstirred, sooner),
    }
    return tuple(adviser.missing(stage.name, *reasons[stage.name]) for stage in STAGES if stage.name not in came)
