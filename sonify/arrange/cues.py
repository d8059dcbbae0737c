"""What the conductor does, bar by bar: few enough to do, each with its gesture and its reason.

A cue for every entry, change and exit, at most two at a moment; between them louder and softer, as far as two hands can
do it: a new moment about every two bars at the most. The marks on cards and score say all that is played.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from fractions import Fraction
from itertools import pairwise

from sonify.arrange.beaters import Step, change_cues
from sonify.arrange.frame import stage_letters
from sonify.arrange.groups import MOST_CUES
from sonify.arrange.piece import Piece
from sonify.arrange.reasons import moved, stage_reason, tempo_reason
from sonify.arrange.says import keeps_beat, meaning
from sonify.arrange.shape import Shape
from sonify.arrange.streams import most_streams
from sonify.arrange.swells import changes_cued, mark_at, own_idea
from sonify.kinds.cues import ACTIONS, FINGERS
from sonify.records.fact import Claim, Fact, Reading, fact
from sonify.records.score import FOR_THE_MUSIC, Also, Cue, Entry, Part, Reason

#: A glide that moves the beat by less than this share is steady: nobody hears it as a change (our own limit).
_STEADY = 0.06
_ORDER = tuple(ACTIONS)


def conducted(
    piece: Piece, shape: Shape, parts: Sequence[Part], beaters: dict[str, tuple[Step, ...]]
) -> tuple[Cue, ...]:
    """All cues in order."""
    beside = _beside(piece, parts)
    found = [_start(piece), *_shared(beside, _entries(piece, parts)), *_tempi(piece)]
    found += _shared(beside, _rests(piece, parts, Counter((cue.bar, cue.beat) for cue in found), beside))
    found += _shared(beside, change_cues(piece, parts, beaters))
    found += _letters(piece, parts, found)
    if shape.breath:
        found.append(_breath(piece, shape.breath))
    found += _shared(beside, changes_cued(piece, shape, parts, found))
    found.append(
        Cue(
            bar=piece.bars,
            beat=Fraction(piece.beats),
            part="",
            action="stop",
            gesture="stop",
            reason=stage_reason(piece, len(piece.stages) - 1),
        )
    )
    return tuple(sorted(found, key=lambda cue: (cue.bar, cue.beat, _ORDER.index(cue.action), cue.part)))


def _start(piece: Piece) -> Cue:
    return Cue(
        bar=1,
        beat=Fraction(1),
        part="",
        action="start",
        gesture="start",
        reason=stage_reason(piece, 0),
        bpm=piece.bpm(1),
    )


def _breath(piece: Piece, bar: int) -> Cue:
    """Everybody is silent for the last beat of a bar, before the fullest moment."""
    return Cue(
        bar=bar,
        beat=Fraction(piece.beats),
        part="",
        action="rest",
        gesture="breath",
        reason=stage_reason(piece, _stage(piece, bar + 1)),
    )


def _letters(piece: Piece, parts: Iterable[Part], others: Sequence[Cue]) -> list[Cue]:
    """A stage's letter, shown a bar ahead to everybody, where a part goes on with other notes from the stage on."""
    moving = {bar for part in parts for bar in moves(part)}
    busy = Counter((cue.bar, cue.beat) for cue in others)
    found = []
    for letter, stage in zip(stage_letters(), piece.stages, strict=False):
        ahead = next((bar for bar in (stage.bar - 1, stage.bar - 2) if busy[bar, Fraction(1)] < MOST_CUES), 0)
        if stage.bar in moving and ahead > 0:
            what = fact("cue-letter", letter=letter)
            cue = Cue(
                bar=ahead,
                beat=Fraction(1),
                part="",
                action="change",
                gesture="letter",
                reason=FOR_THE_MUSIC,
                what=what,
            )
            found.append(cue)
    return found


#: How a card tells the notes of an entry: where nothing else is new, the stage's letter is sign enough.
_ON_OTHER_NOTES = ("part-with-notes", "part-pattern-on")


def moves(part: Part) -> set[int]:
    """The bars from which a part goes on as before, but on other notes."""
    return {
        entry.bar
        for before, entry in pairwise(part.entries)
        if before.bar + before.bars == entry.bar and _other_notes(before, entry)
    }


def _other_notes(before: Entry, entry: Entry) -> bool:
    if before.pattern != entry.pattern or before.instruction == entry.instruction:
        return False
    told = [words for words in (before.instruction, entry.instruction) if words]
    if not all(isinstance(words, Fact) and words.message in _ON_OTHER_NOTES for words in told):
        return False
    if entry.pattern:
        return True
    args = [dict(words.args) for words in told if isinstance(words, Fact)]
    sizes = [notes if isinstance(notes := one["notes"], tuple) else () for one in args]
    return len(sizes[0]) == len(sizes[-1]) and args[0]["how"] == args[-1]["how"]


def _stage(piece: Piece, bar: int) -> int:
    return next(i for i, stage in enumerate(piece.stages) if stage.bar <= bar < stage.bar + stage.bars)


def _entries(piece: Piece, parts: Iterable[Part]) -> list[Cue]:
    found = []
    for part in parts:
        before = None
        on_other_notes = moves(part)
        if part.pulse:  # who stops goes on with it: the card says so
            continue
        for entry in part.entries:
            if entry.bar == 1:  # the start is for everybody who plays then
                before = entry
                continue
            if entry.bar in on_other_notes:
                before = entry
                continue
            follows = before is not None and before.bar + before.bars == entry.bar
            own = own_idea(part, entry.bar)
            number = 0 if own or (len(part.patterns) < 2 and not follows) else entry.pattern
            number = number if number <= len(FINGERS) else 0
            gesture = "own-idea" if own else FINGERS[number - 1] if number else "change"
            found.append(
                Cue(
                    bar=entry.bar,
                    beat=Fraction(1),
                    part=part.name,
                    action="change" if follows else "enter",
                    gesture=gesture if follows else "come-in",
                    reason=_entry_reason(piece, part, entry, before, follows=follows),
                    mark="" if own else mark_at(part, entry.bar),
                    pattern=number,
                    what=fact("cue-own-idea") if own else entry.instruction if follows and not number else "",
                )
            )
            before = entry
    return _gathered(parts, found)


def _gathered(parts: Iterable[Part], found: Sequence[Cue]) -> list[Cue]:
    """Where every group plays from a moment on, and more than one comes in, one sign to everybody."""
    desks: dict[tuple[int, int], set[int]] = {}
    for part in parts:
        bars = desks.setdefault((part.group, part.team), set())
        if not part.pulse:
            bars.update(bar for entry in part.entries for bar in range(entry.bar, entry.bar + entry.bars))
    cues: dict[tuple[int, str], list[Cue]] = {}
    for cue in found:
        everybody = cue.action == "enter" and all(cue.bar in bars for bars in desks.values())
        cues.setdefault((cue.bar, "" if everybody else cue.part), []).append(cue)
    return [own[0] if len(own) == 1 else replace(own[0], part="", mark="", pattern=0) for own in cues.values()]


def _beside(piece: Piece, parts: Iterable[Part]) -> dict[str, str]:
    """For each part the first of those that share the scene's part with it and sit side by side, from it on."""
    found: dict[str, str] = {}
    last: dict[str, Part] = {}
    for part in sorted(parts, key=lambda part: part.group):
        name = piece.plan_name(part.name)
        before = last.get(name)
        joined = before is not None and part.group - before.group <= 1
        found[part.name] = found[before.name] if before is not None and joined else part.name
        last[name] = part
    return found


def _shared(beside: Mapping[str, str], cues: Iterable[Cue]) -> list[Cue]:
    """What is asked alike, at one moment, of groups that share a part and sit side by side is one sign."""
    found: dict[Cue, Cue] = {}
    for cue in cues:
        key = replace(cue, part=beside[cue.part], mark="", pattern=0, what="") if cue.part else cue
        first = found.setdefault(key, cue)
        if first is cue:
            continue
        if any(cue.pattern and own.pattern not in (0, cue.pattern) for own in first.apart):
            found[cue] = cue  # each would be shown other fingers
        else:
            own = Also(part=cue.part, mark=cue.mark, pattern=cue.pattern, what=cue.what)
            found[key] = replace(first, also=(*first.also, own))
    return list(found.values())


def _entry_reason(piece: Piece, part: Part, entry: Entry, before: Entry | None, *, follows: bool) -> Reason:
    """A part comes in for its stage; what it does within a stage follows its own rule, or is for the music."""
    stage = _stage(piece, entry.bar)
    if before is None or before.bar + before.bars <= piece.stages[stage].bar:
        return stage_reason(piece, stage)
    curve = piece.curve("density", part.name, own=True)
    if follows and curve is not None:
        return moved(piece, curve, before.bar, entry.bar)
    return FOR_THE_MUSIC


def _rests(
    piece: Piece, parts: Iterable[Part], load: Counter[tuple[int, Fraction]], beside: Mapping[str, str]
) -> list[Cue]:
    """The signs to stop: on the last beat before, so that the next bar line is free for who comes in.

    What is too much for that beat goes to the bar line, or where that is full to a beat before. load: what else is
    shown at each moment; it is added to.
    """
    found = []
    signs: dict[tuple[str, int], tuple[int, Fraction]] = {}  # groups side by side that share a part stop at one sign
    desks: dict[tuple[int, int], set[int]] = {}
    own = [part for part in parts if not part.pulse]
    for part in own:
        desks.setdefault((part.group, part.team), set()).update(entry.bar for entry in part.entries)
    for part in own:
        # Who goes on with another part is brought in there, and not stopped here.
        starts = desks[part.group, part.team]
        for entry in part.entries:
            after = entry.bar + entry.bars
            if after in starts or after > piece.bars:
                continue
            beats = (after - 1, Fraction(piece.beats)), (after, Fraction(1)), (after - 1, Fraction(piece.beats - 1))
            sign = (beside[part.name], after)
            if sign not in signs:
                signs[sign] = next((at for at in beats if load[at] < MOST_CUES), beats[0])
                load[signs[sign]] += 1
            bar, beat = signs[sign]
            stage = _stage(piece, after)
            over = piece.stages[stage].bar == after and not piece.plays_in(part.name, stage)
            found.append(
                Cue(
                    bar=bar,
                    beat=beat,
                    part=part.name,
                    action="rest",
                    gesture="rest",
                    reason=stage_reason(piece, stage) if over else _makes_way(piece, own, part, after),
                )
            )
    return found


def _makes_way(piece: Piece, parts: Sequence[Part], part: Part, bar: int) -> Reason:
    """That others play on without the part, and why not all play: too many meanings, or none would keep time."""
    others = Claim(kind="plays", left=Reading(how="bars sounding", start=float(bar), end=bar + 1.0))
    plans = {plan.name: plan for plan in piece.scene.parts}
    names = {
        piece.plan_name(each.name) for each in parts if any(run.bar <= bar < run.bar + run.bars for run in each.entries)
    }
    own = piece.plan_name(part.name)
    here = [plans[name] for name in names | {own} if name in plans]
    if not any(meaning(piece, plan) for plan in here if plan.name != own):
        return stage_reason(piece, _stage(piece, bar))  # nobody but the beat: there is nothing of what it stands for
    if len({told for plan in here if (told := meaning(piece, plan))}) > most_streams(piece.classroom):
        return Reason(words=fact("cue-makes-way", others), music=True)
    if not any(keeps_beat(piece, plan, bar, bar + 1) for plan in here):
        return Reason(words=fact("cue-beat-for-others", others), music=True)
    return Reason(words=fact("cue-others-play", others), music=True)


def _tempi(piece: Piece) -> list[Cue]:
    """One cue where the tempo steps; where it glides, one at the start of each stage that moves it enough."""
    found = []
    before = told = piece.bpm(1)
    for i, stage in enumerate(piece.stages):
        first, last = piece.bpm(stage.bar), piece.bpm(stage.bar + stage.bars - 1)
        glides = first != last
        target = last if glides else first
        from_bpm, before = before, last
        steady = abs(target - told) < _STEADY * told if glides else first == from_bpm
        if steady or (i == 0 and not glides):
            continue
        found.append(_tempo_cue(piece, i, told, glides=glides))
        told = target
    return found


def _tempo_cue(piece: Piece, number: int, told: float, *, glides: bool) -> Cue:
    """A new beat. told: the tempo that was last asked for."""
    stage = piece.stages[number]
    bars = range(stage.bar, stage.bar + stage.bars)
    first, target = piece.bpm(bars[0]), piece.bpm(bars[-1])
    way = "quicker" if target > told else "slower"
    reached = next(bar for bar in bars if piece.bpm(bar) == target)
    return Cue(
        bar=stage.bar,
        beat=Fraction(1),
        part="",
        action="tempo",
        gesture=f"{way}-by-and-by" if glides else way,
        reason=tempo_reason(piece, number, quicker=target > told, glides=glides),
        bpm=target,
        from_bpm=first if glides else 0.0,
        by_bar=reached if glides else 0,
    )
