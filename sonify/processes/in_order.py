"""In order: stages one after another, as a life goes or a story. Nothing is measured, computed or drawn."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import replace
from functools import partial

import numpy as np

from sonify.errors import BadFile
from sonify.kinds.timelines import ORDER, TIME
from sonify.processes.drawn import fault, own_events, own_faults, own_spans, own_stages, title_of, without_scene
from sonify.records.fact import fact, wrong
from sonify.records.process import ProcessSpec
from sonify.records.scene import Scene
from sonify.records.timeline import Stage, Timeline

HONESTY = (fact("order-honesty-no-scale"), fact("order-honesty-reasons"))


def for_scene(scene: Scene) -> ProcessSpec:
    """The process with one scene's stages. Raises BadFile, naming line and key."""
    if faults := [*own_faults(scene), *_faults(scene)]:
        raise BadFile.several(faults)
    timed = bool(scene.stages[0].lasts_s)
    return replace(
        PROCESS,
        stages=own_stages(scene),
        run=partial(run, scene),
        honesty=(*HONESTY, *(() if timed else (fact("order-honesty-no-time"),))),
        cycle=scene.circle,
        for_scene=None,
    )


def _faults(scene: Scene) -> Iterator[BadFile]:
    for keys, kind in ((scene.rules, "hear"), (scene.drawn, "drawn"), (scene.background, "background")):
        if keys:
            told = wrong("error_drawn-follows-quantity-nothing")
            yield fault(scene, f"{kind}.0", told)
    if not any(note.sounds for note in scene.stages):
        told = wrong("error_drawn-stage-says-how")
        yield fault(scene, "stage", told)
    for note in scene.stages:
        if not note.caption:
            yield fault(scene, f"{note.key}.caption", wrong("error_drawn-missing-wanted-line"))
        if note.sounds and not note.why:
            told = wrong("error_drawn-missing-write-why")
            yield fault(scene, f"{note.key}.why", told)


def run(scene: Scene, conditions: Mapping[str, float]) -> Timeline:
    """The author's stages in order."""
    spans = own_spans(scene)
    return Timeline(
        process=PROCESS.name,
        time_s=np.array([spans[0][0], spans[-1][1]]),
        quantities=(),
        stages=tuple(
            Stage(name=note.stage, title=title_of(note.stage), start_s=start, end_s=end, science=note.caption)
            for note, (start, end) in zip(scene.stages, spans, strict=True)
        ),
        events=own_events(scene, spans),
        kind=TIME if scene.stages[0].lasts_s else ORDER,
    )


PROCESS = ProcessSpec(
    name="in-order",
    title=fact("order-title"),
    summary=fact("order-summary"),
    conditions=(),
    stages=(),
    quantities=(),
    run=without_scene,
    honesty=HONESTY,
    for_scene=for_scene,
)
