"""What makes a note high or low, and how loudness falls off with distance."""

from __future__ import annotations

import numpy as np

from sonify.science.ranges import FloatArray, Range, Values

#: Of a bar free at both ends: its lowest note is this times thickness times speed of sound in it over length squared.
FREE_BAR = 22.3733 / (4.0 * np.pi * np.sqrt(3.0))

_LENGTH = Range("length_m", "m", 0.0, np.inf, "something that sounds", above=True)
_TENSION = Range("tension_n", "N", 0.0, np.inf, "a string that is pulled tight", above=True)
_LINE_MASS = Range("line_mass_kg_m", "kg/m", 0.0, np.inf, "a string", above=True)
_SPEED = Range("sound_speed_m_s", "m/s", 0.0, np.inf, "sound on its way", above=True)
_THICKNESS = Range("thickness_m", "m", 0.0, np.inf, "a bar", above=True)
_DISTANCE = Range("distance_m", "m", 0.0, np.inf, "somebody who listens", above=True)
_FIRST = Range("first_m", "m", 0.0, np.inf, "somebody who listens", above=True)
_OTHER = Range("other_db", "dB", -np.inf, np.inf, "a level")
_LEVEL = Range("level_db", "dB", -np.inf, np.inf, "a level")


def string_frequency(length_m: Values, tension_n: Values, line_mass_kg_m: Values) -> FloatArray:
    """Return how often a second a string vibrates, Hz, at its lowest note.

        f = sqrt(T / mu) / (2 L)

    Args:
        length_m: length L between the two ends that are held.
        tension_n: tension T.
        line_mass_kg_m: mass mu of a metre of it.

    Raises:
        OutOfRange: any of them nothing, negative, or not a number.

    Valid: a thin string that bends easily; real ones are a little sharp.
    Source: FLETCHER-ROSSING-1998, chapter 2.
    Check: half the length, an octave:
        >>> print(string_frequency(0.3, 60.0, 5e-4) / string_frequency(0.6, 60.0, 5e-4))
        2.0
    """
    wave = np.sqrt(_TENSION.checked(tension_n) / _LINE_MASS.checked(line_mass_kg_m))
    frequency: FloatArray = wave / (2.0 * _LENGTH.checked(length_m))
    return frequency


def tube_frequency(length_m: Values, sound_speed_m_s: Values) -> FloatArray:
    """Return how often a second the air in a tube open at both ends vibrates, Hz, at its lowest note.

        f = c / (2 L)

    Args:
        length_m: length L of the tube.
        sound_speed_m_s: speed of sound c in the air in it.

    Raises:
        OutOfRange: any of them nothing, negative, or not a number.

    Valid: a tube much longer than wide; a real one sounds as if it were longer by about 0.6 of its width.
    Source: FLETCHER-ROSSING-1998, chapter 8.
    Check: 60 cm at 343 m/s:
        >>> print(f"{tube_frequency(0.6, 343.0):.1f}")
        285.8
    """
    frequency: FloatArray = _SPEED.checked(sound_speed_m_s) / (2.0 * _LENGTH.checked(length_m))
    return frequency


def bar_frequency(length_m: Values, thickness_m: Values, sound_speed_m_s: Values) -> FloatArray:
    """Return how often a second a bar that lies free vibrates, Hz, at its lowest note.

        f = 1.0279 h c / L²

    Args:
        length_m: length L of the bar.
        thickness_m: thickness h.
        sound_speed_m_s: speed c of sound along it, about 5000 m/s in steel and in hard wood along the grain.

    Raises:
        OutOfRange: any of them nothing, negative, or not a number.

    Valid: a bar of one thickness, much longer than thick; those of xylophones are carved out beneath and lower.
    Source: FLETCHER-ROSSING-1998, chapter 2, Euler and Bernoulli's beam with free ends.
    Check: half the length, two octaves:
        >>> print(bar_frequency(0.1, 0.005, 5000.0) / bar_frequency(0.2, 0.005, 5000.0))
        4.0
    """
    stiff = FREE_BAR * _THICKNESS.checked(thickness_m) * _SPEED.checked(sound_speed_m_s)
    frequency: FloatArray = stiff / _LENGTH.checked(length_m) ** 2
    return frequency


def level_at(level_db: Values, first_m: Values, distance_m: Values) -> FloatArray:
    """Return the level of a source, dB, at another distance in the open.

        L = L_1 - 20 lg(r / r_1)

    Args:
        level_db: level L_1 at the first distance.
        first_m: that distance r_1.
        distance_m: the other distance r.

    Raises:
        OutOfRange: no distance, or not a number.

    Valid: a source small beside the distance, nothing that throws sound back, up to some hundred metres.
    Source: ISO-9613-2, geometrical divergence.
    Check: twice as far, 6.02 dB less:
        >>> print(f"{level_at(85.0, 1.0, 2.0):.2f}")
        78.98
    """
    ratio = _DISTANCE.checked(distance_m) / _FIRST.checked(first_m)
    level: FloatArray = _LEVEL.checked(level_db) - 20.0 * np.log10(ratio)
    return level


def levels_together(level_db: Values, other_db: Values) -> FloatArray:
    """Return the level of two sounds that have nothing to do with each other, dB.

        L = 10 lg(10^(L_1 / 10) + 10^(L_2 / 10))

    Args:
        level_db: level L_1 of the one.
        other_db: level L_2 of the other.

    Raises:
        OutOfRange: not a number.

    Valid: sounds of different sources.
    Source: ISO-9613-2, levels added by their energy.
    Check: two alike are 3.01 dB more than one:
        >>> print(f"{levels_together(60.0, 60.0):.2f}")
        63.01
    """
    level: FloatArray = (
        10.0
        / np.log(10.0)
        * np.logaddexp(np.log(10.0) / 10.0 * _LEVEL.checked(level_db), np.log(10.0) / 10.0 * _OTHER.checked(other_db))
    )
    return level
