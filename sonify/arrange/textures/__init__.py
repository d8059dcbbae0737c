"""The five textures: each turns a line's blocks of bars into strokes, patterns and words for the card."""

from __future__ import annotations

from collections.abc import Callable

from sonify.arrange.textures.drone import played as drone
from sonify.arrange.textures.melody import learnt as learnt_of_tune
from sonify.arrange.textures.melody import played as melody
from sonify.arrange.textures.ostinato import learnt as learnt_of_ostinato
from sonify.arrange.textures.ostinato import played as ostinato
from sonify.arrange.textures.own_pattern import own_played
from sonify.arrange.textures.scatter import played as scatter
from sonify.arrange.textures.task import Played, Task
from sonify.arrange.textures.tremolo import played as tremolo
from sonify.records.score import Pattern

TEXTURES: dict[str, Callable[[Task], Played]] = {
    "drone": drone,
    "ostinato": ostinato,
    "melody": melody,
    "tremolo": tremolo,
    "scatter": scatter,
}

#: What is learnt of a line that is not played, without playing it: of textures that have patterns.
LEARNT: dict[str, Callable[[Task], tuple[Pattern, ...]]] = {"ostinato": learnt_of_ostinato, "melody": learnt_of_tune}


def played(task: Task) -> Played:
    """What a line plays: the pattern that pupils made for its part, or what its texture makes of the rules."""
    return TEXTURES[task.line.plan.texture](task) if task.own is None else own_played(task, task.own)
