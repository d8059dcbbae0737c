"""Circuits of cells and components: what flows where, by Kirchhoff's two laws."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from sonify.frozen import dataclass
from sonify.science.ranges import FloatArray, Range, Values

_SOURCE = Range("emf_v", "V", -np.inf, np.inf, "a circuit of cells")
_INNER = Range("inner_ohm", "ohm", 0.0, np.inf, "a cell with a resistance of its own")
_LOAD = Range("load_ohm", "ohm", 0.0, np.inf, "a circuit that is not shorted", above=True)
_BRANCH = Range("resistance_ohm", "ohm", 0.0, np.inf, "a branch that is not shorted", above=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Branch:
    """One way from a joint to another: a resistance, and the voltage of cells that push from `start` to `end`."""

    start: int
    end: int
    resistance_ohm: float
    emf_v: float = 0.0


def loop_current(emf_v: Values, inner_ohm: Values, load_ohm: Values) -> FloatArray:
    """Return the current round a circuit of one loop, A.

        I = E / (r + R)

    Args:
        emf_v: voltage of the cells with nothing joined to them, E.
        inner_ohm: resistance of the cells themselves, r.
        load_ohm: resistance of all that is joined to them, R.

    Raises:
        OutOfRange: a load of nothing (a short circuit), or a negative resistance.

    Valid: resistances that stay as they are; a bulb's grows as its thread gets hot.
    Source: OPENSTAX-CP1, Electromotive Force: Terminal Voltage.
    Check: 12.0 V with 0.100 ohm of their own, and 10.0 ohm, printed 1.188 A:
        >>> print(f"{loop_current(12.0, 0.1, 10.0):.3f}")
        1.188
    """
    current: FloatArray = _SOURCE.checked(emf_v) / (_INNER.checked(inner_ohm) + _LOAD.checked(load_ohm))
    return current


def branch_currents(branches: Sequence[Branch]) -> FloatArray:
    """Return the current in each branch of a network, A, from its start to its end.

        sum of I at each joint = 0;  I R = V(start) - V(end) + E in each branch

    Args:
        branches: the ways between joints; the joints are numbered from 0 and hang together.

    Raises:
        OutOfRange: a branch without resistance.

    Valid: resistances that stay as they are.
    Source: OPENSTAX-CP1, Kirchhoff's Rules.
    Check: two batteries and three ways, printed 4.75, -3.50 and 8.25 A:
        >>> ways = (Branch(start=1, end=0, resistance_ohm=6.0), Branch(start=0, end=1, resistance_ohm=3.0, emf_v=18.0),
        ...         Branch(start=0, end=1, resistance_ohm=2.0, emf_v=45.0))
        >>> print(np.round(branch_currents(ways), 2))
        [ 4.75 -3.5   8.25]
    """
    joints = 1 + max(max(one.start, one.end) for one in branches)
    leads = np.array([1.0 / float(_BRANCH.checked(one.resistance_ohm)) for one in branches])
    emf = np.array([float(_SOURCE.checked(one.emf_v)) for one in branches])
    away = np.zeros((joints, len(branches)))
    for number, one in enumerate(branches):
        away[one.start, number] += 1.0
        away[one.end, number] -= 1.0
    # the first joint is at 0 V, so that the others have one answer
    between = away[1:] * leads @ away[1:].T
    voltage = np.concatenate(([0.0], np.linalg.solve(between, -away[1:] @ (leads * emf))))
    currents: FloatArray = leads * (away.T @ voltage + emf)
    return currents
