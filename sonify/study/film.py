"""The particle film of a lesson. What is slow in it is kept between runs."""

from __future__ import annotations

from sonify.page import film_text, is_film, retold
from sonify.processes import conditions_si
from sonify.processes.states_of_matter_film import film_key, film_params, filmed, usual_params
from sonify.records.lesson import Lesson
from sonify.storage import cache, shelf


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
