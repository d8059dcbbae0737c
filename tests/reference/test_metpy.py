"""MetPy, a meteorology library: condensation level, lifted air and moist air, its own methods against ours."""

from __future__ import annotations

import warnings

import numpy as np
import pytest

from sonify.science.humidity import mixing_ratio
from sonify.science.lifting import condensation_height, condensation_temperature, lifted_temperature
from sonify.science.saturation import dew_point, saturation_vapour_pressure

with warnings.catch_warnings():
    warnings.simplefilter("ignore")
    from metpy import calc
    from metpy.units import units

# t and dew point in °C at 1000 hPa; temperature in °C and height in m of the condensation level
LEVELS = [(25, 15, 12.73, 1258), (20, 10, 7.79, 1252), (20, 15, 13.85, 630)]


@pytest.mark.parametrize(("t_c", "dew_c", "level_c", "height_m"), LEVELS)
def test_condensation_level(t_c: float, dew_c: float, level_c: float, height_m: float) -> None:
    t_k, dew_k = t_c + 273.15, dew_c + 273.15
    assert condensation_temperature(t_k, dew_k) - 273.15 == pytest.approx(level_c, abs=0.02)
    # the rows' heights go by the library's temperature (0.01 K is 1 m) and 9.76 K/km
    assert condensation_height(t_k, dew_k) == pytest.approx(height_m, abs=2.0)


def test_random_condensation_levels_against_the_library() -> None:
    rng = np.random.default_rng(11)
    t_k = rng.uniform(270.0, 308.0, 60)
    dew_k = t_k - rng.uniform(0.0, 20.0, 60)
    _, theirs = calc.lcl(np.full(60, 1013.25) * units.hPa, t_k * units.kelvin, dew_k * units.kelvin)
    np.testing.assert_allclose(condensation_temperature(t_k, dew_k), theirs.to("kelvin").magnitude, atol=0.05)


@pytest.mark.parametrize("t_c", [0.0, 8.0, 15.0, 25.0])
def test_lifted_saturated_air_follows_the_moist_adiabat(t_c: float) -> None:
    """OBSERVED, not published: a constant latent heat and the standard atmosphere's pressure cost up to 0.2 K in 2 km.

    The library wants pressures: those of a column as warm as the lifted air itself.
    """
    heights = np.linspace(0.0, 2000.0, 41)
    t_k = t_c + 273.15
    w = float(mixing_ratio(saturation_vapour_pressure(t_k), 101_325.0))
    ours = lifted_temperature(t_k, w, heights)
    lapse = 9.80665 / (287.05 * 0.5 * (ours[1:] + ours[:-1])) * np.diff(heights)
    pressures = 101_325.0 * np.exp(-np.concatenate([[0.0], np.cumsum(lapse)])) * units.pascal
    theirs = calc.moist_lapse(pressures, t_k * units.kelvin).to("kelvin").magnitude
    np.testing.assert_allclose(ours, theirs, atol=0.2)


def test_dew_point_and_mixing_ratio_against_the_library() -> None:
    rng = np.random.default_rng(12)
    for t_c, share in zip(rng.uniform(0.0, 38.0, 40), rng.uniform(0.2, 1.0, 40), strict=True):
        e_air = float(share * saturation_vapour_pressure(t_c + 273.15))
        theirs = (
            calc.dewpoint_from_relative_humidity(t_c * units.degC, share * units.dimensionless).to("degC").magnitude
        )
        assert dew_point(e_air) - 273.15 == pytest.approx(theirs, abs=0.06)
        ratio = calc.mixing_ratio(e_air * units.Pa, 101_325.0 * units.Pa).to("dimensionless").magnitude
        assert mixing_ratio(e_air, 101_325.0) == pytest.approx(ratio, rel=1e-4)
