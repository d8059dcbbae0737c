"""K-weighting (ITU-R BS.1770): how strongly the ear takes a frequency, as a filter, a response and an energy."""

from __future__ import annotations

from functools import cache

import numpy as np

from sonify.sound.rate import HOP, RATE_HZ, Floats, Samples
from sonify.sound.transform import Spectrum, bins_hz, spectrum_of

# Two parts of the standard's filter as analogue prototypes that give its printed 48 kHz coefficients to 1e-12, so that
# the same curve can be had at 44.1 kHz: (corner Hz, quality). The shelf lifts by 4 dB for the head; the second part
# is a high-pass.
SHELF_HZ, SHELF_Q, SHELF_DB, SHELF_BAND_POWER = (
    1681.974450955533,
    0.7071752369554196,
    3.999843853973347,
    0.4996667741545416,
)
HIGHPASS_HZ, HIGHPASS_Q = 38.13547087602444, 0.5003270373238773

#: Sub-blocks of the filter: 63 samples, 35 at a time, so that every matrix product is small enough for one core.
ROW, ROWS = 63, 35


def biquads(rate_hz: float) -> Floats:
    """The two filters as rows b0 b1 b2 1 a1 a2 at a sampling rate."""
    k = np.tan(np.pi * SHELF_HZ / rate_hz)
    high = 10.0 ** (SHELF_DB / 20.0)
    band = high**SHELF_BAND_POWER
    a0 = 1.0 + k / SHELF_Q + k * k
    shelf = [
        (high + band * k / SHELF_Q + k * k) / a0,
        2.0 * (k * k - high) / a0,
        (high - band * k / SHELF_Q + k * k) / a0,
        1.0,
        2.0 * (k * k - 1.0) / a0,
        (1.0 - k / SHELF_Q + k * k) / a0,
    ]
    k = np.tan(np.pi * HIGHPASS_HZ / rate_hz)
    a0 = 1.0 + k / HIGHPASS_Q + k * k
    highpass = [1.0, -2.0, 1.0, 1.0, 2.0 * (k * k - 1.0) / a0, (1.0 - k / HIGHPASS_Q + k * k) / a0]
    return np.array([shelf, highpass])


def power_response(hz: Floats, rate_hz: float = RATE_HZ) -> Floats:
    """|H|^2 of the weighting at frequencies, the shape of `hz`."""
    z = np.exp(-2j * np.pi * np.asarray(hz, dtype=float) / rate_hz)
    response = np.ones(z.shape)
    for b0, b1, b2, _, a1, a2 in biquads(rate_hz):
        response = response * np.abs((b0 + b1 * z + b2 * z * z) / (1.0 + a1 * z + a2 * z * z)) ** 2
    return response


@cache
def _bin_powers(size: int) -> Samples:
    return power_response(bins_hz(size)).astype(np.float32)


def spectrum_energy(spectrum: Spectrum, size: int) -> float:
    """Sum of squares after K-weighting of a sound that goes round and round, from its transform of `size`."""
    power = spectrum.real**2 + spectrum.imag**2
    return float(np.einsum("sk,k->", power.reshape(-1, power.shape[-1]), _bin_powers(size))) * 2.0 / size


def weighted_energy(samples: Samples) -> float:
    """Sum of squares of a sound after K-weighting, in sample-squares (its tail counted in full)."""
    size = 1 << max(8, int(samples.size - 1).bit_length())
    return spectrum_energy(spectrum_of(samples, size), size)


def _state_space(rate_hz: float) -> tuple[Floats, Floats, Floats, float]:
    """The two filters in series as s' = A s + b x, y = c s + d x (transposed direct form II)."""
    (b0, b1, b2, _, a1, a2), (e0, e1, e2, _, f1, f2) = biquads(rate_hz)
    a = np.array(
        [
            [-a1, 1.0, 0.0, 0.0],
            [-a2, 0.0, 0.0, 0.0],
            [e1 - f1 * e0, 0.0, -f1, 1.0],
            [e2 - f2 * e0, 0.0, -f2, 0.0],
        ]
    )
    b = np.array([b1 - a1 * b0, b2 - a2 * b0, (e1 - f1 * e0) * b0, (e2 - f2 * e0) * b0])
    c = np.array([e0, 0.0, 1.0, 0.0])
    return a, b, c, b0 * e0


class Weighting:
    """The K-weighting filter in a stream: whole hops in, mean squares a hop out.

    The recursion is exact, only regrouped: 63 outputs at a time are one matrix product of 63 inputs and four states,
    and the states of a hop's 70 rows follow from one more. No compiled filter is needed.
    """

    def __init__(self, channels: int, rate_hz: float = RATE_HZ) -> None:
        a, b, c, d = _state_space(rate_hz)
        powers = [np.eye(4)]
        for _ in range(ROW):
            powers.append(a @ powers[-1])
        impulse = np.array([d] + [c @ powers[k] @ b for k in range(ROW - 1)])
        within = np.zeros((ROW, ROW))  # input i to output j
        for i in range(ROW):
            within[i, i:] = impulse[: ROW - i]
        to_state = np.array([powers[ROW - 1 - i] @ b for i in range(ROW)])
        self._map = np.hstack([within, to_state]).astype(np.float32)
        self._from_state = np.array([c @ powers[j] for j in range(ROW)]).T.astype(np.float32)
        rows = HOP // ROW
        step = [np.eye(4)]
        for _ in range(rows):
            step.append(powers[ROW] @ step[-1])
        chain = np.zeros((rows, 4, rows, 4))  # what row i leaves to the state before row j
        for i in range(rows):
            for j in range(i + 1, rows):
                chain[i, :, j, :] = step[j - 1 - i].T
        self._chain = chain.reshape(rows * 4, rows * 4)
        self._start = np.concatenate([step[j].T for j in range(rows)], axis=1)
        self._last = np.concatenate([step[rows - 1 - i].T for i in range(rows)], axis=0)
        self._carry = step[rows].T
        self._state = np.zeros((channels, 4))

    def energies(self, samples: Samples) -> Samples:
        """Sum of squares of every 63 samples after the filter, the channels summed: hops by 70.

        `samples`: channels by whole hops.
        """
        channels, length = samples.shape
        hops, rows = length // HOP, HOP // ROW
        assert hops * HOP == length, "the weighting takes whole hops"
        x = samples.reshape(channels * hops * rows // ROWS, ROWS, ROW)
        mapped = np.matmul(x, self._map).reshape(channels, hops, rows, ROW + 4)
        pushed = mapped[..., ROW:].reshape(channels, hops, rows * 4).astype(np.float64)
        states = np.empty((channels, hops, 4))
        ends = np.einsum("chk,ks->chs", pushed, self._last)
        for hop in range(hops):
            states[:, hop] = self._state
            self._state = np.einsum("cs,st->ct", self._state, self._carry) + ends[:, hop]
        before = np.matmul(pushed, self._chain) + np.einsum("chs,sl->chl", states, self._start)
        start = before.reshape(channels * hops * rows // ROWS, ROWS, 4).astype(np.float32)
        out = np.matmul(start, self._from_state).reshape(channels, hops, rows, ROW)
        out += mapped[..., :ROW]
        return np.asarray(np.einsum("chrn,chrn->hr", out, out))

    def mean_squares(self, samples: Samples) -> Floats:
        """Mean square of each hop after the filter, the channels summed."""
        return np.asarray(self.energies(samples).sum(axis=1, dtype=np.float64) / HOP)
