"""The science over the bars of the piece."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from sonify.page.curves import PLACES, curve, drawn, model_times, places_told, science
from sonify.page.graphs import HEIGHT
from sonify.page.words import figures, with_unit
from tests.sample import sample_lesson


def test_figures_show_about_a_fiftieth_of_their_range() -> None:
    assert figures(np.array([571.2, 592.4])) == ["571", "592"]
    assert figures(np.array([14.0, 22.04])) == ["14.0", "22.0"]
    assert figures(np.array([-0.5, 0.004])) == ["−0.50", "0.00"]
    assert figures(np.array([3.0, 3.0])) == ["3.0", "3.0"]
    assert figures(np.array([0.0, 2e-9])) == ["0", "2 × 10^-9".replace("-", "−")]


def test_a_unit_is_held_to_its_figure() -> None:
    assert with_unit("14", "degC") == "14\u00a0°C"
    assert with_unit("0.5", "1") == "0.5"


def test_a_line_runs_from_its_least_to_its_greatest_value() -> None:
    assert drawn(np.array([2.0, 4.0, 3.0])) == [0, HEIGHT, HEIGHT // 2]
    assert drawn(np.array([7.0, 7.0])) == [HEIGHT // 2, HEIGHT // 2]


def test_values_at_beats_are_the_timelines_own_through_the_time_map() -> None:
    lesson = sample_lesson()
    made = curve(lesson, lesson.timeline.quantity("journey temperature"))
    # Beat 16 is the first of stage B, which begins at 30,000 s of the day: 14 + 8 sin(pi 30000/86400) degC by the
    # sample's own formula, read between its samples ten minutes apart.
    assert made["values"][0] == "14.0\u00a0°C"
    assert float(made["values"][16].split("\u00a0")[0]) == pytest.approx(14 + 8 * np.sin(np.pi * 30 / 86.4), abs=0.06)
    assert len(made["values"]) == 48
    assert max(made["points"]) == HEIGHT and min(made["points"]) == 0
    assert made["described"].startswith("Journey temperature of the water on its journey: 14 °C at the start")


def test_a_long_piece_tells_its_values_at_fewer_places() -> None:
    assert len(places_told(48)) == 48
    assert list(places_told(1601)[:3]) == [0, 3, 6]
    assert len(places_told(7200)) == PLACES


def test_the_quantity_that_sets_the_tempo_comes_first_and_says_so() -> None:
    lesson = sample_lesson()
    turned = replace(lesson, timeline=replace(lesson.timeline, quantities=lesson.timeline.quantities[::-1]))
    titles = [each["title"] for each in science(turned)["curves"]]
    assert titles == ["Journey temperature: sets the tempo", "Rain rate"]


def test_a_quantity_with_a_companion_shows_both() -> None:
    lesson = sample_lesson()
    warm, rain = lesson.timeline.quantities
    paired = replace(lesson, timeline=replace(lesson.timeline, quantities=(replace(warm, companion=rain.name), rain)))
    assert curve(paired, paired.timeline.quantities[0])["values"][0] == "0.0\u00a0mm/h (14.0\u00a0°C)"


def test_the_time_in_the_science_is_a_clock_where_there_is_one() -> None:
    lesson = sample_lesson()
    assert model_times(lesson)[0] == "06:00"
    assert model_times(lesson)[16] == "14:20"  # 30,000 s are 8 h 20 min
    without = replace(lesson, timeline=replace(lesson.timeline, clock_start=None))
    assert model_times(without)[16] == "8\u00a0h 20\u00a0min from the start"
    stages = tuple(
        replace(s, start_s=s.start_s * 1e-14, end_s=s.end_s * 1e-14) for s in lesson.controls.time_map.stages
    )
    tiny = replace(lesson.controls, time_map=replace(lesson.controls.time_map, stages=stages))
    assert model_times(replace(without, controls=tiny))[16] == "300\u00a0ps from the start"
    stages = tuple(
        replace(s, start_s=s.start_s * 365.0, end_s=s.end_s * 365.0) for s in lesson.controls.time_map.stages
    )
    year = replace(lesson.controls, time_map=replace(lesson.controls.time_map, stages=stages))
    assert model_times(replace(without, controls=year))[16] == "127\u00a0days from the start"


def test_an_event_stands_at_its_beat() -> None:
    event = science(sample_lesson())["events"][0]
    # 50,600 s is 600 s of 36,400 s into stage C, whose 16 beats begin at beat 32.
    assert event["beat"] == pytest.approx(32 + 16 * 600 / 36_400, abs=0.02)
    assert event["text"] == "The first drop of rain falls."
