"""Noyes and Whitney (1897), Nernst and Brunner (1904): dissolving. From memory; checked by what the law implies."""

from __future__ import annotations

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from sonify.science.dissolving import clinging_layer, dissolved_concentration, dissolving_rate, sherwood_number


def test_at_fixed_area_the_water_fills_up_by_an_exponential() -> None:
    """C = C_s (1 - exp(-k t)): 63.212 %, 86.466 % and 95.021 % after one, two and three 1/k."""
    diffusion, layer, area, volume = 1.6e-9, 20e-6, 0.01, 2e-4
    transfer = diffusion / layer
    one = volume / (transfer * area)
    found = dissolved_concentration(one * np.array([1.0, 2.0, 3.0]), 100.0, transfer, area, volume)
    np.testing.assert_allclose(found, [63.212, 86.466, 95.021], atol=0.0005)
    solved = solve_ivp(
        lambda _, c: dissolving_rate(diffusion, area, layer, 100.0 - c) / volume, (0.0, 3 * one), [0.0], rtol=1e-9
    )
    assert solved.y[0][-1] == pytest.approx(float(found[-1]), rel=1e-6)


def test_a_grain_in_still_water_gives_off_through_half_its_diameter() -> None:
    """Steady diffusion from a sphere: 4 pi r D (C_s - C), which is D A (C_s - C) / r."""
    diameter, diffusion = 0.5e-3, 1.6e-9
    layer = float(clinging_layer(diameter, 0.0, 600.0))
    ours = float(dissolving_rate(diffusion, np.pi * diameter**2, layer, 300.0))
    assert ours == pytest.approx(4 * np.pi * (diameter / 2) * diffusion * 300.0, rel=1e-12)


def test_ranz_and_marshall() -> None:
    """Sh = 2 + 0.6 Re^(1/2) Sc^(1/3), as read: Re 100 and Sc 1000 make 2 + 0.6 · 10 · 10 = 62."""
    assert sherwood_number(100.0, 1000.0) == pytest.approx(62.0)
