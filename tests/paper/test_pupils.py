"""The pupils' sheets: flow chart, a card for each group, words, and "Our sound, and why"."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from sonify.facts.listening import listening_items
from sonify.paper.cards import cards
from sonify.paper.facts import playing
from sonify.paper.ideas import ideas
from sonify.paper.pupils import few_words, flow, listening, shuffled, vocabulary
from sonify.paper.rules import rule_rows, rules_for
from sonify.paper.thinking import stretch
from sonify.records.fact import Note, fact
from sonify.records.lesson import Lesson
from sonify.records.score import Blank, DynamicMark, Entry, Part, Seat
from sonify.say import plain_messages, say
from tests.paper.large import large_lesson
from tests.paper.sheets import made, pages, sample, settings
from tests.sample import sample_lesson, sample_score
from tests.studies import studied


def with_part(lesson: Lesson, name: str, **changes: object) -> Lesson:
    parts = tuple(replace(p, **changes) if p.name == name else p for p in lesson.score.parts)  # type: ignore[arg-type]
    return replace(lesson, score=replace(lesson.score, parts=parts))


def card(lesson: Lesson, group: int) -> dict[str, Any]:
    return next(c for c in cards(lesson, settings()) if c["group"] == group)


def first_part(lesson: Lesson, group: int) -> dict[str, Any]:
    return card(lesson, group)["parts"][0]


def test_sheets_come_in_the_order_a_lesson_needs_them() -> None:
    found = pages(sample("pupils"))
    heads = [
        "Put it in order",
        *(f"Group {n}" for n in range(1, 5)),
        "Our sound",
        "Ticket",
        "From start",
        "Words to know",
    ]
    places = [next(i for i, text in enumerate(found) if head in text[:120]) for head in heads]
    assert places == sorted(set(places))


def test_every_group_has_its_name_meaning_and_players_on_its_own_card() -> None:
    found = pages(sample("pupils"))
    for part in sample_score().group_parts:
        text = " ".join(page for page in found if page.startswith(("1", "2", "3", "4")) or part.name in page)
        assert part.name in text
        assert part.meaning in text
        for seat in part.seats:
            assert f"{seat.players} players" in text


def test_a_group_with_two_parts_has_one_card_with_both() -> None:
    found = [c for c in cards(sample_lesson(), settings()) if c["group"] == 4]
    assert len(found) == 1
    assert found[0]["names"] == ["The rain", "The storm"]
    # each part's pages are read by themselves: a rule that both follow is told on both
    assert [len(part["rules"]) for part in found[0]["parts"]] == [1, 1]


def test_the_count_in_has_no_card() -> None:
    assert all("count-in" not in c["names"] for c in cards(sample_lesson(), settings()))


def test_a_card_says_when_to_come_in_and_whom_to_listen_for() -> None:
    (entry,) = first_part(sample_lesson(), 3)["entries"]
    assert (entry["bar"], entry["stage"], entry["play"]) == (
        6,
        "B Condensation",
        "Your notes, bars 6 to 8, for 3 bars",
    )
    assert entry["listen"] == "Listen for Rising vapour (group 2) in the bar before."
    (opening,) = first_part(sample_lesson(), 1)["entries"]
    assert opening["listen"] == "Listen to the count-in."


def test_a_part_that_goes_on_into_its_next_entry_is_told_not_to_stop() -> None:
    entries = (Entry(bar=3, bars=2, pattern=1), Entry(bar=5, bars=2, instruction="softer"))
    found = first_part(with_part(sample_lesson(), "Rising vapour", entries=entries), 2)["entries"]
    assert [e["listen"] for e in found] == [
        "Listen for The sea (group 1) in the bar before.",
        "Keep going, with no gap.",
    ]
    assert [e["play"] for e in found] == ["Pattern A, for 2 bars", "Softer, for 2 bars"]


def test_a_part_that_comes_in_out_of_silence_is_told_to_watch() -> None:
    lesson = with_part(sample_lesson(), "The sea", entries=(Entry(bar=1, bars=1),), notes=())
    (entry,) = first_part(lesson, 2)["entries"]
    assert entry["listen"] == "It is quiet before you. Watch the conductor."


def test_a_part_that_comes_in_at_the_same_time_is_not_the_one_to_listen_for() -> None:
    lesson = with_part(sample_lesson(), "The cloud", entries=(Entry(bar=7, bars=2),))
    (entry,) = first_part(lesson, 4)["entries"]  # the rain, in bar 7 as well
    assert entry["listen"] == "Listen for Rising vapour (group 2) in the bar before."


def test_without_named_entries_the_notes_say_when_the_part_plays() -> None:
    # by hand: the sample's cloud plays from beat 20 to beat 32, that is bars 6 to 8 of 4/4
    found = first_part(with_part(sample_lesson(), "The cloud", entries=()), 3)["entries"]
    assert [(e["bar"], e["play"]) for e in found] == [(6, "Your notes, bars 6 to 8, for 3 bars")]


def test_loudness_is_told_in_words_mark_by_mark() -> None:
    assert first_part(sample_lesson(), 2)["loud"] == (
        "Bar 3: fairly soft (mp), then grow louder until bar 6. Bar 6: fairly loud (mf)."
    )


def test_players_who_share_are_told_how() -> None:
    seats = (
        Seat(instrument="alto-xylophone", players=3, count=3),
        Seat(instrument="alto-xylophone", players=6, count=3),
        Seat(instrument="alto-xylophone", players=6, count=3, at_once=3, turn_bars=2),
        Seat(instrument="alto-xylophone", players=1, count=1, job="low notes only"),
    )
    found = first_part(with_part(sample_lesson(), "Rising vapour", seats=seats), 2)["seats"]
    assert [(s["what"], s["who"], s["job"]) for s in found] == [
        ("3 alto xylophones", "3 players", ""),
        ("3 alto xylophones", "6 players", "share and take turns"),
        ("3 alto xylophones", "6 players", "3 at a time, changing every 2 bars"),
        ("1 alto xylophone", "1 player", "low notes only"),
    ]


def test_many_changes_of_loudness_are_summed_up() -> None:
    marks = tuple(
        DynamicMark(bar=bar, mark=mark) for bar, mark in ((1, "pp"), (3, "mp"), (5, "f"), (9, "f"), (11, "p"))
    )
    assert first_part(with_part(sample_lesson(), "The sea", dynamics=marks), 1)["loud"] == (
        "Start very soft (pp). In bar 5 you first reach your loudest: loud (f). End soft (p)."
    )


def test_a_part_without_marks_of_loudness_has_its_card_all_the_same() -> None:
    lesson = with_part(sample_lesson(), "The sea", dynamics=())
    assert first_part(lesson, 1)["loud"] == ""
    assert len(first_part(lesson, 1)["runs"]) == 1


def test_notes_in_the_words_are_named_as_on_the_groups_own_bars() -> None:
    # soprano glockenspiel: its lowest C sounds as C6, an octave higher is its second
    lesson = with_part(
        sample_lesson(),
        "The cloud",
        instructions=(fact("part-chord-one-note", moves="no", note=(Note(84), Note(88), Note(96))),),
    )
    assert first_part(lesson, 3)["instructions"] == ["While there is one note, C, E and C′, all play it."]
    drum = with_part(sample_lesson(), "The sea", instructions=("Room B4, please.",))
    assert first_part(drum, 1)["instructions"] == ["Room B4, please."]


@pytest.mark.parametrize(
    ("control", "ends", "found"),
    [
        ("tempo", (66.0, 104.0), ("66 beats a minute", "104 beats a minute")),
        ("dynamics", (32.0, 89.0), ("very soft", "loud")),
        ("pitch", (84.0, 60.0), ("high notes", "low notes")),
        ("density", (1.0, 3.0), ("first text", "last text")),
    ],
)
def test_sounds_are_told_without_foreign_terms(control: str, ends: tuple[float, float], found: tuple[str, str]) -> None:
    lesson = sample_lesson()
    key = lesson.controls.keys[0]
    rule = replace(key.rule, control=control, to_low=ends[0], to_high=ends[1], part="The cloud")
    key = replace(key, rule=rule, values=(("0 m", "first text"), ("5 m", "last text")))
    (told,) = first_part(replace(lesson, controls=replace(lesson.controls, keys=(key,))), 3)["rules"]
    assert tuple(row["sound"] for row in told["rows"]) == found


def test_a_card_tells_only_rules_its_part_can_be_heard_to_follow() -> None:
    lesson = sample_lesson()
    key = lesson.controls.keys[0]
    keys = tuple(
        replace(key, rule=replace(key.rule, control=control, part=part))
        for control, part in (("tempo", None), ("pitch", None), ("density", None), ("dynamics", "The sea"))
    )
    lesson = replace(lesson, controls=replace(lesson.controls, keys=keys))

    def told(name: str) -> list[str]:
        part: Part = next(p for p in lesson.score.parts if p.name == name)
        return [k.rule.control for k in rules_for(part, lesson)]

    assert told("The sea") == ["dynamics", "tempo"]
    assert told("The cloud") == ["tempo", "pitch"]
    assert told("The rain") == ["tempo", "density"]


def test_what_pupils_are_to_invent_is_asked_for_on_their_card() -> None:
    lesson = replace(sample_lesson(), score=sample_score(with_blank=True))
    text = " ".join(pages(made("pupils", lesson)))
    assert "Your own idea" in text and "bars 9 to 10" in text
    assert "Invent the cloud breaking up." in text


def test_boxes_to_fill_name_their_stage_their_science_and_the_notes_to_use() -> None:
    lesson = sample_lesson()
    score = lesson.score
    cloud = next(part for part in score.group_parts if part.name == "The cloud")
    blanks = (Blank(bar=1, bars=score.bars, ask="Invent."), Blank(bar=1, bars=1, ask="Invent."))
    told = ideas(replace(cloud, blanks=blanks), lesson)
    assert [row["where"].split(",")[0] for row in told[:-1]] == [f"Stage {s.letter}" for s in score.sections]
    assert [(row["bar"], row["bars"]) for row in told[:-1]] == [(s.bar, s.bars) for s in score.sections]
    assert [bool(row["ask"]) for row in told] == [True] + [False] * (len(told) - 1)  # asked once
    assert told[0]["notes"] == "Use the notes C D E G A."  # C pentatonic, common practice
    rows = [row for key in rules_for(cloud, lesson) for row in rule_rows(key, cloud, lesson)["rows"]]
    played = {row["letter"] for row in rows}
    for row, section in zip(told, score.sections, strict=False):
        assert bool(row["science"]) is (section.letter in played)


def test_bars_that_pupils_invent_have_no_second_frames_for_taps() -> None:
    lesson = sample_lesson()
    rain = next(part for part in lesson.score.group_parts if part.texture == "scatter")
    first, bars = playing(rain, lesson.score)[0]
    blank = Blank(bar=first, bars=1, ask="Invent.")
    parts = tuple(replace(p, blanks=(blank,)) if p is rain else p for p in lesson.score.parts)
    changed = replace(lesson, score=replace(lesson.score, parts=parts))
    card = next(c for c in cards(changed, settings()) if c["group"] == rain.group)
    shown = [bar["bar"] for picture in card["parts"][0]["busy"] for bar in picture["bars"]]
    assert first not in shown and first + 1 in shown and bars > 1


def test_flow_chart_pieces_are_all_there_and_never_in_order() -> None:
    lesson = large_lesson()
    order = [section.title for section in lesson.score.sections]
    for seed in range(20):
        found = [piece["title"] for piece in flow(replace(lesson, seed=seed))["pieces"]]
        assert sorted(found) == sorted(order)
        assert found != order


def test_shuffles_depend_on_the_seed_alone() -> None:
    assert shuffled(8, 3, 1) == shuffled(8, 3, 1)
    assert shuffled(8, 3, 1) != shuffled(8, 4, 1)
    assert shuffled(0, 0, 1) == []
    assert all(shuffled(2, seed, 1) == [1, 0] for seed in range(20))


@pytest.mark.parametrize(("cycle", "head"), [(True, "Close the circle"), (False, "From start to end")])
def test_the_chart_closes_only_where_the_process_is_a_cycle(cycle: bool, head: str) -> None:
    lesson = replace(sample_lesson(), process=replace(sample_lesson().process, cycle=cycle))
    assert flow(lesson)["cycle"] is cycle
    assert any(page.startswith(head) for page in pages(made("pupils", lesson)))


@pytest.mark.parametrize(("scaffold", "given", "bank"), [("full", "Evaporation", 3), ("part", "", 3), ("open", "", 0)])
def test_how_much_is_given_follows_the_scaffold(scaffold: str, given: str, bank: int) -> None:
    lesson = replace(sample_lesson(), scaffold=scaffold)
    assert (flow(lesson)["given"], len(flow(lesson)["bank"])) == (given, bank)
    assert len(vocabulary(lesson)["bank"]) == (0 if scaffold == "open" else 2)


def test_every_word_has_its_own_meaning_beside_it() -> None:
    lesson = large_lesson()
    meanings = {word.word: word.meaning for word in lesson.scene.vocabulary}
    rows = vocabulary(lesson)["rows"]
    assert {row["word"]: row["meaning"] for row in rows} == meanings
    assert [row["word"] for row in rows] != sorted(meanings)


def test_with_help_there_are_fewer_words_to_match() -> None:
    lesson = large_lesson()
    found = few_words(lesson)
    meanings = {word.word: word.meaning for word in lesson.scene.vocabulary}
    assert 2 <= len(found) <= 5 < len(meanings)
    assert {row["meaning"] for row in found} == {meanings[row["word"]] for row in found}
    assert all(row["meaning"] != meanings[row["word"]] for row in found) or len(found) > 2


def test_further_thinking_has_the_figures_of_the_science_and_of_the_beat() -> None:
    lesson = studied("harbour-water-cycle")
    found = stretch(lesson)
    assert found["head"][1:] == ["journey temperature", "How fast"]
    stages = {say(s.title): s for s in lesson.controls.time_map.stages}
    celsius = lesson.timeline.quantity("journey temperature").in_unit()
    for title, figure, sound in found["rows"]:
        stage = stages[title]
        during = (lesson.timeline.time_s >= stage.start_s) & (lesson.timeline.time_s < stage.end_s)
        assert float(figure.removesuffix(" °C")) == pytest.approx(float(celsius[during].mean()), abs=0.6)
        assert sound == f"{round(stage.bpm)} beats a minute"
    assert found["ask"][-1].endswith(plain_messages("think")["think-not-real"])


def test_the_listening_check_prints_each_question_and_every_choice() -> None:
    lesson = studied("harbour-water-cycle")
    text = next(page for page in pages(made("pupils", lesson)) if page.startswith("What do you hear?"))
    for number, item in enumerate(listening_items(lesson), start=1):
        assert f"Clip {number}: {say(item.question)}" in text
        assert all(say(choice.words) in text for choice in item.choices)


def test_there_are_lines_for_name_and_date() -> None:
    found = pages(sample("pupils"))
    assert sum("Name" in text and "Date" in text for text in found) == 6  # what is filled in on a page of its own
    halves = [text for text in found if "Our sound, and why" in text[:40] or text.startswith("Ticket")]
    assert len(halves) == 3 * 4 + 1 and all("Name" in text for text in halves)


@pytest.mark.long
def test_a_question_speaks_of_a_grey_part_only_where_one_is_drawn() -> None:
    for scene in ("woodlice-count", "two-cups"):
        items = listening(studied(scene), settings())
        drawn = [any(choice["shaded"] for choice in item["choices"]) for item in items]
        assert [bool(item["about"]) for item in items] == drawn
