"""Very short and very slow pieces, as a scene file allows them: every part still plays in a stage of its own."""

from __future__ import annotations

from dataclasses import replace

import pytest

from sonify import lesson
from sonify.records.classroom import Classroom
from sonify.records.score_invariants import faults
from sonify.say import say

FOUR_PUPILS = Classroom(year=4, pupils=4, groups=4)
TWO_PUPILS = Classroom(year=4, pupils=2, groups=2)
#: Scene, seconds, beats a minute, class. In each a part was once planned without a single bar, and a texture failed.
SHORT = [
    ("ice-on-the-hob", 30.0, 30.0, None),
    ("playground-puddle", 30.0, 30.0, TWO_PUPILS),
    ("harbour-water-cycle", 60.0, 30.0, TWO_PUPILS),
    ("valley-snow-melt", 30.0, 40.0, TWO_PUPILS),
    ("which-cloth-drinks-most", 35.0, 40.0, FOUR_PUPILS),
]


@pytest.mark.parametrize(("name", "length_s", "bpm", "classroom"), SHORT, ids=[row[0] for row in SHORT])
def test_a_short_piece_gives_every_part_bars_in_its_own_stages(
    name: str, length_s: float, bpm: float, classroom: Classroom | None
) -> None:
    scene = lesson.load(name)
    scene = replace(scene, music=replace(scene.music, length_s=length_s, slowest_bpm=bpm, fastest_bpm=bpm))
    made = lesson.study(scene, classroom)
    score = made.score
    assert faults(score) == []
    assert [part.name for part in score.group_parts if not part.notes] == []
    plans = {plan.name: plan for plan in scene.parts}
    for part in (part for part in score.group_parts if not part.pulse):
        plan = plans[part.name]
        own = [s for s in score.sections if plan.stages == ("all",) or s.name in plan.stages]
        assert any(s.bar <= entry.bar < s.bar + s.bars for s in own for entry in part.entries), part.name
    # A piece so short is a problem in itself, and the length that would do is named.
    assert any(f.kind == "length" and "Write length =" in say(f.fix) for f in made.problems)


@pytest.mark.parametrize("name", ["harbour-water-cycle", "stretch-test"])
def test_twelve_groups_that_share_few_parts_of_a_short_piece_all_play(name: str) -> None:
    """Where there are fewer bars than groups to answer each other in, they play together and no card says otherwise."""
    scene = lesson.load(name)
    scene = replace(scene, music=replace(scene.music, length_s=30.0, slowest_bpm=30.0, fastest_bpm=30.0))
    parts = lesson.study(scene, Classroom(year=4, pupils=36, groups=12)).score.group_parts
    assert [part.name for part in parts if not part.notes] == []
    shared = [part for part in parts if ", second group" in part.name]
    assert shared and not any("You answer" in say(words) for part in shared for words in part.instructions)
