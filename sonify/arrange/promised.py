"""What a piece promises and this class cannot have, said plainly: with fewer groups than parts, or more than are heard.

Looked for in what is played, whatever was planned.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterator
from itertools import pairwise

from sonify.arrange.apart import untold
from sonify.arrange.compared import comparisons
from sonify.arrange.groups import MOST_CUES
from sonify.arrange.piece import Piece
from sonify.arrange.says import halves_beat, lists, meaning, names, speaks
from sonify.records.fact import Words, fact
from sonify.records.findings import Finding
from sonify.records.played import bars_played
from sonify.records.scene import PartPlan
from sonify.records.score import Score

#: No group waits longer than this (our own limit).
MOST_WAITED_BARS = 16
#: Of the beats of a stage: every second one, and one more at its end.
_HALF = 0.6


def promise_findings(piece: Piece, score: Score, streams: int) -> tuple[Finding, ...]:
    """Named parts that are not heard, rules that cannot be told where their parts play, signs at once, long waits.

    streams: how many meanings at once the class can follow.
    """
    bars = bars_played(piece.scene, score)
    playing = {plan: bars[plan.name] for plan in piece.scene.parts if bars[plan.name]}
    return (
        *_named(piece, playing, streams),
        *_untold(piece, playing),
        *_second_beats(piece, score),
        *_signs(score),
        *_waiting(score),
    )


def _named(piece: Piece, playing: dict[PartPlan, frozenset[int]], streams: int) -> Iterator[Finding]:
    """Parts with something to say that a stage's caption names, or that the scene gives to it, and that are not heard
    in it, though it has the room."""
    full = any(len(parts) >= streams for parts in comparisons(piece.scene))
    for number, stage in enumerate(piece.stages):
        here = range(stage.bar, stage.bar + stage.bars)
        saying = [plan for plan in playing if meaning(piece, plan) and _says(piece, plan, number, here)]
        heard = [plan for plan in saying if playing[plan].intersection(here)]
        going_on = sum(not plan.rests for plan in heard)
        room = (streams - going_on) * max(1, stage.bars // 8) - (len(heard) - going_on)
        named = [plan for plan in saying if plan not in heard and names(piece, stage, plan)]
        listed = [plan for plan in saying if plan not in (*heard, *named) and lists(stage, plan) and not full]
        for plan in [*named, *listed][: max(0, room)]:
            told = fact("play-named-unheard", part=plan.name, how="named" if plan in named else "given")
            where = fact("play-stages", stages=(stage.title,))
            yield _problem(told, _more_groups(piece), plan.name, where, serious=plan in named)


def _says(piece: Piece, plan: PartPlan, number: int, here: range) -> bool:
    return number in piece.stage_numbers(plan) and bool(speaks(piece, plan)[here.start - 1 : here.stop - 1].any())


def _untold(piece: Piece, playing: dict[PartPlan, frozenset[int]]) -> Iterator[Finding]:
    """Parts that play only where what they stand for hardly changes, though it does in other stages of theirs."""
    for plan, bars in playing.items():
        stages = {n for n, s in enumerate(piece.stages) if bars.intersection(range(s.bar, s.bar + s.bars))}
        if others := untold(piece, plan, stages, levelled=False):
            where = fact("play-stages", stages=tuple(piece.stages[n].title for n in sorted(others)))
            yield _problem(fact("play-untold", part=plan.name), _more_groups(piece), plan.name, where)


def _second_beats(piece: Piece, score: Score) -> Iterator[Finding]:
    """Parts that are the beat itself and strike every second one where most could play every one."""
    for part in score.group_parts:
        plan = next((p for p in piece.scene.parts if p.name == piece.plan_name(part.name)), None)
        if part.pulse or plan is None or not plan.on_beat or any(note.player for note in part.notes):
            continue
        struck = {note.beat for note in part.notes}
        halved = []
        for number in piece.stage_numbers(plan):
            stage = piece.stages[number]
            beats = range((stage.bar - 1) * piece.beats, (stage.bar - 1 + stage.bars) * piece.beats)
            on = sum(beat in struck for beat in beats)
            if on and on <= _HALF * len(beats) and not halves_beat(piece, stage.bar, stage.bar + stage.bars):
                halved.append(stage.title)
        if halved:
            told = fact("play-second-beats", instrument=score.instrument(part.instrument).plural)
            where = fact("play-stages", stages=tuple(halved))
            yield _problem(told, fact("play-quicker-instrument"), part.name, where, serious=False)


def _more_groups(piece: Piece) -> Words:
    parts = len(piece.scene.parts)
    if len(piece.scene.parts) > piece.classroom.groups:
        return fact("play-as-many-groups", groups=parts)
    return fact("play-fewer-at-once")


def _signs(score: Score) -> Iterator[Finding]:
    """Moments at which the conductor would have to show more than two hands can; louder and softer not counted."""
    at = Counter((cue.bar, cue.beat) for cue in score.cues if cue.action not in ("louder", "softer"))
    for (bar, _), count in sorted(at.items()):
        if count > MOST_CUES:
            told = fact("play-signs-at-once", count=count, most=MOST_CUES)
            yield _problem(told, fact("play-let-some-follow"), "", fact("play-bar", bar=bar))


def _waiting(score: Score) -> Iterator[Finding]:
    """Groups that play nothing at all, not even the pulse, for more bars in a row than the limit."""
    for group in sorted({part.group for part in score.group_parts}):
        bars = score.bars_sounding(part for part in score.group_parts if part.group == group)
        edges = [0, *sorted(bars), score.bars + 1]
        rest, last = max((later - bar - 1, later) for bar, later in pairwise(edges))
        if rest > MOST_WAITED_BARS:
            told = fact("play-long-wait", bars=rest, most=MOST_WAITED_BARS)
            yield _problem(told, fact("play-more-to-do"), "", fact("play-group", group=group))


def _problem(message: Words, fix: Words, part: str, where: Words, *, serious: bool = True) -> Finding:
    return Finding(kind="class", message=message, fix=fix, part=part, where=where, serious=serious)
