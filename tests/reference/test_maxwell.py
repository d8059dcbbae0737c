"""The Maxwell distribution against scipy.stats.maxwell, and speeds computed apart from our code (CODATA 2022)."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import constants, stats

from sonify.constants import AVOGADRO_PER_MOL, BOLTZMANN_J_PER_K, GAS_CONSTANT_J_PER_MOL_K
from sonify.science.kinetic import mean_speed, most_probable_speed, rms_speed, speed_density
from tests.reference.tolerance import half_last_digit

# gas, molar mass in kg/mol, then v_p, mean and rms at 273.15, 293.15, 300 and 373.15 K
SPEEDS = [
    ("He", 4.002602e-3, 273.15, "1065.27", "1202.03", "1304.69"),
    ("He", 4.002602e-3, 293.15, "1103.59", "1245.26", "1351.61"),
    ("He", 4.002602e-3, 300.0, "1116.40", "1259.73", "1367.31"),
    ("He", 4.002602e-3, 373.15, "1245.10", "1404.94", "1524.92"),
    ("H2O", 18.01528e-3, 273.15, "502.13", "566.59", "614.98"),
    ("H2O", 18.01528e-3, 293.15, "520.18", "586.96", "637.09"),
    ("H2O", 18.01528e-3, 300.0, "526.23", "593.78", "644.49"),
    ("H2O", 18.01528e-3, 373.15, "586.89", "662.23", "718.78"),
    ("N2", 28.0134e-3, 273.15, "402.67", "454.36", "493.17"),
    ("N2", 28.0134e-3, 293.15, "417.15", "470.71", "510.90"),
    ("N2", 28.0134e-3, 300.0, "422.00", "476.17", "516.84"),
    ("N2", 28.0134e-3, 373.15, "470.64", "531.06", "576.42"),
    ("O2", 31.9988e-3, 273.15, "376.76", "425.13", "461.44"),
    ("O2", 31.9988e-3, 293.15, "390.31", "440.42", "478.03"),
    ("O2", 31.9988e-3, 300.0, "394.84", "445.53", "483.58"),
    ("O2", 31.9988e-3, 373.15, "440.36", "496.89", "539.33"),
]
# below v_p, below the mean, above 2 v_p, above 3 v_p
FRACTIONS = [
    (0.0, 1.0, "0.427593"),
    (0.0, 2 / np.sqrt(np.pi), "0.533050"),
    (2.0, 12.0, "0.046012"),
    (3.0, 12.0, "4.3985e-4"),
]


@pytest.mark.parametrize(("gas", "molar", "t_k", "peak", "mean", "rms"), SPEEDS)
def test_speeds_of_common_gases(gas: str, molar: float, t_k: float, peak: str, mean: str, rms: str) -> None:
    ours = (most_probable_speed(t_k, molar), mean_speed(t_k, molar), rms_speed(t_k, molar))
    for value, printed in zip(ours, (peak, mean, rms), strict=True):
        assert value == pytest.approx(float(printed), abs=1.01 * half_last_digit(printed)), gas


def test_the_constants_are_those_of_codata() -> None:
    assert constants.k == BOLTZMANN_J_PER_K
    assert constants.N_A == AVOGADRO_PER_MOL
    assert pytest.approx(constants.R, rel=1e-15) == GAS_CONSTANT_J_PER_MOL_K


@pytest.mark.parametrize(("low", "high", "printed"), FRACTIONS)
def test_shares_of_fast_and_slow_molecules(low: float, high: float, printed: str) -> None:
    peak = float(most_probable_speed(300.0, 0.028))
    speeds = np.linspace(low * peak, high * peak, 20_001)
    share = np.trapezoid(speed_density(speeds, 300.0, 0.028), speeds)
    assert share == pytest.approx(float(printed), abs=1.01 * half_last_digit(printed))


@given(
    st.floats(0.0, 5000.0, allow_subnormal=False),
    st.floats(1.0, 2000.0),
    st.floats(1e-3, 0.2),
)
def test_the_density_is_scipys(speed: float, t_k: float, molar: float) -> None:
    peak = float(most_probable_speed(t_k, molar))
    expected = stats.maxwell.pdf(speed, scale=peak / np.sqrt(2.0))
    assert speed_density(speed, t_k, molar) == pytest.approx(expected, rel=1e-9, abs=1e-300)


def test_the_three_speeds_stand_in_fixed_ratios() -> None:
    peak, mean, rms = (f(280.0, 0.018) for f in (most_probable_speed, mean_speed, rms_speed))
    assert mean / peak == pytest.approx(1.128379, abs=5e-7)
    assert rms / peak == pytest.approx(1.224745, abs=5e-7)
    assert rms / mean == pytest.approx(1.085402, abs=5e-7)
