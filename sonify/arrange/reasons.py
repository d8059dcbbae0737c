"""Why a cue is given: what moved in the science, with this piece's own figures, or that it is for the music."""

from __future__ import annotations

import numpy as np

from sonify.arrange.piece import Piece
from sonify.kinds.ideas import IDEAS
from sonify.records.controls import ControlCurve, StageBars
from sonify.records.fact import Amount, Claim, Fact, Named, Reading, fact
from sonify.records.score import FOR_THE_MUSIC, Reason
from sonify.records.timeline import FloatArray, Quantity
from sonify.units import convert

_TEMPERATURES = ("degC", "K")
#: A beat that differs by less is not called quicker or slower: nobody hears it (our own limit).
HEARD = 1.06
#: A quantity has moved if it goes by this share of its whole swing, and falls back by at most so much of the way.
_CLEAR, _SETBACK = 0.01, 0.2
_MOST_PLACES, _DIGITS = 6, 4
_MORE, _LESS = ("cue-warmer", "cue-higher", "cue-rises"), ("cue-colder", "cue-lower", "cue-falls")


def stage_reason(piece: Piece, stage: int) -> Reason:
    """Why a stage sounds so, where its author says it; else its science in one line: the caption, or what was found."""
    row = piece.stages[stage]
    said = next((note.why for note in piece.scene.stages if note.stage == row.stage), "")
    if said:
        return Reason(words=said)
    found = next((each.science for each in piece.timeline.stages if each.name == row.stage), "")
    return Reason(words=row.caption or found or row.title)


# --- a new beat ------------------------------------------------------------------------------------------------------


def tempo_reason(piece: Piece, stage: int, *, quicker: bool, glides: bool) -> Reason:
    """Why the beat is new in a stage: its mean beside that of the stage before, or where it glides, where it goes."""
    curve = next((each for each in piece.controls.curves if each.rule.control == "tempo"), None)
    if curve is None:
        return FOR_THE_MUSIC
    if not curve.rule.quantity:
        return _own_reason(piece, curve, piece.stages[stage].bar)
    quantity = _known(piece, curve)
    words = _gone(piece, quantity, stage) if glides else _beside(piece, quantity, curve, stage)
    more = quicker == (curve.rule.to_high >= curve.rule.to_low)
    if words is None or words.message not in (_MORE if more else _LESS):
        return Reason(words=curve.rule.why)
    return Reason(words=_heard(piece, stage, words, quicker=quicker, glides=glides))


def _known(piece: Piece, curve: ControlCurve) -> Quantity:
    """What the rule follows, or the temperature that goes with it: molecules are faster exactly where it is warmer."""
    quantity = piece.timeline.quantity(curve.rule.quantity)
    other = piece.timeline.quantity(quantity.companion) if quantity.companion else quantity
    return other if other.unit in _TEMPERATURES and other.whose else quantity


def _heard(piece: Piece, stage: int, words: Fact, *, quicker: bool, glides: bool) -> Fact:
    """The reason with the claim that the beat can be heard to change, where it does so by enough."""
    row = piece.stages[stage]
    end = float(row.bar + row.bars)
    before = piece.stages[stage - 1] if stage else row
    if glides or not stage:
        now = Reading(how="bpm", start=end - 1.0, end=end)
        then = Reading(how="bpm", start=float(row.bar), end=row.bar + 1.0)
    else:
        now = Reading(how="bpm", start=float(row.bar), end=end)
        then = Reading(how="bpm", start=float(before.bar), end=float(before.bar + before.bars))
    ratio = piece.bpm(int(now.end) - 1) / piece.bpm(int(then.end) - 1)
    if (ratio if quicker else 1.0 / ratio) < HEARD * 1.001:
        return words
    kind = "quicker" if quicker else "slower"
    return fact(f"cue-{kind}", Claim(kind=kind, left=now, right=then), because=words).or_else(words)


def _beside(piece: Piece, quantity: Quantity, curve: ControlCurve, stage: int) -> Fact | None:
    """What the stage's mean is beside that of the stage before; None where they are the same."""
    if not stage:
        return None
    here, before = (_over("mean", quantity, row) for row in (piece.stages[stage], piece.stages[stage - 1]))
    now, then = _value(piece, here), _value(piece, before)
    least = max(_CLEAR * float(np.ptp(quantity.values)), 1e-12 * abs(then))
    if abs(now - then) <= least:
        return None
    slack = 0.5 * least / abs(then) if then else 0.0
    claim = Claim(kind="more" if now > then else "less", left=here, right=before, slack=slack)
    figures = _figures(piece, quantity, curve, stage)
    if quantity.unit in _TEMPERATURES and quantity.whose:
        name = "cue-warmer" if now > then else "cue-colder"
        return fact(name, claim, whose=quantity.whose, figures=figures)
    name = "cue-higher" if now > then else "cue-lower"
    return fact(name, claim, quantity=Named("quantity", quantity.name), figures=figures)


def _figures(piece: Piece, quantity: Quantity, curve: ControlCurve, stage: int) -> Fact:
    """The two means, and those of the quantity that the rule follows where that is another one."""
    rows = piece.stages[stage], piece.stages[stage - 1]
    now, before = _pair(piece, quantity, *(_over("mean", quantity, row) for row in rows))
    if quantity.name == curve.rule.quantity:
        return fact("cue-after", now=now, before=before)
    rule = piece.timeline.quantity(curve.rule.quantity)
    other, then = _pair(piece, rule, *(_over("mean", rule, row) for row in rows))
    return fact("cue-after-both", now=now, before=before, other=other, then=then)


def _gone(piece: Piece, quantity: Quantity, stage: int) -> Fact | None:
    """Where a quantity goes within a stage; None where it goes nowhere plain."""
    row = piece.stages[stage]
    way = _way(piece, quantity, row.start_s, row.end_s)
    if not way:
        return None
    start, end = _pair(piece, quantity, *(_over(how, quantity, row) for how in ("first", "last")))
    kind = "rises" if way > 0 else "falls"
    claim = Claim(kind=kind, left=_over("change", quantity, row))
    return fact(f"cue-{kind}", claim, quantity=Named("quantity", quantity.name), start=start, end=end)


def _over(how: str, quantity: Quantity, row: StageBars) -> Reading:
    return Reading(how=how, of=quantity.name, start=row.start_s, end=row.end_s)


def _value(piece: Piece, reading: Reading) -> float:
    """A reading's first, last or mean value, in SI."""
    times, values = _within(piece, piece.timeline.quantity(reading.of), reading.start, reading.end)
    if reading.how == "mean" and times[-1] > times[0]:
        return float(np.trapezoid(values, times)) / float(times[-1] - times[0])
    return float(values[-1 if reading.how == "last" else 0])


def _pair(piece: Piece, quantity: Quantity, *readings: Reading) -> tuple[Amount, Amount]:
    """Two figures as far as it takes to tell them apart: whole ones where they lie two apart, else tenths, and on."""
    values = [float(convert(_value(piece, each), quantity.si_unit, quantity.unit)) for each in readings]
    gap = abs(values[0] - values[1])
    places = next((n for n in range(_MOST_PLACES) if gap >= 2.0 * 10.0**-n), None)
    first, second = (
        Amount(value=value, unit=quantity.unit, digits=_DIGITS, places=places, source=source)
        for value, source in zip(values, readings, strict=True)
    )
    return first, second


# --- louder, busier, brighter ----------------------------------------------------------------------------------------


def moved(piece: Piece, curve: ControlCurve, bar: int, reached: int) -> Reason:
    """That a rule's quantity rises or falls up to where the change is complete; the rule's own words where it stays."""
    if not curve.rule.quantity:
        return _own_reason(piece, curve, reached)
    way = moves(piece, curve, bar, reached)
    if not way:
        return Reason(words=curve.rule.why)
    start, end = _span(piece, bar, reached)
    kind = "rises" if way > 0 else "falls"
    quantity = curve.rule.quantity
    claim = Claim(kind=kind, left=Reading(how="change", of=quantity, start=start, end=end))
    return Reason(words=fact(f"cue-{kind}-here", claim, quantity=Named("quantity", quantity)))


def moves(piece: Piece, curve: ControlCurve, bar: int, reached: int) -> int:
    """1 where a rule's quantity rises from the bar before a change to its last bar, -1 where it falls, else 0."""
    if not curve.rule.quantity:
        return 0
    return _way(piece, piece.timeline.quantity(curve.rule.quantity), *_span(piece, bar, reached))


def _own_reason(piece: Piece, curve: ControlCurve, bar: int) -> Reason:
    """What the author says of the stage, where a word of hers is about this control; else it is for the music."""
    row = next(stage for stage in reversed(piece.stages) if stage.bar <= bar)
    note = next(each for each in piece.scene.stages if each.stage == row.stage)
    said = any(IDEAS[word][0] == curve.rule.control for word in note.sounds)
    return Reason(words=note.why) if said else FOR_THE_MUSIC


def _span(piece: Piece, bar: int, reached: int) -> tuple[float, float]:
    """Model time from the bar before a change to the end of the bar in which it is complete."""
    ends = np.array([max(bar - 2, 0), min(max(reached, bar), piece.bars)], dtype=float) * piece.beats
    ends[1] -= 1e-9  # the stage's own end, not the next one's start
    start, end = piece.controls.time_map.model_time_s(ends)
    return float(start), float(end)


def _within(piece: Piece, quantity: Quantity, start: float, end: float) -> tuple[FloatArray, FloatArray]:
    time_s = piece.timeline.time_s
    times = np.concatenate(([start], time_s[(time_s > start) & (time_s < end)], [end]))
    return times, np.interp(times, time_s, quantity.values)


def _way(piece: Piece, quantity: Quantity, start: float, end: float) -> int:
    _, values = _within(piece, quantity, start, end)
    gone = float(values[-1] - values[0])
    way = 1 if gone > 0.0 else -1
    back = float(np.max(np.maximum.accumulate(way * values) - way * values))
    clear = _CLEAR * float(np.ptp(quantity.values))
    return way if abs(gone) > clear and back <= _SETBACK * abs(gone) else 0
