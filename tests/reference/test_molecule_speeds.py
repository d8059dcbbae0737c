"""Molecule speeds that processes tell of water against scipy's Maxwell distribution and CODATA constants.

The formula of the mean has its own tests; here it is the quantities of whole runs, so that no process has another mean
(the root of the mean square is 1.085 times as large).
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy import constants, stats

from sonify.processes import PROCESSES, conditions_si, find
from sonify.records.process import QuantitySpec

WATER_KG = 18.015e-3 / constants.N_A  # of one molecule; the molar mass as every table of elements gives it
SPEEDS = [
    (name, spec)
    for name in PROCESSES
    for spec in find(name).quantities
    if "molecule speed" in spec.name and spec.companion
]


def test_there_are_processes_that_tell_of_molecules() -> None:
    assert {name for name, _ in SPEEDS} >= {"water-cycle", "cooling", "drying"}


@pytest.mark.parametrize(("name", "spec"), SPEEDS, ids=lambda each: each if isinstance(each, str) else each.name)
def test_a_molecule_speed_is_the_mean_of_a_maxwell_distribution(name: str, spec: QuantitySpec) -> None:
    process = find(name)
    timeline = process.run(conditions_si(process, ()))
    temperature_k = timeline.quantity(spec.companion).values
    mean = stats.maxwell.mean(scale=np.sqrt(constants.k * temperature_k / WATER_KG))
    np.testing.assert_allclose(timeline.quantity(spec.name).values, mean, rtol=2e-4)
