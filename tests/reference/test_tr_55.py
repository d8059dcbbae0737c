"""USDA Technical Release 55 (1986): table 2-1 and example 2-1, in inches. Read (curve numbers of 2-1 from memory).

One cell of the table is not what its equation gives (7.0 inches on 50: printed 1.68, equation 1.667): it is left out.
"""

from __future__ import annotations

import pytest

from sonify.science.runoff import direct_runoff, released_share

INCH = 0.0254
# rain, curve number, printed run-off
TABLE = [
    (6.0, 60, 1.92), (6.0, 70, 2.81), (6.0, 75, 3.28), (6.0, 80, 3.78), (6.0, 90, 4.85),
    (1.0, 75, 0.03), (1.0, 80, 0.08), (1.0, 90, 0.32),
    (3.0, 60, 0.33), (3.0, 70, 0.71), (3.0, 75, 0.96), (3.0, 80, 1.25), (3.0, 90, 1.98),
]  # fmt: skip


@pytest.mark.parametrize(("rain", "curve", "printed"), TABLE)
def test_table_2_1(rain: float, curve: float, printed: float) -> None:
    assert direct_runoff(rain * INCH, curve) / INCH == pytest.approx(printed, abs=0.005 + 1e-9)


def test_example_2_1() -> None:
    """Good pasture, 30 % on soil B (61) and 70 % on soil C (74): weighted 70; 6.0 inches give 2.81."""
    weighted = round(0.3 * 61 + 0.7 * 74)
    assert weighted == 70
    assert direct_runoff(6.0 * INCH, weighted) / INCH == pytest.approx(2.81, abs=0.005)


def test_nothing_runs_off_until_the_ground_is_wetted() -> None:
    held = (1000 / 80 - 10) * INCH
    assert direct_runoff(0.2 * held, 80.0) == 0.0
    assert direct_runoff(0.2 * held + 1e-4, 80.0) > 0.0


def test_a_linear_reservoir_halves_in_seven_tenths_of_its_residence_time() -> None:
    assert released_share(0.69315 * 3600, 3600.0) == pytest.approx(0.5, abs=1e-5)
    assert 1 - released_share(3600.0, 3600.0) == pytest.approx(0.36788, abs=5e-6)
