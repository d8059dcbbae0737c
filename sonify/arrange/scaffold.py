"""How much is given: everything, all but a phrase here and there, or only the frame. What pupils invent is silent."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace

from sonify.arrange.blanks import shared_blanks
from sonify.arrange.dynamics import heard_mark
from sonify.arrange.piece import Piece
from sonify.arrange.shape import Shape
from sonify.errors import UnknownName
from sonify.records.fact import fact
from sonify.records.score import SCAFFOLDS, Blank, DynamicMark, Entry, Note, Part
from sonify.records.score_invariants import GRID

#: What an entry says where pupils invent.
OWN_IDEA = fact("part-own-idea")


def scaffolded(piece: Piece, parts: Sequence[Part], shape: Shape, scaffold: str) -> tuple[Part, ...]:
    """The parts with what pupils are to invent taken out. Raises UnknownName for an unknown scaffold."""
    if scaffold not in SCAFFOLDS:
        raise UnknownName("scaffold", scaffold, SCAFFOLDS)
    if scaffold == "full":
        return tuple(parts)
    given = [part for part in parts if part.pulse]  # the beat is never the pupils' to invent
    parts = [part for part in parts if not part.pulse]
    if scaffold == "open":
        return (*(_open(part) for part in parts), *given)
    blanks = shared_blanks(piece, parts, shape)
    return (*(_partly(piece, part, own) for part, own in zip(parts, blanks, strict=True)), *given)


def _open(part: Part) -> Part:
    """Everything is the pupils': the box says when, and what for."""
    ask = (fact("part-ask-invent"), part.meaning)
    blanks = tuple(Blank(bar=bar, bars=bars, ask=ask) for bar, bars in _stretches(part.entries))
    entries = tuple(Entry(bar=blank.bar, bars=blank.bars, instruction=OWN_IDEA) for blank in blanks)
    return replace(
        part,
        notes=(),
        blanks=blanks,
        entries=entries,
        patterns=(),
        dynamics=(),
        instructions=(fact("part-you-decide"),),
    )


def _partly(piece: Piece, part: Part, own: Sequence[tuple[int, int]]) -> Part:
    """In a few phrases the pupils choose; all else is given, and of the patterns those that are left."""
    blanks = [_blank(part, bar, bars) for bar, bars in own]
    empty = {bar for blank in blanks for bar in range(blank.bar, blank.bar + blank.bars)}
    kept = [mark for mark in part.dynamics if mark.bar not in empty]
    marks = tuple(replace(mark, hairpin="") if _leads_into(mark, kept, empty) else mark for mark in kept)
    entries = tuple(_cut(part.entries, empty))
    return replace(
        part,
        notes=tuple(note for n in part.notes if (note := _outside(piece, n, empty))),
        blanks=tuple(blanks),
        entries=entries,
        patterns=tuple(p for p in part.patterns if any(p.number == entry.pattern for entry in entries)),
        dynamics=tuple(sorted((*marks, *_taken_up(part, blanks, marks, piece.beats)), key=lambda mark: mark.bar)),
        instructions=(*part.instructions, fact("part-where-empty")),
    )


def _cut(entries: Sequence[Entry], empty: set[int]) -> list[Entry]:
    """The entries cut where blanks begin and end; what is the pupils' own has no pattern."""
    found: list[Entry] = []
    for entry in entries:
        for bar in range(entry.bar, entry.bar + entry.bars):
            same = bar > entry.bar and (bar in empty) == (bar - 1 in empty)
            own = bar in empty and found and found[-1].instruction == OWN_IDEA
            if found and (same or own) and sum((found[-1].bar, found[-1].bars)) == bar:
                found[-1] = replace(found[-1], bars=found[-1].bars + 1)
            elif bar in empty:
                found.append(Entry(bar=bar, bars=1, instruction=OWN_IDEA))
            else:
                found.append(replace(entry, bar=bar, bars=1))
    return found


def _taken_up(part: Part, blanks: Sequence[Blank], marks: Sequence[DynamicMark], beats: int) -> list[DynamicMark]:
    """How loud a part is where it goes on as given after a blank."""
    played = {bar for entry in part.entries for bar in range(entry.bar, entry.bar + entry.bars)}
    found = []
    for after in (blank.bar + blank.bars for blank in blanks):
        if after in played and all(mark.bar != after for mark in marks):
            before = [mark.mark for mark in part.dynamics if mark.bar <= after]
            found.append(DynamicMark(bar=after, mark=heard_mark(part, after, beats, before[-1])))
    return found


def _outside(piece: Piece, note: Note, empty: set[int]) -> Note | None:
    """The note as far as it sounds before a blank; None where it begins in one."""
    first, last = note.beat // piece.beats + 1, (note.beat + note.beats - GRID) // piece.beats + 1
    silent = next((bar for bar in range(int(first), int(last) + 1) if bar in empty), None)
    if silent is None:
        return note
    return None if silent == first else replace(note, beats=(silent - 1) * piece.beats - note.beat)


def _leads_into(mark: DynamicMark, marks: Sequence[DynamicMark], empty: set[int]) -> bool:
    """Whether the mark that a hairpin leads to has gone with a blank."""
    first_empty = min((bar for bar in empty if bar > mark.bar), default=None)
    following = min((other.bar for other in marks if other.bar > mark.bar), default=None)
    return first_empty is not None and (following is None or first_empty < following)


def _stretches(entries: Sequence[Entry]) -> list[tuple[int, int]]:
    """Entries that follow each other without a gap, together: (bar, bars)."""
    found: list[tuple[int, int]] = []
    for entry in entries:
        if found and sum(found[-1]) == entry.bar:
            found[-1] = (found[-1][0], found[-1][1] + entry.bars)
        else:
            found.append((entry.bar, entry.bars))
    return found


def _blank(part: Part, bar: int, bars: int) -> Blank:
    return Blank(bar=bar, bars=bars, ask=fact(f"part-ask-{part.texture}"))
