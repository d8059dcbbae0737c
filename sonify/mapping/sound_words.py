"""Values of a control as facts, for people; and as a scene file writes them."""

from __future__ import annotations

from math import floor

from sonify.kinds.marks import DYNAMICS
from sonify.records.fact import Amount, Fact, Note, fact
from sonify.records.words import NOTE_LETTERS, pace, tempo_term, velocity_mark

#: From so much brightness up: which of the words of `sound-brightness`.
BRIGHTNESS = ((0.0, "darkest"), (0.2, "dark"), (0.4, "medium"), (0.6, "bright"), (0.8, "brightest"))
#: What the figures of a control are: settings of a rule, which the claim "by rule" of its sentence holds.
_SET = "a setting of the rule"


def sound(control: str, value: float, beats_a_bar: int) -> Fact:
    """A control's value: "66 a minute", "C4", "1 tap a bar", "p (piano, soft)", "dark (a soft beater)"."""
    match control:
        case "tempo":
            return fact("sound-tempo", bpm=Amount(value=value, given=_SET))
        case "pitch":
            return fact("sound-pitch", note=Note(floor(value + 0.5)))
        case "density":
            return _density(value, beats_a_bar)
        case "dynamics":
            return fact("sound-dynamics", mark=velocity_mark(value))
        case _:
            return fact("sound-brightness", how=next(how for least, how in reversed(BRIGHTNESS) if value >= least))


def sound_in_table(control: str, value: float, beats_a_bar: int) -> Fact:
    """The same for a table, where there is room for the tempo's words."""
    if control != "tempo":
        return sound(control, value, beats_a_bar)
    return fact(
        "sound-tempo-in-words",
        bpm=Amount(value=value, given=_SET),
        term=tempo_term(value),
        pace=fact(f"tempo-{pace(value)}"),
    )


def _density(per_beat: float, beats_a_bar: int) -> Fact:
    """So many taps a beat, a bar, or in how many bars there is one."""
    per_bar = per_beat * beats_a_bar
    if per_beat <= 0.0:
        return fact("sound-no-taps")
    if per_beat >= 1.0:
        return _taps(per_beat, "beat")
    if per_bar >= 1.0:
        return _taps(per_bar, "bar")
    return fact("sound-tap-in-bars", bars=Amount(value=1.0 / per_bar, digits=2, given=_SET))


def _taps(count: float, each: str) -> Fact:
    one = f"{count:.1f}" == "1.0" or f"{count:.2g}" == "1"
    return fact("sound-taps", count=Amount(value=count, digits=2, given=_SET), n=1 if one else 2, each=each)


def written_text(control: str, value: float) -> str:
    """A control's value as a scene file writes it, in quotation marks."""
    if control == "tempo":
        return f'"{value:g} bpm"'
    if control == "pitch":
        note = floor(value + 0.5)
        return f'"{NOTE_LETTERS[note % 12]}{note // 12 - 1}"'.replace("♯", "#").replace("♭", "b")
    if control == "density":
        return f'"{value:g} per beat"'
    if control == "dynamics":
        return f'"{velocity_mark(value)}"'
    return f'"{100.0 * value:g} %"'


def marks() -> tuple[float, ...]:
    """The velocities of the dynamic marks, rising."""
    return tuple(float(velocity) for velocity in sorted(DYNAMICS.values()))
