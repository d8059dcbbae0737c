"""TEOS-10 sea water, from the library gsw: what salt does to the vapour pressure, and how much heat sea water takes."""

from __future__ import annotations

import gsw
import numpy as np
import pytest

from sonify.constants import GAS_CONSTANT_J_PER_MOL_K, MOLAR_MASS_WATER_KG_PER_MOL
from sonify.processes.water_cycle_model import WATER_HEAT_J_PER_M3_K
from sonify.science.evaporation import SEA_WATER_FACTOR

STANDARD_SEA = 35.16504  # g/kg


def test_salt_lowers_the_vapour_pressure_by_two_per_cent() -> None:
    """ln(activity of water) = (its chemical potential in sea water less that in fresh water) / (R T)."""
    for t_c in (0.0, 10.0, 20.0, 30.0):
        salt, fresh = (1000.0 * gsw.chem_potential_water_t_exact(s, t_c, 0.0) for s in (STANDARD_SEA, 0.0))
        specific = GAS_CONSTANT_J_PER_MOL_K / MOLAR_MASS_WATER_KG_PER_MOL * (t_c + 273.15)
        activity = np.exp((salt - fresh) / specific)
        assert pytest.approx(activity, abs=0.002) == SEA_WATER_FACTOR


def test_sea_water_takes_four_million_joules_a_cubic_metre() -> None:
    """1026.954 kg/m³ and 3990.1 J/(kg K) at 10 °C."""
    heat = gsw.rho_t_exact(STANDARD_SEA, 10.0, 0.0) * gsw.cp_t_exact(STANDARD_SEA, 10.0, 0.0)
    assert heat == pytest.approx(1026.954 * 3990.1, rel=2e-5)
    assert pytest.approx(heat, rel=0.01) == WATER_HEAT_J_PER_M3_K
