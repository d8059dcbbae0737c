"""Note values: how a length is written in a bar of crotchet beats.

The grid is the demisemiquaver, an eighth of a beat: finer or uneven onsets have no place on a pupil's staff and are
refused. Everything here counts in beats within one bar, from 0.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from fractions import Fraction
from functools import cache

GRID = Fraction(1, 8)
HALF = Fraction(1, 2)

#: Value in beats -> MusicXML type, dots, flags or beams.
VALUES = {
    Fraction(4): ("whole", 0, 0),
    Fraction(3): ("half", 1, 0),
    Fraction(2): ("half", 0, 0),
    Fraction(3, 2): ("quarter", 1, 0),
    Fraction(1): ("quarter", 0, 0),
    Fraction(3, 4): ("eighth", 1, 1),
    Fraction(1, 2): ("eighth", 0, 1),
    Fraction(3, 8): ("16th", 1, 2),
    Fraction(1, 4): ("16th", 0, 2),
    Fraction(1, 8): ("32nd", 0, 3),
}


@cache  # a bar has few places and lengths, a piece many notes
def note_values(start: Fraction, beats: Fraction) -> tuple[Fraction, ...]:
    """Values, to be tied, that write a note of `beats` from `start`: off the beat it is cut where the next beat begins,
    so that every beat can be seen; a dotted crotchet stands only where it ends the note.

    >>> [str(v) for v in note_values(Fraction(1, 2), Fraction(9, 4))]
    ['1/2', '1', '3/4']
    """
    return tuple(_note_values(start, start + beats))


def _note_values(start: Fraction, end: Fraction) -> Iterator[Fraction]:
    while start < end:
        room = end - start if start % 1 == 0 else min(end - start, 1 - start % 1)
        value = next(v for v in VALUES if v <= room and (v != Fraction(3, 2) or v == room))
        yield value
        start += value


@cache
def rest_values(start: Fraction, beats: Fraction, beats_a_bar: int) -> tuple[Fraction, ...]:
    """Values of the rests that fill `beats` from `start`: undotted, each beginning on a multiple of itself.

    A minim rest only fills the first or second half of a bar of four.

    >>> [str(v) for v in rest_values(Fraction(1, 4), Fraction(15, 4), 4)]
    ['1/4', '1/2', '1', '2']
    """
    return tuple(_rest_values(start, start + beats, beats_a_bar))


def _rest_values(start: Fraction, end: Fraction, beats_a_bar: int) -> Iterator[Fraction]:
    while start < end:
        for value in (Fraction(2), Fraction(1), HALF, Fraction(1, 4), GRID):
            if value == 2 and beats_a_bar != 4:
                continue
            if start % value == 0 and value <= end - start:
                break
        yield value
        start += value


def beam_groups(pieces: Sequence[tuple[Fraction, Fraction, bool]]) -> list[list[int]]:
    """Indices of the (start, beats, is a rest) pieces that share a beam: two or more short notes within one beat."""
    groups: list[list[int]] = []
    open_beat: int | None = None
    for index, (start, beats, is_rest) in enumerate(pieces):
        if is_rest or beats >= 1:
            open_beat = None
            continue
        beat = start // 1
        if open_beat == beat:
            groups[-1].append(index)
        else:
            groups.append([index])
            open_beat = beat
    return [group for group in groups if len(group) > 1]


def beam_words(flags: Sequence[int]) -> list[list[str]]:
    """For each note of a beamed group, with so many flags each, the state of each of its beams, primary first.

    >>> beam_words([1, 2, 2])
    [['begin'], ['continue', 'begin'], ['end', 'end']]
    >>> beam_words([1, 2])
    [['begin'], ['end', 'backward hook']]
    """
    words = []
    for index, count in enumerate(flags):
        before = flags[index - 1] if index else 0
        after = flags[index + 1] if index + 1 < len(flags) else 0
        states = []
        for level in range(1, count + 1):
            joined = (before >= level, after >= level)
            lone = "backward hook" if index else "forward hook"
            states.append({(False, True): "begin", (True, True): "continue", (True, False): "end"}.get(joined, lone))
        words.append(states)
    return words
