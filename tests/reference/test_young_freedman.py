"""Young and Freedman, University Physics, section 18.3: nitrogen at standard temperature and pressure.

Read in student notes that quote it: free path 5.8e-8 m, free time 1.2e-10 s, for molecules of radius 0.2 nm at 27 °C
and one atmosphere. The answer hangs on that radius (another published one gives 15 % more), so the check takes it.
"""

from __future__ import annotations

import pytest

from sonify.science.kinetic import mean_free_path, mean_speed
from tests.reference.tolerance import half_last_digit


def test_free_path_and_free_time() -> None:
    path = mean_free_path(300.0, 101_325.0, 4.0e-10)
    assert path == pytest.approx(5.8e-8, abs=half_last_digit("5.8e-8"))
    assert path / mean_speed(300.0, 0.028) == pytest.approx(1.2e-10, abs=half_last_digit("1.2e-10"))
