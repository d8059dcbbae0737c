"""One rule as it is heard in this piece: the quantity beat by beat, what it became, and where it sounds."""

from __future__ import annotations

from dataclasses import replace
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from sonify.errors import UnknownName
from sonify.frozen import dataclass
from sonify.kinds.marks import DYNAMICS
from sonify.mapping.rules import BoundRule
from sonify.mapping.timemap import bar_edges_s, stage_mean, stepped_bpms, whole_bpms
from sonify.records.controls import StageBars, TimeMap
from sonify.records.process import ProcessSpec
from sonify.records.scene import STAGES_ALL, Music, Rule, Scale, Scene
from sonify.records.telling_apart import OLDER
from sonify.records.timeline import FloatArray, Timeline
from sonify.records.words import velocity_mark

#: A loudness is judged by what is played where the part plays in so many of a stage's bars; else by the rule (ours).
MOSTLY = 0.6


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Loudness:
    """What becomes of a dynamics rule in the recording: what is added to it beat by beat.

    plays: whether the part plays in a beat's bar.
    """

    offset_db: FloatArray
    plays: NDArray[np.bool_]


@dataclass(frozen=True, kw_only=True, eq=False)
class Hearing:
    """A rule over a piece. Not slotted: what is heard of it is worked out once and kept.

    values: the quantity at each beat, SI. stages: those in which it sounds. youngest: the age of the youngest who is to
    hear it, in years. shared_swing: from least to most of all quantities that are compared by this one rule, SI; 0
    where it stands alone. loudness: of a dynamics rule, where what the recording plays is known.
    """

    bound: BoundRule
    music: Music
    values: FloatArray
    stages: tuple[StageBars, ...]
    youngest: int = OLDER
    shared_swing: float = 0.0
    loudness: Loudness | None = None

    @cached_property
    def results(self) -> FloatArray:
        """The control at each beat, in its own unit; a tempo is a whole number inside the scene's limits, and that of
        the stage before where nobody would hear the step."""
        found = self.bound.apply(self.values)
        if self.bound.rule.control != "tempo":
            return found
        found = whole_bpms(found, self.music)
        if self.averaged:
            firsts = [self.beats(stage).start for stage in self.stages]
            bpms = stepped_bpms([float(found[first]) for first in firsts], self.bound)
            for stage, bpm in zip(self.stages, bpms, strict=True):
                found[self.beats(stage)] = bpm
        return found

    @cached_property
    def heard(self) -> FloatArray:
        """What the ear gets of `results`: a pitch is heard as the nearest note of the scale."""
        if self.bound.rule.control == "pitch" and self.music.scale.pitch_classes:
            return nearest_tones(self.results, self.music.scale)
        return self.results

    def judged(self, stage: StageBars) -> FloatArray:
        """What is compared of a stage, beat by beat: `heard`; a loudness as the recording has it, as the velocity that
        would be so loud by itself, nan where the part rests."""
        here = self.beats(stage)
        if self.loudness is None or not self.recorded(stage):
            return self.heard[here]
        written_db = 40.0 * np.log10(np.maximum(self.results, 1.0) / 127.0)
        played = 127.0 * 10.0 ** ((written_db + self.loudness.offset_db) / 40.0)
        return np.where(self.loudness.plays, played, np.nan)[here]

    def recorded(self, *stages: StageBars) -> bool:
        """Whether the recording has the rule's part in most bars of each of these stages."""
        plays = None if self.loudness is None else self.loudness.plays
        return plays is not None and all(plays[self.beats(stage)].mean() >= MOSTLY for stage in stages)

    def as_played(self, by_bar_db: FloatArray) -> Hearing:
        """The same rule, judged by what the recording plays. by_bar_db: nan in silent bars."""
        by_beat_db = np.repeat(by_bar_db, self.music.metre.beats)[: self.results.size]
        plays = np.isfinite(by_beat_db)
        if not plays.any():
            return self
        written_db = 40.0 * np.log10(np.maximum(self.results, 1.0) / 127.0)
        offset_db = np.where(plays, by_beat_db - written_db, 0.0)
        return replace(self, loudness=Loudness(offset_db=offset_db, plays=plays))

    @cached_property
    def sounding(self) -> FloatArray:
        """The quantity at the beats at which the rule sounds."""
        return np.concatenate([self.values[self.beats(stage)] for stage in self.stages] or [np.array([])])

    @property
    def averaged(self) -> bool:
        """The rule hears stage means: a tempo that steps."""
        return self.bound.rule.control == "tempo" and not self.music.gliding

    def beats(self, stage: StageBars) -> slice:
        first = (stage.bar - 1) * self.music.metre.beats
        return slice(first, first + stage.bars * self.music.metre.beats)

    def over(self, low: float, high: float) -> Hearing:
        """The same piece, had the rule another `from` (SI)."""
        return replace(self, bound=self.bound.over(low, high))

    def onto(self, to_low: float, to_high: float) -> Hearing:
        """The same piece, had the rule another `to`."""
        return replace(self, bound=self.bound.onto(to_low, to_high))


def hearing(
    bound: BoundRule,
    scene: Scene,
    timeline: Timeline,
    process: ProcessSpec,
    time_map: TimeMap,
    youngest: int = OLDER,
) -> Hearing:
    """The rule over the piece that the time map lays out."""
    return Hearing(
        bound=bound,
        music=scene.music,
        values=_values(bound, timeline, time_map),
        stages=_playing(bound, scene, process, time_map),
        youngest=youngest,
        shared_swing=_shared_swing(bound, scene, timeline),
    )


def _shared_swing(bound: BoundRule, scene: Scene, timeline: Timeline) -> float:
    """Parts that are compared have one rule: what one of them hardly does is measured by what all of them do."""
    rule = bound.rule
    alike = [each for each in scene.rules if each.part and _written(each) == _written(rule)]
    names = {each.quantity for each in alike}
    if rule.part is None or len(names) < 2 or len({timeline.quantity(name).si_unit for name in names}) > 1:
        return 0.0
    every = np.concatenate([timeline.quantity(name).values for name in names])
    return float(np.ptp(every))


def _written(rule: Rule) -> tuple[object, ...]:
    return rule.control, rule.low.text, rule.high.text, rule.to_low, rule.to_high, rule.curve


def nearest_tones(pitches: FloatArray, scale: Scale) -> FloatArray:
    """Each pitch as the nearest note of the scale, MIDI numbers; halfway, the lower."""
    tones = np.array([midi for midi in range(-12, 141) if midi % 12 in scale.pitch_classes], dtype=np.float64)
    above = np.clip(np.searchsorted(tones, pitches), 1, len(tones) - 1)
    below = above - 1
    return np.where(pitches - tones[below] <= tones[above] - pitches, tones[below], tones[above])


def as_said(control: str, value: float, music: Music) -> float:
    """A control's value as it is played or marked: a whole tempo, a note of the scale, a dynamic mark's velocity."""
    if control == "tempo":
        return float(np.floor(value + 0.5))
    if control == "pitch" and music.scale.pitch_classes:
        return float(nearest_tones(np.array([value]), music.scale)[0])
    if control == "dynamics":
        return float(DYNAMICS[velocity_mark(value)])
    return value


def _values(bound: BoundRule, timeline: Timeline, time_map: TimeMap) -> FloatArray:
    """The quantity at each beat; for a tempo, the mean over the stretch that shares one tempo."""
    if bound.rule.control != "tempo":
        return timeline.at(bound.quantity.name, time_map.model_time_s(np.arange(time_map.beats, dtype=np.float64)))
    found: list[float] = []
    for stage in time_map.stages:
        edges = bar_edges_s(stage) if stage.bar_bpms else np.array([stage.start_s, stage.end_s])
        bars_each = 1 if stage.bar_bpms else stage.bars
        for start_s, end_s in zip(edges, edges[1:], strict=False):
            mean = stage_mean(bound.quantity, timeline, float(start_s), float(end_s))
            found += [mean] * (bars_each * time_map.metre.beats)
    return np.array(found)


def _playing(bound: BoundRule, scene: Scene, process: ProcessSpec, time_map: TimeMap) -> tuple[StageBars, ...]:
    plan = next((part for part in scene.parts if part.name == bound.rule.part), None)
    if plan is None or plan.stages == STAGES_ALL:
        return time_map.stages
    known = {spec.name for spec in process.stages} | {stage.stage for stage in time_map.stages}
    for name in plan.stages:
        if name not in known:
            raise UnknownName("stage", name, known, where=f"{plan.key}.stages")
    return tuple(stage for stage in time_map.stages if stage.stage in plan.stages)
