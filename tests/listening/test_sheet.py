"""The sheet of the class's own recording, and what the key makes of a beat."""

from __future__ import annotations

import io
from dataclasses import replace
from typing import Any

import numpy as np
import pypdf
import pytest

from sonify import lesson
from sonify.data.listened import listened_csv, listened_facts
from sonify.listening import read_back
from sonify.paper import Printing, performed_pdf
from sonify.paper.performed import sheet
from sonify.records.listened import CANNOT_TELL, YES, BarHeard, Listened, Question, Span, StageHeard

#: 10 °C is 60 beats a minute and 30 °C is 120: three beats a minute a degree, by hand. Zero Celsius is 273.15 K (SI).
RULE = {
    "quantity": "sea temperature",
    "unit": "K",
    "shown_unit": "degC",
    "as": "tempo",
    "part": "",
    "curve": "linear",
    "from": [{"si": 283.15}, {"si": 303.15}],
    "to": [{"value": 60.0}, {"value": 120.0}],
}


def stage(letter: str, bar: int, bpm: float | None, planned: float) -> StageHeard:
    span = None if bpm is None else Span(value=bpm, low=bpm - 3.0, high=bpm + 3.0)
    why = "" if span else "the other sounds are too loud"
    return StageHeard(
        name=letter, title=f"Stage {letter}", letter=letter, bar=bar, bars=4, planned_bpm=planned, bpm=span, why=why
    )


def found() -> Listened:
    return Listened(
        recognised=True,
        seconds=60.0,
        start_s=5.0,
        end_s=50.0,
        takes=1,
        stages=(stage("A", 1, 87.0, 93.0), stage("B", 5, None, 60.0)),
        questions=(
            Question(kind="tempo", stage="B", part="", asked="Was B slower?", answer=CANNOT_TELL, why="it was covered"),
            Question(kind="level", stage="B", part="", asked="Was B louder?", answer=YES, why="6 dB louder"),
        ),
        bars=tuple(BarHeard(bar=n, start_s=5.0 * n, bpm=87.0, level_db=0.0) for n in range(1, 9)),
    )


def back() -> Any:
    time_s = np.array([0.0, 400.0, 800.0])
    return read_back(
        found(), [RULE], [(100.0 * n, 100.0 * n + 100.0) for n in range(8)], (time_s, np.array([21.0, 21.0, 11.0]))
    )


def test_a_beat_is_read_back_through_the_key_in_the_units_of_the_table() -> None:
    told = back()
    first, second = told.stages
    assert first.ours is not None and second.ours is None
    assert (first.ours.value, first.ours.low, first.ours.high) == pytest.approx((19.0, 18.0, 20.0))
    assert (first.science, second.science) == pytest.approx((21.0, 16.0))
    assert told.unit == "degC" and len(told.science) == 8


def beyond(*bpm: float, rule: Any = RULE, half: float = 3.0) -> Any:
    """What is read back of stages at these tempi, each known to `half` beats a minute either way."""
    rows = tuple(
        replace(stage(letter, 4 * n + 1, value, 90.0), bpm=Span(value=value, low=value - half, high=value + half))
        for n, (letter, value) in enumerate(zip("AB", bpm, strict=False))
    )
    heard = replace(found(), stages=rows)
    bars_s = [(100.0 * n, 100.0 * n + 100.0) for n in range(8)]
    science = (np.array([0.0, 400.0, 800.0]), np.array([21.0, 21.0, 11.0]))
    return heard, read_back(heard, [rule], bars_s, science)


def test_a_beat_beyond_the_key_is_told_in_words_with_no_value() -> None:
    """The key ends at 60 and 120 beats a minute, 10 °C and 30 °C."""
    heard, told = beyond(130.0, 50.0)
    placed = sheet("The sea", heard, told)
    assert [row["told"] for row in placed["rows"]] == [
        "Your beat is quicker than the key goes: its quickest is 30 °C. The science says 21 °C.",
        "Your beat is slower than the key goes: its slowest is 10 °C. The science says 16 °C.",
    ]
    assert [row["above"] for row in placed["plot"]["stages"]] == [True, False]
    facts = listened_facts(heard, told)["science"]["stages"]
    assert [(row["ours"], row["low"], row["high"], row["beyond"]) for row in facts] == [
        (None, 30.0, None, "quicker"),
        (None, None, 10.0, "slower"),
    ]


def test_where_a_quicker_beat_is_less_quicker_than_the_key_is_below_it() -> None:
    turned = {**RULE, "to": [{"value": 120.0}, {"value": 60.0}]}
    heard, told = beyond(130.0, 50.0, rule=turned)
    assert "its quickest is 10 °C" in sheet("The sea", heard, told)["rows"][0]["told"]
    assert [told.above(row) for row in told.stages] == [False, True]


def test_a_quantity_that_cannot_be_less_than_none_is_never_told_as_less() -> None:
    """Growth of 0 to 12 cm a day from 60 to 120 beats a minute: at 59 ± 3 the key's end is as likely as not."""
    growth = {**RULE, "unit": "m/s", "shown_unit": "cm/day", "from": [{"si": 0.0}, {"si": 0.12 / 86400.0}]}
    heard, told = beyond(59.0, 40.0, rule=growth)
    first, second = told.stages
    assert (first.ours.low, first.ours.value, first.ours.high) == pytest.approx((0.0, 0.0, 0.4)) and not first.beyond
    assert second.beyond == "slower" and second.ours.low == second.ours.value == 0.0
    words = " ".join(row["told"] for row in sheet("A stalk", heard, told)["rows"])
    assert "Your beat says 0 cm/day" in words and "its slowest is 0 cm/day" in words and "−" not in words


def test_a_beat_beyond_the_key_did_not_keep_near() -> None:
    heard, told = beyond(130.0, 78.0)
    near = replace(
        told, science=(30.0,) * 4 + (16.0,) * 4, stages=(replace(told.stages[0], science=30.0), told.stages[1])
    )
    assert "In stage A" in sheet("The sea", heard, near)["reflect"][0]
    alone = replace(near, stages=(near.stages[0], replace(near.stages[1], ours=None)))
    assert "could you hear best" in sheet("The sea", heard, alone)["reflect"][0]


def test_a_scene_whose_tempo_stands_for_nothing_is_not_read_back() -> None:
    assert read_back(found(), [{**RULE, "as": "pitch"}], [(0.0, 1.0)] * 8, (np.arange(2.0), np.zeros(2))) is None


def test_the_sheet_says_what_beat_and_science_say_and_owns_up_to_the_rest() -> None:
    told = sheet("The sea", found(), back())
    assert told["rows"][0]["told"] == "Your beat says 19 °C, the science says 21 °C."
    assert "cannot be told" in told["rows"][1]["told"] and told["rows"][1]["ours"] == "-"
    assert len(told["reflect"]) == 2 and all(question.endswith("?") for question in told["reflect"])
    assert "Of 2 things" in told["assessment"] and "1 could be told" in told["assessment"]
    assert [row["asked"] for row in told["answers"]] == ["Was B louder?"]


def test_a_table_has_a_row_a_bar_and_no_figure_for_a_stage_that_is_not_told() -> None:
    rows = [line.split(",") for line in listened_csv(found()).splitlines()]
    assert len(rows) == 9 and rows[1][:4] == ["1", "A", "5.00", "87.0"]
    assert rows[5] == ["5", "B", "", "", "60.0", ""]
    assert listened_facts(found(), back())["science"]["stages"][1]["ours"] is None


def printed(heard: Listened, read: Any) -> list[str]:
    made = performed_pdf("The sea", heard, read, lesson.sheet_settings(Printing()))
    return [page.extract_text() for page in pypdf.PdfReader(io.BytesIO(made)).pages]


@pytest.mark.long
def test_every_answer_stands_on_the_sheet_that_has_room_for_it() -> None:
    """Two stages leave room for ten answers of a line each; of eighty the rest are counted."""
    one = found().questions[1]
    for answers in (10, 80):
        asked = tuple(replace(one, asked=f"Was number {n} louder?") for n in range(1, answers + 1))
        (page,) = printed(replace(found(), questions=asked), back())
        shown = page.count("louder?")
        assert shown == answers or (answers == 80 and shown > 10 and f"{80 - shown} more answers are in" in page)
        assert ("more answer" in page) == (shown < answers)


@pytest.mark.long
@pytest.mark.parametrize("read", [True, False])
def test_the_sheet_is_one_page(read: bool) -> None:
    """Seven stages with long titles, every question answered and three wishes are the most that scenes have."""
    title = "The river brings the water back to the harbour"
    stages = tuple(replace(stage(letter, 1, 87.0, 93.0), title=title) for letter in "ABCDEFG")
    asked = tuple(replace(found().questions[1], asked=f"Was {title} ({n}) louder than {title}?") for n in range(9))
    wishes = (f"Stage A, {title}, was meant to be slower than B. Yours was 4 % quicker: watch the conductor.",) * 3
    full = replace(found(), stages=stages, questions=asked, feedback=wishes)
    settings = lesson.sheet_settings(Printing())
    made = performed_pdf("The sea", full, back() if read else None, settings)
    pages = pypdf.PdfReader(io.BytesIO(made)).pages
    assert len(pages) == 1 and "Did we play the science?" in pages[0].extract_text()


def test_figures_have_a_true_minus_and_none_before_nothing_and_the_axis_round_numbers() -> None:
    """A growth of 2.5 cm a day at most, by hand: steps of 1 lie between the least and the most."""
    plain, first = back(), back().stages[0]
    rows = tuple(
        replace(first, letter=letter, ours=Span(value=value, low=value, high=value), science=0.6)
        for letter, value in (("A", -0.04), ("B", -0.42))
    )
    near = replace(plain, science=(0.6, 2.5, 0.2, 0.2), unit="cm/day", stages=rows)
    heard = replace(found(), stages=(stage("A", 1, 87.0, 93.0), stage("B", 5, 80.0, 60.0)))
    placed = sheet("A stalk", heard, near)
    told = " ".join(row["told"] for row in placed["rows"])
    assert "says 0.0 cm/day" in told and "says −0.4 cm/day" in told and "-" not in told
    assert [tick["text"] for tick in placed["plot"]["ticks"]] == ["0", "1", "2"]
