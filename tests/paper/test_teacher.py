"""The teacher's sheets: plan, preparation, science, key, statements that keep the science honest, answers, cautions."""

from __future__ import annotations

import re
import tomllib
from dataclasses import replace
from functools import lru_cache
from pathlib import Path

import numpy as np
import pytest

from sonify.facts.listening import listening_items
from sonify.facts.sheet import mean_bpm
from sonify.lesson import study
from sonify.paper.aims import grid
from sonify.paper.care import cautions, deals_with_heat
from sonify.paper.handouts import comparing
from sonify.paper.room import left_over, shelf
from sonify.paper.teacher import beat_statements, year_note
from sonify.records.classroom import Stock
from sonify.records.clock import Tempo
from sonify.records.controls import ControlCurve, Threshold
from sonify.records.findings import Finding
from sonify.records.lesson import Lesson
from sonify.records.score import Seat
from sonify.records.timeline import Missing
from sonify.say import say
from tests.paper.sheets import made, pages, sample, teacher_data
from tests.sample import sample_lesson
from tests.studies import studied

TEXT = " ".join
ROOT = Path(__file__).resolve().parents[2]
SCENES = sorted(path.stem for path in (ROOT / "scenes").glob("*.toml"))


@lru_cache
def harbour(room: str) -> Lesson:
    return study("harbour-water-cycle", str(ROOT / "examples" / f"{room}.toml"))


def read_cautions(scene: str) -> tuple[str, ...]:
    return tuple(tomllib.loads((ROOT / "scenes" / f"{scene}.toml").read_text(encoding="utf-8"))["cautions"])


@pytest.fixture(scope="module")
def text() -> str:
    return TEXT(pages(sample("teacher")))


def test_the_sections_come_in_the_order_of_the_work(text: str) -> None:
    heads = [
        "For the teacher",
        "Aim",
        "Pupils will be able to say",
        "Get out",
        "Print, in black and white",
        "Noise",
        "Cautions",
        "The lesson, step by step",
        "Or otherwise",
        "Who plays what",
        "Where to sit",
        "Model answers to “Our sound, and why”",
        "What pupils may think",
        "Appendix: to read on a screen",
        "The story, to read aloud",
        "How to adapt it",
        "The science in short",
        "How each quantity changes",
        "What the model leaves out",
        "How science becomes sound",
        "What the checks noted",
        "Answers to the pupils' sheets",
        "What to look and listen for",
        "Where it fits in the curriculum",
        "Credits and sources",
    ]
    places = [text.index(head) for head in heads]
    assert places == sorted(places)


def test_without_a_story_there_is_no_heading_for_one() -> None:
    lesson = sample_lesson()
    printed = TEXT(pages(made("teacher", replace(lesson, scene=replace(lesson.scene, story="")))))
    assert "The story, to read aloud" not in printed


def test_all_that_the_scene_says_is_printed(text: str) -> None:
    scene = sample_lesson().scene
    wanted = [scene.story, *scene.curriculum, *scene.cautions, *scene.teacher_notes, *sample_lesson().process.honesty]
    for m in scene.misconceptions:
        wanted += [m.belief, m.correction, m.ask]
    for q in scene.questions:
        wanted += [q.ask, q.answer]
    for words in wanted:
        assert words in text


def test_the_key_is_printed_with_its_reason_exaggeration_and_verdict(text: str) -> None:
    (key,) = sample_lesson().controls.keys
    for words in (key.sentence, key.rule.why, key.exaggeration_words, key.verdict, *sum(key.values, ())):
        assert words in text


def test_whose_quantity_the_beat_follows_is_said(text: str) -> None:
    assert "The beat follows the journey temperature of the water on its journey, and nothing else." in text


def test_a_busy_stage_that_is_not_the_quickest_is_explained_with_its_figures() -> None:
    # by hand: only the storm left, its 16 strokes fall in the four bars of the last stage, at 80 bpm and not 104
    lesson = sample_lesson()
    score = replace(lesson.score, parts=tuple(p for p in lesson.score.parts if p.name in ("count-in", "The storm")))
    found = beat_statements(replace(lesson, score=score))
    assert len(found) == 2
    assert "Precipitation is the busiest stage, with 4 sounds a bar at 80 bpm" in found[1]
    assert "Condensation is the quickest, at 104 bpm with 0" in found[1]
    assert "A slow beat does not mean that little is happening." in found[1]


def test_where_the_busiest_stage_is_the_quickest_nothing_needs_explaining() -> None:
    lesson = sample_lesson()
    score = replace(lesson.score, parts=tuple(p for p in lesson.score.parts if p.name in ("count-in", "The cloud")))
    assert len(beat_statements(replace(lesson, score=score))) == 1


def test_what_the_scene_says_about_the_curriculum_is_not_said_twice() -> None:
    lesson = sample_lesson()
    said = ("Enrichment: particles come at key stage 3.", "Checked against the 2013 programmes.")
    found = teacher_data(replace(lesson, scene=replace(lesson.scene, curriculum=said)))["curriculum"]
    assert found == list(said)


def test_without_a_rule_for_the_beat_the_sheet_says_so() -> None:
    lesson = sample_lesson()
    found = beat_statements(replace(lesson, controls=replace(lesson.controls, keys=())))
    assert found == ["The beat is the same throughout: no rule of this scene changes it."]


def test_uneven_time_is_stated_with_the_quickest_and_the_slowest_stage() -> None:
    # by hand: 36,400 s in 4 bars are 9,100 s = 2.5 hours a bar; 20,000 s in 4 bars are 5,000 s = 1.4 hours
    found = teacher_data(sample_lesson())["science"]["uneven"]
    assert "Precipitation puts 2 hours 30 minutes into each bar, Condensation 83 minutes" in found


def test_stages_have_their_times_of_day_and_their_bars(text: str) -> None:
    assert "06:00 to 14:20" in text and "19:53 to 06:00 next day" in text
    assert "8 hours 20 minutes in 4 bars" in text


def test_answers_agree_with_the_pupils_sheets(text: str) -> None:
    assert "Order of the stages: Evaporation, Condensation and Precipitation." in text
    answers = teacher_data(sample_lesson())["answers"]["words"]
    rows = [page for page in pages(sample("pupils")) if "Words to know" in page][0]
    meanings = {word.word: word.meaning for word in sample_lesson().scene.vocabulary}
    words = [numbered.split(" ", 1)[1] for numbered in answers]
    assert [rows.index(meanings[word]) for word in words] == sorted(rows.index(m) for m in meanings.values())


def test_a_cycle_leads_back_to_its_first_stage() -> None:
    lesson = replace(sample_lesson(), process=replace(sample_lesson().process, cycle=True))
    assert teacher_data(lesson)["answers"]["flow"].endswith("Precipitation, and back to Evaporation.")


def test_care_with_sound_and_heat_defers_to_the_employer(text: str) -> None:
    assert "no louder than ordinary speech" in text
    assert "teacher demonstration only" in text  # the scene's own, so that it is not said twice
    assert "are for the teacher alone" not in text
    assert "Hot liquid can scald" in text
    assert "employer's risk assessment and the school's own rules come first" in text


@pytest.mark.parametrize("scene", SCENES)
def test_no_caution_is_given_twice(scene: str) -> None:
    found = cautions(read_cautions(scene))
    text = " ".join(found)
    for words in ("as loud as people talk|no louder than ordinary speech", "half an hour", "two pupils carry"):
        assert len(re.findall(words, text)) == 1, words
    assert "hearing aids" in text and "put down, not dropped" in text
    assert "Beaters go down at the stop signal" in text


def test_a_pitch_rule_says_which_notes_it_has_in_this_class() -> None:
    lesson = harbour("well-stocked")
    found = teacher_data(lesson)
    # by hand: the journey's own notes are the alto glockenspiel's bars from its low C to the A of its second octave
    assert [key["arranged"] for key in found["keys"] if "pitch" in key["title"]] == [
        ["The journey, C to A′ on its bars."]
    ]
    assert "C4 is middle C" in found["naming"]


def test_a_class_of_another_year_than_the_science_is_told() -> None:
    lesson = sample_lesson()
    science = ("England, science, Year 4, states of matter.", "England, music, key stage 2.")
    at = {
        year: year_note(
            replace(
                lesson,
                scene=replace(lesson.scene, curriculum=science),
                classroom=replace(lesson.classroom, year=year),
            )
        )
        for year in (3, 4, 5)
    }
    assert at[4] == ""
    assert "This class is Year 5" in at[5] and "for Year 4: come back to it" in at[5]
    assert "This class is Year 3" in at[3] and "leave the assessment of the science for later" in at[3]
    several = ("England, science, Years 3 to 6, working scientifically.",)
    assert year_note(replace(lesson, scene=replace(lesson.scene, curriculum=several))) == ""
    apart = ("England, science, Year 3, light.", "England, science, Years 5 and 6, space.", *several)
    room = replace(lesson.classroom, year=4)
    told = year_note(replace(lesson, scene=replace(lesson.scene, curriculum=apart), classroom=room))
    assert "for Year 3, Year 5 and Year 6: assess what your class has had" in told
    assert year_note(replace(lesson, scene=replace(lesson.scene, curriculum=()))) == ""


def test_an_instrument_that_stays_in_the_cupboard_is_told_of_unless_a_swap_tells_it() -> None:
    # by hand: two pairs of maracas are too few for the seven pupils of the sea, who have six home-made shakers
    lesson = harbour("few-instruments")
    assert left_over(lesson) == ["2 maracas would suit “The sea” too, but are not enough for its 7 pupils."]
    more = replace(lesson, classroom=replace(lesson.classroom, cupboard=(Stock(instrument="ocean-drum", count=1),)))
    assert left_over(more) == []  # the swap of the ocean drum says that already


def test_the_assessment_grid_has_three_levels_of_every_aim_and_room_for_names() -> None:
    lesson = harbour("well-stocked")
    found = grid(lesson)
    assert [g["subject"] for g in found] == ["Science", "Music"]
    rows = [aim for g in found for aim in g["aims"]]
    assert len(rows) == 7 and all(len(set(row)) == 4 and all(row) for row in rows)
    science = " ".join(sum(found[0]["aims"], []))
    assert "Puts all 5 stages in order" in science and "evaporation and water vapour" in science
    assert "more journey temperature: the beat is quicker" in science
    page = next(text for text in pages(made("teacher", lesson)) if "What to look and listen for" in text)
    assert page.count("Names:") == 21


def test_the_answers_hold_those_of_the_listening_check() -> None:
    lesson = harbour("well-stocked")
    items, rows = listening_items(lesson), teacher_data(lesson)["answers"]["listening"]
    assert len(rows) == len(items) >= 3
    for item, row in zip(items, rows, strict=True):
        assert row["answer"] == f"{'abc'[item.answer]}) {say(item.choices[item.answer].words)}"
        assert f"{item.clips[0].bar} to {item.clips[0].bar + item.clips[0].bars - 1}" in row["play"]
    two = next(row for row, item in zip(rows, items, strict=True) if len(item.clips) == 2)
    assert "clip a: bars" in two["play"] and "clip b: bars" in two["play"]


def test_how_to_adapt_names_this_lessons_groups() -> None:
    def told(room: str) -> dict[str, str]:
        lesson = harbour(room)
        return {row["who"]: row["what"] for row in teacher_data(lesson)["adapt"]}

    rich, poor = told("well-stocked"), told("few-instruments")
    assert "“The warm shallows”, “The river” and “The journey” have notes" in rich["No tuned instruments"]
    assert "This pack needs none" in poor["No tuned instruments"]
    assert "far from group 1" in rich["Pupils who bear noise badly"]  # the suspended cymbal's
    assert "has no sudden loud sounds" in poor["Pupils who bear noise badly"]
    assert "Take off the bars" in rich["Pupils who see little or nothing"]
    assert "Take off the bars" not in poor["Pupils who see little or nothing"]


def test_particles_are_said_to_be_beyond_the_key_stage(text: str) -> None:
    assert "the particle model belongs to key stage 3" in text
    assert "Checked against the 2013 programmes of study" in text


def test_findings_missing_stages_and_held_values_are_owned_up_to() -> None:
    lesson = sample_lesson()
    curve = lesson.controls.curves[0]
    held = ControlCurve(rule=curve.rule, part=None, quantity_values=np.ones(48), results=np.ones(48), held=3)
    threshold = Threshold(
        control="tempo", measure="step", asked=6.0, unit="%", published="2.5 %", source="A paper", status="abstract"
    )
    lesson = replace(
        lesson,
        findings=(*lesson.findings, Finding(kind="science", message="No cloud forms.", fix="Raise the humidity.")),
        timeline=replace(
            lesson.timeline,
            missing=(Missing(stage="collection", reason="It never rains", condition="humidity", fix="Try 80 %."),),
        ),
        controls=replace(lesson.controls, curves=(held,), thresholds=(threshold,)),
    )
    text = TEXT(pages(made("teacher", lesson)))
    assert "Problems to mend before the lesson" in text and "No cloud forms. Raise the humidity." in text
    assert "collection does not come: It never rains. Try 80 %." in text
    assert "On 3 beats the quantity lay outside this range and the nearer end was held." in text
    assert "A paper (abstract)" in text


def test_the_shelf_list_counts_each_instrument_once_for_a_group_that_plays_it_twice() -> None:
    # the sample's group 4 has one cymbal in both its parts
    have = {row["what"]: row["have"] for row in shelf(sample_lesson())}
    assert have["1 suspended cymbal"] == 1
    assert have["3 alto xylophones"] == 3


def test_voices_and_hands_are_not_on_the_shelf_list() -> None:
    lesson = sample_lesson()
    from tests.catalogue import catalogue

    seats = (Seat(instrument="claps", players=5, count=5),)
    parts = tuple(replace(p, instrument="claps", seats=seats) if p.group == 1 else p for p in lesson.score.parts)
    score = replace(lesson.score, parts=parts, instruments=(*lesson.score.instruments, catalogue()["claps"]))
    changed = replace(lesson, score=score)
    found = teacher_data(changed)
    assert all("clap" not in row["what"] for row in shelf(changed))
    assert found["groups"][0]["seats"] == ["claps, 5 players"]


def test_loud_instruments_are_pointed_out_in_the_seating() -> None:
    found = {g["group"]: g["loud"] for g in teacher_data(sample_lesson())["groups"]}
    assert found == {1: [], 2: [], 3: [], 4: ["suspended cymbal"]}


def test_what_is_not_there_is_not_warned_of() -> None:
    bare = " ".join(cautions(("Sit apart.",), heat=False, instruments=False))
    assert "xylophone" not in bare and "beaters" not in bare and "Kettles" not in bare and "hearing aids" in bare
    assert "Kettles" in " ".join(cautions(("Sit apart.",)))


@pytest.mark.parametrize(("scene", "hot"), [("playground-pulse", False), ("ice-on-the-hob", True)])
def test_heat_is_warned_of_where_the_scene_deals_with_it(scene: str, hot: bool) -> None:
    assert deals_with_heat(studied(scene).scene) is hot


def test_the_quickest_stage_is_the_quickest_on_average() -> None:
    """By hand: bars 1 to 4 at 120, 90, 60 and 30 last 2, 2 2/3, 4 and 8 s: 16 beats in 16 2/3 s, 57.6 a minute."""
    lesson = sample_lesson()
    tempi = tuple(Tempo(bar=1 + i, bpm=120 - 30 * i) for i in range(4)) + lesson.score.tempi[1:]
    score = replace(lesson.score, tempi=tempi)
    lesson = replace(lesson, score=score)
    assert mean_bpm(lesson, score.sections[0]) == pytest.approx(57.6)
    assert "stage A (the slowest), then stage B (the quickest)" in say(comparing(lesson))


def test_the_key_prints_the_loudness_that_is_played() -> None:
    lesson = studied("valley-snow-melt", "few-instruments")
    assert lesson.score.gentle
    marks = {mark.mark for part in lesson.score.group_parts for mark in part.dynamics}
    rows = [row for key in teacher_data(lesson)["keys"] if "dynamics" in key["title"] for row in key["stages"]]
    assert rows
    assert {mark for row in rows for mark in row[2].split(" to ")} <= marks | {"not played"}
