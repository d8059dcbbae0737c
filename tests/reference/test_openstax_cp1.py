"""OpenStax, College Physics: worked examples, read in stored copies; those of circuits and machines from memory.

The Simple Pendulum: "75.000 cm", "1.7357 s", answer 9.8281 m/s². Drag Forces: rho 1.21 kg/m³, g 9.80 m/s².
"""

from __future__ import annotations

import numpy as np
import pytest

from sonify.science.circuit import Branch, branch_currents, loop_current
from sonify.science.falling import terminal_speed
from sonify.science.machines import lever_effort
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


def _near(found: float, printed: str) -> None:
    assert found == pytest.approx(float(printed), abs=half_last_digit(printed))


THREE_OHM = (1.0, 6.0, 13.0)


def test_three_resistors_in_series_on_12_volts() -> None:
    """Resistors in Series and Parallel: 0.600 A, the voltages and the powers of each."""
    row = [Branch(start=0, end=1, resistance_ohm=1e-9, emf_v=12.0)]
    ends = ((1, 2), (2, 3), (3, 0))
    row += [Branch(start=a, end=b, resistance_ohm=ohm) for (a, b), ohm in zip(ends, THREE_OHM, strict=True)]
    currents = branch_currents(row)
    for current in currents:
        _near(float(current), "0.600")
    for ohm, volts, watts in zip(THREE_OHM, ("0.600", "3.60", "7.80"), ("0.360", "2.16", "4.68"), strict=True):
        _near(0.6 * ohm, volts)
        _near(float(currents[1]) ** 2 * ohm, watts)


def test_the_same_three_in_parallel() -> None:
    """14.92 A in all, 12.0, 2.00 and 0.92 A in each; 144, 24.0 and 11.1 W."""
    ways = [Branch(start=0, end=1, resistance_ohm=1e-9, emf_v=12.0)]
    ways += [Branch(start=1, end=0, resistance_ohm=ohm) for ohm in THREE_OHM]
    currents = branch_currents(ways)
    for current, printed in zip(currents, ("14.92", "12.0", "2.00", "0.92"), strict=True):
        _near(float(current), printed)
    for current, ohm, watts in zip(currents[1:], THREE_OHM, ("144", "24.0", "11.1"), strict=True):
        _near(float(current) ** 2 * ohm, watts)


@pytest.mark.parametrize(
    ("inner", "load", "amperes", "volts", "watts"),
    [
        (0.1, 10.0, "1.188", "11.9", "14.1"),
        (0.1, 0.5, "20.0", "10.0", "200"),
        (0.5, 0.5, "12.0", "6.00", "72.0"),
    ],
)
def test_what_a_battery_keeps_for_itself(inner: float, load: float, amperes: str, volts: str, watts: str) -> None:
    """Electromotive Force: Terminal Voltage, a battery of 12.0 V."""
    current = float(loop_current(12.0, inner, load))
    _near(current, amperes)
    _near(12.0 - current * inner, volts)
    _near(current**2 * load, watts)


def test_two_batteries_by_kirchhoffs_rules() -> None:
    """Kirchhoff's Rules: 4.75, -3.50 and 8.25 A; at the joint nothing is left over."""
    ways = (
        Branch(start=1, end=0, resistance_ohm=6.0),
        Branch(start=0, end=1, resistance_ohm=2.5 + 0.5, emf_v=18.0),
        Branch(start=0, end=1, resistance_ohm=1.5 + 0.5, emf_v=45.0),
    )
    currents = branch_currents(ways)
    for current, printed in zip(currents, ("4.75", "-3.50", "8.25"), strict=True):
        _near(float(current), printed)
    assert abs(currents[0] - currents[1] - currents[2]) < 1e-12 * np.abs(currents).max()


def test_the_wheelbarrow() -> None:
    """Simple Machines: 45.0 kg at 7.50 cm from the axle, the hands at 1.02 m: 32.4 N."""
    _near(float(lever_effort(45.0 * 9.80, 0.0750, 1.02)), "32.4")
