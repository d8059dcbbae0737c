"""What can be read off where the particles are: how orderly, how crowded, how many are on their own."""

from __future__ import annotations

import numpy as np

from sonify.frozen import dataclass
from sonify.records.timeline import FloatArray
from sonify.science.particles import six_fold_order

NEAR = 1.5  # diameters: closer than that, a particle is a neighbour (midway between first and second ring)
ALONE = 2  # neighbours, at most, of a particle that counts as on its own
RING = 6
#: At the edge: the six nearest leave more than a third of the circle open.
OPEN_RAD = 2.0 * np.pi / 3.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Arrangement:
    """order: of all particles together. isolated: share on their own. neighbours: on average. spacing: mean distance
    to the six nearest, in the unit of the places."""

    order: float
    isolated: float
    neighbours: float
    spacing: float


def arrangement(places: FloatArray, diameter: float = 1.0) -> Arrangement:
    """The readings of particles at `places` (2 x particles, seven at least), lengths in any unit."""
    from scipy.spatial import cKDTree  # only where a box is simulated

    rows = np.ascontiguousarray(places.T)
    distances, nearest = cKDTree(rows).query(rows, k=RING + 1)
    distances = distances[:, 1:]
    way = rows[nearest[:, 1:]] - rows[:, None, :]
    near = np.count_nonzero(distances < NEAR * diameter, axis=1)
    return Arrangement(
        order=float(six_fold_order(np.arctan2(way[..., 1], way[..., 0]))),
        isolated=float(np.mean(near <= ALONE)),
        neighbours=float(near.mean()),
        spacing=float(distances.mean()),
    )


def spacing_inside(rows: FloatArray) -> float:
    """Mean distance to the six nearest of those particles (particles x 2) that have others on every side.

    At the rim of a drop the six nearest lie further off, for want of others, and so they do beside one that got away:
    what fills the space between particles is seen inside only. Of all particles where none has others all round.
    """
    from scipy.spatial import cKDTree  # only where a box is simulated

    distances, nearest = cKDTree(rows).query(rows, k=RING + 1)
    way = rows[nearest[:, 1:]] - rows[:, None, :]
    angles = np.sort(np.arctan2(way[..., 1], way[..., 0]), axis=1)
    gaps = np.diff(angles, axis=1, append=angles[:, :1] + 2.0 * np.pi)
    surrounded = gaps.max(axis=1) < OPEN_RAD
    return float(distances[surrounded if surrounded.any() else slice(None), 1:].mean())
