"""Natural sounds by how they come about: each kind as loops without a seam, and how loud each is at a level.

A level is a velocity's share: 0.55 is mezzo forte, and amplitude goes with its square as for strokes. All loops of a
kind together have a K-weighted mean square of about 1 at level 1.
"""

from __future__ import annotations

from collections.abc import Callable, Sequence
from functools import partial

import numpy as np

from sonify.frozen import dataclass
from sonify.sound.rate import RATE_HZ, Floats, Samples
from sonify.sound.transform import bins_hz, samples_of, spectrum_of
from sonify.sound.voices.modal import LN_1000
from sonify.sound.voices.noise import Rng, band, power_of_two
from sonify.sound.weighting import spectrum_energy

#: (level, time in seconds) to gain, arrays of one length.
Gain = Callable[[Floats, Floats], Floats]


@dataclass(frozen=True, slots=True, eq=False)
class Layer:
    """One stereo loop (2 by size) and its gain."""

    loop: Samples
    gain: Gain


def rushing(shape: Callable[[Floats], Floats], size: int, rng: Rng) -> Samples:
    """Steady noise with this amplitude over frequency, half as long as the other loops, to save time.

    The sides share half their energy; together they have a K-weighted mean square of 1.
    """
    size //= 2
    hz = bins_hz(size)
    amplitude = (shape(hz) * (hz > 25.0)).astype(np.float32)
    drawn = rng.standard_normal((3, hz.size, 2), dtype=np.float32).view(np.complex64)[..., 0]
    drawn *= amplitude
    sides = drawn[0] + drawn[1:]
    sides *= np.float32(1.0 / np.sqrt(spectrum_energy(sides, size) / size))
    return samples_of(sides, size)


def scattered(grains: Samples, sizes: Floats, size: int, rng: Rng) -> Samples:
    """Grains (a row each) at random places of a loop and between the sides, one for each of `sizes`.

    A grain that rings past the end goes on at the start. The two sides together have a K-weighted mean square of 1.
    """
    length = grains.shape[1]
    out = np.zeros((2, size + length), dtype=np.float32)
    at = rng.integers(0, size, sizes.size)
    which = rng.integers(0, len(grains), sizes.size)
    angle = rng.random(sizes.size) * (np.pi / 2.0)
    span = np.arange(length)
    for first in range(0, sizes.size, 256):
        part = slice(first, first + 256)
        where = (at[part, None] + span).reshape(-1)
        for side, share in enumerate((np.cos(angle[part]), np.sin(angle[part]))):
            weights = (grains[which[part]] * (sizes[part] * share)[:, None]).reshape(-1)
            low, high = int(at[part].min()), int(at[part].max()) + length
            out[side, low:high] += np.bincount(where - low, weights, high - low).astype(np.float32)
    out[:, :length] += out[:, size:]
    whole = 1 << int(length - 1).bit_length()
    each = spectrum_energy(spectrum_of(grains, whole), whole) / len(grains)
    energy = each * float(np.sum(sizes**2)) / size  # they come at random, so their energies add
    return out[:, :size] * np.float32(1.0 / np.sqrt(energy)) if energy > 0.0 else out[:, :size]


def struck_surface(hz: float, ring_s: float, count: int, rng: Rng, noise: float = 0.0) -> Samples:
    """`count` short rings about a frequency, no two alike: what a drop or a crack sets going."""
    length = int(1.1 * ring_s * RATE_HZ)
    t = np.arange(length) / RATE_HZ
    tones = hz * np.exp(rng.normal(0.0, 0.18, count))
    rings = np.sin(2.0 * np.pi * tones[:, None] * t)
    if noise:
        rings = (1.0 - noise) * rings + noise * _splash(hz, count, length, rng)
    return centred(rings * np.exp(-LN_1000 / ring_s * t))


def _splash(hz: float, count: int, length: int, rng: Rng) -> Floats:
    """Noise about a frequency, three octaves wide, of unit power."""
    size = power_of_two(length)
    white = rng.standard_normal((count, size), dtype=np.float32)
    noise = samples_of(spectrum_of(white, size) * band(bins_hz(size), 1.2 * hz, 3.0).astype(np.float32), size)
    return np.asarray(noise[:, :length] / np.sqrt(np.mean(noise**2)))


def centred(grains: Floats) -> Samples:
    """Grains without direct current: what a sound pushes, it pulls back while it lasts."""
    hump = np.sin(np.pi * np.arange(grains.shape[1]) / grains.shape[1]) ** 2
    return np.asarray(grains - grains.sum(axis=1, keepdims=True) * (hump / hump.sum()), dtype=np.float32)


def bubble(radius_mm: float, count: int, rng: Rng) -> Samples:
    """Bubbles of about one radius in water: they ring at Minnaert's frequency, f = 3.26 m/s over the radius (Minnaert
    1933; the figure for air in water at the surface), rising a little as they near the surface."""
    radii = radius_mm * np.exp(rng.normal(0.0, 0.2, count))
    hz = 3260.0 / radii
    length = int(0.06 * RATE_HZ * np.sqrt(radius_mm / 2.0))
    t = np.arange(length) / RATE_HZ
    ring_s = 0.05 * np.sqrt(radii / 2.0)
    phase = 2.0 * np.pi * hz[:, None] * (t + 1.2 * t * t)
    out = np.sin(phase) * np.exp(-LN_1000 / ring_s[:, None] * t) * np.minimum(1.0, t / 0.0015)
    return centred(out)


# The sea --------------------------------------------------------------------------------------------------------------


def swell(level: Floats, t: Floats, period_s: float, offset: float, power: float) -> Floats:
    """Waves that come and go: no two quite alike, `period_s` apart on the whole."""
    phase = t / period_s + 0.23 * np.sin(2.0 * np.pi * (t / 37.0 + offset)) + offset
    wave = 0.5 + 0.5 * np.sin(2.0 * np.pi * phase)
    height = 0.75 + 0.25 * np.sin(2.0 * np.pi * (t / 53.0 + 1.7 * offset))
    return np.asarray(level**2 * (0.25 + 1.25 * height * wave**power))


#: Waves on a shore: 6 to 10 s apart in a breeze (common knowledge of sailors; from memory, not verified).
WAVE_S = 8.0


def sea(size: int, levels: Sequence[float], rng: Rng) -> list[Layer]:
    """A low swash and the hiss of foam, later, only with the higher part of a wave, and more in a rough sea."""
    offset = float(rng.random())
    swash = rushing(lambda hz: band(hz, 320.0, 4.0) + 0.25 * band(hz, 1200.0, 3.0), size, rng)
    foam = rushing(lambda hz: band(hz, 3200.0, 3.0), size, rng)
    return [
        Layer(swash, partial(swell, period_s=WAVE_S, offset=offset, power=1.5)),
        Layer(foam, lambda level, t: 0.5 * (level / 0.35) ** 0.7 * swell(level, t - 0.9, WAVE_S, offset, 4.0)),
    ]


# Wind -----------------------------------------------------------------------------------------------------------------


#: Where the howl of a light and of a strong wind stands (ours).
HOWLS_HZ = (480.0, 760.0)


def wind(size: int, levels: Sequence[float], rng: Rng) -> list[Layer]:
    """A broad low rush, and a howl that only gusts bring out: the louder, the higher it stands."""
    offset = float(rng.random())

    def gust(t: Floats) -> Floats:
        slow = np.sin(2.0 * np.pi * (t / 13.0 + offset)) + 0.6 * np.sin(2.0 * np.pi * (t / 5.3 + 2.0 * offset))
        return np.asarray(np.clip(0.5 + 0.31 * slow, 0.0, 1.0))

    low = rushing(lambda hz: band(hz, 260.0, 3.0), size, rng)

    def howl(at_hz: float) -> Samples:
        return rushing(lambda hz: band(hz, at_hz, 0.8) + 0.4 * band(hz, 2.4 * at_hz, 2.0), size, rng)

    def high(level: Floats) -> Floats:
        return np.asarray(np.clip((level - 0.15) / 0.4, 0.0, 1.0))

    return [
        Layer(low, lambda level, t: level**2 * (0.5 + 0.8 * gust(t))),
        Layer(howl(HOWLS_HZ[0]), lambda level, t: level**2.5 * 1.2 * gust(t) ** 2 * np.sqrt(1.0 - high(level))),
        Layer(howl(HOWLS_HZ[1]), lambda level, t: level**2.5 * 1.2 * gust(t) ** 2 * np.sqrt(high(level))),
    ]


# Rain -----------------------------------------------------------------------------------------------------------------

#: The ladder of rains that are made, mm/h; between two of them both are heard, by their shares.
RAINS_MM_PER_H = (0.5, 2.0, 8.0, 32.0)
#: Level "p" is 8 mm/h, heavy rain. Sound power goes with the rain rate (linear in theory and observation: Guo & Ffowcs
#: Williams 1991, abstract), and with the fourth power of level: so rain rate goes with that, too.
RAIN_AT_LEVEL = (8.0, 0.3465)
DROPS_MM = (0.8, 1.2, 1.8, 2.6, 3.6, 5.0)  # middles of the classes of diameter
DROP_STEPS_MM = (0.4, 0.4, 0.8, 0.8, 1.2, 1.6)
LISTENED_M2 = 0.4  # near enough to hear single drops; what falls further off is the rush


def rain_rate_mm_per_h(level: Floats) -> Floats:
    """Rain rate that a level stands for."""
    rate, at = RAIN_AT_LEVEL
    return np.asarray(rate * (np.asarray(level) / at) ** 4)


def fall_speed_m_per_s(diameter_mm: Floats) -> Floats:
    """Terminal speed of rain drops: 9.65 - 10.3 exp(-0.6 D) (Atlas et al. 1973, fit to Gunn & Kinzer)."""
    return np.asarray(np.maximum(9.65 - 10.3 * np.exp(-0.6 * np.asarray(diameter_mm)), 0.1))


def drops_per_s(rate_mm_per_h: float) -> Floats:
    """Drops of each class that fall each second on LISTENED_M2: Marshall & Palmer's sizes (1948), N0 = 8000 per m3 and
    mm, slope 4.1 R^-0.21 per mm, times how fast they fall."""
    diameters = np.array(DROPS_MM)
    number = 8000.0 * np.exp(-4.1 * rate_mm_per_h**-0.21 * diameters) * np.array(DROP_STEPS_MM)
    return np.asarray(number * fall_speed_m_per_s(diameters) * LISTENED_M2)


def drop_loudness() -> Floats:
    """Amplitude of each class: a drop's sound energy goes with its kinetic energy (acoustic disdrometers rest on that),
    that is with D^3 v^2."""
    diameters = np.array(DROPS_MM)
    return np.asarray(np.sqrt(diameters**3) * fall_speed_m_per_s(diameters))


def rainfall(rate_mm_per_h: float, size: int, rng: Rng) -> Samples:
    """A loop of the near drops of a rain, one by one: the bigger the lower and the louder."""
    loops, shares = [], []
    for diameter, per_s, loud in zip(DROPS_MM, drops_per_s(rate_mm_per_h), drop_loudness(), strict=True):
        count = int(rng.poisson(per_s * size / RATE_HZ))
        grains = struck_surface(6200.0 / diameter**0.7, 0.005 * diameter**0.5, 12, rng, noise=0.5)
        if count:
            sizes = loud * rng.lognormal(0.0, 0.35, count)
            loops.append(scattered(grains, sizes, size, rng))
            shares.append(float(np.sum(sizes**2)))
    if not loops:
        return np.zeros((2, size), dtype=np.float32)
    weights = np.sqrt(np.array(shares) / sum(shares)).astype(np.float32)
    return np.asarray(np.einsum("k,ksn->sn", weights, np.array(loops)))


def rain(size: int, levels: Sequence[float], rng: Rng) -> list[Layer]:
    """The rains of the ladder that these levels reach, each sounding by its share, over the rush of the far drops."""
    ladder = np.log(RAINS_MM_PER_H)
    top = float(np.log(rain_rate_mm_per_h(np.array(max(levels, default=0.0) + 1e-3))))
    rush = rushing(lambda hz: band(hz, 4200.0, 3.2), size, rng)
    layers = [Layer(rush, lambda level, t: 0.6 * level**2)]
    for index, rate in enumerate(RAINS_MM_PER_H):
        drawn = np.random.Generator(np.random.SFC64(rng.integers(2**63)))
        if index and ladder[index - 1] >= top - 0.02:
            continue

        def gain(level: Floats, t: Floats, index: int = index) -> Floats:
            at = np.log(np.maximum(rain_rate_mm_per_h(level), 1e-9))
            return np.asarray(0.8 * level**2 * np.sqrt(np.interp(at, ladder, np.eye(ladder.size)[index])))

        layers.append(Layer(rainfall(rate, size, drawn), gain))
    return layers


# Running, dripping and boiling water; ice -----------------------------------------------------------------------------


#: Radius in mm, so many a second, share of the amplitude (squares sum to 1). Ours, by ear of the spectrum.
STREAM_BUBBLES = ((0.9, 40.0, 0.45), (1.3, 32.0, 0.5), (1.9, 24.0, 0.5), (2.8, 14.0, 0.42), (4.2, 7.0, 0.35))


def stream(size: int, levels: Sequence[float], rng: Rng) -> list[Layer]:
    """Running water: bubbles of all sizes, over a rush that grows with the flow."""
    bubbles = np.zeros((2, size), dtype=np.float32)
    for radius_mm, per_s, share in STREAM_BUBBLES:
        count = int(rng.poisson(per_s * size / RATE_HZ))
        bubbles += np.float32(share) * scattered(bubble(radius_mm, 16, rng), rng.exponential(1.0, count), size, rng)
    rush = rushing(lambda hz: band(hz, 900.0, 4.0), size, rng)
    return [
        Layer(bubbles, lambda level, t: level**2 * 0.9),
        Layer(rush, lambda level, t: level**2 * (0.2 + 0.5 * level)),
    ]


def boiling(size: int, levels: Sequence[float], rng: Rng) -> list[Layer]:
    """Boiling: a simmer of small bubbles that collapse, then large ones that break through."""
    simmer = scattered(bubble(1.0, 24, rng), rng.exponential(1.0, int(rng.poisson(300.0 * size / RATE_HZ))), size, rng)
    rolling = scattered(bubble(6.0, 24, rng), rng.exponential(1.0, int(rng.poisson(45.0 * size / RATE_HZ))), size, rng)
    rumble = rushing(lambda hz: band(hz, 350.0, 2.5), size, rng)
    return [
        Layer(simmer, lambda level, t: level**2 * np.clip(1.1 - level, 0.3, 1.0)),
        Layer(rolling, lambda level, t: level**2 * np.clip(1.4 * level - 0.1, 0.0, 1.0)),
        Layer(rumble, lambda level, t: level**2 * np.clip(level, 0.0, 0.7)),
    ]


def ice(size: int, levels: Sequence[float], rng: Rng) -> list[Layer]:
    """Cracking ice: dry ticks, and now and then a crack that sings as it runs through the sheet."""
    ticks = scattered(
        struck_surface(4200.0, 0.008, 24, rng, noise=0.3),
        rng.lognormal(0.0, 0.9, int(rng.poisson(6.0 * size / RATE_HZ))),
        size,
        rng,
    )
    count = max(2, int(rng.poisson(0.7 * size / RATE_HZ)))
    t = np.arange(int(0.45 * RATE_HZ)) / RATE_HZ
    # Bending waves of high pitch run ahead of low ones in a sheet, so that a crack is heard as a falling chirp.
    falls = np.array([900.0 * k * (t * (1.0 + 0.2 * k)) ** 0.5 for k in rng.uniform(0.7, 1.5, 8)])
    sings = centred(np.sin(2.0 * np.pi * falls) * np.exp(-LN_1000 / 0.4 * t) * np.minimum(1.0, t / 0.001))
    cracks = scattered(sings, rng.exponential(1.0, count) + 0.3, size, rng)
    return [
        Layer(ticks, lambda level, t: level**2 * 0.3),
        Layer(cracks, lambda level, t: level**2 * 0.65),
    ]


def drips(size: int, levels: Sequence[float], rng: Rng) -> list[Layer]:
    """Drops that fall one by one into water: the note of the bubble each takes down with it."""
    count = max(3, int(rng.poisson(2.2 * size / RATE_HZ)))
    loop = scattered(bubble(2.6, 24, rng), rng.uniform(0.5, 1.2, count), size, rng)
    return [Layer(loop, lambda level, t: level**2 * 0.5)]


#: Each kind: (size of a loop, the levels it will have, random numbers) to its layers.
KINDS: dict[str, Callable[[int, Sequence[float], Rng], list[Layer]]] = {
    "sea": sea,
    "wind": wind,
    "rain": rain,
    "stream": stream,
    "boiling": boiling,
    "ice": ice,
    "drips": drips,
}
