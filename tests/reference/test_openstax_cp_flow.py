"""OpenStax, College Physics, modules m42197 (capillary action), m42211 (Stokes' law), m42212 (diffusion). Read."""

from __future__ import annotations

import numpy as np
import pytest

from sonify.errors import OutOfRange
from sonify.science.capillarity import jurin_height
from sonify.science.dissolving import diffusion_distance
from sonify.science.liquid_water import surface_tension
from sonify.science.settling import reynolds_number, settling_speed, stokes_speed
from tests.reference.tolerance import half_last_digit

QUARTZ, WATER, VISCOSITY = 2650.0, 998.207, 1.0016e-3  # kg/m³, kg/m³ and Pa s at 20 °C


def test_how_high_water_climbs() -> None:
    """2 gamma / (rho g r) at 20 °C: 29.7 mm in a radius of 0.5 mm, 1.486 m in one of 10 micrometres."""
    assert 1000 * jurin_height(0.5e-3, 293.15) == pytest.approx(29.7, abs=half_last_digit("29.7"))
    assert jurin_height(10e-6, 293.15) == pytest.approx(1.486, abs=half_last_digit("1.486"))


@pytest.mark.parametrize(("t_c", "printed"), [(0, "0.0756"), (20, "0.0728"), (100, "0.0589")])
def test_surface_tension_of_the_table(t_c: float, printed: str) -> None:
    """m42197's table, rounded by its source: 0.0728 at 20 °C where IAPWS has 0.07274."""
    assert surface_tension(t_c + 273.15) == pytest.approx(float(printed), abs=2 * half_last_digit(printed))


def test_sap_in_a_tall_tree() -> None:
    """Sap of 1050 kg/m³ with the tension of water would need tubes of 1.41e-7 m to climb 100 m (contact angle 0)."""
    sap_m = float(jurin_height(1.41e-7, 293.15)) * WATER / 1050.0 * 0.0728 / 0.07274
    assert sap_m == pytest.approx(100.0, rel=half_last_digit("1.41") / 1.41 + 0.001)  # the book's g is 9.80


@pytest.mark.parametrize(("micrometres", "m_s"), [(10, "8.985e-5"), (20, "3.594e-4")])
def test_quartz_sinks_by_stokes_law(micrometres: float, m_s: str) -> None:
    speed = stokes_speed(micrometres * 1e-6, QUARTZ, WATER, VISCOSITY)
    assert speed == pytest.approx(float(m_s), rel=0, abs=half_last_digit(m_s))


def test_stokes_law_fails_by_a_tenth_of_a_millimetre_and_is_refused_there() -> None:
    with pytest.raises(OutOfRange, match=r"Stokes' law"):
        stokes_speed(100e-6, QUARTZ, WATER, VISCOSITY)
    slow = float(settling_speed(100e-6, QUARTZ, WATER, VISCOSITY))
    stokes = 100.0 * float(stokes_speed(10e-6, QUARTZ, WATER, VISCOSITY))
    assert reynolds_number(slow, 100e-6, WATER, VISCOSITY) > 0.5
    assert 0.85 < slow / stokes < 0.93


def test_where_both_laws_hold_they_agree_within_the_limit() -> None:
    fine = np.geomspace(1e-7, 80e-6, 200)
    stokes = stokes_speed(fine, QUARTZ, WATER, VISCOSITY)
    drag = settling_speed(fine, QUARTZ, WATER, VISCOSITY)
    assert np.all(drag <= stokes)
    np.testing.assert_allclose(drag, stokes, rtol=0.10)
    np.testing.assert_allclose(drag[fine < 10e-6], stokes[fine < 10e-6], rtol=0.005)


def test_glucose_wanders_a_centimetre_in_a_day() -> None:
    """D 6.7e-10 m²/s: 7.5e4 s, 21 h."""
    hours = (0.01**2 / (2 * 6.7e-10)) / 3600
    assert hours == pytest.approx(21, abs=half_last_digit("21"))
    assert diffusion_distance(3600 * hours, 6.7e-10) == pytest.approx(0.01, rel=1e-12)
