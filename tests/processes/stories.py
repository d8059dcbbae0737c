"""What holds for every process under any valid conditions, and how advice on a missing stage is followed."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import replace

import numpy as np
from hypothesis import strategies as st

from sonify.facts.evidence import Evidence
from sonify.facts.truth import true_timeline
from sonify.facts.verdicts import falsehoods
from sonify.processes import conditions_si
from sonify.records.fact import Fact, Words, facts_in
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Missing, Timeline
from sonify.say import say
from tests.processes.test_registry import condition
from tests.say.claims import declared, inner_facts, own_claims

DRIFT = 1e-9


def any_conditions(spec: ProcessSpec) -> st.SearchStrategy[dict[str, float]]:
    """Every condition anywhere in its range, its usual value and its ends included."""

    def of(one: object) -> st.SearchStrategy[float]:
        low, high, usual = one.low, one.high, one.default  # type: ignore[attr-defined]
        if one.whole:  # type: ignore[attr-defined]
            return st.integers(int(low), int(high)).map(float)
        return st.floats(low, high) | st.sampled_from([low, usual, high])

    return st.fixed_dictionaries({one.name: of(one) for one in spec.conditions})


def near_usual(spec: ProcessSpec, share: float = 0.3) -> st.SearchStrategy[dict[str, float]]:
    """Every condition within a share of its range on either side of its usual value."""

    def of(one: object) -> st.SearchStrategy[float]:
        low, high, usual = one.low, one.high, one.default  # type: ignore[attr-defined]
        if one.whole:  # type: ignore[attr-defined]
            return st.integers(int(low), int(high)).map(float)
        return st.floats(usual - share * (usual - low), usual + share * (high - usual))

    return st.fixed_dictionaries({one.name: of(one) for one in spec.conditions})


def check_story(spec: ProcessSpec, timeline: Timeline, conditions: Mapping[str, float] | None = None) -> None:
    """The record itself refuses what is not finite and stages that overlap; the rest is looked at here.

    conditions: what it was computed under; None for the usual ones.
    """
    if conditions is None:
        conditions = {one.name: one.default for one in spec.conditions}
    left_out(replace(timeline, conditions=tuple(conditions.items())))
    order = [stage.name for stage in spec.stages]
    found = [stage.name for stage in timeline.stages]
    assert found, "no stage at all"
    assert found == [name for name in order if name in found]
    assert sorted(found + [lacking.stage for lacking in timeline.missing]) == sorted(order)
    for before, after in zip(timeline.stages, timeline.stages[1:], strict=False):
        assert before.end_s == after.start_s
    for stage in timeline.stages:
        assert 0.0 <= stage.start_s < stage.end_s <= timeline.time_s[-1]
        assert stage.title and say(stage.science).endswith(".") and "nan" not in say(stage.science)
        assert sum(letter.isdigit() for letter in say(stage.science)) >= 2, say(stage.science)
    assert timeline.conserved
    for kept in timeline.conserved:
        assert kept.relative_drift < DRIFT, kept
    assert [q.name for q in timeline.quantities] == [q.name for q in spec.quantities]
    times = [event.time_s for event in timeline.events]
    assert times == sorted(times)
    assert all(say(event.text).endswith(".") and "nan" not in say(event.text) for event in timeline.events)
    for lacking in timeline.missing:
        assert lacking.reason and lacking.condition in {one.name for one in spec.conditions}


def converted(timeline: Timeline) -> bool:
    """Whether the process tells facts, which can be held against the evidence."""
    return all(not _own_text(stage.science) for stage in timeline.stages)


def _own_text(words: Words) -> bool:
    return isinstance(words, str) or (isinstance(words, tuple) and any(map(_own_text, words)))


def left_out(timeline: Timeline) -> Counter[str]:
    """Holds all that a run tells against what it computed: how many facts of each message were false and left out.

    What is told after that must hold, and every stage, moment and reason must have a sentence left.
    """
    if not converted(timeline):
        return Counter()
    told, _ = true_timeline(timeline)
    evidence = Evidence(timeline=timeline)
    lost: Counter[str] = Counter()
    for before, after in zip(_texts(timeline), _texts(told), strict=True):
        kept = list(facts_in(after))
        assert say(after).strip(), ("nothing true is left of", before)
        for words in kept:
            assert not falsehoods(words, evidence), words
            for each in (words, *inner_facts(words)):
                row = declared()[each.message]
                assert row.kind == "phrase" or row.is_met_by(own_claims(each)), each
        lost.update(each.message for each in facts_in(before) if not _kept(each, kept))
    return lost


def _texts(timeline: Timeline) -> Iterator[Words]:
    yield from (stage.science for stage in timeline.stages)
    yield from (event.text for event in timeline.events)
    yield from (lacking.reason for lacking in timeline.missing)


def _kept(words: Fact, kept: list[Fact]) -> bool:
    """Whether a fact is told, itself or in a weaker form."""
    return words in kept or (words.otherwise is not None and _kept(words.otherwise, kept))


def changed(spec: ProcessSpec, values: Mapping[str, float], lacking: Missing) -> dict[str, float] | None:
    """The conditions with the advice followed, read as a scene file would read it; None where it says there is none."""
    if "No single change" in say(lacking.fix):
        return None
    found = re.fullmatch(r'Set (\w+) = (?:"([^"]+)"|([\d.]+))\.', say(lacking.fix))
    assert found, say(lacking.fix)
    assert found[1] == lacking.condition
    text = found[2] or found[3]
    return {**values, found[1]: conditions_si(spec, (condition(found[1], text),))[found[1]]}


def check_advice(spec: ProcessSpec, values: Mapping[str, float], timeline: Timeline) -> None:
    """Each piece of advice, followed, brings the stage it is about."""
    for lacking in timeline.missing:
        followed = changed(spec, values, lacking)
        if followed is not None:
            assert lacking.stage in [stage.name for stage in spec.run(followed).stages], lacking


def at(timeline: Timeline, name: str, time_s: float) -> float:
    """A quantity in its readable unit at one model time."""
    quantity = timeline.quantity(name)
    return float(np.interp(time_s, timeline.time_s, quantity.in_unit()))


def stage_of(timeline: Timeline, name: str) -> tuple[float, float]:
    """When a stage begins and ends, s."""
    found = next(stage for stage in timeline.stages if stage.name == name)
    return found.start_s, found.end_s
