"""What a message declares is what the facts that say it carry, in every shipped lesson."""

from __future__ import annotations

from functools import cache

import pytest

from sonify.facts.listening import listening_items
from sonify.records.fact import Fact, facts_in
from sonify.records.lesson import Lesson
from tests.say.catalogue import Message, messages
from tests.studies import SCENES, studied


@cache
def declared() -> dict[str, Message]:
    return {row.id: row for row in messages()}


def facts_of(lesson: Lesson) -> list[Fact]:
    """Every fact that a lesson tells of its science and of what is played, those inside others included."""
    timeline, score = lesson.timeline, lesson.score
    texts = [
        *(stage.science for stage in timeline.stages),
        *(event.text for event in timeline.events),
        *(words for each in timeline.missing for words in (each.reason, each.fix)),
        *(words for each in lesson.findings for words in (each.message, each.fix)),
        *(section.caption for section in score.sections),
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
            found += [told, *(inner for _, arg in told.args for inner in _inside(arg))]
    return found


def _inside(arg: object) -> list[Fact]:
    if isinstance(arg, Fact):
        return [arg, *(inner for _, each in arg.args for inner in _inside(each))]
    if isinstance(arg, tuple):
        return [inner for each in arg for inner in _inside(each)]
    return []


def own_claims(told: Fact) -> set[str]:
    """The kinds of a fact's own claims and of the phrases in it; "figure" where a figure can be taken again."""
    kinds = {claim.kind for claim in told.claims}
    for _, arg in told.args:
        inner = _inside(arg)
        if not inner and any(figure.source is not None for figure in Fact("", (("it", arg),)).figures()):
            kinds.add("figure")
        for each in inner:
            kinds |= own_claims(each) if declared()[each.message].kind == "phrase" else set()
    return kinds


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
