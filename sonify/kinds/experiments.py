"""The shapes that a class's experiment can have: what stands along the axis of what was changed."""

from __future__ import annotations

from sonify.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class ExperimentShape:
    """ordered: what was changed has an order of its own, so that "more" of it means something. graph: the right kind of
    graph: "line" (a value between two steps means something), "points" or "bars"."""

    id: str
    ordered: bool
    graph: str


#: over_time: steps are moments. number: one number against another. categories: steps are words. before_after: two
#: steps, one before and one after something was done.
OVER_TIME, NUMBER, CATEGORIES, BEFORE_AFTER = "time", "number", "categories", "before-after"
SHAPES = {
    row.id: row
    for row in (
        ExperimentShape(id=OVER_TIME, ordered=True, graph="line"),
        ExperimentShape(id=NUMBER, ordered=True, graph="points"),
        ExperimentShape(id=CATEGORIES, ordered=False, graph="bars"),
        ExperimentShape(id=BEFORE_AFTER, ordered=True, graph="bars"),
    )
}

#: So many steps have a stage each; more are walked along without a stop. So many repeats of one step can be told apart;
#: more are over too quickly (our own limits).
MOST_STEPS, MOST_TRIES = 12, 6

#: The condition that says how the repeats of a step are heard; no figure that is told changes with it.
REPEATS = "repeats"

#: What a column can be, in the words of fair testing, in the order in which they are offered.
ROLES = ("changed", "measured", "repeats", "groups", "kept", "unused")

#: What a class's readings can be laid beside: `processes.beside_model` has the code, `beside-MODEL` says what a
#: difference may mean.
MODELS = ("pendulum", "fall", "sound-level", "plant-growth", "shadow")
