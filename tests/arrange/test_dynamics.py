"""How loud, and the marks that say so."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

import numpy as np
import pytest

from sonify.arrange import arrange
from sonify.arrange.blocks import Block
from sonify.arrange.dynamics import marks
from sonify.kinds.marks import DYNAMICS
from sonify.records.classroom import Classroom
from sonify.records.instrument import Catalogue
from sonify.records.score import Note, Part, Score
from sonify.say import say
from tests.arrange.lessons import WATER, Sketch, cupboard, part, well_stocked
from tests.catalogue import catalogue


def loud(p: Part, bar: int, beats: int = 4) -> float:
    return float(np.mean([note.velocity for note in p.notes if note.beat // beats + 1 == bar]))


def named(score: Score, name: str) -> Part:
    return next(p for p in score.group_parts if p.name == name)


PLAIN = replace(WATER, curves=tuple(curve for curve in WATER.curves if curve[0] != "dynamics"))


def test_velocities_follow_the_dynamics_rule() -> None:
    river = named(WATER.score(), "The river")
    corners = [(bar - 1) * 4 for bar in (1, 11, 25, 37, 53)] + [256]
    asked = np.interp(np.arange(256.0), corners, (44, 57, 70, 80, 100, 44)).reshape(64, 4).mean(axis=1)
    for bar in (38, 42, 48, 52, 58):
        assert loud(river, bar) == pytest.approx(asked[bar - 1], abs=4)  # accents and the wave: up to 4


def test_a_parts_own_rule_goes_before_the_pieces() -> None:
    own = replace(WATER, curves=(*WATER.curves, ("dynamics", "The river", (32.0,) * 6)))
    score = own.score()
    assert loud(named(score, "The river"), 48) == pytest.approx(32, abs=4)
    assert loud(named(score, "The rain"), 48) > 80


@pytest.mark.parametrize("before", [44, 57, 70])
def test_one_loudness_has_one_mark_whatever_was_played_before_it(before: int) -> None:
    """52 is nearer to mp (57) than to p (44), 60 nearer to mp than to mf (70), after p, mp and mf alike."""
    velocities = [before] * 4 + [52] * 5 + [60] * 5
    notes = [Note(beat=Fraction(4 * n), beats=Fraction(1), midi=60, velocity=v) for n, v in enumerate(velocities)]
    written = marks(notes, [Block(bar=1, bars=14, stage=0)], 4)
    for bar in range(5, 15):
        standing = [mark for mark in written if mark.bar <= bar][-1]
        assert standing.mark == "mp", (bar, written)


def test_without_a_rule_parts_come_in_soft_grow_to_the_climax_and_fade() -> None:
    score = PLAIN.score()
    cloud = named(score, "The cloud")
    assert loud(cloud, 11) < loud(cloud, 15) < loud(cloud, 21)
    sea = named(score, "The sea")
    assert max(loud(sea, 1), loud(sea, 63)) + 10 < max(loud(sea, bar) for bar in (45, 47, 49))


def test_a_drone_follows_its_rule_to_the_end() -> None:
    """What melts does not freeze again because the music wants to close: here the rule grows from pp to f."""
    grows = replace(WATER, curves=(("dynamics", "The sea", (32, 44, 57, 70, 83, 96)),))
    sea = named(grows.score(), "The sea")
    assert loud(sea, 63) > 85 > 40 > loud(sea, 1)


def test_voices_follow_their_rule_and_without_one_are_no_louder_than_mezzo_forte() -> None:
    """What the key says is what is played: 44 at the beginning, straight to 100 at the end."""
    sketch = Sketch(
        stages=(("one", 32, 80.0),),
        parts=(part("It", "drone", "voices on mm"),),
        curves=(("dynamics", "It", (44, 100)),),
        classroom=well_stocked(groups=1, pupils=4),
    )
    it = sketch.score().group_parts[0]
    for bar in (1, 9, 17, 25, 31):
        assert loud(it, bar) == pytest.approx(44 + 56 * (bar - 0.5) / 32, abs=5)  # the wave of two bars: 4
    free = replace(sketch, curves=()).score().group_parts[0]
    assert max(note.velocity for note in free.notes) <= DYNAMICS["mf"]


def test_marks_are_right_at_every_entry_and_hairpins_lead_where_they_say() -> None:
    for p in PLAIN.score().group_parts:
        marked = {mark.bar: mark for mark in p.dynamics}
        starts = {entry.bar for entry in p.entries} - {entry.bar + entry.bars for entry in p.entries}
        for bar in starts:
            nearest = min(DYNAMICS, key=lambda mark: abs(DYNAMICS[mark] - loud(p, bar)))
            order = list(DYNAMICS)
            assert abs(order.index(nearest) - order.index(marked[bar].mark)) <= 1
        for mark, after in pairwise(p.dynamics):
            if mark.hairpin:
                louder = DYNAMICS[after.mark] > DYNAMICS[mark.mark]
                assert louder == (mark.hairpin == "cresc")


def test_no_sudden_loud_sounds() -> None:
    needs = ("no sudden loud sounds",)
    score, findings = replace(WATER, classroom=well_stocked(needs=needs)).arranged()
    assert score.gentle
    for p in score.group_parts:
        assert max(note.velocity for note in p.notes) < DYNAMICS["f"]
        starts = {entry.bar for entry in p.entries} - {entry.bar + entry.bars for entry in p.entries}
        for bar in starts:
            assert loud(p, bar) <= DYNAMICS["mp"] + 4
        for a, b in pairwise(sorted({int(note.beat // 4) + 1 for note in p.notes})):
            if b == a + 1 and b not in starts:
                assert loud(p, b) <= loud(p, a) + 13 + 8
    assert any("no sudden loud sounds" in say(finding.message) for finding in findings)
    clicks = score.parts[0]
    assert max(note.velocity for note in clicks.notes) <= DYNAMICS["mp"]


@pytest.mark.parametrize("levels", [(32, 100, 60, 100, 32, 90), (100, 60, 40, 80, 100, 44), (90,) * 6])
def test_softer_for_the_class_still_grows_and_fades_as_the_rule_says(levels: tuple[float, ...]) -> None:
    """A falling quantity is never heard to grow: bars that the rule puts in order stay in that order."""
    needs = ("no sudden loud sounds",)
    drawn = replace(WATER, curves=(("dynamics", None, levels),), classroom=well_stocked(needs=needs))
    corners = [(bar - 1) * 4 for bar in (1, 11, 25, 37, 53)] + [256]
    asked = np.interp(np.arange(256.0), corners, levels).reshape(64, 4).mean(axis=1)
    for p in drawn.score().group_parts:
        if p.name == "The sea" or p.pulse:
            continue
        bars = sorted({int(note.beat // 4) + 1 for note in p.notes})
        for a, b in pairwise(bars[::2]):
            if asked[b - 1] < asked[a - 1] - 1e-9:
                assert loud(p, b) <= loud(p, a) + 8  # accents and the wave: up to 4 each
        ends = sorted(bars, key=lambda bar: asked[bar - 1])
        if asked[ends[-1] - 1] - asked[ends[0] - 1] > 30:
            assert loud(p, ends[-1]) > loud(p, ends[0]) + 5


def test_a_calm_class_comes_in_softly_and_is_then_as_loud_as_it_may_be() -> None:
    """A quantity that begins high and stays there for a while: a soft entry alone must not hold the whole part down."""
    needs = ("no sudden loud sounds",)
    drawn = replace(
        WATER, curves=(("dynamics", None, (100, 100, 60, 32, 32, 32)),), classroom=well_stocked(needs=needs)
    )
    score, findings = drawn.arranged()
    vapour = named(score, "Rising vapour")
    levels = [loud(vapour, bar) for bar in range(1, 7)]
    assert levels[0] <= DYNAMICS["mp"] + 4 < DYNAMICS["mf"] < levels[3]
    assert all(after >= before - 4 for before, after in pairwise(levels))
    assert any("comes in softly" in say(finding.message) for finding in findings)


def test_a_loud_instrument_that_must_be_used_is_softened_and_said() -> None:
    cymbals = Sketch(
        stages=(("one", 16, 80.0),),
        parts=(part("Storm", "tremolo", "suspended cymbal"),),
        classroom=replace(well_stocked(groups=1, pupils=1), needs=("no sudden loud sounds",)),
    )
    score, findings = cymbals.arranged()
    if score.group_parts[0].instrument == "suspended-cymbal":
        assert any("is loud" in say(finding.message) for finding in findings)
    else:
        assert all(row.loud < 3 for row in score.instruments)


def test_a_quiet_start() -> None:
    score = replace(WATER, classroom=well_stocked(needs=("quiet start",))).score()
    first = score.sections[0]
    end = (first.bar - 1 + first.bars) * 4
    assert max(note.velocity for p in score.group_parts for note in p.notes if note.beat < end) <= DYNAMICS["p"]
    assert loud(named(score, "The rain"), 50) > 80


def test_a_quiet_start_leads_step_by_step_to_what_the_rule_asks() -> None:
    loud_rule = replace(WATER, curves=(("dynamics", None, (100.0,) * 6),))
    score, findings = replace(loud_rule, classroom=well_stocked(needs=("quiet start",))).arranged()
    sea = named(score, "The sea")
    assert loud(sea, 9) <= DYNAMICS["p"]
    assert loud(sea, 11) <= DYNAMICS["p"] + 13 + 4
    assert loud(sea, 31) == pytest.approx(100, abs=4)
    assert any("quiet start" in say(finding.message) for finding in findings)


SUNNY = replace(WATER, curves=(*WATER.curves, ("brightness", "Rising vapour", (0.1, 0.2, 0.9, 0.9, 0.9, 0.9))))


def test_brightness_is_two_or_three_kinds_of_beater_each_change_cued_and_on_the_card() -> None:
    score = SUNNY.score()
    xylophone = named(score, "Rising vapour")
    used: dict[float, list[int]] = {}
    for note in xylophone.notes:
        if note.instrument == xylophone.instrument:
            used.setdefault(note.brightness, []).append(int(note.beat // 4) + 1)
    assert 2 <= len(used) <= 3
    starts = sorted(min(bars) for bars in used.values())[1:]
    cues = [cue for cue in score.cues if cue.gesture == "harder-beaters"]
    assert [(cue.part, cue.bar + 1) for cue in cues] == [("Rising vapour", bar) for bar in starts]  # a bar ahead
    assert [say(cue.what) for cue in cues] in (["medium beaters"], ["hard beaters"], ["medium beaters", "hard beaters"])
    assert all(say(cue.reason.words) == "The warmth rises." for cue in cues)
    line = next(words for words in [say(words) for words in xylophone.instructions] if "beaters" in words)
    assert all(f"From bar {bar}, " in line for bar in starts)


def test_what_has_no_beater_is_not_asked_for_one() -> None:
    curves = (("brightness", "It", (0.1, 0.9)),)
    for sound, words in (("hand drum", "fingertips"), ("claves", ""), ("maracas", "")):
        score, findings = Sketch(
            stages=(("one", 32, 80.0),),
            parts=(part("It", "ostinato", sound),),
            curves=curves,
            classroom=well_stocked(groups=1, pupils=4),
        ).arranged()
        it = score.group_parts[0]
        said = [f for f in findings if say(f.where) == "brightness"]
        assert "beaters" not in " ".join([say(words) for words in it.instructions])
        assert (words in " ".join([say(words) for words in it.instructions]) and not said) if words else said


@pytest.mark.parametrize(
    ("struck_with", "words"), [("beaters", "soft beaters"), ("hands", "the flat of the hand"), ("one sound", "")]
)
def test_a_new_drum_is_played_as_its_row_says(struck_with: str, words: str) -> None:
    """Nothing but the catalogue's row knows what an instrument is struck with: no list of ids to forget it in."""
    rows = catalogue().instruments
    drum = replace(catalogue()["hand-drum"], id="keg-drum", name="Keg drum", plural="keg drums", aliases=())
    scene = Sketch(
        stages=(("one", 32, 80.0),),
        parts=(part("It", "ostinato", "keg drum"),),
        curves=(("brightness", "It", (0.1, 0.9)),),
        classroom=Classroom(year=5, pupils=4, groups=1, cupboard=cupboard(keg_drum=4)),
    )
    known = Catalogue(instruments=(*rows, replace(drum, struck_with=struck_with)))
    score, findings = arrange(scene.scene, scene.timeline, scene.controls, scene.classroom, known)
    told = [text for text in map(say, score.group_parts[0].instructions) if text.startswith("Play with")]
    assert [text.partition(".")[0] for text in told] == ([f"Play with {words}"] if words else [])
    assert any(say(finding.where) == "brightness" for finding in findings) != bool(words)


def test_a_mixed_group_is_told_for_each_instrument_what_to_play_with() -> None:
    """A wood block has a beater, a hand drum a hand."""
    mixed = Sketch(
        stages=(("one", 32, 80.0),),
        parts=(part("It", "ostinato", "wood block", "hand drum"),),
        curves=(("brightness", "It", (0.1, 0.9)),),
        classroom=Classroom(year=5, pupils=4, groups=1, cupboard=cupboard(wood_block=2, hand_drum=2)),
    ).score()
    words = " ".join([say(words) for words in mixed.group_parts[0].instructions])
    assert "Wood blocks: play with soft beaters" in words and "Hand drums: play with the flat of the hand" in words


def test_without_a_brightness_rule_stronger_strokes_are_brighter() -> None:
    plain = named(WATER.score(), "The rain")
    by_velocity = sorted(plain.notes, key=lambda note: note.velocity)
    assert by_velocity[0].brightness < by_velocity[-1].brightness
