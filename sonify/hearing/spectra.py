"""A sound in bands and frames: what everything else here looks at."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import field
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from sonify.frozen import dataclass

Floats = NDArray[np.float64]
Samples = NDArray[np.float32]

SIZE, HOP_S = 1024, 0.006
#: Middles of the bands, a third of an octave apart: about as wide as the ear's own from 500 Hz up.
BANDS_HZ = np.array([1000.0 * 2.0 ** (n / 3.0) for n in range(-13, 13)])


@dataclass(frozen=True, eq=False)
class Frames:
    """power: frames by bands. A frame's time is that of its middle."""

    power: Floats
    hop_s: float

    def between(self, start_s: float, end_s: float) -> slice:
        first = max(0, round(start_s / self.hop_s))
        return slice(first, max(first + 1, round(end_s / self.hop_s)))

    @cached_property
    def flux(self) -> Floats:
        """How much louder each band gets from frame to frame, in nepers over a floor 60 dB under its loudest."""
        floor = 1e-6 * self.power.max() + 1e-20
        rises = np.diff(np.log(self.power + floor), axis=0, prepend=np.log(self.power[:1] + floor))
        return np.asarray(np.maximum(rises, 0.0))


def frames(samples: Samples, rate_hz: int) -> Frames:
    hop = round(HOP_S * rate_hz)
    padded = np.concatenate([np.zeros(SIZE // 2, np.float32), samples, np.zeros(SIZE, np.float32)])
    count = samples.size // hop + 1
    window = np.hanning(SIZE).astype(np.float32)
    into = _band_of(rate_hz)
    power = np.empty((count, BANDS_HZ.size))
    for first in range(0, count, 2000):
        last = min(count, first + 2000)
        rows = np.lib.stride_tricks.sliding_window_view(padded, SIZE)[first * hop : (last - 1) * hop + 1 : hop]
        power[first:last] = np.square(np.abs(np.fft.rfft(rows * window))) @ into
    return Frames(power, hop / rate_hz)


@dataclass(frozen=True, slots=True, eq=False)
class Ears:
    """A sound at both ears, and from where one of its sources comes."""

    left: Samples
    right: Samples
    place: float


@dataclass(frozen=True, eq=False)
class Recording:
    """The mix, and each part's own recording by its name; frames of both are worked out once.

    ears: the mix as either ear has it; None: one microphone. places: from where each part alone is heard, as an angle
    from 0, left, to half of pi, right.
    """

    mix: Samples
    stems: Mapping[str, Samples]
    rate_hz: int
    ears: tuple[Samples, Samples] | None = None
    places: Mapping[str, float] = field(default_factory=dict)
    _owns: dict[str, Frames] = field(default_factory=dict, init=False, repr=False)

    @cached_property
    def whole(self) -> Frames:
        """The mix in frames."""
        return frames(self.mix, self.rate_hz)

    def towards(self, part: str) -> Ears | None:
        """Both ears, turned to where a part sits; None where there is one microphone."""
        return Ears(*self.ears, self.places[part]) if self.ears is not None and part in self.places else None

    def own(self, part: str) -> Frames:
        """A part's own recording in frames. KeyError where there is none."""
        if part not in self._owns:
            self._owns[part] = frames(self.stems[part], self.rate_hz)
        return self._owns[part]


def _band_of(rate_hz: int) -> Floats:
    """Bins to bands: each bin to the nearest middle, on a logarithmic scale."""
    hz = np.fft.rfftfreq(SIZE, 1.0 / rate_hz)
    out = np.zeros((hz.size, BANDS_HZ.size))
    inside = np.flatnonzero((hz > BANDS_HZ[0] / 1.13) & (hz < BANDS_HZ[-1] * 1.12))
    nearest = np.abs(np.log(hz[inside, None] / BANDS_HZ)).argmin(axis=1)
    out[inside, nearest] = 1.0
    return out


def peaks(curve: Floats, apart: int, least: float) -> NDArray[np.intp]:
    """Where a curve is highest within `apart` frames either way, and at least `least` there."""
    from scipy.ndimage import maximum_filter1d

    return np.flatnonzero((curve == maximum_filter1d(curve, 2 * apart + 1)) & (curve >= least))
