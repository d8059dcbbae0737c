"""The scene's parts as wishes for a desk: which of them can share one, and what each is worth to the piece."""

from __future__ import annotations

from collections.abc import Sequence

from sonify.arrange.compared import mates
from sonify.arrange.piece import Piece
from sonify.frozen import dataclass
from sonify.kinds.textures import MANNERS
from sonify.records.scene import PartPlan

#: Patterns that one group can learn in a lesson (our own limit).
MOST_PATTERNS = 3
#: Of one of the compared so much of it (our own judgement).
_OF_COMPARED = 0.25


@dataclass(frozen=True, slots=True, kw_only=True)
class Wish:
    """A part and the stages, from 0, in which it is to play."""

    plan: PartPlan
    stages: tuple[int, ...]


def gain(piece: Piece, wish: Wish) -> float:
    """What one more group is worth to a part that has some.

    Little to one of the compared: it would be louder than what it is set beside, and seldom on the same instruments.
    """
    worth = MANNERS[wish.plan.texture].sharing * sum(piece.stages[stage].bars for stage in wish.stages)
    return worth * (_OF_COMPARED if mates(piece.scene, wish.plan.name) else 1.0)


def spread(rest: Sequence[Wish], desks: list[list[Wish]]) -> list[list[Wish]] | None:
    """The desks, which are added to, with all the rest at them, none sounding together with its neighbours there; None
    where that cannot be, and the desks as they were."""
    for gap in (1, 0):  # with a stage between them there is time to change instruments
        found = _spread(rest, desks, gap)
        if found is not None:
            return found
    return None


def _spread(rest: Sequence[Wish], desks: list[list[Wish]], gap: int) -> list[list[Wish]] | None:
    if not rest:
        return desks if all(desks) else None
    if sum(not desk for desk in desks) > len(rest):
        return None
    wish, later = rest[0], rest[1:]
    tried_empty = False
    for desk in sorted(desks, key=lambda desk: sum(len(other.stages) for other in desk)):
        clash = any(clashes(wish.stages, other.stages, gap) for other in desk)
        if (not desk and tried_empty) or clash or learnt([*desk, wish]) > MOST_PATTERNS:
            continue
        tried_empty |= not desk
        desk.append(wish)
        found = _spread(later, desks, gap)
        if found is not None:
            return found
        desk.remove(wish)
    return None


def learnt(wishes: Sequence[Wish]) -> int:
    """How many parts of a desk bring a pattern to learn, at the least."""
    return sum(wish.plan.texture in ("ostinato", "melody") for wish in wishes)


def clashes(a: Sequence[int], b: Sequence[int], gap: int = 0) -> bool:
    """Whether stages of two parts are the same, or follow each other with fewer than so many between."""
    return any(abs(one - other) <= gap for one in a for other in b)


def essential(piece: Piece, wish: Wish, others: Sequence[Wish]) -> tuple[bool, bool, bool, bool, int]:
    """What a part is worth to the piece: compared, the only one of a stage, a drone that goes through, with a rule of
    its own, and the earlier in the scene the more."""
    alone = any(all(stage not in other.stages for other in others if other is not wish) for stage in wish.stages)
    throughout = wish.plan.texture == "drone" and len(wish.stages) == len(piece.stages)
    ruled = any(rule.part == wish.plan.name for rule in piece.scene.rules)
    compared = bool(mates(piece.scene, wish.plan.name))
    return (compared, alone, throughout, ruled, -piece.scene.parts.index(wish.plan))
