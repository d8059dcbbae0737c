"""The grid that all sound is made on. One rate, one block: so bytes depend on neither block sizes nor cores."""

from __future__ import annotations

from fractions import Fraction

import numpy as np
from numpy.typing import NDArray

#: Samples: float32 throughout. Spectra: complex64.
Samples = NDArray[np.float32]
Floats = NDArray[np.float64]

RATE_HZ = 44_100
#: Loudness is measured in hops of 100 ms (BS.1770: 400 ms windows, 75 % overlap).
HOP = RATE_HZ // 10
#: Control grid: gains are worked out every 63 samples (1.4 ms) and drawn straight between. 70 of them make a hop.
STEP = 63
#: The engine's block: eleven hops, so that block + room response fill one transform of 65 536.
BLOCK = 11 * HOP
TRANSFORM = 65_536


def frame(second: Fraction | float) -> int:
    """The sample that sounds at a time: rounded once, here.

    >>> frame(Fraction(1, 3)), frame(0.5)
    (14700, 22050)
    """
    return round(second * RATE_HZ)
