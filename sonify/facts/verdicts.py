"""Whether what a fact says holds: each figure taken again, each claim settled by the code of its kind."""

from __future__ import annotations

from collections.abc import Callable, Iterator
from dataclasses import replace
from fractions import Fraction
from math import floor, inf, log10

import numpy as np

from sonify.facts.evidence import Evidence, NoEvidence
from sonify.frozen import dataclass
from sonify.kinds.marks import on_marks
from sonify.kinds.readings import SCIENCE, SCORE
from sonify.records.fact import Amount, Claim, ClockTime, Date, Duration, Fact, Figure, Reading, Words
from sonify.units import convert, si

#: A rise or fall is told from this share of the quantity's whole swing on; against it at most so much of it between.
CLEAR, SETBACK = 0.005, 0.25
#: "Hardly changes": within this share of the whole swing.
STEADY = 0.05
#: Beats that differ by less are not told apart (common findings lie near 6 %; `mapping.thresholds` has the sources).
BEAT_STEP = 1.06
#: Steps from one printed mark to the next (with less than half a step a card prints the same marks), notes a bar and
#: semitones that are told as louder, busier, higher (our own limits).
LOUDER, BUSIER, HIGHER = 0.5, 1.1, 0.5
#: Of the way from soft beaters to hard ones, what is told as brighter: half of the step from one to the next. What
#: begins in the lower or the upper third begins dark or bright (our own limits).
BRIGHTER, DARK, BRIGHT = 0.15, 1.0 / 3.0, 2.0 / 3.0
#: A part that sounds in one of so many last bars plays to the end (our own limit).
ENDING_BARS = 2
#: Parts are heard together when they share so many of the bars of the one that plays less.
TOGETHER = 0.6
#: A stretch of time is told in round numbers: it may be off by this share.
TIME_TOLD = 0.02
#: Of a difference that is to be heard so much is enough: here it is taken over time, beat by beat where it is chosen.
NEARLY = 0.8
#: Semitones that two means of one melody may lie apart: half of a semitone, a quarter of a scale's usual step.
NOTE_GRAIN = 0.5
#: A value read back from digits may be off by this share of its quantity's swing.
_ROUNDED = 1e-6
#: Figures may be off by this share of half their last digit, for the rounding of machine numbers.
_ROUNDING = 1.001


@dataclass(frozen=True, slots=True, kw_only=True)
class Falsehood:
    """What does not hold: the fact, the claim's kind, and what was said against what was found."""

    fact: Fact
    kind: str
    said: str
    found: str


def falsehoods(words: Fact, evidence: Evidence) -> list[Falsehood]:
    """Everything in a fact that does not hold."""
    return [*_wrong_figures(words, evidence), *_wrong_claims(words, evidence)]


def true_words(words: Words, evidence: Evidence) -> tuple[Words, list[Falsehood]]:
    """Words with every false fact replaced by its weaker one, or left out; and what was false."""
    if isinstance(words, str):
        return words, []
    if isinstance(words, tuple):
        pairs = [true_words(each, evidence) for each in words]
        kept = tuple(each for each, _ in pairs if each != "" and each != ())
        return kept, [fault for _, faults in pairs for fault in faults]
    faults = falsehoods(words, evidence)
    if not faults:
        return words, []
    if words.otherwise is None:
        return (), faults
    weaker, more = true_words(words.otherwise, evidence)
    return weaker, [*faults, *more]


# --- figures ---------------------------------------------------------------------------------------------------------


def _wrong_figures(words: Fact, evidence: Evidence) -> Iterator[Falsehood]:
    for figure in words.figures():
        if figure.source is None:
            continue
        try:
            wrong = _off(figure, evidence.value(figure.source))
        except NoEvidence as missing:
            wrong = str(missing)
        if wrong:
            yield Falsehood(fact=words, kind="figure", said=repr(figure), found=wrong)


def _off(figure: Figure, found: float) -> str:
    """ "" where a figure is what was found, to its own last digit; else what was found."""
    match figure:
        case Amount():
            return _amount_off(figure, found)
        case Duration():
            return "" if abs(figure.seconds - found) <= TIME_TOLD * max(figure.seconds, found) else f"{found:g} s"
        case ClockTime():
            minutes = (figure.hour_zero * 60.0 + found / 60.0) % 1440.0
            gap = abs(figure.hours * 60.0 % 1440.0 - minutes)
            return "" if min(gap, 1440.0 - gap) <= 1.0 else f"{minutes // 60:.0f}:{minutes % 60:02.0f}"
        case Date():
            return "" if abs(figure.day - found / 86_400.0) < 1.0 else f"day {found / 86_400.0:.1f}"


def _amount_off(figure: Amount, found: float) -> str:
    source = figure.source
    assert source is not None
    if figure.unit != "1" and source.per is None and source.times == 1.0:
        found = _in_unit(found, figure.unit, difference=source.how == "change" or source.less is not None)
    if figure.grain:
        step = figure.grain
    elif figure.places is not None:
        step = 10.0**-figure.places
    else:
        size = max(abs(figure.value), abs(found))
        step = 10.0 ** (floor(log10(size)) - figure.digits + 1) if size > 0 else 1.0
    return "" if abs(figure.value - found) <= 0.5 * step * _ROUNDING else f"{found:.6g} {figure.unit}"


def _in_unit(value: float, unit: str, *, difference: bool) -> float:
    """An SI value in a unit; a difference of temperatures has no other zero."""
    base = si(unit)
    zero = convert(0.0, base, unit) if difference else 0.0
    return float(convert(value, base, unit)) - float(zero)


# --- claims ----------------------------------------------------------------------------------------------------------


def _wrong_claims(words: Fact, evidence: Evidence) -> Iterator[Falsehood]:
    for claim in words.all_claims():
        try:
            holds = VERDICTS[claim.kind](claim, evidence)
        except NoEvidence as missing:
            yield Falsehood(fact=words, kind=claim.kind, said=repr(claim), found=str(missing))
            continue
        if not holds:
            yield Falsehood(fact=words, kind=claim.kind, said=repr(claim), found=_found(claim, evidence))


def _found(claim: Claim, evidence: Evidence) -> str:
    told = []
    for reading in (claim.left, claim.right):
        if reading is not None:
            try:
                told.append(f"{evidence.value(reading):.6g}")
            except NoEvidence as missing:
                told.append(str(missing))
    return " against ".join(told)


def _trend(claim: Claim, evidence: Evidence, way: float) -> bool:
    """Whether the quantity goes that way (1 up, -1 down) from start to end, without a great setback."""
    _, values = evidence.stretch(claim.left)
    gone = way * float(values[-1] - values[0])
    ahead = np.maximum.accumulate(way * values)
    setback = float(np.max(ahead - way * values))
    clear = (claim.slack or CLEAR) * evidence.swing(claim.left.of)
    return gone > clear and setback <= SETBACK * gone


def _steady(claim: Claim, evidence: Evidence) -> bool:
    _, values = evidence.stretch(claim.left)
    return float(np.ptp(values)) <= (claim.slack or STEADY) * evidence.swing(claim.left.of) + 1e-12


def _swings(claim: Claim, evidence: Evidence) -> bool:
    _, values = evidence.stretch(claim.left)
    clear = (claim.slack or STEADY) * evidence.swing(claim.left.of)
    high, low = float(values.max()), float(values.min())
    ends = (float(values[0]), float(values[-1]))
    return (high - max(ends) > clear or min(ends) - low > clear) and high - low > clear


def _pair(claim: Claim, evidence: Evidence) -> tuple[float, float]:
    if claim.right is None:
        raise NoEvidence(f"{claim.kind} compares with nothing")
    return evidence.value(claim.left), evidence.value(claim.right)


def _same(claim: Claim, evidence: Evidence) -> bool:
    left, right = _pair(claim, evidence)
    hair = 1e-12
    if claim.left.how in SCIENCE:  # at an edge between two steps a time in digits lies a hair within the next one
        hair += _ROUNDED * evidence.swing(claim.left.of)
    return abs(left - right) <= (claim.slack or STEADY) * max(abs(left), abs(right)) + hair


def _ratio(claim: Claim, evidence: Evidence) -> float:
    left, right = _pair(claim, evidence)
    return left / right if right else float("inf") if left > 0 else 1.0


def _tempo_ratio(claim: Claim, evidence: Evidence) -> float:
    return _ratio(
        replace(
            claim,
            left=replace(claim.left, how="bpm"),
            right=None if claim.right is None else replace(claim.right, how="bpm"),
        ),
        evidence,
    )


def _more_by(claim: Claim, evidence: Evidence, how: str, step: float) -> bool:
    if claim.right is None:
        raise NoEvidence(f"{claim.kind} compares with nothing")
    left, right = (evidence.value(replace(reading, how=how)) for reading in (claim.left, claim.right))
    return (on_marks(left) - on_marks(right) if how == "velocity" else left - right) >= step


def _swapped(claim: Claim) -> Claim:
    if claim.right is None:
        raise NoEvidence(f"{claim.kind} compares with nothing")
    return replace(claim, left=claim.right, right=claim.left)


def _busier(claim: Claim, evidence: Evidence) -> bool:
    def strokes(reading: Reading) -> float:
        try:
            return evidence.value(replace(reading, how="strokes a bar"))
        except NoEvidence:  # nothing at all is fewest
            return 0.0

    if claim.right is None:
        raise NoEvidence("busier compares with nothing")
    left, right = strokes(claim.left), strokes(claim.right)
    return left >= BUSIER * right and left > right


def _bars(reading: Reading, evidence: Evidence) -> set[int]:
    return {bar for bar in evidence.sounding(reading.of) if reading.start <= bar < reading.end}


def _together(claim: Claim, evidence: Evidence) -> bool:
    one, other = (_bars(replace(claim.left, of=of), evidence) for of in (claim.left.of, claim.left.beside))
    fewer = min(len(one), len(other))
    return fewer > 0 and len(one & other) >= (claim.slack or TOGETHER) * fewer


def _apart(claim: Claim, evidence: Evidence) -> bool:
    one, other = (_bars(replace(claim.left, of=of), evidence) for of in (claim.left.of, claim.left.beside))
    return not one & other


def _alone(claim: Claim, evidence: Evidence) -> bool:
    own = {part.name for part in evidence.lines(claim.left.of)}
    others = [part.name for part in evidence.played.group_parts if part.name not in own]
    heard = any(_bars(replace(claim.left, of=name), evidence) for name in others)
    return bool(_bars(claim.left, evidence)) and not heard


def _in_turn(claim: Claim, evidence: Evidence, *, by_kind: bool) -> bool:
    beats = evidence.played.metre.beats
    struck = [
        (note.beat, (note.instrument or part.instrument) if by_kind else "")
        for part in evidence.lines(claim.left.of)
        for note in part.notes
        if claim.left.start <= note.beat // beats + 1 < claim.left.end
    ]
    return bool(struck) and len(set(struck)) == len(struck)


def _each_alone(claim: Claim, evidence: Evidence) -> bool:
    """Whether each stroke of a part is one pupil's, and no two of them fall together, in whichever group."""
    beats, struck = evidence.played.metre.beats, list[Fraction]()
    for part in evidence.lines(claim.left.of):
        notes = [note for note in part.notes if claim.left.start <= note.beat // beats + 1 < claim.left.end]
        crowds = {seat.instrument for seat in part.seats if (seat.at_once or seat.players) > 1}
        if any(not note.player and (note.instrument or part.instrument) in crowds for note in notes):
            return False
        struck += [note.beat for note in notes]
    return bool(struck) and len(set(struck)) == len(struck)


def _starts_alike(claim: Claim, evidence: Evidence) -> bool:
    one, other = (
        evidence.value(replace(claim.left, of=of, how="first pitch")) for of in (claim.left.of, claim.left.beside)
    )
    return one == other


def _ends_higher(claim: Claim, evidence: Evidence) -> bool:
    """Two tunes are compared at their ends where both are still heard there."""
    ends = [replace(claim.left, of=of, how="last pitch") for of in (claim.left.of, claim.left.beside)]
    if any(max(evidence.sounding(end.of), default=0) < int(claim.left.end) - ENDING_BARS for end in ends):
        return False
    one, other = (evidence.value(end) for end in ends)
    return one > other


def _over_stages(claim: Claim, evidence: Evidence) -> tuple[float, list[float]]:
    """Left's reading, and the same reading in every other stage (of the Score where left counts bars)."""
    here = evidence.value(claim.left)
    if claim.left.how in SCORE:
        spans = [(float(s.bar), float(s.bar + s.bars)) for s in evidence.played.sections]
    else:
        spans = [(s.start_s, s.end_s) for s in evidence.timeline.stages]
    others = []
    for start, end in spans:
        if start == claim.left.start:
            continue
        try:
            others.append(evidence.value(replace(claim.left, start=start, end=end)))
        except NoEvidence:
            continue
    return here, others


def _extreme(claim: Claim, evidence: Evidence, sign: float) -> bool:
    here, others = _over_stages(claim, evidence)
    return all(sign * here >= sign * other for other in others)


def _in_order(claim: Claim, evidence: Evidence) -> bool:
    values = [evidence.value(replace(claim.left, start=s.start_s, end=s.end_s)) for s in evidence.timeline.stages]
    rising = all(a <= b for a, b in zip(values, values[1:], strict=False))
    return rising or all(a >= b for a, b in zip(values, values[1:], strict=False))


def _difference(claim: Claim, evidence: Evidence) -> float:
    """How far apart two sounds are, in the unit of their control's threshold: per cent, semitones or decibels."""
    less, more = sorted(_pair(claim, evidence))
    if claim.left.how == "level played":
        return more - less
    control = "tempo" if claim.left.how == "bpm" else evidence.rule(claim.left.of).control
    if control in ("pitch", "brightness"):
        return (more - less) * (100.0 if control == "brightness" else 1.0)
    if less <= 0.0:  # from silence one tap in four beats is enough
        return inf if more >= 0.25 * NEARLY else 0.0
    return 40.0 * log10(more / less) if control == "dynamics" else 100.0 * (more / less - 1.0)


def _grain(claim: Claim, evidence: Evidence) -> float:
    """What the way of taking a mean may change: a pitch is rounded to a note of the scale, each beat or each moment."""
    by_rule = claim.left.how == "mean by rule" and evidence.rule(claim.left.of).control == "pitch"
    return NOTE_GRAIN if by_rule else 0.0


def _earliest(claim: Claim, evidence: Evidence, sign: float) -> bool:
    left, right = _pair(claim, evidence)
    return sign * left <= sign * right


VERDICTS: dict[str, Callable[[Claim, Evidence], bool]] = {
    "rises": lambda c, e: _trend(c, e, 1.0),
    "falls": lambda c, e: _trend(c, e, -1.0),
    "steady": _steady,
    "swings": _swings,
    "more": lambda c, e: _pair(c, e)[0] > _pair(c, e)[1] + (c.slack or CLEAR) * abs(_pair(c, e)[1]),
    "less": lambda c, e: _pair(c, e)[0] < _pair(c, e)[1] - (c.slack or CLEAR) * abs(_pair(c, e)[1]),
    "same": _same,
    "at least": lambda c, e: _pair(c, e)[0] >= _pair(c, e)[1],
    "at most": lambda c, e: _pair(c, e)[0] <= _pair(c, e)[1],
    "quicker": lambda c, e: _tempo_ratio(c, e) >= BEAT_STEP,
    "slower": lambda c, e: _tempo_ratio(c, e) <= 1.0 / BEAT_STEP,
    "same beat": lambda c, e: 1.0 / BEAT_STEP < _tempo_ratio(c, e) < BEAT_STEP,
    "louder": lambda c, e: _more_by(c, e, "velocity", LOUDER),
    "softer": lambda c, e: _more_by(_swapped(c), e, "velocity", LOUDER),
    "higher": lambda c, e: _more_by(c, e, "pitch", HIGHER),
    "lower": lambda c, e: _more_by(_swapped(c), e, "pitch", HIGHER),
    "brighter": lambda c, e: _more_by(c, e, "brightness", BRIGHTER),
    "darker": lambda c, e: _more_by(_swapped(c), e, "brightness", BRIGHTER),
    "grows brighter": lambda c, e: e.value(c.left) >= BRIGHTER,
    "grows darker": lambda c, e: e.value(c.left) <= -BRIGHTER,
    "begins dark": lambda c, e: e.value(c.left) <= DARK,
    "begins bright": lambda c, e: e.value(c.left) >= BRIGHT,
    "busier": _busier,
    "sparser": lambda c, e: _busier(_swapped(c), e),
    "plays": lambda c, e: bool(_bars(c.left, e)),
    "plays throughout": lambda c, e: len(_bars(c.left, e)) == int(c.left.end - c.left.start),
    "silent": lambda c, e: not _bars(c.left, e),
    "together": _together,
    "apart": _apart,
    "alone": _alone,
    "in turn": lambda c, e: _in_turn(c, e, by_kind=False),
    "in turn by kind": lambda c, e: _in_turn(c, e, by_kind=True),
    "each alone": _each_alone,
    "starts alike": _starts_alike,
    "ends higher": _ends_higher,
    "one range": lambda c, e: e.value(c.left) == e.value(replace(c.left, of=c.left.beside)),
    "every beat": lambda c, e: e.value(replace(c.left, how="beats struck")) >= 1.0,
    "one pattern": lambda c, e: e.value(replace(c.left, how="patterns")) == 1.0,
    "order of size": _in_order,
    "greatest": lambda c, e: _extreme(c, e, 1.0),
    "least": lambda c, e: _extreme(c, e, -1.0),
    "by rule": lambda c, e: abs(_pair(c, e)[0] - _pair(c, e)[1]) <= (c.slack or 1e-9),
    "first": lambda c, e: _earliest(c, e, 1.0),
    "last": lambda c, e: _earliest(c, e, -1.0),
    "told apart": lambda c, e: _difference(c, e) >= min(NEARLY * c.slack, c.slack - _grain(c, e)),
    "not told apart": lambda c, e: _difference(c, e) <= max(c.slack / NEARLY, c.slack + _grain(c, e)),
    "never falls": lambda c, e: bool(np.all(np.diff(e.stretch(c.left)[1]) >= 0.0)),
    "never rises": lambda c, e: bool(np.all(np.diff(e.stretch(c.left)[1]) <= 0.0)),
}
