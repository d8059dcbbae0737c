"""How a scene sounds where nothing is measured: each stage as its author wants it, slow or quick, soft or loud.

There is no scale behind it: what is heard stands for no number, so there is no key and nothing is exaggerated.
"""

from __future__ import annotations

from itertools import pairwise

import numpy as np

from sonify.kinds.ideas import BETWEEN, IDEAS, PAIRS
from sonify.kinds.marks import DYNAMICS
from sonify.mapping.timemap import time_map, whole_bpm
from sonify.records.controls import ControlCurve, Controls, TimeMap
from sonify.records.fact import fact
from sonify.records.findings import Finding
from sonify.records.process import ProcessSpec
from sonify.records.scene import STAGES_ALL, Measure, Music, Rule, Scene, StageNote
from sonify.records.timeline import Timeline

#: Each control at its low word, between, and at its high word (our own choices; a tempo takes the scene's ends).
LEVELS = {
    "dynamics": (float(DYNAMICS["p"]), float(DYNAMICS["mp"]), float(DYNAMICS["f"])),
    "density": (0.25, 1.0, 2.5),
    "pitch": (60.0, 67.0, 76.0),
}


def shares_of(note: StageNote) -> dict[str, float]:
    """Where each control lies in a stage, 0 to 1; what is not mentioned lies between."""
    return dict.fromkeys(PAIRS, BETWEEN) | {IDEAS[word][0]: IDEAS[word][1] for word in note.sounds}


def level(control: str, share: float, music: Music) -> float:
    """The control that a share of its way stands for."""
    if control == "tempo":
        slow, quick = music.slowest_bpm, music.fastest_bpm
        return whole_bpm(slow + share * (quick - slow), music)
    return float(np.interp(share, (0.0, BETWEEN, 1.0), LEVELS[control]))


def idea_controls(scene: Scene, timeline: Timeline, process: ProcessSpec) -> tuple[Controls, tuple[Finding, ...]]:
    """The controls of a piece whose author says how each stage sounds, and what was noticed."""
    notes = {note.stage: note for note in scene.stages}
    shares = [shares_of(notes[stage.name]) for stage in timeline.stages]
    bpms = [level("tempo", share["tempo"], scene.music) for share in shares]
    bars, findings = time_map(scene, timeline, process, None, bpms=bpms)
    used = {IDEAS[word][0] for note in scene.stages for word in note.sounds}
    curves = tuple(
        _curve(control, [share[control] for share in shares], bars, scene.music) for control in PAIRS if control in used
    )
    return Controls(time_map=bars, curves=curves, keys=()), (*findings, *_alike(scene, timeline))


def _curve(control: str, shares: list[float], bars: TimeMap, music: Music) -> ControlCurve:
    """One control over the piece, as if by a rule of no quantity."""
    beats = [stage.bars * bars.metre.beats for stage in bars.stages]
    low, high = (level(control, end, music) for end in (0.0, 1.0))
    words = PAIRS[control]
    rule = Rule(
        quantity="",
        control=control,
        low=Measure(text=words[0], value=0.0, unit="1"),
        high=Measure(text=words[1], value=1.0, unit="1"),
        to_low=low,
        to_high=high,
        to_low_text=words[0],
        to_high_text=words[1],
        why="",
        key="stage",
    )
    results = [level(control, share, music) for share in shares]
    return ControlCurve(
        rule=rule, part=None, quantity_values=np.repeat(shares, beats), results=np.repeat(results, beats)
    )


def _alike(scene: Scene, timeline: Timeline) -> list[Finding]:
    """Neighbouring stages that nothing tells apart: the same words, and the same parts play."""
    notes = {note.stage: note for note in scene.stages}
    heard = [(stage.title, shares_of(notes[stage.name]), _who(scene, stage.name)) for stage in timeline.stages]
    pairs = tuple(
        fact("ear-pair", one=one[0], other=other[0]) for one, other in pairwise(heard) if one[1:] == other[1:]
    )
    if not pairs:
        return []
    message = fact("order-alike", pairs=pairs)
    return [Finding(kind="audibility", message=message, fix=fact("order-mend-alike"), where="stage", serious=True)]


def _who(scene: Scene, stage: str) -> set[str]:
    return {part.name for part in scene.parts if part.stages == STAGES_ALL or stage in part.stages}
