"""Bars, stages, entrances and cues as the page's scripts read them."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from sonify.page.timing import (
    BEAT_WAYS,
    bar_rows,
    bars_with_notes,
    dynamic_rows,
    entrances,
    moments,
    spans,
    stage_rows,
    timing,
)
from sonify.records.fact import fact
from sonify.records.score import Blank, DynamicMark, Entry, Part, Reason
from tests.sample import cue, sample_score


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
    cues = [cue(9, name, "louder", mark="f", by_bar=11) for name in names]
    found = moments(replace(score, cues=tuple(cues)))
    lines = [line for moment in found for line in moment["lines"] if line["action"] == "louder"]
    assert [line["group"] for line in lines] == sorted(part(name).group for name in names)
    assert {line["what"] for line in lines} == {"louder, to loud (f) by bar 11"}


def test_a_cue_to_enter_for_a_part_that_plays_already_is_a_change() -> None:
    score = sample_score()
    again = cue(5, "Rising vapour", "enter")
    line = next(
        line
        for moment in moments(replace(score, cues=(*score.cues, again)))
        for line in moment["lines"]
        if moment["beat"] == 16 and line["who"] == "Rising vapour"
    )
    assert (line["action"], line["what"]) == ("change", "change")


def test_a_cue_to_change_is_a_change_and_no_entrance_is_told_beside_it() -> None:
    score = sample_score()
    turned = tuple(replace(c, action="change", gesture="change") if c.part == "The cloud" else c for c in score.cues)
    lines = [line for moment in moments(replace(score, cues=turned)) for line in moment["lines"]]
    assert [(line["action"], line["what"]) for line in lines if line["who"] == "The cloud"] == [("change", "change")]


def test_what_is_for_the_music_says_so_and_what_is_science_does_not() -> None:
    because = fact("cue-towards-fullest", stage="Rain")
    grows = replace(cue(9, "The sea", "louder", mark="f"), reason=Reason(words=because, music=True))
    rests = cue(10, "The sea", "rest")
    found = moments(replace(sample_score(), cues=(*sample_score().cues, grows, rests)))
    reasons = {(m["beat"], line["who"]): line["reason"] for m in found for line in m["lines"]}
    assert reasons[32, "The sea"] == "For the music: the piece grows towards its fullest moment, Rain."
    assert reasons[36, "The sea"] == "For the music."
    assert reasons[16, "Everyone"] == "Warmer"


def test_a_gliding_tempo_names_where_the_stage_takes_it() -> None:
    glide = cue(5, "", "tempo", "Warmer", gesture="quicker-by-and-by", bpm=92, from_bpm=66, by_bar=8)
    slower = cue(9, "", "tempo", "Colder", gesture="slower", bpm=80)
    found = moments(replace(sample_score(), cues=(glide, slower)))
    said = [line["what"] for moment in found for line in moment["lines"] if line["action"] == "tempo"]
    assert said == ["quicker little by little, to 92 beats a minute", "slower, 80 beats a minute"]


def test_every_metre_has_its_ways() -> None:
    assert {beats: len(ways) for beats, ways in BEAT_WAYS.items()} == {2: 2, 3: 3, 4: 4}
