"""Particles that pull each other from afar and push when close: the pair potential, heat and order in a flat box.

The figures for argon serve wherever one substance is needed: it is the one for which this potential is best known.
"""

from __future__ import annotations

import numpy as np

from sonify.constants import BOLTZMANN_J_PER_K, GAS_CONSTANT_J_PER_MOL_K
from sonify.science.ranges import FloatArray, Range, Values

# Argon's depth and diameter: ROWLEY-1975.
ARGON_DEPTH_J = 119.8 * BOLTZMANN_J_PER_K
ARGON_DIAMETER_M = 3.405e-10
ARGON_KG_PER_MOL = 0.039948  # IUPAC abridged standard atomic weight

_PAIR = "the Lennard-Jones potential"
_DISTANCE = Range("distance_m", "m", 0.0, np.inf, _PAIR, above=True)
_DEPTH = Range("depth_j", "J", 0.0, np.inf, _PAIR)
_DIAMETER = Range("diameter_m", "m", 0.0, np.inf, _PAIR, above=True)
_TEMPERATURE = Range("temperature_k", "K", 0.0, np.inf, "the kinetic theory of a flat gas")
_MASS = Range("molar_mass_kg_per_mol", "kg/mol", 0.0, np.inf, "the kinetic theory of a flat gas", above=True)
_KINETIC = Range("kinetic", "", 0.0, np.inf, "the scaling of speeds", above=True)
_HEAT_SHARE = Range("heat / kinetic", "", -1.0, np.inf, "the scaling of speeds")
_WARM = Range("temperature_k", "K", 0.0, np.inf, "the thermostat of weak coupling", above=True)
_TARGET = Range("target_k", "K", 0.0, np.inf, "the thermostat of weak coupling")
_SHARE = Range("share", "1", 0.0, 1.0, "the thermostat of weak coupling")
_ANGLE = Range("angles_rad", "rad", -np.inf, np.inf, "the order of six neighbours")


def pair_energy(
    distance_m: Values, depth_j: Values = ARGON_DEPTH_J, diameter_m: Values = ARGON_DIAMETER_M
) -> FloatArray:
    """Energy of two particles at a distance, J: 0 far apart, least at 2^(1/6) diameters, steeply up when closer.

        U = 4 epsilon ((sigma/r)^12 - (sigma/r)^6)

    Args:
        distance_m: distance r between the two.
        depth_j: depth epsilon of the potential.
        diameter_m: distance sigma at which the energy is 0.

    Raises:
        OutOfRange: a distance or diameter of 0 or less, a negative depth, or not a number.

    Valid: two atoms of a noble gas, roughly; every other molecule only as a picture.
    Source: LENNARD-JONES-1931; argon's figures ROWLEY-1975.
    Check: at 2^(1/6) diameters the energy is the depth, below 0:
        >>> print(f"{pair_energy(2 ** (1 / 6) * 3.4e-10, 1.0, 3.4e-10):.6f}")
        -1.000000
    """
    sixth = (_DIAMETER.checked(diameter_m) / _DISTANCE.checked(distance_m)) ** 6
    return 4.0 * _DEPTH.checked(depth_j) * sixth * (sixth - 1.0)


def pair_force(
    distance_m: Values, depth_j: Values = ARGON_DEPTH_J, diameter_m: Values = ARGON_DIAMETER_M
) -> FloatArray:
    """How hard two particles push each other apart, N; negative where they pull each other closer.

        F = -dU/dr = 24 epsilon (2 (sigma/r)^12 - (sigma/r)^6) / r

    Args:
        distance_m: distance r between the two.
        depth_j: depth epsilon of the potential.
        diameter_m: distance sigma at which the energy is 0.

    Raises:
        OutOfRange: a distance or diameter of 0 or less, a negative depth, or not a number.

    Valid: as `pair_energy`.
    Source: LENNARD-JONES-1931.
    Check: at one diameter, 24 depths a diameter:
        >>> print(f"{pair_force(1.0, 1.0, 1.0):.6f}")
        24.000000
    """
    r = _DISTANCE.checked(distance_m)
    sixth = (_DIAMETER.checked(diameter_m) / r) ** 6
    return 24.0 * _DEPTH.checked(depth_j) * sixth * (2.0 * sixth - 1.0) / r


def flat_mean_speed(temperature_k: Values, molar_mass_kg_per_mol: Values) -> FloatArray:
    """Mean speed of particles that can only move in the flat, m/s: 0.785 of the speed of real ones (`mean_speed`).

        v_mean = sqrt(pi R T / (2 M))

    Args:
        temperature_k: absolute temperature T.
        molar_mass_kg_per_mol: molar mass M.

    Raises:
        OutOfRange: a temperature below 0 K, a mass of 0 or less, or not a number.

    Valid: motion in two dimensions, in balance; solid, liquid or gas alike (equipartition).
    Source: OPENSTAX-UP2, "Distribution of Molecular Speeds", with one dimension left out (Rayleigh's distribution).
    Check: argon at 119.8 K, sqrt(pi/2) of sqrt(R T / M):
        >>> print(f"{flat_mean_speed(119.8, 0.039948):.1f}")
        197.9
    """
    t, m = _TEMPERATURE.checked(temperature_k), _MASS.checked(molar_mass_kg_per_mol)
    return np.sqrt(0.5 * np.pi * GAS_CONSTANT_J_PER_MOL_K * t / m)


def heating_factor(kinetic: Values, heat: Values) -> FloatArray:
    """What to multiply every speed with so that the energy of motion grows by just this heat (no unit).

        factor = sqrt(1 + Q/K)

    Args:
        kinetic: energy of motion K, in any unit of energy.
        heat: heat Q to give, in the same unit; negative to take it away, at most all of K.

    Raises:
        OutOfRange: no energy of motion, more heat taken away than there is, or not a number.

    Valid: speeds counted from the centre of mass at rest.
    Source: IKESHOJI-HAFSKJOLD-1994.
    Check: a tenth more energy, 4.88 % more speed:
        >>> print(f"{heating_factor(1.0, 0.1):.4f}")
        1.0488
    """
    share = np.asarray(heat, dtype=np.float64) / _KINETIC.checked(kinetic)
    return np.sqrt(1.0 + _HEAT_SHARE.checked(share))


def coupling_factor(temperature_k: Values, target_k: Values, share: Values) -> FloatArray:
    """What to multiply every speed with so that the temperature goes a share of the way to the one wanted (no unit).

        factor = sqrt(1 + s (T0/T - 1))

    Args:
        temperature_k: temperature T now, above 0.
        target_k: temperature T0 wanted.
        share: share s of the way, 0 to 1 (time step over relaxation time).

    Raises:
        OutOfRange: a temperature of 0 or less, a share outside 0 to 1, or not a number.

    Valid: to bring a box to a temperature; the spread of energies that it leaves is too narrow.
    Source: BERENDSEN-1984, equation 11.
    Check: half the way from 100 K to 200 K, sqrt(1.5):
        >>> print(f"{coupling_factor(100.0, 200.0, 0.5):.4f}")
        1.2247
    """
    ratio = _TARGET.checked(target_k) / _WARM.checked(temperature_k)
    return np.sqrt(1.0 + _SHARE.checked(share) * (ratio - 1.0))


def six_fold_order(angles_rad: FloatArray) -> FloatArray:
    """How well neighbours stand as in a honeycomb, for one particle or for many together: 1 perfectly, 0 at random.

        psi6 = |mean of exp(6 i angle)|

    Args:
        angles_rad: directions from particles to their neighbours, any shape; one answer for all of them together.

    Raises:
        OutOfRange: not a number, or no angle at all.

    Valid: flat packings. Of one crystal 1; of many small crystals turned at random near 0, like a liquid.
    Source: NELSON-HALPERIN-1979.
    Check: a hexagon, however turned, 1:
        >>> print(f"{six_fold_order(0.3 + np.arange(6) * np.pi / 3):.6f}")
        1.000000
    """
    if angles_rad.size == 0:
        _ANGLE.checked(np.nan)
    order: FloatArray = np.abs(np.mean(np.exp(6j * _ANGLE.checked(angles_rad))))
    return order
