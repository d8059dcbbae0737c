"""A short sound file as data: one channel, silence trimmed, 16 bits. Nothing in the file is trusted."""

from __future__ import annotations

import io
from math import gcd

import numpy as np
from numpy.typing import NDArray

from sonify.errors import BadFile
from sonify.records.fact import wrong
from sonify.records.own_sound import KEPT_HZ, MOST_S

#: Ten seconds of two channels at 96 kHz and 32 bits, and room for what else is in a file.
LARGEST_BYTES = 8_000_000
FORMATS = ("WAV", "WAVEX", "FLAC", "OGG", "MP3")
RATES_HZ, MOST_CHANNELS = (8_000, 192_000), 8
#: What is this far under the loudest sample is silence before and after it; a file whose loudest is under SILENT has no
#: sound, and what is left must last so long.
QUIET, SILENT, LEAST_S = 10.0 ** (-46.0 / 20.0), 10.0 ** (-54.0 / 20.0), 0.01
BEFORE_S, AFTER_S, FADE_S = 0.003, 0.03, 0.01
#: The loudest sample of what is kept. How loud it plays is levelled like every instrument's sound.
KEPT_PEAK = 30_000.0

Singles = NDArray[np.float32]


def read_own_sound(data: bytes, *, file: str) -> bytes:
    """What is kept of a sound file. Raises BadFile for one that is too long, silent, or none."""
    if len(data) > LARGEST_BYTES:
        raise BadFile(file, wrong("error_sound-too-large", most=LARGEST_BYTES // 1_000_000))
    samples, rate_hz = _decoded(data, file)
    if samples.size > (MOST_S + 0.05) * rate_hz:
        raise BadFile(file, wrong("error_sound-too-long", most=f"{MOST_S:g}"))
    peak = float(np.abs(samples).max(initial=0.0))
    if not np.isfinite(peak):
        raise BadFile(file, wrong("error_sound-unreadable"))
    if peak < SILENT:
        raise BadFile(file, wrong("error_sound-silent"))
    kept = _resampled(_trimmed(samples - np.float32(samples.mean()), rate_hz), rate_hz)
    peak = float(np.abs(kept).max(initial=0.0))
    if kept.size < LEAST_S * KEPT_HZ or not peak:
        raise BadFile(file, wrong("error_sound-silent"))
    return bytes(np.rint(kept * np.float32(KEPT_PEAK / peak)).astype("<i2").tobytes())


def _decoded(data: bytes, file: str) -> tuple[Singles, int]:
    """All channels as one, as long as a sound may be and a little more, and the rate."""
    import soundfile

    try:
        with soundfile.SoundFile(io.BytesIO(data)) as sound:
            rate_hz, channels = int(sound.samplerate), int(sound.channels)
            if sound.format not in FORMATS:
                raise BadFile(file, wrong("error_sound-format"))
            if not RATES_HZ[0] <= rate_hz <= RATES_HZ[1] or not 1 <= channels <= MOST_CHANNELS:
                raise BadFile(file, wrong("error_sound-odd", rate=rate_hz, channels=channels))
            # However long it says that it is, no more than this is asked of it.
            block = sound.read(round((MOST_S + 0.1) * rate_hz), dtype="float32", always_2d=True)
    except BadFile:
        raise
    except (soundfile.LibsndfileError, RuntimeError, TypeError, ValueError, OSError, MemoryError):
        raise BadFile(file, wrong("error_sound-unreadable")) from None
    with np.errstate(all="ignore"):
        return np.asarray(block.mean(axis=1, dtype=np.float32)), rate_hz


def _trimmed(samples: Singles, rate_hz: int) -> Singles:
    """Without the silence before and after, its ends drawn to nothing."""
    loud = np.flatnonzero(np.abs(samples) > QUIET * float(np.abs(samples).max(initial=0.0)))
    if not loud.size:
        return samples[:0]
    first = max(0, int(loud[0]) - round(BEFORE_S * rate_hz))
    out = samples[first : int(loud[-1]) + 1 + round(AFTER_S * rate_hz)].copy()
    begin, end = min(out.size, round(BEFORE_S * rate_hz)), min(out.size, round(FADE_S * rate_hz))
    if begin and first:
        out[:begin] *= np.linspace(0.0, 1.0, begin, dtype=np.float32)
    if end:
        out[-end:] *= np.linspace(1.0, 0.0, end, dtype=np.float32)
    return out


def _resampled(samples: Singles, rate_hz: int) -> Singles:
    if rate_hz == KEPT_HZ or not samples.size:
        return samples
    from scipy.signal import resample_poly

    common = gcd(rate_hz, KEPT_HZ)
    up, down = KEPT_HZ // common, rate_hz // common
    if max(up, down) > 4_000:  # a rate that shares next to nothing with ours: the filter would grow with it
        at = np.arange(int(samples.size * KEPT_HZ / rate_hz)) * (rate_hz / KEPT_HZ)
        return np.asarray(np.interp(at, np.arange(samples.size), samples), dtype=np.float32)
    return np.asarray(resample_poly(samples.astype(np.float64), up, down), dtype=np.float32)
