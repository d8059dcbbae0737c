"""Salt in water: a salt producers' table of saturated brine (read), the CRC Handbook's solubilities (from memory), a
table of brine densities (read), and the fixed point of a saturated brine's humidity."""

from __future__ import annotations

import numpy as np
import pytest

from sonify.science.brine import brine_vapour_share, brine_volume, salt_diffusion, salt_solubility
from tests.reference.tolerance import half_last_digit

# °C, mass per cent of the saturated brine; grams of salt to 100 g of water that follow from it
INDUSTRY = [(0.0, "26.29", "35.67"), (15.56, "26.395", "35.86"), (21.11, "26.45", "35.96"), (100.0, "28.12", "39.12")]
CRC = [(0.0, "35.65"), (20.0, "35.89"), (100.0, "38.99")]  # grams to 100 g of water
AGREE = 0.004  # by how much the two tables differ, as found when they were compared
# mass per cent at 20 °C, kg/m³ of the brine
DENSITIES = [
    (1, 1005.3), (2, 1012.2), (4, 1026.8), (6, 1041.3), (8, 1055.9), (10, 1070.7), (12, 1085.7), (14, 1100.9),
    (16, 1116.2), (18, 1131.9), (20, 1147.8), (22, 1164.0), (24, 1180.4), (26, 1197.2),
]  # fmt: skip
ROOM = 0.007  # OBSERVED: one round figure for the room that salt takes up, weak brine and strong


@pytest.mark.parametrize(("t_c", "per_cent", "grams"), INDUSTRY)
def test_solubility_against_the_industry_s_table(t_c: float, per_cent: str, grams: str) -> None:
    found = float(salt_solubility(t_c + 273.15))
    assert 100 * found / (1 + found) == pytest.approx(float(per_cent), abs=half_last_digit(per_cent))
    assert 100 * found == pytest.approx(float(grams), abs=half_last_digit(grams))


@pytest.mark.parametrize(("t_c", "grams"), CRC)
def test_solubility_against_the_handbook(t_c: float, grams: str) -> None:
    assert 100 * salt_solubility(t_c + 273.15) == pytest.approx(float(grams), rel=AGREE)


def test_hot_water_holds_hardly_more_salt() -> None:
    kelvin = np.linspace(273.15, 373.15, 200)
    found = salt_solubility(kelvin)
    assert np.all(np.diff(found) >= 0.0)
    assert 1.08 < found[-1] / found[0] < 1.11


@pytest.mark.parametrize(("per_cent", "density"), DENSITIES)
def test_room_that_brine_takes_up(per_cent: float, density: float) -> None:
    salt = per_cent / 100
    assert 1.0 / brine_volume(1.0 - salt, salt, 293.15) == pytest.approx(density, rel=ROOM)


def test_saturated_brine_keeps_the_air_at_three_quarters() -> None:
    """75.29 % at 25 °C: the fixed point used to check humidity meters (Greenspan 1977; from memory)."""
    assert 100 * brine_vapour_share(salt_solubility(298.15)) == pytest.approx(75.29, abs=0.05)


def test_salt_wanders_as_measured() -> None:
    """Measured in weak brine at 25 °C: 1.61e-9 m²/s (CRC Handbook; from memory); both ions keep together."""
    assert salt_diffusion(298.15) == pytest.approx(1.61e-9, abs=half_last_digit("1.61e-9"))
    assert 1.3e-9 < salt_diffusion(291.65) < 1.61e-9 < salt_diffusion(303.15)
