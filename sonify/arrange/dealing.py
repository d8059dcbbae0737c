"""The morning itself: pupils are away, an instrument is broken, and the same music is dealt out to those who are there.

As few cards change as can be, and those by a note in handwriting. No notes change, but where an instrument is lost and
nothing that the class has can play them.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import replace

from sonify.arrange.hands_shared import fewest, in_hands
from sonify.errors import SonifyError
from sonify.records.classroom import Classroom
from sonify.records.dealing import Dealt, Missing
from sonify.records.fact import Fact, fact, wrong
from sonify.records.instrument import Catalogue, Instrument
from sonify.records.score import Note, Part, Score, Seat

#: More lines than these on one group's cards are printed anew (our own limit).
MOST_BY_HAND = 4
#: Nobody is taken from a group for another's sake below this share of it.
STAYS = 0.5
#: So many fewer than the largest group has may be in one, if they were not more apart on the cards (our own limit).
MOST_APART = 2
#: What stands in for a lost instrument: how far another family, register or loudness is from it (our own weights).
_OTHER_FAMILY, _OTHER_REGISTER, _LOUDER, _BODILY = 10, 3, 2, 6
#: What every class has, where nothing else will do.
LAST_RESORT = "claps"


def deal_again(score: Score, classroom: Classroom, catalogue: Catalogue, missing: Missing) -> Dealt:
    """The piece for those who are there. Raises SonifyError where too few are left, or a group has no such number."""
    table = _Table(score, classroom, catalogue, {instrument for instrument, _ in missing.broken})
    for group, count in sorted(missing.absent, reverse=True):  # those whose group is known come first
        for _ in range(count):
            table.send_home(group)
    for instrument, count in missing.broken:  # what an absent pupil played may serve
        for _ in range(count):
            table.lose(catalogue[instrument])
    return table.dealt()


class _Table:
    """The seats as they change. before: as the cards are printed."""

    def __init__(self, score: Score, classroom: Classroom, catalogue: Catalogue, broken: set[str]) -> None:
        self.score, self.catalogue, self.broken = score, catalogue, broken
        self.stock = {stock.instrument: classroom.count(stock.instrument) for stock in classroom.cupboard}
        self.before = {part.name: part.seats for part in score.group_parts}
        self.seats = {name: list(seats) for name, seats in self.before.items()}
        self.parts: dict[int, list[Part]] = defaultdict(list)
        for part in score.group_parts:
            self.parts[part.group].append(part)
        self.told: list[Fact] = []
        self.lines: dict[int, list[Fact]] = defaultdict(list)
        self.rows = {row.id: row for row in score.instruments}

    # --- pupils ------------------------------------------------------------------------------------------------------

    def size(self, group: int) -> int:
        """Pupils of a group: both its teams, where it has two."""
        whole = [self._players(part) for part in self.parts[group] if part.team == 0]
        teams = {part.team: self._players(part) for part in self.parts[group] if part.team}
        return max([*whole, sum(teams.values())])

    def _players(self, part: Part) -> int:
        return sum(seat.players for seat in self.seats[part.name])

    def _least(self, part: Part, seat: Seat) -> int:
        """The fewest who can play a seat's strokes; those who take turns stay as many at a time."""
        least = fewest(_played_on(part, seat), self._row(seat.instrument), seat.players, self.score.clock)
        return max(least, seat.at_once)

    def _row(self, instrument: str) -> Instrument:
        return self.rows.get(instrument) or self.catalogue[instrument]

    def _slack(self, part: Part) -> int:
        return sum(seat.players - self._least(part, seat) for seat in self.seats[part.name])

    def _leavers(self, group: int) -> tuple[int, list[Part]]:
        """How many a group can spare, and the parts that then have one player less: one team, where there are two."""
        parts = self.parts[group]
        together = [part for part in parts if part.team == 0]
        choices = [
            [*together, *(part for part in parts if part.team == team)]
            for team in sorted({part.team for part in parts if part.team}) or [0]
        ]
        choices = [list(dict.fromkeys(choice)) for choice in choices]
        return max(
            ((min(self._slack(part) for part in choice), choice) for choice in choices), key=lambda found: found[0]
        )

    def send_home(self, group: int) -> None:
        """One pupil less: of this group, or of the one where fewest cards change."""
        if group and group not in self.parts:
            raise SonifyError(wrong("error_redeal-no-group", group=group, groups=max(self.parts)))
        if group and self._leavers(group)[0] > 0 and not self._falls_behind(group):
            self._one_less(group)
            return
        able = [g for g in self.parts if g != group and self._leavers(g)[0] > 0]
        if group and self._leavers(group)[0] > 0 and all(self._falls_behind(g) for g in able):
            able = [group]
        if not able:
            least = sum(self.size(g) for g in self.parts)
            raise SonifyError(wrong("error_redeal-too-few", least=least))

        def cost(g: int) -> tuple[bool, bool, bool, int, int]:
            """Not by halves, nor far behind the others; then a group whose cards change already, or that has an
            instrument less; then one with few cards and many pupils."""
            thin = self.size(g) - 1 < STAYS * self._printed_size(g) or self._falls_behind(g)
            short = any(self._in_use(instrument, g) for instrument in self.broken)
            return thin, not self._changed(g), not short, len(self.parts[g]), -self._leavers(g)[0]

        giver = min(able, key=cost)
        self._one_less(giver)
        if group and giver != group:
            self.told.append(fact("redeal-goes-over", giver=giver, group=group))

    def _falls_behind(self, group: int) -> bool:
        """Whether a group with one less would be far smaller than the largest, and further than on the cards."""
        largest, printed = max(map(self.size, self.parts)), max(map(self._printed_size, self.parts))
        return largest - (self.size(group) - 1) > max(MOST_APART, printed - self._printed_size(group))

    def _printed_size(self, group: int) -> int:
        now = self.seats
        self.seats = {name: list(seats) for name, seats in self.before.items()}
        found = self.size(group)
        self.seats = now
        return found

    def _changed(self, group: int) -> bool:
        return any(tuple(self.seats[part.name]) != self.before[part.name] for part in self.parts[group])

    def _one_less(self, group: int) -> None:
        for part in self._leavers(group)[1]:
            seats = self.seats[part.name]
            able = [i for i, seat in enumerate(seats) if seat.players > self._least(part, seat)]
            # one who shares an instrument goes first, so that none is put away
            i = max(able, key=lambda i: (seats[i].players > seats[i].count, seats[i].players, -i))
            seat = seats[i]
            players = seat.players - 1
            count = min(seat.count, players) if seat.players >= seat.count else seat.count
            seats[i] = replace(
                seat, players=players, count=count, at_once=seat.at_once if seat.at_once < players else 0
            )

    # --- instruments -------------------------------------------------------------------------------------------------

    def _in_use(self, instrument: str, group: int) -> int:
        """How many a group has in hand at a time; its parts come one after the other, two teams play at once."""
        counts: dict[int, int] = defaultdict(int)
        for part in self.parts[group]:
            held = sum(seat.count for seat in self.seats[part.name] if seat.instrument == instrument)
            counts[part.team] = max(counts[part.team], held)
        return max(counts[0], sum(count for team, count in counts.items() if team))

    def _spare(self, instrument: str) -> int:
        return self.stock.get(instrument, 0) - sum(self._in_use(instrument, group) for group in self.parts)

    def _holders(self, instrument: str, group: int) -> list[tuple[Part, int]]:
        """The parts of a group that hold as many of an instrument as it has, and which of their seats does."""
        most = max(
            (s.count for part in self.parts[group] for s in self.seats[part.name] if s.instrument == instrument),
            default=0,
        )
        return [
            (part, i)
            for part in self.parts[group]
            for i, seat in enumerate(self.seats[part.name])
            if seat.instrument == instrument and seat.count == most
        ]

    def lose(self, row: Instrument) -> None:
        """One of an instrument less: a spare one, one of several, or something else in its place."""
        spare = self._spare(row.id)
        self.stock[row.id] = max(0, self.stock.get(row.id, 0) - 1)
        groups = [group for group in self.parts if self._in_use(row.id, group)]
        if row.bodily or not groups:
            self.told.append(fact("redeal-not-played", instrument=row.called))
            return
        if spare > 0:
            self.told.append(fact("redeal-spare", instrument=row.called))
            return
        shared = [group for group in groups if self._can_share(row, group)]
        if shared:
            self._cross_out(row, min(shared, key=lambda g: (len(self._holders(row.id, g)), -self._in_use(row.id, g))))
        else:
            self._give_another(row, min(groups, key=lambda g: len(self._holders(row.id, g))))

    def _can_share(self, row: Instrument, group: int) -> bool:
        holders = self._holders(row.id, group)
        seats = [(part, self.seats[part.name][i]) for part, i in holders]
        return all(s.count > 1 and self._least(part, s) <= (s.count - 1) * max(1, row.players) for part, s in seats)

    def _cross_out(self, row: Instrument, group: int) -> None:
        for part, i in self._holders(row.id, group):
            seat = self.seats[part.name][i]
            places = (seat.count - 1) * max(1, row.players)
            at_once = places if places < seat.players else seat.at_once
            self.seats[part.name][i] = replace(seat, count=seat.count - 1, at_once=at_once)
        self.lines[group].append(
            fact("redeal-cross-out", instrument=row.called, turns="yes" if self._turns(row, group) else "no")
        )

    def _turns(self, row: Instrument, group: int) -> bool:
        seats = [seat for part in self.parts[group] for seat in self.seats[part.name] if seat.instrument == row.id]
        return any(0 < seat.at_once < seat.players for seat in seats)

    def _give_another(self, row: Instrument, group: int) -> None:
        holders = self._holders(row.id, group)
        given = self._stand_in(row, holders)
        kept = given is not None
        given = given or self.catalogue[LAST_RESORT]
        self.rows[given.id] = given
        for part, i in holders:
            seat = self.seats[part.name][i]
            count = seat.players if given.bodily else 1
            places = count * max(1, given.players)
            at_once = places if places < seat.players else 0
            self.seats[part.name][i] = replace(seat, instrument=given.id, count=count, at_once=at_once)
        cards = tuple(part.name for part, _ in holders)
        message = "redeal-write" if kept else "redeal-clap"
        self.lines[group].append(fact(message, lost=row.called, given=given.called, cards=cards, how=given.how))

    def _stand_in(self, row: Instrument, holders: Sequence[tuple[Part, int]]) -> Instrument | None:
        """What comes nearest of what lies in the cupboard and of what every class has; None where no notes fit."""
        notes = [(part, _played_on(part, self.seats[part.name][i])) for part, i in holders]

        def fits(other: Instrument) -> bool:
            at_hand = (other.bodily and not other.on_request) or self._spare(other.id) > 0
            if other.id == row.id or not at_hand or other.pitched is not row.pitched:
                return False
            players = max(self.seats[part.name][i].players for part, i in holders)
            return all(
                part.texture in other.textures
                and (not other.pitched or all(_has(other, note.midi) for note in played))
                and in_hands(played, other, players, self.score.clock) is not None
                and (other.fastest_per_s >= row.fastest_per_s or all(note.player for note in played))
                for part, played in notes
            )

        def far(other: Instrument) -> int:
            family, register = other.family != row.family, other.register != row.register
            apart = _OTHER_FAMILY * family + _OTHER_REGISTER * register + _BODILY * other.bodily
            return apart + _LOUDER * abs(other.loud - row.loud)

        return min(filter(fits, self.catalogue.instruments), key=far, default=None)

    # --- what it comes to --------------------------------------------------------------------------------------------

    def dealt(self) -> Dealt:
        lines = {group: tuple(self._lines(group)) for group in sorted(self.parts)}
        by_hand = tuple((group, told) for group, told in lines.items() if told)
        return Dealt(
            score=self._score(),
            told=tuple(self.told),
            by_hand=by_hand,
            anew=tuple(group for group, told in by_hand if len(told) > MOST_BY_HAND),
        )

    def _lines(self, group: int) -> Iterator[Fact]:
        before, now = self._printed_size(group), self.size(group)
        if now != before:
            yield fact("redeal-players", now=now, before=before)
        for part in self.parts[group]:
            for seat, printed in zip(self.seats[part.name], self.before[part.name], strict=True):
                row = self._row(printed.instrument)
                if seat.players != printed.players and not row.bodily and seat.instrument == printed.instrument:
                    yield fact(
                        "redeal-seat",
                        part=part.name,
                        instrument=row.of(2),
                        now=seat.players,
                        before=printed.players,
                        away=max(0, printed.count - seat.count) if seat.count == seat.players else 0,
                    )
        yield from self.lines[group]

    def _score(self) -> Score:
        parts = tuple(self._today(part) if part.name in self.seats else part for part in self.score.parts)
        used = {seat.instrument for seats in self.seats.values() for seat in seats}
        rows = {row.id: row for row in self.score.instruments}
        rows |= {name: self._row(name) for name in sorted(used - set(rows))}
        return replace(self.score, parts=parts, instruments=tuple(rows.values()))

    def _today(self, part: Part) -> Part:
        """The part in today's hands: its notes as they were, each with today's player and instrument."""
        seats = tuple(self.seats[part.name])
        if seats == self.before[part.name]:
            return part
        given = {old.instrument: new for old, new in zip(self.before[part.name], seats, strict=True)}
        players: dict[int, int] = {}
        first = 1
        for old, new in zip(self.before[part.name], seats, strict=True):
            played = [i for i, note in enumerate(part.notes) if _instrument(part, note) == old.instrument]
            hands = in_hands([part.notes[i] for i in played], self._row(new.instrument), new.players, self.score.clock)
            for i, hand in zip(played, hands or [-1] * len(played), strict=True):
                players[i] = 0 if hand < 0 else first + hand
            first += new.players
        notes = tuple(
            self._on(note, given[_instrument(part, note)].instrument, players[i]) if i in players else note
            for i, note in enumerate(part.notes)
        )
        main = given[part.instrument].instrument if part.instrument in given else part.instrument
        return replace(part, seats=seats, notes=notes, instrument=main)

    def _on(self, note: Note, instrument: str, player: int) -> Note:
        row = self._row(instrument)
        midi = note.midi if row.pitched else row.gm_key
        return replace(note, player=player, instrument=instrument, midi=midi)


def _instrument(part: Part, note: Note) -> str:
    return note.instrument or part.instrument


def _played_on(part: Part, seat: Seat) -> list[Note]:
    return [note for note in part.notes if _instrument(part, note) == seat.instrument]


def _has(row: Instrument, midi: int) -> bool:
    return row.low <= midi <= row.high and (not row.bars or midi % 12 in row.bars)
