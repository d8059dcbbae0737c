"""The bars that a card writes out for its players: the same bars in boxes, on a staff and as a lane of marks."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction
from statistics import median_low

from sonify.frozen import dataclass
from sonify.records.clock import Tempo
from sonify.records.fact import Words, fact
from sonify.records.score import COUNT_IN, Entry, Note, Part, Pattern, Score

Hit = tuple[Fraction, Fraction, int]  # beat from 0, beats, pitch or percussion key
#: Bars of a tune or a held sound that are written out.
TUNE_BARS = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Excerpt:
    """Bars of a part as they are learned. notes: from beat 0 on. bar: where they first come in the piece.

    free: one example only, for taps that fall where their players like. spoken: science words with its rhythm.
    """

    part: str
    name: Words
    bar: int
    bars: int
    notes: tuple[Note, ...]
    words: Words = ""
    free: bool = False
    spoken: Words = ""

    @property
    def hits(self) -> list[Hit]:
        return [(note.beat, note.beats, note.midi) for note in self.notes]


@dataclass(frozen=True, slots=True, kw_only=True)
class PartPictures:
    """SVG texts of a part: its lane over the whole piece; of each excerpt its staff and its lane."""

    lane: str
    staves: tuple[str, ...] = ()
    lanes: tuple[str, ...] = ()


def excerpts(part: Part, score: Score) -> tuple[Excerpt, ...]:
    """What a card writes out: an ostinato's patterns, else the first bars of the part; none where it is silent."""
    if part.texture == "ostinato" and part.patterns:
        return tuple(_learned(pattern, part, score) for pattern in part.patterns)
    mine = [note for note in part.notes if (note.instrument or part.instrument) == part.instrument]
    played = sorted({int(note.beat // score.metre.beats) + 1 for note in mine})
    if not played:
        return ()
    if part.texture == "scatter":
        bar, bars = _usual(part, played, score), 1
        name, words = fact("part-bar-to-show", bar=bar), fact("part-yours-differ")
    else:
        bar = played[0]
        bars = TUNE_BARS if part.texture in ("melody", "drone") and bar + 1 in played else 1
        name, words = fact("part-bars-named", bar=bar, bars=bars, last=bar + bars - 1), None
    return (
        Excerpt(
            part=part.name,
            name=name,
            words=words or "",
            bar=bar,
            bars=bars,
            notes=_between(part, score, bar, bars),
            free=part.texture == "scatter",
        ),
    )


def excerpt_score(excerpt: Excerpt, score: Score) -> Score:
    """The excerpt as a small Score of its own, from bar 1, at one tempo and without cues, so that it can be drawn."""
    part = next(part for part in score.parts if part.name == excerpt.part)
    alone = replace(
        part,
        notes=excerpt.notes,
        entries=(Entry(bar=1, bars=excerpt.bars),),
        patterns=(),
        dynamics=(),
        blanks=(),
        instructions=(),
        seats=tuple(seat for seat in part.seats if seat.instrument == part.instrument)[:1],
    )
    silent = tuple(replace(part, notes=()) for part in score.parts if part.name == COUNT_IN)
    return replace(
        score,
        bars=excerpt.bars,
        tempi=(Tempo(bar=1, bpm=score.bpm_at(excerpt.bar)),),
        sections=(),
        cues=(),
        beds=(),
        swaps=(),
        count_in_bars=0,
        parts=(*silent, alone),
    )


def _learned(pattern: Pattern, part: Part, score: Score) -> Excerpt:
    """A pattern, as loud as it is where it first comes."""
    bar = min((entry.bar for entry in part.entries if entry.pattern == pattern.number), default=1)
    heard = [note.velocity for note in _between(part, score, bar, pattern.bars)] or [n.velocity for n in part.notes]
    velocity = round(sum(heard) / len(heard)) if heard else 64
    notes = tuple(
        Note(beat=beat, beats=beats, midi=midi, velocity=velocity) for beat, beats, midi in sorted(pattern.hits)
    )
    return Excerpt(
        part=part.name,
        name=pattern.name or fact("cue-pattern", number=pattern.number),
        words=pattern.words,
        spoken=pattern.spoken,
        bar=bar,
        bars=pattern.bars,
        notes=notes,
    )


def _usual(part: Part, played: Iterable[int], score: Score) -> int:
    """A bar with as many taps as bars of this part usually have."""
    counts = {bar: len(_between(part, score, bar, 1)) for bar in played}
    usual = median_low(counts.values())
    return next(bar for bar, count in counts.items() if count == usual)


def _between(part: Part, score: Score, bar: int, bars: int) -> tuple[Note, ...]:
    """The notes of a part's first instrument in some bars, from beat 0 on, none longer than the bars."""
    start, length = Fraction((bar - 1) * score.metre.beats), Fraction(bars * score.metre.beats)
    mine = [n for n in part.notes if (n.instrument or part.instrument) == part.instrument]
    return tuple(
        replace(note, beat=note.beat - start, beats=min(note.beats, start + length - note.beat))
        for note in sorted(mine, key=lambda note: (note.beat, note.midi))
        if start <= note.beat < start + length
    )
