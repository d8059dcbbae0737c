"""What sheets say of two stages, of particles, of rests and of taps that are rare."""

from __future__ import annotations

from dataclasses import replace

import pytest

from sonify import lesson
from sonify.facts.evidence import Evidence
from sonify.facts.sheet import by_size, in_section, strokes_a_bar
from sonify.paper.aims import grid
from sonify.paper.rules import taps_facts
from sonify.paper.teacher import of_particles
from sonify.records.lesson import Lesson
from sonify.say import say
from tests.studies import studied


def aims(found: Lesson) -> str:
    return str(grid(found))


def test_the_pulse_of_a_waiting_group_makes_no_stage_busy() -> None:
    found = studied("ice-on-the-hob")
    beats = found.score.metre.beats
    assert any(part.pulse for part in found.score.group_parts)
    for section in found.score.sections:
        bars = range(section.bar, section.bar + section.bars)
        own = [p for p in found.score.group_parts if not p.name.startswith("The pulse")]
        struck = sum(int(note.beat // beats) + 1 in bars for part in own for note in part.notes)
        assert strokes_a_bar(found, section) == pytest.approx(struck / section.bars)
        taken = Evidence(timeline=found.timeline, score=found.score).value(in_section("strokes a bar", section))
        assert taken == pytest.approx(struck / section.bars)


def test_two_stages_are_both_and_steps_have_an_order() -> None:
    found = studied("two-cups")
    two = replace(found, score=replace(found.score, sections=found.score.sections[:2]))
    assert "Puts both stages in order" in aims(two) and "Puts all 4 stages in order" in aims(found)
    assert "in order of the layers of paper" in aims(studied("magnet-and-paper"))


@pytest.mark.parametrize(
    ("name", "speaks"),
    [("a-frogs-life", False), ("rain-garden-storm", False), ("two-cups", True), ("ice-rink-particles", True)],
)
def test_particles_are_called_enrichment_only_where_a_lesson_speaks_of_them(name: str, speaks: bool) -> None:
    assert of_particles(studied(name)) is speaks


def test_a_tap_in_every_third_bar_is_no_tap_a_bar() -> None:
    found = studied("playground-puddle")
    (part,) = (p for p in found.score.group_parts if p.texture == "scatter")
    entry = max(part.entries, key=lambda each: each.bars)
    rare = [n for n in part.notes if entry.bar <= n.beat // found.score.metre.beats + 1 < entry.bar + entry.bars]
    rare = rare[:: 1 + 3 * len(rare) // entry.bars]
    found = replace(found, score=replace(found.score, parts=(replace(part, notes=tuple(rare)),)))
    told = say(taps_facts(found.score.parts[0], entry.bar, entry.bars, found)[0])
    assert 0 < len(rare) <= entry.bars / 3 + 1 and told == "now and then a tap"
    assert "a bar" in say(taps_facts(part, entry.bar, entry.bars, lesson.study("playground-puddle"))[0])


def test_the_order_of_size_begins_with_the_least() -> None:
    # stretch-test.csv: the cotton string stretches least, the tights most
    name, ranked = by_size(studied("stretch-test"))
    assert name == "stretch" and [say(section.title) for section in ranked][::3] == ["Cotton string", "Tights"]
