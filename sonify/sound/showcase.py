"""Every voice in turn, as a Score: to listen to, and to look at with its markers in a sound editor."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from sonify.records.clock import Tempo
from sonify.records.instrument import Instrument
from sonify.records.scene import DYNAMICS, Metre, Scale
from sonify.records.score import Note, Part, Score, Section

BARS_EACH = 2
BPM = 90.0


def showcase(instruments: Sequence[Instrument]) -> Score:
    """Two bars for each instrument: soft to strong with a soft to a hard beater, then a longer note; a section each."""
    parts, sections = [], []
    for index, instrument in enumerate(instruments):
        first = Fraction(4 * BARS_EACH * index)
        parts.append(
            Part(
                name=instrument.name,
                group=0,
                instrument=instrument.id,
                texture="drone",
                notes=_notes(instrument, first),
            )
        )
        sections.append(
            Section(name=instrument.id, title=instrument.name, letter="", bar=1 + BARS_EACH * index, bars=BARS_EACH)
        )
    return Score(
        title="Every voice",
        scene="voices",
        metre=Metre(beats=4),
        scale=Scale(name="C pentatonic", tonic=0, pitch_classes=(0, 2, 4, 7, 9)),
        bars=BARS_EACH * len(parts),
        tempi=(Tempo(bar=1, bpm=BPM),),
        sections=tuple(sections),
        parts=tuple(parts),
        cues=(),
        instruments=tuple(instruments),
        count_in_bars=0,
    )


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
