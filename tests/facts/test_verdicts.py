"""Verdicts on made-up science whose truth is plain: a straight rise, a decay, a bump, a line that stays."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from sonify.facts.evidence import KNOWN, Evidence, NoEvidence
from sonify.facts.verdicts import VERDICTS, falsehoods, true_words
from sonify.kinds.claims import CLAIMS
from sonify.kinds.readings import READINGS
from sonify.records.fact import Amount, Claim, Duration, Reading, fact
from sonify.records.scene import Measure, Rule
from sonify.records.timeline import Quantity, Stage, Timeline

TIME_S = np.linspace(0.0, 100.0, 201)


def quantity(name: str, values: np.ndarray, unit: str = "m", si_unit: str = "m") -> Quantity:
    return Quantity(name=name, symbol=name[0], unit=unit, si_unit=si_unit, values=values)


def evidence() -> Evidence:
    stages = (
        Stage(name="one", title="One", start_s=0.0, end_s=50.0),
        Stage(name="two", title="Two", start_s=50.0, end_s=100.0),
    )
    rows = (
        quantity("rise", TIME_S * 0.1),
        quantity("decay", 8.0 * 0.5 ** (TIME_S / 20.0)),
        quantity("bump", np.sin(np.pi * TIME_S / 100.0)),
        quantity("still", np.full(201, 3.0)),
        quantity("warmth", 273.15 + TIME_S * 0.2, "degC", "K"),
    )
    timeline = Timeline(process="made up", time_s=TIME_S, quantities=rows, stages=stages, conditions=(("depth", 2.0),))
    return Evidence(timeline=timeline)


def reading(how: str, of: str, start: float = 0.0, end: float = 100.0, **more: float) -> Reading:
    return Reading(how=how, of=of, start=start, end=end, **more)  # type: ignore[arg-type]


@pytest.mark.parametrize(
    ("what", "value"),
    [
        (reading("first", "rise", 20.0), 2.0),
        (reading("last", "rise", 20.0, 70.25), 7.025),
        (reading("mean", "rise"), 5.0),
        (reading("mean", "decay"), 8.0 * 20.0 / np.log(2.0) * (1.0 - 0.5**5) / 100.0),
        (reading("most", "bump"), 1.0),
        (reading("least", "bump", 25.0, 60.0), float(np.sin(np.pi / 4))),
        (reading("change", "rise", 10.0, 30.0), 2.0),
        (reading("total", "still"), 300.0),
        (reading("when most", "bump"), 50.0),
        (reading("when over", "rise", level=4.2), 42.0),
        (reading("when under", "decay", level=1.0), 60.0),
        (reading("halving", "decay"), 20.0),
        (reading("begins", "two"), 50.0),
        (reading("lasts", "two"), 50.0),
        (reading("condition", "depth"), 2.0),
        (replace(reading("change", "rise"), per=reading("condition", "depth"), times=3.0), 15.0),
        (replace(reading("last", "rise"), less=reading("first", "still")), 7.0),
    ],
)
def test_a_reading_is_the_number_that_the_formula_gives(what: Reading, value: float) -> None:
    assert evidence().value(what) == pytest.approx(value, rel=1e-3)


@pytest.mark.parametrize(
    ("kind", "left", "right", "holds"),
    [
        ("rises", reading("change", "rise"), None, True),
        ("rises", reading("change", "decay"), None, False),
        ("rises", reading("change", "bump"), None, False),
        ("rises", reading("change", "bump", 0.0, 50.0), None, True),
        ("falls", reading("change", "decay"), None, True),
        ("falls", reading("change", "still"), None, False),
        ("steady", reading("change", "still"), None, True),
        ("steady", reading("change", "rise"), None, False),
        ("swings", reading("change", "bump"), None, True),
        ("swings", reading("change", "rise"), None, False),
        ("more", reading("last", "rise"), reading("first", "rise"), True),
        ("less", reading("last", "rise"), reading("first", "rise"), False),
        ("same", reading("last", "still"), reading("first", "still"), True),
        ("greatest", reading("mean", "rise", 50.0, 100.0), None, True),
        ("greatest", reading("mean", "rise", 0.0, 50.0), None, False),
        ("least", reading("mean", "decay", 50.0, 100.0), None, True),
        ("order of size", reading("mean", "rise"), None, True),
    ],
)
def test_a_claim_is_settled_as_its_row_says(kind: str, left: Reading, right: Reading | None, holds: bool) -> None:
    assert VERDICTS[kind](Claim(kind=kind, left=left, right=right), evidence()) is holds


def test_a_figure_off_by_one_in_its_last_digit_is_false() -> None:
    source = reading("last", "warmth")
    right = Amount(value=20.0, unit="degC", places=1, source=source)
    assert not falsehoods(fact("try-it", it=right), evidence())
    assert falsehoods(fact("try-it", it=replace(right, value=20.1)), evidence())


def test_a_change_of_temperature_has_no_other_zero() -> None:
    change = Amount(value=20.0, unit="degC", places=1, source=reading("change", "warmth"))
    assert not falsehoods(fact("try-it", it=change), evidence())


def test_a_stretch_of_time_that_is_two_per_cent_off_is_false() -> None:
    lasts = Duration(seconds=50.0, source=reading("lasts", "two"))
    assert not falsehoods(fact("try-it", it=lasts), evidence())
    assert falsehoods(fact("try-it", it=replace(lasts, seconds=52.0)), evidence())


def test_what_names_something_that_is_not_there_is_not_told() -> None:
    with pytest.raises(NoEvidence):
        evidence().value(reading("mean", "nothing of the kind"))
    assert true_words(fact("try-it", Claim(kind="rises", left=reading("change", "gone"))), evidence())[0] == ()


def test_a_false_fact_gives_way_to_its_weaker_one_and_is_remembered() -> None:
    weaker = fact("try-weaker")
    false = fact("try-it", Claim(kind="falls", left=reading("change", "rise"))).or_else(weaker)
    kept, faults = true_words((false, fact("try-other")), evidence())
    assert kept == (weaker, fact("try-other"))
    assert [(fault.fact.message, fault.kind) for fault in faults] == [("try-it", "falls")]


def test_every_row_of_the_tables_has_its_code_and_no_code_is_without_a_row() -> None:
    assert set(KNOWN) == set(READINGS)
    assert {*VERDICTS, "figure"} == set(CLAIMS)


@pytest.mark.parametrize(
    ("kind", "slack_db", "holds"),
    [
        ("told apart", 10.0, True),
        ("told apart", 15.0, False),
        ("not told apart", 8.0, False),
        ("not told apart", 9.0, True),
    ],
)
def test_sounds_are_told_apart_by_their_difference(kind: str, slack_db: float, holds: bool) -> None:
    """Velocity 40 to 80 over 0 to 10 m: 42 and 78 in the first and the last tenth; 40 log10(78/42) is 10.8 dB."""
    low, high = (Measure(text=f"{value} m", value=value, unit="m") for value in (0.0, 10.0))
    rule = Rule(
        quantity="rise", control="dynamics", low=low, high=high, to_low=40.0, to_high=80.0,
        to_low_text="p", to_high_text="f", why="it grows",
    )  # fmt: skip
    one, other = (reading("mean by rule", "hear.0", start, start + 10.0) for start in (0.0, 90.0))
    heard = replace(evidence(), rules=(rule,))
    assert heard.value(one) == pytest.approx(42.0) and heard.value(other) == pytest.approx(78.0)
    assert VERDICTS[kind](Claim(kind=kind, left=one, right=other, slack=slack_db), heard) is holds
