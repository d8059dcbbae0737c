"""IAPWS formulations of liquid water at ordinary pressure, from the library iapws (CoolProp agrees in every digit)."""

from __future__ import annotations

import numpy as np
import pytest
from iapws import iapws97
from iapws._iapws import _Tension

from sonify.science.liquid_water import surface_tension, water_density, water_viscosity
from sonify.science.still import latent_heat_of_hot_water
from tests.reference.tolerance import half_last_digit

# t in °C and kg/m³ at 1 atm (IAPWS-95), mPa s (IAPWS 2008), mN/m (IAPWS R1-76), kJ/kg on the saturation line (IAPWS-95)
DENSITY = [
    (0, "999.844"), (4, "999.975"), (10, "999.703"), (15, "999.103"), (20, "998.207"), (25, "997.048"), (30, "995.650"),
    (40, "992.216"), (60, "983.196"), (80, "971.790"),
]  # fmt: skip
VISCOSITY = [(0, "1.7911"), (10, "1.3059"), (20, "1.0016"), (30, "0.7972"), (40, "0.6527"), (60, "0.4660")]
TENSION = [(0, "75.65"), (20, "72.74"), (40, "69.60"), (60, "66.24"), (80, "62.67")]
LATENT = [
    (5, "2489.04"), (10, "2477.19"), (15, "2465.35"), (20, "2453.52"), (25, "2441.68"), (30, "2429.81"),
    (40, "2405.98"), (50, "2381.95"), (60, "2357.65"), (70, "2333.03"), (80, "2308.00"), (90, "2282.49"),
    (100, "2256.40"),
]  # fmt: skip
KELL = 0.01  # kg/m³: the older formula for air-free water against IAPWS-95; OBSERVED, not published
HUBER = 0.0005  # the equation for 0.1 MPa against the full formulation; OBSERVED, 0.04 % at 0 °C
SHARQAWY = 0.0001  # the authors' own bound, from memory


@pytest.mark.parametrize(("t_c", "printed"), DENSITY)
def test_density(t_c: float, printed: str) -> None:
    assert water_density(t_c + 273.15) == pytest.approx(float(printed), rel=0, abs=KELL)


@pytest.mark.parametrize(("t_c", "printed"), VISCOSITY)
def test_viscosity(t_c: float, printed: str) -> None:
    assert 1e3 * water_viscosity(t_c + 273.15) == pytest.approx(float(printed), rel=HUBER)


@pytest.mark.parametrize(("t_c", "printed"), TENSION)
def test_surface_tension(t_c: float, printed: str) -> None:
    assert 1e3 * surface_tension(t_c + 273.15) == pytest.approx(float(printed), rel=0, abs=half_last_digit(printed))


@pytest.mark.parametrize(("t_c", "printed"), LATENT)
def test_latent_heat_of_hot_water(t_c: float, printed: str) -> None:
    assert latent_heat_of_hot_water(t_c + 273.15) / 1000 == pytest.approx(float(printed), rel=SHARQAWY)


def test_random_temperatures_against_the_library() -> None:
    kelvin = np.random.default_rng(3).uniform(273.2, 372.0, 100)
    states = [iapws97.IAPWS97(T=t, P=0.101325) for t in kelvin]
    np.testing.assert_allclose(water_density(kelvin), [1.0 / s.v for s in states], rtol=3e-5)
    np.testing.assert_allclose(water_viscosity(kelvin), [s.mu for s in states], rtol=8e-4)
    np.testing.assert_allclose(surface_tension(kelvin), [_Tension(t) for t in kelvin], rtol=1e-9)


def test_water_is_heaviest_near_four_degrees() -> None:
    """IAPWS-95: 999.9749 kg/m³ at 3.978 °C."""
    kelvin = np.linspace(273.15, 283.15, 2001)
    densities = water_density(kelvin)
    assert kelvin[int(np.argmax(densities))] - 273.15 == pytest.approx(3.978, abs=0.05)
    assert densities.max() == pytest.approx(999.9749, abs=KELL)
