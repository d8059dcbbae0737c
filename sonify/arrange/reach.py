"""Rules for pitch drawn into the notes that a class's instruments have.

A rule from C4 to A5, sung by children who reach D5, would hold that last note for everything above, and the key would
promise heights that nobody hears. So for this class the rule ends at D5, with all its values in between, and key, cards
and checks tell that rule.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from sonify.arrange.compared import comparisons
from sonify.arrange.pitches import tuning
from sonify.frozen import dataclass
from sonify.records.fact import Fact, Note, fact
from sonify.records.findings import Finding
from sonify.records.scene import Rule, Scene
from sonify.records.score import Part, Score
from sonify.records.words import note_name

#: Over fewer semitones than a fifth no tune climbs (our own): such a rule stays as it is, and is held at its end.
LEAST_SEMITONES = 7
_BEYOND = "play-beyond-range"


@dataclass(frozen=True, slots=True, kw_only=True)
class _Reach:
    """The lowest and the highest note of a tune's instrument in the scene's scale."""

    part: Part
    low: int
    high: int

    def holds(self, low: float, high: float) -> bool:
        """Whether a range of pitches fits, moved by whole octaves as tunes are."""
        return any(self.low <= low + 12 * k and high + 12 * k <= self.high for k in range(-6, 7))


def within_reach(
    scene: Scene, score: Score, findings: Iterable[Finding]
) -> tuple[tuple[Rule, ...], tuple[Finding, ...]]:
    """The scene's rules, and a note for each part that was held at an end and whose rule now ends within its reach.

    score, findings: the arrangement by the rules as they are. Rules by which the same value is to be the same note are
    drawn in together, as far as all who play by them can follow.
    """
    held = {part for part, _ in _held(findings)}
    every = list(_reaches(scene, score))
    drawn = {rule.key: rule for rule in scene.rules}
    told: list[Finding] = []
    for alike in _of_one_height(scene):
        reaches = [reach for reach in every if ruling(scene, reach.part.name) in alike]
        short = [reach for reach in reaches if reach.part.name in held]
        ends = _ends(alike[0], reaches) if short else None
        if ends is not None:
            drawn |= {rule.key: _between(rule, *ends) for rule in alike}
            told += [
                _note(reach.part, score.instrument(reach.part.instrument).called, alike[0], ends) for reach in short
            ]
    return tuple(drawn.values()), tuple(told)


def bars_held(findings: Iterable[Finding]) -> int:
    """In how many bars, part by part, a tune stays on the last note that its instrument has."""
    return sum(bars for _, bars in _held(findings))


def ruling(scene: Scene, part: str) -> Rule | None:
    """The rule for pitch that a part of the score follows: its own, or the whole piece's."""
    rules = [rule for rule in scene.rules if rule.control == "pitch"]
    own = scene.plan_name(part)
    return next((rule for name in (own, None) for rule in rules if rule.part == name), None)


def _held(findings: Iterable[Finding]) -> Iterator[tuple[str, int]]:
    """Parts with the bars in which they are held."""
    for finding in findings:
        if isinstance(finding.message, Fact) and finding.message.message == _BEYOND:
            bars = dict(finding.message.args)["bars"]
            yield finding.part, bars if isinstance(bars, int) else 0


def _reaches(scene: Scene, score: Score) -> Iterator[_Reach]:
    for part in score.group_parts:
        row = score.instrument(part.instrument)
        if part.texture == "melody" and row.pitched and not part.pulse:
            notes = tuning(row, scene.music.scale).notes
            yield _Reach(part=part, low=notes[0], high=notes[-1])


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
    """Where the rule ends, its low end first: as wide as it was or as the instruments allow, and as near to where it
    was as can be. None where that is hardly a tune."""
    least, most = sorted((rule.to_low, rule.to_high))
    widest = int(min([most - least, *(float(reach.high - reach.low) for reach in reaches)]))
    for span in range(widest, LEAST_SEMITONES - 1, -1):
        for step in sorted(range(-12, 13), key=lambda step: (abs(step), step)):
            low = float(round(least) + step)
            if all(reach.holds(low, low + span) for reach in reaches):
                return (low, low + span) if rule.to_low <= rule.to_high else (low + span, low)
    return None


def _between(rule: Rule, low: float, high: float) -> Rule:
    texts = [note_name(round(end)) for end in (low, high)]
    return replace(rule, to_low=low, to_high=high, to_low_text=texts[0], to_high_text=texts[1], asked=rule)


def _note(part: Part, instrument: str, rule: Rule, ends: tuple[float, float]) -> Finding:
    message = fact(
        "play-rule-within-reach",
        instrument=instrument,
        low=Note(round(ends[0])),
        high=Note(round(ends[1])),
        asked_low=Note(round(rule.to_low)),
        asked_high=Note(round(rule.to_high)),
    )
    fix = fact("play-wider-instrument")
    return Finding(kind="rule", message=message, fix=fix, part=part.name, serious=False)
