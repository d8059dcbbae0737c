"""The texture plan: entries, climax, way home."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction as F

import pytest

from sonify.arrange.blocks import block_sizes
from sonify.records.score import Part, Score
from sonify.say import say
from tests.arrange.lessons import WATER, Sketch, part, well_stocked


def bars_of(p: Part) -> set[int]:
    return {bar for entry in p.entries for bar in range(entry.bar, entry.bar + entry.bars)}


def sounding(score: Score, bar: int) -> set[str]:
    return {p.name for p in score.group_parts if bar in bars_of(p)}


EVERYBODY = replace(
    WATER,
    parts=(
        part("Sea", "drone", "ocean drum"),
        part("A", "ostinato", "alto xylophone"),
        part("B", "melody", "glockenspiel"),
        part("C", "scatter", "claves"),
        part("D", "tremolo", "triangle"),
    ),
    curves=(("density", "C", (0.5, 0.5, 1.0, 3.0, 1.0, 0.5)),),
)


#: Five tunes without rules: five meanings.
TUNES = Sketch(
    stages=(("one", 48, 80.0),), parts=tuple(part(name, "melody", "alto xylophone", "voices") for name in "ABCDE")
)


@pytest.mark.parametrize("bars", range(1, 120))
def test_phrases_add_up_to_their_stage(bars: int) -> None:
    sizes = block_sizes(bars)
    assert sum(sizes) == bars
    assert min(sizes) >= 2 or bars == 1


def own_parts(score: Score) -> tuple[Part, ...]:
    """The parts of the scene, without the pulse that is kept while they wait."""
    return tuple(p for p in score.group_parts if not p.pulse)


def test_who_plays_changes_with_the_stage_or_after_eight_bars() -> None:
    for score in (WATER.score(), replace(TUNES, classroom=well_stocked(year=3)).score(), TUNES.score()):
        starts = {section.bar for section in score.sections}
        playing = [sounding(score, bar) for bar in range(1, score.bars + 1)]
        changes = [bar for bar in range(2, score.bars + 1) if playing[bar - 1] != playing[bar - 2]]
        assert changes
        edges = sorted({1, *changes})
        for bar in changes:
            before = max(edge for edge in edges if edge < bar)
            assert bar in starts or bar - before >= 8


def test_a_part_plays_from_the_first_bar_of_its_stages_to_the_last() -> None:
    """At most two come in at a stage, so nobody has to wait; the rain is none at first, and not there."""
    score = replace(WATER, curves=()).score()
    first = {p.name: p.entries[0].bar for p in own_parts(score)}
    assert first == {"The sea": 1, "Rising vapour": 1, "The cloud": 11, "The rain": 25, "The river": 37}
    last = {p.name: max(bars_of(p)) for p in own_parts(score)}
    assert last == {"The sea": 64, "Rising vapour": 24, "The cloud": 36, "The rain": 52, "The river": 64}


def test_a_part_rests_while_there_is_none_of_what_it_stands_for() -> None:
    """No tap by the rule until the third stage: sixteen bars of nothing are not the rain's."""
    stages = tuple((name, 16, 80.0) for name in ("one", "two", "three", "four"))
    sea, rain = part("Sea", "drone", "ocean drum"), part("Rain", "scatter", "claves")
    dry = Sketch(stages=stages, parts=(sea, rain), curves=(("density", "Rain", (0.0, 0.0, 0.0, 3.0, 3.0)),))
    assert bars_named(dry.score(), "Rain") == set(range(33, 65))
    wet = replace(dry, curves=(("density", "Rain", (3.0, 3.0, 3.0, 3.0, 3.0)),))
    assert bars_named(wet.score(), "Rain") == set(range(1, 65))  # or the rule says nothing


def test_a_low_pitch_plays_low_and_does_not_rest() -> None:
    low = replace(WATER, curves=(("pitch", "The cloud", (60, 60, 60, 60, 60, 60)),))
    assert bars_named(low.score(), "The cloud") == set(range(11, 37))


@pytest.mark.parametrize(("year", "most"), [(3, 2), (4, 3), (6, 3)])
def test_no_more_is_said_at_once_than_the_age_can_follow(year: int, most: int) -> None:
    score = replace(TUNES, classroom=well_stocked(year=year)).score()
    names = {plan.name for plan in TUNES.parts}
    assert max(len(sounding(score, bar) & names) for bar in range(1, 49)) == most
    assert {name for bar in range(1, 49) for name in sounding(score, bar)} >= names  # each has its turn


def test_what_one_rule_shapes_is_one_meaning_however_many_play_it() -> None:
    alike = replace(TUNES, curves=(("pitch", None, (60.0, 72.0)),))
    names = {plan.name for plan in TUNES.parts}
    assert max(len(sounding(alike.score(), bar) & names) for bar in range(1, 49)) >= 4


def test_somebody_always_plays_and_somebody_keeps_the_beat() -> None:
    for groups in (2, 3, 5, 8):
        score = replace(WATER, classroom=well_stocked(groups=groups, pupils=28)).score()
        pulses = [p for p in score.group_parts if p.pulse or p.texture == "ostinato"]
        for bar in range(1, score.bars + 1):
            beats = {F((bar - 1) * 4), F((bar - 1) * 4 + 2)}
            assert any(beats <= {note.beat for note in p.notes} for p in pulses) or groups == 2, bar


def test_a_group_that_waits_long_keeps_the_pulse_and_no_group_is_silent_for_more_than_sixteen_bars() -> None:
    score = WATER.score()
    groups: dict[int, set[int]] = {}
    for p in score.group_parts:
        groups.setdefault(p.group, set()).update(int(note.beat // 4) + 1 for note in p.notes)
    for bars in groups.values():
        edges = [0, *sorted(bars), score.bars + 1]
        assert max(b - a - 1 for a, b in zip(edges, edges[1:], strict=False)) <= 16
    pulse = next(p for p in score.group_parts if p.pulse)
    assert {note.instrument for note in pulse.notes} == {"knee-taps"}
    assert {note.velocity for note in pulse.notes} == {44, 38}  # piano
    waiting = {p.group: bars_of(p) for p in own_parts(score)}
    assert not bars_of(pulse) & waiting[pulse.group]


def test_a_pulse_is_the_same_pupils_and_no_more_of_them() -> None:
    score = WATER.score()
    for pulse in (p for p in score.group_parts if p.pulse):
        mates = [p for p in own_parts(score) if (p.group, p.team) == (pulse.group, pulse.team)]
        assert {p.players for p in mates} == {pulse.players}


def test_very_short_and_very_long_pieces_have_a_plan() -> None:
    tiny = Sketch(stages=(("one", 2, 60.0),), parts=WATER.parts[:1]).score()
    assert bars_of(tiny.group_parts[0]) == {1, 2}
    long = replace(WATER, stages=tuple((name, 150, bpm) for name, _, bpm in WATER.stages)).score()
    assert {"The sea", "The river"} <= sounding(long, 750)


def test_groups_that_share_a_part_answer_each_other() -> None:
    score = replace(EVERYBODY, classroom=well_stocked(groups=8, pupils=32)).score()
    shared = [p for p in own_parts(score) if p.name.startswith("A")]
    assert len(shared) == 2
    played = [{int(note.beat // 4) + 1 for note in p.notes} for p in shared]
    assert not played[0] & played[1] and all(played)
    assert bars_of(shared[0]) == bars_of(shared[1])


HEART = replace(part("The heart", "ostinato", "hand drum"), rests=False, on_beat=True)
RACE = Sketch(
    stages=(("rest", 12, 80.0), ("run", 24, 132.0), ("slow", 16, 96.0)),
    parts=(
        HEART,
        part("The blood", "melody", "alto xylophone"),
        replace(part("The breath", "melody", "alto glockenspiel"), partner="The blood"),
        part("The legs", "scatter", "claves"),
        part("The lungs", "tremolo", "tambourine"),
    ),
    curves=(("density", "The legs", (0.1, 0.1, 1.0, 0.1)), ("dynamics", "The lungs", (100, 57, 44, 30))),
)


def bars_named(score: Score, name: str) -> set[int]:
    return bars_of(next(p for p in score.parts if p.name == name))


@pytest.mark.parametrize("scaffold", ["full", "part"])
def test_a_part_that_never_rests_plays_from_the_first_bar_to_the_last(scaffold: str) -> None:
    rule = ("dynamics", "The heart", (0.0, 44.0, 100.0, 44.0))
    race = replace(RACE, curves=(*RACE.curves, rule))
    assert bars_named(race.score(scaffold=scaffold), "The heart") == set(range(1, 53))


def test_a_part_on_the_beat_plays_every_beat_and_every_second_one_above_120() -> None:
    heart = RACE.score().parts[1]
    beats = {note.beat for note in heart.notes}
    quick = set(range(12 * 4, 36 * 4))
    assert beats == {beat for beat in range(52 * 4 - 1) if beat not in quick or beat % 2 == 0}
    assert [pattern.bars for pattern in heart.patterns] == [1, 1]
    assert not any("breathe" in text for text in [say(words) for words in heart.instructions])


def test_partners_come_and_go_together() -> None:
    score = RACE.score()
    assert bars_named(score, "The blood") == bars_named(score, "The breath")


def test_nobody_rests_at_the_top_of_its_own_quantity() -> None:
    """The legs' rule asks for most where stage run ends and stage slow begins."""
    score = RACE.score()
    assert {33, 34, 35, 36} <= bars_named(score, "The legs") or {37, 38, 39, 40} <= bars_named(score, "The legs")
