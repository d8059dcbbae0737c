"""The poster: one page, its stages with a curve, who plays, and the key."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache
from pathlib import Path

import numpy as np
import pytest

from sonify.lesson import study
from sonify.paper.poster import sheet
from sonify.records.lesson import Lesson
from sonify.records.scene import Rule
from sonify.say import say
from sonify.say.parts import own_name
from tests.paper.large import large_lesson
from tests.paper.sheets import made, pages, settings
from tests.sample import sample_lesson, sample_score

ROOT = Path(__file__).resolve().parents[2]


@lru_cache
def lesson_of(scene: str) -> Lesson:
    return study(scene, str(ROOT / "examples" / "well-stocked.toml"))


def test_each_stage_says_who_plays_in_it() -> None:
    # by hand, from the sample's entries: sea 1-12, vapour 3-6, cloud 6-8, rain 7-10, storm 9-10 (both group 4)
    (row,) = sheet(sample_lesson(), settings())["rows"]
    assert [[who["group"] for who in stage["who"]] for stage in row] == [[1, 2], [1, 2, 3, 4], [1, 4]]
    assert [stage["letter"] for stage in row] == ["A", "B", "C"]


def test_what_pupils_invent_counts_as_playing() -> None:
    lesson = replace(sample_lesson(), score=sample_score(with_blank=True))
    (row,) = sheet(lesson, settings())["rows"]
    assert [who["group"] for who in row[2]["who"]] == [1, 3, 4]  # the cloud's empty box is in bars 9 and 10


def test_the_curve_joins_from_stage_to_stage_and_fills_each_column() -> None:
    panels = sheet(lesson_of("harbour-water-cycle"), settings())["curve"]["stages"]
    stages = [panel["points"] for (panel,) in panels]
    assert [(points[0][0], points[-1][0]) for points in stages] == [(0.0, 1.0)] * 5
    for before, after in zip(stages, stages[1:], strict=False):
        assert before[-1][1] == after[0][1]
    assert all(0 <= y <= 1 for points in stages for _, y in points)


def test_the_curve_agrees_with_the_science_table() -> None:
    lesson = lesson_of("harbour-water-cycle")
    curve = sheet(lesson, settings())["curve"]
    assert (curve["name"], curve["unit"]) == ("journey temperature", "°C")  # not molecule speed: pupils know this one
    start = np.array([lesson.controls.time_map.stages[0].start_s])
    first = float(lesson.timeline.at("journey temperature", start)[0]) - 273.15
    low, high = (float(curve["ticks"][i]["text"]) for i in (0, -1))
    assert low + curve["stages"][0][0]["points"][0][1] * (high - low) == pytest.approx(first, abs=0.01)


def test_a_rule_in_tenfold_steps_has_a_curve_in_tenfold_steps() -> None:
    curve = sheet(lesson_of("muddy-water"), settings())["curve"]
    texts = [float(tick["text"]) for tick in curve["ticks"]]
    assert {round(b / a) for a, b in zip(texts, texts[1:], strict=False)} == {int(curve["step"])}
    assert sheet(lesson_of("harbour-water-cycle"), settings())["curve"]["step"] == ""


def test_an_area_tells_an_amount_only_where_its_foot_is_nought() -> None:
    filled = {
        scene: sheet(lesson_of(scene), settings())["curve"]["filled"]
        for scene in ("muddy-water", "harbour-water-cycle", "foxes-and-hares")
    }
    assert filled == {"muddy-water": False, "harbour-water-cycle": False, "foxes-and-hares": True}  # tenfold; from 5 °C


@pytest.mark.long
def test_tenfold_lines_without_a_childs_unit_say_how_many_times_as_much() -> None:
    curve = sheet(lesson_of("salt-in-the-jar"), settings())["curve"]
    assert [tick["text"] for tick in curve["ticks"]][:3] == ["less", "× 10", "× 100"]


def test_two_tunes_in_one_unit_are_drawn_on_one_scale_though_each_has_its_own_rule() -> None:
    curve = sheet(lesson_of("foxes-and-hares"), settings())["curve"]
    assert [name["name"] for name in curve["names"]] == ["The hares", "The foxes"]
    first, second = curve["stages"][0]
    hares, foxes = first["points"][0][1], second["points"][0][1]
    timeline = lesson_of("foxes-and-hares").timeline
    counts = [float(timeline.quantity(name).values[0]) for name in ("number of the hunted", "number of hunters")]
    assert hares / foxes == pytest.approx(counts[0] / counts[1], rel=0.02)  # from nought


def test_the_key_says_which_way_the_sound_goes_when_the_science_rises() -> None:
    lesson = sample_lesson()
    key = lesson.controls.keys[0]

    def told(rule: Rule) -> str:
        turned = replace(lesson, controls=replace(lesson.controls, keys=(replace(key, rule=rule),)))
        return str(sheet(turned, settings())["keys"][0]["heard"])

    rule = key.rule
    assert told(rule) == "the beat is quicker"
    assert told(replace(rule, to_low=rule.to_high, to_high=rule.to_low)) == "the beat is slower"
    assert told(replace(rule, low=rule.high, high=rule.low)) == "the beat is slower"


def test_nothing_heard_leaves_a_poster_without_a_curve() -> None:
    lesson = sample_lesson()
    bare = replace(lesson, controls=replace(lesson.controls, keys=(), curves=()))
    assert sheet(bare, settings())["curve"] is None
    assert "Evaporation" in pages(made("poster", bare))[0]


@pytest.mark.parametrize("paper", ["a4", "us-letter"])
@pytest.mark.parametrize("scene", ["harbour-water-cycle", "muddy-water", "ice-rink-particles", "stretch-test"])
def test_a_scenes_poster_is_one_page_on_its_side_with_every_word(scene: str, paper: str) -> None:
    lesson = lesson_of(scene)
    reader = made("poster", lesson, paper=paper)
    (text,) = pages(reader)
    assert reader.pages[0].mediabox.width > reader.pages[0].mediabox.height
    for section in lesson.score.sections:
        assert say(section.title) in text and say(section.caption) in text
    for part in lesson.score.group_parts:
        assert own_name(part) in text


@pytest.mark.parametrize("stages", [1, 7, 9])
def test_few_and_many_stages_stay_on_one_page(stages: int) -> None:
    assert len(made("poster", large_lesson(stages=stages, groups=8, parts_a_group=2)).pages) == 1


def test_large_print_moves_the_key_to_a_page_of_its_own() -> None:
    found = pages(made("poster", sample_lesson(), large_print=True))
    assert len(found) == 2 and found[1].startswith("The key")
