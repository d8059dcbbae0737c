"""How many of the sentences that we make about sound or science claim something that is checked."""

from __future__ import annotations

from collections import Counter

from sonify.records.fact import Fact
from sonify.say import say
from tests.facts.told import facts_of, inner_facts, whole_facts
from tests.say.claims import declared
from tests.studies import A_FEW_OR_ALL, studied

#: What is asked of all scenes together.
LEAST = 0.95


def kind_of(told: Fact) -> str:
    """What a sentence is: one with a claim, itself or in a part of it; one that cannot be checked; neither."""
    kinds = {declared()[each.message].kind for each in (told, *inner_facts(told))}
    if declared()[told.message].kind == "phrase":
        return "phrase"
    return next((kind for kind in ("claims", "no claim") if kind in kinds), "plain")


def counted(scenes: tuple[str, ...]) -> tuple[Counter[str], Counter[str]]:
    """Different sentences of each lesson by kind, and those without a claim by message."""
    kinds: Counter[str] = Counter()
    bare: Counter[str] = Counter()
    for name in scenes:
        sentences = {(told.message, say(told)): told for told in whole_facts(studied(name))}
        for (message, _), told in sentences.items():
            kinds[kind_of(told)] += 1
            bare[message] += kind_of(told) == "no claim"
    return kinds, bare


@A_FEW_OR_ALL
def test_nearly_all_sentences_about_sound_or_science_claim_what_is_checked(scenes: tuple[str, ...]) -> None:
    kinds, bare = counted(scenes)
    share = kinds["claims"] / (kinds["claims"] + kinds["no claim"])
    assert share >= LEAST, (f"{100.0 * share:.1f} %", kinds, bare.most_common(8))


@A_FEW_OR_ALL
def test_a_sentence_with_a_claim_carries_one(scenes: tuple[str, ...]) -> None:
    for name in scenes:
        for told in facts_of(studied(name)):
            if declared()[told.message].kind == "claims":
                figures = any(figure.source is not None for figure in told.figures())
                assert figures or any(told.all_claims()), told
