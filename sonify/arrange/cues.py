"""What the conductor does, bar by bar: few enough to do, each with its gesture and its reason.

A cue for every entry and every exit; between them tempo, louder and softer, as far as two hands can do it: a new moment
about every two bars at the most.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from fractions import Fraction

from sonify.arrange.piece import Piece
from sonify.arrange.shape import Shape
from sonify.records.score import Cue, Part

#: With so many things to do at one moment, louder and softer are left to the printed marks.
BUSY = 2
#: A teacher who reads and listens manages one moment in so many bars (our own limit).
BARS_A_CUE = 2
_ORDER = ("start", "tempo", "enter", "rest", "louder", "softer", "stop")
_FINGERS = {"Pattern A": "one finger", "Pattern B": "two fingers", "Pattern C": "three fingers"}


@dataclass(frozen=True, slots=True, kw_only=True)
class _Change:
    """A part that grows or fades, from bar to bar, to a mark."""

    bar: int
    part: str
    action: str
    mark: str


def cues(piece: Piece, shape: Shape, parts: Sequence[Part]) -> tuple[Cue, ...]:
    """All cues in order."""
    last = piece.bars
    found = [_start(piece), *_entries(piece, parts), *_rests(piece, parts), *_tempi(piece)]
    found += _dynamics(piece, shape, parts, found)
    found.append(
        Cue(
            bar=last,
            beat=Fraction(piece.beats),
            part="",
            action="stop",
            gesture="Let the sound sink with your hands, then close both fists: silence. Hold it for a breath.",
            why=f"{piece.stages[-1].title}: {_science(piece, len(piece.stages) - 1)}",
        )
    )
    return tuple(sorted(found, key=lambda cue: (cue.bar, cue.beat, _ORDER.index(cue.action), cue.part)))


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


def _entries(piece: Piece, parts: Iterable[Part]) -> list[Cue]:
    found = []
    for part in parts:
        before = None
        for entry in part.entries:
            stage = _stage(piece, entry.bar)
            fingers = _FINGERS.get(entry.pattern)
            follows = before is not None and before.bar + before.bars == entry.bar
            own = any(blank.bar <= entry.bar < blank.bar + blank.bars for blank in part.blanks)
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
                    action="enter",
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
            comes_back = any(other.bar > after for other in part.entries)
            stage = piece.stages[_stage(piece, after)]
            why = f"{stage.title}: others are heard now." if comes_back else f"{stage.title}: its work is done."
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
    rule = next((c.rule for c in piece.controls.curves if c.rule.control == "tempo"), None)
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
                why=rule.why if rule else f"{stage.title}: {_science(piece, i)}",
                detail=f"{target:g} bpm" + (f", from {first:g}" if glides else ""),
            )
        )
        before = last
    return found


def _dynamics(piece: Piece, shape: Shape, parts: Sequence[Part], others: Sequence[Cue]) -> list[Cue]:
    """Louder and softer where marks change and hands are free: not for who comes in just then (its mark says it), nor
    where much else is to be done, nor close to another moment."""
    load = Counter(cue.bar for cue in others)
    entering = {(cue.bar, cue.part) for cue in others if cue.action == "enter"}
    taken = {*load, piece.bars}
    changes = [change for part in parts for change in _changes(part) if (change.bar, change.part) not in entering]
    found: list[Cue] = []
    for bar in sorted({change.bar for change in changes}):
        busy = load[bar] >= BUSY or (bar not in taken and any(abs(bar - other) < BARS_A_CUE for other in taken))
        if busy:
            continue
        for action in ("louder", "softer"):
            here = [change for change in changes if change.bar == bar and change.action == action]
            if not here:
                continue
            playing = [part for part in parts if _plays(part, bar)]
            everybody = len(here) == len(playing) and len(here) > 1
            for change in here[:1] if everybody else here:
                found.append(_dynamic_cue(piece, shape, change, everybody))
            taken.add(bar)
    return found


def _plays(part: Part, bar: int) -> bool:
    return any(entry.bar <= bar < entry.bar + entry.bars for entry in part.entries)


def _changes(part: Part) -> list[_Change]:
    found = []
    for mark, after in zip(part.dynamics, part.dynamics[1:], strict=False):
        if mark.hairpin:
            action = "louder" if mark.hairpin == "cresc" else "softer"
            found.append(_Change(bar=mark.bar, part=part.name, action=action, mark=after.mark))
    return found


def _dynamic_cue(piece: Piece, shape: Shape, change: _Change, everybody: bool) -> Cue:
    louder = change.action == "louder"
    rule = piece.curve("dynamics", change.part)
    if rule is not None:
        why = rule.rule.why
    elif louder:
        title = piece.stages[shape.blocks[shape.climax[0]].stage].title
        why = f"The piece grows towards its fullest moment: {title}."
    else:
        why = f"{piece.stages[_stage(piece, change.bar)].title}: the sound ebbs away."
    who = "everybody" if everybody else "them"
    gesture = (
        f"Palms up, raise your hands slowly to {who}." if louder else f"Palms down, lower your hands slowly to {who}."
    )
    return Cue(
        bar=change.bar,
        beat=Fraction(1),
        part="" if everybody else change.part,
        action=change.action,
        gesture=gesture,
        why=why,
        detail=change.mark,
    )
