"""Voices that play notes: bars, bells, tubes, strings, pipes and singing."""

from __future__ import annotations

from dataclasses import replace

from sonify.sound.voices.bodies import free_bar, plucked_db, string
from sonify.sound.voices.records import Blown, Burst, Struck, Voice

FLAT_BAR = free_bar(6)
F_AND_R = "partials: Fletcher & Rossing, The Physics of Musical Instruments"
ROSEWOOD = (
    "rosewood bars: decay goes with one over frequency, loss factor 0.0045 +- 0.0009 (Hill, decay constants of marimba "
    "bars, student report); the box below takes energy from the first partial"
)
#: The click of a beater: wool makes next to none, wood and hard rubber one that is heard (ours).
CLICK_DB = 22.0
OURS = "ring and contact times: rough values of the trade, from memory, not verified"

#: The knock of the box and the frame below wooden bars: with any beater, more with a hard one (ours).
WOOD_DB = 8.0

SOPRANO_XYLOPHONE = Struck(
    ratios=(1.0, 3.0, 6.0, 10.1, 14.8),  # undercut to a twelfth; third and above not tuned
    levels_db=(0.0, -3.0, -10.0, -17.0, -24.0),  # the box below the bars lifts the first
    ring_s=0.95,
    ring_power=0.8,
    mode_power=1.0,
    contact_s=(0.9e-3, 0.11e-3),
    stiffening=(0.3, 0.2),  # yarn over rubber, wound tight
    bursts=(
        Burst(level_db=-19.0, length_s=0.025, centre_hz=2600.0, by_beater_db=CLICK_DB),
        Burst(level_db=-17.0, length_s=0.06, centre_hz=620.0, octaves=1.6, by_beater_db=WOOD_DB),
    ),
    source=f"{F_AND_R} ch. 19 and HyperPhysics (1 : 3), third partial from memory; {ROSEWOOD}; contact: ours",
)

BASS_XYLOPHONE = replace(
    SOPRANO_XYLOPHONE,
    ratios=(1.0, 4.0, 9.6, 15.9),  # undercut to two octaves, as a marimba
    levels_db=(0.0, -4.0, -11.0, -18.0),
    ring_power=0.65,
    contact_s=(2.4e-3, 0.25e-3),
    bursts=(
        Burst(level_db=-19.0, length_s=0.04, centre_hz=1200.0, by_beater_db=CLICK_DB),
        Burst(level_db=-17.0, length_s=0.09, centre_hz=260.0, octaves=1.6, by_beater_db=WOOD_DB),
    ),
    source=f"{F_AND_R} ch. 19 and HyperPhysics (1 : 4 : about 10); {ROSEWOOD}; contact: ours",
)

ALTO_METALLOPHONE = Struck(
    ratios=(1.0, 3.9, 9.2, 16.1),
    levels_db=(0.0, -9.0, -15.0, -22.0),
    ring_s=4.0,
    ring_power=0.5,
    mode_power=0.75,
    contact_s=(2.4e-3, 0.2e-3),
    bursts=(Burst(level_db=-22.0, length_s=0.02, centre_hz=3200.0, by_beater_db=CLICK_DB),),
    damped="rest",
    damp_s=0.25,
    source=f"undercut thick bar, near the 1 : 4 of {F_AND_R} ch. 19; {OURS}",
)

TUNED: dict[str, Voice] = {
    "soprano-xylophone": SOPRANO_XYLOPHONE,
    "alto-xylophone": replace(
        SOPRANO_XYLOPHONE,
        contact_s=(1.4e-3, 0.15e-3),
        bursts=(
            Burst(level_db=-19.0, length_s=0.03, centre_hz=1900.0, by_beater_db=CLICK_DB),
            Burst(level_db=-17.0, length_s=0.07, centre_hz=430.0, octaves=1.6, by_beater_db=WOOD_DB),
        ),
    ),
    "bass-xylophone": BASS_XYLOPHONE,
    "soprano-glockenspiel": Struck(
        ratios=FLAT_BAR[:5],
        levels_db=(0.0, -2.0, -5.0, -10.0, -15.0),
        ring_s=4.5,
        ring_power=0.7,
        mode_power=0.85,
        contact_s=(0.24e-3, 0.05e-3),
        bursts=(Burst(level_db=-20.0, length_s=0.012, centre_hz=5000.0, by_beater_db=CLICK_DB),),
        source=f"uniform bar, {F_AND_R} ch. 2; {OURS}",
    ),
    "alto-glockenspiel": Struck(
        ratios=FLAT_BAR[:6],
        levels_db=(0.0, -2.0, -5.0, -10.0, -15.0, -23.0),
        ring_s=4.5,
        ring_power=0.7,
        mode_power=0.85,
        contact_s=(0.32e-3, 0.07e-3),
        bursts=(Burst(level_db=-20.0, length_s=0.015, centre_hz=4000.0, by_beater_db=CLICK_DB),),
        source=f"uniform bar, {F_AND_R} ch. 2; {OURS}",
    ),
    "alto-metallophone": ALTO_METALLOPHONE,
    "bass-metallophone": replace(ALTO_METALLOPHONE, ring_s=4.5, contact_s=(3.6e-3, 0.28e-3)),
    "chime-bars": Struck(
        ratios=FLAT_BAR[:4],
        levels_db=(0.0, -13.0, -17.0, -24.0),  # one box a bar, tuned to it
        ring_s=3.0,
        mode_power=0.9,
        contact_s=(2.2e-3, 0.18e-3),
        bursts=(Burst(level_db=-20.0, length_s=0.02, centre_hz=2500.0, by_beater_db=CLICK_DB),),
        source=f"uniform bar over a quarter-wave box, {F_AND_R} ch. 19; {OURS}",
        damped="rest",
        damp_s=0.3,
    ),
    "hand-bells": Struck(
        ratios=(1.0, 1.0012, 2.0, 3.0, 3.004, 6.0, 4.3, 5.4, 7.2, 8.6),
        levels_db=(0.0, -10.0, -16.0, -3.0, -12.0, -14.0, -17.0, -15.0, -20.0, -22.0),
        ring_s=3.6,
        mode_power=0.6,
        contact_s=(0.5e-3, 0.12e-3),
        damped="note",
        damp_s=0.2,
        source="(2,0) and (3,0) modes tuned 1 : 3; each also radiates its own octave, harmonics 2 and 6 "
        f"(Rossing & Perrin 1987 and Rossing & Sathoff 1980, abstracts; HyperPhysics); upper partials and {OURS}",
    ),
    "tuned-tubes": Struck(
        ratios=(1.0, 2.0, 3.0, 4.0, 5.0, 6.0),
        levels_db=(0.0, -7.0, -13.0, -18.0, -23.0, -28.0),
        ring_s=0.28,
        ring_power=0.6,
        mode_power=0.45,
        contact_s=(1.8e-3, 0.7e-3),
        bursts=(
            Burst(level_db=-10.0, length_s=0.05, centre_hz=900.0, octaves=2.2),
            Burst(level_db=-18.0, length_s=0.015, centre_hz=3500.0),
        ),
        source=f"open pipe, harmonics 1 : 2 : 3; {OURS}",
    ),
    "ukulele": Struck(
        ratios=string(28, 6e-5),
        levels_db=plucked_db(28, 0.21),
        ring_s=1.6,
        ring_power=0.45,
        mode_power=0.55,
        contact_s=(0.55e-3, 0.16e-3),
        uneven_db=1.5,
        bursts=(Burst(level_db=-13.0, length_s=0.05, centre_hz=480.0, octaves=1.2),),
        source=f"string plucked at a fifth of its length, sin(n pi p) / n; {OURS}",
    ),
    "keyboard": Struck(
        ratios=string(40, 3.5e-4),
        levels_db=plucked_db(40, 0.12),
        ring_s=5.5,
        ring_power=0.6,
        mode_power=0.6,
        contact_s=(1.6e-3, 0.3e-3),
        uneven_db=0.5,
        bursts=(Burst(level_db=-22.0, length_s=0.06, centre_hz=350.0, octaves=1.6),),
        damped="note",
        damp_s=0.18,
        source=f"stiff string struck at an eighth of its length, {F_AND_R} ch. 12; {OURS}",
    ),
    "recorder": Blown(
        harmonics_db=(0.0, -16.0, -13.0, -27.0, -24.0, -35.0, -36.0, -44.0),
        noise_bands=((2600.0, 2.2, 0.0), (6500.0, 1.5, -8.0)),
        breath_db=-27.0,
        tilt_db=5.0,
        attack_s=0.045,
        release_s=0.06,
        chiff=Burst(level_db=-9.0, length_s=0.05, centre_hz=3200.0, octaves=1.6, rise_s=0.012),
        source="open flue pipe, odd harmonics a little stronger; levels and breath from memory, not verified",
    ),
    "voices-oo": Blown(
        formants=((430.0, 80.0, 0.0), (1170.0, 110.0, -14.0), (3260.0, 250.0, -34.0), (4100.0, 350.0, -38.0)),
        noise_bands=((2500.0, 3.0, 0.0),),
        breath_db=-34.0,
        singers=5,
        spread_cents=7.0,
        envelope="sung",
        attack_s=0.12,
        release_s=0.15,
        source="vowel formants of a child's 'oo' (Peterson & Barney 1952, from memory, not verified)",
    ),
    "voices-mm": Blown(
        formants=((270.0, 70.0, 0.0), (1100.0, 200.0, -26.0), (2400.0, 300.0, -30.0), (3400.0, 400.0, -36.0)),
        noise_bands=((1500.0, 3.0, 0.0),),
        breath_db=-38.0,
        singers=5,
        spread_cents=7.0,
        tilt_db=4.0,
        envelope="sung",
        attack_s=0.14,
        release_s=0.18,
        source="nasal murmur: low first formant, weak above (Fant 1960, from memory, not verified)",
    ),
}
