"""The slope of a rule by hand, and words where there is none."""

from __future__ import annotations

from math import log

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.mapping.companions import ValueWords
from sonify.mapping.exaggeration import Exaggeration, exaggeration
from sonify.mapping.rules import bound_rule
from sonify.records.fact import fact
from sonify.records.scene import Rule
from sonify.say import say
from tests.mapping.making import process, quantity, rule, stepped, timeline


def stretched(written: Rule, *, unit: str = "m/s", si_unit: str = "m/s", true_zero: bool = True) -> Exaggeration:
    found = timeline(
        quantity("speed", stepped([571.0, 592.0, 580.0, 575.0, 571.0]), unit=unit, si_unit=si_unit, true_zero=true_zero)
    )
    bound = bound_rule(written, found, process(found))
    words = ValueWords(quantity=bound.quantity, low=bound.curve.low, high=bound.curve.high)
    return exaggeration(bound, words, fact("key-quantity-of", quantity="speed", owner="the water"))


def test_molecule_speed_against_the_beat_by_hand() -> None:
    found = stretched(rule("speed", ends=("571 m/s", "592 m/s"), to=(66.0, 112.0)))
    assert found.slope == pytest.approx(log(112.0 / 66.0) / log(592.0 / 571.0))
    assert found.slope == pytest.approx(14.64, abs=0.005)  # 0.52884 / 0.03612, worked on paper
    # 592 / 571 = 1.0368, 112 / 66 = 1.697
    assert "speed of the water rises by 3.7 %, our beat rises by 70 %" in say(found.words)
    assert (
        say(found.for_pupils)
        == "From 571 m/s to 592 m/s the speed really rises by 3.7 %. Our beat rises by 70 %, so that you can hear it."
    )
    assert "15" not in say(found.words), "a ratio of logarithms is no multiple"


@pytest.mark.parametrize(
    ("control", "to", "factor"),
    [
        ("tempo", (60.0, 120.0), 1.0),  # the speed doubles, so does the beat
        ("pitch", (60.0, 72.0), 1.0),  # an octave is twice the frequency
        ("pitch", (60.0, 84.0), 2.0),  # two octaves are four times
        ("dynamics", (40.0, 80.0), 2.0),  # 40 log10 2 = 12.04 dB is four times the amplitude
        ("density", (0.5, 4.0), 3.0),  # eight times is two to the third
        ("tempo", (120.0, 60.0), -1.0),  # the other way round
    ],
)
def test_factors_of_a_doubled_quantity(control: str, to: tuple[float, float], factor: float) -> None:
    assert stretched(rule("speed", control, ("300 m/s", "600 m/s"), to)).slope == pytest.approx(factor)


def test_the_words_follow_the_factor() -> None:
    same = stretched(rule("speed", ends=("300 m/s", "600 m/s"), to=(60.0, 120.0)))
    assert (
        "becomes 2 times as much" in say(same.words)
        and "Nothing is exaggerated" in say(same.words)
        and not same.for_pupils
    )
    less = stretched(rule("speed", ends=("300 m/s", "600 m/s"), to=(60.0, 70.0)))
    assert "changes less than the science does." in say(less.words)
    turned = stretched(rule("speed", ends=("571 m/s", "592 m/s"), to=(112.0, 66.0)))
    assert "our beat falls by 41 %" in say(turned.words) and "and the other way" in say(turned.words)


def test_temperatures_count_from_absolute_zero() -> None:
    found = stretched(rule("speed", ends=("5 degC", "25 degC"), to=(66.0, 112.0)), unit="degC", si_unit="K")
    assert found.slope == pytest.approx(log(112.0 / 66.0) / log(298.15 / 278.15))
    assert "counted in kelvin from absolute zero, rises by 7.2 %" in say(found.words)
    assert found.slope > 5.0 and not found.for_pupils, "pupils count degrees from freezing"


@pytest.mark.parametrize(
    ("written", "true_zero", "why"),
    [
        (rule("speed", ends=("571 m/s", "592 m/s")), False, "only a point on its scale"),
        (rule("speed", "brightness", ("571 m/s", "592 m/s"), (0.2, 0.8)), True, "brightness has no unit"),
        (rule("speed", "density", ("0 m/s", "592 m/s"), (0.25, 2.0)), True, "starts from nothing"),
        (rule("speed", "density", ("-5 m/s", "592 m/s"), (0.25, 2.0)), True, "goes below nothing"),
        (rule("speed", "density", ("571 m/s", "592 m/s"), (0.0, 2.0)), True, "starts from silence"),
    ],
)
def test_where_a_ratio_means_nothing_there_is_none_and_the_words_say_why(
    written: Rule, true_zero: bool, why: str
) -> None:
    found = stretched(written, true_zero=true_zero)
    assert found.slope is None
    assert say(found.words).startswith("How many times bigger") and why in say(found.words)


@given(st.floats(1.01, 3.0), st.floats(0.2, 20.0))
def test_a_sound_that_is_a_power_of_the_quantity_has_that_power_as_factor(ratio: float, power: float) -> None:
    to_high = 40.0 * ratio**power
    if to_high <= 240.0:
        written = rule("speed", ends=("300 m/s", f"{300.0 * ratio!r} m/s"), to=(40.0, to_high))
        assert stretched(written).slope == pytest.approx(power, rel=1e-9)
