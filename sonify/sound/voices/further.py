"""Voices of what schools also have: larger instruments, things from home and classroom, speech."""

from __future__ import annotations

import math
from dataclasses import replace

from sonify.sound.voices.bodies import plate_cloud, plucked_db, ring_bending, string
from sonify.sound.voices.records import Blown, Burst, Resonance, Shaken, Struck, Voice
from sonify.sound.voices.tuned import BASS_XYLOPHONE, CLICK_DB, F_AND_R, OURS
from sonify.sound.voices.untuned import COLLISIONS, SLAP_DB, jingles

MEMORY = "from memory, not verified"
_GONG = plate_cloud(92.0, 7_500.0, 80, 13)
#: A round wall parts each of its modes in two, a little apart: its seam, its handle, its printing.
_WALL = tuple(r * k for r in ring_bending(4) for k in (0.99, 1.013))


def _gong_db(hz: float) -> float:
    """Most in the low modes; what is high has climbed there out of them (ours)."""
    return -3.5 * max(0.0, math.log2(hz / 180.0)) - 6.0 * max(0.0, math.log2(hz / 3000.0))


def _two_strings(count: int, stiffness: float, place: float) -> tuple[tuple[float, ...], tuple[float, ...]]:
    """Partials and levels of two strings to a note, a cent apart, the second a little weaker."""
    apart = 2.0 ** (1.0 / 1200.0)
    ratios = tuple(r * k for r in string(count, stiffness) for k in (1.0, apart))
    return ratios, tuple(db - less for db in plucked_db(count, place) for less in (0.0, 3.0))


_PIANO, _PIANO_DB = _two_strings(22, 3.5e-4, 0.12)

FURTHER_TUNED: dict[str, Voice] = {
    "bass-bar": replace(
        BASS_XYLOPHONE,
        levels_db=(0.0, -11.0, -18.0, -25.0),  # one large box a bar, tuned to it
        contact_s=(7.0e-3, 0.8e-3),
        bursts=(Burst(level_db=-19.0, length_s=0.07, centre_hz=700.0, by_beater_db=CLICK_DB),),
    ),
    "desk-bells": Struck(
        ratios=(1.0, 1.0016, 2.71, 4.9, 5.01, 7.5, 10.6),
        levels_db=(0.0, -8.0, -9.0, -13.0, -17.0, -19.0, -24.0),
        ring_s=3.2,
        ring_at_hz=660.0,
        mode_power=0.75,
        contact_s=(0.35e-3, 0.12e-3),
        bursts=(Burst(level_db=-19.0, length_s=0.03, centre_hz=3400.0, octaves=1.6),),
        source=f"a small thin cup, its plunger's click; partials {MEMORY}; {OURS}",
    ),
    "steel-pan": Struck(
        ratios=(1.0, 2.0, 2.003, 3.0, 4.01, 5.3, 6.2),
        levels_db=(0.0, -2.0, -9.0, -9.0, -13.0, -20.0, -24.0),
        ring_s=1.5,
        ring_at_hz=330.0,
        ring_power=0.4,
        mode_power=0.35,
        contact_s=(2.2e-3, 0.5e-3),
        bloom_s=0.02,  # the dome hands its energy on to the octave and the twelfth
        bursts=(Burst(level_db=-18.0, length_s=0.04, centre_hz=1500.0, by_beater_db=CLICK_DB),),
        source=f"note dome tuned 1 : 2 : 3 and often 4, {F_AND_R} ch. 20, {MEMORY}; {OURS}",
    ),
    "ocarina": Blown(
        harmonics_db=(0.0, -30.0, -34.0, -46.0),
        noise_bands=((2200.0, 2.0, 0.0), (5200.0, 1.6, -6.0)),
        breath_db=-25.0,
        tilt_db=6.0,
        attack_s=0.05,
        release_s=0.05,
        chiff=Burst(level_db=-12.0, length_s=0.05, centre_hz=2400.0, octaves=1.8, rise_s=0.012),
        source=f"a hollow that breath sets ringing (Helmholtz): next to no overtones; levels {MEMORY}",
    ),
    "violin": Blown(
        # The bow's sawtooth falls by 6 dB an octave; the body lifts it about its own resonances.
        formants=(
            (280.0, 60.0, -4.0),
            (460.0, 70.0, 0.0),
            (560.0, 80.0, -1.0),
            (1100.0, 500.0, -5.0),
            (2500.0, 1500.0, -2.0),
            (3600.0, 2000.0, -9.0),
        ),
        noise_bands=((3000.0, 2.5, 0.0),),
        breath_db=-34.0,
        tilt_db=4.0,
        attack_s=0.09,
        release_s=0.12,
        wobble_hz=0.7,  # a child's bow does not press evenly
        wobble_depth=0.12,
        source=f"Helmholtz motion of a bowed string, air and body resonances and the bridge's hill, {F_AND_R} ch. 10, "
        f"{MEMORY}",
    ),
    "guitar": Struck(
        ratios=string(34, 5e-5),
        levels_db=plucked_db(34, 0.19),
        ring_s=3.6,
        ring_at_hz=196.0,
        ring_power=0.45,
        mode_power=0.55,
        contact_s=(0.8e-3, 0.2e-3),
        uneven_db=1.5,
        bursts=(
            Burst(level_db=-12.0, length_s=0.09, centre_hz=110.0, octaves=0.8),
            Burst(level_db=-15.0, length_s=0.06, centre_hz=220.0, octaves=0.8),
        ),
        damped="rest",
        damp_s=0.2,
        source=f"string plucked at a fifth of its length, sin(n pi p) / n; air and top at 110 and 220 Hz, {MEMORY}; "
        f"{OURS}",
    ),
    "acoustic-piano": Struck(
        ratios=_PIANO,
        levels_db=_PIANO_DB,
        ring_s=8.0,
        ring_at_hz=262.0,
        ring_power=0.65,
        mode_power=0.55,
        contact_s=(2.2e-3, 0.5e-3),
        stiffening=(0.6, 0.4),  # felt hammers
        uneven_db=0.7,
        bursts=(
            Burst(level_db=-20.0, length_s=0.09, centre_hz=240.0, octaves=1.8),
            Burst(level_db=-27.0, length_s=0.03, centre_hz=1800.0),
        ),
        damped="note",
        damp_s=0.25,
        source=f"two stiff strings to a note, struck at an eighth, {F_AND_R} ch. 12; a cent apart, ours; {OURS}",
    ),
}

FURTHER_UNTUNED: dict[str, Voice] = {
    "cajon": Struck(
        ratios=(1.0, 2.1, 3.05, 4.6, 6.3, 8.4),
        levels_db=(0.0, -5.0, -9.0, -13.0, -16.0, -19.0),
        first_hz=(88.0, 245.0),  # the box's air for a hand in the middle, the board for fingers at its edge
        ring_s=0.28,
        ring_at_hz=88.0,
        ring_power=0.5,
        mode_power=0.7,
        contact_s=(5.0e-3, 1.2e-3),
        uneven_db=2.0,
        bursts=(
            Burst(level_db=-12.0, length_s=0.05, centre_hz=900.0, octaves=2.2, by_beater_db=SLAP_DB),
            Burst(level_db=-15.0, length_s=0.11, centre_hz=3800.0, octaves=2.0, rise_s=0.004),  # wires behind the board
        ),
        source=f"a box with a hole and a thin board, {MEMORY}; {OURS}",
    ),
    "bucket": Struck(
        ratios=(1.0, 1.62, 2.34, 3.2, 3.9, 5.2, 6.7),
        levels_db=(0.0, -2.0, -5.0, -9.0, -11.0, -15.0, -19.0),
        first_hz=(128.0,),
        ring_s=0.24,
        ring_at_hz=128.0,
        mode_power=0.75,
        contact_s=(4.0e-3, 0.7e-3),
        uneven_db=2.5,
        bursts=(Burst(level_db=-10.0, length_s=0.05, centre_hz=1000.0, octaves=2.4, by_beater_db=SLAP_DB),),
        source=f"a soft plastic bottom over a column of air, {MEMORY}; {OURS}",
    ),
    "tins": Struck(
        ratios=_WALL,
        levels_db=tuple(-2.5 * (i // 2) - 2.0 * (i % 2) for i in range(len(_WALL))),
        first_hz=(640.0,),
        ring_s=0.4,
        ring_at_hz=640.0,
        mode_power=0.35,
        contact_s=(1.2e-3, 0.15e-3),
        uneven_db=3.5,
        bursts=(Burst(level_db=-9.0, length_s=0.04, centre_hz=2600.0, octaves=2.4, by_beater_db=CLICK_DB),),
        source=f"thin steel wall, modes of a ring; pitch and decay {MEMORY}; {OURS}",
    ),
    "bottles": Struck(
        ratios=ring_bending(4),
        levels_db=(0.0, -5.0, -11.0, -18.0),
        first_hz=(1480.0, 1110.0),  # two bottles, the fuller one lower: what it holds moves with its wall
        ring_s=0.5,
        ring_at_hz=1480.0,
        mode_power=0.7,
        contact_s=(0.4e-3, 0.15e-3),
        uneven_db=2.0,
        bursts=(Burst(level_db=-20.0, length_s=0.012, centre_hz=4800.0),),
        source=f"glass wall, modes of a ring; pitch and decay {MEMORY}; {OURS}",
    ),
    "agogo": Struck(
        ratios=(1.0, 2.35, 2.61, 3.9, 5.2, 6.8),
        levels_db=(0.0, -8.0, -11.0, -14.0, -18.0, -21.0),
        first_hz=(740.0, 990.0),
        ring_s=0.7,
        ring_at_hz=740.0,
        mode_power=0.6,
        contact_s=(0.8e-3, 0.12e-3),
        bursts=(Burst(level_db=-19.0, length_s=0.01, centre_hz=5000.0, by_beater_db=CLICK_DB),),
        source=f"two cones of sheet steel about a fourth apart, {MEMORY}; {OURS}",
    ),
    "gong": Struck(
        ratios=_GONG,
        levels_db=tuple(_gong_db(92.0 * r) for r in _GONG),
        first_hz=(92.0,),
        ring_s=13.0,
        ring_at_hz=92.0,
        mode_power=0.55,
        contact_s=(9.0e-3, 1.5e-3),
        stiffening=(0.6, 0.3),
        uneven_db=1.8,
        bloom_s=0.16,
        longest_s=5.5,
        damped="rest",
        damp_s=1.0,
        source=f"large thin plate, evenly dense modes; its treble comes in last, {F_AND_R} ch. 20; {OURS}",
    ),
    "temple-blocks": Struck(
        ratios=(1.0, 2.45, 3.7, 5.4),
        levels_db=(0.0, -14.0, -18.0, -23.0),
        first_hz=(420.0, 530.0, 670.0),
        ring_s=0.2,
        ring_at_hz=420.0,
        mode_power=0.7,
        contact_s=(2.2e-3, 0.25e-3),
        bursts=(Burst(level_db=-17.0, length_s=0.018, centre_hz=2600.0, by_beater_db=CLICK_DB),),
        source=f"hollow shells whose air carries most of the sound, three of a set, {MEMORY}; {OURS}",
    ),
    "vibraslap": Shaken(
        resonances=(
            Resonance(hz=1800.0, ring_s=0.012, level_db=0.0),
            Resonance(hz=2900.0, ring_s=0.009, level_db=-3.0),
            Resonance(hz=4600.0, ring_s=0.006, level_db=-8.0),
            Resonance(hz=900.0, ring_s=0.02, level_db=-9.0),
        ),
        grains_per_s=24.0,
        calm_s=1.7,
        spread=0.3,
        rise_s=0.003,
        rattle=True,
        source=f"loose pins in a wooden box that a rod keeps swinging, some 24 clacks a second; {MEMORY}; {COLLISIONS}",
    ),
    "ratchet": Shaken(
        resonances=(
            Resonance(hz=1250.0, ring_s=0.018, level_db=0.0),
            Resonance(hz=2300.0, ring_s=0.012, level_db=-2.0),
            Resonance(hz=3700.0, ring_s=0.007, level_db=-5.0),
            Resonance(hz=5600.0, ring_s=0.004, level_db=-10.0),
        ),
        grains_per_s=20.0,
        calm_s=0.4,
        spread=0.35,
        rattle=True,
        always_held=True,
        shake_hz=1.3,
        shake_depth=0.35,
        attack_s=0.02,
        release_s=0.03,
        source=f"a tongue that snaps from cog to cog, some 20 a second; resonances {MEMORY}; {COLLISIONS}",
    ),
    "paper": Shaken(
        resonances=(
            Resonance(hz=2700.0, ring_s=0.0016, level_db=0.0),
            Resonance(hz=5200.0, ring_s=0.0012, level_db=-2.0),
            Resonance(hz=900.0, ring_s=0.004, level_db=-8.0),
            Resonance(hz=230.0, ring_s=0.03, level_db=-16.0),
        ),
        grains_per_s=700.0,
        calm_s=0.4,
        spread=1.0,
        rise_s=0.02,
        shake_hz=4.0,
        in_time=True,
        source=f"creases that snap one by one, few loud and many soft; {MEMORY}; {COLLISIONS}",
    ),
    "keys": Shaken(
        resonances=jingles(((3600.0, -3.0), (5900.0, 0.0), (8800.0, -4.0)), 0.11, 5),
        grains_per_s=110.0,
        calm_s=0.32,
        spread=0.8,
        shake_hz=5.0,
        in_time=True,
        source=f"small brass bars, no two alike, {MEMORY}; {COLLISIONS}",
    ),
    "slide-whistle": Blown(
        first_hz=830.0,
        slide_octaves=1.0,
        harmonics_db=(0.0, -24.0, -15.0, -36.0),
        noise_bands=((3000.0, 2.0, 0.0),),
        breath_db=-24.0,
        tilt_db=4.0,
        attack_s=0.06,
        release_s=0.08,
        source=f"stopped flue pipe, odd harmonics stronger, its length drawn out and in; levels {MEMORY}",
    ),
    "water-bowl": Shaken(
        resonances=(),
        bubbles_mm=(1.6, 5.5),
        grains_per_s=46.0,
        calm_s=0.55,
        spread=0.9,
        rise_s=0.03,
        shake_hz=1.3,
        shake_depth=0.85,
        always_held=True,
        attack_s=0.08,
        release_s=0.25,
        source="bubbles that ring at 3.26 m/s over their radius (Minnaert 1933); how many and how large: ours",
    ),
    "voices-s": Blown(
        noise_bands=((7000.0, 1.0, 0.0), (9800.0, 1.2, -5.0), (4600.0, 1.0, -13.0)),
        attack_s=0.05,
        release_s=0.08,
        source=f"spectral peak of a child's 's' about 7 kHz and up; {MEMORY}",
    ),
    "voices-tk": Struck(
        ratios=(1.0, 1.7, 2.5),
        levels_db=(0.0, -5.0, -11.0),
        first_hz=(3600.0, 1750.0),  # the tip of the tongue, its back
        ring_s=0.012,
        ring_at_hz=1750.0,
        mode_power=0.3,
        contact_s=(0.3e-3, 0.1e-3),
        uneven_db=3.0,
        bursts=(
            Burst(level_db=-1.0, length_s=0.02, centre_hz=3600.0, octaves=2.2),
            Burst(level_db=-7.0, length_s=0.06, centre_hz=2600.0, octaves=2.4, rise_s=0.006),  # the breath after it
        ),
        source=f"bursts of 't' about 4 kHz and of 'k' about 1.8 kHz; {MEMORY}",
    ),
    "voices-pop": Struck(
        ratios=(1.0, 2.6, 4.1),
        levels_db=(0.0, -11.0, -17.0),
        first_hz=(690.0,),
        ring_s=0.05,
        ring_at_hz=690.0,
        mode_power=0.6,
        contact_s=(1.4e-3, 0.5e-3),
        uneven_db=2.5,
        bursts=(Burst(level_db=-7.0, length_s=0.018, centre_hz=1300.0, octaves=2.4),),
        source=f"lips that let go of a round, hollow mouth (Helmholtz); {MEMORY}",
    ),
    "voices-chant": Blown(
        first_hz=247.0,
        formants=((650.0, 110.0, 0.0), (1250.0, 140.0, -5.0), (3000.0, 260.0, -18.0), (4200.0, 380.0, -26.0)),
        noise_bands=((3600.0, 2.0, 0.0),),
        breath_db=-22.0,
        singers=5,
        spread_cents=45.0,
        attack_s=0.03,
        release_s=0.07,
        wobble_hz=3.6,  # syllables
        wobble_depth=0.85,
        source=f"children who speak together, some 3.6 syllables a second about 250 Hz; {MEMORY}",
    ),
}
