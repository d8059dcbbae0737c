"""The science of a scene, computed: its Timeline. What is slow in it is kept between runs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from sonify.errors import BadCondition
from sonify.processes import conditions_si, process_of
from sonify.records.process import ProcessSpec
from sonify.records.scene import Scene
from sonify.records.timeline import Timeline
from sonify.storage import cache
from sonify.study.names import condition_fault, fault_at
from sonify.study.reading import SceneLike, load
from sonify.units import UnitError


def simulate(scene: SceneLike) -> Timeline:
    """The scene's process, computed: named quantities over model time, and the stages found in them."""
    scene = load(scene)
    process = process_of(scene)
    try:
        conditions = conditions_si(process, scene.conditions)
        return replace(_run(process, conditions), conditions=tuple(conditions.items()))
    except BadCondition as error:
        raise condition_fault(scene, error) from error
    except UnitError as error:
        raise fault_at(scene, "conditions", error) from error


def _run(process: ProcessSpec, conditions: Mapping[str, float]) -> Timeline:
    """The process's Timeline; what is slow in it is kept between runs. Broken bytes are computed anew."""
    slow = process.slow
    if slow is None:
        return process.run(conditions)
    key = f"{process.name} {slow.key(conditions)}"
    try:
        return slow.finish(conditions, cache.remembered(key, lambda: slow.compute(conditions)))
    except ValueError:
        return slow.finish(conditions, cache.remembered(key, lambda: slow.compute(conditions), fresh=True))


def is_quick(scene: Scene) -> bool:
    """Whether `simulate` answers at once: nothing slow is in the scene's process, or an earlier run kept it."""
    process = process_of(scene)
    if process.slow is None:
        return True
    return cache.holds(f"{process.name} {process.slow.key(conditions_si(process, scene.conditions))}")
