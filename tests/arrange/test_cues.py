"""What the conductor does."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from sonify.records.score import Cue, Score
from sonify.say import say
from tests.arrange.lessons import WATER, Sketch, part, well_stocked


def of(score: Score, action: str) -> list[Cue]:
    return [cue for cue in score.cues if cue.action == action]


def test_every_entry_has_its_cue_with_the_mark_and_the_reason() -> None:
    score = WATER.score()
    wanted = {(p.name, entry.bar) for p in score.group_parts for entry in p.entries}
    assert {(cue.part, cue.bar) for cue in (*of(score, "enter"), *of(score, "change"))} == wanted
    for cue in of(score, "enter"):
        section = score.section_at(cue.bar)
        assert section is not None and say(section.caption) in say(cue.why)
        assert cue.detail.split(",")[0] in ("pp", "p", "mp", "mf", "f", "ff")


def test_every_exit_has_its_cue() -> None:
    score = WATER.score()
    for p in score.group_parts:
        bars = {bar for entry in p.entries for bar in range(entry.bar, entry.bar + entry.bars)}
        exits = {bar for bar in range(2, score.bars + 1) if bar - 1 in bars and bar not in bars}
        assert {cue.bar for cue in of(score, "rest") if cue.part == p.name} == exits


def test_each_step_of_the_tempo_has_its_cue() -> None:
    score = WATER.score()
    assert [(cue.bar, cue.detail) for cue in of(score, "tempo")] == [
        (11, "104 bpm"),
        (25, "80 bpm"),
        (37, "72 bpm"),
        (53, "84 bpm"),
    ]
    assert "quicker" in of(score, "tempo")[0].gesture and "slower" in of(score, "tempo")[1].gesture


def test_a_new_tempo_says_which_way_and_why_with_the_stages_figures() -> None:
    """Straight from 280 K to 290 K over five stages: over the second's 56 beats 282 K + 2 K * 27.5 / 56 = 9.83 °C."""
    quicker, slower, *_ = of(WATER.score(), "tempo")
    assert quicker.why == "Quicker: the warmth rises, 9.83 °C on average."
    assert slower.why.startswith("Slower: the warmth rises, ") and slower.why.endswith(" °C on average.")


def test_a_gliding_tempo_has_one_cue_a_stage() -> None:
    score = replace(WATER, glide=True).score()
    assert len(score.tempi) > 20
    assert len(of(score, "tempo")) <= len(score.sections)
    first = of(score, "tempo")[0]
    assert "Little by little" in first.gesture
    # Ten bars from 66 towards the next stage's 104: the tenth has 66 + 38 * 9 / 10 = 100.
    assert first.detail == "little by little from 66, reaching 100 bpm at bar 10"


def test_a_glide_that_nobody_hears_is_steady_until_it_has_added_up() -> None:
    """80 to 83 is 4 %, to 86 7 %: the second stage is told, the first and the third (1 %) are not."""
    sketch = replace(WATER, stages=(("one", 16, 80.0), ("two", 16, 83.0), ("three", 16, 86.0), ("four", 16, 87.0)))
    told = of(replace(sketch, glide=True, curves=()).score(), "tempo")
    assert [cue.bar for cue in told] == [17]
    assert told[0].detail.startswith("little by little from 83, reaching 86 bpm")


def test_a_reason_goes_the_way_of_the_loudness() -> None:
    """Whatever goes up and down, "louder" is never explained by less of what is louder when it is more."""
    names = ("a", "b", "c", "d", "e", "f", "g", "h")
    wave = (40.0, 90.0, 40.0, 90.0, 40.0, 95.0, 60.0, 100.0, 40.0)
    score = Sketch(
        stages=tuple((name, 8, 90.0) for name in names),
        parts=(part("It", "drone", "ocean drum"), part("That", "tremolo", "hand drum")),
        curves=(("dynamics", "It", wave), ("dynamics", "That", wave[::-1])),
        classroom=well_stocked(groups=2, pupils=12),
    ).score()
    told = [cue for cue in (*of(score, "louder"), *of(score, "softer")) if cue.why]
    assert told
    for cue in told:
        assert ("falls" not in cue.why) if cue.action == "louder" else ("rises" not in cue.why)


def test_nothing_grows_towards_a_climax_that_is_over() -> None:
    score = replace(WATER, curves=()).score()
    grown = [cue.bar for cue in of(score, "louder") if "fullest moment" in cue.why]
    stages = {section.title: section for section in score.sections}
    for cue in of(score, "louder"):
        if "fullest moment" in cue.why:
            section = stages[cue.why.rpartition(": ")[2].rstrip(".")]
            assert cue.bar < section.bar + section.bars
    assert grown


def test_start_and_stop() -> None:
    score = WATER.score()
    assert (score.cues[0].bar, score.cues[0].action) == (1, "start")
    last = score.cues[-1]
    assert (last.bar, last.beat, last.action) == (64, F(4), "stop")


def test_a_teacher_can_manage_them() -> None:
    for groups in (4, 5, 8):
        score = replace(WATER, classroom=well_stocked(groups=groups, pupils=30)).score()
        moments = {(cue.bar, cue.beat) for cue in score.cues}
        assert len(moments) <= score.bars / 2
        for cue in (*of(score, "louder"), *of(score, "softer")):
            together = [other for other in score.cues if (other.bar, other.beat) == (cue.bar, cue.beat)]
            assert sum(other.action not in ("louder", "softer") for other in together) <= 1


@pytest.mark.parametrize("groups", [4, 5, 8])
def test_marks_and_cues_are_one_list(groups: int) -> None:
    score = replace(WATER, classroom=well_stocked(groups=groups, pupils=30)).score()
    for p in score.group_parts:
        told = {
            (cue.bar, cue.detail.split(",")[0])
            for cue in score.cues
            if cue.action in ("enter", "change", "louder", "softer") and cue.part in ("", p.name)
        }
        marked, leading = set(), ""
        for mark, after in zip(p.dynamics, (*p.dynamics[1:], None), strict=True):
            starts = any(entry.bar == mark.bar for entry in p.entries)
            if starts or not (mark.hairpin or leading):
                marked.add((mark.bar, mark.mark))
            if mark.hairpin:
                assert after is not None
                marked.add((mark.bar, f"{after.mark} by bar {after.bar}"))
            leading = mark.hairpin
        bars = {bar for entry in p.entries for bar in range(entry.bar, entry.bar + entry.bars)}
        assert {one for one in told if one[0] in bars} == marked


def test_reasons_are_science_or_nothing() -> None:
    score = WATER.score()
    said = " ".join(say(cue.why) for cue in score.cues)
    assert "work is done" not in said and "others are heard" not in said and "ebbs away" not in said
    titles = {section.bar: section.title for section in score.sections}
    for cue in of(score, "rest"):
        assert say(cue.why).startswith(titles[cue.bar]) if cue.bar in titles else cue.why == ""


def test_a_change_of_pattern_is_shown_with_fingers() -> None:
    score = Sketch(
        stages=(("one", 32, 60.0),),
        parts=(part("It", "ostinato", "claves"),),
        curves=(("density", "It", (0.5, 1.75)),),
        classroom=well_stocked(groups=1, pupils=6),
    ).score()
    changes = of(score, "change")
    first = score.group_parts[0].entries[0].bar
    assert [cue.bar for cue in of(score, "enter")] == [first]
    assert changes and all("fingers: Pattern" in cue.gesture for cue in changes)


def test_a_change_without_a_pattern_says_what_is_to_be_played() -> None:
    score = Sketch(
        stages=(("one", 32, 80.0),),
        parts=(part("It", "tremolo", "hand drum"),),
        classroom=well_stocked(groups=1, pupils=6),
    ).score()
    told = [cue.gesture for cue in of(score, "change")]
    assert "Show the change with an open hand: denser, everybody a little faster." in told
