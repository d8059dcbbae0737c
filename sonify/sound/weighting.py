"""K-weighting (ITU-R BS.1770): how strongly the ear takes a frequency, as a filter, a response and an energy."""

from __future__ import annotations

from functools import lru_cache

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
TOGETHER = 10  # rows whose states follow from one product


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


@lru_cache(maxsize=32)  # loops have many sizes
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


def _chained(step: Floats, count: int) -> tuple[Floats, Floats, Floats, Floats]:
    """For `count` stretches one after the other, each of which turns a state into `step` times it and adds its own.

    As row vectors: from all that is added to the state before each stretch and to the one after the last; from the
    first state to the same two.
    """
    powers = [np.eye(4)]
    for _ in range(count):
        powers.append(step @ powers[-1])
    between = np.zeros((count, 4, count, 4))
    for i in range(count):
        for j in range(i + 1, count):
            between[i, :, j, :] = powers[j - 1 - i].T
    last = np.concatenate([powers[count - 1 - i].T for i in range(count)], axis=0)
    before = np.concatenate([powers[j].T for j in range(count)], axis=1)
    return between.reshape(count * 4, count * 4), last, before, powers[count].T


class Weighting:
    """The K-weighting filter in a stream: whole hops in, mean squares a hop out.

    The recursion is exact, only regrouped: 63 outputs at a time are one matrix product of 63 inputs and four states.
    The states of a hop's 70 rows follow from two more: ten rows at a time, then seven of these. No compiled filter is
    needed.
    """

    def __init__(self, channels: int, rate_hz: float = RATE_HZ) -> None:
        a, b, c, d = _state_space(rate_hz)
        powers = [np.eye(4)]
        for _ in range(ROW):
            powers.append(a @ powers[-1])
        impulse = np.array([d] + [c @ powers[k] @ b for k in range(ROW - 1)])
        outputs = np.zeros((ROW + 4, ROW))  # from inputs and states
        for i in range(ROW):
            outputs[i, i:] = impulse[: ROW - i]
        outputs[ROW:] = np.array([c @ powers[j] for j in range(ROW)]).T
        self._outputs = outputs.astype(np.float32)
        self._added = np.array([powers[ROW - 1 - i] @ b for i in range(ROW)]).astype(np.float32)
        self._rows = _chained(powers[ROW], TOGETHER)
        self._groups = _chained(self._rows[3].T, HOP // ROW // TOGETHER)
        self._state = np.zeros((channels, 4))

    def energies(self, samples: Samples) -> Samples:
        """Sum of squares of every 63 samples after the filter, the channels summed: hops by 70.

        `samples`: channels by whole hops.
        """
        channels, length = samples.shape
        hops, rows = length // HOP, HOP // ROW
        assert hops * HOP == length, "the weighting takes whole hops"
        given = np.empty((channels * hops * rows // ROWS, ROWS, ROW + 4), dtype=np.float32)
        given[..., :ROW] = samples.reshape(-1, ROWS, ROW)
        added = np.matmul(samples.reshape(-1, ROWS, ROW), self._added)
        given[..., ROW:] = self._states(added.reshape(channels, hops, -1).astype(np.float64)).reshape(-1, ROWS, 4)
        out = np.matmul(given, self._outputs).reshape(channels, hops * rows, ROW)
        return np.asarray(np.einsum("crn,crn->r", out, out).reshape(hops, rows))

    def _states(self, added: Floats) -> Floats:
        """The state before every row, from what every row adds (channels by hops by four a row)."""
        channels, hops, _ = added.shape
        between_rows, after_rows, from_group, _ = self._rows
        between_groups, after_groups, from_hop, a_hop = self._groups
        grouped = added.reshape(channels * hops, -1, TOGETHER * 4)
        by_group = np.matmul(grouped, after_rows).reshape(channels, hops, -1)
        by_hop = np.matmul(by_group, after_groups)
        states = np.empty((channels, hops, 4))
        for hop in range(hops):
            states[:, hop] = self._state
            self._state = np.matmul(self._state, a_hop) + by_hop[:, hop]
        groups = np.matmul(by_group, between_groups) + np.matmul(states, from_hop)
        rows = np.matmul(grouped, between_rows)
        rows += np.matmul(groups.reshape(channels * hops, -1, 4), from_group)
        return np.asarray(rows)

    def mean_squares(self, samples: Samples) -> Floats:
        """Mean square of each hop after the filter, the channels summed."""
        return np.asarray(self.energies(samples).sum(axis=1, dtype=np.float64) / HOP)
