"""The beat of a stretch of sound: the period after which its onsets come again."""

from __future__ import annotations

import numpy as np

from sonify.hearing.spectra import Floats, Frames

#: How far from the score's tempo the beat is looked for.
SLOWEST, FASTEST = 0.7, 1.4
MOST_BEATS = 16


def beat_bpm(heard: Frames, start_s: float, end_s: float, about_bpm: float) -> float:
    """Beats a minute, looked for from 30 % under to 40 % over `about_bpm`; nan where nothing comes again.

    A comb on the autocorrelation of the onsets: a beat is a period whose multiples all fit, and whose half does, too.
    """
    onsets = heard.flux[heard.between(start_s, end_s)].sum(axis=1)
    onsets = np.convolve(onsets - onsets.mean(), np.hanning(7) / np.hanning(7).sum(), "same")
    size = 1 << int(2 * onsets.size - 1).bit_length()
    alike = np.fft.irfft(np.abs(np.fft.rfft(onsets, size)) ** 2)[: onsets.size]
    if alike[0] <= 0.0:
        return float("nan")
    alike = alike / alike[0] * (onsets.size / np.maximum(1.0, onsets.size - np.arange(onsets.size)))
    wanted = about_bpm * np.geomspace(SLOWEST, FASTEST, 1400)
    lags = 60.0 / wanted / heard.hop_s
    usable = 0.75 * onsets.size
    total, weight = np.zeros(wanted.size), np.zeros(wanted.size)
    for multiple in range(1, MOST_BEATS + 1):
        inside = multiple * lags < usable
        total += np.where(inside, _at(alike, multiple * lags), 0.0)
        weight += inside
    score = total / np.maximum(weight, 1.0) + 0.5 * _at(alike, 0.5 * lags)
    # Between rivals that fit alike the one nearer to what the score leads one to expect is heard.
    score = score - 0.05 * np.abs(np.log2(wanted / about_bpm))
    return float(wanted[int(np.argmax(score))]) if weight.max() else float("nan")


def _at(alike: Floats, lags: Floats) -> Floats:
    return np.interp(lags, np.arange(alike.size), alike)
