"""Planets: Kepler's laws against his own equation, solved, and against a library of astronomy."""

from __future__ import annotations

import ephem
import numpy as np
import pytest
from scipy.optimize import brentq

from sonify.science.orbits import ORBITS, eccentric_anomaly, gone_round, orbit_years, sun_distance, true_anomaly


@pytest.mark.parametrize(("oval", "within"), [(0.0167, 1.2e-7), (0.0934, 1.2e-4), (0.2056, 2.7e-3), (0.3, 1.2e-2)])
def test_the_centre_against_keplers_equation_solved(oval: float, within: float) -> None:
    mean = np.linspace(0.0, np.pi, 41)
    inner = np.array([brentq(lambda x, m=m: x - oval * np.sin(x) - m, -0.1, 3.3) for m in mean])
    exact = 2.0 * np.arctan2(np.sqrt(1.0 + oval) * np.sin(inner / 2.0), np.sqrt(1.0 - oval) * np.cos(inner / 2.0))
    np.testing.assert_allclose(true_anomaly(mean, oval), exact, atol=within)
    np.testing.assert_allclose(eccentric_anomaly(mean, oval), inner, atol=1e-11)
    np.testing.assert_allclose(gone_round(inner, oval), exact, atol=1e-11)
    np.testing.assert_allclose(sun_distance(exact, 1.5, oval), 1.5 * (1.0 - oval * np.cos(inner)), rtol=1e-12)


def test_mars_through_a_year_by_ephem() -> None:
    """From one nearest point on, where ephem has Mars: its angle within 0.1°, its distance within 0.1 %."""
    days = np.arange(0.0, 700.0, 1.0)
    start = ephem.Date("2026/1/1")
    looks = []
    for day in days:
        mars = ephem.Mars(start + day)
        looks.append((float(mars.hlon), mars.sun_distance))
    angle, distance = np.unwrap([row[0] for row in looks]), np.array([row[1] for row in looks])
    nearest = int(np.argmin(distance))
    since = days - days[nearest]
    gone = true_anomaly(2.0 * np.pi * since / (365.256 * orbit_years(1.52368)), 0.0934)
    off = np.degrees(gone - (angle - angle[nearest]))
    assert np.ptp(off) < 0.4  # ephem looks at days, and the way is tilted by 1.85°
    np.testing.assert_allclose(sun_distance(gone, 1.52368, 0.0934), distance, rtol=2e-3)


def test_whole_turns_are_counted_on() -> None:
    mean = np.linspace(0.0, 20.0 * np.pi, 101)
    gone = gone_round(eccentric_anomaly(mean, 0.2), 0.2)
    assert np.all(np.diff(gone) > 0.0)
    np.testing.assert_allclose(gone[::10], 2.0 * np.pi * np.arange(11), atol=1e-12)


@pytest.mark.parametrize("name", [name for name in ORBITS if name != "the Earth"])
def test_each_planets_nearest_and_furthest_by_ephem(name: str) -> None:
    """Looked at every hundredth of a turn; Jupiter and Saturn pull each other by some thousandths."""
    body = getattr(ephem, name)
    orbit = ORBITS[name]
    turn = 365.256 * float(orbit_years(orbit.axis_au))
    looks = []
    for share in np.linspace(0.0, 1.0, 101):
        planet = body(ephem.Date("2000/1/1") + share * turn)
        looks.append(planet.sun_distance)
    ends = [orbit.axis_au * (1.0 + way * orbit.eccentricity) for way in (-1.0, 1.0)]
    np.testing.assert_allclose([min(looks), max(looks)], ends, rtol=7e-3)
