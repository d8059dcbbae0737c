"""How much is given: everything, all but a phrase here and there, or only the frame. What pupils invent is silent."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import field, replace

from sonify.arrange.blocks import PHRASE_BARS
from sonify.arrange.dynamics import heard_mark
from sonify.arrange.piece import Piece
from sonify.arrange.shape import Shape
from sonify.errors import UnknownName
from sonify.frozen import dataclass
from sonify.records.fact import fact
from sonify.records.score import SCAFFOLDS, Blank, DynamicMark, Entry, Note, Part
from sonify.records.score_invariants import GRID

# Where pupils choose in a piece that is given in part: a phrase or two of each part, while others play as given.

#: A blank is as long as what a class can make up and remember in a lesson (our own limit).
MOST_BARS = 8
#: So much of a part is the pupils' own, about, in at most so many blanks (our own choice).
_SHARE, _MOST_BLANKS = 1 / 3, 3


@dataclass(frozen=True, slots=True, kw_only=True)
class _Room:
    """One part: the bars it has, those in which it sounds, and the stretches from which its blanks are taken."""

    played: set[int]
    sounding: set[int]
    possible: tuple[tuple[int, int], ...]
    blank: set[int] = field(default_factory=set)


def shared_blanks(piece: Piece, parts: Sequence[Part], shape: Shape) -> list[list[tuple[int, int]]]:
    """For each part its blanks as (bar, bars).

    The parts choose in turn until a third of each is its own. No more than half of the parts are blank at once, and
    one that plays as given sounds beside them. A part that finds no such place takes the best there is.
    """
    rooms = [_room(piece, part, shape) for part in parts]
    chosen: list[list[tuple[int, int]]] = [[] for _ in parts]
    going = True
    while going:
        going = False
        for room, own in zip(rooms, chosen, strict=True):
            able = [stretch for stretch in room.possible if _fits(stretch, room) and _supported(stretch, room, rooms)]
            if not able and not own:
                able = list(room.possible)
            more = len(own) < _MOST_BLANKS and len(room.blank) < _SHARE * len(room.played)
            if able and (more or not own):
                bar, bars = min(able, key=lambda stretch: _cost(stretch, room, rooms))
                own.append((bar, bars))
                room.blank.update(range(bar, bar + bars))
                going = True
    return [sorted(own) for own in chosen]


def _room(piece: Piece, part: Part, shape: Shape) -> _Room:
    played = {bar for entry in part.entries for bar in range(entry.bar, entry.bar + entry.bars)}
    sounding: set[int] = set()
    for note in part.notes:
        last = (note.beat + note.beats - GRID) // piece.beats + 1
        sounding.update(range(int(note.beat // piece.beats) + 1, int(last) + 1))
    return _Room(played=played, sounding=sounding, possible=tuple(_possible(played, shape)))


def _possible(played: set[int], shape: Shape) -> list[tuple[int, int]]:
    """Phrases of the part, and two together where they are short. Its first is for learning; the way home is given."""
    closed = {len(shape.blocks) - 1} if len(shape.blocks) > 1 else set()
    blocks = [block for i, block in enumerate(shape.blocks) if block.bar in played and i not in closed]
    found = [(block.bar, min(block.bars, MOST_BARS)) for block in blocks[1:]]
    pairs = zip(blocks[1:], blocks[2:], strict=False)
    found += [(a.bar, a.bars + b.bars) for a, b in pairs if a.end == b.bar and a.bars + b.bars <= MOST_BARS]
    found = [stretch for stretch in found if stretch[1] >= PHRASE_BARS] or found
    if not found and blocks and blocks[0].bars > 1:
        half = blocks[0].bars // 2
        found = [(blocks[0].end - half, min(half, MOST_BARS))]
    return found


def _fits(stretch: tuple[int, int], room: _Room) -> bool:
    """Whether a blank lies apart from the part's other ones, so that they stay short."""
    bar, bars = stretch
    return not room.blank & set(range(bar - 1, bar + bars + 1))


def _supported(stretch: tuple[int, int], room: _Room, rooms: Sequence[_Room]) -> bool:
    """Whether in each of its bars as many parts are given as blank, and one that is given sounds."""
    for bar in range(stretch[0], sum(stretch)):
        here = [other for other in rooms if bar in other.played]
        given = [other for other in here if other is not room and bar not in other.blank]
        if 2 * len(given) < len(here) or not any(bar in other.sounding for other in given):
            return False
    return True


def _cost(stretch: tuple[int, int], room: _Room, rooms: Sequence[_Room]) -> tuple[int, int, int, int]:
    """The more is given beside it the better; then the longer, few others blank, and the earlier."""
    bars = range(stretch[0], sum(stretch))
    others = [other for other in rooms if other is not room]
    bare = sum(all(bar not in other.sounding or bar in other.blank for other in others) for bar in bars)
    beside = sum(bar in other.blank for other in others for bar in bars)
    return (bare, -stretch[1], beside, stretch[0])


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
