"""Values of a control in words: for people, and as a scene file writes them."""

from __future__ import annotations

from math import floor

from sonify.records.scene import DYNAMICS
from sonify.records.words import dynamic_word, note_name, number_text, tempo_word, velocity_mark

#: From so much brightness up: words.
BRIGHTNESS_WORDS = (
    (0.0, "very dark (the softest beater)"),
    (0.2, "dark (a soft beater)"),
    (0.4, "medium (a medium beater)"),
    (0.6, "bright (a hard beater)"),
    (0.8, "very bright (the hardest beater)"),
)

#: What happens to the sound as the control rises, and as it falls.
DIRECTIONS = {
    "tempo": ("the faster the beat", "the slower the beat"),
    "pitch": ("the higher the notes", "the lower the notes"),
    "density": ("the more taps", "the fewer taps"),
    "dynamics": ("the louder the sound", "the softer the sound"),
    "brightness": ("the brighter the sound", "the darker the sound"),
}


def sound_text(control: str, value: float, beats_a_bar: int) -> str:
    """A control's value as people read it.

    >>> sound_text("tempo", 66.0, 4), sound_text("pitch", 60.2, 4), sound_text("density", 0.25, 4)
    ('66 a minute', 'C4', '1 tap a bar')
    >>> sound_text("dynamics", 44.0, 4), sound_text("brightness", 0.3, 4)
    ('p (piano, soft)', 'dark (a soft beater)')
    """
    if control == "tempo":
        return f"{number_text(value)} a minute"
    if control == "pitch":
        return note_name(floor(value + 0.5))
    if control == "density":
        return density_text(value, beats_a_bar)
    if control == "dynamics":
        mark = velocity_mark(value)
        return f"{mark} ({', '.join(dynamic_word(mark))})"
    return next(words for least, words in reversed(BRIGHTNESS_WORDS) if value >= least)


def table_text(control: str, value: float, beats_a_bar: int) -> str:
    """The same for a table, where there is room for the tempo's words."""
    text = sound_text(control, value, beats_a_bar)
    return f"{text} ({', '.join(tempo_word(value))})" if control == "tempo" else text


def density_text(per_beat: float, beats_a_bar: int) -> str:
    """So many taps a beat, a bar, or in how many bars there is one.

    >>> density_text(2.0, 4), density_text(0.5, 4), density_text(0.125, 4), density_text(0.0, 4)
    ('2 taps a beat', '2 taps a bar', '1 tap in 2 bars', 'no taps')
    """
    per_bar = per_beat * beats_a_bar
    if per_beat <= 0.0:
        return "no taps"
    if per_beat >= 1.0:
        return _taps(per_beat, "a beat")
    if per_bar >= 1.0:
        return _taps(per_bar, "a bar")
    return f"1 tap in {number_text(1.0 / per_bar, 2)} bars"


def written_text(control: str, value: float) -> str:
    """A control's value as a scene file writes it, in quotation marks."""
    if control == "tempo":
        return f'"{value:g} bpm"'
    if control == "pitch":
        return f'"{note_name(floor(value + 0.5))}"'.replace("♯", "#").replace("♭", "b")
    if control == "density":
        return f'"{value:g} per beat"'
    if control == "dynamics":
        return f'"{velocity_mark(value)}"'
    return f'"{100.0 * value:g} %"'


def marks() -> tuple[float, ...]:
    """The velocities of the dynamic marks, rising."""
    return tuple(float(velocity) for velocity in sorted(DYNAMICS.values()))


def _taps(count: float, each: str) -> str:
    text = number_text(count, 2)
    return f"{text} tap{'' if text == '1' else 's'} {each}"
