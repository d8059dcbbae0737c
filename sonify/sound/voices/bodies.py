"""Partials of simple bodies, from their equations: the ratios that the tables quote."""

from __future__ import annotations

import math

import numpy as np

#: Roots of cos x cosh x = 1: a uniform bar with free ends (Fletcher & Rossing, ch. 2).
FREE_BAR_ROOTS = (4.730041, 7.853205, 10.995608, 14.137165, 17.278760, 20.420352, 23.561945, 26.703538)
#: Zeros of Bessel functions J_m, each over the first: an ideal circular skin (Fletcher & Rossing, ch. 3).
MEMBRANE = (1.0, 1.593, 2.136, 2.295, 2.653, 2.917, 3.155, 3.500, 3.598, 3.647)
#: Their T60 over the first's. What pushes all its air one way is loud and soon spent; the more its parts push against
#: each other, the longer it rings: mode (0,1) dies first, then (0,2), (1,1), (2,1) (D. Russell, in R. K. Jones, "In
#: Search of the Missing Fundamental", Membrane Modes). The figures are ours: high modes lose more within the skin.
MEMBRANE_RINGS = (1.0, 1.2, 1.25, 1.1, 1.15, 1.05, 1.0, 0.9, 0.8, 0.9)
#: A thin circular plate with a free edge, modes (2,0) (0,1) (3,0) (1,1) (4,0) (5,0) (2,1) (0,2).
#: Fletcher & Rossing ch. 3, from memory, not verified.
FREE_PLATE = (1.0, 1.73, 2.33, 3.91, 4.11, 6.30, 6.71, 7.34)


def free_bar(count: int) -> tuple[float, ...]:
    """Partials of a uniform bar: 1, 2.757, 5.404, 8.933 ... (squares of the roots).

    >>> print(*(f"{r:.4f}" for r in free_bar(4)))
    1.0000 2.7565 5.4039 8.9330
    """
    return tuple((root / FREE_BAR_ROOTS[0]) ** 2 for root in FREE_BAR_ROOTS[:count])


def ring_bending(count: int) -> tuple[float, ...]:
    """Partials of a thin ring that bends in its plane, n (n^2 - 1) / sqrt(n^2 + 1) over that of n = 2 (Rayleigh, Theory
    of Sound, section 233; from memory): bottles, tins, the rims of glasses.

    >>> print(*(f"{r:.3f}" for r in ring_bending(4)))
    1.000 2.828 5.423 8.771
    """
    bends = [n * (n * n - 1) / math.sqrt(n * n + 1) for n in range(2, count + 2)]
    return tuple(each / bends[0] for each in bends)


def rod_hz(length_m: float, diameter_m: float, sound_m_s: float, count: int) -> tuple[float, ...]:
    """Bending frequencies of a thin round rod with free ends: f = beta^2 (d/4) c / (2 pi L^2).

    Roots beyond the table are (n + 1/2) pi. A triangle is such a rod: its bends shift the partials a little.
    """
    roots = [FREE_BAR_ROOTS[n] if n < len(FREE_BAR_ROOTS) else (n + 1.5) * math.pi for n in range(count)]
    scale = 0.25 * diameter_m * sound_m_s / (2.0 * math.pi * length_m**2)
    return tuple(root * root * scale for root in roots)


def string(count: int, stiffness: float) -> tuple[float, ...]:
    """Partials of a stiff string over its first: n sqrt((1 + B n^2) / (1 + B))."""
    return tuple(n * math.sqrt((1.0 + stiffness * n * n) / (1.0 + stiffness)) for n in range(1, count + 1))


def plucked_db(count: int, place: float) -> tuple[float, ...]:
    """Levels (velocity) of a string plucked at a share of its length: |sin(n pi place)| / n, floor -50 dB."""
    return tuple(20.0 * math.log10(max(abs(math.sin(n * math.pi * place)) / n, 0.003 / n)) for n in range(1, count + 1))


def plate_cloud(first_hz: float, last_hz: float, count: int, seed: int) -> tuple[float, ...]:
    """Partials of a large thin plate, over the first: evenly dense in frequency, as plate theory has it, each displaced
    at random. Drawn once with a fixed seed: it is one plate, not a new one for each stroke."""
    rng = np.random.Generator(np.random.PCG64(seed))
    even = (
        first_hz + (last_hz - first_hz) * (np.arange(count) / count) ** 1.35
    )  # denser low down, where single modes show
    spacing = np.gradient(even)
    hz = np.sort(even + spacing * rng.uniform(-0.45, 0.45, count))
    hz[0] = first_hz
    return tuple(float(h) for h in hz / first_hz)
