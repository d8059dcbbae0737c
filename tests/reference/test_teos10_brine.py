"""TEOS-10 sea water, from the library gsw: the vapour pressure over a strengthening brine."""

from __future__ import annotations

import gsw
import numpy as np

from sonify.constants import GAS_CONSTANT_J_PER_MOL_K, MOLAR_MASS_WATER_KG_PER_MOL
from sonify.science.brine import brine_vapour_share

SALT_FOR_SEA = 0.008  # OBSERVED: sodium chloride in the place of sea salt, up to 120 g/kg


def test_vapour_over_brine_against_sea_water() -> None:
    rng = np.random.default_rng(5)
    grams, t_c = rng.uniform(0.5, 120.0, 200), rng.uniform(5.0, 70.0, 200)
    salt, fresh = (1000.0 * gsw.chem_potential_water_t_exact(s, t_c, 0.0) for s in (grams, np.zeros_like(grams)))
    specific = GAS_CONSTANT_J_PER_MOL_K / MOLAR_MASS_WATER_KG_PER_MOL * (t_c + 273.15)
    activity = np.exp((salt - fresh) / specific)
    np.testing.assert_allclose(brine_vapour_share(grams / (1000.0 - grams)), activity, rtol=SALT_FOR_SEA)


def test_standard_sea_water_gives_two_per_cent_less_vapour() -> None:
    share = float(brine_vapour_share(35.16504 / (1000.0 - 35.16504)))
    assert 0.978 < share < 0.983
