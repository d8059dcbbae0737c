"""A class page for an advanced secondary physics course: rms speeds at 20 °C, rounded to ten. Read."""

from __future__ import annotations

import pytest

from sonify.science.kinetic import rms_speed


@pytest.mark.parametrize(("gas", "molar", "printed"), [("oxygen", 0.0319988, 480.0), ("nitrogen", 0.0280134, 510.0)])
def test_rms_speed_at_20_degrees(gas: str, molar: float, printed: float) -> None:
    assert rms_speed(293.15, molar) == pytest.approx(printed, abs=5.0), gas
