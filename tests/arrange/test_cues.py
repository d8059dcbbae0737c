"""What the conductor does."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from sonify.arrange.cues import moves
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
    # The start is for all who play from bar 1; the pulse is kept from where a part stops, without a sign of its own.
    wanted = {(p.name, entry.bar) for p in score.group_parts if not p.pulse for entry in p.entries if entry.bar > 1}
    moved = {(p.name, bar) for p in score.group_parts for bar in moves(p)}
    letters = {cue.bar + 1 for cue in of(score, "change") if cue.gesture == "letter"}
    assert {bar for _, bar in moved} == letters != set()  # on other notes with the stage: its letter is sign enough
    shown = {(cue.part, cue.bar) for cue in (*of(score, "enter"), *of(score, "change")) if cue.gesture != "letter"}
    assert shown == wanted - moved
    for cue in of(score, "enter"):
        section = score.section_at(cue.bar)
        assert section is not None
        first = not any(
            section.bar < entry.bar + entry.bars and entry.bar < cue.bar for entry in entries_of(score, cue.part)
        )
        assert cue.reason.music if not first else say(section.caption) == say(cue.reason.words)
        assert cue.mark


def test_every_exit_has_its_cue_on_the_last_beat_before_it() -> None:
    score = WATER.score()
    for p in (p for p in score.group_parts if not p.pulse):
        bars = {bar for entry in p.entries for bar in range(entry.bar, entry.bar + entry.bars)}
        exits = {bar for bar in range(2, score.bars + 1) if bar - 1 in bars and bar not in bars}
        assert {(cue.bar + 1, cue.beat) for cue in of(score, "rest") if cue.part == p.name} == {(x, 4) for x in exits}


def test_groups_that_share_a_part_are_shown_one_sign() -> None:
    """A conductor brings two desks of one part in with one hand (common practice), also where the beat is new."""
    score = replace(WATER, classroom=well_stocked(groups=7, pupils=28)).score()
    rain = ("The rain", "The rain, second group")
    (come_in,) = [cue for cue in of(score, "enter") if cue.part.startswith("The rain")]
    assert come_in.parts == rain
    assert come_in.bar in {cue.bar for cue in of(score, "tempo")}
    assert {entries_of(score, name)[0].bar for name in rain} == {come_in.bar}
    assert [seen.part for seen in come_in.apart] == list(rain)
    signs = [cue for cue in score.cues if cue.action in ("enter", "change", "rest")]
    assert all(cue.parts == rain for cue in signs if cue.part.startswith("The rain"))


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
    playing = {part.name: part for part in score.group_parts if not part.pulse}
    stated = {name: part.dynamics[0].mark for name, part in playing.items() if part.entries[0].bar == 1}
    ways = set()
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
def test_what_is_cued_is_printed(groups: int) -> None:
    """Every mark that the conductor asks for stands on the part's card, where it is to be reached."""
    score = replace(WATER, classroom=well_stocked(groups=groups, pupils=30)).score()
    told = 0
    for cue in (cue for cue in score.cues if cue.action in ("enter", "louder", "softer")):
        for p in (p for p in score.group_parts if cue.part == p.name):
            assert next(m.mark for m in reversed(p.dynamics) if m.bar <= (cue.by_bar or cue.bar)) == cue.mark
            told += 1
    assert told > 5


def test_no_more_than_two_cues_at_a_moment_and_one_moment_in_eight_seconds() -> None:
    """Louder and softer not counted; whatever the class."""
    for groups in (3, 4, 5, 8):
        for year in (3, 5):
            score = replace(WATER, classroom=well_stocked(groups=groups, pupils=30, year=year)).score()
            moments: dict[tuple[int, F], int] = {}
            for cue in (cue for cue in score.cues if cue.action not in ("louder", "softer")):
                moments[cue.bar, cue.beat] = moments.get((cue.bar, cue.beat), 0) + 1
            assert max(moments.values()) <= 2
            assert score.clock.seconds(score.end_beat) / len(moments) >= 8


def test_every_cue_has_a_reason_and_what_is_for_the_music_says_so() -> None:
    score = WATER.score()
    captions = {section.bar: say(section.caption) for section in score.sections}
    assert {cue.reason.music for cue in score.cues} == {True, False}
    for cue in score.cues:
        assert cue.reason.music == reason_words(cue).startswith("For the music")
        assert cue.reason.words or cue.reason.music
    for cue in of(score, "rest"):
        if not cue.reason.music:  # its stage is over
            assert say(cue.reason.words) == captions[cue.bar + 1]


def test_a_change_of_pattern_is_shown_with_fingers() -> None:
    score = Sketch(
        stages=(("one", 32, 60.0),),
        parts=(part("It", "ostinato", "claves"),),
        curves=(("density", "It", (0.5, 1.75)),),
        classroom=well_stocked(groups=1, pupils=6),
    ).score()
    changes = of(score, "change")
    assert of(score, "enter") == []  # it plays from the start
    assert changes and all(
        cue.gesture == f"{('', 'one', 'two', 'three')[cue.pattern]}-finger" + "s" * (cue.pattern > 1) for cue in changes
    )


def test_a_change_without_a_pattern_says_what_is_to_be_played() -> None:
    score = Sketch(
        stages=(("one", 32, 80.0),),
        parts=(part("It", "tremolo", "hand drum"),),
        curves=(("density", "It", (1.0, 5.0)),),
        classroom=well_stocked(groups=1, pupils=6),
    ).score()
    told = [say(cue.what) for cue in of(score, "change")]
    assert "more strokes than before: quick light strokes, one after another" in told
