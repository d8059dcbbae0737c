"""Every ready-made scene for random classes: playable, a place for every pupil, every stage heard."""

from __future__ import annotations

from collections import Counter
from functools import cache

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from sonify import lesson
from sonify.arrange import playability
from sonify.arrange.compared import of_one_height
from sonify.lesson.studying import arranged_for
from sonify.records.classroom import Classroom, Stock
from sonify.records.fact import Fact
from sonify.records.findings import Finding
from sonify.records.scene import Scene
from sonify.records.score import Score
from sonify.records.score_invariants import faults
from sonify.records.timeline import Timeline
from sonify.say import say
from tests.arrange.strategies import classrooms
from tests.studies import FEWER

SOME = settings(max_examples=5, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
SCAFFOLD = st.sampled_from(["full", "part", "open"])


@cache
def computed(name: str) -> tuple[Scene, Timeline]:
    """A scene as far as it does not depend on the class."""
    scene = lesson.load(name)
    return scene, lesson.simulate(scene)


def arranged(name: str, classroom: Classroom, scaffold: str) -> tuple[Score, tuple[Finding, ...]]:
    made = arranged_for(*computed(name), classroom, seed=2, scaffold=scaffold)
    return made.score, made.findings


def heard_in(score: Score, bar: int, bars: int) -> bool:
    """Whether a group plays in these bars, or is to invent what it plays there."""
    first, end = (bar - 1) * score.metre.beats, (bar - 1 + bars) * score.metre.beats
    return any(
        any(first <= note.beat < end for note in part.notes)
        or any(blank.bar < bar + bars and bar < blank.bar + blank.bars for blank in part.blanks)
        for part in score.group_parts
    )


def of_the_class(finding: Finding, scene: str, classroom: Classroom) -> bool:
    """What this class cannot have, said to be mended: compared tunes for more groups than the cupboard has instruments
    of one octave for; a part that nobody plays, of more parts than there are groups.
    """
    told = finding.message.message if isinstance(finding.message, Fact) else ""
    few = min(classroom.groups, classroom.pupils) < len(computed(scene)[0].parts)
    return told == "play-compared-octaves" or (told == "group-left-out" and few)


def unsaid_octaves(score: Score, scene: str) -> list[str]:
    """Who plays a compared tune an octave off and does not read so on the card: the main instrument beside another
    part's, or an instrument that plays along with it. Who invents the part reads none of it."""
    found: list[str] = []
    pitched = {row.id for row in score.instruments if row.pitched}
    melodies = [part for part in score.group_parts if part.texture == "melody" and part.instrument in pitched]
    for part in melodies:
        mates = of_one_height(computed(scene)[0], part.name.partition(", ")[0])
        told = {words.message for words in part.instructions if isinstance(words, Fact)}
        if not mates or "part-you-decide" in told:
            continue
        others = [other for other in melodies if other.name.partition(", ")[0] in mates]
        if any(other.octaves != part.octaves for other in others) and "part-octave-apart" not in told:
            found.append(part.name)
        lead = {note.beat: note.midi for note in part.notes if note.instrument in ("", part.instrument)}
        along = [note for note in part.notes if note.instrument in pitched and note.beat in lead]
        apart = {note.midi - lead[note.beat] for note in along if (note.midi - lead[note.beat]) % 12 == 0}
        if apart - {0} and "part-along-octave" not in told:
            found.append(part.name)
    return found


@pytest.mark.parametrize("scene", FEWER)
@SOME
@given(classroom=classrooms(), scaffold=SCAFFOLD)
def test_any_class_can_play_any_scene(scene: str, classroom: Classroom, scaffold: str) -> None:
    score, findings = arranged(scene, classroom, scaffold)
    assert faults(score) == []
    assert unsaid_octaves(score, scene) == []
    problems = [*findings, *playability(score, classroom)]
    assert [
        f"{f.part} {f.where}: {f.message}" for f in problems if f.serious and not of_the_class(f, scene, classroom)
    ] == []
    groups = score.group_pupils
    assert sum(groups.values()) == classroom.pupils
    assert len(groups) == min(classroom.groups, classroom.pupils)
    silent = [section.title for section in score.sections if not heard_in(score, section.bar, section.bars)]
    assert silent == []


@pytest.mark.parametrize("scene", FEWER)
@SOME
@given(classroom=classrooms())
def test_no_more_instruments_are_given_out_than_the_cupboard_holds(scene: str, classroom: Classroom) -> None:
    """At one desk the same instruments may serve two parts one after the other; two desks never share one."""
    score, _ = arranged(scene, classroom, "full")
    desks: dict[str, Counter[tuple[int, int]]] = {}
    for part in score.group_parts:
        for seat in part.seats:
            if not score.instrument(seat.instrument).bodily:
                at = desks.setdefault(seat.instrument, Counter())
                at[part.group, part.team] = max(at[part.group, part.team], seat.count)
    assert {name: at.total() for name, at in desks.items() if at.total() > classroom.count(name)} == {}


@pytest.mark.parametrize("scene", FEWER)
@SOME
@given(classroom=classrooms())
def test_groups_that_play_at_once_can_be_told_apart(scene: str, classroom: Classroom) -> None:
    """Two parts of the scene on one instrument: only where the cupboard leaves no choice, and then it is said."""
    score, findings = arranged(scene, classroom, "full")
    owners: dict[str, set[str]] = {}
    for part in (part for part in score.group_parts if not part.pulse):
        owners.setdefault(part.instrument, set()).add(part.meaning or part.name)
    shared = [name for name, meanings in owners.items() if len(meanings) > 1]
    told = " ".join(say(f.message).lower() for f in findings)
    for name in shared:
        row = score.instrument(name)
        assert row.name.lower() in told or row.plural.lower() in told, f"{row.name} serves {owners[name]} unsaid"


@pytest.mark.parametrize("groups", [2, 8])
def test_the_smallest_and_the_largest_number_of_groups(groups: int) -> None:
    stock = (Stock(instrument="triangle", count=1),)
    classroom = Classroom(year=4, pupils=16, groups=groups, cupboard=stock)
    score, _ = arranged("harbour-water-cycle", classroom, "full")
    assert len(score.group_pupils) == groups
    assert [f.message for f in playability(score, classroom) if f.serious] == []
