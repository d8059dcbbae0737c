"""Strings, tubes and bars, and loudness over distance: by what the laws themselves demand."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.optimize import brentq

from sonify.science.vibration import (
    FREE_BAR,
    bar_frequency,
    level_at,
    levels_together,
    string_frequency,
    tube_frequency,
)

SEMITONE = 2.0 ** (1.0 / 12.0)


def test_a_semitone_takes_5_613_per_cent_of_a_string_or_tube_and_2_847_of_a_bar() -> None:
    """From equal temperament alone: 1 - 2^(-1/12) and 1 - 2^(-1/24), to the three digits of the issue."""
    for shorter, sounds in (
        (0.05613, lambda length: string_frequency(length, 60.0, 5e-4)),
        (0.05613, lambda length: tube_frequency(length, 343.0)),
        (0.02847, lambda length: bar_frequency(length, 0.005, 5000.0)),
    ):
        assert float(sounds(0.5 * (1.0 - shorter)) / sounds(0.5)) == pytest.approx(SEMITONE, abs=2e-5)


def test_the_number_of_a_free_bar_solves_its_own_equation() -> None:
    """cos(x) cosh(x) = 1 of a beam with free ends (Euler and Bernoulli), its first root by scipy."""
    root = brentq(lambda x: np.cos(x) * np.cosh(x) - 1.0, 4.0, 5.5, xtol=1e-14)
    assert pytest.approx(root**2 / (2.0 * np.pi * np.sqrt(12.0)), rel=1e-6) == FREE_BAR


def test_a_steel_bar_beside_a_string_and_a_tube_of_school_size() -> None:
    assert float(tube_frequency(0.6, 343.0)) == pytest.approx(285.8, abs=0.05)
    assert float(string_frequency(0.6, 240.0, 5e-4) / string_frequency(0.6, 60.0, 5e-4)) == pytest.approx(2.0)


@given(st.floats(0.5, 5.0), st.floats(1.0, 500.0))
def test_twice_as_far_is_6_02_decibels_less(first: float, distance: float) -> None:
    less = float(level_at(85.0, first, distance) - level_at(85.0, first, 2.0 * distance))
    assert less == pytest.approx(6.0206, abs=1e-4)


@given(st.floats(0.0, 120.0), st.floats(0.0, 120.0))
def test_two_sounds_have_both_their_energies(one: float, other: float) -> None:
    together = 10.0 ** (float(levels_together(one, other)) / 10.0)
    assert together == pytest.approx(10.0 ** (one / 10.0) + 10.0 ** (other / 10.0), rel=1e-12)
