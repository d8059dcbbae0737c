"""Where pupils choose in a piece that is given in part: a phrase or two of each part, while others play as given."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field

from sonify.arrange.blocks import PHRASE_BARS
from sonify.arrange.piece import Piece
from sonify.arrange.shape import Shape
from sonify.records.score import Part
from sonify.records.score_invariants import GRID

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
