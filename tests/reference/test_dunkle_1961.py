"""Dunkle (1961), the basin still. Its coefficients were read in independent programs, the paper was not.

So they are compared with what they stand for: natural convection of air between level surfaces, and heat and vapour
carried alike.
"""

from __future__ import annotations

import numpy as np
import pytest

from sonify.science.humidity import psychrometric_constant
from sonify.science.saturation import saturation_vapour_pressure_steam
from sonify.science.still import cover_cooling, enclosed_radiation, still_convection, still_evaporation

LAYER = 0.10  # against Jakob's law below, whose air properties are for 50 °C; OBSERVED 5 %
ALIKE = 0.10  # against the psychrometric constant; OBSERVED 8 %


def test_dry_air_convects_between_level_plates_as_jakob_has_it() -> None:
    """Nu = 0.075 Ra^(1/3) (Jakob; from memory) with air of 50 °C: k 0.0279, nu 1.80e-5, a 2.57e-5."""
    for difference in (5.0, 17.0, 30.0):
        rayleigh_per_m3 = 9.81 / 323.0 * difference / (1.80e-5 * 2.57e-5)
        jakob = 0.075 * np.cbrt(rayleigh_per_m3) * 0.0279
        ours = still_convection(323.15 + difference / 2, 323.15 - difference / 2, 0.0, 0.0)
        assert ours == pytest.approx(float(jakob), rel=LAYER)


def test_heat_and_vapour_are_carried_alike() -> None:
    """Then q_evaporation / q_convection = (p_w - p_c) / (gamma (T_w - T_c)), gamma the psychrometric constant."""
    per_pascal = float(still_evaporation(1.0, 1000.0, 0.0)) / 1000.0
    assert per_pascal == pytest.approx(1.0 / float(psychrometric_constant(101_325.0)), rel=ALIKE)


def test_by_hand_for_one_hot_afternoon() -> None:
    """60 and 45 °C, 19 946 and 9595 Pa: (15 + 10 351 · 333.15 / 248 954)^(1/3) · 0.884 = 2.711; · 10 351 · 0.016273."""
    p_water, p_cover = saturation_vapour_pressure_steam(333.15), saturation_vapour_pressure_steam(318.15)
    h = still_convection(333.15, 318.15, p_water, p_cover)
    assert h == pytest.approx(2.711, abs=0.001)
    assert still_evaporation(h, p_water, p_cover) == pytest.approx(456.7, abs=0.5)


def test_air_under_a_warmer_cover_lies_still() -> None:
    assert still_convection(300.0, 310.0, 3500.0, 6200.0) == 0.0


def test_wind_and_walls() -> None:
    """A still cover loses 2.8 W/(m² K) (Watmuff; from memory), and equal surfaces exchange nothing."""
    assert cover_cooling(0.0) == pytest.approx(2.8)
    assert enclosed_radiation(310.0, 310.0, 0.95, 0.9) == 0.0
    assert enclosed_radiation(320.0, 310.0, 0.95, 0.9) == pytest.approx(
        -float(enclosed_radiation(310.0, 320.0, 0.95, 0.9)), rel=1e-12
    )
