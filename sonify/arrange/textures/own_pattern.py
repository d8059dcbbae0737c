"""A pattern that pupils made, played where its part plays, exactly as they made it wherever hands and bars allow.

Where they do not, it is given to two halves of the group in turn, moved by octaves, or thinned, and that is told with
what would keep it whole.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction
from math import floor

import numpy as np

from sonify.arrange.blocks import stretches
from sonify.arrange.hands import too_fast_at
from sonify.arrange.pitches import fitted
from sonify.arrange.seating import taking_turns
from sonify.arrange.textures.task import Played, Stroke, Task, answer_words, doubled, finding
from sonify.frozen import dataclass
from sonify.records.controls import ControlCurve
from sonify.records.fact import Amount, Arg, Claim, Fact, Named, Note, Reading, fact
from sonify.records.findings import Finding
from sonify.records.own_pattern import BOXES_A_BEAT, OwnPattern, boxes_of, spaced
from sonify.records.score import Entry, Pattern, Seat

Hit = tuple[Fraction, Fraction, int]  # beat from 0, beats, pitch or percussion key
_ACCENT = 4
#: No slower beat is offered than a class can follow (as `inputs.readings` has it).
_SLOWEST_BPM = 30


@dataclass(frozen=True, slots=True, kw_only=True)
class _Fitted:
    """A pattern as this part plays it. seats: where two halves of the group take turns."""

    hits: tuple[Hit, ...]
    findings: tuple[Finding, ...] = ()
    seats: tuple[Seat, ...] | None = None


def own_onsets(task: Task, own: OwnPattern) -> tuple[Fraction, ...]:
    """Where in the bar it strikes."""
    return tuple(sorted({start % task.beats for start, _ in own.hits}))


def own_played(task: Task, own: OwnPattern) -> Played:
    """The pattern over and over, and what the rules that it stands in for would have done."""
    noted, moved = _noted(task, own)
    fit = _within_reach(task, own, noted)
    strokes = _strokes(task, own.bars, fit.hits)
    pattern = Pattern(number=1, bars=own.bars, hits=fit.hits, name=_name(own))
    compared = [_beside_rule(task, own, curve) for curve in _set_aside(task)]
    return Played(
        strokes=tuple(doubled(task, strokes)),
        entries=tuple(
            Entry(bar=stretch[0].bar, bars=stretch[-1].end - stretch[0].bar, pattern=1)
            for stretch in stretches(task.blocks)
        ),
        words=(fact("part-own-pattern", name=_name(own)), *answer_words(task), *(told for told, _ in compared)),
        patterns=(pattern,),
        findings=(*moved, *fit.findings, *(found for _, found in compared)),
        seats=fit.seats,
    )


def _name(own: OwnPattern) -> str | Fact:
    return own.name or fact("part-our-own-pattern")


# --- on this instrument ----------------------------------------------------------------------------------------------


def _noted(task: Task, own: OwnPattern) -> tuple[tuple[Hit, ...], list[Finding]]:
    """Each sound with its length and its note on the main instrument, and what had to be another note."""
    row, spans = task.main, own.hits
    if not row.sustains:
        spans = _rung(spans)
    if not row.pitched:
        told = [_moved(task, "play-own-without-notes", instruments=row.plural)] if own.notes else []
        return tuple((start, lasts, row.gm_key) for start, lasts in spans), told
    notes = task.tuning
    if not own.notes:
        home = notes.tonics[0]
        fifth = notes.fifth_above(home)
        return tuple(
            (start, lasts, notes.notes[fifth if start.denominator > 1 else home]) for start, lasts in spans
        ), []
    fit = fitted([float(note) for note in own.notes], notes)
    hits = tuple((start, lasts, note) for (start, lasts), note in zip(spans, fit.notes, strict=True))
    others = {(was, now) for was, now in zip(own.notes, fit.notes, strict=True) if now != was + 12 * fit.octaves}
    told = []
    if fit.octaves:
        way = "higher" if fit.octaves > 0 else "lower"
        told.append(_moved(task, "play-own-octave", octaves=abs(fit.octaves), way=way, instruments=row.plural))
    if others:
        pairs = tuple(fact("play-own-note-for", now=Note(now), was=Note(was)) for was, now in sorted(others))
        told.append(_moved(task, "play-own-other-notes", notes=pairs, instruments=row.plural))
    return hits, told


def _moved(task: Task, message: str, **places: Arg) -> Finding:
    fix = fact("play-own-choose-notes", instruments=task.main.plural)
    return finding(task, fact(message, **places), fix)


def _rung(spans: Sequence[tuple[Fraction, Fraction]]) -> tuple[tuple[Fraction, Fraction], ...]:
    """What is struck rings by itself: it is written to the next sound or the end of its beat, if it was longer to that
    at least."""
    found = []
    for number, (start, lasts) in enumerate(spans):
        after = spans[number + 1][0] if number + 1 < len(spans) else start + 1
        end = min(after, Fraction(floor(start)) + 1)
        found.append((start, max(lasts, end - start)))
    return tuple(found)


# --- in these hands --------------------------------------------------------------------------------------------------


def _within_reach(task: Task, own: OwnPattern, hits: tuple[Hit, ...]) -> _Fitted:
    """The pattern where one pupil can play it, else in two halves of the group, else thinned."""
    if _reaches(task, own.bars, hits):
        return _Fitted(hits=hits)
    halves = _halves(task)
    if halves is not None and all(_reaches(task, own.bars, hits, half) for half in (0, 1)):
        told = finding(
            task, fact("play-own-halves", name=_name(own)), fact("play-own-slower", bpm=_slow_enough(task, own, hits))
        )
        return _Fitted(hits=hits, seats=halves, findings=(told,))
    kept = list(hits)
    while len(kept) > 1 and not _reaches(task, own.bars, kept):
        kept.remove(max(kept, key=lambda hit: _weakness(hit, kept)))
    spans = [(start, lasts) for start, lasts, _ in kept]
    spans = spans if task.main.sustains else list(_rung(spans))
    left = tuple((start, lasts, midi) for (start, lasts), (_, _, midi) in zip(spans, kept, strict=True))
    return _Fitted(hits=left, findings=(_thinned(task, own, hits, left),))


def _reaches(task: Task, bars: int, hits: Sequence[Hit], half: int | None = None) -> bool:
    """Whether one pupil can play it all through the piece; in halves, every other bar."""
    beats = sorted({stroke.beat for stroke in _strokes(task, bars, hits)})
    if half is not None:
        beats = [beat for beat in beats if beat // task.beats % 2 == half]
    return too_fast_at(task.seconds(beats), task.main) is None


def _halves(task: Task) -> tuple[Seat, ...] | None:
    if len(task.seats) != 1 or task.seats[0].players < 2 or task.seats[0].at_once:
        return None
    seat = task.seats[0]
    return (taking_turns(seat, seat.players // 2, 1),)


def _weakness(hit: Hit, hits: Sequence[Hit]) -> tuple[int, bool, Fraction, Fraction]:
    """How little a sound is missed: between the beats, off the first beat, close behind another, late."""
    start = hit[0]
    before = max((other[0] for other in hits if other[0] < start), default=start - 8)
    return start.denominator, start != 0, before - start, start


def _thinned(task: Task, own: OwnPattern, hits: Sequence[Hit], kept: Sequence[Hit]) -> Finding:
    each = next(n for n in BOXES_A_BEAT if all((start * n).denominator == 1 for start, _, _ in hits))
    starts = {start for start, _, _ in kept}
    boxes = boxes_of(tuple(hit for hit in own.hits if hit[0] in starts), own.bars, task.beats, each)
    told = fact(
        "play-own-too-quick",
        name=_name(own),
        instrument=task.main.called,
        bpm=_bpm(task),
        kept=len(kept),
        all=len(hits),
    )
    offer = ", ".join(f'"{spaced(bar, task.beats)}"' for bar in boxes)
    fix = fact("play-own-offer", boxes=offer, bpm=_slow_enough(task, own, hits))
    return replace(finding(task, told, fix), serious=True)


def _bpm(task: Task) -> Amount:
    bar = max(task.bars, key=task.piece.bpm)
    return Amount(value=task.piece.bpm(bar), source=Reading(how="bpm at", start=bar, end=bar + 1))


def _slow_enough(task: Task, own: OwnPattern, hits: Sequence[Hit]) -> int:
    """The quickest whole tempo at which one pupil could play it over and over; 0 where none is."""
    length = own.bars * task.beats
    beats = sorted({start + turn * length for turn in range(1 + 16 // own.bars) for start, _, _ in hits})
    for bpm in range(int(_bpm(task).value), _SLOWEST_BPM - 1, -1):
        if too_fast_at([float(beat) * 60.0 / bpm for beat in beats], task.main) is None:
            return bpm
    return 0


def _strokes(task: Task, bars: int, hits: Sequence[Hit]) -> list[Stroke]:
    found = []
    for stretch in stretches(task.blocks):
        for bar in range(stretch[0].bar, stretch[-1].end):
            if not task.answers(bar):
                continue
            first = Fraction((bar - stretch[0].bar) % bars * task.beats)
            found += [
                Stroke(
                    beat=task.first_beat(bar) + start - first,
                    beats=lasts,
                    midi=midi,
                    row=task.main,
                    accent=_ACCENT if start == first else 0 if start.denominator == 1 else -_ACCENT,
                )
                for start, lasts, midi in hits
                if first <= start < first + task.beats
            ]
    return found


# --- beside the rules ------------------------------------------------------------------------------------------------


def _set_aside(task: Task) -> list[ControlCurve]:
    """The part's own rules that its pattern stands in for."""
    asked = task.piece.asked or task.piece.controls
    plan = task.line.plan.name
    return [curve for curve in asked.curves if curve.part == plan and task.piece.scene.set_aside(curve.rule)]


def _beside_rule(task: Task, own: OwnPattern, curve: ControlCurve) -> tuple[Fact, Finding]:
    """What the pattern keeps and where the rule would have gone, for the card and for the teacher."""
    control = curve.rule.control

    def tell(asked: int) -> Amount | Note:
        return _strokes_told(asked) if control == "density" else Note(asked)

    bars = task.bars or tuple(range(1, task.piece.bars + 1))
    asked = [(_asked_in(task, curve, bar), bar) for bar in bars]
    (low, least), (high, most) = min(asked), max(asked)
    moves = tell(low) != tell(high)
    claim = Claim(kind="more", left=_by_rule(task, curve, most), right=_by_rule(task, curve, least))
    places: dict[str, Arg] = {
        "control": control,
        "sounds": Amount(value=float(Fraction(len(own.hits), own.bars)), given="as many as were entered"),
        "low": tell(low),
        "high": tell(high),
        "least": least,
        "most": most,
    }
    name, quantity = _name(own), Named("quantity", curve.rule.quantity)
    aside = fact("play-own-rule-aside", name=name, control=control, quantity=quantity)
    if moves:
        told = fact("part-own-rule", claim, **places).or_else(fact("part-own-rule-aside", control=control))
        found = fact("play-own-rule", claim, name=name, quantity=quantity, **places).or_else(aside)
    else:
        told, found = fact("part-own-rule-same", **places), fact("play-own-rule-same", name=name, **places)
    note = finding(task, found, fact("play-own-rule-fix", control=control), where=fact("play-where", what=control))
    return told, replace(note, kind="rule")


def _strokes_told(strokes: int) -> Amount:
    return Amount(value=strokes, places=0, given="what the rule asks for")


def _asked_in(task: Task, curve: ControlCurve, bar: int) -> int:
    """What the rule asks for in a bar: strokes, or the note."""
    first = (bar - 1) * task.beats
    mean = float(curve.results[first : first + task.beats].mean())
    if curve.rule.control == "density":
        return round(mean * task.beats)
    tones = task.piece.scene.music.scale.pitch_classes
    return min((note for note in range(128) if note % 12 in tones), key=lambda note: abs(note - mean))


def _by_rule(task: Task, curve: ControlCurve, bar: int) -> Reading:
    first = (bar - 1) * task.beats
    edges = np.array([first, first + task.beats - 1e-6])
    start_s, end_s = (float(at) for at in task.piece.controls.time_map.model_time_s(edges))
    return Reading(how="mean by rule", of=curve.rule.key, start=start_s, end=end_s)
