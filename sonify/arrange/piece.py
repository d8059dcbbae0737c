"""What every step of the arranging looks at: the scene, the rules' results, the class, and time in bars."""

from __future__ import annotations

import zlib
from dataclasses import replace
from functools import cached_property

import numpy as np

from sonify.arrange.form import chords_of_stages, chords_under_a_tune
from sonify.frozen import dataclass
from sonify.kinds.needs import NO_SUDDEN_SOUNDS, QUIET_START
from sonify.records.classroom import Classroom
from sonify.records.clock import Clock
from sonify.records.controls import ControlCurve, Controls, StageBars
from sonify.records.instrument import Catalogue
from sonify.records.scene import STAGES_ALL, PartPlan, Scene
from sonify.records.timeline import FloatArray, Timeline

COUNT_IN_BARS = 2
#: Up to this school year a class begins with the easy line (our own choice).
EASY_UP_TO_YEAR = 4
#: And its patterns and borduns move to so many other places, not to one in each stage (our own choice).
EASY_ROOTS = 2


@dataclass(frozen=True, kw_only=True, eq=False)
class Piece:
    """The piece to be arranged. Not slotted: the clock is worked out once and kept.

    asked: the controls with the rules that pupils' own patterns set aside; None where there are none.
    """

    scene: Scene
    timeline: Timeline
    controls: Controls
    classroom: Classroom
    catalogue: Catalogue
    seed: int = 0
    asked: Controls | None = None

    @property
    def beats(self) -> int:
        """Beats in a bar."""
        return self.controls.time_map.metre.beats

    @property
    def stages(self) -> tuple[StageBars, ...]:
        return self.controls.time_map.stages

    @cached_property
    def bars(self) -> int:
        return self.controls.time_map.bars

    @cached_property
    def clock(self) -> Clock:
        return Clock(beats_a_bar=self.beats, count_in_bars=COUNT_IN_BARS, tempi=self.controls.time_map.tempi)

    @cached_property
    def _bar_bpms(self) -> tuple[float, ...]:
        return tuple(
            bpm for stage in self.stages for bpm in (stage.bar_bpms or (stage.bpm,) * stage.bars)[: stage.bars]
        )

    @property
    def gentle(self) -> bool:
        return NO_SUDDEN_SOUNDS in self.classroom.needs

    @property
    def quiet_start(self) -> bool:
        return QUIET_START in self.classroom.needs

    def bpm(self, bar: int) -> float:
        return self._bar_bpms[bar - 1]

    def fastest_bpm(self, bar: int, bars: int) -> float:
        return max(self._bar_bpms[bar - 1 : bar - 1 + bars])

    def bar_seconds(self, bar: int) -> float:
        return self.beats * 60.0 / self.bpm(bar)

    def curve(self, control: str, part: str, *, own: bool = False) -> ControlCurve | None:
        """The rule that shapes a part: its own, or (unless only `own` is wanted) that of the whole piece.

        part: a part of the scene, or one group's share of it ("The rain, second group").
        """
        found = self.controls.curve(control, self.plan_name(part))
        return None if found is None or (own and found.part is None) else found

    def plan_name(self, part: str) -> str:
        """The part of the scene that a part of the score plays, alone or as one group's share of it."""
        return self.scene.plan_name(part)

    def results(self, control: str, part: str, *, own: bool = False) -> FloatArray | None:
        """A control beat by beat over the piece, or None where no rule sets it."""
        curve = self.curve(control, part, own=own)
        return None if curve is None else np.asarray(curve.results, dtype=float)

    def bar_means(self, values: FloatArray) -> FloatArray:
        """The mean of a control in each bar."""
        by_bar: FloatArray = np.asarray(values[: self.bars * self.beats], dtype=float).reshape(self.bars, self.beats)
        return np.asarray(by_bar.mean(axis=1))

    def level(self, plan: PartPlan) -> str:
        """The line that a part plays: the scene's choice, the class's, or by its year."""
        return plan.line or self.classroom.line or ("easy" if self.classroom.year <= EASY_UP_TO_YEAR else "core")

    @cached_property
    def roots(self) -> tuple[int, ...]:
        """For each stage what its chord stands on, in semitones over the tonic."""
        most = EASY_ROOTS if self.classroom.year <= EASY_UP_TO_YEAR else None
        plans = [plan for plan in self.scene.parts if self._may_be_tuned(plan)]
        tuned = {stage for plan in plans for stage in self.stage_numbers(plan)}
        stages, scale, rng = len(self.stages), self.scene.music.scale, self.generator("chords")
        if most is not None and all(plan.texture == "melody" for plan in plans):
            return chords_under_a_tune(stages, tuned, scale, rng, most)
        return chords_of_stages(stages, tuned, scale, rng, most)

    def _may_be_tuned(self, plan: PartPlan) -> bool:
        return plan.texture == "melody" or any(self.catalogue.find(name).pitched for name in plan.sounds)

    def stage_numbers(self, plan: PartPlan) -> tuple[int, ...]:
        """Which of the piece's stages a part plays in, from 0."""
        if plan.stages == STAGES_ALL:
            return tuple(range(len(self.stages)))
        return tuple(i for i, stage in enumerate(self.stages) if stage.stage in plan.stages)

    def plays_in(self, part: str, stage: int) -> bool:
        """Whether the scene has a part play in a stage (counted from 0)."""
        name = self.plan_name(part)
        plan = next((plan for plan in self.scene.parts if plan.name == name), None)
        return plan is not None and stage in self.stage_numbers(plan)

    def generator(self, *words: str) -> np.random.Generator:
        """Chance for one purpose: the same for the same seed and words, whatever else is arranged, and whatever a part
        among the words is called by now."""
        had = [self._as_it_was(word) for word in words]
        return np.random.default_rng([self.seed & (2**64 - 1), *(zlib.crc32(word.encode()) for word in had)])

    def _as_it_was(self, word: str) -> str:
        """The name of a part, or of a group's share of it, with the name that its lot is drawn by."""
        name = self.plan_name(word)
        lot = next((plan.lot for plan in self.scene.parts if plan.name == name), "")
        return lot + word[len(name) :] if lot else word


def without_set_aside(scene: Scene, controls: Controls) -> Controls:
    """The controls without the rules in whose place pupils decided."""
    if not scene.patterns:
        return controls
    curves = tuple(curve for curve in controls.curves if not scene.set_aside(curve.rule))
    return replace(controls, curves=curves)
