"""Green and Ampt's infiltration: printed examples, the exact solution by another function, and the soils' table.

A lecture's example (hydrology course of the University of California, Merced: rain 0.5 cm/h, K 0.044 cm/h, suction
22.4 cm, porosity 0.50 less 0.25): read. Chow, Maidment and Mays 1988, examples 4.3.1 and 4.4.1 (silt loam, effective
saturation 30 %): from memory, not verified; their figures fit together. A hydrology textbook's problem (Oklahoma State
University, silt loam under 2.5 cm of water): its figures read, its answers not printed, so the answers are worked here
by hand from Darcy's law over the wet soil.
"""

from __future__ import annotations

import math

import numpy as np
import pytest
from scipy.special import lambertw

from sonify.science.infiltration import SOILS, infiltrated_water, infiltration_rate, water_before_ponding
from tests.reference.tolerance import half_last_digit

CM_H = 0.01 / 3600.0
SILT_LOAM = SOILS["silt loam"]
ROOM = SILT_LOAM.room(0.30)


def test_lecture_example_of_ponding() -> None:
    """Printed: 0.54 cm have soaked in, 1.08 h after the rain began."""
    before_m = float(water_before_ponding(0.5 * CM_H, 0.044 * CM_H, 0.224, 0.50 - 0.25))
    assert 100 * before_m == pytest.approx(0.54, abs=half_last_digit("0.54"))
    assert before_m / (0.5 * CM_H) / 3600 == pytest.approx(1.08, abs=half_last_digit("1.08"))


def test_chow_example_4_3_1() -> None:
    """After one hour of ponding: 3.17 cm in, 1.81 cm an hour."""
    inside = float(infiltrated_water(0.0, 3600.0, SILT_LOAM.conductivity_m_s, SILT_LOAM.suction_m, ROOM))
    assert 100 * inside == pytest.approx(3.17, abs=half_last_digit("3.17"))
    printed_m = 0.0317  # the rate is worked from the rounded depth; from the unrounded it is 1.815
    rate = infiltration_rate(printed_m, SILT_LOAM.conductivity_m_s, SILT_LOAM.suction_m, ROOM)
    assert rate / CM_H == pytest.approx(1.81, abs=half_last_digit("1.81"))


@pytest.mark.parametrize(("rain", "printed_h"), [(1.0, "10.5"), (5.0, "0.17")])
def test_chow_example_4_4_1(rain: float, printed_h: str) -> None:
    """Hours until ponding under 1 and 5 cm an hour."""
    before_m = water_before_ponding(rain * CM_H, SILT_LOAM.conductivity_m_s, SILT_LOAM.suction_m, ROOM)
    assert before_m / (rain * CM_H) / 3600 == pytest.approx(float(printed_h), abs=half_last_digit(printed_h))


def test_oklahoma_problem_under_a_standing_puddle() -> None:
    """2.5 cm of water on the soil, 17 cm of suction, room 0.34, K 0.65 cm/h; the front 30 cm down: by Darcy's law
    0.65 (2.5 + 17 + 30)/30 = 1.0725 cm/h, with 0.34 x 30 = 10.2 cm inside."""
    pull_m, room = 0.025 + 0.17, 0.49 - 0.15
    rate = infiltration_rate(0.102, 0.65 * CM_H, pull_m, room)
    assert rate / CM_H == pytest.approx(1.0725, abs=1e-4)
    hours = room / 0.65 * (30.0 - 19.5 * math.log(1.0 + 30.0 / 19.5))  # the textbook's integral
    assert 100 * infiltrated_water(0.0, 3600.0 * hours, 0.65 * CM_H, pull_m, room) == pytest.approx(10.2, rel=1e-9)


def test_exact_solution_by_lamberts_function() -> None:
    """F = -P (1 + W(-exp(-1 - K t/P))), lower branch, from dry, over all soils and times."""
    rng = np.random.default_rng(11)
    for _ in range(300):
        conductivity, pull = 10 ** rng.uniform(-8, -4), rng.uniform(0.01, 1.0)
        room, time_s = rng.uniform(0.02, 0.5), 10 ** rng.uniform(1, 5.5)
        reach = pull * room
        share = conductivity * time_s / reach
        if not 1e-6 < share < 600.0:  # beyond, the reference loses its digits or overflows
            continue
        exact = -reach * (1.0 + lambertw(-np.exp(-1.0 - share), k=-1).real)
        assert infiltrated_water(0.0, time_s, conductivity, pull, room) == pytest.approx(exact, rel=1e-6)


def test_two_steps_are_as_good_as_one() -> None:
    args = (SILT_LOAM.conductivity_m_s, SILT_LOAM.suction_m, ROOM)
    half = infiltrated_water(0.0, 1800.0, *args)
    assert infiltrated_water(half, 1800.0, *args) == pytest.approx(
        float(infiltrated_water(0.0, 3600.0, *args)), rel=1e-12
    )


def test_rate_is_the_slope_of_the_water() -> None:
    args = (SILT_LOAM.conductivity_m_s, 0.3, ROOM)
    inside = float(infiltrated_water(0.0, 5000.0, *args))
    slope = (float(infiltrated_water(inside, 1.0, *args)) - inside) / 1.0
    assert infiltration_rate(inside, *args) == pytest.approx(slope, rel=1e-3)


def test_soil_with_no_room_or_no_suction_passes_what_its_conductivity_lets_through() -> None:
    assert infiltrated_water(0.0, 3600.0, 1e-6, 0.0, 0.3) == pytest.approx(3.6e-3, rel=1e-4)
    assert infiltrated_water(0.01, 3600.0, 1e-6, 0.2, 0.0) == pytest.approx(0.01 + 3.6e-3, rel=1e-4)
    assert water_before_ponding(1e-6, 2e-6, 0.1, 0.3) == np.inf


def test_coarser_soils_drink_faster() -> None:
    """Rawls, Brakensiek and Miller 1983, from memory; suctions of loamy sand and sandy loam read in a model's file."""
    order = ["clay", "clay loam", "loam", "silt loam", "sandy loam", "loamy sand", "sand"]
    speeds = [SOILS[name].conductivity_m_s for name in order]
    assert speeds == sorted(speeds)
    assert SOILS["loamy sand"].suction_m == pytest.approx(0.0613) and SOILS["sandy loam"].suction_m == pytest.approx(
        0.1101
    )
