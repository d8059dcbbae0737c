"""The science of a scene, computed: its Timeline and its particle film. What is slow in it is kept between runs."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from sonify.errors import BadCondition
from sonify.page import film_text, is_film, retold
from sonify.processes import conditions_si, process_of
from sonify.processes.states_of_matter_film import film_key, film_params, filmed, usual_params
from sonify.records.lesson import Lesson
from sonify.records.process import ProcessSpec
from sonify.records.scene import Scene
from sonify.records.timeline import Timeline
from sonify.storage import cache, shelf
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


def is_warm(lesson: Lesson) -> bool:
    """Whether a temperature that is no drawing plays a part in the lesson, so that its page has the particle box."""
    return any(quantity.si_unit == "K" and not quantity.drawn for quantity in lesson.process.quantities)


def film_is_quick(lesson: Lesson) -> bool:
    """Whether the lesson's page is drawn at once: it has no particle box of its own, or an earlier run kept it."""
    params = film_params(lesson.process.name, conditions_si(lesson.process, lesson.scene.conditions))
    return not is_warm(lesson) or params == usual_params() or cache.holds(film_key(params))


def particle_film(lesson: Lesson) -> str:
    """The particle box for the page: the lesson's own where it is about one, else the usual one, which is shipped.

    What is kept of the lesson's own is said anew each time: its words are no part of what names it in the cache.
    """
    conditions = conditions_si(lesson.process, lesson.scene.conditions)
    params = film_params(lesson.process.name, conditions)
    if params == usual_params():
        return shelf.shared_text("particle-box.json")

    def kept(fresh: bool) -> str:
        data = cache.remembered(film_key(params), lambda: film_text(filmed(params)).encode(), fresh=fresh)
        return data.decode("utf-8", "replace")

    text = kept(fresh=False)
    if not is_film(text):  # a cut file is no film
        text = kept(fresh=True)
    return retold(text, lesson.timeline.stages)
