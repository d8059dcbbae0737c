"""Chow, Maidment and Mays, Applied Hydrology (1988), examples 3.5.1 to 3.5.4.

The printed answers are from memory, not verified; computed apart from our code they are 7.098, 7.450, 7.190, 6.806.
Water at 25 °C, net radiation 200 W/m², humidity 40 %, wind 3 m/s at 2 m, roughness 0.03 cm, e_s 3167 Pa.
"""

from __future__ import annotations

import pytest

from sonify.science.evaporation import (
    MM_PER_DAY,
    combined_evaporation,
    energy_evaporation,
    humid_evaporation,
    transfer_coefficient,
    wind_evaporation,
)
from tests.reference.tolerance import half_last_digit

RATIO = 188.7 / 67.1  # the example's slope and psychrometric constant, Pa/°C
WATER_DENSITY = 0.997


def test_by_energy() -> None:
    assert energy_evaporation(200.0, 298.15) / MM_PER_DAY / WATER_DENSITY == pytest.approx(
        float("7.10"), abs=half_last_digit("7.10")
    )


def test_by_wind() -> None:
    rate = wind_evaporation(3.0, 0.6 * 3167.0, 298.15, transfer_coefficient(2.0, 0.0003)) / MM_PER_DAY
    # the example takes air of 1.19 kg/m³; dry air of 25 °C has 1.184
    assert rate / WATER_DENSITY == pytest.approx(float("7.45"), rel=0.006)


def test_combined() -> None:
    assert combined_evaporation(7.10, 7.45, RATIO) == pytest.approx(float("7.2"), abs=half_last_digit("7.2"))


def test_priestley_taylor() -> None:
    assert humid_evaporation(7.10, RATIO, 1.3) == pytest.approx(float("6.8"), abs=half_last_digit("6.8"))
