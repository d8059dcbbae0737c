"""What the server keeps in memory has an end: readings count wherever they are held, and once where they are shared."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest

from sonify.errors import SonifyError
from sonify.web import drafts, mending
from sonify.web.desk import Desk
from sonify.web.errors import error_facts
from sonify.web.inputs import Inputs, read_inputs
from sonify.web.results import Limit, Results

ROWS = 2000
ASKED = Desk()
CSV = "time [s],temperature [degC]\n" + "\n".join(f"{row},{15 + 5 * np.sin(row / 300):.3f}" for row in range(ROWS))


def sent(number: int) -> Inputs:
    """Readings of their own with the scene that is written for them."""
    csv = CSV.replace("15.000", f"15.{number:03d}", 1)
    made, scene = drafts.measured_scene(csv.encode(), file="readings.csv")
    return read_inputs({"scene": {"text": made.text, "file": f"{scene.name}.toml", "csv": csv}})


def test_a_table_weighs_what_its_arrays_take() -> None:
    table = drafts.table_of(CSV.encode(), file="readings.csv")
    arrays = 3 * 8 * ROWS  # rows, time and temperature: eight bytes each
    assert table.nbytes == arrays
    assert replace(table, labels=("ice",) * ROWS).nbytes > arrays + 3 * ROWS


def test_readings_count_wherever_they_are_held() -> None:
    held, given = Desk(), [sent(number) for number in range(4)]
    held.study(given[0])
    one = held.limit.bytes
    assert one > 3 * 8 * ROWS + len(CSV), "the table and the text that it was read of, beside the lesson"
    held.limit.most_bytes = 2.5 * one
    for inputs in given:
        held.study(inputs)
        assert held.limit.bytes <= held.limit.most_bytes
    assert [held.knows(inputs) for inputs in given] == [False, False, True, True]
    for kept in (held._scenes, held._drafts, held._studies):
        assert len(kept) == 2


def test_one_limit_holds_for_all_and_what_was_asked_for_least_lately_goes() -> None:
    limit = Limit(100)
    few, many = (Results[str](5, limit, weigh=lambda held: {held: len(held)}) for _ in range(2))
    few.put("a", "a" * 40)
    many.put("b", "b" * 40)
    assert few.get("a") is not None
    many.put("c", "c" * 40)
    assert (few.get("a"), many.get("b"), limit.bytes) == ("a" * 40, None, 80)
    few.put("again", "c" * 40)
    assert limit.bytes == 80, "what two results hold counts once"
    many.drop("c")
    assert limit.bytes == 80
    few.put("again", "d" * 10)
    assert limit.bytes == 50, "what is put in the place of another counts alone"
    few.put("alone", "e" * 1000)
    assert (few.get("alone"), len(few), len(many), limit.bytes) == ("e" * 1000, 1, 0, 1000)
    few.clear()
    assert limit.bytes == 0


def test_what_is_tried_takes_no_lessons_place(monkeypatch: pytest.MonkeyPatch) -> None:
    room = {"year": 5, "pupils": 28, "groups": 1, "minutes": 60, "needs": [], "cupboard": {}}
    held, inputs = Desk(), read_inputs({"scene": {"name": "two-cups"}, "class": room})
    monkeypatch.setattr(mending, "MOST_TRIED", 2)
    lost = next(plan for plan in held.study(inputs).draft.scene.parts[::-1])
    assert mending.mends(held, inputs, held.study(inputs).draft.rows.which(lost.key))
    assert [len(kept) for kept in (held._studies, held._drafts, held._classes)] == [1, 1, 1]


def test_readings_that_are_shared_count_once() -> None:
    held, inputs = Desk(), sent(0)
    held.study(inputs)
    one = held.limit.bytes
    seeds = [replace(inputs, seed=seed) for seed in range(3)]
    for each in seeds:
        held.study(each)
    assert all(map(held.knows, seeds))
    assert held.limit.bytes - one < 2 * (one - 3 * 8 * ROWS - len(CSV))


@pytest.mark.parametrize(
    ("changed", "where"),
    [
        ({"set": {"sea_temperature": "hot"}}, "conditions.sea_temperature"),
        ({"set": {"sea_temperature": "4 kg"}}, "conditions.sea_temperature"),
        ({"set": {"sea_temperature": "99 degC"}}, "conditions.sea_temperature"),
        ({"rules": {"0": {"from": ["x", "y"]}}}, "hear.0.from.0"),
        ({"rules": {"0": {"from": ["1 kg", "2 kg"]}}}, "hear.0.from"),
        ({"rules": {"0": {"to": ["600 bpm", "900 bpm"]}}}, "hear.0.to"),
        ({"rules": {"99": {"curve": "linear"}}}, "hear.99"),
        ({"drawn": {"0": {"values": "x"}}}, "drawn"),
        ({"edits": {"part.0.rests": "no"}}, "part.0.rests"),
        ({"edits": {"sound.The rain": {"name": "", "file": "a.wav"}}}, "sound.The rain"),
        ({"class": {"year": 4, "pupils": 20, "groups": 30, "minutes": 45, "cupboard": {}}}, "groups"),
        ({"class": {"year": 4, "pupils": 20, "groups": 4, "minutes": 45, "line": "mad"}}, "line"),
    ],
)
def test_what_is_wrong_on_the_page_is_told_of_its_field_and_of_no_file(changed: dict[str, object], where: str) -> None:
    with pytest.raises(SonifyError) as caught:
        ASKED.plan(read_inputs({"scene": {"name": "harbour-water-cycle"}, **changed}))
    told = error_facts(caught.value)
    assert told["where"] == where
    assert ".toml" not in told["error"] and not re.search(r"\bline \d", told["error"])
    assert told["error"][:1].isupper() or told["error"][:1] in '"0123456789'
