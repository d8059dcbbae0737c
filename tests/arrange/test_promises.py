"""What every arrangement promises the science and the teacher: all scenes, three classes; and random classes.

The figures are those of `tests/benchmarks/arranging.py`, which reads scores and scenes alone. Aims: our own limits.
"""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from sonify.arrange.compared import comparison_findings, comparisons
from sonify.arrange.piece import Piece
from sonify.arrange.playability import playability
from sonify.records.classroom import Classroom
from sonify.records.fact import Fact
from sonify.records.score import Entry, Score
from sonify.say import say
from sonify.units import printed
from tests.arrange.lessons import WATER, well_stocked
from tests.arrange.lessons import part as plan
from tests.arrange.strategies import classrooms
from tests.benchmarks.arranging import ROWS, SCENES, Row, Take, classes, take
from tests.catalogue import catalogue
from tests.studies import FEWER, studied

#: What holds whatever the cupboard and the class. The other rows of the table depend on both: they are printed there.
ALWAYS = (
    "compared parts together, % of lesser",
    "compared pairs on unlike instruments",
    "bars in which nobody plays",
    "seconds to a moment",
    "shortest stay within a stage, bars",
    "bars with too many meanings at once",
    "bars not played as marked, %",
)
IN_CLASS = (
    *ALWAYS,
    "cues at one moment",  # with many more groups than parts a part's groups come in at one moment: three cues
    "compared parts begin apart, bars",
    "bars without a steady pulse",
    "longest silence of a group, bars",
    "pupils idle in a half",
    "instruments handed out and never played",
    "least step of the tempo, ratio",
    "rules not told apart where they play",
)


def rows(names: tuple[str, ...]) -> list[Row]:
    found = [row for row in ROWS if row.name in names]
    assert len(found) == len(names)
    return found


def broken(one: Take, names: tuple[str, ...]) -> dict[str, float]:
    return {row.name: row.figure(one) for row in rows(names) if not row.good(row.figure(one))}


def test_who_shares_a_part_and_takes_turns_in_it_plays_all_the_same() -> None:
    """Two groups answer each other every two bars; pupils who changed over as often would always have the rests."""
    one = take("a-month-of-moon", Classroom(year=6, pupils=28, groups=7), seed=7)
    assert any(seat.at_once for part in one.score.group_parts for seat in part.seats if ", second" in part.name)
    assert broken(one, ("pupils idle in a half",)) == {}


@pytest.mark.parametrize("scene", SCENES)
@pytest.mark.parametrize("label", list(classes()))
def test_every_scene_keeps_its_promises_in_three_classes(scene: str, label: str) -> None:
    assert broken(take(scene, classes()[label], seed=7), IN_CLASS) == {}


@pytest.mark.parametrize("scene", FEWER)
@settings(max_examples=2, deadline=None, derandomize=True, suppress_health_check=list(HealthCheck))
@given(classroom=classrooms(), seed=st.integers(0, 99))
def test_every_scene_keeps_its_promises_in_any_class(scene: str, classroom: Classroom, seed: int) -> None:
    assert broken(take(scene, classroom, seed=seed), ALWAYS) == {}


def test_comparisons_are_found_by_their_rules_and_by_with() -> None:
    """Read off the scene files: the same control, unit and range for two quantities, or `with` in one texture."""
    found = {scene: comparisons(take(scene, classes()["well-stocked"]).scene) for scene in SCENES}
    assert {scene: sides for scene, sides in found.items() if sides} == {
        "beans-in-three-places": (("The window sill", "The cupboard", "The fridge"),),
        "bouncing-balls": (("The sponge ball", "The tennis ball", "The bouncy ball"),),
        "dough-in-three-bowls": (("The warm place", "The classroom", "The fridge"),),
        "muddy-water": (("The gravel", "The sand"),),
        "the-race-round-the-sun": (("The planet", "The Earth to compare"),),
        "the-sea-that-stayed-warm": (("The sea as it was", "The sea as it usually is"),),
        "three-kinds-of-penguin": (("The females' tune", "The males' tune"),),
        "two-cups": (("Cup A", "Cup B"),),
        "which-cloth-drinks-most": (("The kitchen paper", "The cotton towel", "The sponge cloth"),),
    }


CUPS = take("two-cups", classes()["well-stocked"])


def problems(score: Score) -> list[str]:
    piece = Piece(
        scene=CUPS.scene,
        timeline=CUPS.timeline,
        controls=CUPS.controls,
        classroom=CUPS.classroom,
        catalogue=catalogue(),
    )
    return [say(finding.message) for finding in comparison_findings(piece, score, 3) if finding.serious]


def cup_b(**changed: object) -> Score:
    parts = tuple(replace(p, **changed) if p.name == "Cup B" else p for p in CUPS.score.parts)  # type: ignore[arg-type]
    return replace(CUPS.score, parts=parts, instruments=catalogue().instruments)


def test_what_cannot_be_compared_is_a_problem() -> None:
    assert problems(CUPS.score) == []
    apart = cup_b(entries=(Entry(bar=1, bars=20), Entry(bar=60, bars=23)))
    assert problems(apart) == []  # all its bars are heard with the other's
    alone = replace(
        apart,
        parts=tuple(replace(p, entries=(Entry(bar=19, bars=40),)) if p.name == "Cup A" else p for p in apart.parts),
    )
    assert "sound together in only" in problems(alone)[0]
    late = cup_b(entries=(Entry(bar=9, bars=74),))
    assert "begins together" in problems(late)[0]
    assert "and one on voices" in problems(cup_b(instrument="voices-oo"))[0]


def test_what_is_compared_on_one_kind_of_instrument_is_told_once_and_as_meant() -> None:
    told = [say(finding.message) for finding in CUPS.findings if finding.kind == "playability"]
    assert sum("are compared, so they play" in each for each in told) == 1
    assert not any("Cup A and Cup B both play" in each for each in told)


def test_gaps_of_temperature_are_printed_as_degrees_celsius() -> None:
    """A kelvin of difference is a degree Celsius of difference (BIPM, the SI brochure, 9th edition, 2.3.1)."""
    assert printed(CUPS.timeline.quantity("gap").unit) == "°C"


def test_a_mark_that_is_not_played_is_a_problem() -> None:
    part = next(p for p in CUPS.score.group_parts if p.name == "Cup A")
    loud = tuple(replace(note, velocity=120) if note.beat >= part.notes[-1].beat - 1 else note for note in part.notes)
    wrong = replace(CUPS.score, parts=tuple(replace(p, notes=loud) if p is part else p for p in CUPS.score.parts))
    messages = [say(f.message) for f in playability(wrong, CUPS.classroom) if f.serious and f.part == "Cup A"]
    assert any("and marked" in message for message in messages)
    assert not any("and marked" in say(f.message) for f in playability(CUPS.score, CUPS.classroom))


def test_compared_tunes_are_moved_by_the_same_octaves_on_one_kind_of_instrument() -> None:
    """What is asked for and what sounds differ by the same octaves in both cups, so that equal stays equal."""
    cups = [p for p in CUPS.score.group_parts if p.name in ("Cup A", "Cup B")]
    assert cups[0].instrument == cups[1].instrument and cups[0].octaves == cups[1].octaves
    first = [next(n for n in p.notes if n.asked is not None and n.instrument == p.instrument) for p in cups]
    assert first[0].beat == first[1].beat == Fraction(0) and first[0].midi == first[1].midi  # both start alike


@pytest.mark.parametrize("label", list(classes()))
def test_in_a_table_of_results_the_same_value_sounds_as_the_same_note_whoever_plays(label: str) -> None:
    """Read off the score: every first note of a bar, on whichever instrument of the tune, against the value there."""
    one = take("stretch-test", classes()[label], seed=7)
    curve = one.controls.curve("pitch")
    assert curve is not None
    heard: dict[float, set[int]] = {}
    for part in one.score.group_parts:
        if part.texture == "melody" and not part.pulse:
            for note in part.notes:
                if note.beat % one.score.metre.beats == 0 and note.asked is not None:
                    heard.setdefault(round(float(curve.quantity_values[int(note.beat)]), 6), set()).add(note.midi)
    assert len(heard) >= 12  # the readings and the means of four materials
    assert all(len(notes) == 1 for notes in heard.values())
    notes = [next(iter(heard[value])) for value in sorted(heard)]
    assert notes == sorted(notes)


def test_a_tune_that_sounds_octaves_above_those_it_is_compared_with_is_a_problem() -> None:
    (told,) = problems(cup_b(octaves=1))
    assert told.startswith("Cup B sounds an octave higher than Cup A at the same value")


@pytest.mark.parametrize(("compared", "groups"), [(2, 3), (2, 6), (3, 2), (3, 4), (4, 3)])
def test_what_is_compared_sounds_together_where_there_is_nothing_else(compared: int, groups: int) -> None:
    """A table of a person's own may give two tunes and no other part: none would be left to keep the beat."""
    names = [f"Cup {number + 1}" for number in range(compared)]
    first, *others = [plan(name, "melody") for name in names]
    parts = (first, *(replace(other, partner=first.name) for other in others))
    curves = tuple(("pitch", name, tuple(60 + (k * n + k) % 9 for n in range(6))) for k, name in enumerate(names, 1))
    classroom = well_stocked(groups=groups, pupils=6 * groups)
    score, findings = replace(WATER, parts=parts, curves=curves, classroom=classroom).arranged(seed=7)
    bars = {
        name: {
            bar
            for own in score.group_parts
            if own.name.startswith(name)
            for entry in own.entries
            for bar in range(entry.bar, entry.bar + entry.bars)
        }
        for name in names
    }
    for name, own in bars.items():
        beside = set().union(*(more for other, more in bars.items() if other != name))
        assert own and len(own & beside) >= 0.6 * len(own), name
    told = {finding.message.message for finding in findings if finding.serious and isinstance(finding.message, Fact)}
    assert told <= {"play-compared-octaves"}  # the octaves are the cupboard's


def test_where_a_note_goes_round_each_plays_on_the_beats_that_its_card_says() -> None:
    score, told = studied("stretch-test").score, 0
    for part in score.group_parts:
        for words in part.instructions:
            if isinstance(words, Fact) and words.message == "part-note-goes-round":
                turn: dict[str, Any] = dict(words.args)
                for bar in range(turn["first"], turn["last"] + 1):
                    start = (bar - 1) * score.metre.beats
                    struck = {
                        note.beat - start + 1 for note in part.notes if 0 <= note.beat - start < score.metre.beats
                    }
                    assert struck == set(map(int, turn["beats"])), (part.name, bar)
                    told += 1
    assert told
