"""A part as lines: what each of its instruments plays. MIDI gives a line its channel, the score gives it a staff."""

from __future__ import annotations

from sonify.frozen import dataclass
from sonify.records.instrument import Instrument
from sonify.records.score import COUNT_IN, Note, Part, Score


@dataclass(frozen=True, slots=True, kw_only=True)
class NotatedLine:
    """One instrument of one part, with its notes in order of beat."""

    part: Part
    row: Instrument
    notes: tuple[Note, ...]


def lines_of(score: Score, part: Part) -> tuple[NotatedLine, ...]:
    """The part's lines: its own instrument first (also where it is silent), then the others as they come in."""
    played: dict[str, list[Note]] = {part.instrument: []}
    for note in part.notes:
        played.setdefault(note.instrument or part.instrument, []).append(note)
    if len(played) > 1 and not played[part.instrument]:
        del played[part.instrument]
    return tuple(
        NotatedLine(
            part=part, row=score.instrument(instrument), notes=tuple(sorted(notes, key=lambda n: (n.beat, n.midi)))
        )
        for instrument, notes in played.items()
    )


def chosen_parts(score: Score, *, count_in: bool, group: int | None) -> tuple[Part, ...]:
    """The parts of the whole class, or those of one group; the count-in goes with both where it is wanted."""
    return tuple(
        part for part in score.parts if (count_in if part.name == COUNT_IN else group is None or part.group == group)
    )
