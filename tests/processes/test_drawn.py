"""A process of the author's own: the drawing is what was typed in, no more, and what is told of it is true."""

from __future__ import annotations

import numpy as np
import pytest

from sonify.errors import BadFile
from sonify.facts.truth import true_timeline
from sonify.inputs.scene_file import read_scene
from sonify.kinds.shapes import SHAPES
from sonify.processes import conditions_si, find, process_of
from sonify.records.scene import Scene
from sonify.records.timeline import Timeline
from sonify.say import say

STAGES = ("mixing", "rising", "baking", "cooling")
HEAR = """
[[hear]]
quantity = "height"
as = "tempo"
from = ["0 cm", "12 cm"]
to = ["60 bpm", "120 bpm"]
why = "Higher is quicker."
[[part]]
name = "All"
texture = "ostinato"
sounds = ["claps"]
"""


def written(drawn: str, *, stages: tuple[str, ...] = STAGES, more: str = "", process: str = "drawn") -> str:
    rows = "".join(f'[[stage]]\nname = "{name}"\ncaption = "It is {name}."\n' for name in stages)
    return f'title = "Dough"\nprocess = "{process}"\n{more}\n{rows}{drawn}\n{HEAR}'


def one(given: str, name: str = "height", unit: str = "cm") -> str:
    return f'[[drawn]]\nname = "{name}"\nunit = "{unit}"\n{given}\n'


def scene(text: str) -> Scene:
    return read_scene(text, file="dough.toml", name="dough")


def run(text: str) -> Timeline:
    read = scene(text)
    process = process_of(read)
    return process.run(conditions_si(process, read.conditions))


def at(timeline: Timeline, stage: int, share: float, name: str = "height") -> float:
    row = timeline.stages[stage]
    time_s = np.array([row.start_s + share * (row.end_s - row.start_s)])
    return float(np.interp(time_s, timeline.time_s, timeline.quantity(name).in_unit())[0])


def test_one_value_a_stage_is_held_all_through_it() -> None:
    timeline = run(written(one("values = [4, 7, 12, -3]")))
    for number, value in enumerate((4.0, 7.0, 12.0, -3.0)):
        assert [at(timeline, number, share) for share in (0.0, 0.3, 1.0)] == pytest.approx([value] * 3)


def test_one_value_more_than_stages_is_joined_by_straight_lines() -> None:
    timeline = run(written(one("values = [4, 8, 8, 2, 0]")))
    assert [at(timeline, 0, share) for share in (0.0, 0.5, 1.0)] == pytest.approx([4.0, 6.0, 8.0])
    assert at(timeline, 3, 1.0) == pytest.approx(0.0)


def test_points_are_met_exactly_and_held_before_and_after() -> None:
    timeline = run(written(one("points = [[0.5, 1], [1.25, 7], [3, 5]]")))
    assert [at(timeline, 0, 0.0), at(timeline, 0, 0.5)] == pytest.approx([1.0, 1.0])
    assert [at(timeline, 1, 0.25), at(timeline, 3, 0.9)] == pytest.approx([7.0, 5.0])
    assert at(timeline, 0, 0.875) == pytest.approx(4.0)  # halfway from 0.5 to 1.25


@pytest.mark.parametrize(
    ("given", "starts", "ends", "most"),
    [
        ('shape = "steady"\nfrom = 5', 5.0, 5.0, 5.0),
        ('shape = "rises"\nfrom = 2\nto = 10', 2.0, 10.0, 10.0),
        ('shape = "falls"\nfrom = 9\nto = 1', 9.0, 1.0, 9.0),
        ('shape = "rises and levels off"\nfrom = 2\nto = 10', 2.0, 10.0, 10.0),
        ('shape = "decays"\nfrom = 9\nto = 1', 9.0, 1.0, 9.0),
        ('shape = "swings"\nfrom = 0\nto = 8\ntimes = 3', 0.0, 0.0, 8.0),
        ('shape = "repeats"\nfrom = 0\nto = 8', 0.0, 0.0, 8.0),
        ('shape = "jumps"\nfrom = 3\nto = 6\nat = "baking"', 3.0, 6.0, 6.0),
    ],
)
def test_each_shape_starts_and_ends_where_it_says(given: str, starts: float, ends: float, most: float) -> None:
    timeline = run(written(one(given)))
    values = timeline.quantity("height").in_unit()
    assert (values[0], values[-1], values.max()) == pytest.approx((starts, ends, most))
    assert at(timeline, 1, 0.5) <= most


def test_what_levels_off_has_come_further_in_each_earlier_stage() -> None:
    timeline = run(written(one('shape = "rises and levels off"\nfrom = 0\nto = 10')))
    steps = [at(timeline, stage, 1.0) - at(timeline, stage, 0.0) for stage in range(4)]
    assert steps == sorted(steps, reverse=True)
    assert steps[-1] > 0.0


def test_one_after_another_never_are_two_at_their_end_value_at_once() -> None:
    each = 'shape = "one after another"\nfrom = 0\nto = 9'
    timeline = run(written(one(each) + one(each, "frogs") + one(each, "newts")))
    values = np.array([[at(timeline, stage, 0.5, name) for stage in range(4)] for name in ("height", "frogs", "newts")])
    assert np.all((values == 9.0).sum(axis=0) == 1)
    assert np.all((values == 9.0).any(axis=1))


def test_a_time_is_told_only_where_every_stage_says_how_long_it_lasts() -> None:
    text = written(one("values = [1, 2, 3, 4]"))
    assert run(text).kind == "order"
    timed = text.replace('caption = "It is', 'lasts = "20 min"\ncaption = "It is')
    timeline = run(timed)
    assert timeline.kind == "time"
    assert timeline.stages[-1].end_s == pytest.approx(80 * 60.0)


def test_events_come_where_they_are_said_to_and_in_order() -> None:
    events = (
        '[[event]]\nwhat = "It cracks"\nstage = "baking"\nat = "25 %"\n[[event]]\nwhat = "Start"\nstage = "mixing"\n'
    )
    timeline = run(written(one("values = [1, 2, 3, 4]") + events))
    assert [event.name for event in timeline.events] == ["Start", "It cracks"]
    baking = timeline.stages[2]
    share = (timeline.events[1].time_s - baking.start_s) / (baking.end_s - baking.start_s)
    assert share == pytest.approx(0.25)


@pytest.mark.parametrize("shape", [name for name, row in SHAPES.items() if row.closes and name != "one after another"])
def test_a_circle_that_swings_or_repeats_comes_back_to_its_beginning(shape: str) -> None:
    at_line = '\nat = "baking"' if shape == "jumps" else ""
    to_line = "" if shape == "steady" else "\nto = 9"
    timeline = run(written(one(f'shape = "{shape}"\nfrom = 1{to_line}{at_line}'), more="circle = true"))
    values = timeline.quantity("height").in_unit()
    assert shape == "jumps" or values[-1] == pytest.approx(values[0])


def test_points_of_a_circle_are_closed_to_the_first() -> None:
    timeline = run(written(one("points = [[0, 3], [2, 9]]"), more="circle = true"))
    assert at(timeline, 3, 1.0) == pytest.approx(3.0)


WRONG = [
    (
        one("values = [1, 2, 3]"),
        "",
        r"line \d+: drawn.0.values: holds 3 values for 4 stages; write 4, one a stage, or 5",
    ),
    (one("values = [1, 2, 3, 4, 5]"), "circle = true", r"begins with 1 and ends with 5, and a circle comes back"),
    (one("points = [[0, 1], [5, 2]]"), "", r"drawn.0.points: has a point at the place 5; the 4 stages go from place 0"),
    (one("points = [[0, 1], [4, 2]]"), "circle = true", r"a circle comes back to its beginning"),
    (
        one('shape = "rises"\nfrom = 1\nto = 2'),
        "circle = true",
        r"drawn.0.shape: .*Allowed in a circle: steady, swings",
    ),
    (one('shape = "jumps"\nfrom = 1\nto = 2\nat = "bakin"'), "", r"drawn.0.at: .*did you mean .baking"),
    (one('shape = "jumps"\nfrom = 1\nto = 2\nat = "mixing"'), "", r"is the first stage, so there is nothing to jump"),
    (one('shape = "one after another"\nfrom = 1\nto = 2'), "", r"it takes two quantities at least"),
    ("", "", r"line \d+: drawn: missing|drawn: missing; write a \[\[drawn\]\]"),
    (
        one("values = [1, 2, 3, 4]") + '[[event]]\nwhat = "x"\nstage = "nowhere"\n',
        "",
        r"event.0.stage: there is no stage",
    ),
    (one("values = [1, 2, 3, 4]"), 'data = "x.csv"', r"reads no file; leave the line data out"),
]


@pytest.mark.parametrize(("drawn", "more", "message"), WRONG)
def test_what_cannot_be_drawn_is_refused_with_its_line(drawn: str, more: str, message: str) -> None:
    with pytest.raises(BadFile, match=message):
        process_of(scene(written(drawn, more=more)))


@pytest.mark.parametrize("count", [2, 13])
def test_a_process_of_ones_own_has_3_to_12_stages(count: int) -> None:
    stages = tuple(f"stage {number}" for number in range(count))
    with pytest.raises(BadFile, match=f"{count} stages; a process of your own has 3 to 12"):
        process_of(scene(written(one(f"values = {[1] * max(3, count)}"), stages=stages)))


def test_how_long_a_stage_lasts_is_said_of_all_or_of_none() -> None:
    text = written(one("values = [1, 2, 3, 4]")).replace(
        'caption = "It is baking', 'lasts = "1 h"\ncaption = "It is baking'
    )
    with pytest.raises(BadFile, match=r"stage.0.lasts: missing; write for each stage"):
        process_of(scene(text))


def test_what_is_told_is_true_of_the_drawing_and_says_which_way_it_goes() -> None:
    timeline = run(
        written(one("values = [0, 0, 12, 12, -1]") + one("points = [[0, 1], [0.5, 9], [1, 2], [4, 2]]", "frogs"))
    )
    kept, untrue = true_timeline(timeline)
    assert not untrue
    told = [say(stage.science) for stage in kept.stages]
    assert "The height stays at 0 cm." in told[0]
    assert "The frogs go up and down between 1 cm and 9 cm." in told[0]
    assert "The height rises from 0 cm to 12 cm." in told[1]
    assert "The height falls from 12 cm to −1 cm." in told[3]


def test_every_drawn_quantity_says_so() -> None:
    spec = process_of(scene(written(one("values = [1, 2, 3, 4]"))))
    assert [each.drawn for each in spec.quantities] == [True]
    assert "Drawn, not computed" in say(spec.honesty[0])


# --- laid over a process that computes -------------------------------------------------------------------------------


def cooling(drawn: str) -> Scene:
    text = (
        written(drawn, stages=(), process="cooling")
        .replace('"height"\nas', '"gap"\nas')
        .replace('cm", "12 cm', 'K", "9 K')
    )
    return scene(text)


def test_a_drawing_may_lie_beside_what_is_computed() -> None:
    stages = find("cooling").stages
    read = cooling(one(f"values = {list(range(len(stages)))}", "thirst", "marks"))
    process = process_of(read)
    plain = find("cooling")
    conditions = conditions_si(process, ())
    both, alone = process.run(conditions), plain.run(conditions)
    assert [q.name for q in both.quantities] == [*(q.name for q in alone.quantities), "thirst"]
    for quantity in alone.quantities:
        assert np.array_equal(both.quantity(quantity.name).values, quantity.values)
    names = [stage.name for stage in stages]
    for stage in both.stages:
        middle = np.array([(stage.start_s + stage.end_s) / 2])
        assert float(both.at("thirst", middle)[0]) == pytest.approx(names.index(stage.name))
    assert "everything else in this lesson is computed" in say(process.honesty[-1])
    told = [say(stage.science) for stage in both.stages]
    assert told[1] == f"{say(alone.stages[1].science)} (Drawn, not computed) The thirst stays at 1 marks."


def test_a_drawing_may_not_take_the_name_of_what_is_computed() -> None:
    with pytest.raises(BadFile, match='cooling computes "gap" itself'):
        process_of(cooling(one("values = [1, 2, 3, 4]", "gap", "K")))


def test_only_a_process_of_ones_own_has_a_circle_events_and_lengths() -> None:
    text = written("", stages=("level",), process="cooling", more="circle = true")
    with pytest.raises(BadFile, match=r"line \d+: circle: cooling finds this itself"):
        process_of(scene(text))
