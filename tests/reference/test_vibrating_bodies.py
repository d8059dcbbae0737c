"""Fletcher & Rossing, The Physics of Musical Instruments, ch. 2 and 3: partials of the ideal bar and membrane.

The bar's roots were recomputed here from cos x cosh x = 1 and the membrane's from the zeros of Bessel functions
(scipy); the book itself was not at hand.
"""

from __future__ import annotations

import numpy as np
import pytest
from scipy.optimize import brentq
from scipy.special import jn_zeros

from sonify.sound.voices.bodies import MEMBRANE, free_bar
from tests.reference.tolerance import half_last_digit

PRINTED_BAR = ("1", "2.7565", "5.4039", "8.933", "13.3443")
MEMBRANE_MODES = ((0, 1), (1, 1), (2, 1), (0, 2), (3, 1), (1, 2), (4, 1), (2, 2), (0, 3), (5, 1))


def test_the_bar_has_the_printed_partials() -> None:
    for ratio, printed in zip(free_bar(5), PRINTED_BAR, strict=True):
        assert ratio == pytest.approx(float(printed), abs=half_last_digit(printed))


def test_the_bar_solves_its_equation() -> None:
    roots = [brentq(lambda x: np.cos(x) - 1 / np.cosh(x), (n + 0.2) * np.pi, (n + 0.8) * np.pi) for n in range(1, 7)]
    np.testing.assert_allclose(free_bar(6), (np.array(roots) / roots[0]) ** 2, rtol=1e-6)


@pytest.mark.parametrize("index", range(10))
def test_the_membrane_has_the_zeros_of_bessel_functions(index: int) -> None:
    m, n = MEMBRANE_MODES[index]
    assert MEMBRANE[index] == pytest.approx(jn_zeros(m, n)[-1] / jn_zeros(0, 1)[0], abs=0.6e-3)
