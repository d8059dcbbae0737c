"""What is told of a walk away from a drum: how loud it is, and what each doubling of the distance takes off."""

from __future__ import annotations

from collections.abc import Mapping

from sonify.processes.telling import Stretch, fixed, told_apart
from sonify.records.fact import Arg, Claim, Fact, Words, fact
from sonify.records.timeline import Event

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
