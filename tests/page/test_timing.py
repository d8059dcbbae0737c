"""Bars, stages, entrances and cues as the page's scripts read them."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from sonify.page.timing import (
    ACTION_WORDS,
    BEAT_WAYS,
    bar_rows,
    bars_with_notes,
    dynamic_rows,
    entrances,
    moments,
    spans,
    stage_rows,
    tempo_change,
    timing,
)
from sonify.records.score import Blank, DynamicMark, Entry, Part
from tests.sample import sample_score


def part(name: str) -> Part:
    return next(p for p in sample_score().parts if p.name == name)


def test_bars_start_where_the_stored_tempo_puts_them() -> None:
    rows = bar_rows(sample_score())
    assert [row[0] for row in rows] == list(range(-1, 13))
    # By hand: 66 a minute is stored as 909091 us a beat, 104 as 576923, 80 as 750000; four beats a bar.
    assert rows[0] == [-1, 0.0, pytest.approx(0.909091)]
    assert rows[2][1] == pytest.approx(8 * 0.909091)
    assert rows[6] == [5, pytest.approx(24 * 0.909091), pytest.approx(0.576923)]
    assert rows[10] == [9, pytest.approx(24 * 0.909091 + 16 * 0.576923), pytest.approx(0.75)]
    assert timing(sample_score())["endS"] == pytest.approx(rows[-1][1] + 4 * 0.75)


def test_every_bar_begins_where_the_one_before_ends() -> None:
    rows = bar_rows(sample_score())
    for (_, start, per_beat), (_, following, _) in zip(rows, rows[1:], strict=False):
        assert start + 4 * per_beat == pytest.approx(following, abs=1e-9)


def test_stages_follow_each_other_and_name_their_tempo() -> None:
    rows = stage_rows(sample_score())
    assert [(row["letter"], row["bar"], row["bars"], row["tempo"]) for row in rows] == [
        ("A", 1, 4, "66"),
        ("B", 5, 4, "104"),
        ("C", 9, 4, "80"),
    ]
    assert rows[0]["endS"] == rows[1]["startS"]


def test_a_stage_whose_tempo_glides_names_both_ends() -> None:
    score = sample_score()
    first = score.tempi[0]
    gliding = replace(score, tempi=(first, replace(first, bar=2, bpm=70), replace(first, bar=3, bpm=75)))
    assert stage_rows(gliding)[0]["tempo"] == "66 to 75"
    assert stage_rows(gliding)[1]["tempo"] == "75"


def test_what_is_heard_is_the_instruction_or_the_texture_in_plain_words() -> None:
    score = sample_score()
    assert spans(part("The sea"), score) == [[1, 13, "one slow wave a bar"]]
    assert spans(part("Rising vapour"), score) == [[3, 7, "Pattern A: a repeated pattern"]]
    assert spans(part("The cloud"), score) == [[6, 9, "a tune"]]


def test_a_blank_counts_as_playing_and_says_what_to_invent() -> None:
    with_blank = replace(part("The cloud"), blanks=(Blank(bar=9, bars=2, ask="Invent the cloud."),))
    assert spans(with_blank, sample_score())[-1] == [9, 11, "your own idea: Invent the cloud."]
    assert entrances(with_blank, sample_score()) == [6]


def test_a_part_without_entries_plays_where_it_has_notes() -> None:
    score = sample_score()
    bare = replace(part("Rising vapour"), entries=())
    assert bars_with_notes(bare, score) == [(3, 4)]
    held = replace(bare, notes=(replace(bare.notes[0], beat=F(3), beats=F(2)),))
    assert bars_with_notes(held, score) == [(1, 2)]


def test_an_entrance_is_only_what_comes_after_silence() -> None:
    twice = replace(
        part("The sea"),
        entries=(Entry(bar=1, bars=4), Entry(bar=5, bars=2), Entry(bar=9, bars=2), Entry(bar=10, bars=3)),
    )
    assert entrances(twice, sample_score()) == [1, 9]


def test_loudness_is_said_in_words() -> None:
    marks = (DynamicMark(bar=1, mark="pp"), DynamicMark(bar=3, mark="mf", hairpin="dim"))
    rows = dynamic_rows(replace(part("The sea"), dynamics=marks))
    assert rows == [[1, "pp", "very soft"], [3, "mf", "fairly loud, getting softer"]]


def test_cues_on_one_beat_are_one_moment_and_no_entrance_is_lost() -> None:
    found = moments(sample_score())
    assert [moment["beat"] for moment in found] == [0, 8, 16, 20, 24, 32, 47]
    start = [(line["who"], line["action"]) for line in found[0]["lines"]]
    assert start == [("Everyone", "start"), ("The sea", "enter")], "no cue names the sea's entrance"
    assert [line["who"] for line in found[1]["lines"]] == ["Rising vapour"], "a cue's entrance is not told twice"
    assert found[2]["lines"][0]["what"] == "quicker, 104 beats a minute"
    assert found[2]["lines"][0]["reason"] == "Warmer"
    assert found[1]["lines"][0]["group"] == 2


def test_cues_on_one_beat_go_by_group_and_say_how_loud() -> None:
    score = sample_score()
    names = ["The rain", "Rising vapour", "The sea"]
    cues = [replace(score.cues[1], bar=9, part=name, action="louder", detail="f by bar 11") for name in names]
    found = moments(replace(score, cues=tuple(cues)))
    lines = [line for moment in found for line in moment["lines"] if line["action"] == "louder"]
    assert [line["group"] for line in lines] == sorted(part(name).group for name in names)
    assert {line["what"] for line in lines} == {"louder, to loud (f) by bar 11"}


def test_a_cue_to_enter_for_a_part_that_plays_already_is_a_change() -> None:
    score = sample_score()
    again = replace(score.cues[1], bar=5, gesture="Show two fingers: Pattern B")
    line = next(
        line
        for moment in moments(replace(score, cues=(*score.cues, again)))
        for line in moment["lines"]
        if line["gesture"] == again.gesture
    )
    assert (line["action"], line["what"]) == ("change", "change")


def test_a_cue_to_change_is_a_change_and_no_entrance_is_told_beside_it() -> None:
    score = sample_score()
    turned = tuple(replace(cue, action="change") if cue.part == "The cloud" else cue for cue in score.cues)
    lines = [line for moment in moments(replace(score, cues=turned)) for line in moment["lines"]]
    assert [(line["action"], line["what"]) for line in lines if line["who"] == "The cloud"] == [("change", "change")]


def test_a_new_tempo_says_why_and_the_rules_general_reason_gives_way_to_the_averages() -> None:
    averages = {5: "20 °C on average now, 17 °C before"}
    first = moments(sample_score(), "As the rule has it.", averages)[2]["lines"][0]
    assert first["reason"] == "Warmer", "the cue's own reason"
    second = moments(sample_score(), "Warmer", averages)[2]["lines"][0]
    assert second["reason"] == averages[5]
    assert {line["reason"] for line in moments(sample_score(), "Warmer")[2]["lines"]} == {""}


def test_a_cues_reason_does_not_say_quicker_again() -> None:
    score = sample_score()
    cues = tuple(replace(c, why="Quicker: the water is warmer.") if c.action == "tempo" else c for c in score.cues)
    line = moments(replace(score, cues=cues))[2]["lines"][0]
    assert (line["what"], line["reason"]) == ("quicker, 104 beats a minute", "the water is warmer.")


def test_a_gliding_tempo_names_where_the_stage_takes_it() -> None:
    score = sample_score()
    first = score.tempi[0]
    tempi = (first, replace(first, bar=6, bpm=70), replace(first, bar=8, bpm=92), replace(first, bar=9, bpm=80))
    gliding = replace(score, tempi=tempi)
    assert tempo_change(gliding, 5) == "quicker little by little, to 92 beats a minute", "though bar 5 is still at 66"
    assert tempo_change(gliding, 9) == "slower, 80 beats a minute"
    assert tempo_change(replace(score, tempi=(first,)), 5) == "the same beat, 66 beats a minute"


def test_every_action_and_metre_has_its_words() -> None:
    assert set(ACTION_WORDS) == {"start", "enter", "change", "rest", "louder", "softer", "tempo", "stop"}
    assert {beats: len(ways) for beats, ways in BEAT_WAYS.items()} == {2: 2, 3: 3, 4: 4}
