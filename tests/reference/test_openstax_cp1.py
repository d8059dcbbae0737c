"""OpenStax, College Physics: worked examples, read in stored copies of the text.

The Simple Pendulum: "75.000 cm", "1.7357 s", answer 9.8281 m/s². Drag Forces: rho 1.21 kg/m³, g 9.80 m/s².
"""

from __future__ import annotations

import pytest

from sonify.science.falling import terminal_speed
from sonify.science.pendulum import small_swing_period
from tests.reference.tolerance import half_last_digit

LENGTH_CM, PERIOD_S, GRAVITY = "75.000", "1.7357", "9.8281"


def test_the_pendulum_that_measures_gravity() -> None:
    found = small_swing_period(float(LENGTH_CM) / 100.0, float(GRAVITY))
    assert found == pytest.approx(float(PERIOD_S), abs=half_last_digit(PERIOD_S))


@pytest.mark.parametrize(
    ("mass_kg", "area_m2", "drag", "printed"),
    [
        # Drag Forces: a jumper head down, in the text, 98 m/s, that is 350 km/h.
        (75.0, 0.18, 0.70, "98"),
        # Problems and exercises, 85 kg with arms and legs spread, 44 m/s: from memory, not found in the stored copies.
        (85.0, 0.70, 1.0, "44"),
    ],
)
def test_the_speed_that_a_jumper_comes_to(mass_kg: float, area_m2: float, drag: float, printed: str) -> None:
    found = float(terminal_speed(mass_kg, area_m2, drag, 1.21, 9.80))
    assert found == pytest.approx(float(printed), abs=half_last_digit(printed))


def test_98_metres_a_second_is_printed_as_350_kilometres_an_hour() -> None:
    assert float(terminal_speed(75.0, 0.18, 0.70, 1.21, 9.80)) * 3.6 == pytest.approx(350.0, abs=5.0)
