"""What a card says of its rules and its free taps, held against curves and notes."""

from __future__ import annotations

import itertools
import re
from dataclasses import replace
from fractions import Fraction as F
from functools import lru_cache
from pathlib import Path

import pytest

from sonify.facts.sheet import amount_name, stage_figures, stage_mean
from sonify.lesson import study
from sonify.paper.busy import course
from sonify.paper.cards import cards
from sonify.paper.rules import loud_text, rule_rows, rules_for
from sonify.records.lesson import Lesson
from sonify.records.scene import Measure
from sonify.records.score import DynamicMark, Entry, Note, Part
from sonify.say import say
from tests.paper.sheets import made, pages, settings
from tests.paper.test_pupils import first_part, with_part
from tests.sample import sample_lesson
from tests.studies import studied

EXAMPLES = Path(__file__).resolve().parents[2] / "examples"


@lru_cache
def harbour(classroom: str) -> Lesson:
    return study("harbour-water-cycle", str(EXAMPLES / f"{classroom}.toml"))


def part_of(lesson: Lesson, name: str) -> Part:
    return next(part for part in lesson.score.parts if part.name == name)


def test_the_beat_is_told_by_its_companion_stage_by_stage_as_the_key_has_it() -> None:
    lesson = harbour("well-stocked")
    sea = part_of(lesson, "The sea")
    key = next(key for key in rules_for(sea, lesson) if key.rule.control == "tempo")
    told = rule_rows(key, sea, lesson)
    # the key's own texts: "582 m/s (15 °C)", "94 a minute (Andante, steady walk)"
    expected = [
        (re.findall(r"\((.*? °C)\)", say(science))[0], say(sound).split()[0] + " beats a minute")
        for _, science, sound in key.stages
    ]
    letters = {row["letter"] for row in told["rows"]}
    played = [row for section, row in zip(lesson.score.sections, expected, strict=True) if section.letter in letters]
    assert [(row["science"].split(", ")[0], row["sound"]) for row in told["rows"]] == played
    assert told["note"] == say(key.for_pupils) != ""


def test_a_card_names_only_the_stages_its_part_plays_in() -> None:
    lesson = harbour("well-stocked")
    found = {
        part["name"]: {row["letter"] for rule in part["rules"] for row in rule["rows"]}
        for card in cards(lesson, settings())
        for part in card["parts"]
    }
    # the rain plays in one stage alone: the beat has its figure there, "some" rain would compare with nothing
    assert found["The rain"] == {"", "D"}
    assert found["The sea"] == set("ABCE")


@pytest.mark.parametrize("classroom", ["well-stocked", "few-instruments"])
def test_no_unit_that_pupils_do_not_know_is_on_their_sheets(classroom: str) -> None:
    text = " ".join(pages(made("pupils", harbour(classroom))))
    assert "°C" in text
    assert not re.search(r"m/s|mm/h|W/m", text)


def test_a_value_in_an_unknown_unit_is_told_as_little_or_much() -> None:
    rain, rule = harbour("well-stocked").timeline.quantity("rain rate"), harbour("well-stocked").controls.keys[0].rule
    ends = {"low": Measure(text="0", value=0, unit="1"), "high": Measure(text="100", value=100, unit="1")}
    flow, rule = replace(rain, unit="1", si_unit="1"), replace(rule, quantity=rain.name, curve="linear", **ends)
    assert [amount_name(rule, value, flow) for value in (-10.0, 0.0, 20.0, 50.0, 70.0, 90.0, 120.0)] == [
        "very-little",
        "very-little",
        "little",
        "some",
        "much",
        "very-much",
        "very-much",
    ]
    upside_down = replace(rule, low=rule.high, high=rule.low)
    assert [amount_name(upside_down, value, flow) for value in (90.0, 20.0, -5.0)] == [
        "very-little",
        "much",
        "very-much",
    ]


@pytest.mark.parametrize("scene", ["harbour-water-cycle", "the-sea-that-stayed-warm", "ice-rink-particles"])
def test_stages_that_differ_read_differently_on_every_card(scene: str) -> None:
    """By other means than the words: the means themselves, and whether they lie 5 % of the larger one apart."""
    lesson = studied(scene)
    for part in lesson.score.group_parts:
        for key in rules_for(part, lesson):
            told = rule_rows(key, part, lesson)
            quantity = lesson.timeline.quantity(told["of"])
            sections = {s.letter: s for s in lesson.score.sections}
            rows = [row for row in told["rows"] if row["letter"]]
            for one, other in itertools.combinations(rows, 2):
                a, b = (stage_mean(quantity, sections[row["letter"]], lesson) for row in (one, other))
                gap, size = abs(a - b), 1.0 if quantity.unit == "degC" else 0.05 * max(abs(a), abs(b))
                assert gap < size or one["science"] != other["science"], (part.name, one, other)


def test_a_stage_has_the_coldest_or_the_warmest_beside_its_figure_and_no_other_word() -> None:
    lesson = harbour("well-stocked")
    sea = lesson.timeline.quantity("journey temperature")
    figures = [figure.value for figure in stage_figures(sea, lesson).values()]
    part = part_of(lesson, "The sea")
    key = next(key for key in rules_for(part, lesson) if key.rule.control == "tempo")
    told = [row["science"] for row in rule_rows(key, part, lesson)["rows"]]
    assert told[figures.index(max(figures))] == f"{max(figures):.0f} °C, the warmest"
    assert told[figures.index(min(figures))] == f"{min(figures):.0f} °C, the coldest"
    assert sum("," in text for text in told) == 2


def taps(*bars: int) -> tuple[tuple[Note, ...], Entry]:
    notes = tuple(
        Note(beat=4 * bar + F(4 * tap, max(count, 1)), beats=F(1, 8), midi=75, velocity=70)
        for bar, count in enumerate(bars)
        for tap in range(count)
    )
    return notes, Entry(bar=1, bars=len(bars), instruction="most around bar 99")


@pytest.mark.parametrize(
    ("bars", "words"),
    [
        ((1, 5, 20, 4), "from few taps to many and back: most in bar 3"),
        ((2, 5, 10, 20), "from few taps to many: most in bar 4"),
        ((20, 10, 5, 2), "from many taps to few: most in bar 1"),
        ((20, 20, 20, 20), "about as many taps all through"),
    ],
)
def test_where_most_taps_fall_is_counted_from_the_notes(bars: tuple[int, ...], words: str) -> None:
    notes, entry = taps(*bars)
    lesson = with_part(sample_lesson(), "The rain", notes=notes, entries=(entry,))
    assert course(part_of(lesson, "The rain"), entry, lesson).startswith(words)


def test_frames_without_taps_are_to_be_filled_in() -> None:
    notes, entry = taps(3, 3)
    for chosen, empty in ((notes, False), ((), True)):
        lesson = with_part(sample_lesson(), "The rain", notes=chosen, entries=(entry,))
        assert first_part(lesson, 4)["busy"][0]["empty"] is empty
        assert ("A dot is a tap" in " ".join(pages(made("pupils", lesson)))) is not empty


def test_the_range_on_the_card_is_that_of_the_notes() -> None:
    lesson = harbour("well-stocked")
    journey = part_of(lesson, "The journey")
    key = next(key for key in rules_for(journey, lesson) if key.rule.control == "pitch")
    # by hand from the arranged part: an alto glockenspiel's low C (72) to the A of its second octave (93)
    asked = [note.midi for note in journey.notes if note.asked is not None]
    assert (min(asked), max(asked)) == (72, 93)
    assert rule_rows(key, journey, lesson)["note"] == "Arranged for your class: C to A′."
    assert rule_rows(key, journey, lesson)["rows"][1]["sound"] == "E′ to G′"


def test_brightness_is_that_of_the_notes_and_agrees_with_the_beaters_on_the_card() -> None:
    lesson = harbour("well-stocked")
    shallows = part_of(lesson, "The warm shallows")
    key = next(key for key in rules_for(shallows, lesson) if key.rule.control == "brightness")
    assert any(
        "soft beaters" in words and "hard beaters" in words for words in [say(words) for words in shallows.instructions]
    )
    assert [row["sound"] for row in rule_rows(key, shallows, lesson)["rows"]] == ["soft and dark", "hard and bright"]


def test_pupils_who_choose_their_notes_are_told_how_high() -> None:
    lesson = harbour("well-stocked")
    journey = part_of(lesson, "The journey")
    key = next(key for key in rules_for(journey, lesson) if key.rule.control == "pitch")
    lesson = with_part(lesson, "The journey", notes=())
    # the key's own texts are D4, G5 and E4 in a rule from C4 to A5
    rows = rule_rows(key, part_of(lesson, "The journey"), lesson)["rows"]
    assert [row["sound"] for row in rows] == ["low notes", "high notes", "middle notes"]


def test_one_quantity_has_one_word_a_stage_on_every_card() -> None:
    for scene in ("valley-snow-melt", "playground-pulse", "salt-in-the-jar"):
        lesson = studied(scene)
        told: dict[tuple[str, str], set[str]] = {}
        for part in lesson.score.group_parts:
            for key in rules_for(part, lesson):
                found = rule_rows(key, part, lesson)
                for row in found["rows"]:
                    told.setdefault((found["of"], row["letter"]), set()).add(row["science"])
        assert {where: words for where, words in told.items() if len(words) > 1 and where[1]} == {}


def test_how_much_is_told_as_the_rule_maps_it() -> None:
    """By hand: in a logarithmic rule from 1 to 100, 10 lies halfway, where a linear one has it at a tenth."""
    flow = replace(harbour("well-stocked").timeline.quantity("rain rate"), unit="1", si_unit="1")
    rule = harbour("well-stocked").controls.keys[0].rule
    ends = {"low": Measure(text="1", value=1, unit="1"), "high": Measure(text="100", value=100, unit="1")}
    rules = [replace(rule, quantity=flow.name, curve=c, **ends) for c in ("logarithmic", "linear")]
    assert [amount_name(each, 10.0, flow) for each in rules] == ["some", "very-little"]


def swelling(lesson: Lesson, velocities: tuple[int, ...], *marks: DynamicMark) -> Lesson:
    """The storm from bar 9 on, a note a bar."""
    notes = tuple(
        Note(beat=F(32 + 4 * place), beats=F(1), midi=60, velocity=velocity)
        for place, velocity in enumerate(velocities)
    )
    entries = (Entry(bar=9, bars=len(velocities)),)
    return with_part(lesson, "The storm", dynamics=marks, entries=entries, blanks=(), notes=notes)


def test_a_card_promises_the_loudness_that_the_part_has_there() -> None:
    marks = (DynamicMark(bar=9, mark="p", hairpin="cresc"), DynamicMark(bar=12, mark="f"))
    lesson = swelling(sample_lesson(), (44, 58, 72, 89), *marks)
    storm, last = part_of(lesson, "The storm"), lesson.score.sections[-1]
    assert loud_text(storm, last, lesson) == "soft, then loud"
    there_and_back = (DynamicMark(bar=9, mark="f"), DynamicMark(bar=10, mark="p"), DynamicMark(bar=12, mark="mf"))
    back = swelling(lesson, (92, 44, 44, 77), *there_and_back)
    assert loud_text(part_of(back, "The storm"), last, back) == "between soft and loud"
    open_part = replace(storm, dynamics=())
    assert loud_text(open_part, last, lesson) == "you choose"
