"""What a class file says of single pupils: each gets a part, a card, a seat or a cue, and no sheet tells pupils why."""

from __future__ import annotations

import json
import re
from functools import lru_cache

import pytest

from sonify import lesson
from sonify.errors import SonifyError
from sonify.facts.places import ONE_HAND_BEATS, WITHIN_REACH, Place, places
from sonify.kinds.needs import BOTH_HANDS, OF_PUPILS
from sonify.paper import conductor, poster, pupils
from sonify.paper.adapt import kept_places
from sonify.paper.cards import cards
from sonify.paper.handouts import handouts
from sonify.paper.own_cards import felt, notes_for_conductor, own_cards
from sonify.paper.printlist import print_list
from sonify.records.lesson import Lesson
from tests.paper.sheets import settings
from tests.studies import EXAMPLES, studied

WANTED = (
    "one hand",
    "limited reach: 1 in group 2",
    "startles",
    "cochlear implant",
    "blind",
    "does not speak: 2",
    "needs a partner",
    "new to English: 2 in group 4",
)
#: Words that would tell of a pupil what is nobody's business.
TELLING = re.compile(
    r"one hand\b|blind|cochlear|hearing|deaf|startl|reach\b|speak|special|disab|impair|new to english|\bneeds?\b", re.I
)


def class_text(*needs: str) -> str:
    text = (EXAMPLES / "well-stocked.toml").read_text(encoding="utf-8")
    return text.replace("needs   = []", f"needs   = {json.dumps(needs)}")


@lru_cache
def with_needs() -> Lesson:
    from sonify.inputs.class_file import read_class

    room = read_class(class_text(*WANTED), file="c.toml", name="well-stocked", catalogue=lesson.catalogue())
    return lesson.study("harbour-water-cycle", room)


def place_of(need: str) -> Place:
    return next(place for place in places(with_needs()) if place.need == need)


def texts(data: object) -> list[str]:
    """Every text in some JSON-like data, but the words of templates."""
    if isinstance(data, str):
        return [data]
    if isinstance(data, dict):
        return [text for value in data.values() for text in texts(value)]
    return [text for value in data for text in texts(value)] if isinstance(data, list | tuple) else []


def test_a_need_says_how_many_and_which_group_and_a_wrong_one_is_refused() -> None:
    found = [(need.name, need.pupils, need.group) for need in with_needs().classroom.pupils_need]
    assert found[1] == ("limited reach", 1, 2) and found[3][0] == "hearing aid" and found[5] == ("does not speak", 2, 0)
    assert {name for name, _, _ in found} == set(OF_PUPILS)
    from sonify.inputs.class_file import read_class

    for wrong, told in (
        ("one hand: 2 in group 9", "5 groups"),
        ("large print: 2", "whole class"),
        ("no hand", "one hand"),
    ):
        with pytest.raises(SonifyError, match=told):
            read_class(class_text(wrong), file="c.toml", name="c", catalogue=lesson.catalogue())


def test_the_music_is_the_same_and_every_pupil_has_a_place_in_the_group_asked_for() -> None:
    plain = studied("harbour-water-cycle")
    assert [part.notes for part in with_needs().score.parts] == [part.notes for part in plain.score.parts]
    found = places(with_needs())
    assert [place.need for place in found] == [
        name for need in with_needs().classroom.pupils_need if need.group != 4 for name in [need.name] * need.pupils
    ]
    assert place_of("limited reach").part.group == 2
    for place in found:
        assert sum(other.part == place.part for other in found) <= place.part.players


def test_each_need_changes_part_seat_card_or_cue() -> None:
    score = with_needs().score
    one, reach = place_of("one hand"), place_of("limited reach")
    assert one.seat.instrument not in BOTH_HANDS
    gaps = [after[0] - before[0] for before, after in zip(one.hits, one.hits[1:], strict=False)]
    assert one.hits and min(gaps) >= ONE_HAND_BEATS
    assert reach.left > 0 and max(h[2] for h in reach.hits) - min(h[2] for h in reach.hits) <= WITHIN_REACH
    loudness = {
        part.group: max(score.instrument(seat.instrument).loud for seat in part.seats)
        for part in score.group_parts
        if not part.pulse
    }
    assert loudness[place_of("startles").part.group] == min(loudness.values())
    assert score.instrument(place_of("hearing aid").seat.instrument).register == "low"
    assert score.instrument(place_of("does not speak").seat.instrument).family != "voice"
    found = {card["number"]: card for card in own_cards(with_needs(), settings())}
    steps = found[place_of("blind").number]["steps"]
    told = [tuple(map(int, re.findall(r"\d+", step)[:2])) for step in steps]
    assert told[0][0] == 1 and told[-1][1] == score.bars
    assert all(after[0] == before[1] + 1 for before, after in zip(told, told[1:], strict=False))
    assert {entry["cue"] for entry in found[place_of("hearing aid").number]["entries"]} == {"look up"}
    assert all(card["how"] for card in found.values())
    notes = " ".join(notes_for_conductor(with_needs()))
    assert "flat palm" in notes and f"Group {place_of('blind').part.group}: a neighbour taps" in notes


def test_no_card_and_no_note_tells_of_a_need() -> None:
    cards_of_their_own = texts(own_cards(with_needs(), settings()))
    assert len(cards_of_their_own) > 40
    fresh = [*cards_of_their_own, *texts(felt(with_needs(), None)), *notes_for_conductor(with_needs())]
    assert [text for text in fresh if TELLING.search(text)] == []


@pytest.mark.long
def test_nothing_that_pupils_see_tells_of_a_need_and_the_teacher_s_own_page_does() -> None:
    chosen = settings()
    seen, plain = (
        {
            *texts(pupils.sheet(found, chosen)),
            *texts(conductor.sheet(found, (), chosen)),
            *texts(poster.sheet(found, chosen)),
        }
        for found in (with_needs(), studied("harbour-water-cycle"))
    )
    assert len(seen - plain) > 20  # the cards of their own are among them
    assert [text for text in seen - plain if TELLING.search(text)] == []
    marks = handouts(with_needs(), chosen).marks
    told = kept_places(with_needs(), marks)
    assert {row["who"] for row in told} == set(OF_PUPILS)
    rows = {row.sheet: row for row in print_list(with_needs(), marks, (1,), (1,))}
    assert rows["felt"].copies == 1 and rows["own"].pages and rows["pictures"].copies == 2
    assert len(cards(with_needs(), chosen)) == 5


@pytest.mark.long
def test_the_class_s_page_and_score_tell_of_no_need() -> None:
    found = with_needs()
    page = lesson.page_text(found, lesson.sounds_of(found.score))
    plain = lesson.page_text(studied("harbour-water-cycle"), lesson.sounds_of(studied("harbour-water-cycle").score))
    for word in (*WANTED, *OF_PUPILS):
        assert page.lower().count(word.lower()) == plain.lower().count(word.lower()), word


def loudness(made: Lesson) -> dict[str, str]:
    """Of each part what its card says of loud and soft."""
    return {part["name"]: part["loud"] for card in cards(made, settings()) for part in card["parts"]}


def test_a_card_says_where_a_part_begins_softer_than_the_science_asks() -> None:
    """At the start there are most neighbours, so the crowd should be loudest: "fairly soft" needs a word beside it."""
    calm, usual = studied("ice-rink-particles", "few-instruments"), studied("ice-rink-particles")
    crowd = next(part for part in calm.score.group_parts if part.name == "The crowd")
    neighbours = calm.timeline.quantity("number of neighbours").values
    assert neighbours[0] > 0.99 * neighbours.max() and crowd.dynamics[0].mark == "mp"
    assert any(mark.mark == "f" for mark in crowd.dynamics)
    assert "Come in softly" in loudness(calm)["The crowd"]
    assert not any("softly" in told for told in loudness(usual).values())
    assert not TELLING.search(loudness(calm)["The crowd"].replace("you first reach", ""))


def test_a_card_says_where_the_first_stage_is_quiet() -> None:
    from sonify.inputs.class_file import read_class

    room = read_class(class_text("quiet start"), file="c.toml", name="quiet", catalogue=lesson.catalogue())
    told = loudness(lesson.study("ice-rink-particles", room))
    assert "the first stage is quiet" in told["The rows"] and "quiet" not in told["The free ones"]  # they enter later
