"""What the conductor does, bar by bar: few enough to do, each with its gesture and its reason.

A cue for every entry, change and exit; between them tempo, louder and softer, as far as two hands can do it: a new
moment about every two bars at the most. The marks on cards and score are those that are cued, and no others.
"""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction

from sonify.arrange.beaters import Step, change_cues
from sonify.arrange.piece import Piece
from sonify.arrange.reasons import tempo_reason
from sonify.arrange.shape import Shape
from sonify.arrange.swells import changes_cued, mark_at, marked, own_idea
from sonify.records.fact import Words
from sonify.records.score import Cue, Part

#: A glide that moves the beat by less than this share is steady: nobody hears it as a change (our own limit).
_STEADY = 0.06
_ORDER = ("start", "tempo", "enter", "change", "rest", "louder", "softer", "stop")
_FINGERS = {"Pattern A": "one finger", "Pattern B": "two fingers", "Pattern C": "three fingers"}


def conducted(
    piece: Piece, shape: Shape, parts: Sequence[Part], beaters: dict[str, tuple[Step, ...]]
) -> tuple[tuple[Part, ...], tuple[Cue, ...]]:
    """The parts with only the dynamic marks that are cued, and all cues in order."""
    found = [_start(piece), *_entries(piece, parts), *_rests(piece, parts), *_tempi(piece)]
    found += change_cues(piece, parts, beaters)
    changes, cued = changes_cued(piece, shape, parts, found)
    found += cued
    found.append(
        Cue(
            bar=piece.bars,
            beat=Fraction(piece.beats),
            part="",
            action="stop",
            gesture="Let the sound sink with your hands, then close both fists: silence. Hold it for a breath.",
            why=(f"{piece.stages[-1].title}:", _science(piece, len(piece.stages) - 1)),
        )
    )
    led = tuple(replace(part, dynamics=marked(part, changes)) for part in parts)
    return led, tuple(sorted(found, key=lambda cue: (cue.bar, cue.beat, _ORDER.index(cue.action), cue.part)))


def _start(piece: Piece) -> Cue:
    bpm = piece.bpm(1)
    return Cue(
        bar=1,
        beat=Fraction(1),
        part="",
        action="start",
        gesture="Count two bars aloud with the clicks; lift both hands on the last beat and bring them down on one.",
        why=(f"{piece.stages[0].title}:", _science(piece, 0)),
        detail=f"{bpm:g} bpm",
    )


def _stage(piece: Piece, bar: int) -> int:
    return next(i for i, stage in enumerate(piece.stages) if stage.bar <= bar < stage.bar + stage.bars)


def _science(piece: Piece, stage: int) -> Words:
    """The science of a stage in one line: the scene's caption, else what the process found."""
    row = piece.stages[stage]
    if row.caption:
        return row.caption
    found = next((s for s in piece.timeline.stages if s.name == row.stage), None)
    return (found.science if found else "") or row.title


def _entries(piece: Piece, parts: Iterable[Part]) -> list[Cue]:
    found = []
    for part in parts:
        before = None
        for entry in part.entries:
            stage = _stage(piece, entry.bar)
            fingers = _FINGERS.get(entry.pattern)
            follows = before is not None and before.bar + before.bars == entry.bar
            own = own_idea(part, entry.bar)
            if follows and own:
                gesture = "Open both hands to them: now their own idea."
            elif follows:
                what = f": {entry.instruction}" if entry.instruction else ""
                gesture = (
                    f"Show {fingers}: {entry.pattern}." if fingers else f"Show the change with an open hand{what}."
                )
            else:
                gesture = "Look at them a bar ahead, breathe in with them, lower an open hand on beat 1."
                gesture += f" Show {fingers}." if fingers and len(part.patterns) > 1 else ""
            given = (mark_at(part, entry.bar), entry.pattern)
            detail = "their own idea" if own else ", ".join(filter(None, given))
            found.append(
                Cue(
                    bar=entry.bar,
                    beat=Fraction(1),
                    part=part.name,
                    action="change" if follows else "enter",
                    gesture=gesture,
                    why=(f"{piece.stages[stage].title}:", _science(piece, stage)),
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
            why: Words = (f"{stage.title}:", _science(piece, number)) if stage.bar == after else ""
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
    quicker = target > told
    way = "quicker" if quicker else "slower"
    hands = "smaller and quicker" if quicker else "larger and slower"
    reached = next(bar for bar in bars if piece.bpm(bar) == target)
    slide = f"little by little from {first:g}, reaching {target:g} bpm at bar {reached}"
    return Cue(
        bar=stage.bar,
        beat=Fraction(1),
        part="",
        action="tempo",
        gesture=f"Little by little make your beat {hands}." if glides else f"Give one clear bar {way}: beat {hands}.",
        why=tempo_reason(piece, number, quicker=quicker, glides=glides) or (f"{stage.title}:", _science(piece, number)),
        detail=slide if glides else f"{target:g} bpm",
    )
