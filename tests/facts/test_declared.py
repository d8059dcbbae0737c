"""What a message declares is what the facts that say it carry, in every shipped lesson."""

from __future__ import annotations

import pytest

from sonify.facts.verdicts import falsehoods
from tests.facts.told import evidence_of, facts_of, whole_facts
from tests.say.claims import declared, own_claims
from tests.studies import SCENES, studied


@pytest.mark.parametrize("name", SCENES)
def test_a_message_claims_what_it_declares(name: str) -> None:
    wrong = []
    for told in facts_of(studied(name)):
        row = declared()[told.message]
        if row.kind != "phrase" and not row.is_met_by(own_claims(told)):
            wrong.append((told.message, row.about, sorted(own_claims(told))))
    assert not wrong, wrong[0]


@pytest.mark.parametrize("name", SCENES)
def test_a_figure_without_a_reading_says_where_it_comes_from(name: str) -> None:
    bare = [
        (told.message, figure)
        for told in facts_of(studied(name))
        for figure in told.figures()
        if figure.source is None and not figure.given
    ]
    assert not bare, bare[0]


@pytest.mark.parametrize("name", SCENES)
def test_no_false_sentence_was_left_out_of_a_shipped_scene(name: str) -> None:
    false = [finding.message for finding in studied(name).findings if finding.kind == "claim"]
    assert not false, false[0]


@pytest.mark.parametrize("name", SCENES)
def test_every_fact_that_a_lesson_tells_holds(name: str) -> None:
    lesson = studied(name)
    evidence = evidence_of(lesson)
    false = [fault for told in whole_facts(lesson) for fault in falsehoods(told, evidence)]
    assert not false, false[0]
