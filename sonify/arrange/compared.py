"""Parts that pupils are to compare: which they are, and whether what was arranged lets them be compared."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from itertools import combinations

from sonify.arrange.piece import Piece
from sonify.records.fact import Words, fact
from sonify.records.findings import Finding
from sonify.records.scene import Measure, Scene
from sonify.records.score import Part, Score
from sonify.units import convert

#: Of the bars of the one that plays less, so many are heard with the other (our own limit).
LEAST_TOGETHER = 0.6


def comparisons(scene: Scene) -> tuple[tuple[str, ...], ...]:
    """The parts of each comparison, in the scene's order.

    Their rules are alike but for the quantity, or the scene has them come and go together (`with`) in one texture.
    """
    order = [plan.name for plan in scene.parts]
    alike: dict[tuple[object, ...], dict[str, str]] = {}
    for rule in scene.rules:
        if rule.part in order and rule.control != "tempo":
            ends = (_size(rule.low, rule.low), _size(rule.high, rule.low), rule.to_low, rule.to_high)
            alike.setdefault((rule.control, rule.low.unit, *ends), {})[rule.part] = rule.quantity
    found = [set(parts) for parts in alike.values() if len(set(parts.values())) == len(parts) > 1]
    texture = {plan.name: plan.texture for plan in scene.parts}
    for plan in scene.parts:
        if plan.partner in texture and texture[plan.partner] == plan.texture:
            found.append({plan.name, plan.partner})
    merged: list[set[str]] = []
    for names in found:
        for other in [other for other in merged if other & names]:
            merged.remove(other)
            names |= other
        merged.append(names)
    return tuple(tuple(sorted(names, key=order.index)) for names in merged)


def _size(measure: Measure, of: Measure) -> float:
    return round(convert(measure.value, measure.unit, of.unit), 9)


def mates(scene: Scene, name: str) -> tuple[str, ...]:
    """The parts with which one is compared."""
    return tuple(other for names in comparisons(scene) if name in names for other in names if other != name)


def under_one_rule(scene: Scene) -> tuple[str, ...]:
    """The tunes that follow the whole piece's pitch rule, () for one alone: each has turns of its own, and pupils ask
    whose was highest."""
    own = {rule.part for rule in scene.rules if rule.control == "pitch"}
    if None not in own:
        return ()
    names = tuple(plan.name for plan in scene.parts if plan.texture == "melody" and plan.name not in own)
    return names if len(names) > 1 else ()


def of_one_height(scene: Scene, name: str) -> tuple[str, ...]:
    """The parts in which the same value is to be the same note as in this one."""
    tunes = under_one_rule(scene)
    others = tuple(other for other in tunes if other != name) if name in tunes else ()
    return tuple(dict.fromkeys((*mates(scene, name), *others)))


def comparison_findings(piece: Piece, score: Score, streams: int) -> Iterator[Finding]:
    """What keeps parts from being compared by ear: a problem each.

    streams: how many can be followed at once. As many parts as there are desks never sound together, nor three where
    there is nothing but them: of three desks or more one keeps the beat.
    """
    own = [part for part in score.group_parts if not part.pulse]
    desks = len({(part.group, part.team) for part in own})
    streams = min(streams, desks - 1) if desks > 2 else streams
    for names in filter(None, (*comparisons(piece.scene), under_one_rule(piece.scene))):
        yield from _octaves_apart(names, piece, score)
    for names in comparisons(piece.scene):
        parts = {name: [part for part in score.group_parts if _plays(part, name, piece)] for name in names}
        bars = {name: _bars(own) for name, own in parts.items() if own}
        pairs = list(combinations(bars, 2))
        alone = desks > 2 and all(any(_plays(part, name, piece) for name in names) for part in own)
        if len(bars) > (max(2, min(streams, len(names) - 1)) if alone else streams):
            yield from _apart_from_all(bars)
        else:
            for a, b in pairs:
                yield from _apart(a, b, bars)
        for a, b in pairs:
            yield from _unlike(score, parts[a][0], parts[b][0])


def _plays(part: Part, name: str, piece: Piece) -> bool:
    return part.name == name or piece.plan_name(part.name) == name


def _bars(parts: Iterable[Part]) -> set[int]:
    return {bar for part in parts for entry in part.entries for bar in range(entry.bar, entry.bar + entry.bars)}


def _apart(a: str, b: str, bars: dict[str, set[int]]) -> Iterator[Finding]:
    less, more = sorted((a, b), key=lambda name: len(bars[name]))
    share = len(bars[less] & bars[more]) / len(bars[less])
    if share < LEAST_TOGETHER:
        told = fact("play-compared-apart", a=a, b=b, share=round(100 * share), less=less)
        yield _problem(told, fact("play-same-stages-or-group"), less)
    elif min(bars[a]) != min(bars[b]):
        told = fact("play-compared-late", a=a, b=b, at=min(bars[a]), later=min(bars[b]))
        yield _problem(told, fact("play-same-stages"), b)


def _apart_from_all(bars: dict[str, set[int]]) -> Iterator[Finding]:
    """More parts than the age can follow at once are heard in pairs: each with any of the others."""
    for name, own in bars.items():
        others = set().union(*(more for other, more in bars.items() if other != name))
        if len(own & others) < LEAST_TOGETHER * len(own):
            yield _problem(fact("play-compared-alone", part=name), fact("play-same-stages"), name)


def _unlike(score: Score, a: Part, b: Part) -> Iterator[Finding]:
    """One sung and one struck, or one with notes and one without: the difference in sound hides the one in science."""
    kinds = [(row.family == "voice", row.pitched) for row in (score.instrument(p.instrument) for p in (a, b))]
    if kinds[0] != kinds[1]:
        rows = [score.instrument(part.instrument).plural for part in (a, b)]
        told = fact("play-compared-unlike", a=a.name, b=b.name, one=rows[0], other=rows[1])
        yield _problem(told, fact("play-like-instruments"), b.name)


def _octaves_apart(names: Sequence[str], piece: Piece, score: Score) -> Iterator[Finding]:
    """Tunes of which one sounds octaves above another: the highest is then not the greatest."""
    tunes = [p for p in score.group_parts if p.texture == "melody" and any(_plays(p, name, piece) for name in names)]
    least = min((part.octaves for part in tunes), default=0)
    low = next((part.name for part in tunes if part.octaves == least), "")
    for part in tunes:
        if part.octaves > least:
            told = fact("play-compared-octaves", a=part.name, b=low, octaves=part.octaves - least)
            yield _problem(told, fact("play-one-octave"), part.name)


def _problem(message: Words, fix: Words, part: str) -> Finding:
    return Finding(kind="playability", message=message, fix=fix, part=part)


def pairs_of(names: Sequence[str], size: int, turn: int) -> tuple[str, ...]:
    """Which of the compared sound when no more than `size` can be followed: each choice in turn.

    >>> [pairs_of(("a", "b", "c"), 2, turn) for turn in range(3)]
    [('a', 'b'), ('a', 'c'), ('b', 'c')]
    """
    choices = list(combinations(names, size))
    return choices[turn % len(choices)]
