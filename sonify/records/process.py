"""What a process declares about itself, before it is run: its conditions, quantities and possible stages."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from sonify.frozen import dataclass
from sonify.records.experiment import Experiment
from sonify.records.fact import Words
from sonify.records.scene import Scene
from sonify.records.table import Table
from sonify.records.timeline import Timeline


@dataclass(frozen=True, slots=True, kw_only=True)
class ConditionSpec:
    """One condition a scene may set. low, high and default in `si_unit`; `unit` is how people read it.

    whole: only whole numbers make sense (a day of the year). choices: the words of which a scene writes one ("butter");
    the value is then its place among them, from 0.
    """

    name: str
    meaning: Words
    unit: str
    si_unit: str
    default: float
    low: float
    high: float
    whole: bool = False
    choices: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class StageSpec:
    """A stage the process can find, in order. `name` is the word scenes use; `seen_as` how it is found, in words."""

    name: str
    title: Words
    seen_as: Words


@dataclass(frozen=True, slots=True, kw_only=True)
class QuantitySpec:
    """A quantity the process computes. unit: how people read it. true_zero: ratios of its SI values mean something.

    whose: whose quantity it is, in words that go on every sheet ("the water on its journey").
    companion: another quantity of the process that rises or falls with this one alone, so that keys may print both
    ("571 m/s, that is 5 °C"): the molecule speed's companion is the temperature it follows from.
    drawn: the scene's author drew it or typed it in; nobody measured or computed it.
    """

    name: str
    symbol: str
    unit: str
    si_unit: str
    true_zero: bool
    meaning: Words
    whose: Words = ""
    companion: str = ""
    drawn: bool = False


def no_cautions(conditions: Mapping[str, float]) -> tuple[str, ...]:
    """Nothing that every lesson does not say anyway."""
    return ()


@dataclass(frozen=True, slots=True, kw_only=True)
class SlowPart:
    """The part of a process worth keeping between runs: its key and its bytes follow from the conditions alone.

    finish: the Timeline from those bytes; ValueError where they are broken.
    """

    key: Callable[[Mapping[str, float]], str]
    compute: Callable[[Mapping[str, float]], bytes]
    finish: Callable[[Mapping[str, float], bytes], Timeline]


@dataclass(frozen=True, slots=True, kw_only=True)
class ProcessSpec:
    """A process, found in the registry by name. `run` takes every condition in SI units and returns the Timeline.

    cycle: the last stage leads back to the first, so the pupils' flow chart closes its ring; False ends it there.
    for_table: only of a process that plays a class's own readings, whose quantities nobody knows before the table. It
    returns the process with the quantities, stages and `run` of one table; BadFile where the table cannot serve.
    for_experiment: the same where it is known what in the table was changed and what was measured.
    for_scene: only of a process whose stages stand in the scene file itself; likewise.
    """

    name: str
    title: Words
    summary: Words
    conditions: tuple[ConditionSpec, ...]
    stages: tuple[StageSpec, ...]
    quantities: tuple[QuantitySpec, ...]
    run: Callable[[Mapping[str, float]], Timeline]
    honesty: tuple[Words, ...] = ()  # what the model leaves out, one sentence each, for the teacher's notes
    sources: tuple[str, ...] = ()  # keys into science.sources
    cycle: bool = False
    for_table: Callable[[Table], ProcessSpec] | None = None
    for_experiment: Callable[[Experiment], ProcessSpec] | None = None
    for_scene: Callable[[Scene], ProcessSpec] | None = None
    cautions: Callable[[Mapping[str, float]], tuple[str, ...]] = no_cautions  # rows of kinds.cautions that it needs
    slow: SlowPart | None = None  # where `run` takes seconds: `lesson` keeps this part between runs

    def quantity(self, name: str) -> QuantitySpec | None:
        return next((q for q in self.quantities if q.name == name), None)
