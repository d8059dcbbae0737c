"""Unsworth and Monteith 1975: what cloud adds to the warmth of the sky. The coefficient is from memory.

The equation as later textbooks print it (Campbell and Norman 1998, equation 10.12, from memory, too):
epsilon(c) = (1 - 0.84 c) epsilon(0) + 0.84 c, so cloud all over closes 0.84 of the gap to a black body.
"""

from __future__ import annotations

import numpy as np
import pytest

from sonify.science.radiation import sky_emissivity
from tests.reference.tolerance import half_last_digit

OVERCAST = "0.84"


@pytest.mark.parametrize("temperature_k", [263.15, 283.15, 303.15])
@pytest.mark.parametrize("vapour_pa", [200.0, 1000.0])
def test_an_overcast_sky_closes_so_much_of_the_gap_to_black(temperature_k: float, vapour_pa: float) -> None:
    shares = np.array([0.0, 0.25, 0.5, 1.0])
    sky = np.array([float(sky_emissivity(temperature_k, vapour_pa, share)) for share in shares])
    closed = (sky - sky[0]) / (1.0 - sky[0])
    np.testing.assert_allclose(closed, float(OVERCAST) * shares, atol=half_last_digit(OVERCAST))
