"""IAPWS 2011, vapour over ice (library iapws; ASHRAE 2017 prints -5 and -20 °C alike), and the heat of fusion."""

from __future__ import annotations

import numpy as np
import pytest
from iapws._iapws import _Sublimation_Pressure

from sonify.science.heating import MELTING_J_PER_KG
from sonify.science.saturation import saturation_vapour_pressure
from sonify.science.snow import snow_melt_rate, vapour_pressure_over_ice

ICE = [(0.01, 611.657), (-5.0, 401.74), (-10.0, 259.87), (-20.0, 103.24)]  # °C, Pa
MURPHY_KOOP_ICE = 0.0006  # OBSERVED, not published: down to 200 K; 0.02 % above 240 K


@pytest.mark.parametrize(("t_c", "printed"), ICE)
def test_vapour_pressure_over_ice(t_c: float, printed: float) -> None:
    assert vapour_pressure_over_ice(min(t_c + 273.15, 273.16)) == pytest.approx(printed, rel=MURPHY_KOOP_ICE)


def test_vapour_pressure_over_ice_against_the_library() -> None:
    for ice_k in np.random.default_rng(3).uniform(200.0, 273.16, 100):
        library = 1e6 * _Sublimation_Pressure(float(ice_k))
        assert vapour_pressure_over_ice(ice_k) == pytest.approx(library, rel=MURPHY_KOOP_ICE)


def test_ice_holds_its_vapour_more_tightly_than_supercooled_water() -> None:
    cold_k = np.linspace(230.0, 272.0, 50)
    assert np.all(vapour_pressure_over_ice(cold_k) < saturation_vapour_pressure(cold_k))
    assert vapour_pressure_over_ice(273.15) == pytest.approx(float(saturation_vapour_pressure(273.15)), rel=1e-3)


def test_heat_of_fusion_is_what_a_kilogram_takes() -> None:
    """IAPWS: 333.43 kJ/kg; the school table's 334 kJ/kg is 0.2 % more."""
    assert pytest.approx(MELTING_J_PER_KG, rel=0.003) == 333.43e3
    assert snow_melt_rate(MELTING_J_PER_KG / 3600.0) * 3600.0 == pytest.approx(1.0e-3, rel=1e-12)
