"""What a person's changes did, in sentences: to the conditions, to the science that follows from them, to the rules."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from sonify.data.authoring import Which, number_of
from sonify.data.sliders import ends
from sonify.facts.comparison import Comparison, Figure
from sonify.records.fact import Amount, Duration, Named, Words, fact
from sonify.records.scene import WORD, Change, Measure, Scene
from sonify.say import say, sentence

#: A stage that begins earlier or later by less than this share of its length has not moved (our own choice).
SHIFTED = 0.02
#: Where the figures come from: no reading of one Timeline gives them.
_TWO_RUNS = "two runs compared"
#: So many sentences about figures that changed, the largest changes first.
MOST_CHANGES = 6


def condition_sentences(found: Comparison | None) -> list[str]:
    """What the changed conditions did to the science, the largest effects first."""
    if found is None:
        return []
    said = [sentence(_condition(change)) for change in found.changes]
    moved = sorted((figure for figure in found.figures if not figure.same), key=_size, reverse=True)
    said += [sentence(_figure(figure)) for figure in moved[:MOST_CHANGES]]
    if found.changes and not moved:
        said.append(say(fact("changed-nothing")))
    for shift in found.stages:
        title = say(shift.title)
        if shift.before is None or shift.after is None:
            said.append(say(fact("changed-now-comes" if shift.before is None else "changed-never-comes", stage=title)))
        elif abs(later := shift.after[0] - shift.before[0]) > SHIFTED * (shift.before[1] - shift.before[0]):
            way = "changed-begins-later" if later > 0 else "changed-begins-earlier"
            said.append(say(fact(way, stage=title, shift=Duration(seconds=abs(later), given=_TWO_RUNS))))
    return said


def _condition(change: Change) -> Words:
    name, after = condition_words(change.name), _set(change.after)
    if change.before is None:
        return fact("changed-condition-new", condition=name, after=after)
    return fact("changed-condition", condition=name, after=after, before=_set(change.before))


def condition_words(name: str) -> str:
    """A condition's name in words; what tells two of a kind apart is a letter.

    >>> condition_words("wrap_a_conductivity"), condition_words("sea_temperature")
    ('wrap A conductivity', 'sea temperature')
    """
    return " ".join(word.upper() if len(word) == 1 else word for word in name.split("_"))


def _set(measure: Measure) -> Amount | str:
    if measure.unit == WORD:
        return measure.text
    return Amount(value=measure.value, unit=measure.unit, digits=4, given="set by a person")


def _size(figure: Figure) -> float:
    return abs(figure.after - figure.before) / max(abs(figure.before), abs(figure.after))


def _figure(figure: Figure) -> Words:
    after, before = (Amount(value=value, unit=figure.unit, given=_TWO_RUNS) for value in (figure.after, figure.before))
    told = fact(
        "changed-figure",
        quantity=Named("quantity", figure.quantity),
        what=fact(f"changed-{figure.what}"),
        after=after,
        before=before,
    )
    if figure.percent is None:
        return fact("changed-figure-alone", figure=told)
    percent = Amount(value=abs(figure.percent), digits=2, given=_TWO_RUNS)
    way = "up" if figure.percent > 0 else "down"
    return fact("changed-figure-percent", figure=told, percent=percent, way=way)


def rule_sentences(scene: Scene, before: Scene, which: Which = number_of) -> Iterator[str]:
    """What was set anew in the rules."""
    written = {number_of(rule.key): rule for rule in before.rules}
    for rule in (rule.as_asked for rule in scene.rules):
        old = written.get(which(rule.key))
        if old is None or replace(old, key=rule.key, why=rule.why) == rule:
            continue
        yield say(
            fact(
                "changed-rule",
                control=Named("control", rule.control),
                whom="part" if rule.part else "all",
                part=rule.part or "",
                quantity=Named("quantity", rule.quantity),
                **ends(rule),
                curve=rule.curve if rule.curve != old.curve else "same",
            )
        )
