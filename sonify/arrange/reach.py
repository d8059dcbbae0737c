"""Rules for pitch drawn into the notes that a class's instruments have.

A rule from C4 to A5, sung by children who reach D5, would hold that last note for everything above, and the key would
promise heights that nobody hears. So for this class the rule ends at D5, with all its values in between, and key, cards
and checks tell that rule.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from sonify.arrange.compared import comparisons
from sonify.frozen import dataclass
from sonify.records.fact import Arg, Fact, Note, fact
from sonify.records.findings import Finding
from sonify.records.scene import Rule, Scene
from sonify.records.score import Score
from sonify.records.words import note_name

#: Over fewer semitones than a fifth no tune climbs (our own): such a rule stays as it is, and is held at its end.
LEAST_SEMITONES = 7
_BEYOND = "play-beyond-range"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Reach:
    """The lowest and the highest note that a part's instrument has."""

    part: str
    low: int
    high: int
    instrument: Arg


def within_reach(
    scene: Scene, score: Score, findings: Iterable[Finding]
) -> tuple[tuple[Rule, ...], tuple[Finding, ...]]:
    """The scene's rules, and a note for each part whose rule for pitch ends where its instrument does.

    score, findings: the arrangement by the rules as they are. Rules by which the same value is to be the same note are
    drawn in together.
    """
    short: dict[str, list[_Reach]] = {}
    for reach in _short(score, findings):
        rule = ruling(scene, reach.part)
        if rule is not None:
            short.setdefault(rule.key, []).append(reach)
    drawn = {rule.key: rule for rule in scene.rules}
    told: list[Finding] = []
    for alike in _of_one_height(scene):
        reaches = [reach for rule in alike for reach in short.get(rule.key, ())]
        ends = _ends(alike[0], reaches)
        if reaches and ends is not None:
            drawn |= {rule.key: _between(rule, *ends) for rule in alike}
            told += [_note(reach, alike[0], ends) for reach in reaches]
    return tuple(drawn.values()), tuple(told)


def ruling(scene: Scene, part: str) -> Rule | None:
    """The rule for pitch that a part of the score follows: its own, or the whole piece's."""
    rules = [rule for rule in scene.rules if rule.control == "pitch"]
    own = scene.plan_name(part)
    return next((rule for name in (own, None) for rule in rules if rule.part == name), None)


def _short(score: Score, findings: Iterable[Finding]) -> Iterator[_Reach]:
    names = {part.name for part in score.group_parts}
    for finding in findings:
        if isinstance(finding.message, Fact) and finding.message.message == _BEYOND and finding.part in names:
            args = dict(finding.message.args)
            low, high = args["low"], args["high"]
            if isinstance(low, Note) and isinstance(high, Note):
                yield _Reach(part=finding.part, low=low.midi, high=high.midi, instrument=args["instrument"])


def _of_one_height(scene: Scene) -> list[list[Rule]]:
    """The rules for pitch, those together that make the same value the same note."""
    sides = [set(names) for names in comparisons(scene)]
    found: list[list[Rule]] = []
    for rule in (rule for rule in scene.rules if rule.control == "pitch"):
        for others in found:
            if _alike(rule, others[0]) or any({rule.part, others[0].part} <= side for side in sides):
                others.append(rule)
                break
        else:
            found.append([rule])
    return found


def _alike(one: Rule, other: Rule) -> bool:
    """Whether two rules have one range of one unit, and the same heights for it."""
    if (one.low.unit, one.curve) != (other.low.unit, other.curve):
        return False
    ends = [(rule.low.value, rule.high.value, rule.to_low, rule.to_high) for rule in (one, other)]
    return ends[0] == ends[1]


def _ends(rule: Rule, reaches: Sequence[_Reach]) -> tuple[float, float] | None:
    """Where the rule ends, its low end first: as wide as it was or as the instruments are, and as near to where it was
    as whole octaves allow. None where that is hardly a tune."""
    least, most = sorted((rule.to_low, rule.to_high))
    bottom, top = max((reach.low for reach in reaches), default=0), min((reach.high for reach in reaches), default=127)
    span = min(most - least, float(top - bottom))
    if span < LEAST_SEMITONES:
        return None
    starts = {k: min(max(least, bottom + 12.0 * k), top + 12.0 * k - span) for k in range(-6, 7)}
    low = min(starts.items(), key=lambda one: (abs(one[1] - least), abs(one[0])))[1]
    return (low, low + span) if rule.to_low <= rule.to_high else (low + span, low)


def _between(rule: Rule, low: float, high: float) -> Rule:
    texts = [note_name(round(end)) for end in (low, high)]
    return replace(rule, to_low=low, to_high=high, to_low_text=texts[0], to_high_text=texts[1], asked=rule)


def _note(reach: _Reach, rule: Rule, ends: tuple[float, float]) -> Finding:
    message = fact(
        "play-rule-within-reach",
        instrument=reach.instrument,
        low=Note(round(ends[0])),
        high=Note(round(ends[1])),
        asked_low=Note(round(rule.to_low)),
        asked_high=Note(round(rule.to_high)),
    )
    fix = fact("play-wider-instrument")
    return Finding(kind="rule", message=message, fix=fix, part=reach.part, serious=False)
