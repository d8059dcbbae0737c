"""Who sits where of those who need something: the part that suits them, and what of it they play.

The music stays as it is: the others of the group play the whole part. What suits whom is common practice; the pupil,
and whoever knows the pupil, come before it. A place names its need for the teacher alone.
"""

from __future__ import annotations

from collections import Counter
from fractions import Fraction

from sonify.facts.excerpts import Hit, excerpts
from sonify.facts.once import once_a_lesson
from sonify.frozen import dataclass
from sonify.kinds.instruments import BEATERS
from sonify.kinds.needs import (
    BLIND,
    BOTH_HANDS,
    DOES_NOT_SPEAK,
    HEARING_AID,
    NEW_TO_ENGLISH,
    ONE_HAND,
    PARTNER,
    SHORT_REACH,
    STARTLES,
)
from sonify.records.instrument import Instrument, stands_for
from sonify.records.lesson import Lesson
from sonify.records.score import Part, Score, Seat

#: Bars that lie within reach of an arm that stays where it is: a fifth (our own choice).
WITHIN_REACH = 7
#: One stroke of one hand a beat (our own choice).
ONE_HAND_BEATS = Fraction(1)
LOUD = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Place:
    """One pupil's. hits: a bar or more of what is played, () for free taps. left: how many sounds of it others play.

    cue: how an entry is told, "look" or "touch", "" as on every card.
    """

    number: int
    need: str
    part: Part
    seat: Seat
    hits: tuple[Hit, ...] = ()
    bars: int = 1
    left: int = 0
    cue: str = ""


@once_a_lesson
def places(lesson: Lesson) -> tuple[Place, ...]:
    """A place for each pupil of whom the class file tells, but for those who need pictures in place of words."""
    taken: Counter[str] = Counter()
    found: list[Place] = []
    for need in lesson.classroom.pupils_need:
        for _ in range(need.pupils if need.name != NEW_TO_ENGLISH else 0):
            parts = [part for part in lesson.score.group_parts if not part.pulse and part.seats]
            own = [part for part in parts if part.group == need.group] or parts
            part = min(own, key=lambda part: _order(need.name, part, taken, lesson.score))
            taken[part.name] += 1
            found.append(_place(len(found) + 1, need.name, part, lesson.score))
    return tuple(found)


def _order(need: str, part: Part, taken: Counter[str], score: Score) -> tuple[float, ...]:
    """The least is chosen: a part with a free seat that suits, where nobody else of these sits, with little to play."""
    beside = sum(taken[other.name] for other in score.group_parts if other.group == part.group)
    return taken[part.name] >= part.players, _against(need, part, score), beside, len(part.notes), part.group


def _against(need: str, part: Part, score: Score) -> float:
    """What speaks against a part for whom it would not suit at all."""
    row = score.instrument(_seat(need, part, score).instrument)
    if need == ONE_HAND:
        return float(_both_hands(row))
    if need == SHORT_REACH:
        return _outside(part, score)
    if need == STARTLES:
        return float(_loud_in(part.group, score))
    if need == HEARING_AID:
        return 2.0 * (row.loud >= LOUD) + (row.family == "voice") + 0.5 * (row.register != "low")
    if need == DOES_NOT_SPEAK:
        return 2.0 * (row.family == "voice") + any(pattern.spoken for pattern in part.patterns)
    return float(need == BLIND and part.texture == "scatter")


def _seat(need: str, part: Part, score: Score) -> Seat:
    """The instrument of a part that suits."""

    def against(seat: Seat) -> tuple[bool, int]:
        row = score.instrument(seat.instrument)
        return (need == ONE_HAND and _both_hands(row)) or (need == DOES_NOT_SPEAK and row.family == "voice"), row.loud

    return min(part.seats, key=against)


def _both_hands(row: Instrument) -> bool:
    return stands_for(row.id) in BOTH_HANDS


def _loud_in(group: int, score: Score) -> int:
    """How loud the loudest instrument of a group is."""
    seats = [seat for part in score.group_parts if part.group == group for seat in part.seats]
    return max(score.instrument(seat.instrument).loud for seat in seats)


def _outside(part: Part, score: Score) -> float:
    """The share of a part's notes out of reach."""
    if not score.instrument(part.instrument).pitched or not part.notes:
        return 0.0
    low = _lowest_in_reach([note.midi for note in part.notes])
    return sum(not low <= note.midi <= low + WITHIN_REACH for note in part.notes) / len(part.notes)


def _lowest_in_reach(notes: list[int]) -> int:
    """Where the stretch begins that holds the most of some notes, the lowest of several."""
    return max(sorted(set(notes)), key=lambda low: sum(low <= midi <= low + WITHIN_REACH for midi in notes))


def _place(number: int, need: str, part: Part, score: Score) -> Place:
    seat, row = _seat(need, part, score), score.instrument(part.instrument)
    learned = next(iter(excerpts(part, score)), None) if part.texture != "scatter" else None
    hits = sorted(learned.hits) if learned else []
    kept = hits
    if need == ONE_HAND:
        kept = _one_at_a_time(hits)
    elif need == SHORT_REACH and row.pitched and hits:
        low = _lowest_in_reach([midi for _, _, midi in hits])
        kept = [hit for hit in hits if low <= hit[2] <= low + WITHIN_REACH]
    cue = {HEARING_AID: "look", STARTLES: "look", BLIND: "touch", PARTNER: "touch"}.get(need, "")
    return Place(
        number=number,
        need=need,
        part=part,
        seat=seat,
        hits=tuple(kept),
        bars=learned.bars if learned else 1,
        left=len(hits) - len(kept),
        cue=cue,
    )


def _one_at_a_time(hits: list[Hit]) -> list[Hit]:
    """One sound at a time, and no two closer than a beat."""
    kept: list[Hit] = []
    for hit in hits:
        if not kept or hit[0] - kept[-1][0] >= ONE_HAND_BEATS:
            kept.append(hit)
    return kept


def struck_with_beaters(place: Place, score: Score) -> bool:
    return score.instrument(place.seat.instrument).struck_with == BEATERS


def loud_bars(place: Place, score: Score) -> tuple[int, ...]:
    """The bars at which another group's loud instrument comes in, or the piece turns loud: what to be warned of."""
    loud = {
        entry.bar
        for part in score.group_parts
        if part.name != place.part.name and any(score.instrument(seat.instrument).loud >= LOUD for seat in part.seats)
        for entry in part.entries
    }
    loud |= {mark.bar for part in score.group_parts for mark in part.dynamics if mark.mark in ("f", "ff")}
    return tuple(sorted(loud - {1}))
