"""OpenStax, Chemistry, module m68754: Graham's law of effusion, which follows the molecules' mean speed. Read."""

from __future__ import annotations

import pytest

from sonify.science.kinetic import mean_speed
from tests.reference.tolerance import half_last_digit


def test_hydrogen_effuses_four_times_as_fast_as_oxygen() -> None:
    """Molar masses as the example rounds them: 2.0 and 32 g/mol."""
    ratio = mean_speed(298.0, 0.0020) / mean_speed(298.0, 0.032)
    assert ratio == pytest.approx(float("4.00"), abs=half_last_digit("4.00"))


def test_neon_takes_less_time_than_xenon() -> None:
    """Xenon takes 243 s, neon 95.3 s, with 20.18 and 131.3 g/mol."""
    seconds = 243.0 * mean_speed(298.0, 0.1313) / mean_speed(298.0, 0.02018)
    assert seconds == pytest.approx(float("95.3"), abs=half_last_digit("95.3"))
