"""A piece dealt out again on the morning: who is there plays the same music on what is whole, and few cards change."""

from __future__ import annotations

from collections import defaultdict
from dataclasses import replace

import pytest

from sonify.arrange.dealing import deal_again
from sonify.arrange.playability import playability
from sonify.errors import SonifyError
from sonify.records.dealing import Dealt, Missing
from sonify.records.lesson import Lesson
from sonify.records.score import Part, Score
from sonify.say import say
from tests.catalogue import catalogue
from tests.studies import studied

SCENES = ["harbour-water-cycle", "two-cups", "ice-rink-particles"]


def dealt(lesson: Lesson, **missing: tuple[tuple[int | str, int], ...]) -> Dealt:
    return deal_again(lesson.score, lesson.classroom, catalogue(), Missing(**missing))  # type: ignore[arg-type]


def heads(score: Score) -> int:
    """Pupils, counted from the seats: a group's two teams sit side by side."""
    groups: dict[int, dict[int, int]] = defaultdict(dict)
    for part in score.group_parts:
        groups[part.group][part.team] = max(groups[part.group].get(part.team, 0), part.players)
    return sum(max(teams.get(0, 0), sum(n for team, n in teams.items() if team)) for teams in groups.values())


def music(part: Part) -> list[tuple[object, ...]]:
    return [(note.beat, note.beats, note.midi, note.velocity, note.brightness) for note in part.notes]


@pytest.mark.parametrize("scene", SCENES)
@pytest.mark.parametrize("absent", [((0, 1),), ((0, 3),), ((2, 1), (4, 2)), ((0, 9),)])
def test_those_who_are_there_play_every_note(scene: str, absent: tuple[tuple[int, int], ...]) -> None:
    lesson = studied(scene)
    today = dealt(lesson, absent=absent).score
    assert heads(today) == heads(lesson.score) - sum(count for _, count in absent)
    assert [music(part) for part in today.parts] == [music(part) for part in lesson.score.parts]
    for part in today.group_parts:
        assert {note.player for note in part.notes} <= set(range(part.players + 1))
        assert all(seat.players >= 1 and seat.count >= 1 and seat.at_once < seat.players for seat in part.seats)
    # what the house itself finds of hands, breath and stock; groups may be uneven, so that few cards change
    there = replace(lesson.classroom, pupils=heads(today))
    found = [say(each.message) for each in playability(today, there) if each.serious]
    assert [words for words in found if not words.startswith("Groups of")] == []


def sizes(score: Score) -> list[int]:
    """Pupils of each group, of a piece whose groups have no teams."""
    found: dict[int, int] = {}
    for part in score.group_parts:
        assert not part.team
        found[part.group] = max(part.players, found.get(part.group, 0))
    return list(found.values())


def test_no_group_is_left_far_behind_the_others() -> None:
    """Three beside six is no group; three from group 4 by name likewise, where another spares one."""
    lesson = studied("two-cups")
    for absent in (((0, 3),), ((0, 5),), ((4, 3),)):
        found = sizes(dealt(lesson, absent=absent).score)
        assert sum(found) == sum(sizes(lesson.score)) - sum(count for _, count in absent)
        assert max(found) - min(found) <= 2, absent


def test_one_or_two_absent_change_one_group() -> None:
    for count in (1, 2):
        assert len(dealt(studied("two-cups"), absent=((0, count),)).by_hand) == 1


def test_a_note_says_what_to_write() -> None:
    (row,) = dealt(studied("harbour-water-cycle"), absent=((5, 1),)).by_hand
    assert row[0] == 5
    assert [say(note) for note in row[1]] == [
        "4 instead of 5 players",
        "“The rain”: 4 instead of 5 on the pairs of claves; put 1 away",
    ]


def test_a_broken_one_of_several_is_crossed_out() -> None:
    lesson = studied("two-cups")
    found = dealt(lesson, broken=(("alto-xylophone", 1),))
    assert [(group, [say(note) for note in notes]) for group, notes in found.by_hand] == [
        (1, ["cross out one alto xylophone, and take turns"])
    ]
    assert [music(part) for part in found.score.parts] == [music(part) for part in lesson.score.parts]
    held = sum(
        seat.count for part in found.score.group_parts for seat in part.seats if seat.instrument == "alto-xylophone"
    )
    assert held == lesson.classroom.count("alto-xylophone") - 1


def test_what_lies_unused_takes_the_place_of_what_is_broken() -> None:
    found = dealt(studied("two-cups"), broken=(("claves", 1), ("gong", 1)))
    assert found.by_hand == ()
    assert [say(each) for each in found.told] == [
        "Nobody needs the broken claves: there is one to spare.",
        "No group plays gong: no card changes.",
    ]


def test_a_lost_instrument_gives_way_to_one_that_has_its_notes() -> None:
    lesson = studied("two-cups")
    found = dealt(lesson, broken=(("alto-xylophone", 3),))
    assert not any(seat.instrument == "alto-xylophone" for part in found.score.group_parts for seat in part.seats)
    assert [music(part) for part in found.score.parts] == [music(part) for part in lesson.score.parts]
    for part in found.score.group_parts:
        for note in part.notes:
            row = found.score.instrument(note.instrument or part.instrument)
            assert not row.pitched or row.low <= note.midi <= row.high
    for stock in lesson.classroom.cupboard:
        used = sum(s.count for part in found.score.group_parts for s in part.seats if s.instrument == stock.instrument)
        assert used <= lesson.classroom.count(stock.instrument), stock.instrument


def test_too_few_and_a_group_that_is_none_are_refused() -> None:
    lesson = studied("two-cups")
    with pytest.raises(SonifyError, match="too few are left"):
        dealt(lesson, absent=((0, 25),))
    with pytest.raises(SonifyError, match="no group 9; the groups are 1 to 5"):
        dealt(lesson, absent=((9, 1),))
