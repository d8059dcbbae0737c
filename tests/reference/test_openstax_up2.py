"""OpenStax, University Physics, volume 2: worked examples of the kinetic theory, and its table of vapour pressures.

Read as source text (modules m58392, m58394). Erratum: the vapour-pressure table's alternative text says 601.5 at 0 °C;
the cell says 610.5, which fits its neighbours, so the cell is used.
"""

from __future__ import annotations

import pytest

from sonify.constants import BOLTZMANN_J_PER_K
from sonify.science.kinetic import mean_free_path, rms_speed, speed_density
from sonify.science.saturation import saturation_vapour_pressure
from tests.reference.tolerance import half_last_digit

# t in °C, printed vapour pressure in Pa
VAPOUR_TABLE = [(0, "610.5"), (5, "872.3"), (10, "1228"), (20, "2338"), (30, "4243"), (40, "7376")]
GOOD_FORMULA = 0.003  # what a good formula keeps to from 0 to 50 °C; the table itself rounds older measurements


def test_nitrogen_at_20_degrees_has_the_printed_speed() -> None:
    """The example takes k = 1.38e-23 J/K and a molecule of 4.65e-26 kg: its mass a mole follows from our k."""
    molar = 4.65e-26 * 8.31446261815324 / 1.38e-23
    assert rms_speed(293.0, molar) == pytest.approx(float("511"), abs=half_last_digit("511"))


def test_nitrogen_300_against_100_metres_a_second_has_the_printed_ratio() -> None:
    ratio = speed_density(300.0, 300.0, 0.0280) / speed_density(100.0, 300.0, 0.0280)
    assert ratio == pytest.approx(float("5.74"), abs=half_last_digit("5.74"))


def test_argon_has_the_printed_speed_and_time_between_collisions() -> None:
    """Argon at 0 °C and, as the example rounds it, 1.01e5 Pa; atoms of radius 1.70e-10 m."""
    speed = rms_speed(273.15, 0.039948)
    free_s = mean_free_path(273.0, 1.01e5, 2 * 1.70e-10) / speed
    assert speed == pytest.approx(float("413"), abs=half_last_digit("413"))
    assert free_s == pytest.approx(1.76e-10, abs=half_last_digit("1.76e-10"))


def test_the_free_time_is_the_books_formula() -> None:
    """tau = k T / (4 sqrt(2) pi r^2 p v_rms)."""
    book = (
        BOLTZMANN_J_PER_K
        * 300.0
        / (4 * 2**0.5 * 3.141592653589793 * (2e-10) ** 2 * 1e5 * float(rms_speed(300.0, 0.028)))
    )
    assert mean_free_path(300.0, 1e5, 4e-10) / rms_speed(300.0, 0.028) == pytest.approx(book, rel=1e-12)


@pytest.mark.parametrize(("t_c", "printed"), VAPOUR_TABLE)
def test_saturation_stays_near_the_printed_table(t_c: float, printed: str) -> None:
    assert saturation_vapour_pressure(t_c + 273.15) == pytest.approx(float(printed), rel=GOOD_FORMULA)
