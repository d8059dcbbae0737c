"""Who sits at what: every pupil of a group has something to play, and nothing from the cupboard is promised twice."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import replace
from math import ceil

from sonify.arrange.beaters import brightens
from sonify.arrange.compared import of_one_height, under_one_rule
from sonify.arrange.cupboard import CLAPPED, alike, at_hand, needs_pitch, shared_rule_on, suits, wanted_rows
from sonify.arrange.groups import Line
from sonify.arrange.piece import Piece
from sonify.frozen import dataclass
from sonify.kinds.instruments import REGISTERS
from sonify.records.fact import Fact, fact
from sonify.records.instrument import Instrument
from sonify.records.score import Seat

#: Where fewer than this share of a group has an instrument, the others are given something of their own to do.
_ENOUGH = 0.75
TURN_BARS = 2
#: So many kinds of instrument in one group, unless that leaves most of it without any.
MOST_KINDS = 3
#: Families of which one does not join a group that plays something else.
_JOIN_NONE = ("wind", "keys")


@dataclass(frozen=True, slots=True, kw_only=True)
class Seated:
    """A line with its seats; rows: the seats' instruments, the main one first."""

    line: Line
    seats: tuple[Seat, ...]
    rows: tuple[Instrument, ...]


def number(count: int) -> Fact:
    """Small numbers as words."""
    return fact("part-number", count=count)


def seat_all(
    piece: Piece, lines: Sequence[Line], found: dict[str, Instrument], spared: Collection[tuple[str, str]] = ()
) -> tuple[Seated, ...]:
    """Seats for every line. A desk may use its instruments for each of its lines: it plays one at a time.

    spared: (line, instrument) where the instrument is not to join, because there it would have next to nothing to play.
    """
    desks: dict[str, set[int]] = {}
    for line in lines:
        desks.setdefault(found[line.name].id, set()).add(line.desk)
    taken = _Taken(owners=desks, sounding=dict.fromkeys(found.values()), spared=spared)
    return _unclapped(piece, [_seated(piece, line, found[line.name], taken) for line in lines])


def _unclapped(piece: Piece, seated: Sequence[Seated]) -> tuple[Seated, ...]:
    """Seats for claps and snaps on what is left in the cupboard, where anything is that suits: last of all."""
    used: dict[str, dict[int, int]] = {}
    for one in seated:
        for seat in one.seats:
            desk = used.setdefault(seat.instrument, {})
            desk[one.line.desk] = max(desk.get(one.line.desk, 0), seat.count)
    left = {s.instrument: s.count - sum(used.get(s.instrument, {}).values()) for s in piece.classroom.cupboard}
    found = []
    for one in seated:
        seats, rows = list(one.seats), list(one.rows)
        for at, row in enumerate(rows):
            spare = next(
                (r for name, n in left.items() if n > 0 and _stands_in(piece, one, r := piece.catalogue[name])), None
            )
            if row.id not in CLAPPED or spare is None or seats[at].players > left[spare.id] * spare.players:
                continue
            seats[at], rows[at] = _seat(spare, seats[at].players, one.line.plan.texture), spare
            left[spare.id] -= seats[at].count
        found.append(replace(one, seats=tuple(seats), rows=tuple(rows)))
    return tuple(found)


def _stands_in(piece: Piece, one: Seated, row: Instrument) -> bool:
    keys = {other.gm_key for other in one.rows if not other.pitched}
    fits = row.pitched == one.rows[0].pitched or not row.pitched
    return row not in one.rows and fits and suits(piece, one.line, row) and (row.pitched or row.gm_key not in keys)


class _Taken:
    """Which desk has which instrument, what already sounds, and which instrument is not to join which line."""

    def __init__(
        self, *, owners: dict[str, set[int]], sounding: dict[Instrument, None], spared: Collection[tuple[str, str]]
    ) -> None:
        self.owners, self.sounding, self.spared = owners, sounding, spared

    def count(self, piece: Piece, row: Instrument, desk: int, players: int) -> int:
        """How many of an instrument a desk may have: where two desks must share, each its part."""
        if row.bodily:
            return players
        owners = sorted(self.owners.get(row.id, {desk}) | {desk})
        least, more = divmod(piece.classroom.count(row.id), len(owners))
        return least + (owners.index(desk) < more)

    def free(self, row: Instrument, desk: int) -> bool:
        return self.owners.get(row.id, {desk}) == {desk}

    def take(self, row: Instrument, desk: int) -> None:
        self.owners.setdefault(row.id, set()).add(desk)
        self.sounding[row] = None


def _seated(piece: Piece, line: Line, main: Instrument, taken: _Taken) -> Seated:
    # A melody without notes wants a high and a low sound: half the group each.
    most = line.players // 2 if line.plan.texture == "melody" and not main.pitched else line.players
    rows, places = [main], [_places(piece, line, main, taken, max(most, 1))]
    for row in _seconds(piece, line, main, taken):
        if sum(places) >= line.players or (len(rows) >= MOST_KINDS and sum(places) * 2 >= line.players):
            break
        left = line.players - sum(places)
        if row.bodily and sum(places) >= ceil(_ENOUGH * line.players) and most == line.players:
            continue
        place = _places(piece, line, row, taken, left)
        # Two unpitched sounds on one General MIDI key would be one sound in a MIDI file.
        if place and all(row.gm_key != other.gm_key or row.pitched or other.pitched for other in rows):
            rows.append(row)
            places.append(place)
            taken.take(row, line.desk)
    seats = [_seat(row, place, line.plan.texture) for row, place in zip(rows, places, strict=True)]
    seats = _with_turns(seats, rows, line.players, _turn_bars(line))
    return Seated(line=line, seats=tuple(seats), rows=tuple(rows))


def _places(piece: Piece, line: Line, row: Instrument, taken: _Taken, players: int) -> int:
    return min(players, taken.count(piece, row, line.desk, players) * row.players)


def _seconds(piece: Piece, line: Line, main: Instrument, taken: _Taken) -> list[Instrument]:
    """Other instruments for the rest of the group: the scene's own, the same family, then body sounds and voices."""
    texture, wanted = line.plan.texture, wanted_rows(piece, line)
    # Of the compared nobody sings along with bars, and of tunes under one rule nobody plays in another octave.
    tuned = main.pitched and not main.bodily and bool(of_one_height(piece.scene, line.plan.name))
    one_rule = main.pitched and line.plan.name in under_one_rule(piece.scene)
    height = shared_rule_on(piece, main).octaves if one_rule else 0
    pitch = needs_pitch(piece, line) and main.pitched
    # Beside a sound that a rule makes darker and brighter none stays as it is: it would hide that.
    shaded = brightens(main) and piece.results("brightness", line.plan.name, own=True) is not None

    def suits(row: Instrument) -> bool:
        return (
            row is not main
            and (line.name, row.id) not in taken.spared
            and taken.free(row, line.desk)
            and (at_hand(row, wanted) or piece.classroom.count(row.id) > 0)
            and (not row.on_request or row in wanted)
            and (texture in row.textures or (texture == "melody" and not row.pitched and "ostinato" in row.textures))
            and not (piece.gentle and row.loud >= 3)
            and (main.pitched or not row.pitched)
            and (brightens(row) or not shaded)
            and (row.pitched or row.bodily or not pitch)
            and not (row.pitched and one_rule and shared_rule_on(piece, row).octaves != height)
        )

    def heard_elsewhere(row: Instrument) -> bool:
        return any(alike(row, other) for other in taken.sounding if other is not main)

    rows = [row for row in piece.catalogue.instruments if suits(row)]
    listed = [row for row in wanted if suits(row) and row.id not in CLAPPED and not (row.bodily and tuned)]
    family = sorted((row for row in rows if _of_a_kind(row, main)), key=heard_elsewhere)
    # What else the cupboard has goes before claps and snaps, what sounds like no other group first.
    spare = sorted((row for row in rows if not row.bodily and row.family not in _JOIN_NONE), key=heard_elsewhere)
    bodily = [row for row in rows if row.bodily and not tuned]
    # Soft ones first; sounds that no other group makes before those that one does.
    bodily.sort(key=lambda row: (row.id in CLAPPED, heard_elsewhere(row), row.loud, row.pitched != pitch))
    found = list(dict.fromkeys([*listed, *family, *spare, *bodily]))
    if texture == "melody" and not main.pitched:
        found.sort(key=lambda row: row.register == main.register)
    return found


def _of_a_kind(row: Instrument, main: Instrument) -> bool:
    """Near enough in character to play along: one family, not far off in height, and no louder."""
    far = abs(REGISTERS.index(row.register) - REGISTERS.index(main.register)) > 1
    return row.family == main.family and not far and row.loud <= max(main.loud, 2)


def _seat(row: Instrument, players: int, texture: str) -> Seat:
    count = ceil(players / row.players)
    sharing = row.players > 1 and players > count
    job = fact("part-to-an-instrument", count=number(min(row.players, players))) if sharing else ""
    return Seat(instrument=row.id, players=players, count=count, job=job)


def _turn_bars(line: Line) -> int:
    """Bars to a turn: where groups answer each other, once round all of them, so that nobody's turns are all silent."""
    return TURN_BARS * line.voices if line.answers else TURN_BARS


def _with_turns(seats: list[Seat], rows: Sequence[Instrument], players: int, bars: int) -> list[Seat]:
    """Pupils for whom nothing is left join the seats with most room, and take turns there."""
    left = players - sum(seat.players for seat in seats)
    places = [seat.players for seat in seats]
    for _ in range(left):
        crowd = [seat.players / place if place else float("inf") for seat, place in zip(seats, places, strict=True)]
        i = crowd.index(min(crowd))
        seats[i] = replace(seats[i], players=seats[i].players + 1)
    return [taking_turns(seat, place, bars) for seat, place in zip(seats, places, strict=True)]


def taking_turns(seat: Seat, at_once: int, bars: int) -> Seat:
    """The seat with only so many playing at a time; unchanged where all can."""
    if at_once >= seat.players:
        return seat
    turns = fact("part-turns", count=number(at_once), bars=bars, number=number(bars))
    job = fact("part-job-and", one=seat.job, other=turns) if seat.job else turns
    return replace(seat, at_once=at_once, turn_bars=bars, job=job)
