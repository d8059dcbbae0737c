"""Voices that pupils recorded. The Score carries each as data; here it is found by its instrument's id.

The id follows from the file's bytes and the sound's name, so that one id is one sound wherever it was learnt, and what
was learnt first does not matter. Several threads may render meanwhile: what one of them needs is never away between.
"""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Iterable

import numpy as np

from sonify.records.own_sound import OwnSound
from sonify.sound.rate import RATE_HZ, Floats, Samples
from sonify.sound.voices.blows import finished
from sonify.sound.voices.records import Recorded

#: So many are remembered, the newest: they are learnt anew for each Score.
MOST = 48
#: The peak of a stroke whose loudest 93 ms have a mean square of 1: that of the sharpest instrument of the catalogue.
MOST_PEAK, ROUNDS = 10.0, 6
_lock = threading.Lock()
#: By instrument ids: the digest of the file, and the voice.
_known: OrderedDict[str, tuple[str, Recorded]] = OrderedDict()


def learn(sounds: Iterable[OwnSound]) -> None:
    """From now on `recorded` finds these."""
    for sound in sounds:
        if sound.pcm:
            with _lock:
                if sound.id not in _known:
                    _known[sound.id] = sound.sha256, Recorded(steps=np.frombuffer(sound.pcm, dtype="<i2"))
                _known.move_to_end(sound.id)
                while len(_known) > MOST:
                    _known.popitem(last=False)


def forget(key: str = "") -> None:
    """No sound any more whose file has a digest that begins so; "" for all."""
    with _lock:
        for instrument in [each for each, (sha256, _) in _known.items() if sha256.startswith(key)]:
            del _known[instrument]


def recorded(instrument: str) -> Recorded | None:
    found = _known.get(instrument)
    return None if found is None else found[1]


def samples_of(voice: Recorded) -> Samples:
    """What was recorded, once through."""
    return np.asarray(voice.steps, dtype=np.float32) / np.float32(32_768.0)


def stroke_of(voice: Recorded) -> Samples:
    """A stroke of it, as loud as any other instrument's and no more of a click: what stands out is drawn in, and what
    is all click is softer."""
    out = finished(samples_of(voice))
    for _ in range(ROUNDS):
        peak = float(np.abs(out).max())
        if peak <= MOST_PEAK:
            return out
        out = finished(np.float32(MOST_PEAK) * np.tanh(out / np.float32(MOST_PEAK)))
    return np.asarray(out * np.float32(min(1.0, MOST_PEAK / float(np.abs(out).max()))))


def band_powers(voice: Recorded, middles_hz: Floats) -> Floats:
    """The power of its first half second in each third of an octave."""
    begun = samples_of(voice)[: RATE_HZ // 2]
    power = np.abs(np.fft.rfft(begun)) ** 2
    hz = np.fft.rfftfreq(begun.size, 1.0 / RATE_HZ)
    edges = np.append(middles_hz[0] * 2.0 ** (-1.0 / 6.0), middles_hz * 2.0 ** (1.0 / 6.0))
    upto = np.append(0.0, np.cumsum(power))[np.searchsorted(hz, edges)]
    return np.asarray(np.diff(upto), dtype=float)
