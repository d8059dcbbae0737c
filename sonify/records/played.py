"""When the parts of a scene are played, and how loud those are in the recording whose loudness a rule sets: as written,
their stages lifted or lowered."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from sonify.kinds.marks import DYNAMICS
from sonify.records import telling_apart
from sonify.records.scene import Scene
from sonify.records.score import Part, Score
from sonify.records.timeline import FloatArray


def bars_played(scene: Scene, score: Score) -> dict[str, frozenset[int]]:
    """The bars in which each part of the scene sounds, by name, whichever groups play it. The pulse is no part's."""
    own = [(scene.plan_name(part.name), part) for part in score.group_parts if not part.pulse]
    return {plan.name: score.bars_sounding(part for name, part in own if name == plan.name) for plan in scene.parts}


def struck_db(velocity: float, ruled: float = 1.0) -> float:
    """Level of a note under that of the strongest stroke, marks drawn together about mezzo forte by a factor.

    >>> round(struck_db(108.0) - struck_db(32.0), 1), round(struck_db(108.0, 0.5) - struck_db(32.0, 0.5), 1)
    (21.1, 10.6)
    """
    level_db, middle_db = (telling_apart.level_db(v) for v in (velocity, DYNAMICS["mf"]))
    return middle_db + ruled * (level_db - middle_db)


def played_db(score: Score, parts: Sequence[Part]) -> FloatArray:
    """Mean level of the notes of some parts in each bar, dB under the strongest stroke; nan in a silent bar.

    Raises ValueError for a Score whose levels are not known.
    """
    if score.levels is None:
        raise ValueError("the levels of this Score are not known")
    total, count = np.zeros(score.bars), np.zeros(score.bars)
    stage_of = [
        next((n for n, s in enumerate(score.sections) if s.bar <= bar < s.bar + s.bars), 0)
        for bar in range(1, score.bars + 1)
    ]
    for part in parts:
        lifts_db = score.levels.lifts_db[score.parts.index(part)]
        for note in part.notes:
            bar = int(note.beat // score.metre.beats)
            level_db = struck_db(note.velocity, score.levels.ruled)
            total[bar] += level_db + (lifts_db[stage_of[bar]] if lifts_db else 0.0)
            count[bar] += 1
    return np.where(count > 0, total / np.maximum(count, 1), np.nan)
