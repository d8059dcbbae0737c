"""What a scene's author wrote, at settings and for classes that nobody prepared it for."""

from __future__ import annotations

import re
from dataclasses import replace
from functools import cache
from pathlib import Path

import pytest

from sonify import lesson
from sonify.facts.fitting import figures, left_out, speaks_of
from sonify.inputs.scene_file import read_scene
from sonify.records.classroom import Classroom
from sonify.records.lesson import Lesson
from sonify.say import say
from sonify.storage.shelf import bytes_of, scene_path
from sonify.study.reading import of_other_readings
from tests.studies import SCENES, studied


@cache
def three_groups() -> Lesson:
    """Five pupils in each of three groups: no group can halve, and one of the six parts finds no players."""
    classroom: Classroom = replace(studied("harbour-water-cycle").classroom, pupils=15, groups=3)
    return lesson.study("harbour-water-cycle", classroom)


def test_nothing_speaks_of_a_part_that_nobody_plays() -> None:
    found, whole = three_groups(), studied("harbour-water-cycle").scene
    assert left_out(whole, found.score) == ("The rain",)
    assert all(key.rule.part != "The rain" for key in found.controls.keys)
    assert all(curve.part != "The rain" for curve in found.controls.curves)
    texts = [(q.ask, q.answer) for q in found.scene.questions]
    texts += [(m.correction, m.ask) for m in found.scene.misconceptions]
    assert not [pair for pair in texts if "rain group" in " ".join(pair)]
    assert len(found.scene.questions) == len(whole.questions) - 1
    (note,) = [note for note in whole.teacher_notes if "rain group" in note]
    assert "Nobody plays The rain" in say(found.scene.remarked(note))
    (told,) = [finding for finding in found.problems if finding.part == "The rain"]
    assert "left out" in say(told.message) and "4 groups" in say(told.fix)


def test_the_key_tells_of_the_stages_in_which_a_part_plays() -> None:
    """The river rests while it rains, for its group plays another part: nothing is said to be heard of it there."""
    found = three_groups()
    (key,) = [key for key in found.controls.keys if key.rule.part == "The river"]
    assert len(key.stages) == 1
    assert "Rain falls" not in say(key.verdict)


@pytest.mark.parametrize(
    ("text", "part", "spoken"),
    [
        ("The rain group played more and more taps.", "The rain", True),
        ("Listen to the group of the rain.", "The rain", True),
        ("The sea plays at both ends.", "The sea", True),
        ("so the sea would play more softly", "The sea", True),
        ("Rain must be salty, because it comes from the sea.", "The rain", False),
        ("It is raining on the hill.", "The rain", False),
        ("The trains group together.", "The rain", False),
    ],
)
def test_a_part_is_spoken_of_by_its_name_as_something_played(text: str, part: str, spoken: bool) -> None:
    assert speaks_of(text, part) is spoken


@pytest.mark.parametrize(
    ("text", "held"),
    [
        ("dry after 5 hours", {"5"}),
        ("about two hundredths faster", {"two"}),
        ("takes nearly seven times as much", {"seven"}),
        ("highest between three and half past four", {"three", "half"}),
        ("Twenty. Twenty-three.", {"twenty", "twenty-three"}),
        ("It races: twenty, fifty, ninety. A hundred!", {"twenty", "fifty", "ninety", "a hundred"}),
        ("Minus eighteen.", {"minus eighteen"}),
        ("Three jars, and one tap.", set()),
        ("Count in: one, two, three.", set()),
        ("Two saucers with the same water.", set()),
        ("England, Year 4: states of matter.", set()),
        ('Try wind = "1 m/s".', set()),
    ],
)
def test_a_figure_is_a_number_that_a_setting_could_change(text: str, held: set[str]) -> None:
    assert figures(text) == held


@pytest.mark.parametrize("name", SCENES)
def test_a_scene_as_it_stands_is_told_whole(name: str) -> None:
    told, written = studied(name).scene, lesson.load(name)
    assert (told.stages, told.questions, told.misconceptions, told.rules, told.remarks) == (
        written.stages,
        written.questions,
        written.misconceptions,
        written.rules,
        (),
    )


def test_a_figure_without_a_claim_is_doubted_at_another_setting() -> None:
    scene = lesson.load("ice-on-the-hob", {"power": "900 W"})
    found = lesson.study(scene)
    (told,) = [finding for finding in found.problems if finding.kind == "claim"]
    assert "seven times as much" in say(told.message) and "126 kilojoules" in say(told.message)
    captions = {each.stage: each.caption for each in found.scene.stages}
    assert captions["ice"] == ""  # "from minus 18 degrees": the freezer may be another
    assert "0 degrees" in captions["melting"]  # its claims hold the figure, and hold
    (asked,) = [q for q in found.scene.questions if "126 kilojoules" in q.answer]
    assert "Check the figures" in say(found.scene.remarked(asked.answer))


def test_what_is_claimed_falsely_at_another_setting_is_not_told_to_pupils() -> None:
    text = bytes_of(scene_path("harbour-water-cycle"), what="scene").decode()
    wrong = text.replace('claims  = ["the sunlight rises"]', 'claims  = ["the sunlight falls"]')
    scene = read_scene(wrong, file="x.toml", name="x")
    assert lesson.study(scene).scene.stages[0].caption  # as written, under its own settings
    changed = lesson.study(replace(scene, conditions=scene.conditions[:-1]), before=scene)
    assert not changed.scene.stages[0].caption


def test_a_question_about_a_stage_that_never_came_says_so() -> None:
    """Without sun and wind the puddle is not dry in a day: nobody can ask about the silence at its end."""
    still = {"wind": "0.5 m/s", "sunlight": "0 W/m**2"}
    found = lesson.study(lesson.load("playground-puddle", still)).scene
    (asked,) = [q for q in found.questions if "silence" in q.ask]
    assert "dry, does not come here" in say(found.remarked(asked.answer))
    whole = studied("playground-puddle").scene
    assert whole.remarked(asked.answer) == asked.answer


@pytest.mark.parametrize(
    ("scene", "text", "remark"),
    [
        ("the-cake-case", "It climbed quickly.", "The case rests in “Falling steadily”"),
        ("how-late-is-the-moon", "It climbed. The Moon", "The lateness rests in “The crescent grows”"),
    ],
)
def test_beside_an_answer_stands_where_the_part_it_speaks_of_rests(scene: str, text: str, remark: str) -> None:
    """Year 3 hears two parts at once: a tune that "stayed on its high notes" rested in that stage."""
    young = Classroom(year=3, pupils=24, groups=5, name="empty cupboard")
    told = {answer: say(words) for answer, words in lesson.study(scene, young).scene.remarks}
    assert [words for answer, words in told.items() if answer.startswith(text) and remark in words]
    assert studied(scene).scene.remarks == ()


def test_a_class_with_readings_of_its_own_is_not_told_what_was_written_for_others(tmp_path: Path) -> None:
    """The file says "write your own over them": pupils then read "in the warm place the dough climbs and climbs" of
    dough that sank."""
    name = "dough-in-three-bowls"
    text = scene_path(name).read_text(encoding="utf-8")
    own = "The first 20 minutes. Is anything happening at all?"
    assert own in text
    (tmp_path / f"{name}.toml").write_text(text.replace(own, "Our first 20 minutes by the window."), encoding="utf-8")
    head = scene_path(name).with_suffix(".csv").read_text(encoding="utf-8").splitlines()[:4]
    warm, shelf, fridge = (
        [4, 4.1, 4.2, 4.3, 4.3, 4.2, 4.1, 4, 4, 4],
        [4, 5.2, 6.9, 8.4, 9.9, 10.8, 11, 9.2, 7.1, 6.4],
        [4, 4.5, 5, 5.9, 6.6, 7.4, 8.1, 8.9, 9.6, 9.9],
    )
    rows = [f"{10 * n},{a},{b},{c}" for n, (a, b, c) in enumerate(zip(warm, shelf, fridge, strict=True))]
    (tmp_path / f"{name}.csv").write_text("\n".join([*head, *rows]) + "\n", encoding="utf-8")
    found = lesson.study(tmp_path / f"{name}.toml")
    pupils = [say(section.caption) for section in found.score.sections]
    pupils += [part.meaning for part in found.score.group_parts]
    read = "\n".join(pupils)
    for wrong in ("climbs and climbs", "come to its top", "You climb fast", "still climbing", "too cold for you"):
        assert wrong in " ".join(text.split()) and wrong not in read
    assert "Our first 20 minutes by the window." in read, "what the teacher wrote herself stays"
    assert any("its readings are others here" in say(finding.message) for finding in found.findings)
    assert any("readings are others" in say(words) for _, words in found.scene.remarks)
    same = tmp_path / "same"
    same.mkdir()
    for suffix in (".toml", ".csv"):
        (same / f"{name}{suffix}").write_bytes(scene_path(name).with_suffix(suffix).read_bytes())
    assert lesson.study(same / f"{name}.toml").scene.remarks == ()


@pytest.mark.parametrize("scene", ["dough-in-three-bowls", "the-sea-that-stayed-warm"])
def test_the_same_readings_saved_by_a_spreadsheet_are_no_others(scene: str, tmp_path: Path) -> None:
    """Line ends of Windows and a byte order mark in front, as spreadsheets save CSV (common practice)."""
    (tmp_path / f"{scene}.toml").write_bytes(scene_path(scene).read_bytes())
    shipped = scene_path(scene).with_suffix(".csv").read_bytes()
    saved = b"\xef\xbb\xbf" + shipped.replace(b"\r\n", b"\n").replace(b"\n", b"\r\n")
    assert saved != shipped
    (tmp_path / f"{scene}.csv").write_bytes(saved)
    assert of_other_readings(lesson.load(tmp_path / f"{scene}.toml")) is None
    (tmp_path / f"{scene}.csv").write_bytes(re.sub(rb"(\d)(\r?\n)$", lambda m: bytes([m[1][0] ^ 1]) + m[2], saved))
    assert of_other_readings(lesson.load(tmp_path / f"{scene}.toml")) is not None
