"""The listening check: what pupils may be asked about clips of the piece, and the answers, found in the Lesson itself.

Paper prints it and the page plays it, so both ask the same. Nothing is asked that the notes of the clip do not tell.
"""

from __future__ import annotations

from sonify.facts.evidence import Evidence
from sonify.facts.once import once_a_lesson
from sonify.facts.questions import by_change, by_entry, by_pair, by_stage, by_tempo
from sonify.facts.verdicts import falsehoods
from sonify.records.fact import facts_in
from sonify.records.lesson import Lesson
from sonify.records.listening import Choice, Clip, ListeningItem

__all__ = ["Choice", "Clip", "ListeningItem", "listening_items"]

#: Most questions.
MOST_ITEMS = 6
#: Where fewer are found, or all of one kind, two stages are compared in one part: as steps and groups ask for.
FEW_ITEMS = 4


@once_a_lesson
def listening_items(lesson: Lesson) -> tuple[ListeningItem, ...]:
    """Up to MOST_ITEMS questions, easiest kinds first; fewer, or none, where there is little to be heard.

    What a question says of the piece or of its answer holds: one of which a claim does not is not asked.
    """
    stages, entries, changes = list(by_stage(lesson)), list(by_entry(lesson)), list(by_change(lesson))
    order = [*stages[:1], *list(by_tempo(lesson)), *entries[:1], *changes[:1], *stages[1:2], *changes[1:2]]
    order += [*entries[1:2], *stages[2:], *changes[2:], *entries[2:]]
    evidence = Evidence(timeline=lesson.timeline, score=lesson.score, rules=lesson.scene.rules)
    chosen = [item for item in order if _holds(item, evidence)][:MOST_ITEMS]
    if len(chosen) < FEW_ITEMS or len({item.kind for item in chosen}) < 2:
        pairs = [item for item in by_pair(lesson) if _holds(item, evidence)]
        chosen = [*pairs[: max(FEW_ITEMS, MOST_ITEMS - len(chosen))], *chosen][:MOST_ITEMS]
    kinds = ("stage", "entry", "tempo", "pair", "change")
    return tuple(sorted(chosen, key=lambda item: (kinds.index(item.kind), item.clips[0].bar)))


def _holds(item: ListeningItem, evidence: Evidence) -> bool:
    told = (item.question, item.choices[item.answer].words, item.why)
    return not any(falsehoods(each, evidence) for words in told for each in facts_in(words))
