"""Which instrument each part gets, and who sits at it."""

from __future__ import annotations

from dataclasses import replace

from sonify import lesson
from sonify.arrange.cupboard import alike
from sonify.records.classroom import Classroom, Stock
from sonify.records.instrument import OwnInstrument
from sonify.records.score import Part, Score
from sonify.say import say
from tests.arrange.lessons import WATER, Sketch, cupboard, part, well_stocked
from tests.catalogue import catalogue


def arranged(classroom: Classroom, *parts: Part) -> Score:
    return replace(WATER, classroom=classroom).score()


def instruments(score: Score) -> dict[str, str]:
    return {p.name: p.instrument for p in score.group_parts if not p.pulse}


def one_part(texture: str, *sounds: str, classroom: Classroom, needs: tuple[str, ...] = ()) -> Part:
    sketch = Sketch(
        stages=(("one", 12, 80.0),),
        parts=(part("It", texture, *sounds),),
        classroom=replace(classroom, groups=1, needs=needs),
    )
    return sketch.score().group_parts[0]


def test_the_first_sound_that_the_cupboard_holds_is_taken() -> None:
    few = Classroom(year=4, pupils=5, groups=1, cupboard=cupboard(tambourine=5, claves=5))
    assert one_part("scatter", "rain stick", "tambourine", "claves", classroom=few).instrument == "tambourine"


def test_one_in_number_goes_before_one_that_most_would_have_to_wait_for() -> None:
    few = Classroom(year=4, pupils=6, groups=1, cupboard=cupboard(wood_block=1, claves=6))
    assert one_part("ostinato", "wood block", "claves", classroom=few).instrument == "claves"


def test_another_size_of_the_instrument_is_nearer_than_the_next_on_the_list() -> None:
    alto = Classroom(year=4, pupils=6, groups=1, cupboard=cupboard(alto_xylophone=3, claves=6))
    assert one_part("ostinato", "soprano xylophone", "claves", classroom=alto).instrument == "alto-xylophone"


def test_a_melody_takes_a_tuned_instrument_or_voices() -> None:
    drums = Classroom(year=4, pupils=6, groups=1, cupboard=cupboard(hand_drum=6))
    melody = one_part("melody", "glockenspiel", "hand drum", classroom=drums)
    assert melody.instrument in ("voices-oo", "voices-mm")


def test_loud_instruments_are_avoided_where_the_class_needs_calm() -> None:
    loud = Classroom(year=4, pupils=4, groups=1, cupboard=cupboard(goblet_drum=4, hand_drum=4))
    assert one_part("ostinato", "djembe", "hand drum", classroom=loud).instrument == "goblet-drum"
    needs = ("no sudden loud sounds",)
    assert one_part("ostinato", "djembe", "hand drum", classroom=loud, needs=needs).instrument == "hand-drum"


def test_an_empty_cupboard_is_body_percussion_and_voices_and_says_so() -> None:
    score, findings = replace(WATER, classroom=Classroom(year=4, pupils=28, groups=5)).arranged()
    assert all(row.bodily for row in score.instruments if row.id != "claves")  # the teacher's clicks
    assert any("The cupboard is empty" in say(finding.message) for finding in findings)
    assert len(set(instruments(score).values())) == 5


def test_a_chanted_line_is_spoken_only_where_it_is_asked_for() -> None:
    for empty in (Classroom(year=4, pupils=30, groups=12), Classroom(year=4, pupils=30, groups=1)):
        score = replace(WATER, classroom=empty).score()
        played = {seat.instrument for p in score.group_parts for seat in p.seats}
        assert not [name for name in played if catalogue()[name].on_request]
    few = Classroom(year=4, pupils=6, groups=1)
    assert one_part("ostinato", "chanted line", classroom=few).instrument == "voices-chant"


def test_a_classs_own_instrument_plays_for_the_one_it_is_like() -> None:
    own = OwnInstrument(name="our wobbly metal", like="thunder-sheet", number=1)
    few = Classroom(
        year=4, pupils=4, groups=1, own=(own,), cupboard=(*cupboard(egg_shaker=4), Stock(instrument=own.id, count=4))
    )
    sketch = Sketch(stages=(("one", 12, 80.0),), parts=(part("It", "tremolo", "thunder sheet"),), classroom=few)
    score = sketch.score()
    assert score.group_parts[0].instrument == "thunder-sheet.1"
    assert {row.name for row in score.instruments} == {"Claves", "Our wobbly metal"}
    assert [(swap.wanted, swap.given) for swap in score.swaps] == [("thunder sheet", "our wobbly metal")]


def test_no_two_groups_have_the_same_instrument_and_nothing_is_promised_twice() -> None:
    classroom = well_stocked(groups=7, pupils=31)
    score = replace(WATER, classroom=classroom).score()
    users: dict[str, set[int]] = {}
    for p in (p for p in score.group_parts if not p.pulse):
        for seat in p.seats:
            users.setdefault(seat.instrument, set()).add(p.group)
            assert catalogue()[seat.instrument].bodily or seat.count <= classroom.count(seat.instrument)
    assert all(len(groups) == 1 for groups in users.values())


def test_groups_that_must_sound_alike_are_reported() -> None:
    only_drums = Classroom(year=4, pupils=30, groups=8)
    score, findings = replace(WATER, classroom=only_drums).arranged()
    names = list(instruments(score).values())
    rows = [catalogue()[name] for name in names]
    pairs = sum(alike(a, b) for i, a in enumerate(rows) for b in rows[:i])
    assert pairs == sum("hard to tell apart" in say(finding.message) for finding in findings) > 0


def test_wooden_and_metal_bars_of_one_height_are_told_apart() -> None:
    rows = catalogue()
    assert not alike(rows["alto-xylophone"], rows["alto-metallophone"])
    assert alike(rows["alto-metallophone"], rows["chime-bars"])
    assert alike(rows["egg-shaker"], rows["sleigh-bells"])
    assert not alike(rows["bass-drum"], rows["bongos"])


def test_swaps_are_named_with_their_reason() -> None:
    score, findings = WATER.arranged()
    assert [(s.part, s.wanted, s.given) for s in score.swaps] == [
        ("Rising vapour", "soprano xylophone", "alto xylophone"),
        ("The river", "alto metallophone", "hand drum"),
    ]
    assert say(score.swaps[0].reason) == "the cupboard has no soprano xylophone"
    assert say(score.swaps[1].reason) == "the cupboard has 1 of 5 that the group needs"
    assert sum(finding.kind == "swap" for finding in findings) == 2


def test_too_few_of_one_are_filled_up_with_others_of_its_kind() -> None:
    sea = WATER.score().group_parts[0]
    assert [(seat.instrument, seat.players, seat.count) for seat in sea.seats] == [
        ("ocean-drum", 1, 1),
        ("egg-shaker", 5, 5),
    ]


def test_pupils_without_one_take_turns_or_use_body_and_voice() -> None:
    most = Classroom(year=4, pupils=6, groups=1, cupboard=cupboard(triangle=5))
    seats = one_part("scatter", "triangle", classroom=most).seats
    assert [(s.players, s.count, s.at_once, s.turn_bars) for s in seats] == [(6, 5, 5, 2)]
    assert "five at a time" in say(seats[0].job) and "every two bars" in say(seats[0].job)
    half = Classroom(year=4, pupils=6, groups=1, cupboard=cupboard(triangle=3))
    seats = one_part("scatter", "triangle", classroom=half).seats
    assert [(s.players, s.at_once) for s in seats] == [(3, 0), (3, 0)] and catalogue()[seats[1].instrument].bodily
    hardly = Classroom(year=4, pupils=6, groups=1, cupboard=cupboard(triangle=1))
    seats = one_part("scatter", "triangle", classroom=hardly).seats
    assert seats[0].instrument == "triangle" and seats[0].players == 1
    assert sum(s.players for s in seats) == 6 and all(catalogue()[s.instrument].bodily for s in seats[1:])


def test_two_share_a_large_instrument() -> None:
    bars = Classroom(year=4, pupils=6, groups=1, cupboard=cupboard(alto_xylophone=3))
    seat = one_part("ostinato", "alto xylophone", classroom=bars).seats[0]
    assert (seat.players, seat.count, say(seat.job)) == (6, 3, "two to an instrument")


def test_a_held_part_that_is_to_sound_notes_has_notes_in_every_group() -> None:
    """A second group of "your chord" hissed on "sh" beside bells and recorders that lay there for taps."""
    odd = Classroom(
        year=6,
        pupils=31,
        groups=9,
        cupboard=cupboard(
            desk_bells=2, ukulele=3, recorder=6, temple_blocks=1, gong=1, bucket=4, slide_whistle=2, keys=3
        ),
    )
    made = lesson.study("salt-in-the-jar", odd)
    rows = {p.name: catalogue()[p.instrument] for p in made.score.group_parts if p.name.startswith("The salt water")}
    assert len(rows) == 2 and all(row.pitched for row in rows.values())
