"""Who plays which part."""

from __future__ import annotations

import random
from dataclasses import replace

import pytest

from sonify.arrange.groups import Line, group_sizes, share_out
from sonify.arrange.piece import Piece
from sonify.records.classroom import Classroom
from sonify.records.findings import Finding
from sonify.say import say
from tests.arrange.lessons import WATER, Sketch, part, well_stocked
from tests.catalogue import catalogue


def shared_out(sketch: Sketch) -> tuple[tuple[Line, ...], tuple[Finding, ...]]:
    piece = Piece(
        scene=sketch.scene,
        timeline=sketch.timeline,
        controls=sketch.controls,
        classroom=sketch.classroom,
        catalogue=catalogue(),
    )
    return share_out(piece)


@pytest.mark.parametrize(
    ("pupils", "groups", "sizes"),
    [(28, 5, (6, 6, 6, 5, 5)), (30, 6, (5, 5, 5, 5, 5, 5)), (25, 4, (7, 6, 6, 6)), (2, 4, (1, 1))],
)
def test_groups_differ_by_one_at_most(pupils: int, groups: int, sizes: tuple[int, ...]) -> None:
    assert group_sizes(Classroom(year=4, pupils=pupils, groups=groups)) == sizes


def test_one_group_a_part_where_the_numbers_agree() -> None:
    lines, findings = shared_out(WATER)
    assert [(line.name, line.group) for line in lines] == [
        ("The sea", 1),
        ("Rising vapour", 2),
        ("The cloud", 3),
        ("The rain", 4),
        ("The river", 5),
    ]
    assert findings == ()


def test_a_group_too_few_takes_two_parts_that_never_sound_together() -> None:
    lines, _ = shared_out(replace(WATER, classroom=well_stocked(groups=4, pupils=24)))
    by_group: dict[int, list[Line]] = {}
    for line in lines:
        by_group.setdefault(line.group, []).append(line)
    double = [group for group in by_group.values() if len(group) == 2]
    assert len(by_group) == 4 and len(double) == 1
    first, second = double[0]
    assert not set(first.stages) & set(second.stages)
    assert max(first.stages) + 1 < min(second.stages)  # a stage between them, to change instruments


def test_parts_with_a_stage_between_them_are_merged_rather_than_neighbours() -> None:
    crowded = replace(
        WATER,
        parts=(
            part("Sea", "drone", "shaker"),
            part("A", "scatter", "claps", stages=("warming",)),
            part("B", "scatter", "claps", stages=("rain",)),
            part("C", "scatter", "claps", stages=("rising",)),
        ),
        curves=(),
        classroom=Classroom(year=4, pupils=15, groups=3),
    )
    lines, _ = shared_out(crowded)
    desks = {line.name: line.desk for line in lines}
    assert desks["C"] == desks["B"] != desks["A"]


def test_large_groups_are_halved_before_a_part_is_lost() -> None:
    lines, findings = shared_out(replace(WATER, classroom=well_stocked(groups=2, pupils=28)))
    assert {line.name for line in lines} == {plan.name for plan in WATER.parts}
    halves = [line for line in lines if line.team]
    assert {line.team for line in halves} == {1, 2}
    assert all(line.players == 7 for line in halves)
    assert "Groups of 14" in say(findings[0].message)


def test_the_least_essential_part_is_left_out_and_said() -> None:
    crowded = replace(
        WATER,
        parts=tuple(part(f"Part {i}", "scatter", "claps") for i in range(1, 5)),
        curves=(("density", "Part 4", (1.0,) * 6),),
        classroom=Classroom(year=4, pupils=15, groups=3),
    )
    lines, findings = shared_out(crowded)
    # Part 3 goes: Part 4 has a rule of its own, and Parts 1 and 2 come earlier.
    assert [line.name for line in lines] == ["Part 1", "Part 2", "Part 4"]
    left_out = next(finding for finding in findings if finding.part == "Part 3")
    assert "left out" in say(left_out.message) and left_out.serious


def test_a_part_gives_up_a_stage_rather_than_the_whole_piece() -> None:
    crowded = replace(
        WATER,
        parts=(
            part("Sea", "drone", "shaker"),
            part("A", "scatter", "claps", stages=("warming", "rising")),
            part("B", "scatter", "claps", stages=("rising", "cloud", "rain", "river")),
        ),
        curves=(),
        classroom=Classroom(year=4, pupils=10, groups=2),
    )
    lines, findings = shared_out(crowded)
    assert {line.name for line in lines} == {"Sea", "A", "B"}
    assert any("rests in Rising" in say(finding.message) for finding in findings)


def test_groups_left_over_share_the_parts_that_gain_most() -> None:
    lines, _ = shared_out(replace(WATER, classroom=well_stocked(groups=7, pupils=28)))
    assert [line.group for line in lines] == [1, 2, 3, 4, 5, 6, 7]
    shared = {line.plan.name for line in lines if line.voices > 1}
    assert "The rain" in shared  # taps gain most, and it rains for 28 of 64 bars
    assert [line.name for line in lines if line.plan.name == "The rain"] == ["The rain", "The rain, second group"]


def test_one_of_the_compared_has_no_second_group() -> None:
    right = replace(part("Right", "melody"), partner="Left")
    parts = (part("Left", "melody"), right, part("Beat", "ostinato"))
    lines, _ = shared_out(replace(WATER, parts=parts, curves=(), classroom=well_stocked(groups=5, pupils=25)))
    assert [line.plan.name for line in lines] == ["Left", "Right", "Beat", "Beat", "Beat"]


def test_a_part_whose_stage_never_comes_is_reported() -> None:
    snowless = replace(WATER, parts=(*WATER.parts, part("Snow", "scatter", "claps", stages=("snow",))))
    lines, findings = shared_out(snowless)
    assert "Snow" not in {line.name for line in lines}
    assert any(f.part == "Snow" and "no snow" in say(f.message) for f in findings)


def test_a_stage_that_nobody_plays_is_filled_and_said() -> None:
    gap = replace(WATER, parts=WATER.parts[1:3], curves=())
    lines, findings = shared_out(gap)
    assert {stage for line in lines for stage in line.stages} == {0, 1, 2, 3, 4}
    assert any("no part plays in Rain and River" in say(finding.message) for finding in findings)


def test_no_part_with_a_stage_still_makes_a_piece() -> None:
    lost = replace(WATER, parts=(part("Snow", "scatter", "claps", stages=("snow",)),), curves=())
    lines, findings = shared_out(lost)
    assert {line.plan.name for line in lines} == {"Snow"} and lines[0].stages == (0, 1, 2, 3, 4)
    assert any("no part has a stage" in say(finding.message) for finding in findings)


def test_more_groups_than_pupils_are_cut_down() -> None:
    lines, findings = shared_out(replace(WATER, classroom=Classroom(year=4, pupils=3, groups=6)))
    assert {line.group for line in lines} == {1, 2, 3}
    assert "3 groups of one" in say(findings[0].message)


# --- where somebody said who plays what ------------------------------------------------------------------------------


def asked(sketch: Sketch, groups: dict[str, tuple[int, ...]]) -> Sketch:
    return replace(sketch, parts=tuple(replace(plan, groups=groups.get(plan.name, ())) for plan in sketch.parts))


def test_who_plays_what_is_as_somebody_said_and_the_rest_follows_the_scene() -> None:
    lines, findings = shared_out(asked(WATER, {"The rain": (1,), "The sea": (4,)}))
    seats = {line.name: line.group for line in lines}
    assert seats == {"The sea": 4, "Rising vapour": 2, "The cloud": 3, "The rain": 1, "The river": 5}
    assert [line.name for line in lines] == [plan.name for plan in WATER.parts] and findings == ()


def test_a_piece_is_the_same_whoever_sits_where() -> None:
    room = well_stocked(groups=5, pupils=25)
    before = replace(WATER, classroom=room).score()
    after = asked(replace(WATER, classroom=room), {"The rain": (1,), "The sea": (4,)}).score()
    # The pulse is named by its group; all else of a part is its own.
    told = {part.name: (part.notes, part.seats, part.entries) for part in before.group_parts if not part.pulse}
    assert told == {part.name: (part.notes, part.seats, part.entries) for part in after.group_parts if not part.pulse}
    assert [part.group for part in after.group_parts if not part.pulse] == [1, 2, 3, 4, 5]
    assert after.group_parts[0].name == "The rain"


def test_two_groups_may_be_given_one_part_and_are_shown_one_sign_only_side_by_side() -> None:
    sketch = replace(WATER, classroom=well_stocked(groups=6, pupils=30))
    beside = asked(sketch, {"The rain": (1, 2)}).score()
    apart = asked(sketch, {"The rain": (1, 6)}).score()
    for score, groups in ((beside, [1, 2]), (apart, [1, 6])):
        assert [part.group for part in score.group_parts if part.name.startswith("The rain")] == groups
    second = "The rain, second group"
    assert any(second in {also.part for also in cue.also} for cue in beside.cues)
    assert not any(second in {also.part for also in cue.also} for cue in apart.cues)
    assert any(cue.part == second for cue in apart.cues)


def test_a_group_with_two_parts_at_once_is_halved_or_rests_in_one_and_is_told() -> None:
    both = {"The sea": (1,), "Rising vapour": (1,)}
    lines, _ = shared_out(asked(replace(WATER, classroom=well_stocked(groups=5, pupils=30)), both))
    assert {(line.name, line.group, line.team, line.players) for line in lines if line.group == 1} == {
        ("The sea", 1, 1, 3),
        ("Rising vapour", 1, 2, 3),
    }
    lines, findings = shared_out(asked(replace(WATER, classroom=well_stocked(groups=5, pupils=25)), both))
    assert [line.name for line in lines if line.group == 1] == ["The sea"] and len({line.group for line in lines}) == 5
    lost = next(finding for finding in findings if finding.part == "Rising vapour")
    assert lost.serious and say(lost.message) == ("Group 1 cannot play Rising vapour as well: it is busy with The sea.")


def test_a_part_rests_while_its_group_plays_another() -> None:
    parts = (
        part("A", "scatter", "claps", stages=("warming", "rising")),
        part("B", "scatter", "claps", stages=("rising", "cloud", "rain", "river")),
    )
    sketch = replace(WATER, parts=parts, curves=(), classroom=Classroom(year=4, pupils=10, groups=2))
    lines, findings = shared_out(asked(sketch, {"A": (2,), "B": (2,)}))
    assert [(line.plan.name, line.group, line.stages) for line in lines if line.group == 2] == [
        ("A", 2, (0, 1)),
        ("B", 2, (2, 3, 4)),
    ]
    assert {line.group for line in lines} == {1, 2}  # and the group that is left over helps
    assert any(say(f.message) == "B rests while group 2 plays A." and not f.serious for f in findings)


def test_a_group_that_the_class_has_not_is_told_and_somebody_else_plays() -> None:
    lines, findings = shared_out(asked(WATER, {"The sea": (9,)}))
    assert {line.name: line.group for line in lines}["The sea"] == 1
    assert say(findings[0].message) == "The sea is given to group 9, and the class has 5 groups."


@pytest.mark.parametrize("groups", [1, 3, 5, 8])
def test_whatever_groups_are_asked_every_group_plays_and_no_pupil_plays_twice_at_once(groups: int) -> None:
    draw = random.Random(groups)
    for _ in range(30):
        wanted = {
            plan.name: tuple(draw.sample(range(1, 10), k=draw.randint(0, 3)))
            for plan in WATER.parts
            if draw.random() < 0.7
        }
        sketch = replace(WATER, classroom=well_stocked(groups=groups, pupils=draw.randint(groups, 40)))
        lines, findings = shared_out(asked(sketch, wanted))
        assert {line.group for line in lines} == set(range(1, groups + 1))
        playing = [(line.desk, stage) for line in lines for stage in line.stages]
        assert len(playing) == len(set(playing)), wanted
        for plan in WATER.parts:
            own = [line for line in lines if line.plan.name == plan.name]
            assert own or any(finding.part == plan.name and finding.serious for finding in findings), wanted
            assert len({line.stages for line in own}) <= 1, wanted
            assert sorted(line.voice for line in own) == list(range(len(own)))
            assert {line.voices for line in own} <= {len(own)}
