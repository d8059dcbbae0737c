"""A walk away from a drum: how loud it is on the way, in the open or in a room, with noise around."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from sonify.processes.declared import first, quantities, spans, stages
from sonify.processes.specs import Declared, always, share_of_ours
from sonify.processes.telling import Stretch, fixed, told_apart
from sonify.records.fact import Arg, Claim, Fact, Words, fact
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Conserved, Event, FloatArray, Timeline
from sonify.science.vibration import level_at, levels_together

# What is told of a walk away from a drum: how loud it is, and what each doubling of the distance takes off.

LOUDNESS, LOSS = "loudness", "loss a doubling"
#: So little taken off by a doubling is told as levelling off, dB (our own choice).
LEVEL_DB = 2.0


def told(whole: Stretch, found: Mapping[str, tuple[int, int]]) -> dict[str, Words]:
    """The facts of each stage."""
    return {name: _stage(name, whole.steps(*span)) for name, span in found.items()}


def _stage(name: str, stretch: Stretch) -> Fact:
    start, end = stretch.figure("distance", "first", digits=2), stretch.figure("distance", "last", digits=2)
    apart = told_apart(stretch.figure(LOUDNESS, "first", digits=2), stretch.figure(LOUDNESS, "last", digits=2))
    share = stretch.figure("share of the drum", "last", digits=2)
    if apart is None:
        return fact("sound_level-stays", start=start, end=end, loudness=stretch.figure(LOUDNESS, "last", places=0))
    figures: dict[str, Arg] = {"start": start, "end": end, "from": apart[0], "to": apart[1]}
    falls = stretch.falls(LOUDNESS)
    if name == "far" and stretch.at(LOSS, "last") < LEVEL_DB:
        little = Claim(kind="at most", left=stretch.reading(LOSS, "last"), right=fixed(LEVEL_DB))
        loss = stretch.figure(LOSS, "last", places=1)
        return fact("sound_level-levels", falls, little, loss=loss, share=share, **figures)
    losses = told_apart(stretch.figure(LOSS, "first", digits=2), stretch.figure(LOSS, "last", digits=2), most=2)
    if losses is None:
        return fact("sound_level-falls", falls, loss=stretch.figure(LOSS, "last", digits=2), **figures)
    less = Claim(kind="more", left=stretch.reading(LOSS, "first"), right=stretch.reading(LOSS, "last"))
    return fact("sound_level-falls-less", falls, less, loss=losses[0], least=losses[1], **figures)


def events(whole: Stretch, start: float, walk: float) -> tuple[Event, ...]:
    """Each doubling of the distance: how loud it is there."""
    found = []
    distance = 2.0 * start
    while distance <= whole.at("distance", "last") * (1.0 + 1e-9):
        time_s = min((distance - start) / walk, whole.end)
        here = whole.between(time_s, time_s)
        text = fact(
            "sound_level-at",
            distance=here.figure("distance", "first", digits=2),
            loudness=here.figure(LOUDNESS, "first", places=0),
        )
        found.append(Event(name=f"{distance:g} m", time_s=time_s, text=text))
        distance *= 2.0
    return tuple(found)


LOOKS = 400
#: Shares of the whole fall of loudness at which the stages part (our own choice).
HALF, MOST = 0.5, 0.85
REFERENCE_PA = 2e-5

_DECLARED = Declared("sound_level")
_DB, _M = ("dB", "dB"), ("m", "m")

CONDITIONS = (
    _DECLARED.condition("level", _DB, 85.0, (40.0, 110.0)),
    _DECLARED.condition("start", _M, 1.0, (0.5, 5.0)),
    _DECLARED.condition("doublings", ("1", "1"), 5.0, (2.0, 8.0), whole=True),
    _DECLARED.condition("walk", ("m/s", "m/s"), 1.0, (0.2, 3.0)),
    _DECLARED.condition("room_distance", _M, 1000.0, (0.2, 1000.0)),
    _DECLARED.condition("noise", _DB, 35.0, (20.0, 90.0)),
)


STAGES = (
    _DECLARED.stage("near", seen_as=fact("sound_level-seen-near", share=share_of_ours(HALF))),
    _DECLARED.stage("further", seen_as=fact("sound_level-seen-further", share=share_of_ours(MOST))),
    _DECLARED.stage("far"),
)

QUANTITIES = (
    _DECLARED.quantity(LOUDNESS, "l", _DB, true_zero=False),
    _DECLARED.quantity("distance", "r", _M),
    _DECLARED.quantity(LOSS, "d", _DB, true_zero=False),
    _DECLARED.quantity("share of the drum", "s", ("%", "1")),
    _DECLARED.quantity("sound pressure", "p", ("mPa", "Pa")),
)


def run(conditions: Mapping[str, float]) -> Timeline:
    """The walk that follows from the conditions (SI units)."""
    time_s, values, kept = _walk(conditions)
    found, made = _found(values[LOUDNESS]), quantities(QUANTITIES, values)
    whole = Stretch.whole(time_s, made)
    return Timeline(
        process=PROCESS.name,
        time_s=time_s,
        quantities=made,
        stages=stages(STAGES, found, time_s, told(whole, found)),
        events=events(whole, conditions["start"], conditions["walk"]),
        conserved=(kept,),
    )


def _walk(conditions: Mapping[str, float]) -> tuple[FloatArray, dict[str, FloatArray], Conserved]:
    """Every quantity over time, SI; the doublings of the distance are among the times."""
    start, walk = conditions["start"], conditions["walk"]
    doublings = start * 2.0 ** np.arange(round(conditions["doublings"]) + 1)
    evenly = np.geomspace(start, doublings[-1], LOOKS)
    distance = np.unique(np.concatenate([evenly[1:-1], doublings]))
    distance = distance[np.concatenate([[True], np.diff(distance) > 1e-9 * start])]
    drum = level_at(conditions["level"], start, distance)
    room = level_at(conditions["level"], start, conditions["room_distance"])
    around = float(levels_together(float(room), conditions["noise"]))
    loudness = levels_together(drum, around)
    share = 10.0 ** ((drum - loudness) / 10.0)
    spread = 10.0 ** (drum / 10.0) * distance**2
    values = {
        LOUDNESS: loudness,
        "distance": distance,
        LOSS: 20.0 * np.log10(2.0) * share,
        "share of the drum": share,
        "sound pressure": REFERENCE_PA * 10.0 ** (loudness / 20.0),
    }
    kept = Conserved(
        name="the drum's sound through every sphere around it", relative_drift=float(np.ptp(spread) / spread[0])
    )
    return (distance - start) / walk, values, kept


def _found(loudness: FloatArray) -> dict[str, tuple[int, int]]:
    """First and last sample of each stage, by how much of the whole fall is done."""
    done = (loudness[0] - loudness) / (loudness[0] - loudness[-1])
    return spans({"near": 0, "further": first(done >= HALF), "far": first(done >= MOST)}, loudness.size - 1)


PROCESS = ProcessSpec(
    name="sound-level",
    title=_DECLARED.words("title"),
    summary=_DECLARED.words("summary"),
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=_DECLARED.honesty(4),
    sources=("ISO-9613-2",),
    cautions=always("loud"),
)
