"""Can this class play this Score? Each finding names the part, the bar, the reason and the fix. Limits are our own."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator, Sequence
from fractions import Fraction
from itertools import pairwise

from sonify.arrange.changeovers import changeovers
from sonify.arrange.hands import BREATH_S, BREATHING, TWO_HANDED, beats_of, burst_per_s, too_fast_at
from sonify.arrange.pitches import SWAP_BARS
from sonify.kinds.marks import DYNAMICS
from sonify.records.classroom import Classroom
from sonify.records.fact import Amount, Fact, Words, fact
from sonify.records.fact import Note as NoteName
from sonify.records.findings import Finding
from sonify.records.instrument import Instrument
from sonify.records.score import Note, Part, Score, Seat
from sonify.records.words import inside_mark

#: "No sudden loud sounds", in velocity: a part may rise by so much a bar, and an accent stand out by so much; it comes
#: in no louder than mezzo piano with an accent, and stays below forte.
GENTLE_RISE, GENTLE_ACCENTS = 13, 8
GENTLE_ENTRY, GENTLE_MOST = 61, 88
#: A bar may stray from its mark by so much: accents and waves, and half a step between marks.
MARK_SLACK = 7.0
#: Half a beat is enough to breathe. Times are compared with so much to spare.
BREATH_BEATS, SLACK_S = Fraction(1, 2), 0.01
#: A pupil who plays for less than this in a piece of a minute and a half or more has mostly waited (our own limit).
LEAST_PLAYED_S, LONG_S = 30.0, 90.0


def playability(score: Score, classroom: Classroom) -> tuple[Finding, ...]:
    """What in the Score this class cannot play; empty where all is well."""
    found: list[Finding] = [*_pupils(score, classroom), *_cupboard(score, classroom), *_patterns(score)]
    for part in score.group_parts:
        found += [*_range(score, part), *_hands(score, part), *_breath(score, part)]
        found += [*_bar_lines(score, part), *_loudness(score, part), *_marks(score, part)]
    found += [*changeovers(score), *_short_shares(score)]
    return tuple(found)


def _problem(part: str, where: Words, message: Words, fix: Words) -> Finding:
    return Finding(kind="playability", part=part, where=where, message=message, fix=fix)


def _bar(score: Score, beat: Fraction) -> int:
    """The bar of a beat, as the clock has it, in whole numbers: it is asked for every note, several times."""
    return beat.numerator // (beat.denominator * score.metre.beats) + 1


def _last_bar(score: Score, note: Note) -> int:
    """The bar in which a note ends; to end on a bar line is to end before it (in whole numbers, as above)."""
    above, below = note.beat.as_integer_ratio()
    more, parts = note.beats.as_integer_ratio()
    return -(-(above * parts + more * below) // (below * parts * score.metre.beats))


def _pupils(score: Score, classroom: Classroom) -> Iterator[Finding]:
    groups = score.group_pupils
    if sum(groups.values()) != classroom.pupils:
        yield _problem(
            "",
            fact("play-where", what="groups"),
            fact("play-pupils-seated", seated=sum(groups.values()), pupils=classroom.pupils),
            fact("play-seat-every-pupil"),
        )
    if groups and max(groups.values()) - min(groups.values()) > 1:
        yield _problem(
            "",
            fact("play-where", what="groups"),
            fact("play-uneven-groups", least=min(groups.values()), most=max(groups.values())),
            fact("play-even-out"),
        )
    for part in score.group_parts:
        for seat in part.seats:
            if seat.players < 1 or seat.count < 1:
                told = fact("play-empty-seat", instrument=seat.instrument, players=seat.players, count=seat.count)
                yield _problem(part.name, fact("play-where", what="seats"), told, fact("play-fill-the-seat"))


def _cupboard(score: Score, classroom: Classroom) -> Iterator[Finding]:
    """Instruments promised at the same time: one group's parts may share, two groups' may not."""
    desks: dict[str, dict[tuple[int, int], int]] = {}
    for part in score.group_parts:
        for seat in part.seats:
            row = score.instrument(seat.instrument)
            playing = seat.at_once if 0 < seat.at_once < seat.players else seat.players
            if playing > seat.count * row.players:
                told = fact(
                    "play-crowded", players=playing, count=seat.count, instruments=row.plural, takes=row.players
                )
                yield _problem(part.name, fact("play-where", what="seats"), told, fact("play-let-take-turns"))
            if not row.bodily:
                at = desks.setdefault(row.id, {})
                at[part.group, part.team] = max(at.get((part.group, part.team), 0), seat.count)
    for name, at in desks.items():
        if sum(at.values()) > classroom.count(name):
            told = fact(
                "play-promised-twice",
                groups=tuple(str(group) for group, _ in sorted(at)),
                needed=sum(at.values()),
                instruments=score.instrument(name).plural,
                have=classroom.count(name),
            )
            yield _problem("", fact("play-where", what="cupboard"), told, fact("play-another-instrument"))


def seconds_played(score: Score) -> dict[tuple[int, int, int], float]:
    """How long each pupil (group, team, number) plays: the bars in which their instrument sounds and it is their turn.

    What pupils are to invent counts as played. A group's second part is for the same pupils as its first.
    """
    edges = score.clock.many_seconds([score.clock.beat_of_bar(bar) for bar in range(1, score.bars + 2)])
    found: dict[tuple[int, int, int], float] = {}
    for part in score.group_parts:
        blank = {bar for blank in part.blanks for bar in range(blank.bar, blank.bar + blank.bars)}
        sounding: dict[str, set[int]] = {}
        for note in part.notes:
            begun = range(_bar(score, note.beat), _last_bar(score, note) + 1)
            sounding.setdefault(note.instrument or part.instrument, set()).update(begun)
        for seat, first in seat_spans(part):
            bars = blank | sounding.get(seat.instrument, set())
            for place in range(seat.players):
                key = (part.group, part.team, first + place)
                own = [bar for bar in bars if place in seat.on_duty(bar)]
                found[key] = found.get(key, 0.0) + sum(float(edges[bar] - edges[bar - 1]) for bar in own)
    return found


def _short_shares(score: Score) -> Iterator[Finding]:
    """Pupils who mostly wait, one note a group: no fault, but the teacher should know."""
    whole = float(score.clock.seconds(score.end_beat))
    least: dict[int, list[float]] = {}
    for (group, _, _), seconds in seconds_played(score).items():
        least.setdefault(group, []).append(seconds)
    for group, shares in sorted(least.items()):
        short = [seconds for seconds in shares if seconds < LEAST_PLAYED_S]
        if short and whole >= LONG_S:
            names = tuple(part.name for part in score.group_parts if part.group == group)
            yield Finding(
                kind="playability",
                part=next(part.name for part in score.group_parts if part.group == group),
                where=fact("play-group", group=group),
                message=fact(
                    "play-short-share",
                    short=len(short),
                    all=len(shares),
                    group=group,
                    parts=names,
                    seconds=round(min(short)),
                    whole=round(whole),
                ),
                fix=fact("play-more-to-do"),
                serious=False,
            )


def _patterns(score: Score) -> Iterator[Finding]:
    counts: Counter[tuple[int, int]] = Counter()
    for part in score.group_parts:
        counts[part.group, part.team] += 0 if part.pulse else len(part.patterns)
    for (group, _), count in sorted(counts.items()):
        if count > 3:
            yield _problem(
                "",
                fact("play-group", group=group),
                fact("play-many-patterns", group=group, count=count),
                fact("play-keep-different"),
            )


def _row(score: Score, part: Part, note: Note) -> Instrument:
    return score.instrument(note.instrument or part.instrument)


def _range(score: Score, part: Part) -> Iterator[Finding]:
    """Pitched notes in range, on bars that the set has: the first of each kind is named."""
    seen: set[tuple[str, int]] = set()
    for note in part.notes:
        row = _row(score, part, note)
        if not row.pitched or (row.id, note.midi) in seen:
            continue
        seen.add((row.id, note.midi))
        where = fact("play-bar", bar=_bar(score, note.beat))
        if not row.low <= note.midi <= row.high:
            told = fact(
                "play-out-of-range",
                note=NoteName(note.midi),
                instrument=row.called,
                low=NoteName(row.low),
                high=NoteName(row.high),
            )
            yield _problem(part.name, where, told, fact("play-move-an-octave"))
        elif row.bars and note.midi % 12 not in row.bars:
            replaced = SWAP_BARS.get(note.midi % 12) if row.family == "bars" else None
            used = any(_row(score, part, n).id == row.id and n.midi % 12 == replaced for n in part.notes)
            if replaced is None or used:
                told = fact("play-no-such-bar", note=NoteName(note.midi), instrument=row.called)
                yield _problem(part.name, where, told, fact("play-nearest-note"))


def seat_spans(part: Part) -> list[tuple[Seat, int]]:
    """Each seat with the number of its first player."""
    found, first = [], 1
    for seat in part.seats:
        found.append((seat, first))
        first += seat.players
    return found


def strokes_of_players(score: Score, part: Part) -> dict[int, list[Note]]:
    """What each player of a part plays, by turns where the seats say so."""
    spans = seat_spans(part)
    found: dict[int, list[Note]] = {}
    for note in part.notes:
        instrument = note.instrument or part.instrument
        for seat, first in spans:
            if note.player:
                players = [note.player] if first <= note.player < first + seat.players else []
            elif seat.instrument == instrument:
                players = [first + place for place in seat.on_duty(_bar(score, note.beat))]
            else:
                players = []
            for player in players:
                found.setdefault(player, []).append(note)
    return found


def _hands(score: Score, part: Part) -> Iterator[Finding]:
    """Strokes a second, both hands, and overlaps, for the first player of each seat that cannot do it."""
    told: set[tuple[str, str]] = set()
    rows = {first + place: seat for seat, first in seat_spans(part) for place in range(seat.players)}
    seen: dict[tuple[object, ...], bool] = {}
    for player, played in sorted(strokes_of_players(score, part).items()):
        row = score.instrument(rows[player].instrument)
        key = (row.id, *(id(note) for note in played))
        if key in seen:  # pupils who play exactly what another plays
            continue
        seen[key] = True
        for kind, beat, message, fix in _player_faults(score, part, row, played):
            if (row.id, kind) not in told:
                told.add((row.id, kind))
                yield _problem(part.name, fact("play-bar", bar=_bar(score, beat)), message, fix)


def _player_faults(
    score: Score, part: Part, row: Instrument, played: Sequence[Note]
) -> Iterator[tuple[str, Fraction, Fact, Fact]]:
    name = row.called
    if any(_row(score, part, note).id != row.id for note in played):
        wrong = next(note for note in played if _row(score, part, note).id != row.id)
        yield "instrument", wrong.beat, fact("play-wrong-instrument", instrument=name), fact("play-reseat")
    beats = beats_of(played)
    at = too_fast_at(score.clock.float_seconds(beats), row)
    if at is not None:
        beat = score.clock.beat_at(at)
        long, short = (Amount(value=each, given="our own limit") for each in (row.fastest_per_s, burst_per_s(row)))
        yield "speed", beat, fact("play-too-fast", instrument=name, long=long, short=short), fact("play-thin-it")
    chords = Counter(note.beat for note in played) if len(beats) < len(played) else {}
    most = 2 if row.pitched and row.family in TWO_HANDED else 1
    for beat, count in chords.items():
        if count > most:
            yield "chord", beat, fact("play-at-once", count=count, instrument=name), fact("play-share-out")
            break
    if row.sustains:
        lasts = {note.beat: note.beat + note.beats for note in played}
        again = next((beat for before, beat in pairwise(beats) if beat < lasts[before]), None)
        if again is not None:
            yield "overlap", again, fact("play-still-sounds", instrument=name), fact("play-shorten")


def _breath(score: Score, part: Part) -> Iterator[Finding]:
    """A tune that is sung or blown leaves time to breathe; in a drone pupils breathe one after the other."""
    tuneful = [n for n in part.notes if _row(score, part, n).family in BREATHING and part.texture == "melody"]
    since = Fraction(-1000)
    ends = since
    for note in tuneful:
        since = note.beat if note.beat >= ends + BREATH_BEATS or ends < 0 else since
        ends = note.beat + note.beats
        if score.clock.seconds(ends) - score.clock.seconds(since) > BREATH_S + SLACK_S:
            told = fact("play-one-breath", seconds=Amount(value=BREATH_S, given="our own limit"))
            where = fact("play-bar", bar=_bar(score, note.beat))
            yield _problem(part.name, where, told, fact("play-leave-a-breath"))
            return


def _bar_lines(score: Score, part: Part) -> Iterator[Finding]:
    """Entries are whole bars of the piece, and every note stands in one: whoever plays has been cued."""
    for entry in part.entries:
        if entry.bar < 1 or entry.bar + entry.bars > score.bars + 1:
            yield _problem(part.name, fact("play-bar", bar=entry.bar), fact("play-entry-leaves"), fact("play-shorten"))
    held = {bar for entry in part.entries for bar in range(entry.bar, entry.bar + entry.bars)}
    stray = next((note for note in part.notes if _bar(score, note.beat) not in held), None)
    if stray is not None:
        where = fact("play-bar", bar=_bar(score, stray.beat))
        yield _problem(part.name, where, fact("play-not-cued"), fact("play-add-an-entry"))


def _marks(score: Score, part: Part) -> Iterator[Finding]:
    """The printed marks are those that are played: of what is given in full, bar by bar."""
    if score.scaffold != "full" or not part.dynamics:
        return
    by_bar: dict[int, list[int]] = {}
    for note in part.notes:
        if (note.instrument or part.instrument) == part.instrument:
            by_bar.setdefault(_bar(score, note.beat), []).append(note.velocity)
    for bar, velocities in sorted(by_bar.items()):
        marks = printed_marks(part, bar)
        mean = sum(velocities) / len(velocities)
        if not marks or not _between_marks(marks, mean):
            where = fact("play-bar", bar=bar)
            message = fact("play-not-as-marked", velocity=round(mean), marks=tuple(dict.fromkeys(marks)) or ("-",))
            yield _problem(part.name, where, message, fact("play-mark-it"))
            return


def printed_marks(part: Part, bar: int) -> tuple[str, ...]:
    """The mark that stands in a bar, and where a hairpin leads on from it the next one."""
    standing = next((mark for mark in reversed(part.dynamics) if mark.bar <= bar), None)
    if standing is None:
        return ()
    after = next((mark.mark for mark in part.dynamics if mark.bar > bar), standing.mark)
    return (standing.mark, after) if standing.hairpin else (standing.mark,)


def _between_marks(marks: Sequence[str], velocity: float) -> bool:
    low, high = sorted((marks[0], marks[-1]), key=DYNAMICS.__getitem__)
    inside = DYNAMICS[low] <= velocity <= DYNAMICS[high]
    return inside or any(inside_mark(mark, velocity, MARK_SLACK) for mark in marks)


def _loudness(score: Score, part: Part) -> Iterator[Finding]:
    if not score.gentle:
        return
    starts = {entry.bar for entry in part.entries} - {entry.bar + entry.bars for entry in part.entries}
    before: Note | None = None
    for note in part.notes:
        bar = _bar(score, note.beat)
        fresh = before is None or any(_bar(score, before.beat) < start <= bar for start in starts)
        most = GENTLE_ENTRY
        heard = 0 if before is None else _bar(score, before.beat)
        if any(heard < blank.bar <= bar for blank in part.blanks):
            most = GENTLE_MOST  # what pupils invent before it is theirs
        elif before is not None and not fresh:
            bars = max(1, bar - _bar(score, before.beat))
            most = before.velocity + GENTLE_RISE * bars + GENTLE_ACCENTS
        if note.velocity > min(most, GENTLE_MOST):
            told = fact("play-sudden", velocity=note.velocity, most=min(most, GENTLE_MOST))
            yield _problem(part.name, fact("play-bar", bar=bar), told, fact("play-let-it-grow"))
            return
        before = note
