"""What the bars should sound like: onsets by band, as far as a listener can know them who has the notes alone.

General acoustics, no voice of ours: struck bars and bells sound their first partial and some above it, percussion has
the bands of its General MIDI key. Free taps have no beat and long held sounds none but their first.
"""

from __future__ import annotations

import numpy as np
from numpy.typing import NDArray

from sonify.frozen import dataclass
from sonify.listening.frames import BANDS, EDGES_HZ
from sonify.listening.plan import Line, Plan

Floats = NDArray[np.float64]
Singles = NDArray[np.float32]

#: Places a beat is cut into; how far strokes lie about theirs, in seconds (a player's scatter, and the frames' own).
PLACES, SCATTER_S = 8, 0.05
#: How much of a texture's strokes lie where the score has them.
ON_THE_BEAT = {"ostinato": 1.0, "melody": 1.0, "tremolo": 0.4, "drone": 0.6, "scatter": 0.0}
#: Semitones over the first partial, and their share: an octave (voices, strings, winds), a twelfth (xylophones are
#: tuned so), two octaves (metallophones, marimbas). Common practice.
PARTIALS = ((0.0, 1.0), (12.0, 0.4), (19.02, 0.4), (24.0, 0.3), (28.0, 0.2))
#: Lowest and highest hertz of what a General MIDI percussion key sounds like, roughly (ours).
KEYS_HZ = {
    **dict.fromkeys((35, 36, 41, 43), (110.0, 400.0)),
    **dict.fromkeys((60, 61, 62, 63, 64, 45, 47, 48, 50), (150.0, 1500.0)),
    **dict.fromkeys((37, 38, 39, 40, 65, 66), (800.0, 5000.0)),
    **dict.fromkeys((75, 76, 77, 67, 68, 56, 80), (700.0, 4000.0)),
    **dict.fromkeys((54, 69, 70, 42, 44, 46, 82), (3000.0, 7400.0)),
    **dict.fromkeys((81, 53, 49, 51, 52, 55, 57, 59), (1800.0, 7400.0)),
    **dict.fromkeys((58, 72, 73, 74), (1000.0, 6000.0)),
}
#: How much more the differences between bands count than what all bands do together.
CONTRAST = 2.0
ANYWHERE_HZ = (500.0, 6000.0)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Expected:
    """onsets: bars by places by bands, about zero in every bar's surroundings. strokes: the same bars as they are."""

    onsets: Singles
    strokes: Singles

    @property
    def places(self) -> int:
        return int(self.onsets.shape[1])


def bands_of(midi: int, pitched: bool) -> Floats:
    """Where a stroke grows: a share for every band, 1 in all."""
    edges = np.array(EDGES_HZ)
    out = np.zeros(BANDS)
    if pitched:
        for semitones, share in PARTIALS:
            hz = 440.0 * 2.0 ** ((midi + semitones - 69.0) / 12.0)
            band = int(np.searchsorted(edges, hz, side="right")) - 1
            if 0 <= band < BANDS:
                out[band] += share
        return out
    low, high = KEYS_HZ.get(midi, ANYWHERE_HZ)
    inside = (edges[:-1] < high) & (edges[1:] > low)
    out[inside] = 3.0 / np.sqrt(max(1, inside.sum()))
    return out


def line_onsets(plan: Plan, line: Line) -> Singles:
    """One part's onsets: places of the whole piece by bands, blurred as players scatter."""
    places = plan.bars * plan.beats_a_bar * PLACES
    out = np.zeros((places, BANDS), dtype=np.float32)
    shapes: dict[tuple[int, bool], Floats] = {}
    weight = ON_THE_BEAT.get(line.texture, 0.5)
    for beat, midi, velocity, pitched in zip(line.beats, line.midi, line.velocity, line.pitched, strict=True):
        at = int(np.floor(beat * PLACES + 0.5))
        if 0 <= at < places:
            key = (int(midi), bool(pitched))
            if key not in shapes:
                shapes[key] = bands_of(*key)
            out[at] += weight * np.sqrt(velocity / 80.0) * shapes[key]
    return out


def expected(plan: Plan) -> Expected:
    whole = sum((line_onsets(plan, line) for line in plan.lines), np.zeros(1, dtype=np.float32))
    bars = blurred_bars(plan, np.log1p(whole))
    # about zero over the bars around: only what is more here than there tells where one is
    flat = bars.mean(axis=1)
    around = np.stack([flat[max(0, n - 2) : n + 3].mean(axis=0) for n in range(plan.bars)])
    told = bars - around[:, None, :]
    # which bands a stroke is in tells the bars of a piece apart, and pieces: any class keeps some beat
    alike = told.mean(axis=2, keepdims=True)
    return Expected(onsets=np.asarray(alike + CONTRAST * (told - alike), dtype=np.float32), strokes=bars)


def blurred_bars(plan: Plan, places: Singles) -> Singles:
    """Bars by places by bands, each bar blurred as far as players scatter."""
    bars = places.reshape(plan.bars, -1, BANDS)
    return np.stack([_blurred(bar, float(seconds)) for bar, seconds in zip(bars, plan.bar_s, strict=True)])


def _blurred(bar: Singles, seconds: float) -> Singles:
    """A bar's places blurred by the scatter, as a ring: the next bar mostly begins as this one does."""
    places = len(bar)
    step_s = seconds / places
    away = np.minimum(np.arange(places), places - np.arange(places)) * step_s
    shape = np.exp(-0.5 * np.square(away / SCATTER_S))
    spectrum = np.fft.rfft(bar, axis=0) * np.fft.rfft(shape)[:, None]
    return np.asarray(np.fft.irfft(spectrum, places, axis=0), dtype=np.float32)
