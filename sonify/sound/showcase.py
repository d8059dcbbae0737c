"""Every voice in turn, as a Score: to listen to, and to look at with its markers in a sound editor."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from sonify.kinds.marks import DYNAMICS
from sonify.records.clock import Tempo
from sonify.records.instrument import Instrument
from sonify.records.scene import Metre, Scale
from sonify.records.score import Bed, Note, Part, Score, Section

BARS_EACH = 2
BPM = 90.0
#: A background's place has as many bars, and two more, for waves and gusts to come and go. It swells and sinks.
BARS_A_BED, BED_LEVELS = 4, ((0, 0.0), (2, 0.3), (10, 0.55), (15, 0.3), (16, 0.0))


def showcase(instruments: Sequence[Instrument], backgrounds: Sequence[str] = ()) -> Score:
    """Two bars for each instrument: soft to strong with a soft to a hard beater, then a longer note; four bars for each
    background, from soft to strong and back. A numbered section each."""
    sections = [
        *_sections([(row.id, row.name) for row in instruments], 1, 1, BARS_EACH),
        *_sections(
            [(kind, f"{kind.capitalize()} (background)") for kind in backgrounds],
            1 + len(instruments),
            1 + BARS_EACH * len(instruments),
            BARS_A_BED,
        ),
    ]
    firsts = [Fraction(4 * (section.bar - 1)) for section in sections]
    rows = list(zip(instruments, firsts, strict=False))
    beds = zip(backgrounds, firsts[len(instruments) :], strict=True)
    return Score(
        title="Every voice",
        scene="voices",
        metre=Metre(beats=4),
        scale=Scale(name="C pentatonic", tonic=0, pitch_classes=(0, 2, 4, 7, 9)),
        bars=sum(section.bars for section in sections),
        tempi=(Tempo(bar=1, bpm=BPM),),
        sections=tuple(sections),
        parts=tuple(
            Part(name=row.name, group=0, instrument=row.id, texture="drone", notes=_notes(row, first))
            for row, first in rows
        ),
        cues=(),
        beds=tuple(
            Bed(kind=kind, levels=tuple((first + beat, level) for beat, level in BED_LEVELS), seed=number)
            for number, (kind, first) in enumerate(beds)
        ),
        instruments=tuple(instruments),
        count_in_bars=0,
    )


def _sections(named: Sequence[tuple[str, str]], number: int, bar: int, bars: int) -> list[Section]:
    """Sections one after the other, from this number and bar on."""
    return [
        Section(name=name, title=title, letter=str(number + index), bar=bar + bars * index, bars=bars)
        for index, (name, title) in enumerate(named)
    ]


def _notes(instrument: Instrument, first: Fraction) -> tuple[Note, ...]:
    """Four strokes from p to ff that rise through the range, and one of three beats."""
    middle = (instrument.low + instrument.high) // 2
    keys = (instrument.low, middle, middle, instrument.high) if instrument.pitched else (instrument.gm_key,) * 4
    strokes = [
        Note(
            beat=first + step,
            beats=Fraction(3, 4),
            midi=key,
            velocity=DYNAMICS[mark],
            brightness=brightness,
        )
        for step, (key, mark, brightness) in enumerate(
            zip(keys, ("p", "mp", "f", "ff"), (0.0, 0.4, 0.7, 1.0), strict=True)
        )
    ]
    return (*strokes, Note(beat=first + 4, beats=Fraction(3), midi=keys[1], velocity=DYNAMICS["mf"]))
