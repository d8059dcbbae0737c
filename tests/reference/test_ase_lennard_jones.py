"""ASE, the Atomic Simulation Environment (LGPL, tests only), `ase.calculators.lj.LennardJones`: energy and forces.

Its truncated potential is shifted so that a pair has no energy at the cut-off, as ours is.
"""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.processes.states_of_matter_box import CUT_OFF, box_of
from sonify.records.timeline import FloatArray
from sonify.science.particles import pair_energy, pair_force


def scattered(seed: int, particles: int, width: float) -> FloatArray:
    """Places at random in a square, none closer than 0.8: closer never comes about at the box's temperatures."""
    rng = np.random.default_rng(seed)
    places: list[FloatArray] = []
    while len(places) < particles:
        one = rng.uniform(0.0, width, 2)
        if all(np.hypot(*(one - other)) > 0.8 for other in places):
            places.append(one)
    return np.array(places).T


def by_ase(places: FloatArray) -> tuple[float, FloatArray]:
    from ase import Atoms
    from ase.calculators.lj import LennardJones

    count = places.shape[1]
    atoms = Atoms(f"Ar{count}", positions=np.column_stack([places.T, np.zeros(count)]), cell=[1e3] * 3, pbc=False)
    atoms.calc = LennardJones(sigma=1.0, epsilon=1.0, rc=CUT_OFF, smooth=False)
    forces = atoms.get_forces()
    assert np.all(forces[:, 2] == 0.0)
    return float(atoms.get_potential_energy()), np.asarray(forces[:, :2].T)


@given(seed=st.integers(0, 2**31), particles=st.integers(2, 40), width=st.floats(6.0, 14.0))
def test_energy_and_forces_of_the_box_are_ase_s(seed: int, particles: int, width: float) -> None:
    places = scattered(seed, particles, width)
    box = box_of(places, np.zeros_like(places), width)
    energy, forces = by_ase(places)
    scale = max(1.0, float(np.abs(forces).max()))
    assert box.potential == pytest.approx(energy, rel=1e-11, abs=1e-10)
    np.testing.assert_allclose(box.pushes, forces, rtol=0.0, atol=1e-12 * scale)


@given(distance=st.floats(0.75, 2.49))
def test_the_pair_functions_are_ase_s(distance: float) -> None:
    energy, forces = by_ase(np.array([[0.0, distance], [0.0, 0.0]]))
    at_cut_off = float(pair_energy(CUT_OFF, 1.0, 1.0))
    assert float(pair_energy(distance, 1.0, 1.0)) - at_cut_off == pytest.approx(energy, rel=1e-10, abs=1e-12)
    assert float(pair_force(distance, 1.0, 1.0)) == pytest.approx(float(forces[0, 1]), rel=1e-10, abs=1e-12)
