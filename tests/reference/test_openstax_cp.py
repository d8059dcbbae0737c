"""OpenStax, College Physics, module m42219 "Humidity, Evaporation, and Boiling". Read.

The book's humidity examples compare densities of saturated vapour, not pressures, and so do these tests. Its table of
vapour pressures prints 1.19 kPa at 10 °C, 3 % too low; it is not used.
"""

from __future__ import annotations

import pytest

from sonify.constants import GAS_CONSTANT_J_PER_MOL_K
from sonify.science.humidity import vapour_density
from sonify.science.saturation import saturation_vapour_pressure
from tests.reference.tolerance import half_last_digit


def saturated_g_m3(t_c: float) -> float:
    return 1000.0 * float(vapour_density(saturation_vapour_pressure(t_c + 273.15), t_c + 273.15))


def test_vapour_density_of_the_worked_example() -> None:
    """2.33 kPa at 20 °C: 0.957 mol/m³, 17.2 g/m³."""
    assert 1000 * vapour_density(2330.0, 293.15) == pytest.approx(17.2, abs=half_last_digit("17.2"))
    moles = vapour_density(2330.0, 293.0) / 0.01801528
    book = GAS_CONSTANT_J_PER_MOL_K / 8.31  # the example rounds the gas constant to three digits
    assert moles * book == pytest.approx(0.957, abs=half_last_digit("0.957"))


def test_relative_humidity_of_the_worked_example() -> None:
    """25.0 °C, 9.40 g/m³ of the 23.0 g/m³ that saturate it: 40.9 %."""
    assert saturated_g_m3(25.0) == pytest.approx(23.0, abs=half_last_digit("23.0"))
    table_rounding = 40.9 * half_last_digit("23.0") / 23.0
    assert 100 * 9.40 / saturated_g_m3(25.0) == pytest.approx(40.9, abs=half_last_digit("40.9") + table_rounding)


def test_dew_point_of_the_worked_example() -> None:
    """9.40 g/m³ saturates air of 10.0 °C."""
    assert saturated_g_m3(10.0) == pytest.approx(9.40, abs=half_last_digit("9.40"))


def test_dry_winter_air() -> None:
    """25 °C with dew point -10 °C: 10.2 to 10.3 %."""
    assert 100 * saturated_g_m3(-10.0) / saturated_g_m3(25.0) == pytest.approx(10.25, abs=0.1)
