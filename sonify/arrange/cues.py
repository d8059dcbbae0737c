"""What the conductor does, bar by bar: few enough to do, each with its gesture and its reason.

A cue for every entry, change and exit; between them tempo, louder and softer, as far as two hands can do it: a new
moment about every two bars at the most. The marks on cards and score are those that are cued, and no others.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise

from sonify.arrange.beaters import Step, change_cues
from sonify.arrange.piece import Piece
from sonify.arrange.reasons import moved, tempo_reason
from sonify.arrange.shape import Shape
from sonify.records.scene import DYNAMICS
from sonify.records.score import Cue, DynamicMark, Part

#: With so many things to do at one moment, louder and softer are left to the printed marks.
BUSY = 2
#: A teacher who reads and listens manages one moment in so many bars (our own limit).
BARS_A_CUE = 2
_ORDER = ("start", "tempo", "enter", "change", "rest", "louder", "softer", "stop")
_FINGERS = {"Pattern A": "one finger", "Pattern B": "two fingers", "Pattern C": "three fingers"}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Change:
    """A part that grows or fades from a bar on, to a mark reached at `reached` (the same bar: at once)."""

    bar: int
    part: str
    action: str
    mark: str
    reached: int


def conducted(
    piece: Piece, shape: Shape, parts: Sequence[Part], beaters: dict[str, tuple[Step, ...]]
) -> tuple[tuple[Part, ...], tuple[Cue, ...]]:
    """The parts with only the dynamic marks that are cued, and all cues in order."""
    found = [_start(piece), *_entries(piece, parts), *_rests(piece, parts), *_tempi(piece)]
    found += change_cues(piece, parts, beaters)
    changes, cued = _dynamics(piece, shape, parts, found)
    found += cued
    found.append(
        Cue(
            bar=piece.bars,
            beat=Fraction(piece.beats),
            part="",
            action="stop",
            gesture="Let the sound sink with your hands, then close both fists: silence. Hold it for a breath.",
            why=f"{piece.stages[-1].title}: {_science(piece, len(piece.stages) - 1)}",
        )
    )
    marked = tuple(replace(part, dynamics=_marked(part, changes)) for part in parts)
    return marked, tuple(sorted(found, key=lambda cue: (cue.bar, cue.beat, _ORDER.index(cue.action), cue.part)))


def _start(piece: Piece) -> Cue:
    bpm = piece.bpm(1)
    return Cue(
        bar=1,
        beat=Fraction(1),
        part="",
        action="start",
        gesture="Count two bars aloud with the clicks; lift both hands on the last beat and bring them down on one.",
        why=f"{piece.stages[0].title}: {_science(piece, 0)}",
        detail=f"{bpm:g} bpm",
    )


def _stage(piece: Piece, bar: int) -> int:
    return next(i for i, stage in enumerate(piece.stages) if stage.bar <= bar < stage.bar + stage.bars)


def _science(piece: Piece, stage: int) -> str:
    """The science of a stage in one line: the scene's caption, else what the process found."""
    row = piece.stages[stage]
    if row.caption:
        return row.caption
    found = next((s for s in piece.timeline.stages if s.name == row.stage), None)
    return (found.science if found else "") or row.title


def _mark(part: Part, bar: int) -> str:
    return next((mark.mark for mark in reversed(part.dynamics) if mark.bar <= bar), "")


def _own_idea(part: Part, bar: int) -> bool:
    return any(blank.bar <= bar < blank.bar + blank.bars for blank in part.blanks)


def _entries(piece: Piece, parts: Iterable[Part]) -> list[Cue]:
    found = []
    for part in parts:
        before = None
        for entry in part.entries:
            stage = _stage(piece, entry.bar)
            fingers = _FINGERS.get(entry.pattern)
            follows = before is not None and before.bar + before.bars == entry.bar
            own = _own_idea(part, entry.bar)
            if follows and own:
                gesture = "Open both hands to them: now their own idea."
            elif follows:
                gesture = f"Show {fingers}: {entry.pattern}." if fingers else "Show the change with an open hand."
            else:
                gesture = "Look at them a bar ahead, breathe in with them, lower an open hand on beat 1."
                gesture += f" Show {fingers}." if fingers and len(part.patterns) > 1 else ""
            given = (_mark(part, entry.bar), entry.pattern)
            detail = "their own idea" if own else ", ".join(filter(None, given))
            found.append(
                Cue(
                    bar=entry.bar,
                    beat=Fraction(1),
                    part=part.name,
                    action="change" if follows else "enter",
                    gesture=gesture,
                    why=f"{piece.stages[stage].title}: {_science(piece, stage)}",
                    detail=detail,
                )
            )
            before = entry
    return found


def _rests(piece: Piece, parts: Iterable[Part]) -> list[Cue]:
    found = []
    for part in parts:
        starts = {entry.bar for entry in part.entries}
        for entry in part.entries:
            after = entry.bar + entry.bars
            if after in starts or after > piece.bars:
                continue
            number = _stage(piece, after)
            stage = piece.stages[number]
            why = f"{stage.title}: {_science(piece, number)}" if stage.bar == after else ""
            found.append(
                Cue(
                    bar=after,
                    beat=Fraction(1),
                    part=part.name,
                    action="rest",
                    gesture="Draw a slow circle towards them and close the hand on beat 1.",
                    why=why,
                )
            )
    return found


def _tempi(piece: Piece) -> list[Cue]:
    """One cue where the tempo steps; where it glides, one at the start of each stage."""
    found = []
    before = piece.bpm(1)
    for i, stage in enumerate(piece.stages):
        first, last = piece.bpm(stage.bar), piece.bpm(stage.bar + stage.bars - 1)
        glides = first != last
        if not glides and (i == 0 or first == before):
            before = last
            continue
        target = last if glides else first
        quicker = target > (first if glides and i == 0 else before)
        way = "quicker" if quicker else "slower"
        hands = "smaller and quicker" if quicker else "larger and slower"
        how = f"Little by little make your beat {hands}" if glides else f"Give one clear bar {way}: beat {hands}"
        found.append(
            Cue(
                bar=stage.bar,
                beat=Fraction(1),
                part="",
                action="tempo",
                gesture=f"{how}.",
                why=tempo_reason(piece, i, quicker=quicker, glides=glides) or f"{stage.title}: {_science(piece, i)}",
                detail=f"{target:g} bpm" + (f", from {first:g}" if glides else ""),
            )
        )
        before = last
    return found


def _dynamics(
    piece: Piece, shape: Shape, parts: Sequence[Part], others: Sequence[Cue]
) -> tuple[list[_Change], list[Cue]]:
    """Louder and softer where hands are free: not for who comes in just then (that cue says its mark), nor where much
    else is to be done, nor close to another moment. What has to wait is caught up at the next free moment."""
    load = Counter(cue.bar for cue in others)
    taken = {*load, piece.bars}
    stated: dict[str, str] = {}
    changes: list[_Change] = []
    found: list[Cue] = []
    for bar in range(1, piece.bars):
        starting = [part for part in parts if any(entry.bar == bar for entry in part.entries)]
        stated |= {part.name: "" if _own_idea(part, bar) else _mark(part, bar) for part in starting}
        if load[bar] >= BUSY or (bar not in taken and any(abs(bar - other) < BARS_A_CUE for other in taken)):
            continue
        playing = [part for part in parts if _plays(part, bar)]
        able = [part for part in playing if part not in starting]
        here = [change for part in able if (change := _change(part, bar, stated[part.name]))]
        if not here:
            continue
        changes += here
        stated |= {change.part: change.mark for change in here}
        found += _dynamic_cues(piece, shape, here, playing)
        taken.add(bar)
    return changes, found


def _plays(part: Part, bar: int) -> bool:
    return any(entry.bar <= bar < entry.bar + entry.bars for entry in part.entries)


def _change(part: Part, bar: int, stated: str) -> _Change | None:
    """Where a part goes from a bar on, if that is not what it was last told."""
    mark, reached = _mark(part, bar), bar
    for here, after in pairwise(part.dynamics):
        if here.hairpin and here.bar <= bar < after.bar:
            mark, reached = after.mark, after.bar
    if mark == stated or not stated or not mark:
        return None
    action = "louder" if DYNAMICS[mark] > DYNAMICS[stated] else "softer"
    return _Change(bar=bar, part=part.name, action=action, mark=mark, reached=reached)


def _marked(part: Part, changes: Iterable[_Change]) -> tuple[DynamicMark, ...]:
    """The marks that are cued: at each entry and change, and where the part is told to grow or fade."""
    own = [change for change in changes if change.part == part.name]
    marks = {
        entry.bar: DynamicMark(bar=entry.bar, mark=_mark(part, entry.bar))
        for entry in part.entries
        if not _own_idea(part, entry.bar)
    }
    for change in own:
        if change.reached == change.bar:
            marks[change.bar] = DynamicMark(bar=change.bar, mark=change.mark)
            continue
        before = max((mark for mark in marks.values() if mark.bar <= change.bar), key=lambda mark: mark.bar)
        hairpin = "cresc" if change.action == "louder" else "dim"
        marks[change.bar] = DynamicMark(bar=change.bar, mark=before.mark, hairpin=hairpin)
        marks.setdefault(change.reached, DynamicMark(bar=change.reached, mark=change.mark))
    return tuple(marks[bar] for bar in sorted(marks) if marks[bar].mark)


def _dynamic_cues(piece: Piece, shape: Shape, here: Sequence[_Change], playing: Sequence[Part]) -> list[Cue]:
    """One cue a change; one to everybody where all who play do the same."""
    same = len({(change.action, change.mark) for change in here}) == 1
    everybody = same and len(here) == len(playing) > 1
    whys = [_dynamic_why(piece, shape, change) for change in here]
    if everybody:
        why = " ".join(dict.fromkeys(filter(None, whys)))
        return [_dynamic_cue(here[0], "", why)]
    return [_dynamic_cue(change, change.part, why) for change, why in zip(here, whys, strict=True)]


def _dynamic_why(piece: Piece, shape: Shape, change: _Change) -> str:
    curve = piece.curve("dynamics", change.part)
    if curve is not None:
        return moved(piece, curve, change.bar, max(change.reached, change.bar))
    if change.action == "louder":
        return f"The piece grows towards its fullest moment: {piece.stages[shape.blocks[shape.climax[0]].stage].title}."
    return ""


def _dynamic_cue(change: _Change, part: str, why: str) -> Cue:
    who = "them" if part else "everybody"
    louder = change.action == "louder"
    gesture = (
        f"Palms up, raise your hands slowly to {who}." if louder else f"Palms down, lower your hands slowly to {who}."
    )
    return Cue(
        bar=change.bar,
        beat=Fraction(1),
        part=part,
        action=change.action,
        gesture=gesture,
        why=why,
        detail=change.mark,
    )
