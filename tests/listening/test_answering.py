"""What is answered from figures that are known: entries that were made up, levels that were drawn."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from sonify.listening.answering import NEAR, ORDER_SURE, questions
from sonify.listening.entering import Entered, _came_in
from sonify.listening.plan import Line, Plan, Stage
from sonify.records.listened import CANNOT_TELL, NO, YES, BarHeard, EntryHeard, Span, StageHeard

BARS = 24


def line(name: str, group: int, velocity: float = 80.0) -> Line:
    beats = np.arange(0.0, 4.0 * BARS)
    return Line(
        name=name,
        group=group,
        texture="ostinato",
        beats=beats,
        midi=np.full(beats.size, 60),
        velocity=np.where(beats < 2.0 * BARS, velocity / 2.0, velocity),
        pitched=np.ones(beats.size, dtype=bool),
    )


PLAN = Plan(
    title="",
    beats_a_bar=4,
    bpm=np.full(BARS, 90.0),
    stages=tuple(Stage(name=n, title=n, letter=n, bar=12 * k, bars=12, bpm=90.0) for k, n in enumerate("AB")),
    lines=(line("one", 1), line("two", 2)),
)


def stages(levels_db: tuple[float, float], half_db: float) -> list[StageHeard]:
    return [
        StageHeard(
            name=stage.name,
            title=stage.title,
            letter=stage.letter,
            bar=stage.bar + 1,
            bars=stage.bars,
            planned_bpm=90.0,
            start_s=32.0 * number,
            bpm=Span(value=90.0, low=89.0, high=91.0),
            level_db=Span(value=level, low=level - half_db, high=level + half_db),
        )
        for number, (stage, level) in enumerate(zip(PLAN.stages, levels_db, strict=True))
    ]


def heard(levels_db: np.ndarray) -> list[BarHeard]:
    return [BarHeard(bar=n + 1, start_s=8.0 / 3.0 * n, bpm=90.0, level_db=float(db)) for n, db in enumerate(levels_db)]


def entry(name: str, group: int, planned: int, chances: np.ndarray, span: tuple[int, int, int] | None) -> Entered:
    row = EntryHeard(part=name, group=group, planned_bar=planned, why="" if span else "it was covered")
    if span:
        row = replace(row, heard=Span(value=span[1], low=span[0], high=span[2]))
    return Entered(heard=row, chances=chances)


def spread(*bars: int, all_along: float = 0.0) -> np.ndarray:
    out = np.zeros(BARS + 1)
    out[list(bars)] = (1.0 - all_along) / len(bars)
    out[0] = all_along
    return out


def answers(kind: str, entries: list[Entered]) -> list[str]:
    asked = questions(PLAN, stages((0.0, 0.0), 2.0), entries, heard(np.zeros(BARS)))
    return [question.answer for question in asked if question.kind == kind]


@pytest.mark.parametrize("came", [2, 9, 17])
def test_an_entry_is_where_a_parts_share_changes(came: int) -> None:
    """A share of 0.1 before and 0.8 after, noise of 0.2: neither was told beforehand."""
    rng, size = np.random.default_rng(came), np.full(BARS, 30.0)
    share = np.where(np.arange(BARS) < came, 0.1, 0.8) + rng.normal(0.0, 0.2, BARS)
    chances = _came_in(share * size, size, 4.0)
    assert chances.sum() == pytest.approx(1.0)
    assert chances[max(0, came - 2) : came + 3].sum() > 0.9


def test_a_part_that_is_there_throughout_or_never_has_no_entry() -> None:
    rng, size = np.random.default_rng(3), np.full(BARS, 30.0)
    for share, place in ((1.0, -1), (0.0, -2)):
        chances = _came_in((share + rng.normal(0.0, 0.3, BARS)) * size, size, 4.0)
        assert np.argmax(chances) - chances.size == place
        assert chances[4:-6].sum() < 0.2


@pytest.mark.parametrize(
    ("one", "two", "answer"),
    [
        (spread(5, 6, 7), spread(9, 10, 11), YES),
        (spread(9, 10, 11), spread(5, 6, 7), NO),
        (spread(5, 6, 7), spread(7, 8, 9), CANNOT_TELL),
        (spread(5, all_along=0.1), spread(10), CANNOT_TELL),  # something that sounds like it was there before
        (spread(5), spread(10) * 0.9, CANNOT_TELL),  # it may never have come
    ],
)
def test_the_order_is_told_where_no_other_comes_into_question(one: np.ndarray, two: np.ndarray, answer: str) -> None:
    assert ORDER_SURE > 0.9
    assert answers("entry", [entry("one", 1, 5, one, None), entry("two", 2, 9, two, None)]) == [answer]


def test_what_no_recording_could_tell_is_not_asked() -> None:
    rows = [entry("one", 1, 5, spread(5), (5, 5, 5)), entry("two", 2, 9, spread(9), (9, 9, 9))]
    assert answers("entry", rows) == [YES]
    assert answers("entry", [rows[0], replace(rows[1], never=True)]) == []
    assert answers("came", [rows[0], replace(rows[1], never=True)]) == [YES]


@pytest.mark.parametrize(
    ("span", "answer"),
    [
        ((9, 10, 11), YES),
        ((10 - NEAR, 10, 10 + NEAR), YES),
        ((9, 10, 10 + NEAR + 1), CANNOT_TELL),
        ((10 + NEAR + 1, 14, 15), NO),
        ((5, 6, 10 - NEAR - 1), NO),
        (None, CANNOT_TELL),
    ],
)
def test_a_part_came_in_where_it_is_written(span: tuple[int, int, int] | None, answer: str) -> None:
    assert answers("came", [entry("one", 1, 10, spread(10), span)]) == [answer]


@pytest.mark.parametrize(
    ("after_db", "half_db", "answer"),
    [(6.0, 3.0, YES), (-6.0, 3.0, NO), (2.0, 3.0, CANNOT_TELL), (4.5, 3.0, YES), (6.0, 6.0, CANNOT_TELL)],
)
def test_louder_is_told_beyond_what_the_bars_leave_open(after_db: float, half_db: float, answer: str) -> None:
    """Stage B is written twice as strong. Two intervals of ±2 dB beside the phone's 1 leave 1 + √(2² + 2²) = 3.8 dB."""
    asked = questions(PLAN, stages((0.0, after_db), half_db), [], heard(np.zeros(BARS)))
    assert [question.answer for question in asked if question.kind == "level"] == [answer]
