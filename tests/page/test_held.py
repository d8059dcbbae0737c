"""The steps over the curve: the averages that a held tempo was set from, the same as on paper."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from sonify.page.curves import HEIGHT, science
from sonify.page.held import companion_at, companion_first, held_steps
from sonify.records.fact import Amount, fact
from sonify.records.lesson import Lesson
from tests.sample import sample_lesson


def paired_lesson() -> Lesson:
    """The sample with molecule speed going with its temperature, v = sqrt(8RT/(pi M)): Atkins & de Paula, Physical
    Chemistry, the kinetic theory of gases (from memory, not verified); held at each stage's mean, with a table."""
    lesson = sample_lesson()
    warm, rain = lesson.timeline.quantities
    gas, molar = 8.314462618, 0.018015
    speed = replace(
        warm,
        name="molecule speed",
        unit="m/s",
        si_unit="m/s",
        values=np.sqrt(8 * gas * warm.values / (np.pi * molar)),
        companion=warm.name,
    )
    rule = replace(lesson.controls.keys[0].rule, quantity="molecule speed")
    means = np.sqrt(8 * gas * (np.array([16.0, 22.0, 18.0]) + 273.15) / (np.pi * molar))
    curve = replace(lesson.controls.curves[0], rule=rule, quantity_values=np.repeat(means, 16))
    table = tuple(
        (title, fact("value-beside", value=Amount(value=v, unit="m/s"), beside=Amount(value=t, unit="degC")), tempo)
        for title, v, t, tempo in (("A", 583.0, 16.0, "66"), ("B", 589.0, 22.0, "104"), ("C", 585.0, 18.0, "80"))
    )
    keys = (replace(lesson.controls.keys[0], rule=rule, stages=table),)
    return replace(
        lesson,
        timeline=replace(lesson.timeline, quantities=(speed, warm, rain)),
        controls=replace(lesson.controls, curves=(curve,), keys=keys),
    )


def test_each_stage_has_one_step_in_the_tables_words_companion_first() -> None:
    steps = held_steps(paired_lesson())
    assert [(step["bar"], step["bars"]) for step in steps] == [(1, 4), (5, 4), (9, 4)]
    assert steps[1]["words"] == "22 °C on average (589 m/s)"
    # Temperatures read back from speeds through the pairs.
    assert [step["at"] for step in steps] == pytest.approx([16.0, 22.0, 18.0], abs=0.01)


def test_steps_lie_on_the_scale_of_the_curve() -> None:
    made = science(paired_lesson())["curves"][0]
    # The sample's day runs from 14 to 22 degC: 18 degC is half way up.
    assert made["steps"][2]["level"] == pytest.approx(HEIGHT / 2, abs=0.005 * HEIGHT)
    assert made["high"] == ["22 °C", "589 m/s"] and made["low"] == ["14 °C", "581 m/s"]


def test_without_a_table_the_trace_itself_is_worded() -> None:
    lesson = paired_lesson()
    bare = replace(lesson, controls=replace(lesson.controls, keys=(replace(lesson.controls.keys[0], stages=()),)))
    assert held_steps(bare)[0]["words"] == "16.0\u00a0°C on average (583.0\u00a0m/s)"


def test_a_gliding_tempo_has_no_steps() -> None:
    lesson = paired_lesson()
    time_map = lesson.controls.time_map
    gliding = replace(time_map, stages=tuple(replace(s, bar_bpms=(66.0,) * s.bars) for s in time_map.stages))
    assert held_steps(replace(lesson, controls=replace(lesson.controls, time_map=gliding))) == []


def test_where_two_quantities_go_no_one_way_together_nothing_is_made_up() -> None:
    warm, rain = sample_lesson().timeline.quantities
    assert companion_at(warm, rain, np.array([290.0])) is None
    lesson = paired_lesson()
    speed, _, _ = lesson.timeline.quantities
    crossed = replace(lesson.timeline, quantities=(replace(speed, companion=rain.name), warm, rain))
    assert held_steps(replace(lesson, timeline=crossed)) == []


def test_only_a_pair_is_turned() -> None:
    speed, warmth = Amount(value=586.0, unit="m/s"), Amount(value=19.0, unit="degC")
    assert companion_first(fact("value-beside", value=speed, beside=warmth)) == ("19 °C", "586 m/s")
    assert companion_first(fact("value-alone", value=speed)) == ("586 m/s", "")
