"""A Score as it is engraved for a conductor: what falls where its players like stands in a box, not in semiquavers."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from dataclasses import replace
from itertools import groupby

from sonify.records.fact import Amount, Reading, fact
from sonify.records.score import Blank, Part, Score
from sonify.units import half_up

FREE = "scatter"


def free_as_boxes(score: Score) -> Score:
    """The same Score, the notes of free parts taken out and a box in their place, stage by stage."""
    parts = tuple(_boxed(part, score) if part.texture == FREE and part.notes else part for part in score.parts)
    return replace(score, parts=parts)


def _boxed(part: Part, score: Score) -> Part:
    blanks = sorted((*part.blanks, *_runs(part, score)), key=lambda blank: blank.bar)
    return replace(part, notes=(), blanks=tuple(blanks))


def _runs(part: Part, score: Score) -> Iterator[Blank]:
    """The bars in which it plays, each stage on its own; what is left to pupils has its box already."""
    counts = Counter(int(note.beat // score.metre.beats) + 1 for note in part.notes)
    invented = {bar for blank in part.blanks for bar in range(blank.bar, blank.bar + blank.bars)}
    played = {bar for entry in part.entries for bar in range(entry.bar, entry.bar + entry.bars)} | set(counts)

    def together(row: tuple[int, int]) -> tuple[int, str]:
        section = score.section_at(row[1])
        return row[1] - row[0], section.letter if section else ""

    for _, rows in groupby(enumerate(sorted(bar for bar in played - invented if bar >= 1)), key=together):
        bars = [bar for _, bar in rows]
        reading = Reading(how="strokes a bar", of=part.name, start=float(bars[0]), end=float(bars[-1] + 1))
        mean = float(half_up(sum(counts[bar] for bar in bars) / len(bars), 0))
        few, taps = fact("mark-free-few"), Amount(value=mean, places=0, source=reading)
        yield Blank(
            bar=bars[0], bars=len(bars), ask="", told=fact("mark-free", taps=taps, n=int(mean)) if mean else few
        )
