"""Voices of what schools also have, measured on their sound against the physics of what sounds."""

from __future__ import annotations

import numpy as np
import pytest
from numpy.typing import NDArray

from sonify.sound.voices.bank import Bank, stroke_of

RATE_HZ = 44_100


def heard(
    name: str, *, midi: int = 0, held: bool = False, brightness: float = 0.5, seed: int = 1
) -> NDArray[np.float64]:
    shot = Bank(seed).shot(stroke_of(name, midi, 80, brightness, turn=0, held=held))
    return (shot.loop if held else shot.samples).astype(float)


def peaks_hz(samples: NDArray[np.float64], near_hz: list[float]) -> list[float]:
    """The strongest frequency within 6 % of each given one."""
    size = 1 << 18
    power = np.abs(np.fft.rfft(samples * np.hanning(2 * samples.size)[samples.size :], size))
    hz = np.fft.rfftfreq(size, 1 / RATE_HZ)
    return [float(hz[np.argmax(np.where(np.abs(hz / want - 1) < 0.06, power, 0))]) for want in near_hz]


def beats_hz(samples: NDArray[np.float64], low: float, high: float) -> float:
    """How often a second its loudness comes and goes, between two rates."""
    hop = 147
    level = np.sqrt(np.mean(samples[: samples.size // hop * hop].reshape(-1, hop) ** 2, axis=1))
    found = np.abs(np.fft.rfft(level - level.mean(), 1 << 16))
    hz = np.fft.rfftfreq(1 << 16, hop / RATE_HZ)
    return float(hz[np.argmax(np.where((hz > low) & (hz < high), found, 0))])


def test_a_bottle_has_the_partials_of_a_ring() -> None:
    # n (n^2 - 1) / sqrt(n^2 + 1) for n = 2, 3, 4 (Rayleigh, The Theory of Sound, section 233; from memory)
    want = [1480.0 * n * (n * n - 1) / (n * n + 1) ** 0.5 / (6 / 5**0.5) for n in (2, 3, 4)]
    np.testing.assert_allclose(peaks_hz(heard("bottles"), want), want, rtol=0.01)


def test_bass_bars_are_tuned_to_two_octaves() -> None:
    # Marimba bars: 1 : 4 (HyperPhysics, Marimba)
    want = [65.41, 4 * 65.41]
    np.testing.assert_allclose(peaks_hz(heard("bass-bar", midi=36), want), want, rtol=0.01)


@pytest.mark.parametrize(("name", "held", "a_second"), [("ratchet", True, 20.0), ("vibraslap", False, 24.0)])
def test_what_rattles_does_so_evenly(name: str, held: bool, a_second: float) -> None:
    assert beats_hz(heard(name, held=held), 8.0, 40.0) == pytest.approx(a_second, abs=1.0)


def test_a_vibraslap_dies_away() -> None:
    sound = heard("vibraslap")
    first, later = (np.mean(sound[at : at + 8820] ** 2) for at in (0, 35_280))
    assert 10 * np.log10(first / later) > 20


def test_a_slide_whistle_goes_up_an_octave_and_back() -> None:
    loop = heard("slide-whistle", held=True)
    frames = loop[: 131_072 // 8192 * 8192].reshape(-1, 8192) * np.hanning(8192)
    found = np.argmax(np.abs(np.fft.rfft(frames, 1 << 16)), axis=1) * RATE_HZ / (1 << 16)
    assert 1200 * np.log2(found.max() / found.min()) == pytest.approx(1200, abs=60)
    assert found.argmax() in (7, 8) and found[0] == pytest.approx(found[-1], rel=0.02)


def test_water_sounds_where_its_bubbles_ring() -> None:
    # f = 3.26 m/s over the radius (Minnaert 1933): 1.6 to 5.5 mm, a harder splash smaller ones
    power = np.abs(np.fft.rfft(heard("water-bowl", held=True))) ** 2
    hz = np.fft.rfftfreq(131_072, 1 / RATE_HZ)
    inside = (hz > 3260 / 5.5 / 1.4) & (hz < 3260 / 1.6 * 1.7)
    assert power[inside].sum() > 0.95 * power.sum()


def test_spoken_sounds_lie_where_speech_does() -> None:
    """An s above a sh (some 7 against 3.6 kHz), a k below a t; from memory, common knowledge of phonetics."""

    def middle_hz(samples: NDArray[np.float64]) -> float:
        power = np.abs(np.fft.rfft(samples)) ** 2
        return float(np.sum(np.fft.rfftfreq(samples.size, 1 / RATE_HZ) * power) / power.sum())

    assert middle_hz(heard("voices-s", held=True)) > 1.4 * middle_hz(heard("voices-sh", held=True))
    assert beats_hz(heard("voices-chant", held=True), 1.0, 10.0) == pytest.approx(3.6, abs=0.5)


def level_db(samples: NDArray[np.float64], hz: float, start_s: float, end_s: float) -> float:
    """Of the strongest line within 3 % of a frequency, over a stretch of a stroke."""
    piece = samples[int(start_s * RATE_HZ) : int(end_s * RATE_HZ)]
    found = np.abs(np.fft.rfft(piece * np.hanning(piece.size), 1 << 17))
    near = np.abs(np.fft.rfftfreq(1 << 17, 1 / RATE_HZ) / hz - 1) < 0.03
    return float(20 * np.log10(found[near].max()))


@pytest.mark.parametrize(
    ("name", "midi", "tuned_to"), [("soprano-xylophone", 79, 3), ("alto-xylophone", 67, 3), ("bass-xylophone", 57, 4)]
)
def test_xylophone_bars_sound_their_tuned_overtone(name: str, midi: int, tuned_to: int) -> None:
    """A twelfth on xylophones, two octaves on deep bars as on a marimba (HyperPhysics); 10 to 20 dB under the note with
    a medium beater (ours: at -20 to -27 dB the bars sounded of no wood), never over it; it is the sooner gone."""
    first = 440 * 2 ** ((midi - 69) / 12)
    for brightness, low, high in ((0.0, -30, -18), (0.5, -20, -10), (1.0, -15, -7)):
        sound = heard(name, midi=midi, brightness=brightness)
        overtone, note = (level_db(sound, hz, 0.0, 0.093) for hz in (tuned_to * first, first))
        assert low < overtone - note < high, (brightness, overtone - note)
    later = level_db(sound, tuned_to * first, 0.1, 0.193) - level_db(sound, first, 0.1, 0.193)
    assert later < overtone - note - 6


def falls_db(name: str, ratios: tuple[float, ...], first_hz: float, ring_s: float) -> list[float]:
    """How far each partial falls from the first eighth of a ring to the third: a mean of strokes."""
    found = []
    for ratio in ratios:
        early, late = (
            np.mean([level_db(heard(name, seed=s), ratio * first_hz, at, at + 0.25 * ring_s) for s in range(4)])
            for at in (0.05 * ring_s, 0.35 * ring_s)
        )
        found.append(float(early - late))
    return found


@pytest.mark.parametrize(("name", "first_hz", "ring_s"), [("hand-drum", 165.0, 0.36), ("bass-drum", 58.0, 1.0)])
def test_a_skins_thud_is_spent_before_the_modes_that_push_no_air(name: str, first_hz: float, ring_s: float) -> None:
    """Modes (0,1), (1,1) and (2,1) of an ideal membrane lie 1 : 1.593 : 2.136 (Fletcher & Rossing ch. 3), the first
    lowered by the air it carries; (0,1) decays first, (2,1) takes longer than (1,1) (D. Russell in R. K. Jones, "In
    Search of the Missing Fundamental", Membrane Modes)."""
    thud, *others = falls_db(name, (1.0, 1.06 * 1.593, 1.06 * 2.136), first_hz, ring_s)
    assert thud > others[0] + 2 and thud > others[1] + 2, (thud, others)
    assert others[0] > others[1] - 1, others


def test_a_hard_blow_begins_sharp_and_comes_down_to_the_skins_own_pitch() -> None:
    """What glides in a drum's sound (Marogna, Avanzini and Bank, DAFx 2010); how far is ours."""

    def sharp_by(velocity: int, at_s: float) -> float:
        shot = Bank(1).shot(stroke_of("hand-drum", 0, velocity, 0.5, turn=0, held=False)).samples
        turned = shot * np.exp(-2j * np.pi * 165.0 * np.arange(shot.size) / RATE_HZ)
        narrow = np.convolve(turned, np.hanning(RATE_HZ // 60), "same")
        at, far = round(at_s * RATE_HZ), 200
        turns = np.angle(narrow[at + far] / narrow[at - far]) / (2 * np.pi)
        return float(turns * RATE_HZ / (2 * far) / 165.0)

    assert 0.01 < sharp_by(127, 0.02) < 0.03
    assert abs(sharp_by(127, 0.2)) < 0.002 and abs(sharp_by(40, 0.02)) < 0.002
