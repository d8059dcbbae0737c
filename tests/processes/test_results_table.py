"""A table of results as a piece: every reading has its turn, and at the end all come in order. Invented readings."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify import lesson
from sonify.errors import BadFile
from sonify.facts.evidence import Evidence
from sonify.inputs.logger import read_table
from sonify.kinds.timelines import TIMELINES
from sonify.processes import conditions_si, find
from sonify.records.fact import Reading
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Timeline
from sonify.say import say
from tests.processes.truth import check_told, judged

PLAIN = find("results-table")


def fitted(text: str) -> ProcessSpec:
    return PLAIN.for_table(read_table(text.encode(), file="made.csv"))  # type: ignore[misc]


def run(text: str, **changes: float) -> Timeline:
    spec = fitted(text)
    return spec.run({**conditions_si(spec, ()), **changes})


CLOTHS = "Material,Test 1 (ml),Test 2 (ml),Mass (g)\npaper,12,13,2\ntowel,22,21,30\nsponge,16,,11\n"


def held(found: Timeline, name: str) -> list[float]:
    """What is heard of a quantity in the middle of each turn, a minute each."""
    middles = np.arange(30.0, found.time_s[-1], 60.0)
    return [round(float(value), 6) for value in np.interp(middles, found.time_s, found.quantity(name).in_unit())]


def test_every_try_has_its_turn_and_the_means_come_in_order_at_the_end() -> None:
    found = run(CLOTHS)
    assert held(found, "test") == [12.0, 13.0, 22.0, 21.0, 16.0, 12.5, 16.0, 21.5]
    assert held(found, "mass") == [2.0, 2.0, 30.0, 30.0, 11.0, 2.0, 11.0, 30.0]
    assert [(stage.name, stage.start_s) for stage in found.stages] == [
        ("paper", 0.0),
        ("towel", 120.0),
        ("sponge", 240.0),
        ("in order", 300.0),
    ]


#: Flights in metres, invented, whose tries differ more than the gliders do.
FLIGHTS = {"Dart": (4.1, 6.3, 5.2, 5.8), "Wide": (7.2, 6.6, 8.1, 3.29), "Ring": (9.4, 5.1, 12.2, 7.7)}
GLIDERS = "Glider,Flight 1 (m),Flight 2 (m),Flight 3 (m),Flight 4 (m)\n" + "".join(
    f"{name},{','.join(map(str, flights))}\n" for name, flights in FLIGHTS.items()
)


def test_from_its_start_to_its_end_a_stage_holds_its_own_readings_alone() -> None:
    found = run(GLIDERS)
    evidence = Evidence(timeline=found)
    for stage in found.stages[:-1]:
        ends = [
            evidence.value(Reading(how=how, of="flight", start=stage.start_s, end=stage.end_s))
            for how in ("least", "most", "first", "last", "mean")
        ]
        own = FLIGHTS[stage.name]
        assert ends == pytest.approx([min(own), max(own), own[0], own[-1], sum(own) / 4], rel=1e-5)


def test_stages_of_a_table_that_share_a_moment_are_refused() -> None:
    found = run(GLIDERS)
    first, second, *rest = found.stages
    with pytest.raises(ValueError, match="stage Dart ends at the value with which Wide starts"):
        replace(found, stages=(replace(first, end_s=second.start_s), second, *rest))


def test_what_is_said_of_each_material_has_its_own_figures() -> None:
    sentences = {stage.name: say(stage.science) for stage in run(CLOTHS).stages}
    assert sentences["paper"] == "Paper: test 12 ml and 13 ml (mean 12.5 ml) and mass 2 g."
    assert sentences["in order"].endswith("paper 12.5 ml, sponge 16 ml and towel 21.5 ml.")


def test_a_table_has_no_time_and_no_order_but_that_of_size() -> None:
    found = run(CLOTHS)
    kind = TIMELINES[found.kind]
    assert (kind.timed, kind.joined, kind.order) == (False, False, "size")
    told = " ".join(text for _, text in judged(found, {"turn": 60.0})[0])
    assert not re.search(r"minute|second|hour", told)


def test_materials_that_are_alike_are_not_put_in_order() -> None:
    found = run("Material,Stretch (cm)\nwool,3\ncotton,3.0001\nfelt,3\n")
    assert say(found.stages[-1].science) == "The stretch is 3 cm for every one of them, so there is no order."
    assert not found.events


def test_those_that_are_told_alike_share_the_end_of_the_order() -> None:
    found = run("Surface,Distance (cm)\nice,120\nwood,45\ncarpet,0\nsand,0\n")
    assert [say(event.text) for event in found.events] == [
        "The least: carpet and sand, 0 cm.",
        "The most: ice, 120 cm.",
    ]


@st.composite
def tables(draw: st.DrawFn) -> str:
    """Two to twelve materials, one to four tries, gaps among them; any size and sign."""
    tries, unit = draw(st.integers(1, 4)), draw(st.sampled_from(["cm", "ml", "°C", "g", "N"]))
    heads = ",".join(f"Test {number + 1} ({unit})" for number in range(tries))
    reading = st.floats(-1e4, 1e4).map(lambda value: f"{value:.4g}") | st.sampled_from(["", "2", "2.0001"])
    rows = [
        f"material {number}," + ",".join([draw(reading.filter(bool)), *(draw(reading) for _ in range(tries - 1))])
        for number in range(draw(st.integers(2, 12)))
    ]
    return f"Material,{heads}\n" + "\n".join(rows) + "\n"


@given(tables())
def test_what_is_told_of_any_table_is_so(text: str) -> None:
    try:
        found = run(text)
    except BadFile:
        return
    _, false = judged(found, {"turn": 60.0})
    assert not false, false[0]
    check_told(found, {"turn": 60.0})


def test_repeats_may_also_stand_in_rows_of_their_own() -> None:
    found = run("Material,Stretch (cm)\nwool,3\ncotton,1\nwool,5\n")
    assert held(found, "stretch") == [3.0, 5.0, 1.0, 1.0, 4.0]
    assert [stage.name for stage in found.stages] == ["wool", "cotton", "in order"]


def test_a_material_without_a_reading_has_no_turn_and_it_is_said() -> None:
    spec = fitted("Material,Stretch (cm)\nwool,3\nfelt,\ncotton,1\n")
    assert [stage.name for stage in spec.stages] == ["wool", "cotton", "in order"]
    assert any("row 3" in say(sentence) for sentence in spec.honesty)


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("Time (s),Temp (°C)\n0,1\n1,2\n", "needs a column of words"),
        ("Temp (°C)\n1\n2\n", "needs a column of words"),
        ("Material,Stretch (cm)\nwool,3\nwool,4\n", "names 1 with complete readings; 2 to 12"),
        (
            "Material,Stretch (cm)\n" + "".join(f"{letter}x,1\n" for letter in "abcdefghijklmn"),
            "names 14 with complete readings",
        ),
        ("Material,Stretch (cm)\nwool,3\nin order,4\n", '"in order" is the name of the last stage'),
    ],
)
def test_a_table_that_cannot_be_played_is_refused(text: str, message: str) -> None:
    with pytest.raises(BadFile, match=message):
        fitted(text)


def test_the_rule_and_the_beat_are_the_same_for_every_material() -> None:
    """The shipped scene: one rule for all, so equal readings must give equal controls whoever plays."""
    studied = lesson.study("stretch-test")
    assert all(key.rule.part is None for key in studied.controls.keys)
    assert {stage.bpm for stage in studied.controls.time_map.stages} == {84.0}
    (pitch,) = (curve for curve in studied.controls.curves if curve.rule.control == "pitch")
    order = np.argsort(pitch.quantity_values, kind="stable")
    assert np.all(np.diff(pitch.results[order]) >= 0.0)


def test_the_shipped_readings_say_that_they_are_invented() -> None:
    scene = lesson.load("stretch-test")
    assert scene.table is not None and scene.table.writing.above >= 2
    assert "invented" in scene.teacher_notes[0]
    assert lesson.study(scene).problems == ()
