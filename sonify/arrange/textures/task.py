"""What a texture is given, what it gives back, and what all of them do alike."""

from __future__ import annotations

from bisect import bisect_left, insort
from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction
from functools import cached_property
from itertools import pairwise

import numpy as np

from sonify.arrange.blocks import Block
from sonify.arrange.compared import of_one_height
from sonify.arrange.groups import Line
from sonify.arrange.hands import BREATH_S, BREATHING, TWO_HANDED, within_reach
from sonify.arrange.piece import Piece
from sonify.arrange.pitches import Tuning, fitted, tuning
from sonify.arrange.shape import ANSWER_BARS, Shape
from sonify.frozen import dataclass
from sonify.kinds.textures import OSTINATO
from sonify.records.fact import Amount, Arg, Claim, Fact, Named, Reading, Words, fact
from sonify.records.findings import Finding
from sonify.records.instrument import Instrument
from sonify.records.own_pattern import OwnPattern
from sonify.records.score import Entry, Pattern, Seat
from sonify.records.timeline import FloatArray

#: Leaps wider than this come after a breath (our own limits): voices a sixth, the recorder an octave.
WIDEST_LEAP = {"voice": 9, "wind": 12}
#: Hardly changes; a step back on the way that is none; up and down: shares of the quantity's swing, of the way gone.
_STILL, _SETBACK, _HUMP = 0.04, 0.2, 0.06


@dataclass(frozen=True, slots=True, kw_only=True)
class Stroke:
    """A note before its dynamics. accent: added to the velocity. row: who plays it, of the line's instruments."""

    beat: Fraction
    beats: Fraction
    midi: int
    row: Instrument
    player: int = 0
    asked: float | None = None
    accent: int = 0


@dataclass(frozen=True, kw_only=True, eq=False)
class Task:
    """One line to be played. Not slotted: what is worked out once is kept.

    place: how many parts of the same texture come before it. busy: onsets within the bar that earlier ostinati use, so
    that this one can fit between them. patterns: how many its group may learn for it. other_line: one that is not
    played, worked out for the card.
    """

    piece: Piece
    shape: Shape
    line: Line
    seats: tuple[Seat, ...]
    rows: tuple[Instrument, ...]
    place: int = 0
    busy: tuple[Fraction, ...] = ()
    patterns: int = 3
    other_line: str = ""

    @property
    def main(self) -> Instrument:
        return self.rows[0]

    @property
    def own(self) -> OwnPattern | None:
        """What pupils made for this part, which is played in place of what the arranger would have made."""
        return self.piece.scene.pattern_of(self.line.plan.name)

    @property
    def texture(self) -> str:
        """How the line moves: what pupils made goes round and round."""
        return self.line.plan.texture if self.own is None else OSTINATO

    @property
    def blocks(self) -> tuple[Block, ...]:
        return self.shape.blocks_of(self.line.name)

    @cached_property
    def runs(self) -> tuple[Block, ...]:
        """The stretches in which the line plays one thing: a change has to be shown, so there are few."""
        return self.shape.runs_of(self.line.name, self.shape.changes.what[self.line.plan.name])

    def run_at(self, bar: int) -> Block:
        return next(run for run in self.runs if run.bar <= bar < run.end)

    @property
    def beats(self) -> int:
        return self.piece.beats

    @cached_property
    def tuning(self) -> Tuning:
        return tuning(self.main, self.piece.scene.music.scale)

    @cached_property
    def bars(self) -> tuple[int, ...]:
        """The bars of the line's blocks."""
        return tuple(bar for block in self.blocks for bar in range(block.bar, block.end))

    @cached_property
    def octaves(self) -> int:
        """Octaves to add to what the pitch rule asks, so that as much as possible lies on the main instrument."""
        pitch = self.results("pitch")
        if pitch is None or not self.main.pitched:
            return 0
        return fitted([float(pitch[(bar - 1) * self.beats]) for bar in self.bars], self.tuning).octaves

    def tuning_of(self, row: Instrument) -> Tuning:
        return tuning(row, self.piece.scene.music.scale)

    @property
    def level(self) -> str:
        """Which line is played: easy, core or stretch."""
        return self.other_line or self.piece.level(self.line.plan)

    def root(self, stage: int) -> int:
        """The place of the note that a stage's chord stands on, as near as can be to the lowest tonic.

        Where a rule sets how bright a part is it keeps to one chord: other notes are brighter or darker by themselves.
        """
        if self.results("brightness", own=True) is not None:
            return self.tuning.tonics[0]
        return self.tuning.chord_root(self.piece.roots[stage])

    def chord(self, stage: int) -> frozenset[int]:
        """The pitch classes of a stage's chord: its root, the fifth over it, and the third that the scale has."""
        scale, root = self.piece.scene.music.scale, self.piece.roots[stage]
        own = {(pitch - scale.tonic) % 12 for pitch in scale.pitch_classes}
        return frozenset((scale.tonic + root + step) % 12 for step in (0, 3, 4, 7) if (root + step) % 12 in own)

    def generator(self, *, shared: bool = False) -> np.random.Generator:
        """Chance for this line; `shared`: the same for all groups that share the part."""
        return self.piece.generator(self.line.plan.name if shared else self.line.name)

    def results(self, control: str, *, own: bool = False) -> FloatArray | None:
        return self.piece.results(control, self.line.plan.name, own=own)

    def first_beat(self, bar: int) -> Fraction:
        return Fraction((bar - 1) * self.beats)

    def seconds(self, beats: Sequence[Fraction]) -> list[float]:
        return self.piece.clock.float_seconds(beats)

    def on_duty(self, bar: int) -> list[tuple[int, Instrument]]:
        """Who plays in a bar: (player from 1 through the seats, instrument)."""
        found, first = [], 1
        for seat, row in zip(self.seats, self.rows, strict=True):
            found += [(first + place, row) for place in seat.on_duty(bar)]
            first += seat.players
        return found

    def answers(self, bar: int) -> bool:
        """Whether this voice plays in a bar where groups share a part: call and answer, and all at the climax."""
        return self.shape.plays(self.line.name, bar)


@dataclass(frozen=True, slots=True, kw_only=True)
class Played:
    """What a texture made of a task. words: instructions for the card, the first the most important."""

    strokes: tuple[Stroke, ...]
    entries: tuple[Entry, ...]
    words: tuple[Words, ...] = ()
    patterns: tuple[Pattern, ...] = ()
    findings: tuple[Finding, ...] = ()
    seats: tuple[Seat, ...] | None = None  # where the texture changed who plays when
    octaves: int = 0


def doubled(task: Task, strokes: Sequence[Stroke], *, strong: bool = False) -> list[Stroke]:
    """The strokes, and what the line's other instruments play along with them.

    Pitched ones join in their own octave, with compared tunes in the same one where they have its notes; unpitched ones
    tap the rhythm, or (`strong`) the first stroke of each bar. Each takes only what a pupil can strike on it, and never
    a pitch that sounds already, but the very stroke that it plays along with.
    """
    sounding = Sounding(strokes)
    found = list(strokes)
    for row in task.rows[1:]:
        copies = _copies(task, strokes, row, strong)
        at_one = row.pitched and not octave_of(task, strokes, row)
        beats = sorted({copy.beat for copy in copies})
        reach = dict(zip(beats, within_reach(task.seconds(beats), row), strict=True))
        for copy in copies:
            if reach[copy.beat] and (at_one or sounding.free(copy)):
                sounding.add(copy)
                found.append(copy)
    return found


def octave_of(task: Task, strokes: Sequence[Stroke], row: Instrument) -> int:
    """By how many semitones a pitched instrument plays along above the others: whole octaves.

    The same note twice is one sound in a MIDI file, so it is never 0 but in a tune that is compared with another: there
    the highest note is to be the greatest value.
    """
    compared = task.line.plan.texture == "melody" and of_one_height(task.piece.scene, task.line.plan.name)
    notes = set(tuning(row, task.piece.scene.music.scale).notes)
    return min(
        (12 * k for k in range(-5, 6) if k or compared),
        key=lambda k: (sum(s.midi + k not in notes for s in strokes), abs(k), -k),
    )


class Sounding:
    """Which pitch sounds when, so that none is struck while it sounds.

    Beats are floats here, for speed: fractions as small as a beat's keep their order, and equal ones are equal.
    """

    def __init__(self, strokes: Iterable[Stroke] = ()) -> None:
        self.spans: dict[int, list[tuple[float, float]]] = {}
        for stroke in strokes:
            self.add(stroke)

    def add(self, stroke: Stroke) -> None:
        insort(self.spans.setdefault(stroke.midi, []), lasting(stroke))

    def free(self, stroke: Stroke) -> bool:
        spans = self.spans.get(stroke.midi, [])
        begin, end = lasting(stroke)
        after = bisect_left(spans, (begin, 0.0))
        if after < len(spans) and spans[after][0] < end:
            return False
        return after == 0 or spans[after - 1][1] <= begin


def lasting(stroke: Stroke) -> tuple[float, float]:
    """Where a stroke begins and ends, in beats: whole ones and their fractions are told apart exactly."""
    above, below = stroke.beat.as_integer_ratio()
    more, parts = stroke.beats.as_integer_ratio()
    return above / below, (above * parts + more * below) / (below * parts)


def _copies(task: Task, strokes: Sequence[Stroke], row: Instrument, strong: bool) -> list[Stroke]:
    if not row.pitched:
        kept = {s.beat: s for s in strokes if not (strong and s.beat % task.beats)}
        return [replace(s, midi=row.gm_key, row=row, asked=None) for s in kept.values()]
    if row.family not in TWO_HANDED:
        strokes = list({s.beat: s for s in reversed(strokes)}.values())[::-1]
    notes, shift = set(tuning(row, task.piece.scene.music.scale).notes), octave_of(task, strokes, row)
    copies = [replace(s, midi=s.midi + shift, row=row, asked=None) for s in strokes if s.midi + shift in notes]
    return breathed(task, copies, row)


def breathed(task: Task, strokes: Sequence[Stroke], row: Instrument) -> list[Stroke]:
    """Time to breathe for voices and recorders: before a leap too wide for one breath, and at a bar line where one
    breath would not last to the next. The note before is cut short; a short trimming there is left out."""
    if row.family not in BREATHING:
        return list(strokes)
    widest, found, out = WIDEST_LEAP[row.family], list(strokes), set[int]()
    starts = task.seconds([stroke.beat for stroke in strokes])
    since = starts[0] if starts else 0.0
    for i, (a, b) in enumerate(pairwise(strokes)):
        if a.beat + a.beats < b.beat:
            since = starts[i + 1]
            continue
        bar_s = task.piece.bar_seconds(int(b.beat // task.beats) + 1)
        long = b.beat % task.beats == 0 and starts[i + 1] + bar_s - since > BREATH_S
        if a.beats >= 1 and (long or abs(a.midi - b.midi) > widest):
            found[i] = replace(a, beats=Fraction(1, 2) if a.beats == 1 else a.beats - 1)
            since = starts[i + 1]
        elif long and a.asked is None and i and a.beats >= Fraction(1, 2):
            out.add(i)
            since = starts[i + 1]
    return [stroke for i, stroke in enumerate(found) if i not in out]


def finding(task: Task, message: Words, fix: Words, where: Words = "") -> Finding:
    """A note on how this line is played."""
    return Finding(kind="playability", message=message, fix=fix, part=task.line.name, where=where, serious=False)


def answer_words(task: Task) -> tuple[Words, ...]:
    """What groups that share a part are told."""
    line = task.line
    if line.name not in task.shape.turns:
        return ()
    turn = "first" if line.voice == 0 else "second"
    return (fact("part-call-and-answer", turn=turn, bars=ANSWER_BARS),)


def breath_words(task: Task) -> tuple[Words, ...]:
    """What the part's quantity does while its players breathe: only they stop."""
    curve = next((one for one in task.piece.controls.curves if one.part == task.line.plan.name), None)
    if curve is None or not task.bars:
        return ()
    ends = np.array([(task.bars[0] - 1) * task.beats, task.bars[-1] * task.beats - 1e-6])
    start_s, end_s = (float(at) for at in task.piece.controls.time_map.model_time_s(ends))
    quantity, timeline = task.piece.timeline.quantity(curve.rule.quantity), task.piece.timeline
    swing = float(np.ptp(quantity.values))

    def way_between(start: float, end: float) -> str:
        inside = timeline.time_s[(timeline.time_s > start) & (timeline.time_s < end)]
        return _way(timeline.at(quantity.name, np.concatenate([[start], inside, [end]])), swing)

    way = way_between(start_s, end_s)
    if way in ("rises", "falls"):  # nobody is told of a rise over a stage that has none
        spans = [(max(stage.start_s, start_s), min(stage.end_s, end_s)) for stage in timeline.stages]
        if any(start < end and way_between(start, end) != way for start, end in spans):
            return ()
    if not way:
        return ()
    claim = Claim(kind=way, left=Reading(how="change", of=quantity.name, start=start_s, end=end_s))
    return (fact("part-breathe-meanwhile", claim, quantity=Named("quantity", quantity.name), way=way),)


def _way(values: FloatArray, swing: float) -> str:
    """How values go from first to last, a claim's kind; "" where no plain word says it. swing: over the whole run."""
    gone = float(values[-1] - values[0])
    if float(np.ptp(values)) <= _STILL * swing:
        return "steady"
    for kind, sign in (("rises", 1.0), ("falls", -1.0)):
        setback = float(np.max(np.maximum.accumulate(sign * values) - sign * values))
        if sign * gone > _STILL * swing and setback <= _SETBACK * sign * gone:
            return kind
    beyond = max(values.max() - values[[0, -1]].max(), values[[0, -1]].min() - values.min())
    return "swings" if beyond > _HUMP * swing else ""


def from_bar(bar: int) -> Fact:
    return fact("play-from-bar", bar=bar)


def bars_told(bar: int, bars: int) -> Fact:
    """Bars as people say them: "bar 3" or "bars 3 to 6"."""
    return fact("part-bars", bar=bar, bars=bars, last=bar + bars - 1)


def capital(name: str) -> str:
    return name[:1].upper() + name[1:]


def span(task: Task, first: int, end: int, how: str = "bars sounding") -> Reading:
    """What the line plays from a bar to before another, as it can be read off the Score."""
    return Reading(how=how, of=task.line.name, start=first, end=end)


def capped_figures(task: Task, asked: float, most: float, bar: int) -> dict[str, Arg]:
    """What a rule asks for, what is played, and the beat that sets the limit."""
    return {
        "asked": Amount(value=asked, places=1, given="what the rule asks for"),
        "most": Amount(value=most, places=1, given="what hands allow"),
        "bpm": Amount(value=task.piece.bpm(bar), source=Reading(how="bpm at", start=bar, end=bar + 1)),
    }
