"""What a person's changes did, in sentences: to the conditions, to the science that follows from them, to the rules."""

from __future__ import annotations

from collections.abc import Iterator

from sonify.facts.comparison import Comparison, Figure
from sonify.records.scene import Scene
from sonify.records.words import duration_text, measure_text, number_text
from sonify.say import say

#: A stage that begins earlier or later by less than this share of its length has not moved (our own choice).
SHIFTED = 0.02
#: So many sentences about figures that changed, the largest changes first.
MOST_CHANGES = 6


def condition_sentences(found: Comparison | None) -> list[str]:
    """What the changed conditions did to the science, the largest effects first."""
    if found is None:
        return []
    said = [
        f"{change.name.replace('_', ' ').capitalize()} is now {measure_text(change.after.value, change.after.unit, 4)}"
        + (f"; the file has {measure_text(change.before.value, change.before.unit, 4)}." if change.before else ".")
        for change in found.changes
    ]
    moved = sorted((figure for figure in found.figures if not figure.same), key=_size, reverse=True)
    said += [_figure_sentence(figure) for figure in moved[:MOST_CHANGES]]
    if found.changes and not moved:
        said.append("No figure of the science moved by more than half a per cent.")
    for shift in found.stages:
        if shift.before is None or shift.after is None:
            said.append(f"{say(shift.title)} {'now comes' if shift.before is None else 'never comes now'}.")
        elif abs(later := shift.after[0] - shift.before[0]) > SHIFTED * (shift.before[1] - shift.before[0]):
            said.append(f"{say(shift.title)} begins {duration_text(abs(later))} {'later' if later > 0 else 'earlier'}.")
    return said


def _size(figure: Figure) -> float:
    return abs(figure.after - figure.before) / max(abs(figure.before), abs(figure.after))


def _figure_sentence(figure: Figure) -> str:
    name = figure.quantity[:1].upper() + figure.quantity[1:]
    what = {"total": "in all", "mean": "on average", "most": "at most"}[figure.what]
    change = (
        f" ({number_text(figure.percent, 2)} %)".replace("(", "(+" if figure.percent > 0 else "(", 1)
        if (figure.percent is not None)
        else ""
    )
    after, before = (measure_text(value, figure.unit) for value in (figure.after, figure.before))
    return f"{name}, {what}: {after} in place of {before}{change}."


def rule_sentences(scene: Scene, before: Scene) -> Iterator[str]:
    """What was set anew in the rules."""
    written = {rule.key: rule for rule in before.rules}
    for rule in scene.rules:
        old = written.get(rule.key)
        if old is None or old == rule:
            continue
        whom = f" of {rule.part}" if rule.part else ""
        yield (
            f"The {rule.control}{whom} now goes from {rule.to_low_text} to {rule.to_high_text} while the "
            f"{rule.quantity} goes from {rule.low.text} to {rule.high.text}"
            + (f", on a {rule.curve} curve." if rule.curve != old.curve else ".")
        )
