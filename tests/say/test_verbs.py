"""A verb agrees with its noun, which may be the heading of a class's own column."""

from __future__ import annotations

import pytest

from sonify.records.fact import Amount, fact
from sonify.say import say, speaking
from sonify.say.language import VERBS
from sonify.units import YES_OR_NO

from .pseudo import PSEUDO, unmarked

ENDS = {"from": Amount(value=3.0, given="a test"), "to": Amount(value=9.0, given="a test")}


@pytest.mark.parametrize(
    ("quantity", "told"),
    [
        ("frogs", "The frogs rise from 3 to 9."),
        ("number of frogs", "The number of frogs rises from 3 to 9."),
        ("woodlice in the shade", "The woodlice in the shade rise from 3 to 9."),
        ("mass", "The mass rises from 3 to 9."),
        ("height: window sills", "The height (window sills) rises from 3 to 9."),
        ("frogs and newts", "The frogs and newts rise from 3 to 9."),
    ],
)
def test_the_frogs_rise_and_their_number_rises(quantity: str, told: str) -> None:
    assert say(fact("drawn-rises", quantity=quantity, **ENDS)) == told


def test_a_column_of_yes_and_no_is_told_as_yes_and_no() -> None:
    told = [
        say(fact("value-alone", value=Amount(value=share, unit=YES_OR_NO, given="test"))) for share in (0, 1, 2 / 3)
    ]
    assert told == ["no", "yes", "yes in 67 %"]


def test_a_part_of_several_has_nothing_to_play_and_one_has() -> None:
    told = [say(fact("group-nothing-to-play", part=part, stages=("stirring",))) for part in ("The grains", "The spoon")]
    assert [text[:15] for text in told] == ["The grains have", "The spoon has n"]


def test_verbs_are_the_catalogue_s() -> None:
    with speaking(PSEUDO):
        assert unmarked(say(fact("drawn-rises", quantity="", **ENDS))) == []
        assert all(PSEUDO.knows(f"verb-{verb}") for verb in VERBS)


@pytest.mark.parametrize(
    ("quantity", "told"),
    [
        ("shadow", "The longer the shadow"),
        ("noon shadow", "The longer the noon shadow"),
        ("water left", "The more water left"),
        ("hours behind the Sun", "The more hours behind the Sun"),
        ("number of frogs", "The higher the number of frogs"),
        ("loss of heat", "The larger the loss of heat"),
    ],
)
def test_each_thing_has_its_own_word_for_more(quantity: str, told: str) -> None:
    assert say(fact("outline-tempo", quantity=quantity)) == f"{told}, the quicker the beat."


def test_what_several_things_do_and_what_one_does() -> None:
    ends = {"first": "A", "last": "B"}
    told = [say(fact("frame-what-does", quantity=quantity, **ends)) for quantity in ("frogs", "number of frogs")]
    assert [text.partition("what ")[2] for text in told] == ["do the frogs do?", "does the number of frogs do?"]
