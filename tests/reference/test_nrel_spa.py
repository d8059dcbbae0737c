"""The Solar Position Algorithm of NREL (library pvlib), and its clear sky by Haurwitz."""

from __future__ import annotations

import warnings
from math import radians

import numpy as np
import pytest

from sonify.science.radiation import clear_sky_sunlight
from sonify.science.shadow import refraction, shadow_length, sun_east, sun_north
from sonify.science.sun import days_since_2000, declination, equation_of_time, sun_height

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    import pandas as pd
    import pvlib

ALMANAC = 0.01  # degrees: the almanac's own bound for its low-precision Sun
GREENWICH = (51.4779, -0.0015)
# day of 2025, true height in degrees at 12:00 UTC
NOONS = [(79, "38.55"), (172, "61.96"), (265, "38.60"), (355, "15.08")]


def height_deg(latitude: float, longitude: float, year: int, day: float, hour_utc: float) -> float:
    n = days_since_2000(year, day, hour_utc)
    hour_angle = radians(15.0 * (hour_utc - 12.0) + longitude) + equation_of_time(n)
    return float(np.degrees(sun_height(radians(latitude), declination(n), hour_angle)))


@pytest.mark.parametrize(("day", "printed"), NOONS)
def test_noon_at_greenwich(day: int, printed: str) -> None:
    """20 March, 21 June, 22 September and 21 December 2025."""
    assert height_deg(*GREENWICH, 2025, day, 12.0) == pytest.approx(float(printed), abs=ALMANAC + 0.005)


def test_random_moments_and_places() -> None:
    rng = np.random.default_rng(5)
    for _ in range(40):
        year, day, hour = int(rng.integers(1955, 2050)), int(rng.integers(1, 366)), float(rng.uniform(0.0, 24.0))
        latitude, longitude = float(rng.uniform(-65.0, 65.0)), float(rng.uniform(-180.0, 180.0))
        moment = pd.Timestamp(year=year, month=1, day=1, tz="UTC") + pd.Timedelta(days=day - 1, hours=hour)
        spa = pvlib.solarposition.spa_python(pd.DatetimeIndex([moment]), latitude, longitude)
        theirs = float(spa["elevation"].iloc[0])
        assert height_deg(latitude, longitude, year, day, hour) == pytest.approx(theirs, abs=1.5 * ALMANAC)
        minutes = float(spa["equation_of_time"].iloc[0])
        ours = float(np.degrees(equation_of_time(days_since_2000(year, day, hour)))) * 4.0
        assert ours == pytest.approx(minutes, abs=0.1)


def test_what_the_air_lifts_and_where_a_shadow_points() -> None:
    """Its apparent height at sea level (101 kPa, 10 °C) and its azimuth, counted from the north to the east."""
    rng = np.random.default_rng(6)
    days, hours = rng.integers(1, 366, 60), rng.uniform(0.0, 24.0, 60)
    moments = pd.DatetimeIndex(
        [
            pd.Timestamp(2026, 1, 1, tz="UTC") + pd.Timedelta(days=int(d) - 1, hours=h)
            for d, h in zip(days, hours, strict=True)
        ]
    )
    spa = pvlib.solarposition.spa_python(moments, 52.5, -1.5, pressure=101_000.0, temperature=10.0)
    n = days_since_2000(2026, days.astype(float), hours)
    sun, angle = declination(n), np.radians(15.0 * (hours - 12.0) - 1.5) + equation_of_time(n)
    height = sun_height(radians(52.5), sun, angle)
    up = height > radians(5.0)
    assert 20 <= int(up.sum()) <= 40
    seen = height[up] + refraction(height[up])
    np.testing.assert_allclose(np.degrees(seen), spa["apparent_elevation"].to_numpy()[up], atol=1.5 * ALMANAC)
    azimuth = np.arctan2(sun_east(sun, angle), sun_north(radians(52.5), sun, angle))[up]
    off = np.degrees(azimuth) - spa["azimuth"].to_numpy()[up]
    np.testing.assert_allclose((off + 180.0) % 360.0 - 180.0, 0.0, atol=3.0 * ALMANAC)
    theirs = 1.0 / np.tan(np.radians(spa["apparent_elevation"].to_numpy()[up]))
    np.testing.assert_allclose(shadow_length(seen, 1.0), theirs, rtol=4e-3)


def test_clear_sky_is_the_librarys() -> None:
    heights = np.linspace(0.5, 90.0, 180)
    theirs = pvlib.clearsky.haurwitz(pd.Series(90.0 - heights))["ghi"].to_numpy()
    np.testing.assert_allclose(clear_sky_sunlight(np.radians(heights)), theirs, rtol=2e-3, atol=0.2)
