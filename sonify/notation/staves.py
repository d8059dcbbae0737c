"""The Score as staves: each line's notes reduced to one voice, cut into bars, filled with rests.

What is printed is what is struck, when; lengths are the page's own. Strokes of several players on one beat and pitch
are one notehead. Where a struck note would overlap the next it ends there (the instrument rings anyway); only a
sounding note of a pitched instrument that can hold it is carried on by a tie. Unpitched strokes shorter than a beat are
written up to the next stroke or the next beat, without clutter of rests. So a reader of the notation is compared with
the Score as a set of (beat, pitch) of struck notes.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator
from fractions import Fraction
from functools import cache

from sonify.errors import OutOfRange
from sonify.frozen import dataclass
from sonify.notation.lines import NotatedLine
from sonify.notation.rhythm import GRID, note_values, rest_values
from sonify.records.score import Blank, Note, Score


@dataclass(frozen=True, slots=True, kw_only=True)
class StaffPiece:
    """One written note, chord (MIDI notes, low to high) or rest (none). Beats count within the bar from 0.

    tied_in, tied_out: those of its notes that come from the piece before, or go on in the next.
    """

    start: Fraction
    beats: Fraction
    notes: tuple[int, ...] = ()
    tied_in: frozenset[int] = frozenset()
    tied_out: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class Bar:
    """One bar of a staff; `number` is 0 or less in the count-in. blank: it is left to the pupils."""

    number: int
    pieces: tuple[StaffPiece, ...]
    blank: Blank | None = None

    @property
    def silent(self) -> bool:
        return not any(piece.notes for piece in self.pieces)


@dataclass(frozen=True, slots=True, kw_only=True)
class Staff:
    """A line of the score on paper."""

    line: NotatedLine
    bars: tuple[Bar, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class StaffStretch:
    """From beat to beat these notes sound; `struck` are those that begin here."""

    start: Fraction
    end: Fraction
    notes: frozenset[int]
    struck: frozenset[int]


def staff(score: Score, line: NotatedLine, *, count_in: bool = True) -> Staff:
    """The line as bars, from the count-in (where wanted) to the last bar."""
    for note in line.notes:
        if note.beat % GRID:
            bar, beat = score.clock.bar_and_beat(note.beat)
            where = f"beat of a note of {line.part.name} in bar {bar}"
            raise OutOfRange(where, float(beat), "", "eighths of a beat (demisemiquavers)", "staff notation")
    a_bar = score.metre.beats
    stretches = list(_stretches(line))
    pieces = _pieces(stretches, a_bar)
    first = 1 - score.count_in_bars if count_in else 1
    last = max([score.bars, *(1 + int(bar) for bar in pieces)])
    blanks = {b.bar + k: b for b in line.part.blanks for k in range(b.bars)}
    bars = []
    for number in range(first, last + 1):
        filled = tuple(_with_rests(pieces.get(number - 1, []), a_bar))
        blank = blanks.get(number) if number - 1 not in pieces else None
        bars.append(Bar(number=number, pieces=filled, blank=blank))
    return Staff(line=line, bars=tuple(bars))


def _stretches(line: NotatedLine) -> Iterator[StaffStretch]:
    holds = line.row.pitched and line.row.sustains
    return _held(line) if holds else _struck(line)


def _on_grid(beat: Fraction) -> Fraction:
    return round(beat / GRID) * GRID


def _ends(notes: Iterable[Note]) -> dict[Fraction, Fraction]:
    """Onset -> end of the longest note that begins there, on the grid."""
    ends: dict[Fraction, Fraction] = {}
    for note in notes:
        end = max(note.beat + GRID, _on_grid(note.beat + note.beats))
        ends[note.beat] = max(ends.get(note.beat, end), end)
    return ends


def _until_next(ends: dict[Fraction, Fraction]) -> dict[Fraction, Fraction]:
    """The same, each cut off where the next begins."""
    onsets = list(ends)
    following = dict(zip(onsets, onsets[1:], strict=False))
    return {start: min(end, following.get(start, end)) for start, end in ends.items()}


def _struck(line: NotatedLine) -> Iterator[StaffStretch]:
    """One stretch an onset: to the longest note's end, at most to the next onset."""
    ends = _ends(line.notes)
    notes: dict[Fraction, set[int]] = {}
    for note in line.notes:
        notes.setdefault(note.beat, set()).add(note.midi)
    if not line.row.pitched:
        ends = {start: max(end, Fraction(start // 1 + 1)) for start, end in ends.items()}
    for start, end in _until_next(ends).items():
        yield StaffStretch(start=start, end=end, notes=frozenset(notes[start]), struck=frozenset(notes[start]))


def _held(line: NotatedLine) -> Iterator[StaffStretch]:
    """Stretches between all onsets and ends; a note lasts over several of them, but ends where it is struck again."""
    spans = [
        (start, end, midi)
        for midi in sorted({note.midi for note in line.notes})
        for start, end in _until_next(_ends(note for note in line.notes if note.midi == midi)).items()
    ]
    corners = sorted({corner for start, end, _ in spans for corner in (start, end)})
    for start, end in zip(corners, corners[1:], strict=False):
        sounding = frozenset(midi for first, last, midi in spans if first <= start < last)
        if sounding:
            struck = frozenset(midi for first, _, midi in spans if first == start)
            yield StaffStretch(start=start, end=end, notes=sounding, struck=struck)


def _pieces(stretches: list[StaffStretch], a_bar: int) -> dict[int, list[StaffPiece]]:
    """Stretches cut at bar lines and into written values, by bar (0 is bar 1), with what is tied to what."""
    cut: list[tuple[int, Fraction, frozenset[int], frozenset[int]]] = []  # from which grid step of the piece
    for stretch in stretches:
        (step, end), struck = (_steps(stretch.start), _steps(stretch.end)), stretch.struck
        while step < end:
            within = step % _steps(a_bar)
            for value in note_values(_beats(within), _beats(min(end - step, _steps(a_bar) - within))):
                cut.append((step, value, stretch.notes, struck))
                step, struck = step + _steps(value), frozenset()
    by_bar: dict[int, list[StaffPiece]] = {}
    for index, (step, value, notes, struck) in enumerate(cut):
        tied_out: frozenset[int] = frozenset()
        if index + 1 < len(cut) and cut[index + 1][0] == step + _steps(value):
            tied_out = notes & (cut[index + 1][2] - cut[index + 1][3])
        bar, within = divmod(step, _steps(a_bar))
        piece = StaffPiece(
            start=_beats(within),
            beats=value,
            notes=tuple(sorted(notes)),
            tied_in=notes - struck,
            tied_out=tied_out,
        )
        by_bar.setdefault(bar, []).append(piece)
    return by_bar


def _steps(beats: Fraction | int) -> int:
    """Beats on the grid, in its steps: whole numbers are quicker than fractions."""
    return beats.numerator * (GRID.denominator // beats.denominator)


@cache
def _beats(steps: int) -> Fraction:
    return steps * GRID


def _with_rests(pieces: list[StaffPiece], a_bar: int) -> Iterator[StaffPiece]:
    """The pieces of a bar with its gaps filled; an empty bar is one rest of the whole bar."""
    if not pieces:
        yield StaffPiece(start=Fraction(0), beats=Fraction(a_bar))
        return
    at = Fraction(0)
    for piece in [*pieces, StaffPiece(start=Fraction(a_bar), beats=Fraction(0))]:
        for value in rest_values(at, piece.start - at, a_bar):
            yield StaffPiece(start=at, beats=value)
            at += value
        if piece.beats:
            yield piece
            at += piece.beats
