"""The listening check on the page: the questions of the pupils' sheet, word for word, with what each clip plays."""

from __future__ import annotations

import re

from sonify.facts.listening import Choice, Clip, ListeningItem, listening_items
from sonify.page.document import HEIGHT, WIDTH, curve_told, listening_rows, path, shade
from sonify.say import say
from tests.page.lessons import page_of
from tests.sample import sample_lesson
from tests.studies import studied


def test_the_page_asks_what_the_sheet_asks_in_its_order() -> None:
    lesson = sample_lesson()
    items, rows = listening_items(lesson), listening_rows(lesson)
    assert len(rows) >= 2
    assert [row["question"] for row in rows] == [say(item.question) for item in items]
    for row, item in zip(rows, items, strict=True):
        assert [choice["words"] for choice in row["choices"]] == [say(choice.words) for choice in item.choices]
        assert row["answer"] == item.answer
        assert [(clip["bar"], clip["after"]) for clip in row["clips"]] == [(c.bar, c.bar + c.bars) for c in item.clips]


def test_no_answer_stands_in_the_page_before_it_is_asked_for() -> None:
    lesson = sample_lesson()
    html = page_of(lesson).split('id="lesson-data">')[0]
    for row in listening_rows(lesson):
        assert row["why"] not in html
    assert len(re.findall(r'class="answer"[^>]*></div>', html)) == len(listening_rows(lesson))


def test_two_clips_are_named_and_a_part_brings_its_group() -> None:
    rows = listening_rows(sample_lesson())
    pair = next(row for row in rows if len(row["clips"]) == 2)
    assert [clip["name"] for clip in pair["clips"]] == ["clip a", "clip b"]
    assert all(clip["name"] == "clip" for row in rows if len(row["clips"]) == 1 for clip in row["clips"])


def test_a_choices_curve_stays_within_its_picture_with_up_at_the_top() -> None:
    choice = Choice(words="up", points=((0.0, 0.0), (1.0, 1.0)), shaded=(0.25, 0.5))
    numbers = [float(text) for text in re.findall(r"[\d.]+", path(choice))]
    assert numbers == [5.0, 55.0, 115.0, 5.0]
    assert max(numbers[::2]) < WIDTH and max(numbers[1::2]) < HEIGHT
    assert shade(choice) == (32.5, 27.5)
    assert path(Choice(words="none")) == "" and shade(Choice(words="none")) is None


def test_it_is_said_what_the_curves_show() -> None:
    def item(*choices: Choice, quantity: str = "speed") -> ListeningItem:
        clips = (Clip(bar=1, bars=4),)
        return ListeningItem(
            kind="stage", clips=clips, question="?", choices=choices, answer=0, why="", quantity=quantity
        )

    up = Choice(words="up", points=((0.0, 0.0), (1.0, 1.0)))
    whole = Choice(words="up", points=up.points, shaded=(0.0, 0.5))
    assert curve_told(item(up)) == "The curve: speed."
    assert curve_told(item(whole)) == "The curve: speed through the whole piece; the stage is shaded."
    assert curve_told(item(Choice(words="a"))) == "" and curve_told(item(up, quantity="")) == ""


def test_no_line_leads_from_one_thing_to_another() -> None:
    """A choice between a table's things has no curve; one between the stages of a process has."""
    places = {
        name: [choice.shaded for item in listening_items(studied(name)) for choice in item.choices]
        for name in ("stretch-test", "harbour-water-cycle")
    }
    assert not any(places["stretch-test"]) and any(places["harbour-water-cycle"])
