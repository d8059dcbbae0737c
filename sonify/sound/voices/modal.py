"""A sum of decaying partials, as small matrix products."""

from __future__ import annotations

import math

import numpy as np
from numpy.typing import NDArray

from sonify.sound.rate import RATE_HZ, Floats, Samples

COLUMNS = 64
#: Multiply-adds in one matrix product: small enough that the linear algebra library keeps to one core, so that the
#: bytes do not depend on how many there are.
PRODUCT = 200_000
LN_1000 = float(np.log(1000.0))  # T60: amplitude falls to a thousandth


def ring(hz: Floats, ring_s: Floats, amplitudes: Floats, length: int) -> Samples:
    """sum over partials of a * exp(-t ln 1000 / T60) * sin(2 pi f t), `length` samples.

    Partials that die early are left off later: each is carried on until 80 dB under the strongest, to the next of a
    few lengths.
    """
    out = np.zeros(max(length, 0), dtype=np.float32)
    if not hz.size or length <= 0:
        return out
    wanted = np.minimum(lengths_for(ring_s, amplitudes, -80.0), length)
    until, begin = length, 0
    while begin < wanted.size:
        shorter = until // 2 if until > 8 * COLUMNS else 0
        group = (wanted <= until) & (wanted > shorter)
        if group.any():
            longest = int(wanted[group].max())
            out[:longest] += _together(hz[group], ring_s[group], amplitudes[group], longest)
            begin += int(group.sum())
        until = shorter
    return out


def _together(hz: Floats, ring_s: Floats, amplitudes: Floats, length: int) -> Samples:
    """The sum itself. With t = 64 i + j, Im(z^(64 i) z^j) = Im z^(64 i) Re z^j + Re z^(64 i) Im z^j: a tall matrix
    times a wide one."""
    exponent = np.asarray((2j * np.pi * hz - LN_1000 / ring_s) / RATE_HZ, dtype=np.complex128)
    rows = -(-length // COLUMNS)
    chunk = max(1, PRODUCT // (COLUMNS * 2 * hz.size))
    chunks = -(-rows // chunk)
    far = np.exp(np.outer(np.arange(chunks) * (chunk * COLUMNS), exponent)) * amplitudes
    within = _powers(exponent, COLUMNS)
    # Complex numbers seen as pairs: real and imaginary part of the tall one meet imaginary and real part of the wide.
    left = (far.astype(np.complex64)[:, None, :] * _powers(COLUMNS * exponent, chunk).astype(np.complex64)).view(
        np.float32
    )
    right = np.empty((2 * hz.size, COLUMNS), dtype=np.float32)
    right[0::2], right[1::2] = within.imag.T, within.real.T
    return np.asarray(np.matmul(left, right).reshape(-1)[:length])


def _powers(exponent: NDArray[np.complex128], count: int) -> NDArray[np.complex128]:
    """exp(k * exponent) for k = 0 to count - 1, a row each: products of few exponentials, which are slow."""
    few = math.isqrt(count) + 1
    near = np.exp(np.outer(np.arange(few), exponent))
    far = np.exp(np.outer(np.arange(-(-count // few)) * few, exponent))
    return np.asarray((far[:, None, :] * near).reshape(-1, exponent.size)[:count])


def lengths_for(ring_s: Floats, amplitudes: Floats, floor_db: float) -> NDArray[np.int64]:
    """Samples until each partial lies `floor_db` under the strongest at the start; at least one."""
    strongest = float(np.abs(amplitudes).max())
    above = 20.0 * np.log10(np.maximum(np.abs(amplitudes) / strongest, 1e-9)) - floor_db
    return (ring_s * np.maximum(above, 0.0) / 60.0 * RATE_HZ).astype(np.int64) + 1


def length_for(ring_s: Floats, amplitudes: Floats, floor_db: float = -60.0) -> int:
    """Samples until every partial lies `floor_db` under the strongest."""
    return int(lengths_for(ring_s, amplitudes, floor_db).max())
