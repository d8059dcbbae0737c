"""Plots of the quantities: round ticks that hold the curve, times of day, stages and their letters."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.facts.graphs import nice_ticks
from sonify.paper.plots import LETTER_GAP, plots, spread, time_axis
from sonify.records.lesson import Lesson
from sonify.records.process import StageSpec
from sonify.records.timeline import Quantity, Timeline
from tests.paper.large import large_lesson
from tests.sample import sample_lesson
from tests.studies import studied


@given(
    st.floats(-1e6, 1e6, allow_nan=False),
    st.floats(1e-3, 1e6, allow_nan=False),
)
def test_ticks_are_few_even_round_and_hold_every_value(low: float, wide: float) -> None:
    wide = max(wide, 2e-5 * abs(low))  # less is a quantity that stands still
    ticks = nice_ticks(low, low + wide)
    step = ticks[1] - ticks[0]
    assert 2 <= len(ticks) <= 6
    assert ticks[0] <= low + 1e-6 * step and ticks[-1] >= low + wide - 1e-6 * step
    np.testing.assert_allclose(np.diff(ticks), step, rtol=1e-6)
    mantissa = step / 10 ** np.floor(np.log10(step) + 1e-6)
    assert min(abs(mantissa - round_one) for round_one in (1, 2, 5)) < 1e-5


def unmapped(lesson: Lesson) -> Lesson:
    """Without rules, so that every quantity is drawn."""
    return replace(lesson, controls=replace(lesson.controls, keys=()))


def test_only_what_is_heard_its_companion_and_what_two_stages_are_found_by_is_drawn() -> None:
    lesson = large_lesson(quantities=9)
    names = [q.name for q in lesson.timeline.quantities]
    heard = {key.rule.quantity for key in lesson.controls.keys} & set(names)
    assert len(heard) == 1
    others = [name for name in names if name not in heard]
    stages = tuple(StageSpec(name=n, title=n, seen_as=f"the {n} is high") for n in others[1:4])
    quantities = tuple(replace(q, companion=others[0]) if q.name in heard else q for q in lesson.timeline.quantities)
    lesson = replace(
        lesson,
        process=replace(lesson.process, stages=stages),
        timeline=replace(lesson.timeline, quantities=quantities),
    )
    found = plots(lesson)
    assert {plot["name"] for plot in found["plots"]} == {*heard, *others[:3]}
    assert found["rest"] == [name for name in names if name not in {*heard, *others[:3]}]


def test_a_quantity_that_never_changes_is_drawn_inside_its_frame() -> None:
    lesson = sample_lesson()
    still = replace(lesson.timeline.quantities[1], values=np.full(145, 2e-6))
    (found,) = plots(replace(lesson, timeline=replace(lesson.timeline, quantities=(still,))))["plots"]
    (height,) = {y for _, y in found["traces"][0]["points"]}
    assert 0.3 < height < 0.7


def test_rounding_noise_is_not_drawn_as_a_change() -> None:
    assert nice_ticks(100.0, 100.0 + 1e-12) == nice_ticks(100.0, 100.0)


def test_the_numbers_on_an_axis_are_all_different() -> None:
    lesson = sample_lesson()
    narrow = replace(lesson.timeline.quantities[0], values=np.linspace(287.151, 287.163, 145), unit="K")
    (found,) = plots(replace(lesson, timeline=replace(lesson.timeline, quantities=(narrow,))))["plots"]
    texts = [tick["text"] for tick in found["ticks"]]
    assert len(set(texts)) == len(texts)


def test_the_curve_keeps_its_ends_and_its_narrowest_peak() -> None:
    time_s = np.linspace(0.0, 1_000.0, 5_001)
    values = np.zeros(5_001)
    values[1_234] = 7.0
    peak = Quantity(name="peak", symbol="p", unit="m", si_unit="m", values=values)
    lesson = sample_lesson()
    timeline = Timeline(process="p", time_s=time_s, quantities=(peak,), stages=())
    (found,) = plots(replace(lesson, timeline=timeline))["plots"]
    points = found["traces"][0]["points"]
    assert points[0] == [0.0, 0.0] and points[-1] == [1.0, 0.0]
    assert max(y for _, y in points) == pytest.approx(7.0 / 8.0)  # the axis reaches 8
    assert len(points) < 500


def test_values_are_drawn_in_the_unit_that_is_printed() -> None:
    warmth, rain = plots(unmapped(sample_lesson()))["plots"]
    assert (warmth["name"], warmth["unit"]) == ("journey temperature", "°C")
    # by hand: 14 °C in the morning, on an axis from 14 to 22
    assert warmth["traces"][0]["points"][0][1] == pytest.approx(0.0, abs=1e-4)
    assert rain["ticks"][-1]["text"] == "8"  # 2e-6 m/s are 7.2 mm/h


def test_powers_of_ten_are_taken_out_of_an_axis_that_would_not_read() -> None:
    found = plots(unmapped(large_lesson(quantities=9)))["plots"][-1]
    assert found["unit"].startswith("× 10^")
    assert all(len(tick["text"]) <= 4 for tick in found["ticks"])


def test_times_of_day_stand_at_round_hours() -> None:
    axis = time_axis(sample_lesson().timeline)  # a day from six in the morning
    assert axis["name"] == "hour of the day"
    assert [(tick["text"], tick["at"]) for tick in axis["ticks"]] == [
        ("6", 0.0),
        ("12", 0.25),
        ("18", 0.5),
        ("0", 0.75),
        ("6", 1.0),
    ]


@pytest.mark.parametrize(
    ("seconds", "name", "last"),
    [
        (0.9, "time (seconds)", "0.8"),
        (600.0, "time (minutes)", "10"),
        (18_000.0, "time (hours)", "5"),
        (864_000.0, "time (days)", "10"),
        (1065 * 86_400.0, "time (years)", "2"),
        (43.8 * 31_557_600.0, "time (years)", "40"),
    ],
)
def test_elapsed_time_is_told_in_a_handy_unit(seconds: float, name: str, last: str) -> None:
    timeline = Timeline(process="p", time_s=np.linspace(0.0, seconds, 50), quantities=(), stages=())
    axis = time_axis(timeline)
    assert axis["name"] == name
    assert axis["ticks"][0] == {"at": 0.0, "text": "0"}
    assert axis["ticks"][-1]["text"] == last


def test_stage_letters_never_touch() -> None:
    at = [stage["at"] for stage in plots(large_lesson(stages=8))["stages"]]
    assert min(np.diff(at)) >= LETTER_GAP - 1e-9
    assert min(at) >= 0 and max(at) <= 1


def test_crowded_letters_at_the_end_are_moved_back() -> None:
    assert spread([0.98, 0.99, 1.0], 0.1) == pytest.approx([0.8, 0.9, 1.0])


def test_what_was_changed_is_the_axis_and_no_quantity_left_out() -> None:
    found = plots(studied("magnet-and-paper"))
    assert found["plots"][0]["x"]["name"] == "layers of paper" and "layers of paper" not in found["rest"]
