"""Whether a recording is the piece at all, which take is measured, and what is told of it."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from itertools import pairwise

import numpy as np

from sonify.frozen import dataclass
from sonify.listening.aligning import FoundBar, Singles, joined_takes, played_bars, prepared, takes_of
from sonify.listening.answering import questions
from sonify.listening.entering import entered
from sonify.listening.expected import Expected, expected
from sonify.listening.frames import HOP_S, Heard
from sonify.listening.labelling import BEYOND_ENDS, Labelled, labelled, pieces_of
from sonify.listening.measuring import stages_heard
from sonify.listening.plan import Plan
from sonify.listening.suggesting import suggestions
from sonify.records.fact import Words, fact
from sonify.records.listened import Listened

#: A recording is the piece where its bars stand out from the piece's other bars so surely (in deviations of labels by
#: lot), less so much for the square of how often a stage was jumped to, for all of the piece being missing, and for the
#: spread of its tempi against the score's beyond what classes have; and where so much of the piece is there at least,
#: its tempi not further apart than so. Set on simulated performances, against other scenes' pieces, talk and noise.
MUCH, TOGETHER = 0.4, 0.13
SURELY, A_JUMP, ALL_MISSING, A_SPREAD, SPREAD = 3.7, 1.0, 2.0, 20.0, 0.03
#: As much less for how a stage's bars wander about its own tempo: where another piece is followed, the beat that is
#: found goes to and fro (0.026 and more; simulated classes 0.009 to 0.021).
A_WANDER, WANDER = 60.0, 0.02
#: Where the music goes on beyond the take, it may be a part of another piece: then twice as surely.
SURELY_WITHIN = 2.0 * SURELY
#: Below this peak nothing was recorded; a share of samples at full scale beyond this is clipped.
SILENT, CLIPPED = 1e-4, 1e-3
#: A take has so many bars at least; so much of the recording around it is looked at, to learn what chance gives.
FEWEST_BARS, AROUND_S = 4, 20.0
#: Between two takes there is a rest; what follows a take is music where so many bars at least are there, and are so
#: much like the take's own in the mean (which are 1).
NO_REST_S, MUSIC_BARS, MUSIC, PLACES_A_BAR = 0.2, 3, 0.5, 32
#: A stage that is played again is looked for at so many tempi about the last one's, either way, so far apart; the best
#: of them has to be as much like the take's own (talk reached 0.67 at 0 dB, music 1.0 to 1.2).
AGAIN_STEPS, AGAIN_STEP, MUSIC_AT_BEST = 5, 0.02, 0.8


def measured(plan: Plan, heard: Heard, progress: Callable[[float], None] | None = None) -> Listened:
    """All that is told of a recording."""
    if heard.peak < SILENT:
        return _not(heard, fact("recorded-silent"))
    if heard.seconds < 0.25 * float(plan.bar_s.sum()):
        return _not(heard, fact("recorded-too-short"))
    sound = expected(plan)
    takes = takes_of(played_bars(plan, sound, heard, progress))
    best, goes_on, recognised = _best(plan, sound, heard, takes, takes)
    seams: frozenset[int] = frozenset()
    if best is None:
        best, goes_on, recognised = _best(plan, sound, heard, joined_takes(plan, takes), takes)
        seams = _at_seams(best) if best else seams
    if best is None:
        return _not(heard, fact("recorded-not-found"))
    doubt = fact("recorded-alike") if goes_on else ""
    stages, bars = stages_heard(plan, best.take, best.heard, doubt, _followed(best) | seams)
    entries = entered(plan, best.take, best.onsets, fact("recorded-alike") if seams else doubt)
    asked = questions(plan, stages, entries, bars)
    told = tuple(row.heard for row in entries)
    return Listened(
        recognised=True,
        seconds=heard.seconds,
        start_s=best.from_s + best.take.bars[0].start_s,
        end_s=best.from_s + best.take.bars[-1].end_s,
        takes=recognised,
        stages=tuple(
            replace(row, start_s=None if row.start_s is None else best.from_s + row.start_s) for row in stages
        ),
        entries=told,
        questions=asked,
        bars=tuple(replace(bar, start_s=best.from_s + bar.start_s) for bar in bars),
        feedback=suggestions(stages, told, asked),
        clipped=heard.clipped > CLIPPED,
    )


def _best(
    plan: Plan, sound: Expected, heard: Heard, tried: Sequence[list[FoundBar]], takes: Sequence[list[FoundBar]]
) -> tuple[_Piece | None, bool, int]:
    """Of those that are the piece the one that fits best, whether the music goes on beyond it, and how many are."""
    best, beyond, count = None, False, 0
    for found in tried:  # one at a time: all takes of two hours are many
        piece = _piece(plan, sound, heard, found)
        if piece is None or not is_the_piece(plan, piece.take):
            continue
        goes_on = _goes_on(piece, takes)
        if goes_on and not is_the_piece(plan, piece.take, surely=SURELY_WITHIN):
            continue
        count += 1
        if best is None or piece.fit > best.fit:
            best, beyond = piece, goes_on
    return best, beyond, count


def _not(heard: Heard, why: Words) -> Listened:
    return Listened(recognised=False, seconds=heard.seconds, why=why, clipped=heard.clipped > CLIPPED)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class _Piece:
    """A take and the stretch of the recording that it lies in. All its seconds count from `from_s`."""

    take: Labelled
    heard: Heard
    onsets: Singles
    from_s: float
    found: tuple[FoundBar, ...]

    @property
    def fit(self) -> float:
        return sum(bar.fit for bar in self.take.bars)


def _goes_on(piece: _Piece, takes: Sequence[Sequence[FoundBar]]) -> bool:
    """Whether the music goes on beyond the take, before it or after: a class that begins anew stops first, so a stage
    was played again in between, and which bars are which is guessed."""
    first, last = piece.found[0], piece.found[-1]
    for bars in takes:
        before, after = first.start_s - bars[-1].end_s, bars[0].start_s - last.end_s
        if len(bars) < FEWEST_BARS or not any(0.0 <= gap < NO_REST_S for gap in (before, after)):
            continue
        near = bars[-BEYOND_ENDS:] if 0.0 <= before < NO_REST_S else bars[:BEYOND_ENDS]
        if _music(piece, [(bar.start_s - piece.from_s, bar.end_s - piece.from_s) for bar in near]) > MUSIC:
            return True
    # not before it: talk that is louder than the piece is as much like it there as music
    return _music_after(piece, piece.take.bars[-BEYOND_ENDS:])


def _music_after(
    piece: _Piece, bars: Sequence[FoundBar], until_s: float = np.inf, enough: float = MUSIC_AT_BEST
) -> bool:
    """Whether the music goes on after bars that were found, until the next ones."""
    for bar_s in _tempi(bars):
        starts = (bars[-1].end_s + n * bar_s for n in range(BEYOND_ENDS))
        if _music(piece, [(start, start + bar_s) for start in starts if start + bar_s <= until_s]) > enough:
            return True
    return False


def _tempi(bars: Sequence[FoundBar]) -> list[float]:
    """How long bars beside these may last: what is played again has a tempo of its own."""
    lasts = float(np.median([bar.end_s - bar.start_s for bar in bars]))
    return [float(lasts * np.exp(step * AGAIN_STEP)) for step in range(-AGAIN_STEPS, AGAIN_STEPS + 1)]


def _followed(piece: _Piece) -> frozenset[int]:
    """Places of the take's bars after which none was found for a while and yet the music went on: where the bars before
    them lie is guessed."""
    bars = piece.take.bars
    return frozenset(
        place
        for place, (bar, after) in enumerate(pairwise(bars))
        if after.start_s - bar.end_s > NO_REST_S
        and _music_after(piece, bars[max(0, place + 1 - BEYOND_ENDS) : place + 1], after.start_s, enough=MUSIC)
    )


def _at_seams(piece: _Piece) -> frozenset[int]:
    """Places of joined takes' bars beside others that were read as nothing of the piece: where they lie is guessed."""
    bars, found = piece.take.bars, piece.found
    out = {
        place
        for before, (bar, after) in enumerate(pairwise(bars))
        if after.start_s - bar.end_s > NO_REST_S
        for place in (before, before + 1)
    }
    if bars[0].start_s + piece.from_s > found[0].start_s + NO_REST_S:
        out.add(0)
    if bars[-1].end_s + piece.from_s < found[-1].end_s - NO_REST_S:
        out.add(len(bars) - 1)
    return frozenset(out)


def _music(piece: _Piece, bars_s: Sequence[tuple[float, float]]) -> float:
    """How much bars are like the take's own in the mean (which are 1); 0 where the recording has too few of them."""
    there = [FoundBar(0, start, end, 0.0) for start, end in bars_s if start >= 0.0 and end <= len(piece.onsets) * HOP_S]
    if len(there) < MUSIC_BARS:
        return 0.0
    usual = pieces_of(piece.onsets, piece.take.bars, PLACES_A_BAR).mean(axis=0)
    alike = (pieces_of(piece.onsets, there, PLACES_A_BAR) * usual).sum(axis=(1, 2)) / np.square(usual).sum()
    return float(alike.mean())


def _piece(plan: Plan, sound: Expected, heard: Heard, bars: Sequence[FoundBar]) -> _Piece | None:
    if len(bars) < FEWEST_BARS:
        return None
    first = max(0, round((bars[0].start_s - AROUND_S) / HOP_S))
    last = round((bars[-1].end_s + AROUND_S) / HOP_S)
    piece = replace(heard, onsets=heard.onsets[first:last], levels_db=heard.levels_db[first:last])
    onsets, from_s = prepared(piece, 1), first * HOP_S
    own = [replace(bar, start_s=bar.start_s - from_s, end_s=bar.end_s - from_s) for bar in bars]
    take = labelled(plan, sound, onsets, own, from_the_start=first == 0)
    if len(take.bars) < FEWEST_BARS:
        return None
    return _Piece(take=take, heard=piece, onsets=onsets, from_s=from_s, found=tuple(bars))


def is_the_piece(plan: Plan, take: Labelled, surely: float = SURELY) -> bool:
    there = len({bar.bar for bar in take.bars}) / plan.bars
    ratios = np.log([60.0 * plan.beats_a_bar / (bar.end_s - bar.start_s) / plan.bpm[bar.bar] for bar in take.bars])
    spread = float(np.std(ratios))
    stages = np.array([plan.stage_of(bar.bar) for bar in take.bars])
    wander = float(np.sqrt(np.mean([np.var(ratios[stages == stage]) for stage in np.unique(stages)])))
    jumps = sum(after.bar != before.bar + 1 for before, after in pairwise(take.bars))
    less = A_JUMP * jumps**2 + ALL_MISSING * (1.0 - there)
    less += A_SPREAD * max(0.0, spread - SPREAD) + A_WANDER * max(0.0, wander - WANDER)
    return there >= MUCH and spread <= TOGETHER and take.stands_out - less >= surely
