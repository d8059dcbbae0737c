"""Each rule's quantity as it comes back from the recording through the printed key."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import groupby

import numpy as np
from numpy.typing import NDArray

from sonify.hearing.spectra import BANDS_HZ, Ears, Floats, Frames, Recording, Samples
from sonify.hearing.strokes import centroids, counts, levels_db, like_with_like, profile, profiles
from sonify.hearing.told import Strokes, Told
from sonify.records.fact import Words
from sonify.records.heard import HeardRule, PrintedKey

# The note of a stroke: the lowest strong line among those that a stroke has added -------------------------------------

SIZE = 8192
#: How far beyond the key's ends a note may lie, in semitones; how much weaker than the strongest line it may be.
BEYOND, WEAKER_DB = 4.0, 14.0
#: A note in a mix is listened to with two ears: a line counts less the further from the part's place it comes, as an
#: angle. Where it is held others' are there all the while, so that fewer weaker ones may be its lowest (ours, set on
#: three scenes with voices; over 43 held parts of 34 scenes with few instruments 29 come back at 0.95 or better, 26 to
#: 32 with 0.15 to 0.4 and 2 to 6 dB in their place, and 24 with one ear; of 56 struck ones of all scenes 38 with two
#: ears and 31 with one, with another seed 40 and 30).
NEAR, WEAKER_IN_MIX_DB = 0.25, 3.0


def stroke_note(
    samples: NDArray[np.float32],
    rate_hz: int,
    onset_s: float,
    lasts_s: float,
    lowest: float,
    highest: float,
    *,
    rang: bool = True,
    ears: Ears | None = None,
) -> float:
    """MIDI note number (60 is middle C, a fraction where it lies between) of what begins at `onset_s`; nan for none.

    What rang before is taken away, and of the lines left within the range the lowest that is nearly as strong as the
    strongest counts: bars and bells sound their first partial, and others above it that are no harmonics.

    rang: whether anything may have; not so of one voice alone, which holds a note no longer than to the next, often the
    same again. ears: the same sound with two ears, which hear who sits where.
    """
    stretch = onset_s + 0.02, min(0.35, max(0.09, lasts_s - 0.02))
    sides = [samples] if ears is None else [ears.left, ears.right]
    after = [_magnitude(side, rate_hz, *stretch) for side in sides]
    added = np.linalg.norm(after, axis=0)
    if rang:
        before = [_magnitude(side, rate_hz, onset_s - 0.2, 0.18) for side in sides]
        added = np.maximum(added - np.linalg.norm(before, axis=0), 0.0)
    weaker_db = WEAKER_DB if rang or ears is None else WEAKER_IN_MIX_DB
    if ears is not None:
        added = added * np.exp(-np.square((np.arctan2(after[1], after[0]) - ears.place) / NEAR))
    hz = np.fft.rfftfreq(SIZE, 1.0 / rate_hz)
    low, high = (440.0 * 2.0 ** ((note - 69.0) / 12.0) for note in (lowest - BEYOND, highest + BEYOND))
    inside = np.flatnonzero((hz >= low) & (hz <= high))
    if not inside.size or added[inside].max() <= 0.0:
        return float("nan")
    lines = [k for k in inside if added[k] > added[k - 1] and added[k] >= added[k + 1]]
    strong = [k for k in lines if added[k] >= added[inside].max() * 10.0 ** (-weaker_db / 20.0)]
    # the window's own side lobes lie beside a strong line: a line must stand out from those within a semitone
    strong = [k for k in strong if added[k] >= added[max(0, k - 3) : k + 4].max()]
    if not strong:
        return float("nan")
    at = strong[0]
    left, middle, right = np.log(added[at - 1 : at + 2] + 1e-12)
    bend = left - 2.0 * middle + right
    place = at + (0.5 * (left - right) / bend if bend < 0.0 else 0.0)
    return float(69.0 + 12.0 * np.log2(place * rate_hz / SIZE / 440.0))


def _magnitude(samples: NDArray[np.float32], rate_hz: int, start_s: float, length_s: float) -> NDArray[np.float64]:
    """Amplitude per frame length, so that stretches of different lengths compare."""
    first = round(start_s * rate_hz)
    piece = samples[max(0, first) : max(0, first + min(SIZE, round(length_s * rate_hz)))]
    if piece.size < 256:
        return np.zeros(SIZE // 2 + 1)
    window = np.hanning(piece.size)
    return np.asarray(np.abs(np.fft.rfft(piece * window, SIZE)) / window.sum())


# The beat of a stretch of sound: the period after which its onsets come again -----------------------------------------

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


#: Values of the science nearer than this share of the rule's range are one: nothing could rank them.
ALIKE = 0.02
#: A key of loudness or brightness prints marks and beaters, which no microphone reads: its two ends are laid where the
#: recording's own softest and loudest stage are, and the error says how well the stages between fit.
SCALED = ("dynamics", "brightness")


def recovered(told: Told, sound: Recording) -> tuple[HeardRule, ...]:
    """A row for every rule and part: from the part's own recording, and from the mix. The tempo is the mix's."""
    whole = sound.whole
    rows: list[HeardRule] = []
    rows += [_row(told, key, "mix", _tempi(told, whole), by_bar=False) for key in told.keys if key.control == "tempo"]
    for one in told.strokes:
        keys = [key for key in told.keys if key.part == one.name]
        if not keys or one.name not in sound.stems:
            continue
        own = sound.own(one.name)
        sources = {
            "stem": (own, np.ones(BANDS_HZ.size), sound.stems[one.name]),
            "mix": (whole, profile(own, whole, one.onsets_s), sound.mix),
        }
        for key in keys:
            for source, (heard, weights, samples) in sources.items():
                if key.control == "dynamics" and source == "mix":
                    weights = profiles(own, whole, one)
                ears = sound.towards(one.name) if source == "mix" else None
                alone = source == "stem"
                by_bar = _by_bar(told, key, one, heard, weights, samples, sound.rate_hz, alone=alone, ears=ears)
                rows.append(_row(told, key, source, by_bar, by_bar=True))
    return tuple(rows)


def _tempi(told: Told, whole: Frames) -> Floats:
    """The stage's beat in each of its bars."""
    out = np.full(len(told.bars_s) - 1, np.nan)
    for _, first, last, bpm in told.stages:
        out[first:last] = beat_bpm(whole, told.bars_s[first], told.bars_s[last], bpm)
    return out


def _by_bar(
    told: Told,
    key: PrintedKey,
    one: Strokes,
    heard: Frames,
    weights: Floats,
    samples: Samples,
    rate_hz: int,
    *,
    alone: bool,
    ears: Ears | None,
) -> Floats:
    """What was heard in each bar: a note, strokes a beat, decibels, octaves over 1 kHz; nan for nothing."""
    if key.control == "density":
        found = counts(heard, weights, told.bars_s) / told.beats_a_bar
        return np.where(np.isfinite(key.truth), found, np.nan)
    if key.control == "pitch":
        rang = not (one.going_on and (alone or ears is not None))
        after = np.diff(one.ruled_s, append=one.ruled_s[-1:] + 1.0)
        least, most = sorted((key.to_low, key.to_high))
        shifts = 12.0 * one.octaves + (np.zeros(after.size) if one.lowest is None else one.lowest)
        notes = [
            stroke_note(samples, rate_hz, float(onset), float(lasts), least + shift, most + shift, rang=rang, ears=ears)
            - shift
            for onset, lasts, shift in zip(one.ruled_s, after, shifts, strict=True)
        ]
        return _means(told, one.ruled_s, np.array(notes))
    if key.control == "dynamics":
        levels = levels_db(heard, weights, one, alone=alone)
        if one.kinds is not None:
            levels = like_with_like(levels, one.kinds, told.stage_of(one.onsets_s))
        return _means(told, one.onsets_s, levels)
    middles = centroids(heard, weights, one.onsets_s)
    if one.kinds is not None and one.shaded is not None and one.shaded.any():
        middles[~one.shaded] = np.nan  # a cymbal of one sound, in a group that changes beaters
        middles = like_with_like(middles, one.kinds, told.stage_of(one.onsets_s))
    return _means(told, one.onsets_s, middles)


def _means(told: Told, onsets_s: Floats, values: Floats) -> Floats:
    bars = told.bar_of(onsets_s)
    out = np.full(len(told.bars_s) - 1, np.nan)
    for bar in np.unique(bars[(bars >= 0) & (bars < out.size)]):
        here = values[(bars == bar) & np.isfinite(values)]
        if here.size:
            out[bar] = np.median(here)
    return out


def _row(told: Told, key: PrintedKey, source: str, sound: Floats, *, by_bar: bool) -> HeardRule:
    found = [
        (title, float(np.mean(key.truth[first:last][both])), float(np.mean(sound[first:last][both])), bpm)
        for title, first, last, bpm in told.stages
        if (both := np.isfinite(key.truth[first:last]) & np.isfinite(sound[first:last])).any()
    ]
    stages = [row[:3] for row in found]
    science, heard = np.array([row[1] for row in stages]), np.array([row[2] for row in stages])
    back = _scaled(key, science, heard) if key.control in SCALED else key.value(heard)
    sign = key.sign
    bars = np.isfinite(key.truth) & np.isfinite(sound)
    told_enough = len(stages) > (2 if key.control in SCALED else 0)  # a line through two ends fits always
    return HeardRule(
        key=key,
        source=source,
        rank_stages=_rank_of_stages(key, found),
        rank_bars=rank(key.truth[bars], sign * sound[bars], ALIKE * abs(key.high - key.low)) if by_bar else math.nan,
        error=float(np.median(np.abs(back - science))) if told_enough else math.nan,
        stages=tuple((title, was, float(found)) for (title, was, _), found in zip(stages, back, strict=True)),
    )


def _rank_of_stages(key: PrintedKey, stages: Sequence[tuple[Words, float, float, float]]) -> float:
    """Whether stages come back in their order. stages: title, science, what was heard, the beat.

    Stages that the key lays nearer together than what is asked for are one; so are those that share one held beat.
    """
    if key.control == "tempo":
        sign, (science, heard) = key.sign, _held_as_one(stages)
        return rank(science, sign * heard, ALIKE * abs(key.high - key.low))
    science, heard = (np.array([row[n] for row in stages]) for n in (1, 2))
    return rank(key.height(science), heard, max(key.asked, 1e-9))


def _held_as_one(stages: Sequence[tuple[Words, float, float, float]]) -> tuple[Floats, Floats]:
    """The science and the tempo heard, stages in a row through which one beat is held as one of them."""
    runs = [list(run) for _, run in groupby(stages, key=lambda row: round(row[3], 3))]
    science, heard = (np.array([np.mean([row[n] for row in run]) for run in runs]) for n in (1, 2))
    return science, heard


def _scaled(key: PrintedKey, science: Floats, heard: Floats) -> Floats:
    """Decibels or octaves as the quantity, by the straight line through the ends of what was heard."""
    if heard.size < 2 or np.ptp(heard) == 0.0:
        return np.full(heard.size, float(np.mean(science)) if science.size else math.nan)
    rising = key.sign > 0.0
    share = (heard - heard.min()) / np.ptp(heard)
    return np.asarray(science.min() + (share if rising else 1.0 - share) * np.ptp(science))


def rank(science: Floats, heard: Floats, alike: float) -> float:
    """Spearman's correlation; values of the science no further apart than `alike` count as one, and so does what was
    heard with them. nan for fewer than two that differ."""
    from scipy.stats import rankdata

    groups = list(_alike(science, alike))
    if len(groups) < 2:
        return math.nan
    if len(groups) > 12:  # many bars: ties are ranked as ties, one by one
        known = np.empty(science.size)
        for group in groups:
            known[group] = np.mean(science[group])
        first, second = rankdata(known), rankdata(heard)
    else:
        first = rankdata([np.mean(science[group]) for group in groups])
        second = rankdata([np.mean(heard[group]) for group in groups])
    if np.ptp(second) == 0.0:
        return 0.0
    return float(np.corrcoef(first, second)[0, 1])


def _alike(science: Floats, alike: float) -> Iterator[NDArray[np.intp]]:
    """Places of values that lie within `alike` of the least of their group."""
    order = np.argsort(science, kind="stable")
    start = 0
    for end in range(1, order.size + 1):
        if end == order.size or science[order[end]] - science[order[start]] > alike:
            yield order[start:end]
            start = end
