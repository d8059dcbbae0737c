"""The conductor's sheets: the map, every cue in order with its time, and the score's pages."""

from __future__ import annotations

import io
import re
from dataclasses import replace
from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader

from sonify.kinds.cues import ACTIONS
from sonify.lesson import study
from sonify.paper import conductor_pdf
from sonify.paper.conductor import map_data, sheet
from sonify.paper.cuesheet import LEGEND, moments
from sonify.records.fact import fact
from sonify.records.lesson import Lesson
from sonify.records.score import Cue, Reason
from sonify.say.cues import mark_words, show_words
from sonify.templates import template
from tests.paper.large import large_lesson
from tests.paper.sheets import SVG, pages, sample, settings
from tests.sample import cue, sample_lesson, sample_score

ROOT = Path(__file__).resolve().parents[2]
WIDE = SVG.replace('width="2100px" height="2970px"', 'width="2970px" height="2100px"')


def test_map_then_cues_then_a_page_for_each_page_of_the_score() -> None:
    found = pages(sample("conductor"))
    assert len(found) == 5
    assert found[0].startswith("A sample piece") and "Height of a band: how loud" in found[0]
    assert found[1].startswith("Cue page") and found[2].startswith("Cue sheet")
    assert "Allegro" in found[3] and "Allegro" in found[4]


def test_the_map_lies_on_its_side_and_the_score_as_it_was_engraved() -> None:
    def wide(svg: str) -> list[bool]:
        made = PdfReader(io.BytesIO(conductor_pdf(sample_lesson(), (svg,), settings())))
        return [page.mediabox.width > page.mediabox.height for page in made.pages]

    assert wide(SVG) == [True, True, False, False]
    assert wide(WIDE) == [True, True, False, True]
    assert wide(SVG.replace('width="2100px" height="2970px" ', "")) == [True, True, False, False]  # the frame alone


def test_a_lesson_without_engraved_pages_still_has_map_and_cues() -> None:
    assert len(PdfReader(io.BytesIO(conductor_pdf(sample_lesson(), (), settings()))).pages) == 3


def test_the_cue_sheet_reads_in_order_of_time() -> None:
    text = pages(sample("conductor"))[2]
    heads = ["Count in", "A Evaporation", "Morning", "Rising vapour", "B Condensation", "The cloud", "The rain"]
    places = [text.index(words) for words in [*heads, "C Precipitation", "The storm", "Back in the sea"]]
    assert places == sorted(places)


def test_times_count_from_the_start_of_the_file_with_the_count_in() -> None:
    # by hand: two bars of 4/4 at 66 bpm take 8 * 60 / 66 = 7.27 s, four more 14.55 s, four at 104 bpm 9.23 s
    rows = [row for row in moments(sample_lesson(), settings()) if row["kind"] == "cue"]
    times = {row["bar"]: row["time"] for row in rows}
    assert times["count-in"] == "0:00"
    assert times["1"] == "0:07"
    assert times["5"] == "0:22"
    assert times["9"] == "0:31"
    assert times["12, beat 4"] == "0:42"


def cue_rows(lesson: Lesson, bar: str) -> list[dict[str, Any]]:
    return next(row["lines"] for row in moments(lesson, settings()) if row["kind"] == "cue" and row["bar"] == bar)


def cued(*cues: Cue) -> Lesson:
    lesson = sample_lesson()
    return replace(lesson, score=replace(lesson.score, cues=cues))


def names(line: dict[str, Any]) -> list[str]:
    return [person["name"] for person in line["who"]]


def test_a_cue_says_how_loud_or_how_fast_in_words() -> None:
    (entry,) = cue_rows(sample_lesson(), "3")
    assert entry["who"][0]["loud"] == "fairly soft (mp)"  # its mark at that bar
    assert entry["who"][0]["badge"]["group"] == 2
    (tempo,) = cue_rows(sample_lesson(), "5")
    assert tempo["who"][0]["loud"] == "104 bpm, quick walk"
    (detailed,) = cue_rows(cued(cue(3, "The sea", "enter", "It warms", mark="mp", pattern=1)), "3")
    assert detailed["who"][0]["loud"] == "fairly soft (mp), Pattern A"


def test_cues_of_one_moment_share_a_row_everybody_first() -> None:
    lesson = cued(cue(3, "The sea", "louder", mark="f"), cue(3, "", "tempo", bpm=80))
    found = cue_rows(lesson, "3")
    assert [names(line) for line in found] == [["Everybody"], ["The sea"]]
    assert found[1]["who"][0]["loud"] == "loud (f)"
    # stages without a cue are still named, in order
    rows = moments(lesson, settings())
    assert [row["title"] for row in rows if row["kind"] == "stage"] == ["Evaporation", "Condensation", "Precipitation"]


def test_what_one_part_is_shown_in_one_moment_stands_on_one_line() -> None:
    (line,) = cue_rows(cued(cue(3, "The sea", "enter", mark="p"), cue(3, "The sea", "louder", mark="mf")), "3")
    assert (line["action"], line["who"][0]["loud"]) == ("Change", "soft (p), then louder, fairly loud (mf)")
    assert line["main"]


def test_an_entry_of_a_part_that_plays_already_is_a_change() -> None:
    # the sample's rising vapour plays in bars 3 to 6
    lesson = cued(
        *(cue(bar, "Rising vapour", "enter", mark="p") for bar in (3, 5, 7)), cue(6, "Rising vapour", "change")
    )
    assert [cue_rows(lesson, str(bar))[0]["action"] for bar in (3, 5, 6, 7)] == [
        "Come in",
        "Change",
        "Change",
        "Come in",
    ]


def test_only_louder_and_softer_may_be_left_out_by_a_beginner() -> None:
    lesson = cued(*(cue(bar, "The sea", action) for bar, action in enumerate(ACTIONS, start=1)))
    finer = [action for bar, action in enumerate(ACTIONS, start=1) if not cue_rows(lesson, str(bar))[0]["main"]]
    assert finer == ["louder", "softer"]


def test_a_new_beat_is_drawn_the_way_it_goes_and_described_in_the_legend() -> None:
    # the sample's beats are 66, 104 from bar 5 and 80 from bar 9
    lesson = cued(cue(5, "", "tempo", bpm=104), cue(9, "", "tempo", gesture="slower", bpm=80))
    lines = [cue_rows(lesson, bar)[0] for bar in ("5", "9")]
    assert [line["figure"] for line in lines] == ["quicker", "slower"]
    assert [line["who"][0]["gesture"] for line in lines] == ["", ""]
    told = legend(lesson)
    assert "In the bar before" in told["Quicker beat"] and "In the bar before" in told["Slower beat"]


def test_parts_that_are_shown_the_same_share_a_line() -> None:
    (line,) = cue_rows(cued(cue(3, "The sea", "rest"), cue(3, "The rain", "rest")), "3")
    assert names(line) == ["The sea", "The rain"]


def test_each_keeps_its_own_loudness_on_a_line_that_is_shared() -> None:
    (line,) = cue_rows(
        cued(cue(3, "The cloud", "enter", mark="p"), cue(3, "The rain", "enter", mark="f", pattern=1)), "3"
    )
    assert [(w["name"], w["loud"]) for w in line["who"]] == [
        ("The cloud", "soft (p)"),
        ("The rain", "loud (f), Pattern A"),
    ]


def legend(lesson: Lesson) -> dict[str, str]:
    return {row["action"]: row["gesture"] for row in sheet(lesson, (), settings())["gestures"]}


def test_a_gesture_that_the_legend_describes_is_not_described_again() -> None:
    lesson = cued(cue(2, "The sea", "louder", mark="f"), cue(3, "The sea", "change", gesture="own-idea"))
    assert "raise your hands" in legend(lesson)["Louder"]
    gestures = [cue_rows(lesson, bar)[0]["who"][0]["gesture"] for bar in ("2", "3")]
    assert gestures == ["", "Open both hands to them: now their own idea."]


def test_beaters_are_shown_by_name_where_they_change() -> None:
    hard = fact("cue-with", level="hard", used="beaters")
    (line,) = cue_rows(cued(cue(3, "The sea", "change", gesture="harder-beaters", what=hard)), "3")
    person = line["who"][0]
    assert person["gesture"].startswith("Show them, for the next bar: hard beaters.") and person["loud"] == ""


def test_fingers_are_drawn_and_not_spelt_out() -> None:
    # the sample's vapour plays in bars 3 to 6
    lesson = cued(cue(4, "Rising vapour", "change", gesture="two-fingers", mark="p", pattern=2))
    (line,) = cue_rows(lesson, "4")
    assert (line["figure"], line["who"][0]["gesture"]) == ("two-fingers", "")
    assert line["who"][0]["loud"] == "soft (p), Pattern B"


@pytest.mark.parametrize("action", ACTIONS)
def test_every_gesture_is_drawn_and_told(action: str) -> None:
    names = set(re.findall(r'^  "?([a-z-]+)"?: a =>', template("paper", "gestures.typ"), flags=re.MULTILINE))
    for gesture in ACTIONS[action].gestures:
        (line,) = cue_rows(cued(cue(3, "The sea", action, gesture=gesture)), "3")
        assert {line["figure"], *LEGEND} <= names
        assert line["action"] and show_words(gesture)


def test_a_reason_is_given_once_and_not_where_the_stage_heading_says_it() -> None:
    lesson = cued(
        cue(1, "The sea", "enter", "The sea warms."),
        cue(2, "The sea", "louder", "more leaves the sea.", mark="f"),
        cue(3, "The sea", "softer", "more leaves the sea.", mark="p"),
        cue(4, "The sea", "rest", "The sea freezes."),
    )
    whys = [cue_rows(lesson, str(bar))[0]["why"] for bar in range(1, 5)]
    assert whys == ["", "More leaves the sea.", "", "The sea freezes."]


def test_what_is_for_the_music_is_told_from_what_stands_for_something() -> None:
    science, music = cue(2, "The sea", "louder", "The flow rises.", mark="f"), cue(4, "The sea", "louder", mark="f")
    rows = cued(science, music, cue(6, "The sea", "rest"))
    whys = [cue_rows(rows, bar)[0]["why"] for bar in ("2", "4", "6")]
    assert whys == ["The flow rises.", "For the music.", "For the music."]
    beside = cue(2, "The cloud", "louder", mark="f")
    lines = cue_rows(cued(science, beside, replace(beside, part="The rain")), "2")
    assert [(names(line), line["why"]) for line in lines] == [
        (["The sea"], "The flow rises."),
        (["The cloud", "The rain"], "For the music."),
    ]
    whole = Reason(words="the piece grows.", music=True)  # says what for: the bare label beside it adds nothing
    lines = cue_rows(cued(beside, replace(beside, part="The rain", reason=whole)), "2")
    assert [line["why"] for line in lines] == ["For the music: the piece grows."]


@pytest.mark.parametrize("scene", ["a-year-of-sunlight", "the-sea-that-stayed-warm"])
def test_more_cues_than_two_pages_hold_leave_the_finer_ones_to_the_score_and_say_so(scene: str) -> None:
    lesson = study(scene, str(ROOT / "examples" / "well-stocked.toml"))
    for paper in ("a4", "us-letter"):
        found = pages(PdfReader(io.BytesIO(conductor_pdf(lesson, (), settings(paper=paper)))))
        assert len(found) == 4
        cues = " ".join(found[2:])
        assert ("Louder and softer stand in the score" in cues) != ("Bold: what nobody can do without" in cues)


def test_the_cues_of_a_whole_lesson_fill_no_more_than_two_pages() -> None:
    # forty moments and more of music, as the arranger writes them for a three-minute piece
    reader = PdfReader(io.BytesIO(conductor_pdf(large_lesson(), (), settings())))
    assert len(reader.pages) <= 4


def test_a_stage_says_how_much_time_its_bars_hold() -> None:
    text = pages(sample("conductor"))[2]
    assert "8 hours 20 minutes in 4 bars" in text  # 30,000 s of the sample's day


def test_a_tempo_that_glides_is_given_from_and_to() -> None:
    from sonify.records.clock import Tempo

    lesson = sample_lesson()
    tempi = tuple(Tempo(bar=1 + i, bpm=66 + 4 * i) for i in range(4)) + lesson.score.tempi[1:]
    lesson = replace(lesson, score=replace(lesson.score, tempi=tempi))
    stage = map_data(lesson, settings())["stages"][0]
    assert (stage["bpm"], stage["pace"]) == ("66 to 78", "quickening")


def test_the_map_has_a_lane_a_group_and_a_row_a_part() -> None:
    lanes = map_data(sample_lesson(), settings())["lanes"]
    assert [lane["group"] for lane in lanes] == [1, 2, 3, 4]
    assert [row["name"] for row in lanes[3]["rows"]] == ["The rain", "The storm"]
    assert [(run["bar"], run["bars"]) for run in lanes[1]["rows"][0]["runs"]] == [(3, 4)]
    assert lanes[1]["rows"][0]["cues"] == [3]
    assert len({(lane["colour"], lane["hatching"]) for lane in lanes}) == 4


def test_what_pupils_invent_is_an_empty_box_on_the_map() -> None:
    lesson = replace(sample_lesson(), score=sample_score(with_blank=True))
    cloud = map_data(lesson, settings())["lanes"][2]["rows"][0]
    assert cloud["blanks"] == [{"bar": 9, "bars": 2}]


def test_the_map_is_one_page_however_many_groups_play() -> None:
    lesson = large_lesson(stages=8, groups=8, parts_a_group=2)
    for large_print in (False, True):
        made = conductor_pdf(lesson, (), settings(large_print=large_print))
        found = pages(PdfReader(io.BytesIO(made)))
        assert found[2].startswith("Cue sheet")
        assert all(part.name in found[0] for part in lesson.score.group_parts)


def test_the_end_is_named() -> None:
    assert "the end is at 0:43" in sheet(sample_lesson(), (), settings())["facts"]


@pytest.mark.parametrize("classroom", ["few-instruments", "well-stocked"])
def test_the_cues_of_a_ready_made_scene_fill_two_pages_for_either_example_class(classroom: str) -> None:
    lesson = study("harbour-water-cycle", str(ROOT / "examples" / f"{classroom}.toml"))
    assert len(lesson.score.cues) >= 25
    assert len(PdfReader(io.BytesIO(conductor_pdf(lesson, (), settings()))).pages) == 4


def test_the_cue_for_a_gliding_beat_says_where_it_leads() -> None:
    lesson = cued(cue(1, "", "tempo", gesture="quicker-by-and-by", bpm=78, from_bpm=66, by_bar=4))
    (line,) = cue_rows(lesson, "1")
    assert line["who"][0]["loud"] == "little by little from 66, reaching 78 bpm at bar 4"
    assert line["figure"] == "quicker"


#: How a conductor shows them (common practice): hands rise for louder and sink for softer, a slower beat is larger.
SHOWN = {
    "louder": ("up", "raise"),
    "softer": ("down", "lower"),
    "quicker": ("smaller", "fast"),
    "slower": ("larger", "slow"),
    "quicker-by-and-by": ("smaller", "quicker"),
    "slower-by-and-by": ("larger", "slower"),
}


@pytest.mark.parametrize("gesture", SHOWN)
def test_a_gesture_is_told_the_right_way_round(gesture: str) -> None:
    assert all(word in show_words(gesture) for word in SHOWN[gesture]), show_words(gesture)


def test_a_swell_says_by_which_bar_it_is_there() -> None:
    sudden = cue(9, "The sea", "louder", mark="f")
    assert mark_words(sudden, "f") == "f"
    assert mark_words(replace(sudden, by_bar=17), "f") == "f by bar 17"
