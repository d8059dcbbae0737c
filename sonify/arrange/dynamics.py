"""How loud: velocities from the dynamics rule or from the shape of the piece, and the marks and hairpins for it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from itertools import pairwise

import numpy as np

from sonify.arrange.beaters import Step, brightens, shade
from sonify.arrange.blocks import Block, stretches
from sonify.arrange.groups import Line
from sonify.arrange.piece import Piece
from sonify.arrange.shape import Shape
from sonify.arrange.textures.task import Stroke
from sonify.frozen import dataclass
from sonify.kinds.marks import DYNAMICS
from sonify.kinds.textures import MANNERS
from sonify.records.fact import Amount, Words, fact
from sonify.records.findings import Finding
from sonify.records.instrument import Instrument
from sonify.records.score import DynamicMark, Note, Part
from sonify.records.timeline import FloatArray
from sonify.records.words import inside_mark, velocity_mark

# Without a dynamics rule a part comes in softer and grows over its first bars, and fades in its last (our own choices).
_SOFT_IN, _IN_BARS = 20.0, 4
_SOFT_OUT, _OUT_BARS = 12.0, 2
#: "No sudden loud sounds": from one bar to the next a part rises by no more than this (about one dynamic mark) ...
GENTLE_RISE = 13
#: Accents then move a stroke by no more than this, either way.
MOST_ACCENT = 4
#: ... comes in no louder than mezzo piano, and never reaches forte.
GENTLE_ENTRY, GENTLE_MOST = DYNAMICS["mp"], DYNAMICS["f"] - 1
#: Where that leaves a part less than this share of its range, its softest is taken down to piano to make room. Where
#: its loudness tells of the science it is to pianissimo, if that keeps a tenth more of its decibels.
_NARROW, _GENTLE_LEAST, _SOFTEST = 0.6, DYNAMICS["p"], DYNAMICS["pp"]
_SHARES, _WORTH_SOFTER = tuple(hundredth / 100.0 for hundredth in range(100, -1, -1)), 0.1
#: Loud instruments are played this much softer then.
_SOFTENED = 16.0
#: "Quiet start": nothing in the first section above piano.
QUIET_MOST = DYNAMICS["p"]
#: A step this large between two bars is sudden: no hairpin leads to it.
_SUDDEN = 13.0
#: So much a bar a part goes up that comes in softly.
_RAMP = _SUDDEN - 0.1
#: Where no rule says how loud, voices are no louder than mezzo forte.
_VOICE_MOST = DYNAMICS["mf"]
#: A mark stands while the loudness is no further than this from what it stands for (accents and waves are 4) ...
_STAYS = 5.0
#: ... and another is not the nearer one for so many bars on end: one loudness is one mark, in all parts and places.
_SETTLED = 4
#: ... and the next one is led to by a hairpin of so many bars at the most.
_LEAD_BARS = 4


@dataclass(frozen=True, slots=True, kw_only=True)
class PartLoudness:
    """Velocity of each bar from 0 (bar 1 is index 0); only bars that the line plays mean anything."""

    bars: tuple[float, ...]
    voices_most: int = 127
    findings: tuple[Finding, ...] = ()

    def at(self, bar: int) -> float:
        return self.bars[bar - 1]


def loudness(
    piece: Piece, shape: Shape, line: Line, rows: Sequence[Instrument], strokes: Iterable[Stroke]
) -> PartLoudness:
    """A line's velocity bar by bar, with what the class's needs changed."""
    findings: list[Finding] = []
    ruled = piece.results("dynamics", line.plan.name)
    levels = _shaped(piece, shape, line) if ruled is None else piece.bar_means(ruled).copy()
    levels = np.clip(levels, 1.0, 127.0)
    free = ruled is None
    if free and rows[0].family == "voice":
        _at_most(line, shape, levels, _VOICE_MOST - MOST_ACCENT)
    if piece.gentle and any(row.loud >= 3 for row in rows):
        loud = next(row for row in rows if row.loud >= 3)
        levels -= _SOFTENED
        findings.append(_note(line, fact("play-loud-instrument", instrument=loud.called), "class"))
    if piece.quiet_start:
        _start_quietly(piece, shape, line, levels, findings)
    if piece.gentle:
        _soften(shape, line, levels, {int(s.beat // piece.beats) + 1 for s in strokes}, findings, ruled=not free)
    return PartLoudness(
        bars=tuple(float(level) for level in np.clip(levels, 1.0, 127.0)),
        voices_most=_VOICE_MOST if free else 127,
        findings=tuple(findings),
    )


def _shaped(piece: Piece, shape: Shape, line: Line) -> FloatArray:
    """Soft in, growing towards the climax, fading home; each stretch of a part likewise."""
    manner = MANNERS[line.plan.texture]
    low, high = manner.edge, manner.climax
    levels = np.array([low + (high - low) * shape.arc(bar) for bar in range(1, piece.bars + 1)])
    if line.plan.texture == "drone":
        return levels
    for stretch in stretches(shape.blocks_of(line.name)):
        first, end = stretch[0].bar, stretch[-1].end
        for bar in range(first, min(first + _IN_BARS, end)):
            levels[bar - 1] -= _SOFT_IN * (1.0 - (bar - first) / _IN_BARS)
        for bar in range(max(end - _OUT_BARS, first + _IN_BARS), end):
            levels[bar - 1] -= _SOFT_OUT * (1.0 - (end - 1 - bar) / _OUT_BARS)
    return levels


def _at_most(line: Line, shape: Shape, levels: FloatArray, most: float) -> None:
    """The part's range drawn together so that its loudest is `most`: voices are sung or spoken, never shouted."""
    bars = [bar - 1 for i in shape.sounding[line.name] for bar in range(shape.blocks[i].bar, shape.blocks[i].end)]
    high, low = float(levels[bars].max()), min(float(levels[bars].min()), most)
    if high > most:
        levels[:] = low + (levels - float(levels[bars].min())) * (most - low) / max(high - low, 1e-9)


def _start_quietly(piece: Piece, shape: Shape, line: Line, levels: FloatArray, findings: list[Finding]) -> None:
    """Nothing above piano in the first section; after it the level comes back a step a bar."""
    end = piece.stages[0].bars
    before = levels.copy()
    levels[:end] = np.minimum(levels[:end], QUIET_MOST)
    for bar in range(end, len(levels)):
        limit = levels[bar - 1] + GENTLE_RISE
        if levels[bar] <= limit:
            break
        levels[bar] = limit
    plays = [b for i in shape.sounding[line.name] for b in range(shape.blocks[i].bar, shape.blocks[i].end)]
    ruled = piece.curve("dynamics", line.plan.name) is not None
    if ruled and any(before[bar - 1] > levels[bar - 1] + 1.0 for bar in plays):
        findings.append(_note(line, fact("play-quiet-start"), "class"))


def _soften(
    shape: Shape, line: Line, levels: FloatArray, heard: set[int], findings: list[Finding], *, ruled: bool
) -> None:
    """No sudden loud sounds: soft entries, small steps up, never forte.

    The part's whole range is lowered and narrowed by one line from old level to new, so that what grew still grows and
    what sank still sinks; where the loudness tells of the science, by one share of all decibels.
    """
    before = levels.copy()
    spans = _spans(shape, line, heard)
    bars = [bar for first, last, _ in spans for bar in range(first, last + 1)]
    if not bars:
        return
    least = float(levels[[bar - 1 for bar in bars]].min())
    low, late = min(least, GENTLE_ENTRY), False
    if ruled:
        levels[:], eased = _drawn_together(levels, least, low, spans)
        if late := eased > 0:
            findings.append(_note(line, fact("play-comes-in-softly", bars=eased), "class"))
    else:
        slope = _gentle_slope(levels - least, low, spans)
        if slope < _NARROW:  # room to grow, from softer still
            low = min(least, _GENTLE_LEAST)
            slope = _gentle_slope(levels - least, low, spans)
        levels[:] = low + slope * (levels - least)
    lowered = max(float(before[bar - 1] - levels[bar - 1]) for bar in bars)
    if lowered > 1.0:
        most = Amount(value=lowered, places=0, given="the level before less the level now")
        findings.append(_note(line, fact("play-softer-all-through", most=most, late="yes" if late else "no"), "class"))


def _spans(shape: Shape, line: Line, heard: set[int]) -> list[tuple[int, int, int]]:
    """(first bar, last bar, bar in which it is first heard) of each stretch: who answers is heard some bars later."""
    found = []
    for stretch in stretches(shape.blocks_of(line.name)):
        first, last = stretch[0].bar, stretch[-1].end - 1
        found.append((first, last, min((bar for bar in heard if first <= bar <= last), default=first)))
    return found


def _gentle_slope(above: FloatArray, low: float, spans: Sequence[tuple[int, int, int]]) -> float:
    """The steepest line, 1 at the most, under which every entry, rise and peak is gentle. above: over the least."""
    limits = [1.0]
    for first, last, enters in spans:
        inside = above[first - 1 : last]
        limits.append((GENTLE_MOST - MOST_ACCENT - low) / max(float(inside.max()), 1e-9))
        # The bar after it, too: within a bar the level is on its way to the next.
        limits.append((GENTLE_ENTRY - low) / max(float(above[enters - 1 : min(enters + 1, last)].max()), 1e-9))
        rises = np.diff(inside)
        limits.append(GENTLE_RISE / max(float(rises.max(initial=0.0)), 1e-9))
    return max(min(limits), 0.0)


def _drawn_together(
    levels: FloatArray, least: float, low: float, spans: Sequence[tuple[int, int, int]]
) -> tuple[FloatArray, int]:
    """The levels with as large a share of their decibels as leaves every entry, rise and peak gentle, and in how many
    bars at the most the part comes in to where it belongs: none, unless that keeps a good deal more."""
    best, most, eased = np.full_like(levels, low), -1.0, 0
    for softest in (low, min(low, _GENTLE_LEAST), min(low, _SOFTEST)):
        for softly in (False, True):
            for share in _SHARES:
                given = softest * np.maximum(levels / least, 1.0) ** share
                found = _come_in_softly(given, spans) if softly else given
                if found is not None and _is_gentle(found, spans):
                    if share > most + _WORTH_SOFTER:
                        best, most, eased = found, share, _bars_below(given, found, spans)
                    break
    return best, eased


def _come_in_softly(levels: FloatArray, spans: Sequence[tuple[int, int, int]]) -> FloatArray | None:
    """The levels with every entry at mezzo piano at the most and from there a little less than a sudden step up a bar;
    None where a part would grow while its rule sinks."""
    found = levels.copy()
    for first, last, enters in spans:
        soft = slice(first - 1, enters + 1)
        found[soft] = np.minimum(found[soft], GENTLE_ENTRY)
        for bar in range(enters + 1, last):
            found[bar] = min(levels[bar], found[bar - 1] + _RAMP)
        grows, sinks = np.diff(found[first - 1 : last]) > 0.5, np.diff(levels[first - 1 : last]) < -0.5
        if (grows & sinks).any():
            return None
    return found


def _bars_below(given: FloatArray, found: FloatArray, spans: Sequence[tuple[int, int, int]]) -> int:
    """How many bars a part takes at the most, from where it is first heard, to reach its own loudness."""
    most = 0
    for _, last, enters in spans:
        below = given[enters - 1 : last] > found[enters - 1 : last] + 0.5
        most = max(most, int(np.argmin([*below, False])))
    return most


def _is_gentle(levels: FloatArray, spans: Sequence[tuple[int, int, int]]) -> bool:
    """Soft entries, small steps up, never forte. The bar after an entry, too: the level is on its way to it."""
    return all(
        levels[first - 1 : last].max() <= GENTLE_MOST - MOST_ACCENT
        and levels[enters - 1 : min(enters + 1, last)].max() <= GENTLE_ENTRY
        and np.diff(levels[first - 1 : last]).max(initial=0.0) <= GENTLE_RISE
        for first, last, enters in spans
    )


def _note(line: Line, message: Words, kind: str) -> Finding:
    return Finding(
        kind=kind,
        message=message,
        fix=(),
        part=line.name,
        where=fact("play-where", what="dynamics"),
        serious=False,
    )


def notes(piece: Piece, strokes: Iterable[Stroke], levels: PartLoudness, beaters: Sequence[Step]) -> tuple[Note, ...]:
    """Strokes as notes, in order: the bar's velocity, a small accent, and the brightness that goes with it."""
    found = []
    for stroke in strokes:
        above, below = stroke.beat.as_integer_ratio()
        before, into = divmod(above, below * piece.beats)
        bar = before + 1
        level = _between(levels, bar, into / below / piece.beats)
        most = GENTLE_MOST if piece.gentle else 127
        if piece.quiet_start and bar <= piece.stages[0].bars:
            most = min(most, QUIET_MOST)
        accent = min(max(stroke.accent, -MOST_ACCENT), MOST_ACCENT) if piece.gentle else stroke.accent
        if stroke.row.family == "voice":
            most = min(most, levels.voices_most)
        velocity = min(max(round(level + accent), 1), most)
        by_rule = shade(beaters, bar) if brightens(stroke.row) else None
        bright = _by_velocity(velocity) if by_rule is None else by_rule
        found.append(
            Note(
                beat=stroke.beat,
                beats=stroke.beats,
                midi=stroke.midi,
                velocity=velocity,
                brightness=round(min(max(bright, 0.0), 1.0), 4),
                instrument=stroke.row.id,
                player=stroke.player,
                asked=None if stroke.asked is None else round(stroke.asked, 4),
            )
        )
    return tuple(sorted(found, key=lambda note: (float(note.beat), note.midi, note.instrument)))


def _between(levels: PartLoudness, bar: int, share: float) -> float:
    """The level within a bar: straight to the next bar's, unless that is a sudden step."""
    here = levels.at(bar)
    after = levels.at(bar + 1) if bar < len(levels.bars) else here
    return here + share * (after - here) if abs(after - here) < _SUDDEN else here


def _by_velocity(velocity: int) -> float:
    """Brightness where no rule sets it: stronger strokes sound brighter."""
    return (velocity - 20) / 110


def marks(played: Sequence[Note], blocks: Sequence[Block], beats: int) -> tuple[DynamicMark, ...]:
    """The marks of what is played, bar by bar: a new one where the loudness leaves the mark that stands, for good.

    played: the notes of the part's main instrument. A hairpin leads to a mark that is reached little by little.
    """
    by_bar: dict[int, list[int]] = {}
    for note in played:
        by_bar.setdefault(int(note.beat // beats) + 1, []).append(note.velocity)
    means = {bar: float(np.mean(velocities)) for bar, velocities in by_bar.items()}
    found: list[DynamicMark] = []
    for stretch in stretches(blocks):
        found += _stretch_marks(means, stretch[0].bar, stretch[-1].end)
    return tuple(found)


def heard_mark(part: Part, bar: int, beats: int, standing: str) -> str:
    """The mark that stands in a bar; where a part's main instrument has left it, the nearest to how loud it plays."""
    played = [n.velocity for n in part.notes if n.beat // beats + 1 == bar and n.instrument in ("", part.instrument)]
    loud = float(np.mean(played)) if played else DYNAMICS[standing]
    return standing if inside_mark(standing, loud, _STAYS) else velocity_mark(loud)


def _stretch_marks(means: dict[int, float], first: int, end: int) -> list[DynamicMark]:
    heard = [bar for bar in range(first, end) if bar in means]
    if not heard:
        return [DynamicMark(bar=first, mark="p")]
    found = [DynamicMark(bar=first, mark=velocity_mark(means[heard[0]]))]
    for at, (before, bar) in enumerate(pairwise(heard), start=1):
        mark = velocity_mark(means[bar])
        sudden = abs(means[bar] - means[before]) >= _SUDDEN
        if mark == found[-1].mark:
            continue
        settled = [velocity_mark(means[later]) for later in heard[at : at + _SETTLED]] == [mark] * _SETTLED
        if not (sudden or settled) and inside_mark(found[-1].mark, means[bar], _STAYS):
            continue
        last = found[-1]
        lead = max(last.bar, bar - _LEAD_BARS)
        if not sudden and lead < bar:
            hairpin = "cresc" if DYNAMICS[mark] > DYNAMICS[last.mark] else "dim"
            if lead == last.bar:
                found[-1] = DynamicMark(bar=lead, mark=last.mark, hairpin=hairpin)
            else:
                found.append(DynamicMark(bar=lead, mark=last.mark, hairpin=hairpin))
        found.append(DynamicMark(bar=bar, mark=mark))
    return found
