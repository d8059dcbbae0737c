"""What the words of a scene file mean: measures, tempi, note names, densities, dynamic marks, metres, scales.

Each reading takes the text as written and raises UnreadableWord (or UnitError) with what is allowed.
"""

from __future__ import annotations

import re
from collections.abc import Iterable
from math import isfinite

from sonify.errors import SonifyError, UnknownName
from sonify.inputs.document import one_line, shown
from sonify.kinds.marks import DYNAMICS
from sonify.records.fact import wrong
from sonify.records.scene import WORD, Measure, Metre, Scale
from sonify.units import UnitError, split, to_si

#: Hard limits of a beat that a class can feel (reference table 5.7, our own choice from it).
SLOWEST_BPM, FASTEST_BPM = 30.0, 240.0
SHORTEST_S, LONGEST_S = 30.0, 3600.0
#: A0 to C8: the notes of a piano (sounding, MIDI numbers).
LOWEST_NOTE, HIGHEST_NOTE = 21, 108
#: Six pupils at two strokes a second, at the slowest beat, come to 24.
MOST_A_BEAT = 24.0

LETTERS = {"C": 0, "D": 2, "E": 4, "F": 5, "G": 7, "A": 9, "B": 11}
SHIFTS = {"": 0, "#": 1, "♯": 1, "b": -1, "♭": -1}

#: Semitones above the tonic.
MODES = {
    "pentatonic": (0, 2, 4, 7, 9),
    "minor pentatonic": (0, 3, 5, 7, 10),
    "major": (0, 2, 4, 5, 7, 9, 11),
    "minor": (0, 2, 3, 5, 7, 8, 10),
    "dorian": (0, 2, 3, 5, 7, 9, 10),
    "phrygian": (0, 1, 3, 5, 7, 8, 10),
    "lydian": (0, 2, 4, 6, 7, 9, 11),
    "mixolydian": (0, 2, 4, 5, 7, 9, 10),
    "whole tone": (0, 2, 4, 6, 8, 10),
}

_NOTE = re.compile(r"([A-Ga-g])([#♯b♭]?)(-?\d)")
_TONIC = re.compile(r"([A-Ga-g])([#♯b♭]?)\s+(\S.*)")
_METRE = re.compile(r"([234])/4")
# A unit's words, each with at most one digit as its power: nothing that pint could reckon at for hours.
_UNIT_WORD = r"(?:1|%|°|[°A-Za-zµμΩ_]+[²³]?(?:(?:\*\*|\^)-?\d)?)"
_UNIT = re.compile(rf"{_UNIT_WORD}(?:\s*(?:[*/·]|\s)\s*{_UNIT_WORD})*")
_LONGEST_UNIT = 40
_CHOICE = re.compile(r"[A-Za-z]+(?:[ -]+[A-Za-z]+){0,3}")


class UnreadableWord(SonifyError, ValueError):
    """A word of a scene file that means nothing there; says what is allowed."""


def unknown(kind: str, name: str, allowed: Iterable[str]) -> UnreadableWord:
    """An unknown name with what is allowed and the nearest spelling."""
    return UnreadableWord(UnknownName(kind, one_line(name, 60), allowed))


def measure(text: str) -> Measure:
    """A number with its unit. Whether the unit exists and fits is for whoever knows the quantity.

    >>> measure("14 degC"), measure("70 /min").unit
    (Measure(text='14 degC', value=14.0, unit='degC'), '1/min')
    """
    value, unit = _split(text)
    unit = f"1{unit}" if unit.startswith("/") else unit
    if not isfinite(value) or abs(value) > 1e12:
        raise UnreadableWord(wrong("error_inputs-too-large-number", text=shown(text)))
    if len(unit) > _LONGEST_UNIT or not _UNIT.fullmatch(unit.replace("(", " ").replace(")", " ").strip()):
        raise UnitError(wrong("error_inputs-unit-write-degc", text=shown(text), unit=shown(unit)))
    return Measure(text=text.strip(), value=value, unit=unit)


def is_word(text: str) -> bool:
    """Whether a text could be one of a condition's choices."""
    return _CHOICE.fullmatch(text.strip()) is not None


def measure_or_word(text: str) -> Measure:
    """A number with its unit, or a word of a condition's choices. Whether it has such words is for the process.

    >>> measure_or_word("candle  wax")
    Measure(text='candle wax', value=0.0, unit='word')
    """
    if is_word(text):
        return Measure(text=" ".join(text.split()), value=0.0, unit=WORD)
    return measure(text)


def _split(text: str) -> tuple[float, str]:
    if len(text) > 80:
        raise UnitError(wrong("error_inputs-number-unit-degc", text=shown(text)))
    return split(text)


def _number(text: str, unit: str, example: str) -> float:
    """The number before a musical unit, which pint does not know."""
    try:
        value, written = _split(text)
    except UnitError:
        written = ""
    if written != unit or not isfinite(value):
        raise UnreadableWord(wrong("error_inputs-read-here-write", text=shown(text), example=example))
    return value


def _within(value: float, low: float, high: float, text: str, covered: str) -> float:
    if not low <= value <= high:
        raise UnreadableWord(wrong("error_inputs-outside-what-allowed", text=shown(text), covered=covered))
    return value


def length_s(text: str) -> float:
    """The length of a piece, in seconds.

    >>> length_s("3 min")
    180.0
    """
    measure(text)
    return _within(to_si(text, "s"), SHORTEST_S, LONGEST_S, text, "30 s to 60 min")


def tempo_bpm(text: str) -> float:
    """Beats a minute.

    >>> tempo_bpm("66 bpm")
    66.0
    """
    bpm = _number(text, "bpm", "66 bpm")
    return _within(bpm, SLOWEST_BPM, FASTEST_BPM, text, f"{SLOWEST_BPM:g} to {FASTEST_BPM:g} bpm")


def note_number(text: str) -> int:
    """The MIDI number of a sounding note, by scientific pitch: C4 is 60.

    >>> note_number("C4"), note_number("F#5"), note_number("Bb3")
    (60, 78, 58)
    """
    found = _NOTE.fullmatch(text.strip())
    if not found:
        raise UnreadableWord(wrong("error_inputs-note-write-letter", text=shown(text)))
    number = 12 * (int(found[3]) + 1) + LETTERS[found[1].upper()] + SHIFTS[found[2]]
    return int(_within(number, LOWEST_NOTE, HIGHEST_NOTE, text, "A0 to C8"))


def per_beat(text: str, metre: Metre) -> float:
    """Strokes a beat, for the whole group.

    >>> per_beat("1 per bar", Metre(beats=4)), per_beat("2 per beat", Metre(beats=4))
    (0.25, 2.0)
    """
    unit = "per bar" if text.rstrip().endswith("bar") else "per beat"
    number = _number(" ".join(text.split()), unit, '1 per bar" or "2 per beat')
    strokes = number / metre.beats if unit == "per bar" else number
    return _within(strokes, 0.0, MOST_A_BEAT, text, f"0 to {MOST_A_BEAT:g} per beat for the whole group")


def velocity(text: str) -> float:
    """The MIDI velocity of a dynamic mark.

    >>> velocity("mf")
    70.0
    """
    if text.strip() not in DYNAMICS:
        raise UnreadableWord(wrong("error_inputs-dynamic-mark-allowed", text=shown(text), dynamics=", ".join(DYNAMICS)))
    return float(DYNAMICS[text.strip()])


def share(text: str) -> float:
    """A share from 0 to 1.

    >>> share("20 %")
    0.2
    """
    return _within(_number(text, "%", "20 %") / 100.0, 0.0, 1.0, text, "0 % to 100 %")


def metre(text: str) -> Metre:
    """A simple metre.

    >>> metre("3/4").beats
    3
    """
    found = _METRE.fullmatch(text.strip())
    if not found:
        raise UnreadableWord(wrong("error_inputs-metre-toolkit-allowed", text=shown(text)))
    return Metre(beats=int(found[1]))


def scale(text: str) -> Scale:
    """A tonic and a mode, its pitch classes in rising order from the tonic.

    >>> scale("D dorian").pitch_classes
    (2, 4, 5, 7, 9, 11, 0)
    """
    found = _TONIC.fullmatch(text.strip())
    if not found:
        raise UnreadableWord(wrong("error_inputs-scale-write-tonic", text=shown(text)))
    mode = " ".join(found[3].lower().split())
    if mode not in MODES:
        raise unknown("mode", mode, MODES)
    tonic = (LETTERS[found[1].upper()] + SHIFTS[found[2]]) % 12
    name = f"{found[1].upper()}{found[2]} {mode}"
    return Scale(name=name, tonic=tonic, pitch_classes=tuple((tonic + step) % 12 for step in MODES[mode]))


def sound(control: str, text: str, bar: Metre) -> float:
    """One end of a rule's `to`, in the control's own unit (kinds.controls).

    >>> sound("tempo", "66 bpm", Metre()), sound("pitch", "C4", Metre())
    (66.0, 60.0)
    """
    if control == "density":
        return per_beat(text, bar)
    readings = {"tempo": tempo_bpm, "pitch": note_number, "dynamics": velocity, "brightness": share}
    return float(readings[control](text))
