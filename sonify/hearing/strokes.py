"""How many strokes, how strong, how bright: from a part's own recording, or from the mix where the part shows."""

from __future__ import annotations

import numpy as np

from sonify.hearing.spectra import BANDS_HZ, Floats, Frames, peaks
from sonify.hearing.told import Strokes

NEAREST_S = 0.07  # two strokes nearer than this are one
STROKE_S, BEFORE_S, LONGEST_S = 0.12, 0.06, 4.0


def profile(own: Frames, mix: Frames, onsets_s: Floats) -> Floats:
    """How far each band of the mix is the part's own just after its strokes, 0 to 1: where to listen for it."""
    if not onsets_s.size:
        return np.ones(BANDS_HZ.size)
    at = _windows(own, onsets_s, STROKE_S)
    ours = np.array([own.power[s].sum(axis=0) for s in at]).sum(axis=0)
    whole = np.array([mix.power[s].sum(axis=0) for s in at]).sum(axis=0)
    share = ours / np.maximum(whole, 1e-20)
    heard = ours > 1e-4 * ours.max()
    return np.asarray(np.where(heard, np.clip(share, 0.0, 1.0) ** 2, 0.0))


def counts(heard: Frames, weights: Floats, bars_s: Floats) -> Floats:
    """Strokes heard in each bar."""
    curve = heard.flux @ weights
    curve = np.convolve(curve, np.hanning(5) / np.hanning(5).sum(), "same")
    # a stroke is a fifth as clear as the clearest tenth, or more
    clear = np.percentile(curve[curve > 0.0], 99.0) if np.any(curve > 0.0) else 0.0
    found = peaks(curve, round(NEAREST_S / heard.hop_s), max(0.2 * clear, 1e-9)) * heard.hop_s
    return np.histogram(found, bars_s - 0.03)[0].astype(float)


def levels_db(heard: Frames, weights: Floats, strokes: Strokes, *, alone: bool) -> Floats:
    """Level of each stroke, nan where nothing is added. alone: nothing else sounds, so nothing is taken away."""
    out = []
    for onset, lasts in zip(strokes.onsets_s, lengths_s(strokes), strict=True):
        after = heard.power[heard.between(onset, onset + lasts)]
        power = after.mean(axis=0) @ weights if after.size else 0.0
        if not alone and not strokes.going_on:
            power -= heard.power[heard.between(onset - BEFORE_S, onset)].mean(axis=0) @ weights
        out.append(10.0 * np.log10(power) if power > 1e-18 else np.nan)
    return np.array(out)


def centroids(heard: Frames, weights: Floats, onsets_s: Floats) -> Floats:
    """Middle of each stroke's added spectrum, in octaves over 1 kHz."""
    out = []
    for onset in onsets_s:
        after = heard.power[heard.between(onset, onset + STROKE_S)].mean(axis=0)
        before = heard.power[heard.between(onset - BEFORE_S, onset - 0.01)].mean(axis=0)
        added = np.maximum(after - before, 0.0) * weights
        out.append(float(np.sum(np.log2(BANDS_HZ / 1000.0) * added) / added.sum()) if added.sum() > 0.0 else np.nan)
    return np.array(out)


def shown(own: Frames, mix: Frames, strokes: Strokes, under_db: float) -> Floats:
    """For each stroke whether a third of an octave is there in which it lies no more than `under_db` under all else.

    A note that goes on is heard where its wave is highest, not only where it begins.
    """
    out = []
    for onset, lasts in zip(strokes.onsets_s, lengths_s(strokes), strict=True):
        window = own.between(onset, onset + lasts)
        ours, whole = own.power[window].mean(axis=0), mix.power[window].mean(axis=0)
        rest = np.maximum(whole - ours, 0.0)
        sounding = ours > 1e-3 * ours.max()
        out.append(bool(np.any(sounding & (ours > rest * 10.0 ** (-under_db / 10.0)))) if ours.max() > 0.0 else False)
    return np.array(out, dtype=float)


def lengths_s(strokes: Strokes) -> Floats:
    """How long each stroke is listened to."""
    if not strokes.going_on:
        return np.full(strokes.onsets_s.size, STROKE_S)
    until_next = np.diff(strokes.onsets_s, append=strokes.onsets_s[-1:] + LONGEST_S)
    return np.clip(until_next, STROKE_S, LONGEST_S)


def _windows(heard: Frames, onsets_s: Floats, length_s: float) -> list[slice]:
    return [heard.between(onset, onset + length_s) for onset in onsets_s]
