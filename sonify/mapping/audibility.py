"""Can the class hear it? Neighbouring stages of each rule against the smallest difference that we ask for."""

from __future__ import annotations

from math import nan

import numpy as np

from sonify.frozen import dataclass
from sonify.mapping.hearing import Hearing
from sonify.mapping.thresholds import can_be_told_apart
from sonify.records.controls import StageBars
from sonify.records.telling_apart import difference
from sonify.records.timeline import FloatArray

#: Between neighbours, so small a share of the quantity's whole swing counts as "hardly changes" (our own limit) ...
HARDLY = 0.10
#: ... and so large a share must be heard (our own limit). Between the two it is a note, not a problem.
MUCH = 0.25


@dataclass(frozen=True, slots=True, kw_only=True)
class HeardStep:
    """From one stage to the next in which the rule sounds.

    values: the quantity's means, SI. sounds: the control's means as heard. science: the change of the quantity as a
    share of its whole swing. difference: in the unit of the threshold.
    """

    stages: tuple[StageBars, StageBars]
    values: tuple[float, float]
    sounds: tuple[float, float]
    science: float
    difference: float
    heard: bool

    @property
    def unchanged(self) -> bool:
        """The science hardly changes and nothing is heard: that is right."""
        return not self.heard and self.science < HARDLY

    @property
    def lost(self) -> bool:
        """The science changes much and nothing is heard: a problem."""
        return not self.heard and self.science >= MUCH

    @property
    def faint(self) -> bool:
        """The science changes a little and nothing is heard: worth a note."""
        return not self.heard and HARDLY <= self.science < MUCH


@dataclass(frozen=True, slots=True, kw_only=True)
class Move:
    """Within one stage: the least and the most of the control among the means of its quarters.

    quarters: where these two begin and end, in model seconds; bars: the same in bars, from 1.
    """

    stage: StageBars
    quarters: tuple[tuple[float, float], tuple[float, float]]
    bars: tuple[tuple[float, float], tuple[float, float]]
    sounds: tuple[float, float]
    difference: float
    heard: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Audit:
    """What can be heard of a rule. swing: the quantity's least and most where the rule sounds, SI.

    shared: from least to most of all that are compared by this rule, 0 where it stands alone.
    """

    steps: tuple[HeardStep, ...]
    moves: tuple[Move, ...]
    swing: tuple[float, float]
    shared: float = 0.0

    @property
    def constant(self) -> bool:
        """The quantity does not change at all, but for rounding."""
        low, high = self.swing
        return high - low <= 1e-9 * max(abs(low), abs(high))

    @property
    def told_apart(self) -> bool:
        """Something of the rule can be heard somewhere."""
        return any(step.heard for step in self.steps) or any(move.heard for move in self.moves)

    @property
    def flat(self) -> bool:
        """Nothing is heard because this one hardly changes beside those it is compared with: that is what is found."""
        return not self.told_apart and self.swing[1] - self.swing[0] < MUCH * self.shared

    @property
    def lost(self) -> tuple[HeardStep, ...]:
        return tuple(step for step in self.steps if step.lost)

    @property
    def good(self) -> bool:
        return (self.told_apart or self.flat) and not self.lost


def audit(hearing: Hearing) -> Audit:
    """Compare neighbouring stages, and the quarters within each, as they are heard."""
    sounding = hearing.sounding
    swing = (float(sounding.min()), float(sounding.max())) if sounding.size else (0.0, 0.0)
    pairs = zip(hearing.stages, hearing.stages[1:], strict=False)
    whole = max(hearing.shared_swing, swing[1] - swing[0])
    return Audit(
        steps=tuple(_step(hearing, pair, whole) for pair in pairs),
        moves=tuple(_move(hearing, stage) for stage in hearing.stages),
        swing=swing,
        shared=hearing.shared_swing,
    )


def stage_sound(hearing: Hearing, stage: StageBars) -> float:
    """The mean of what is heard in a stage."""
    return float(np.mean(hearing.heard[hearing.beats(stage)]))


def stage_value(hearing: Hearing, stage: StageBars) -> float:
    """The mean of the quantity over a stage's beats, SI."""
    return float(np.mean(hearing.values[hearing.beats(stage)]))


def _step(hearing: Hearing, pair: tuple[StageBars, StageBars], swing: float) -> HeardStep:
    control = hearing.bound.rule.control
    told = (stage_sound(hearing, pair[0]), stage_sound(hearing, pair[1]))
    one, other = (_middle(control, hearing.judged(stage)) for stage in pair) if hearing.recorded(*pair) else told
    before, after = (stage_value(hearing, stage) for stage in pair)
    return HeardStep(
        stages=pair,
        values=(before, after),
        sounds=told,
        science=abs(after - before) / swing if swing > 0.0 else 0.0,
        difference=difference(control, one, other),
        heard=can_be_told_apart(control, one, other, hearing.youngest),
    )


def _middle(control: str, values: FloatArray) -> float:
    """The mean of what is heard; of loudness, of its decibels. nan for silence."""
    known = values[np.isfinite(values)]
    if not known.size:
        return nan
    if control != "dynamics":
        return float(np.mean(known))
    return float(np.exp(np.mean(np.log(np.maximum(known, 1.0)))))


def _move(hearing: Hearing, stage: StageBars) -> Move:
    control = hearing.bound.rule.control
    parts = [part for part in np.array_split(hearing.judged(stage), 4) if part.size]
    means = [_middle(control, part) for part in parts]
    shares = np.cumsum([0, *map(len, parts)]) / sum(map(len, parts))
    edges = stage.start_s + (stage.end_s - stage.start_s) * shares
    bars = stage.bar + stage.bars * shares
    least, most = (int(place(means)) for place in (np.nanargmin, np.nanargmax))
    one, other = means[least], means[most]
    return Move(
        stage=stage,
        quarters=tuple((float(edges[place]), float(edges[place + 1])) for place in (least, most)),  # type: ignore[arg-type]
        bars=tuple((float(bars[place]), float(bars[place + 1])) for place in (least, most)),  # type: ignore[arg-type]
        sounds=(one, other),
        difference=difference(control, one, other),
        heard=can_be_told_apart(control, one, other, hearing.youngest),
    )
