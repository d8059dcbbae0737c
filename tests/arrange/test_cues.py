"""What the conductor does."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from sonify.kinds.marks import DYNAMICS
from sonify.records.score import Cue, Entry, Score
from sonify.say import say
from sonify.say.cues import gesture_words, reason_words
from tests.arrange.lessons import WATER, Sketch, part, well_stocked


def of(score: Score, action: str) -> list[Cue]:
    return [cue for cue in score.cues if cue.action == action]


def entries_of(score: Score, part: str) -> tuple[Entry, ...]:
    return next(each.entries for each in score.group_parts if each.name == part)


def test_every_entry_has_its_cue_with_the_mark_and_the_reason() -> None:
    score = WATER.score()
    wanted = {(p.name, entry.bar) for p in score.group_parts for entry in p.entries}
    assert {(cue.part, cue.bar) for cue in (*of(score, "enter"), *of(score, "change"))} == wanted
    for cue in of(score, "enter"):
        section = score.section_at(cue.bar)
        assert section is not None
        first = not any(
            section.bar < entry.bar + entry.bars and entry.bar < cue.bar for entry in entries_of(score, cue.part)
        )
        assert cue.reason.music if not first else say(section.caption) == say(cue.reason.words)
        assert cue.mark


def test_every_exit_has_its_cue() -> None:
    score = WATER.score()
    for p in score.group_parts:
        bars = {bar for entry in p.entries for bar in range(entry.bar, entry.bar + entry.bars)}
        exits = {bar for bar in range(2, score.bars + 1) if bar - 1 in bars and bar not in bars}
        assert {cue.bar for cue in of(score, "rest") if cue.part == p.name} == exits


def test_each_step_of_the_tempo_has_its_cue() -> None:
    score = WATER.score()
    assert [(cue.bar, cue.bpm) for cue in of(score, "tempo")] == [
        (11, 104),
        (25, 80),
        (37, 72),
        (53, 84),
    ]


def test_a_new_tempo_says_why_with_the_means_of_its_stage_and_of_the_one_before() -> None:
    """285 K + 5 K sin(pi t / T) over five stages of T/5: by the integral their means are 13.37, 15.83, 16.77, 15.83
    and 13.37 °C. The third is slower and the last quicker against the rule, which then speaks for itself."""
    quicker, against, slower, again = (say(cue.reason.words) for cue in of(WATER.score(), "tempo"))
    assert quicker == "On average the warmth is higher than before: 16 °C after 13 °C."
    assert slower == "On average the warmth is lower than before: 15.8 °C after 16.8 °C."
    assert against == again == "The warmer, the more tempo."


def test_a_gliding_tempo_has_one_cue_a_stage() -> None:
    score = replace(WATER, glide=True).score()
    assert len(score.tempi) > 20
    assert len(of(score, "tempo")) <= len(score.sections)
    first = of(score, "tempo")[0]
    assert first.gesture == "quicker-by-and-by"
    # Ten bars from 66 towards the next stage's 104: the tenth has 66 + 38 * 9 / 10 = 100.
    assert (first.from_bpm, first.bpm, first.by_bar) == (66, 100, 10)


@pytest.mark.parametrize("glide", [False, True])
def test_a_beat_gets_smaller_where_it_gets_quicker(glide: bool) -> None:
    """Common practice of conducting: a quick beat is small, a slow one large."""
    score = replace(WATER, glide=glide).score()
    before = score.tempi[0].bpm
    told = of(score, "tempo")
    assert {cue.bpm > before for cue in told} and len(told) >= 2
    for cue in told:
        way = ("smaller", "larger") if cue.bpm > before else ("larger", "smaller")
        shown = gesture_words(cue)
        assert way[0] in shown and way[1] not in shown, (cue.bpm, before, shown)
        assert cue.gesture.startswith("quicker" if cue.bpm > before else "slower")
        before = cue.bpm


def test_hands_rise_for_louder_and_sink_for_softer() -> None:
    """Common practice: palms up and rising for more, palms down and sinking for less."""
    score = WATER.score()
    stated: dict[str, str] = {}
    ways = set()
    playing = {part.name: part for part in score.group_parts}
    for cue in score.cues:
        names = [cue.part] if cue.part else list(playing)
        if cue.action in ("louder", "softer"):
            up = DYNAMICS[cue.mark] > max(DYNAMICS[stated[name]] for name in names if name in stated)
            down = DYNAMICS[cue.mark] < min(DYNAMICS[stated[name]] for name in names if name in stated)
            assert up != down
            shown = gesture_words(cue)
            assert ("up" in shown, "raise" in shown, "down" in shown, "lower" in shown) == (up, up, down, down)
            ways.add(up)
        stated |= {name: cue.mark for name in names if cue.mark}
    assert ways == {True, False}


def test_a_glide_that_nobody_hears_is_steady_until_it_has_added_up() -> None:
    """80 to 83 is 4 %, to 86 7 %: the second stage is told, the first and the third (1 %) are not."""
    sketch = replace(WATER, stages=(("one", 16, 80.0), ("two", 16, 83.0), ("three", 16, 86.0), ("four", 16, 87.0)))
    told = of(replace(sketch, glide=True, curves=()).score(), "tempo")
    assert [cue.bar for cue in told] == [17]
    assert (told[0].from_bpm, told[0].bpm) == (83, 86)


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
    told = [cue for cue in (*of(score, "louder"), *of(score, "softer")) if not cue.reason.music]
    assert told
    for cue in told:
        why = say(cue.reason.words)
        assert ("falls" not in why) if cue.action == "louder" else ("rises" not in why)


def test_nothing_grows_towards_a_climax_that_is_over() -> None:
    score = replace(WATER, curves=()).score()
    grown = [cue for cue in of(score, "louder") if cue.reason.words]
    stages = {section.title: section for section in score.sections}
    for cue in grown:
        assert cue.reason.music
        section = stages[say(cue.reason.words).rpartition(", ")[2].rstrip(".")]
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
            (cue.bar, f"{cue.mark} by bar {cue.by_bar}" if cue.by_bar else cue.mark)
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


def test_every_cue_has_a_reason_and_what_is_for_the_music_says_so() -> None:
    score = WATER.score()
    captions = {section.bar: say(section.caption) for section in score.sections}
    assert {cue.reason.music for cue in score.cues} == {True, False}
    for cue in score.cues:
        assert cue.reason.music == reason_words(cue).startswith("For the music")
        assert cue.reason.words or cue.reason.music
    for cue in of(score, "rest"):
        if not cue.reason.music:  # its stage is over
            assert say(cue.reason.words) == captions[cue.bar]


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
    assert changes and all(
        cue.gesture == f"{('', 'one', 'two', 'three')[cue.pattern]}-finger" + "s" * (cue.pattern > 1) for cue in changes
    )


def test_a_change_without_a_pattern_says_what_is_to_be_played() -> None:
    score = Sketch(
        stages=(("one", 32, 80.0),),
        parts=(part("It", "tremolo", "hand drum"),),
        classroom=well_stocked(groups=1, pupils=6),
    ).score()
    told = [say(cue.what) for cue in of(score, "change")]
    assert "more strokes than before: quick light strokes, one after another" in told
