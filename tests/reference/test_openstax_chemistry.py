"""OpenStax, Chemistry: Graham's law of effusion, which follows the molecules' mean speed, and heating curves. Read.

Modules m68754 and m68768. The book works heating curves with 2.09, 4.18 and 1.86 J/(g K), 6.01 and 40.67 kJ/mol.
"""

from __future__ import annotations

import pytest

from sonify.science.heating import state_heat, warming_heat
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


MELTING, BOILING = 6.01e3 / 0.01802, 40.67e3 / 0.01802  # J/kg, with 18.02 g/mol


def test_ice_to_vapour_takes_the_printed_heats() -> None:
    """135 g of ice at -15 °C to vapour at 120 °C: 4.23 + 45.0 + 56.5 + 305 + 5.02 = 416 kJ."""
    legs = [
        (warming_heat(0.135, 2090.0, 15.0), "4.23"),
        (state_heat(0.135, MELTING), "45.0"),
        (warming_heat(0.135, 4184.0, 100.0), "56.5"),
        (state_heat(0.135, BOILING), "305"),
        (warming_heat(0.135, 1860.0, 20.0), "5.02"),
    ]
    for heat_j, printed in legs:
        assert float(heat_j) / 1e3 == pytest.approx(float(printed), abs=half_last_digit(printed))
    # the book adds its rounded parts, which puts half a unit more into the sum: 415.4 exactly
    assert sum(float(heat_j) for heat_j, _ in legs) / 1e3 == pytest.approx(416.0, abs=0.7)


def test_hot_water_to_cold_ice_gives_the_printed_heat() -> None:
    """94.0 g of water at 80 °C to ice at -30 °C: 68.7 kJ given out."""
    given = -(warming_heat(0.0940, 4184.0, -80.0) - state_heat(0.0940, MELTING) + warming_heat(0.0940, 2090.0, -30.0))
    assert float(given) / 1e3 == pytest.approx(float("68.7"), abs=half_last_digit("68.7"))
