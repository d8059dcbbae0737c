"""What a message declares is what the facts that say it carry, in every shipped lesson."""

from __future__ import annotations

import pytest

from sonify.facts.listening import listening_items
from sonify.records.fact import Fact, facts_in
from sonify.records.lesson import Lesson
from tests.say.claims import declared, inner_facts, own_claims
from tests.studies import SCENES, studied


def facts_of(lesson: Lesson) -> list[Fact]:
    """Every fact that a lesson tells of its science and of what is played, those inside others included."""
    timeline, score = lesson.timeline, lesson.score
    texts = [
        *(stage.science for stage in timeline.stages),
        *(event.text for event in timeline.events),
        *(words for each in timeline.missing for words in (each.reason, each.fix)),
        *(words for each in lesson.findings for words in (each.message, each.fix)),
        *(section.caption for section in score.sections),
        *(words for part in score.parts for words in part.instructions),
        *(entry.instruction for part in score.parts for entry in part.entries),
        *(pattern.words for part in score.parts for pattern in part.patterns),
        *(blank.ask for part in score.parts for blank in part.blanks),
        *(seat.job for part in score.parts for seat in part.seats),
        *(swap.reason for swap in score.swaps),
        *(cue.reason.words for cue in score.cues),
        *(words for key in lesson.controls.keys for words in (key.sentence, key.exaggeration_words, key.for_pupils)),
        *(
            words
            for key in lesson.controls.keys
            for words in (key.verdict, *(each for row in key.values for each in row))
        ),
        *(each for key in lesson.controls.keys for _, *row in key.stages for each in row),
        *(words for item in listening_items(lesson) for words in (item.question, item.why)),
        *(item.choices[item.answer].words for item in listening_items(lesson)),
    ]
    found: list[Fact] = []
    for text in texts:
        for told in facts_in(text):
            found += [told, *inner_facts(told)]
    return found


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
