"""How many strokes, how strong, how bright: from a part's own recording, or from the mix where the part shows."""

from __future__ import annotations

import numpy as np

from sonify.hearing.spectra import BANDS_HZ, Floats, Frames, peaks
from sonify.hearing.told import Strokes

NEAREST_S = 0.07  # two strokes nearer than this are one
STROKE_S, BEFORE_S, LONGEST_S = 0.12, 0.06, 4.0
#: A note that goes on is heard in glimpses of so long, where they make up so much of its time (listeners put a sound
#: together from glimpses: Cooke 2006, from memory, not verified; the figures are ours).
GLIMPSE_S, LEAST_TIME = 0.08, 0.25
#: A band's loudness goes with so small a power of its strength (specific loudness; Zwicker & Fastl, from memory, not
#: verified); what lies so far under the strongest is not heard.
LOUDNESS, FAINT = 0.3, 1e-3


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


#: A note of which what is listened to holds less than this share is not followed in the mix (ours).
LEAST_OWN = 1e-5


def profiles(own: Frames, mix: Frames, strokes: Strokes) -> Floats:
    """For each stroke how to listen for it: `profile` over the strokes of the same note on the same kind of instrument.

    So that levels compare from note to note, each is weighed by how much of such a note its bands hold: a note that is
    covered in most of its bands is heard in the others, and no softer for it. All 0 where next to nothing is left.
    """
    out = np.zeros((strokes.onsets_s.size, BANDS_HZ.size))
    zeros = np.zeros(strokes.onsets_s.size, dtype=int)
    alike = np.stack([zeros if of is None else of for of in (strokes.kinds, strokes.notes)], axis=1)
    for one in np.unique(alike, axis=0):
        here = np.all(alike == one, axis=1)
        weights = profile(own, mix, strokes.onsets_s[here])
        weights = np.square(weights)  # most where it is nearly alone, so that little of what covers it is counted
        ours = np.array([own.power[s].sum(axis=0) for s in _windows(own, strokes.onsets_s[here], STROKE_S)]).sum(axis=0)
        held = float(ours @ weights) / max(float(ours.sum()), 1e-20)
        if held >= LEAST_OWN:
            out[here] = weights / held
    return out


def counts(heard: Frames, weights: Floats, bars_s: Floats) -> Floats:
    """Strokes heard in each bar."""
    curve = heard.flux @ weights
    curve = np.convolve(curve, np.hanning(5) / np.hanning(5).sum(), "same")
    # a stroke is a fifth as clear as the clearest tenth, or more
    clear = np.percentile(curve[curve > 0.0], 99.0) if np.any(curve > 0.0) else 0.0
    found = peaks(curve, round(NEAREST_S / heard.hop_s), max(0.2 * clear, 1e-9)) * heard.hop_s
    return np.histogram(found, bars_s - 0.03)[0].astype(float)


def levels_db(heard: Frames, weights: Floats, strokes: Strokes, *, alone: bool) -> Floats:
    """Level of each stroke, nan where nothing is added. alone: nothing else sounds, so nothing is taken away.

    weights: of the bands, or a row of them for each stroke.
    """
    out = []
    rows = np.broadcast_to(weights, (strokes.onsets_s.size, BANDS_HZ.size))
    for onset, lasts, row in zip(strokes.onsets_s, lengths_s(strokes), rows, strict=True):
        after = heard.power[heard.between(onset, onset + lasts)]
        power = after.mean(axis=0) @ row if after.size else 0.0
        if not alone and not strokes.going_on:
            power -= heard.power[heard.between(onset - BEFORE_S, onset)].mean(axis=0) @ row
        out.append(10.0 * np.log10(power) if power > 1e-18 else np.nan)
    return np.array(out)


def like_with_like(levels: Floats, kinds: Floats, stages: Floats) -> Floats:
    """Levels of strokes on several instruments, what each kind is louder or softer by taken away.

    A level is taken for the sum of its stage's and its kind's, by least squares.
    """
    known = np.isfinite(levels) & (stages >= 0)
    names, places = np.unique(kinds), np.unique(stages[known])
    if names.size < 2 or not known.any():
        return levels
    table = np.concatenate([kinds[known, None] == names, stages[known, None] == places], axis=1).astype(float)
    fitted = np.linalg.lstsq(table, levels[known], rcond=None)[0][: names.size]
    return np.asarray(levels - (fitted - fitted.mean())[np.searchsorted(names, kinds)])


def centroids(heard: Frames, weights: Floats, onsets_s: Floats) -> Floats:
    """Middle of what each stroke adds, in octaves over 1 kHz, each band as loud as it is heard, not as strong."""
    out = []
    for onset in onsets_s:
        after = heard.power[heard.between(onset, onset + STROKE_S)].mean(axis=0)
        before = heard.power[heard.between(onset - BEFORE_S, onset - 0.01)].mean(axis=0)
        added = np.maximum(after - before, 0.0) * weights
        loud = np.maximum(added - FAINT * added.max(), 0.0) ** LOUDNESS
        out.append(float(np.sum(np.log2(BANDS_HZ / 1000.0) * loud) / loud.sum()) if loud.sum() > 0.0 else np.nan)
    return np.array(out)


def shown(own: Frames, mix: Frames, strokes: Strokes, under_db: float) -> Floats:
    """For each stroke whether a third of an octave is there in which it lies no more than `under_db` under all else.

    A note that goes on is heard where what covers it leaves gaps: in a quarter of its time.
    """
    out = []
    for onset, lasts in zip(strokes.onsets_s, lengths_s(strokes), strict=True):
        window = own.between(onset, onset + lasts)
        pieces = max(1, round(lasts / GLIMPSE_S)) if strokes.going_on else 1
        ours, whole = (_means_of(one.power[window], pieces) for one in (own, mix))
        rest = np.maximum(whole - ours, 0.0)
        sounding = ours > 1e-3 * ours.max()
        there = np.any(sounding & (ours > rest * 10.0 ** (-under_db / 10.0)), axis=1)
        out.append(ours.max() > 0.0 and there.mean() >= (LEAST_TIME if strokes.going_on else 1.0))
    return np.array(out, dtype=float)


def _means_of(power: Floats, pieces: int) -> Floats:
    """Means of so many stretches of frames."""
    return np.array([part.mean(axis=0) for part in np.array_split(power, min(pieces, len(power)))])


def lengths_s(strokes: Strokes) -> Floats:
    """How long each stroke is listened to: a held one while it is held."""
    if not strokes.going_on:
        return np.full(strokes.onsets_s.size, STROKE_S)
    until_next = np.diff(strokes.onsets_s, append=strokes.onsets_s[-1:] + LONGEST_S)
    own = until_next if strokes.lasts_s is None else np.minimum(until_next, strokes.lasts_s)
    return np.clip(own, STROKE_S, LONGEST_S)


def _windows(heard: Frames, onsets_s: Floats, length_s: float) -> list[slice]:
    return [heard.between(onset, onset + length_s) for onset in onsets_s]
