"""Science words for a pattern: a word a bar, as many syllables as strokes, the strong one on a beat where it can be."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from fractions import Fraction

from sonify.kinds.spoken import ANY, WORDS, Spoken
from sonify.records.fact import Fact, fact
from sonify.records.score import Pattern


def with_words(patterns: Sequence[Pattern], process: str, beats: int, turn: int) -> tuple[Pattern, ...]:
    """The patterns with what the class may say to each; a pattern stays without where a bar has no word.

    turn: chance, so that another piece has other words.
    """
    used: list[str] = []
    return tuple(replace(pattern, spoken=_words(pattern, process, beats, turn, used)) for pattern in patterns)


def _words(pattern: Pattern, process: str, beats: int, turn: int, used: list[str]) -> tuple[Fact, ...]:
    by_bar = [
        tuple(sorted({beat - bar * beats for beat, _, _ in pattern.hits if bar * beats <= beat < (bar + 1) * beats}))
        for bar in range(pattern.bars)
    ]
    said: dict[tuple[Fraction, ...], Spoken] = {}
    for onsets in by_bar:
        if onsets not in said:
            found = _best(onsets, process, turn, used)
            if found is None:
                return ()
            said[onsets] = found
            used.append(found.id)
    return tuple(fact(f"spoken-{said[onsets].id}") for onsets in by_bar)


def _best(onsets: Sequence[Fraction], process: str, turn: int, used: Sequence[str]) -> Spoken | None:
    fits = [word for word in WORDS if word.syllables == len(onsets) and (process in word.topics or ANY in word.topics)]
    if not fits:
        return None
    turned = [fits[(place + turn) % len(fits)] for place in range(len(fits))]
    return min(
        turned,
        key=lambda word: (word.id in used, onsets[word.stress].denominator > 1, process not in word.topics),
    )
