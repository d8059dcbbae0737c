"""ASHRAE Handbook: Fundamentals (2017), chapter 1, and the library psychrolib that implements it.

The printed values were read in that library's own tests. Its formula for saturation is stated good to 300 ppm.
"""

from __future__ import annotations

import numpy as np
import psychrolib
import pytest

from sonify.science.atmosphere import standard_pressure
from sonify.science.humidity import (
    mixing_ratio,
    relative_humidity,
    vapour_pressure,
    vapour_pressure_from_wet_bulb,
    wet_bulb_temperature,
)
from sonify.science.saturation import dew_point, saturation_vapour_pressure, saturation_vapour_pressure_steam

psychrolib.SetUnitSystem(psychrolib.SI)
PPM_300 = 300e-6
MURPHY_KOOP = 0.0005  # against IAPWS-95, see test_iapws.py

TABLE_3 = [(5, "872.6"), (25, "3169.7"), (50, "12351.3")]
TABLE_1 = [(0, "101325"), (500, "95461"), (1000, "89875"), (4000, "61640")]
# t in °C, share of saturation, dew point in °C and the spread of four libraries' answers
DEW_POINTS = [(25, 0.5, 13.86, 0.03), (20, 0.6, 12.01, 0.02), (20, 0.5, 9.27, 0.02)]


@pytest.mark.parametrize(("t_c", "printed"), TABLE_3)
def test_saturation_table(t_c: float, printed: str) -> None:
    assert saturation_vapour_pressure(t_c + 273.15) == pytest.approx(float(printed), rel=MURPHY_KOOP)
    assert saturation_vapour_pressure_steam(t_c + 273.15) == pytest.approx(float(printed), rel=PPM_300)


def test_saturation_at_100_degrees() -> None:
    assert saturation_vapour_pressure_steam(373.15) == pytest.approx(101_418.0, rel=PPM_300)


@pytest.mark.parametrize(("height_m", "printed"), TABLE_1)
def test_pressure_with_height(height_m: float, printed: str) -> None:
    assert standard_pressure(height_m) == pytest.approx(float(printed), abs=1.0)


@pytest.mark.parametrize(("t_c", "share", "expected_c", "spread"), DEW_POINTS)
def test_dew_points(t_c: float, share: float, expected_c: float, spread: float) -> None:
    assert dew_point(share * saturation_vapour_pressure(t_c + 273.15)) - 273.15 == pytest.approx(expected_c, abs=spread)


def test_below_freezing_the_dew_point_is_over_water() -> None:
    """10 °C, 40 %: -3.00 over water (Magnus), -2.99 (a meteorology library); the frost point over ice is -2.63.

    Formulae differ more below freezing, where few have measured: hence 0.03.
    """
    assert dew_point(0.4 * saturation_vapour_pressure(283.15)) - 273.15 == pytest.approx(-2.995, abs=0.03)


def test_example_1() -> None:
    """40 °C dry, 20 °C wet, 101 325 Pa: read off the chart as dew point 7 °C (half a degree) and 14 %."""
    e_air = vapour_pressure_from_wet_bulb(313.15, 293.15, 101_325.0)
    assert dew_point(e_air) - 273.15 == pytest.approx(7.0, abs=0.5)
    assert 100 * relative_humidity(e_air, 313.15) == pytest.approx(14.0, abs=1.0)


def test_random_air_against_the_library() -> None:
    rng = np.random.default_rng(3)
    for t_c, share in zip(rng.uniform(1.0, 45.0, 100), rng.uniform(0.2, 1.0, 100), strict=True):
        e_air = float(share * saturation_vapour_pressure(t_c + 273.15))
        dew_c = psychrolib.GetTDewPointFromRelHum(t_c, share)
        if dew_c > 0.1:  # below that the library's answer is over ice
            assert dew_point(e_air) - 273.15 == pytest.approx(dew_c, abs=0.02)
        ratio = psychrolib.GetHumRatioFromVapPres(e_air, 101_325.0)
        assert mixing_ratio(e_air, 101_325.0) == pytest.approx(ratio, rel=1e-4)
        assert vapour_pressure(mixing_ratio(e_air, 101_325.0), 101_325.0) == pytest.approx(e_air, rel=1e-12)
        wet_c = psychrolib.GetTWetBulbFromRelHum(t_c, share, 101_325.0)
        if wet_c > 0.5 and t_c <= 40.0:
            assert wet_bulb_temperature(t_c + 273.15, e_air, 101_325.0) - 273.15 == pytest.approx(wet_c, abs=0.2)
