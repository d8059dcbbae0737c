"""A look-ahead limiter as a curve of gain: worked out once, the same for the mix and for every stem."""

from __future__ import annotations

import math
from collections import deque
from collections.abc import Callable, Iterator

import numpy as np

from sonify.frozen import dataclass
from sonify.sound.ramps import ramps
from sonify.sound.rate import BLOCK, HOP, STEP, Floats, Samples
from sonify.sound.survey import STEPS_A_HOP, decibels, lufs_of, true_peaks

STEPS_A_BLOCK = BLOCK // STEP
#: The gain starts down this many steps (1.4 ms each) before a peak and is back as long after it.
AHEAD = 8
MARGIN_DB = 0.1  # kept under the ceiling: values between samples move a little under a moving gain
ROUNDS = 12
STRETCH = 1 << 16  # corners worked out at once: long pieces take no more memory than short ones
ROOM_TO_RISE = 1.4  # the gain may grow by so much for what limiting takes away, before peaks must be looked for again

#: "No sudden loud sounds" (ours): over QUIET_LU from the target, 100 ms may be louder than what was heard before by no
#: more than RISE_DB_A_S allows; what was heard is in mind for REMEMBERED hops of 100 ms, and fades by FORGET_DB_A_S.
QUIET_LU, RISE_DB_A_S, REMEMBERED, FORGET_DB_A_S = -9.0, 12.0, 25, 20.0
PASSES = 4  # what was held down has been heard softer than was thought, so what follows is looked at again


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class GainPlan:
    """gain: fixed, for the whole piece. curve: at the corners of every step, or None where it is always 1."""

    gain: float
    curve: Samples | None
    lufs: float
    peak_dbtp: float
    reduction_db: float


def _lowest(values: Samples, reach: int) -> Samples:
    """Least value within `reach` either way, by doubling."""
    size = values.size
    out = np.concatenate([np.ones(reach, np.float32), values, np.ones(reach, np.float32)])
    width, wanted = 1, 2 * reach + 1
    while width < wanted:
        shift = min(width, wanted - width)
        out = np.minimum(out[:-shift], out[shift:])
        width += shift
    return out[:size]


def _smooth(values: Samples, reach: int) -> Samples:
    """Triangle-weighted mean within `reach` either way: two running means."""
    box = reach + 1
    out = np.concatenate([np.full(reach, values[0], float), values, np.full(reach, values[-1], float)])
    for _ in range(2):
        total = np.concatenate([[0.0], np.cumsum(out)])
        out = (total[box:] - total[:-box]) / box
    return np.asarray(out, dtype=np.float32)


def curve_for(peaks: Samples, ceiling: float) -> Samples:
    """Gain at the corners of every step, never over what the peaks of the steps beside it allow.

    The least gain needed nearby, drawn smooth over the same stretch: so it is down in time and comes back gently.
    """
    beside = np.concatenate([[0.0], peaks, [0.0]], dtype=np.float32)  # those before and after corner n: n and n + 1
    out = np.empty(peaks.size + 1, dtype=np.float32)
    for start in range(0, out.size, STRETCH):
        first, last = max(0, start - 2 * AHEAD), min(out.size, start + STRETCH + 2 * AHEAD)
        higher = np.maximum(beside[first:last], beside[first + 1 : last + 1])
        corners = np.minimum(1.0, ceiling / np.maximum(higher, 1e-12)).astype(np.float32)
        out[start : start + STRETCH] = _smooth(_lowest(corners, AHEAD), AHEAD)[start - first :][:STRETCH]
    return out


def gentle_curve(energies: Samples, gain: float, target_lufs: float) -> Samples:
    """Gain at the corners of every step that keeps level from rising suddenly."""
    hops = energies[: energies.size // STEPS_A_HOP * STEPS_A_HOP].reshape(-1, STEPS_A_HOP)
    levels = hops.sum(axis=1, dtype=np.float64) / HOP * gain**2
    quiet = 10.0 ** ((target_lufs + QUIET_LU + 0.691) / 10.0)
    held = np.ones(levels.size)
    for _ in range(PASSES):
        held *= _held_down(levels * held**2, quiet)
    at = np.arange(energies.size + 1) / STEPS_A_HOP
    return np.interp(at, np.arange(held.size) + 0.5, held).astype(np.float32)


def _held_down(levels: Floats, quiet: float) -> Floats:
    """Gain of every hop: the least that it and the hops beside it may have, so that it is down before and after."""
    rise, forget = 10.0 ** (RISE_DB_A_S / 100.0), 10.0 ** (-FORGET_DB_A_S / 100.0)
    heard, lately = quiet, deque([quiet], maxlen=REMEMBERED)
    gains = np.ones(levels.size + 2)
    for index, level in enumerate(levels):
        allowed = max(quiet, heard * rise)
        gains[index + 1] = math.sqrt(min(1.0, allowed / level)) if level > 0.0 else 1.0
        lately.append(min(level, allowed))
        # what is over goes by and by; a tap that comes a little softer than the one before it stays in mind
        heard = max(quiet, heard * forget, max(lately))
    return np.minimum(np.minimum(gains[:-2], gains[2:]), gains[1:-1])


def gains(curve: Samples, block: int) -> Samples:
    """The curve drawn out to samples, over one block."""
    first = block * STEPS_A_BLOCK
    corners = curve[first : first + STEPS_A_BLOCK + 1]
    missing = STEPS_A_BLOCK + 1 - corners.size
    if missing:
        corners = np.concatenate([corners, np.full(missing, curve[-1], dtype=np.float32)])
    return ramps(corners, STEP)


def _needed_curve(
    peaks: Samples, energies: Samples, gain: float, target_lufs: float, ceiling: float, gentle: bool
) -> Samples:
    """The gentle rise first, if wanted, then the limiter on what that leaves."""
    if not gentle:
        return curve_for(peaks * np.float32(gain), ceiling)
    slow = gentle_curve(energies, gain, target_lufs)[: peaks.size + 1]
    return slow * curve_for(peaks * np.float32(gain) * np.maximum(slow[:-1], slow[1:]), ceiling)


def plan(
    blocks: Callable[[], Iterator[Samples]],
    peaks: Samples,
    energies: Samples,
    *,
    target_lufs: float,
    ceiling_dbtp: float,
    gentle: bool = False,
) -> GainPlan:
    """The gain and the curve with which a mix meets both its loudness and its peak.

    Limiting takes loudness away, so the gain is raised and the limiter asked again, until both hold. `blocks` reads the
    mix again, only to look between the samples where that can matter.
    """
    gain = 10.0 ** ((target_lufs - lufs_of(energies)) / 20.0)
    ceiling = 10.0 ** (ceiling_dbtp / 20.0)
    exact = true_peaks(blocks(), peaks, min(ceiling / (gain * ROOM_TO_RISE), float(peaks.max())))
    highest = float(exact.max())
    if highest * gain <= ceiling and not gentle:
        return GainPlan(gain=gain, curve=None, lufs=target_lufs, peak_dbtp=decibels(highest * gain), reduction_db=0.0)
    known = gain * ROOM_TO_RISE  # up to this gain all peaks that matter have been looked for
    allowed = ceiling * 10.0 ** (-MARGIN_DB / 20.0)
    tried: list[tuple[float, float]] = []  # gain in dB, loudness
    while True:
        if gain > known:
            known = gain * ROOM_TO_RISE
            exact = true_peaks(blocks(), peaks, ceiling / known)
        curve = _needed_curve(exact, energies, gain, target_lufs, allowed, gentle)
        lufs = lufs_of(energies[: peaks.size], (curve[:-1] + curve[1:])[: energies.size] * np.float32(0.5 * gain))
        tried.append((decibels(gain), lufs))
        if abs(lufs - target_lufs) < 0.005 or len(tried) >= ROUNDS:
            break
        gain *= 10.0 ** (_next_step_db(tried, target_lufs) / 20.0)
    limited = exact * np.maximum(curve[:-1], curve[1:]) * np.float32(gain)
    return GainPlan(
        gain=gain,
        curve=curve,
        lufs=lufs,
        peak_dbtp=decibels(float(limited.max())),
        reduction_db=-decibels(float(curve.min())),
    )


def _next_step_db(tried: list[tuple[float, float]], target_lufs: float) -> float:
    """By how much to change the gain: what is missing, and more where the last change brought less than it should."""
    missing = target_lufs - tried[-1][1]
    if len(tried) < 2:
        return missing
    (gain_before, lufs_before), (gain_now, lufs_now) = tried[-2:]
    yielded = (lufs_now - lufs_before) / (gain_now - gain_before)
    return missing / min(1.0, max(0.2, yielded))
