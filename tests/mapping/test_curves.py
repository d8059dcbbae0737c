"""Curves: exact at the ends, rising all the way, and taken back without loss."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.errors import OutOfRange
from sonify.mapping.rules import RuleCurve
from sonify.records.scene import CURVES


@st.composite
def curves(draw: st.DrawFn, kind: str | None = None) -> RuleCurve:
    """Curves over ranges that a scene could have: spans from a thousandth of the value to a millionfold."""
    kind = kind or draw(st.sampled_from(CURVES))
    low = draw(st.floats(1e-8, 1e6))
    high = low * draw(st.floats(1.001, 1e6))
    if kind == "linear" and draw(st.booleans()):
        low, high = -high, low
    if kind == "decibels":  # of loudness alone, whose softest mark is 32 and whose loudest 108
        ends = draw(st.lists(st.integers(32, 108), min_size=2, max_size=2, unique=True))
        return RuleCurve(kind=kind, low=low, high=high, to_low=float(ends[0]), to_high=float(ends[1]))
    to_low = draw(st.floats(0.0, 240.0))
    apart = draw(st.floats(0.05, 200.0)) * draw(st.sampled_from([1, -1]))
    return RuleCurve(kind=kind, low=low, high=high, to_low=to_low, to_high=to_low + apart)


def inside(curve: RuleCurve, shares: list[float]) -> np.ndarray:
    found = curve.low + np.array(sorted(shares)) * (curve.high - curve.low)
    return np.minimum(np.maximum(found, curve.low), curve.high)


SHARES = st.lists(st.floats(0.0, 1.0), min_size=2, max_size=20)


@given(curves())
def test_both_ends_are_exact_both_ways(curve: RuleCurve) -> None:
    assert list(curve.forward(np.array([curve.low, curve.high]))) == [curve.to_low, curve.to_high]
    assert list(curve.inverse(np.array([curve.to_low, curve.to_high]))) == [curve.low, curve.high]


@given(curves(), SHARES)
def test_more_of_the_quantity_never_turns_the_control_back(curve: RuleCurve, shares: list[float]) -> None:
    steps = np.diff(curve.forward(inside(curve, shares))) * np.sign(curve.to_high - curve.to_low)
    assert steps.min() >= -1e-12 * abs(curve.to_high - curve.to_low)


@given(curves(), SHARES)
def test_values_a_thousandth_of_the_range_apart_sound_different(curve: RuleCurve, shares: list[float]) -> None:
    values = inside(curve, shares)
    controls = curve.forward(values)
    apart = np.diff(values) > 1e-3 * (curve.high - curve.low)
    assert np.all(np.diff(controls)[apart] != 0.0)


@given(curves(), SHARES)
def test_the_inverse_brings_every_value_back(curve: RuleCurve, shares: list[float]) -> None:
    values = inside(curve, shares)
    back = curve.inverse(curve.forward(values))
    # a control near 240 keeps a step of 0.05 to about 1e-12, and a wide logarithm multiplies that
    np.testing.assert_allclose(back, values, rtol=1e-9, atol=1e-9 * (curve.high - curve.low))


@given(curves(), st.floats(1e-6, 10.0), st.booleans())
def test_a_value_outside_is_refused_not_clamped(curve: RuleCurve, beyond: float, above: bool) -> None:
    span = curve.high - curve.low
    value = curve.high + beyond * span if above else curve.low - beyond * span
    with pytest.raises(OutOfRange, match="the curve covers"):
        curve.forward(np.array([value]))
    control_span = abs(curve.to_high - curve.to_low)
    ends = sorted((curve.to_low, curve.to_high))
    with pytest.raises(OutOfRange, match="the curve covers"):
        curve.inverse(np.array([ends[1] + beyond * control_span if above else ends[0] - beyond * control_span]))


def test_what_is_no_number_is_refused() -> None:
    curve = RuleCurve(kind="linear", low=0.0, high=1.0, to_low=0.0, to_high=1.0)
    with pytest.raises(OutOfRange, match="nan"):
        curve.forward(np.array([0.5, np.nan]))


@given(curves(), st.lists(st.floats(-2.0, 3.0), min_size=1, max_size=10))
def test_holding_says_by_how_much_it_held(curve: RuleCurve, shares: list[float]) -> None:
    values = curve.low + np.array(shares) * (curve.high - curve.low)
    kept, beyond = curve.held(values)
    np.testing.assert_allclose(kept + beyond, values)
    assert curve.low <= kept.min() and kept.max() <= curve.high
    within = (curve.low <= values) & (values <= curve.high)
    assert np.array_equal(beyond == 0.0, within)


def test_a_linear_curve_halves_the_way() -> None:
    curve = RuleCurve(kind="linear", low=571.0, high=592.0, to_low=66.0, to_high=112.0)
    assert curve.forward(np.array([581.5]))[0] == pytest.approx(89.0)


def test_a_curve_in_decibels_makes_equal_steps_of_level() -> None:
    """The law that velocities are told by: 40 log10(v/127) dB (Downloadable Sounds, as quoted in a MIDI forum)."""
    curve = RuleCurve(kind="decibels", low=61.0, high=85.0, to_low=32.0, to_high=108.0)
    levels = 40.0 * np.log10(curve.forward(np.array([61.0, 67.0, 73.0, 79.0, 85.0])) / 127.0)
    assert np.diff(levels) == pytest.approx([levels[-1] / 4 - levels[0] / 4] * 4)


def test_a_logarithmic_curve_makes_equal_steps_of_equal_ratios() -> None:
    curve = RuleCurve(kind="logarithmic", low=0.5, high=8.0, to_low=60.0, to_high=84.0)  # four doublings, two octaves
    assert list(curve.forward(np.array([0.5, 1.0, 2.0, 4.0, 8.0]))) == pytest.approx([60.0, 66.0, 72.0, 78.0, 84.0])


@pytest.mark.parametrize("ends", [(1.0, 1.0), (2.0, 1.0)])
def test_a_curve_without_a_range_is_our_own_mistake(ends: tuple[float, float]) -> None:
    with pytest.raises(ValueError, match="low end"):
        RuleCurve(kind="linear", low=ends[0], high=ends[1], to_low=0.0, to_high=1.0)


def test_a_logarithm_from_nothing_is_our_own_mistake() -> None:
    with pytest.raises(ValueError, match="above 0"):
        RuleCurve(kind="logarithmic", low=0.0, high=1.0, to_low=0.0, to_high=1.0)
