"""IAPWS-95 and IAPWS-IF97 on the saturation line, from the library iapws (and CoolProp, which agrees with it)."""

from __future__ import annotations

import numpy as np
import pytest
from iapws import iapws97

from sonify.science.heating import (
    BOILING_J_PER_KG,
    ICE_J_PER_KG_K,
    MELTING_J_PER_KG,
    STEAM_J_PER_KG_K,
    WATER_J_PER_KG_K,
    state_heat,
    warming_heat,
)
from sonify.science.humidity import vapour_density
from sonify.science.saturation import (
    dew_point,
    latent_heat_of_vaporisation,
    saturation_vapour_pressure,
    saturation_vapour_pressure_fao,
    saturation_vapour_pressure_steam,
)
from tests.reference.tolerance import half_last_digit

# t in °C, vapour pressure in kPa, density of the vapour in g/m³, latent heat of vaporisation in kJ/kg
LINE = [
    (0.01, "0.61166", "4.855", "2500.91"),
    (5, "0.87258", "6.802", "2489.04"),
    (10, "1.22820", "9.407", "2477.19"),
    (15, "1.70579", "12.841", "2465.35"),
    (20, "2.33932", "17.314", "2453.52"),
    (25, "3.16993", "23.075", "2441.68"),
    (30, "4.24697", "30.415", "2429.81"),
    (40, "7.38494", "51.242", "2405.98"),
    (50, "12.35195", "83.147", "2381.95"),
    (60, "19.94643", "130.425", "2357.65"),
    (70, "31.20093", "198.431", "2333.03"),
    (80, "47.41447", "293.672", "2308.00"),
    (90, "70.18177", "423.898", "2282.49"),
    (100, "101.41800", "598.170", "2256.40"),
]
MURPHY_KOOP = 0.0005  # 0.05 %: the bound we remember the authors stating for their equation 10
GOOD_FORMULA = 0.003  # what any good formula keeps to from 0 to 50 °C
WAGNER = 0.0001  # IF97 and IAPWS-95 themselves differ by up to 0.008 %
HARRISON = 0.0005  # OBSERVED, not published: a straight line against a slightly bent one, 0 to 50 °C
IDEAL_GAS = 0.005  # OBSERVED, not published: saturated vapour is up to 0.5 % denser than an ideal gas at 50 °C


@pytest.mark.parametrize(("t_c", "kpa"), [(t, p) for t, p, _, _ in LINE if t <= 50])
def test_vapour_pressure_over_water(t_c: float, kpa: str) -> None:
    assert saturation_vapour_pressure(t_c + 273.15) / 1000 == pytest.approx(float(kpa), rel=MURPHY_KOOP)


@pytest.mark.parametrize(("t_c", "kpa"), [(t, p) for t, p, _, _ in LINE if t <= 40])
def test_the_irrigation_formula_is_a_good_one(t_c: float, kpa: str) -> None:
    assert saturation_vapour_pressure_fao(t_c + 273.15) / 1000 == pytest.approx(float(kpa), rel=GOOD_FORMULA)


@pytest.mark.parametrize(("t_c", "kpa"), [(t, p) for t, p, _, _ in LINE])
def test_vapour_pressure_up_to_boiling(t_c: float, kpa: str) -> None:
    assert saturation_vapour_pressure_steam(t_c + 273.15) / 1000 == pytest.approx(float(kpa), rel=WAGNER)


@pytest.mark.parametrize(("t_c", "grams"), [(t, d) for t, _, d, _ in LINE if t <= 50])
def test_density_of_saturated_vapour(t_c: float, grams: str) -> None:
    t_k = t_c + 273.15
    assert 1000 * vapour_density(saturation_vapour_pressure(t_k), t_k) == pytest.approx(float(grams), rel=IDEAL_GAS)


@pytest.mark.parametrize(("t_c", "kj"), [(t, latent) for t, _, _, latent in LINE if t <= 50])
def test_latent_heat(t_c: float, kj: str) -> None:
    assert latent_heat_of_vaporisation(t_c + 273.15) / 1000 == pytest.approx(float(kj), rel=HARRISON)


def test_water_boils_where_it_should() -> None:
    """99.974 °C at 101 325 Pa, 99.606 °C at 100 000 Pa; "100 °C" is a classroom rounding."""
    for printed, pressure in (("99.974", 101_325.0), ("99.606", 100_000.0)):
        t_k = float(printed) + 273.15
        slope = (saturation_vapour_pressure_steam(t_k + 0.5) - saturation_vapour_pressure_steam(t_k - 0.5)) / 1.0
        off_k = (saturation_vapour_pressure_steam(t_k) - pressure) / slope
        assert abs(off_k) < 0.002 + half_last_digit(printed)


def test_random_temperatures_against_the_library() -> None:
    kelvin = np.random.default_rng(7).uniform(273.16, 323.15, 200)
    library = np.array([iapws97._PSat_T(t) * 1e6 for t in kelvin])
    np.testing.assert_allclose(saturation_vapour_pressure(kelvin), library, rtol=MURPHY_KOOP)
    np.testing.assert_allclose(dew_point(library), kelvin, atol=0.01)
    hot = np.random.default_rng(8).uniform(273.16, 640.0, 200)
    library = np.array([iapws97._PSat_T(t) * 1e6 for t in hot])
    np.testing.assert_allclose(saturation_vapour_pressure_steam(hot), library, rtol=3e-4)


def test_the_three_formulae_agree_where_they_overlap() -> None:
    kelvin = np.linspace(273.16, 313.15, 50)
    np.testing.assert_allclose(saturation_vapour_pressure_fao(kelvin), saturation_vapour_pressure(kelvin), rtol=0.003)
    np.testing.assert_allclose(
        saturation_vapour_pressure_steam(kelvin), saturation_vapour_pressure(kelvin), rtol=0.0006
    )


# what a school table's round figures miss, ours and observed
SCHOOL_WATER, SCHOOL_ICE, SCHOOL_STEAM = 0.002, 0.035, 0.012


def test_the_schools_heats_stay_near_the_formulation() -> None:
    """Printed heats in kJ/kg: melting 333.43, boiling 2256.47, water from 0 to 99.974 °C 418.99, ice from -20 °C 40.47
    and from -10 °C 20.60 (IAPWS-95, and IAPWS-06 for ice)."""
    assert float(state_heat(1.0, MELTING_J_PER_KG)) / 1e3 == pytest.approx(float("333.43"), rel=0.003)
    assert float(state_heat(1.0, BOILING_J_PER_KG)) / 1e3 == pytest.approx(float("2256.47"), rel=0.0005)
    assert float(warming_heat(1.0, WATER_J_PER_KG_K, 99.974)) / 1e3 == pytest.approx(418.99, rel=SCHOOL_WATER)
    assert float(warming_heat(1.0, ICE_J_PER_KG_K, 20.0)) / 1e3 == pytest.approx(40.47, rel=SCHOOL_ICE)
    assert float(warming_heat(1.0, ICE_J_PER_KG_K, 10.0)) / 1e3 == pytest.approx(20.60, rel=SCHOOL_ICE)


def test_random_warmings_against_the_library() -> None:
    """Enthalpies at 1 atmosphere by IAPWS-IF97: liquid water between two temperatures, and steam from 100 °C on."""
    rng = np.random.default_rng(9)
    for low, high in np.sort(rng.uniform(274.0, 372.0, (40, 2))):
        library = 1e3 * (iapws97.IAPWS97(T=high, P=0.101325).h - iapws97.IAPWS97(T=low, P=0.101325).h)
        assert float(warming_heat(1.0, WATER_J_PER_KG_K, high - low)) == pytest.approx(library, rel=0.006, abs=30.0)
    for high in rng.uniform(393.15, 423.15, 20):
        library = 1e3 * (iapws97.IAPWS97(T=high, P=0.101325).h - iapws97.IAPWS97(P=0.101325, x=1.0).h)
        assert float(warming_heat(1.0, STEAM_J_PER_KG_K, high - 373.124)) == pytest.approx(library, rel=SCHOOL_STEAM)
