"""A pattern that pupils made: boxes in which it strikes, as they counted them, and notes, where they chose any."""

from __future__ import annotations

from fractions import Fraction

from sonify.frozen import dataclass

#: Boxes to a beat that pupils count with: "1", "1 &" and "1 e & a".
BOXES_A_BEAT = (1, 2, 4)
#: So many bars can be learnt by heart (our own limit, as for the arranger's patterns).
MOST_BARS = 4
#: What stands in a box: a sound begins, goes on, or there is none.
SOUND, HELD, SILENT = "x", "-", "."
#: The controls that a pattern of their own decides, so that no rule of its part does.
DECIDES = ("density", "pitch")


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnPattern:
    """The pattern of one part. boxes: one text a bar. notes: MIDI, one for each sound; () where any will do.

    name: what the group calls it, "" where it has no name. key: "pattern.0", for messages.
    """

    part: str
    boxes: tuple[str, ...]
    beats: int  # in a bar
    notes: tuple[int, ...] = ()
    name: str = ""
    key: str = "pattern.0"

    @property
    def bars(self) -> int:
        return len(self.boxes)

    @property
    def hits(self) -> tuple[tuple[Fraction, Fraction], ...]:
        """(beat from 0, beats) of each sound, exactly as long as its boxes are."""
        return boxed_hits(self.boxes, self.beats)


def boxed_hits(boxes: tuple[str, ...], beats: int) -> tuple[tuple[Fraction, Fraction], ...]:
    """(beat from 0, beats) of each sound in bars of boxes.

    >>> [(str(at), str(lasts)) for at, lasts in boxed_hits(("x-.x",), 2)]
    [('0', '1'), ('3/2', '1/2')]
    """
    found: list[tuple[Fraction, Fraction]] = []
    for number, bar in enumerate(boxes):
        each = Fraction(beats, len(bar))
        for place, box in enumerate(bar):
            if box == SOUND:
                found.append((number * beats + place * each, each))
            elif box == HELD and found:
                start, lasts = found[-1]
                found[-1] = (start, lasts + each)
    return tuple(found)


def boxes_of(hits: tuple[tuple[Fraction, Fraction], ...], bars: int, beats: int, each: int) -> tuple[str, ...]:
    """The bars of boxes that hold these sounds, `each` to a beat: what `boxed_hits` reads back.

    >>> boxes_of(boxed_hits(("x-.x",), 2), 1, 2, 2)
    ('x-.x',)
    """
    row = [SILENT] * (bars * beats * each)
    for start, lasts in hits:
        first = int(start * each)
        row[first] = SOUND
        for place in range(first + 1, min(len(row), first + int(lasts * each))):
            row[place] = HELD
    bar = beats * each
    return tuple("".join(row[first : first + bar]) for first in range(0, len(row), bar))


def spaced(bar: str, beats: int) -> str:
    """A bar's boxes with a space between beats, as a scene file has them.

    >>> spaced("x-.x", 2)
    'x- .x'
    """
    each = len(bar) // beats
    return " ".join(bar[first : first + each] for first in range(0, len(bar), each))
