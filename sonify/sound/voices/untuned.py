"""Voices without a note: metal, skins, wood, shakers, scrapers, effects, body percussion and whispers."""

from __future__ import annotations

import math

import numpy as np

from sonify.sound.voices.bodies import FREE_PLATE, MEMBRANE, MEMBRANE_RINGS, free_bar, plate_cloud, rod_hz
from sonify.sound.voices.records import Blown, Burst, Resonance, Shaken, Struck, Voice
from sonify.sound.voices.tuned import CLICK_DB, F_AND_R, OURS

#: The flat of a hand slaps little, fingertips more (ours).
SLAP_DB = 14.0
COLLISIONS = "collision model of shakers (Cook 1997), resonances as its open-source form gives them"

SKINS = "which modes ring on: D. Russell in Jones; glide: Marogna, Avanzini & Bank 2010"
#: How far a blow stretches a skin: half a semitone at fortissimo, a fifth of one at forte (ours).
SKIN_GLIDE = 0.06

_TRIANGLE_HZ = rod_hz(0.56, 0.0095, 5050.0, 18)
_TRIANGLE = tuple(h * k for h in _TRIANGLE_HZ[3:] for k in (0.995, 1.012))  # bends part each mode in two
_CYMBAL = plate_cloud(110.0, 18_500.0, 150, 7)
_SHEET = plate_cloud(45.0, 12_000.0, 110, 11)


def _sheet_db(hz: float) -> float:
    """How strongly a shaken sheet sounds its modes: most about 220 Hz, and little of the highest, which its own bending
    damps (ours)."""
    return -4.5 * abs(math.log2(hz / 220.0)) - 6.0 * max(0.0, math.log2(hz / 2000.0))


def jingles(centres: tuple[tuple[float, float], ...], ring_s: float, seed: int) -> tuple[Resonance, ...]:
    """Four jingles about each centre (Hz, dB), no two alike: apart by some 5 %."""
    rng = np.random.Generator(np.random.PCG64(seed))
    return tuple(
        Resonance(hz=hz * float(k), ring_s=ring_s * (5000.0 / hz) ** 0.3, level_db=db)
        for hz, db in centres
        for k in 1.0 + rng.normal(0.0, 0.05, 4)
    )


def _drum(
    first_hz: tuple[float, ...],
    ring_s: float,
    contact_s: tuple[float, float],
    slap: Burst,
    levels_db: tuple[float, ...] = (0.0, -4.0, -8.0, -9.0, -12.0, -14.0, -16.0, -18.0, -19.0, -20.0),
) -> Struck:
    """A skin: the ideal membrane's modes, the first lowered a little against the rest by the air it carries. It begins
    with a thud, and the modes that radiate little are what is left."""
    return Struck(
        ratios=(1.0, *(1.06 * r for r in MEMBRANE[1:])),
        levels_db=levels_db,
        first_hz=first_hz,
        ring_s=ring_s,
        ring_at_hz=first_hz[0],
        ring_power=0.3,
        rings=MEMBRANE_RINGS,
        glide=SKIN_GLIDE,
        contact_s=contact_s,
        uneven_db=2.0,
        bursts=(slap,),
        source=f"ideal membrane, {F_AND_R} ch. 3, air load and pitches from memory; {SKINS}; {OURS}",
    )


UNTUNED: dict[str, Voice] = {
    # Metal
    "triangle": Struck(
        ratios=tuple(h / _TRIANGLE[0] for h in _TRIANGLE),
        levels_db=tuple(
            -14.0 + 1.0 * min(i, 14) for i in range(len(_TRIANGLE))
        ),  # a thin rod radiates its low modes badly
        first_hz=(_TRIANGLE[0],),
        ring_s=7.0,
        ring_at_hz=_TRIANGLE[0],
        mode_power=0.45,
        contact_s=(0.16e-3, 0.05e-3),
        uneven_db=3.0,
        longest_s=5.0,
        source=f"steel rod 560 mm by 9.5 mm, {F_AND_R} ch. 2; {OURS}",
    ),
    "finger-cymbals": Struck(
        ratios=tuple(r * k for r in FREE_PLATE[:6] for k in (1.0, 1.004)),
        levels_db=tuple(v for d in (0.0, -2.0, 0.0, -4.0, -4.0, -7.0) for v in (d, d - 2.0)),
        first_hz=(2150.0,),
        ring_s=4.0,
        ring_at_hz=2150.0,
        mode_power=0.7,
        contact_s=(0.12e-3, 0.05e-3),
        uneven_db=2.0,
        longest_s=4.5,
        source=f"two small plates a little apart in pitch (beats), free plate from memory; {OURS}",
    ),
    "suspended-cymbal": Struck(
        ratios=_CYMBAL,
        # A thin plate radiates its low modes badly; the middle and high ones make the shimmer.
        levels_db=tuple(6.5 * math.log2(min(r * 110.0, 3500.0) / 3500.0) for r in _CYMBAL),
        first_hz=(110.0,),
        ring_s=9.0,
        ring_at_hz=110.0,
        mode_power=0.38,
        contact_s=(0.7e-3, 0.08e-3),
        stiffening=(0.6, 0.2),
        uneven_db=4.0,
        bloom_s=0.25,
        longest_s=4.0,
        damped="rest",
        damp_s=1.2,
        source=f"thin plate, evenly dense modes; energy climbs in some 50 to 100 ms, {F_AND_R} ch. 20; {OURS}",
    ),
    "cowbell": Struck(
        ratios=(1.0, 1.504, 2.57, 3.41, 4.66, 5.9, 7.3),
        levels_db=(0.0, -1.0, -9.0, -11.0, -15.0, -17.0, -20.0),
        first_hz=(562.0,),
        ring_s=0.55,
        ring_at_hz=562.0,
        mode_power=0.5,
        contact_s=(1.0e-3, 0.15e-3),
        bursts=(Burst(level_db=-18.0, length_s=0.01, centre_hz=4200.0, by_beater_db=CLICK_DB),),
        source=f"two strong modes a fifth apart; {OURS}",
    ),
    # Skins
    "hand-drum": _drum(
        (165.0,),
        0.36,
        (3.5e-3, 0.8e-3),
        Burst(level_db=-11.0, length_s=0.06, centre_hz=1100.0, octaves=2.4, by_beater_db=SLAP_DB),
    ),
    "goblet-drum": Struck(
        ratios=(0.42, 1.0, 1.69, 2.26, 2.43, 2.81, 3.09, 3.34, 3.71),
        levels_db=(2.0, 0.0, -3.0, -5.0, -8.0, -9.0, -11.0, -13.0, -15.0),
        first_hz=(185.0,),
        ring_s=0.42,
        ring_at_hz=185.0,
        rings=(1.0, *(0.7 * ring for ring in MEMBRANE_RINGS[:8])),
        glide=SKIN_GLIDE,
        contact_s=(3.0e-3, 0.5e-3),
        uneven_db=2.0,
        bursts=(Burst(level_db=-12.0, length_s=0.06, centre_hz=1500.0, octaves=2.2, by_beater_db=SLAP_DB),),
        source=f"membrane over a pipe that sounds below it (Helmholtz), pitches from memory; {OURS}",
    ),
    "bongos": _drum(
        (395.0, 300.0),
        0.16,
        (1.8e-3, 0.5e-3),
        Burst(level_db=-12.0, length_s=0.03, centre_hz=2200.0, octaves=1.8, by_beater_db=SLAP_DB),
    ),
    "bass-drum": _drum(
        (58.0,),
        1.0,
        (9.0e-3, 3.0e-3),
        Burst(level_db=-12.0, length_s=0.09, centre_hz=260.0, octaves=2.4, by_beater_db=SLAP_DB),
        (0.0, -1.0, -4.0, -8.0, -7.0, -10.0, -12.0, -14.0, -16.0, -17.0),
    ),
    # Wood
    "claves": Struck(
        ratios=free_bar(3),
        levels_db=(0.0, -14.0, -20.0),
        first_hz=(2480.0,),
        ring_s=0.11,
        ring_at_hz=2480.0,
        contact_s=(0.2e-3, 0.1e-3),
        bursts=(Burst(level_db=-24.0, length_s=0.012, centre_hz=5000.0),),
        source=f"short round bar, {F_AND_R} ch. 2, hollow hand below lifts the first; {OURS}",
    ),
    "wood-block": Struck(
        ratios=(1.0, 1.42, 2.11, 2.77, 3.6, 4.9),
        levels_db=(0.0, -7.0, -6.0, -13.0, -15.0, -19.0),
        first_hz=(880.0,),
        ring_s=0.15,
        ring_at_hz=880.0,
        mode_power=0.6,
        contact_s=(1.8e-3, 0.16e-3),
        bursts=(Burst(level_db=-17.0, length_s=0.02, centre_hz=4400.0, by_beater_db=CLICK_DB),),
        source=f"slit cavity and plate modes, from memory, not verified; {OURS}",
    ),
    "two-tone-block": Struck(
        ratios=(1.0, 2.02, 2.9, 4.2),
        levels_db=(0.0, -9.0, -14.0, -19.0),
        first_hz=(770.0, 1030.0),
        ring_s=0.17,
        ring_at_hz=770.0,
        mode_power=0.6,
        contact_s=(1.8e-3, 0.16e-3),
        bursts=(Burst(level_db=-17.0, length_s=0.02, centre_hz=4000.0, by_beater_db=CLICK_DB),),
        source=f"two hollow cylinders about a fourth apart, from memory, not verified; {OURS}",
    ),
    # Shaken
    "tambourine": Shaken(
        resonances=(
            Resonance(hz=2300.0, ring_s=0.01, level_db=-20.0),
            *jingles(((5600.0, -2.0), (8100.0, 0.0), (10_600.0, -5.0)), 0.17, 3),
        ),
        grains_per_s=420.0,
        calm_s=0.36,
        spread=0.7,
        shake_hz=9.0,
        shake_depth=0.75,
        burst=Burst(level_db=-9.0, length_s=0.05, centre_hz=420.0, octaves=1.6),
        source=f"{COLLISIONS}: shell 2300, jingles 5600 and 8100 Hz +- 5 %, 32 of them; above from memory",
    ),
    "sleigh-bells": Shaken(
        resonances=jingles(((2500.0, 0.0), (5300.0, 0.0), (6500.0, 0.0), (8300.0, -6.0), (9800.0, -10.5)), 0.25, 4),
        grains_per_s=300.0,
        calm_s=0.55,
        spread=0.7,
        shake_hz=6.0,
        shake_depth=0.7,
        source=f"{COLLISIONS}: 2500, 5300, 6500, 8300 and 9800 Hz, gains 1 1 1 0.5 0.3, 32 bells",
    ),
    "maracas": Shaken(
        resonances=(
            Resonance(hz=3200.0, ring_s=0.0077, level_db=0.0),
            Resonance(hz=5200.0, ring_s=0.003, level_db=-9.0),
            Resonance(hz=1250.0, ring_s=0.006, level_db=-20.0),
        ),
        grains_per_s=3200.0,
        calm_s=0.17,
        spread=0.5,
        rise_s=0.012,
        shake_hz=5.0,
        in_time=True,
        source=f"{COLLISIONS}: 3200 Hz, pole radius 0.96 at 22.05 kHz; the others from memory",
    ),
    "egg-shaker": Shaken(
        resonances=(
            Resonance(hz=5500.0, ring_s=0.003, level_db=0.0),
            Resonance(hz=8200.0, ring_s=0.002, level_db=-3.0),
            Resonance(hz=3300.0, ring_s=0.003, level_db=-9.0),
        ),
        grains_per_s=9000.0,
        calm_s=0.18,
        spread=0.3,
        rise_s=0.012,
        shake_hz=5.0,
        in_time=True,
        source=f"{COLLISIONS}: a small shaker at 5500 Hz, broad; the others from memory",
    ),
    "cabasa": Shaken(
        resonances=(
            Resonance(hz=3000.0, ring_s=0.0009, level_db=0.0),
            Resonance(hz=6100.0, ring_s=0.002, level_db=-2.0),
            Resonance(hz=9300.0, ring_s=0.0016, level_db=-4.0),
        ),
        grains_per_s=6500.0,
        calm_s=0.2,
        spread=0.4,
        rise_s=0.02,
        shake_hz=4.0,
        in_time=True,
        source=f"{COLLISIONS}: 3000 Hz, pole radius 0.7 at 22.05 kHz, 512 beads; the others from memory",
    ),
    "guiro": Shaken(
        resonances=(
            Resonance(hz=2500.0, ring_s=0.0103, level_db=0.0),
            Resonance(hz=4000.0, ring_s=0.0103, level_db=0.0),
            Resonance(hz=1300.0, ring_s=0.012, level_db=-9.0),
        ),
        grains_per_s=0.0,
        calm_s=0.1,
        spread=0.5,
        ridges=30,
        source=f"{COLLISIONS}: gourd 2500 and 4000 Hz, pole radius 0.97 at 22.05 kHz; 30 ridges, ours",
    ),
    # Effects
    "ocean-drum": Shaken(
        resonances=(
            Resonance(hz=5200.0, ring_s=0.004, level_db=0.0),
            Resonance(hz=3100.0, ring_s=0.006, level_db=-2.0),
            Resonance(hz=1500.0, ring_s=0.012, level_db=-7.0),
            Resonance(hz=310.0, ring_s=0.08, level_db=-16.0),
            Resonance(hz=170.0, ring_s=0.12, level_db=-16.0),
        ),
        grains_per_s=7000.0,
        calm_s=1.0,
        spread=0.5,
        envelope="wave",
        always_held=True,
        source=f"steel beads that roll over a skin; {COLLISIONS}",
    ),
    "rain-stick": Shaken(
        resonances=(
            Resonance(hz=4300.0, ring_s=0.006, level_db=0.0),
            Resonance(hz=6900.0, ring_s=0.004, level_db=-3.0),
            Resonance(hz=2200.0, ring_s=0.01, level_db=-5.0),
            Resonance(hz=1150.0, ring_s=0.012, level_db=-13.0),
        ),
        grains_per_s=1400.0,
        calm_s=2.0,
        spread=0.6,
        envelope="fall",
        always_held=True,
        source=f"pebbles that fall from pin to pin in a tube; {COLLISIONS}",
    ),
    "thunder-sheet": Shaken(
        resonances=tuple(Resonance(hz=45.0 * r, ring_s=2.4 * r**-0.3, level_db=_sheet_db(45.0 * r)) for r in _SHEET),
        grains_per_s=220.0,
        spread=0.7,
        calm_s=2.0,
        shake_hz=4.5,
        shake_depth=0.7,
        envelope="roll",
        always_held=True,
        attack_s=0.06,
        release_s=1.6,
        source=f"large thin sheet, evenly dense modes, {F_AND_R} ch. 20, shaken at random; {OURS}",
    ),
    "wind-wand": Blown(
        first_hz=196.0,
        overblown=(2, 4),
        harmonics_db=(0.0, -22.0, -30.0),
        noise_bands=((420.0, 1.2, 0.0), (1200.0, 2.0, -8.0), (3000.0, 2.5, -16.0)),
        breath_db=-9.0,
        tilt_db=4.0,
        attack_s=0.35,
        release_s=0.5,
        wobble_hz=2.0,
        wobble_depth=0.5,
        source="open corrugated pipe 0.87 m long: the faster it is whirled, the higher the harmonic that sounds, from "
        "the second on (Crawford 1973, as an encyclopaedia tells); louder and shifted by Doppler as its end comes "
        "round; breath and pitch from memory, not verified",
    ),
    # Body percussion
    "claps": Struck(
        ratios=(1.0, 1.7, 2.6),
        levels_db=(0.0, -5.0, -10.0),
        first_hz=(980.0,),
        ring_s=0.03,
        ring_at_hz=980.0,
        mode_power=0.3,
        contact_s=(0.5e-3, 0.15e-3),
        uneven_db=4.0,
        bursts=(
            Burst(level_db=8.0, length_s=0.07, centre_hz=1300.0, octaves=2.0),
            Burst(level_db=2.0, length_s=0.12, centre_hz=1000.0, octaves=2.0, rise_s=0.012),  # hands not quite together
        ),
        source="air between the palms, band about 1 kHz (Repp 1987, from memory, not verified)",
    ),
    "stamps": Struck(
        ratios=(1.0, 1.6, 2.4, 3.5),
        levels_db=(0.0, -4.0, -8.0, -13.0),
        first_hz=(82.0,),
        ring_s=0.22,
        ring_at_hz=82.0,
        mode_power=0.6,
        contact_s=(7e-3, 3e-3),
        uneven_db=2.5,
        bursts=(Burst(level_db=-6.0, length_s=0.08, centre_hz=380.0, octaves=2.6),),
        source="a floor's low modes and a shoe's slap; from memory, not verified",
    ),
    "finger-snaps": Struck(
        ratios=(1.0, 1.55, 2.3),
        levels_db=(0.0, -5.0, -12.0),
        first_hz=(1900.0,),
        ring_s=0.03,
        ring_at_hz=1900.0,
        contact_s=(0.25e-3, 0.1e-3),
        uneven_db=3.0,
        bursts=(Burst(level_db=2.0, length_s=0.03, centre_hz=2500.0, octaves=1.5),),
        source="finger on the ball of the thumb over a hollow hand; from memory, not verified",
    ),
    "knee-taps": Struck(
        ratios=(1.0, 1.8, 2.9),
        levels_db=(0.0, -5.0, -10.0),
        first_hz=(230.0,),
        ring_s=0.06,
        ring_at_hz=230.0,
        contact_s=(3e-3, 1.2e-3),
        uneven_db=2.5,
        bursts=(Burst(level_db=3.0, length_s=0.07, centre_hz=650.0, octaves=2.4),),
        source="a flat hand on cloth; from memory, not verified",
    ),
    "voices-sh": Blown(
        noise_bands=((3600.0, 1.3, 0.0), (6200.0, 1.5, -6.0), (1900.0, 1.2, -14.0)),
        attack_s=0.05,
        release_s=0.09,
        source="spectral peak of a child's 'sh' about 3.5 kHz and up; from memory, not verified",
    ),
}
