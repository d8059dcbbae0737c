"""Hunters and hunted: how the numbers of each make the other's rise and fall."""

from __future__ import annotations

import numpy as np

from sonify.science.ranges import FloatArray, Range, Values

_HUNTED = Range("hunted", "", 0.0, np.inf, "animals that are hunted", above=True)
_HUNTERS = Range("hunters", "", 0.0, np.inf, "animals that hunt", above=True)
_HUNTED_REST = Range("balance_hunted", "", 0.0, np.inf, "hunters and hunted in balance", above=True)
_HUNTERS_REST = Range("balance_hunters", "", 0.0, np.inf, "hunters and hunted in balance", above=True)
_GROWTH = Range("growth_per_s", "1/s", 0.0, np.inf, "the growth of the hunted", above=True)
_DYING = Range("dying_per_s", "1/s", 0.0, np.inf, "the dying of hunters without food", above=True)
_CROWD = Range("crowding", "", 0.0, 1.0, "a land that feeds so many")


def hunted_growth(
    hunted: Values, hunters: Values, growth_per_s: Values, balance_hunters: Values, crowding: Values
) -> FloatArray:
    """Return by what share of itself the number of the hunted grows in a second, 1/s.

        x' / x = alpha (1 - c x - y / y0)

    Args:
        hunted: how many there are, x.
        hunters: how many hunt them, y.
        growth_per_s: by what share they would grow undisturbed, alpha.
        balance_hunters: how many hunters eat just what grows again, y0: alpha over beta.
        crowding: one over how many the land can feed, c; 0 for no limit.

    Raises:
        OutOfRange: no animals, no growth, no balance, or more crowding than one animal can stand.

    Valid: many animals, well mixed; hunters that are never full.
    Source: LOTKA-VOLTERRA; with the limit from VERHULST.
    Check: alpha 1 and beta 0.1, five hunters: half of the undisturbed growth:
        >>> print(f"{hunted_growth(10.0, 5.0, 1.0, 10.0, 0.0):.2f}")
        0.50
    """
    room = 1.0 - _CROWD.checked(crowding) * _HUNTED.checked(hunted)
    rate: FloatArray = _GROWTH.checked(growth_per_s) * (
        room - _HUNTERS.checked(hunters) / _HUNTERS_REST.checked(balance_hunters)
    )
    return rate


def hunters_growth(hunted: Values, dying_per_s: Values, balance_hunted: Values) -> FloatArray:
    """Return by what share of itself the number of hunters grows in a second, 1/s.

        y' / y = gamma (x / x0 - 1)

    Args:
        hunted: how many they can hunt, x.
        dying_per_s: by what share they would shrink without food, gamma.
        balance_hunted: how many hunted just feed them, x0: gamma over delta.

    Raises:
        OutOfRange: no animals, no dying, no balance.

    Valid: as `hunted_growth`.
    Source: LOTKA-VOLTERRA.
    Check: gamma 1.5 and delta 0.075, ten hunted: half of them lack food:
        >>> print(f"{hunters_growth(10.0, 1.5, 20.0):.2f}")
        -0.75
    """
    rate: FloatArray = _DYING.checked(dying_per_s) * (
        _HUNTED.checked(hunted) / _HUNTED_REST.checked(balance_hunted) - 1.0
    )
    return rate
