"""The beat that can be heard: who keeps it, on knees, quietly, while a group's own part waits.

Nobody waits longer than sixteen bars, everybody plays in each half of the piece, and in every bar somebody keeps the
beat: a part that does so anyway, or a group that waits.
"""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction
from itertools import groupby

from sonify.arrange.blocks import PHRASE_BARS, Block, joined, stretches
from sonify.arrange.groups import Line
from sonify.arrange.hands import too_fast_at
from sonify.arrange.piece import Piece
from sonify.arrange.rhythms import on_beat
from sonify.arrange.says import EVERY_BEAT_BPM
from sonify.frozen import dataclass
from sonify.kinds.marks import DYNAMICS
from sonify.records.fact import fact
from sonify.records.instrument import Instrument
from sonify.records.score import DynamicMark, Entry, Note, Part, Pattern, Seat

#: No group is silent longer (our own limit).
LONGEST_WAIT_BARS = 16
INSTRUMENT = "knee-taps"
#: Quiet under what it waits for, and still heard.
_STRONG, _WEAK = DYNAMICS["p"], DYNAMICS["p"] - 6


@dataclass(frozen=True, slots=True, kw_only=True)
class PulseDesk:
    """Pupils who play together, and the stretches (indices) in which a part of theirs sounds."""

    lines: tuple[Line, ...]
    plays: frozenset[int]


def desks_of(lines: Sequence[Line], playing: Sequence[frozenset[str]]) -> tuple[PulseDesk, ...]:
    found: dict[int, list[Line]] = {}
    for line in lines:
        found.setdefault(line.desk, []).append(line)
    return tuple(
        PulseDesk(
            lines=tuple(own),
            plays=frozenset(u for u, here in enumerate(playing) if any(line.plan.name in here for line in own)),
        )
        for own in found.values()
    )


def kept_by(desks: Sequence[PulseDesk], units: Sequence[Block], steady: Sequence[bool]) -> dict[int, set[int]]:
    """For each desk (its place) the stretches in which it keeps the pulse: whole waits, from where its part stops.

    So the sign to stop is all that has to be shown. steady: whether a part keeps the beat in a stretch anyway.
    """
    kept: dict[int, set[int]] = {place: set() for place in range(len(desks))}
    waits = [(place, wait) for place, desk in enumerate(desks) for wait in _waits(desk, len(units))]
    for place, wait in waits:
        if _too_long(desks[place], wait, units):
            kept[place].update(wait)
    for unit in range(len(units)):
        if steady[unit] or any(unit in own for own in kept.values()):
            continue
        able = [(place, wait) for place, wait in waits if unit in wait]
        if able:
            place, wait = max(able, key=lambda one: len(one[1]))  # who waits longest
            kept[place].update(wait)
    return kept


def _waits(desk: PulseDesk, units: int) -> list[list[int]]:
    return [list(run) for plays, run in groupby(range(units), desk.plays.__contains__) if not plays]


def _too_long(desk: PulseDesk, wait: Sequence[int], units: Sequence[Block]) -> bool:
    """Longer than anybody should wait, or all that a desk has of one half of the piece.

    A phrase is to spare: taps may be rare where a part stops and where it begins again.
    """
    if sum(units[u].bars for u in wait) > LONGEST_WAIT_BARS - PHRASE_BARS:
        return True
    middle = (units[-1].end - 1) / 2
    before = any(units[u].bar - 1 < middle - 1 for u in desk.plays)
    after = any(units[u].end - 1 > middle + 1 for u in desk.plays)
    return (not before and wait[0] == 0) or (not after and wait[-1] == len(units) - 1)


def pulse_parts(
    piece: Piece, desks: Sequence[PulseDesk], kept: dict[int, set[int]], units: Sequence[Block], breath: int = 0
) -> tuple[Part, ...]:
    """The pulse of each desk that keeps it, as a part of its own. breath: the bar whose last beat is silent."""
    row = piece.catalogue[INSTRUMENT]
    return tuple(
        _part(piece, desks[place].lines[0], row, [units[u] for u in sorted(own)], breath)
        for place, own in kept.items()
        if own
    )


def _left_out(piece: Piece, bar: int, start: Fraction, breath: int) -> bool:
    """Whether a tap falls into the held breath, or after the last gesture."""
    return (bar == breath and start == piece.beats - 1) or (bar == piece.bars and start > min(2, piece.beats - 1))


def pulse_name(line: Line) -> str:
    team = f", team {line.team}" if line.team else ""
    return f"The pulse, group {line.group}{team}"


def _part(piece: Piece, line: Line, row: Instrument, units: Sequence[Block], breath: int) -> Part:
    runs = [joined(run) for run in stretches(units)]
    bpm = max(piece.fastest_bpm(one.bar, one.bars) for one in runs)
    halved = bpm > EVERY_BEAT_BPM or too_fast_at([60.0 / bpm * i for i in range(32)], row) is not None
    beat = on_beat(piece.beats, halved=halved)
    hits = tuple((start, min(length, Fraction(1)), row.gm_key) for start, length in beat.hits)
    notes = tuple(
        Note(
            beat=Fraction((bar - 1) * piece.beats) + start,
            beats=length,
            midi=key,
            velocity=_WEAK if start else _STRONG,
            brightness=0.3,
            instrument=row.id,
        )
        for one in runs
        for bar in range(one.bar, one.end)
        for start, length, key in hits
        if not _left_out(piece, bar, start, breath)
    )
    how = "every" if not halved else "second" if piece.beats != 3 else "first"
    return Part(
        name=pulse_name(line),
        group=line.group,
        team=line.team,
        instrument=row.id,
        texture="ostinato",
        notes=notes,
        seats=(Seat(instrument=row.id, players=line.players, count=line.players),),
        instructions=(fact("part-pulse"), fact("part-pulse-tap", how=how), fact("part-pulse-stop")),
        entries=tuple(Entry(bar=one.bar, bars=one.bars, pattern=1) for one in runs),
        patterns=(Pattern(number=1, bars=1, hits=hits),),
        dynamics=tuple(DynamicMark(bar=one.bar, mark="p") for one in runs),
        difficulty="easy",
        pulse=True,
    )
