"""What stands around the parts: the count-in, the sections with their letters, and the beds under the recording."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from itertools import count, islice, product
from string import ascii_uppercase

import numpy as np

from sonify.arrange.piece import COUNT_IN_BARS, Piece
from sonify.kinds.marks import DYNAMICS
from sonify.records.fact import fact
from sonify.records.instrument import Instrument
from sonify.records.score import COUNT_IN, Bed, Note, Part, Section

#: Who clicks the count-in: the first that no group plays. The teacher plays or claps it; it is nobody's cupboard's.
_CLICKS = ("claves", "wood-block", "two-tone-block", "finger-snaps", "claps")

#: The clicks stay under the first notes of the piece: about 6 dB below forte and mezzo forte.
_STRONG, _WEAK = 70, 52


def count_in(piece: Piece, used: Iterable[Instrument], *, goes_on: bool = False) -> tuple[Part, Instrument]:
    """Two bars of clicks, the first beat of each stronger; goes_on: then softly to the end, for pupils who invent."""
    taken = {row.id for row in used}
    row = piece.catalogue[next((click for click in _CLICKS if click not in taken), _CLICKS[0])]
    strong, weak = (DYNAMICS["mp"], DYNAMICS["p"]) if piece.gentle or piece.quiet_start else (_STRONG, _WEAK)
    soft = (DYNAMICS["p"], DYNAMICS["pp"])
    beats = range(-COUNT_IN_BARS * piece.beats, piece.bars * piece.beats if goes_on else 0)
    part = Part(
        name=COUNT_IN,
        group=0,
        instrument=row.id,
        texture="ostinato",
        notes=tuple(
            Note(
                beat=Fraction(beat),
                beats=Fraction(1, 2),
                midi=row.gm_key,
                velocity=(weak if beat % piece.beats else strong) if beat < 0 else soft[beat % piece.beats > 0],
                instrument=row.id,
            )
            for beat in beats
        ),
        instructions=(fact("part-count-in-goes-on" if goes_on else "part-count-in", bars=COUNT_IN_BARS),),
        difficulty="easy",
    )
    return part, row


def stage_letters() -> Iterable[str]:
    """A to Z, then AA, AB and so on: as many as a long piece has stages."""
    for length in count(1):
        for letters in product(ascii_uppercase, repeat=length):
            yield "".join(letters)


def sections(piece: Piece) -> tuple[Section, ...]:
    """Stages as sections with rehearsal letters."""
    science = {stage.name: stage.science for stage in piece.timeline.stages}
    return tuple(
        Section(
            name=stage.stage,
            title=stage.title,
            letter=letter,
            bar=stage.bar,
            bars=stage.bars,
            caption=stage.caption or science.get(stage.stage, ""),
        )
        for stage, letter in zip(piece.stages, islice(stage_letters(), len(piece.stages)), strict=True)
    )


def beds(piece: Piece) -> tuple[Bed, ...]:
    """Natural sounds, silent at the quantity's least in the piece and loudest at its most; corners at bar lines."""
    found = []
    for number, plan in enumerate(piece.scene.background):
        beats = np.arange(0, piece.bars * piece.beats + 1, piece.beats, dtype=float)
        values = piece.timeline.at(plan.quantity, piece.controls.time_map.model_time_s(beats))
        span = float(np.ptp(values))
        # A quantity that never changes is as loud as the scene allows: there is nothing to hear in its level.
        shares = (
            (values - values.min()) / span if span > 1e-12 * max(abs(values).max(), 1e-300) else np.ones(len(values))
        )
        levels = shares * min(max(plan.loudest, 0.0), 127.0) / 127.0
        corners = [(Fraction(int(beat)), round(float(level), 4)) for beat, level in zip(beats, levels, strict=True)]
        seed = int(piece.generator("bed", str(number), plan.kind).integers(2**31))
        found.append(Bed(kind=plan.kind, levels=_corners(corners), seed=seed))
    return tuple(found)


def _corners(levels: list[tuple[Fraction, float]]) -> tuple[tuple[Fraction, float], ...]:
    """The corners without those that lie on the line between their neighbours."""
    kept = levels[:1]
    for i in range(1, len(levels) - 1):
        (a, low), (b, here), (c, high) = kept[-1], levels[i], levels[i + 1]
        line = low + (high - low) * float((b - a) / (c - a))
        if abs(line - here) > 1e-4:
            kept.append(levels[i])
    return (*kept, *levels[1:][-1:])
