"""Who plays on which MIDI channel, with which program and keys."""

from __future__ import annotations

from collections.abc import Sequence

from sonify.errors import OutOfRange
from sonify.frozen import dataclass
from sonify.notation.lines import NotatedLine
from sonify.records.fact import fact
from sonify.records.instrument import Instrument
from sonify.say import say

PERCUSSION = 9  # channel 10, counted from 0
PITCHED = tuple(channel for channel in range(16) if channel != PERCUSSION)

#: A 61-key keyboard, C2 to C7 (reference table 5.4).
LOWEST_KEY, HIGHEST_KEY = 36, 96
WHITE_KEYS = (0, 2, 4, 5, 7, 9, 11)

#: For keyboards: a General MIDI 1 melodic program (counted from 1) near the sound of each unpitched family.
KEYBOARD_PROGRAMS = {
    "metal": (113, "tinkle bell"),
    "bells": (113, "tinkle bell"),
    "skin": (117, "taiko drum"),
    "wood": (116, "woodblock"),
    "body": (116, "woodblock"),
    "scraped": (121, "guitar fret noise"),
    "shaken": (122, "breath noise"),
    "voice": (122, "breath noise"),
    "effect": (123, "seashore"),
}


@dataclass(frozen=True, slots=True, kw_only=True)
class Voice:
    """A line on its channel. program: counted from 0, as the file has it. shared: others play on the channel too.

    remarks: what the reader of the file should know (stand-ins, shared channels, moved keys).
    """

    line: NotatedLine
    channel: int
    program: int
    shared: bool
    remarks: tuple[str, ...] = ()
    fixed_key: int | None = None  # all strokes on this key
    shift: int = 0  # semitones added to every key

    def key(self, midi: int) -> int:
        return midi + self.shift if self.fixed_key is None else self.fixed_key


def voices(lines: Sequence[NotatedLine]) -> tuple[Voice, ...]:
    """Unpitched lines on channel 10, pitched ones on the other fifteen, by program where those do not suffice."""
    channels = iter(_channels([line.row.gm_program for line in lines if line.row.pitched]))
    found = []
    for line in lines:
        remarks: tuple[str, ...] = (say(fact("mark-stand-in", sound=line.row.stand_in)),) if line.row.stand_in else ()
        if not line.row.pitched:
            found.append(Voice(line=line, channel=PERCUSSION, program=0, shared=True, remarks=remarks))
            continue
        channel, shared = next(channels)
        if shared:
            remarks += (say(fact("mark-shares-channel", channel=channel + 1)),)
        program = line.row.gm_program - 1
        found.append(Voice(line=line, channel=channel, program=program, shared=shared, remarks=remarks))
    return tuple(found)


def keyboard_voices(lines: Sequence[NotatedLine]) -> tuple[Voice, ...]:
    """All lines for a 61-key keyboard, none on channel 10: each unpitched one on a white key of its own from C4 up."""
    programs = [line.row.gm_program if line.row.pitched else _stand_in(line.row)[0] for line in lines]
    free_keys = iter(60 + 12 * octave + step for octave in range(3) for step in WHITE_KEYS)
    found = []
    for line, program, (channel, shared) in zip(lines, programs, _channels(programs), strict=True):
        remarks: tuple[str, ...] = (
            (say(fact("mark-stand-in", sound=line.row.stand_in)),) if line.row.pitched and line.row.stand_in else ()
        )
        key, shift = None, 0
        if line.row.pitched:
            shift = _octaves_onto_keyboard(line)
            remarks += (say(fact("mark-moved", semitones=f"{shift:+d}")),) if shift else ()
        else:
            key = next(free_keys, None)
            if key is None:
                raise OutOfRange("unpitched parts", len(lines), "", "21 white keys from middle C", "a 61-key keyboard")
            remarks += (say(fact("mark-on-key", sound=_stand_in(line.row)[1], key=key, instrument=line.row.called)),)
        voice = Voice(
            line=line, channel=channel, program=program - 1, shared=shared, remarks=remarks, fixed_key=key, shift=shift
        )
        found.append(voice)
    return tuple(found)


def _stand_in(row: Instrument) -> tuple[int, str]:
    return KEYBOARD_PROGRAMS.get(row.family, (116, "woodblock"))


def _octaves_onto_keyboard(line: NotatedLine) -> int:
    """Whole octaves, in semitones, that bring the line between the keyboard's ends."""
    if not line.notes:
        return 0
    low, high = min(note.midi for note in line.notes), max(note.midi for note in line.notes)
    shift = 0
    while high + shift > HIGHEST_KEY:
        shift -= 12
    while low + shift < LOWEST_KEY:
        shift += 12
    if high + shift > HIGHEST_KEY:
        span = f"{HIGHEST_KEY - LOWEST_KEY} semitones"
        raise OutOfRange(f"range of {line.part.name}", high - low, "semitones", span, "a 61-key keyboard")
    return shift


def _channels(programs: Sequence[int]) -> list[tuple[int, bool]]:
    """Channel of each pitched line and whether others share it: one each, or one a program where those run out."""
    if len(programs) <= len(PITCHED):
        return [(channel, False) for channel, _ in zip(PITCHED, programs, strict=False)]
    distinct = list(dict.fromkeys(programs))
    if len(distinct) > len(PITCHED):
        raise OutOfRange("different pitched sounds", len(distinct), "", "at most 15", "a MIDI file's channels")
    return [(PITCHED[distinct.index(program)], programs.count(program) > 1) for program in programs]
