"""At most three sentences for the next run: what to change, where, and what went as it was meant to."""

from __future__ import annotations

from collections.abc import Sequence

from sonify.records.fact import Words, fact
from sonify.records.listened import NO, EntryHeard, Question, StageHeard

MOST = 3
#: A stage whose beat strays by more than this share from bar to bar is unsteady; one under it is steady (ours).
UNSTEADY = 0.03
#: An entry is late where all of its interval lies so many bars after what is written.
LATE_BARS = 1


def suggestions(
    stages: Sequence[StageHeard], entries: Sequence[EntryHeard], asked: Sequence[Question]
) -> tuple[Words, ...]:
    wishes = [*_tempi(stages, asked), *_late(entries), *_levels(stages, asked), *_unsteady(stages)]
    right = sum(question.answer == question.planned for question in asked)
    praise = [fact("recorded-well", right=right)] if right else []
    return tuple([*praise, *wishes][:MOST]) if praise else tuple(wishes[:MOST])


def _tempi(stages: Sequence[StageHeard], asked: Sequence[Question]) -> list[Words]:
    by_letter = {stage.letter: n for n, stage in enumerate(stages)}
    out: list[Words] = []
    for question in asked:
        if question.kind != "tempo" or question.answer != NO:
            continue
        after = stages[by_letter[question.stage]]
        before = stages[by_letter[question.stage] - 1]
        assert after.bpm and before.bpm
        ratio = after.bpm.value / before.bpm.value
        out.append(
            fact(
                "recorded-wish-tempo",
                stage=after.letter,
                other=before.letter,
                meant="quicker" if after.planned_bpm > before.planned_bpm else "slower",
                was="quicker" if ratio > 1.0 else "slower",
                share=f"{100.0 * abs(ratio - 1.0):.0f}",
                bar=after.bar,
            )
        )
    return out


def _late(entries: Sequence[EntryHeard]) -> list[Words]:
    return [
        fact(
            "recorded-wish-entry",
            part=row.part,
            group=row.group,
            planned=row.planned_bar,
            heard=round(row.heard.value),
        )
        for row in entries
        if row.heard is not None and row.heard.low >= row.planned_bar + LATE_BARS
    ]


def _levels(stages: Sequence[StageHeard], asked: Sequence[Question]) -> list[Words]:
    by_letter = {stage.letter: stage for stage in stages}
    return [
        fact("recorded-wish-crescendo", stage=question.stage, bar=by_letter[question.stage].bar)
        for question in asked
        if question.kind == "crescendo" and question.answer == NO
    ]


def _unsteady(stages: Sequence[StageHeard]) -> list[Words]:
    return [
        fact("recorded-wish-steady", stage=stage.letter, bar=stage.bar)
        for stage in stages
        if stage.wander is not None and stage.wander > UNSTEADY
    ]
