"""The texture plan: entries, climax, way home."""

from __future__ import annotations

from dataclasses import replace

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


@pytest.mark.parametrize("bars", range(1, 120))
def test_phrases_add_up_to_their_stage(bars: int) -> None:
    sizes = block_sizes(bars)
    assert sum(sizes) == bars
    assert min(sizes) >= 2 or bars == 1


def test_the_sea_opens_alone_goes_all_through_and_closes_alone() -> None:
    score = WATER.score()
    assert sounding(score, 1) == sounding(score, score.bars) == {"The sea"}
    assert bars_of(score.group_parts[0]) == set(range(1, 65))
    home = [bar for bar in range(50, 65) if sounding(score, bar) == {"The sea"}]
    assert home == [61, 62, 63, 64]


def test_each_stage_brings_in_its_part_on_a_bar_line_of_its_own() -> None:
    score = WATER.score()
    first = {p.name: p.entries[0].bar for p in score.group_parts}
    assert first == {"The sea": 1, "Rising vapour": 5, "The cloud": 11, "The rain": 25, "The river": 37}


def test_never_all_groups_at_once_but_at_the_climax() -> None:
    score = EVERYBODY.score()
    tutti = [bar for bar in range(1, score.bars + 1) if len(sounding(score, bar)) == 5]
    assert 0 < len(tutti) <= 8
    # The density rule is at its most where the stage called rain begins, bar 37.
    assert tutti == list(range(min(tutti), max(tutti) + 1)) and 33 <= min(tutti) <= 41


def test_outside_the_climax_the_texture_is_thinner() -> None:
    one_stage = replace(
        EVERYBODY,
        stages=(("all", 40, 80.0),),
        parts=tuple(part(f"P{i}", "scatter", sound) for i, sound in enumerate(("claps", "claves", "triangle") * 3)),
        curves=(),
        classroom=well_stocked(groups=9, pupils=36),
    )
    score = one_stage.score()
    counts = [len(sounding(score, bar)) for bar in range(1, score.bars + 1)]
    assert max(counts) == 9 and counts.count(9) <= 8
    assert sorted(counts)[-9] == 7  # seven tenths of nine groups, rounded up


def test_new_parts_of_one_stage_come_in_one_after_the_other() -> None:
    score = EVERYBODY.score()
    entries = [p.entries[0].bar for p in score.group_parts]
    assert len(set(entries)) >= 3 and entries == sorted(entries)


def test_the_climax_follows_the_rules_peak() -> None:
    early = replace(EVERYBODY, curves=(("density", "C", (0.5, 3.0, 1.0, 0.5, 0.5, 0.5)),)).score()
    late = EVERYBODY.score()

    def tutti(score: Score) -> int:
        return min(bar for bar in range(1, score.bars + 1) if len(sounding(score, bar)) == 5)

    assert tutti(early) < tutti(late)


def test_without_rules_the_climax_is_late_and_the_piece_still_has_a_shape() -> None:
    score = replace(EVERYBODY, curves=()).score()
    counts = [len(sounding(score, bar)) for bar in range(1, 65)]
    assert counts[0] == counts[-1] == 1 and max(counts) == 5
    assert 30 <= counts.index(5) <= 50


def test_a_part_is_heard_in_each_of_its_stages() -> None:
    score = WATER.score()
    stages = {section.name: range(section.bar, section.bar + section.bars) for section in score.sections}
    for plan in WATER.parts:
        for name, bars in stages.items():
            here = bars_of(next(p for p in score.group_parts if p.name == plan.name)) & set(bars)
            assert bool(here) == (plan.stages == ("all",) or name in plan.stages), (plan.name, name)


def test_a_group_has_time_to_change_instruments() -> None:
    score = replace(WATER, classroom=well_stocked(groups=4, pupils=24)).score()
    groups: dict[int, list[Part]] = {}
    for p in score.group_parts:
        groups.setdefault(p.group, []).append(p)
    first, second = next(parts for parts in groups.values() if len(parts) == 2)
    gap = min(bars_of(second)) - max(bars_of(first)) - 1
    assert gap >= 2


def test_between_parts_of_neighbouring_stages_a_phrase_is_left_to_change() -> None:
    crowded = replace(
        WATER,
        parts=(
            part("Sea", "drone", "shaker"),
            part("A", "scatter", "claves", stages=("rising",)),
            part("B", "scatter", "triangle", stages=("cloud",)),
        ),
        curves=(),
        classroom=well_stocked(groups=2, pupils=10),
    )
    _, a, b = crowded.score().group_parts
    assert a.group == b.group
    assert max(bars_of(a)) == 22 and min(bars_of(b)) == 25  # the last phrase of "rising" is left out


def test_the_way_home_is_a_whole_phrase() -> None:
    stages = (*WATER.stages[:-1], ("river", 18, 84.0))  # phrases of 4, 4, 4, 2 and 4 bars
    score = replace(WATER, stages=stages).score()
    assert [len(sounding(score, bar)) for bar in range(score.bars - 4, score.bars + 1)] == [2, 1, 1, 1, 1]


def test_very_short_and_very_long_pieces_have_a_plan() -> None:
    tiny = Sketch(stages=(("one", 2, 60.0),), parts=WATER.parts[:1]).score()
    assert bars_of(tiny.group_parts[0]) == {1, 2}
    long = replace(WATER, stages=tuple((name, 150, bpm) for name, _, bpm in WATER.stages)).score()
    assert sounding(long, 750) == {"The sea"}


def test_groups_that_share_a_part_answer_each_other_and_meet_at_the_climax() -> None:
    score = replace(EVERYBODY, classroom=well_stocked(groups=8, pupils=32)).score()
    shared = [p for p in score.group_parts if p.name.startswith("A")]
    assert len(shared) == 2
    played = [{int(note.beat // 4) + 1 for note in p.notes} for p in shared]
    together = played[0] & played[1]
    assert together and len(together) <= 8
    assert all(len(sounding(score, bar)) >= 6 for bar in together)


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
    assert bars_named(RACE.score(scaffold=scaffold), "The heart") == set(range(1, 53))
    resting = replace(RACE, parts=(replace(HEART, rests=True), *RACE.parts[1:]))
    assert bars_named(resting.score(), "The heart") != set(range(1, 53))  # or the key says nothing


def test_a_part_on_the_beat_plays_every_beat_and_every_second_one_above_120() -> None:
    heart = RACE.score().parts[1]
    beats = {note.beat for note in heart.notes}
    quick = set(range(12 * 4, 36 * 4))
    assert beats == {beat for beat in range(52 * 4) if beat not in quick or beat % 2 == 0}
    assert [pattern.bars for pattern in heart.patterns] == [1, 1]
    assert not any("breathe" in text for text in [say(words) for words in heart.instructions])


def test_partners_come_and_go_together() -> None:
    score = RACE.score()
    assert bars_named(score, "The blood") == bars_named(score, "The breath") != set(range(1, 53))
    alone = replace(RACE, parts=tuple(replace(p, partner="") for p in RACE.parts)).score()
    assert bars_named(alone, "The blood") != bars_named(alone, "The breath")  # or the key says nothing


def test_nobody_rests_at_the_top_of_its_own_quantity() -> None:
    """The legs' rule asks for most where stage run ends and stage slow begins."""
    score = RACE.score()
    assert {33, 34, 35, 36} <= bars_named(score, "The legs") or {37, 38, 39, 40} <= bars_named(score, "The legs")
