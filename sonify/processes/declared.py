"""What processes do with their declarations: quantities from specs, stages from their starts, advice tried out."""

from __future__ import annotations

from collections.abc import Callable, Collection, Iterable, Mapping, Sequence
from dataclasses import field
from math import floor, log10

import numpy as np
from numpy.typing import NDArray

from sonify.frozen import dataclass
from sonify.records.fact import Fact, Words, fact
from sonify.records.process import ConditionSpec, QuantitySpec, StageSpec
from sonify.records.timeline import Event, FloatArray, Missing, Quantity, Stage
from sonify.units import convert

MOST_TRIALS = 4  # runs of a model spent on one stage's advice


def quantities(specs: Iterable[QuantitySpec], values: Mapping[str, FloatArray]) -> tuple[Quantity, ...]:
    """The declared quantities with their values (SI, by name)."""
    return tuple(
        Quantity(
            name=spec.name,
            symbol=spec.symbol,
            unit=spec.unit,
            si_unit=spec.si_unit,
            values=values[spec.name],
            true_zero=spec.true_zero,
            whose=spec.whose,
            meaning=spec.meaning,
            companion=spec.companion,
            drawn=spec.drawn,
        )
        for spec in specs
    )


def first(holds: NDArray[np.bool_], after: int = 0) -> int | None:
    """The first sample from `after` on at which something holds."""
    hits = np.flatnonzero(holds[after:])
    return int(hits[0]) + after if hits.size else None


def spans(starts: Mapping[str, int | None], last: int) -> dict[str, tuple[int, int]]:
    """First and last sample of each stage that came, in order, without a gap.

    A stage that begins no earlier than the next that came has no time of its own and is left out.
    """
    came = [(name, start) for name, start in starts.items() if start is not None and start < last]
    found: dict[str, tuple[int, int]] = {}
    end = last
    for name, start in reversed(came):
        if start < end:
            found[name] = (start, end)
            end = start
    return dict(reversed(found.items()))


def stages(
    specs: Iterable[StageSpec], found: Mapping[str, tuple[int, int]], time_s: FloatArray, sentences: Mapping[str, Words]
) -> tuple[Stage, ...]:
    """The stages that came, with their times and what happened in them."""
    titles = {spec.name: spec.title for spec in specs}
    return tuple(
        Stage(
            name=name,
            title=titles[name],
            start_s=float(time_s[start]),
            end_s=float(time_s[end]),
            science=sentences[name],
        )
        for name, (start, end) in found.items()
    )


def events_at(moments: Iterable[tuple[int, str, Fact]], time_s: FloatArray) -> tuple[Event, ...]:
    """Events in order, from the sample at which each comes, its name, and what is told of it."""
    in_order = sorted(moments, key=lambda moment: moment[:2])
    return tuple(Event(name=name, time_s=float(time_s[at]), text=text) for at, name, text in in_order)


def drift(stores: Sequence[FloatArray], moved: float) -> float:
    """The largest change of all stores together, relative to what moved between them.

    Where next to nothing moved, relative to a thousandth of all there is: rounding alone would pass for a leak.
    """
    total = np.sum(stores, axis=0)
    against = max(moved, 1.0e-3 * float(np.max(np.abs(stores))))
    return float(np.max(np.abs(total - total[0]))) / against if against > 0.0 else 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Adviser:
    """Tries changes of one condition at a time, each once.

    found: the stages that a model brings under given conditions.
    """

    specs: tuple[ConditionSpec, ...]
    conditions: Mapping[str, float]
    found: Callable[[Mapping[str, float]], Collection[str]]
    _tried: dict[tuple[str, float], Collection[str]] = field(default_factory=dict)

    def missing(self, stage: str, reason: Words, changes: Sequence[tuple[str, float]]) -> Missing:
        """Why a stage did not come, and the first change (condition, SI value) that brings it; if none does, so."""
        tried = []
        for name, wanted in changes:
            text, value = self._written(name, wanted)
            if value == self.conditions[name]:
                continue
            tried.append(name)
            if len(tried) > MOST_TRIALS:
                break
            if (name, value) not in self._tried:
                self._tried[name, value] = self.found({**self.conditions, name: value})
            if stage in self._tried[name, value]:
                return Missing(
                    stage=stage, reason=reason, condition=name, fix=fact("science-set", condition=name, value=text)
                )
        usual = list(dict.fromkeys(tried or [name for name, _ in changes]))
        fix = fact("science-no-single-change", conditions=", ".join(usual))
        return Missing(stage=stage, reason=reason, condition=usual[0], fix=fix)

    def _written(self, name: str, wanted: float) -> tuple[str, float]:
        """A value as the scene file writes it, to two digits and inside its range, and what that text means in SI."""
        spec = next(spec for spec in self.specs if spec.name == name)
        held = min(max(wanted, spec.low), spec.high)
        readable = float(convert(held, spec.si_unit, spec.unit))
        digits = 0 if readable == 0.0 else 1 - floor(log10(abs(readable)))
        rounded = float(round(readable)) if spec.whole else round(readable, digits)
        value = float(convert(rounded, spec.unit, spec.si_unit))
        if not spec.low <= value <= spec.high:  # rounding may pass an end, which is a round number itself
            value, rounded = held, round(readable, 6)
        text = f"{rounded:.10g}"
        return (text if spec.unit == "1" else f'"{text} {spec.unit}"'), value
