"""A real mug: data set CoolingWater of the R package mosaicData, 222 readings a minute apart, room not recorded.

Eight of the readings, as loaded once from a package that carries R's data sets (50 MB, so it is no dependency). Of all
222, one exponential misses by 1.48 °C (root mean square) and 9.1 °C at the start, two by 0.17 °C.
"""

from __future__ import annotations

import numpy as np
from scipy.optimize import curve_fit

from sonify.science.cooling import newton_rate, newton_temperature, two_store_decay

MINUTES = np.array([0.0, 1.0, 5.0, 10.0, 30.0, 60.0, 120.0, 221.0])
READINGS_C = np.array([98.2, 94.4, 84.9, 76.5, 58.1, 45.1, 33.2, 25.8])


def one(minutes: np.ndarray, start_c: float, room_c: float, rate: float) -> np.ndarray:
    return newton_temperature(minutes, start_c + 273.15, room_c + 273.15, np.exp(rate)) - 273.15


def two(minutes: np.ndarray, start_c: float, room_c: float, cup: float, contact: float, loss: float) -> np.ndarray:
    """A drink that holds one unit of heat for a degree, in a cup of `cup` units that gives it on (logarithms)."""
    rates, shapes = two_store_decay((1.0, np.exp(cup)), np.exp(contact), (0.0, np.exp(loss)))
    weights = np.linalg.solve(shapes, [start_c - room_c, 0.0])
    return room_c + (shapes[0] * weights) @ np.exp(-np.outer(rates, minutes))


def test_one_exponential_misses_a_real_mug_and_two_stores_fit_it() -> None:
    newton, _ = curve_fit(one, MINUTES, READINGS_C, p0=[95.0, 25.0, np.log(0.03)])
    missed = one(MINUTES, *newton) - READINGS_C
    # "never claim that the one-exponential curve matches a real mug to better than about 1.5 °C"
    assert np.sqrt(np.mean(missed**2)) > 1.5 and abs(missed[0]) > 3.0
    stores, _ = curve_fit(two, MINUTES, READINGS_C, p0=[98.0, 24.0, -0.5, -2.5, -4.0], maxfev=20_000)
    fitted = two(MINUTES, *stores) - READINGS_C
    assert np.abs(fitted).max() < 0.6
    # and no single rate serves both ends: the first five minutes against the last hours
    early, late = (
        float(newton_rate(MINUTES[b] - MINUTES[a], *(READINGS_C[i] + 273.15 for i in (a, b)), 273.15 + stores[1]))
        for a, b in ((0, 2), (5, 7))
    )
    assert early > 1.5 * late
