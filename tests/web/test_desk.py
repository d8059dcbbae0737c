"""What the server keeps in memory has an end: readings count wherever they are held, and once where they are shared."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest

from sonify.errors import SonifyError
from sonify.web import desk, drafts, mending
from sonify.web.desk import Desk
from sonify.web.errors import error_facts
from sonify.web.inputs import Inputs, read_inputs

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


def test_readings_count_wherever_they_are_held(monkeypatch: pytest.MonkeyPatch) -> None:
    held, given = Desk(), [sent(number) for number in range(4)]
    monkeypatch.setattr(desk, "MOST_BYTES", 2 * 3 * 8 * ROWS)
    for inputs in given:
        held.study(inputs)
    assert [held.knows(inputs) for inputs in given] == [False, False, True, True]
    for kept in (held._scenes, held._drafts, held._studies):
        assert len(kept) == 2


def test_what_is_tried_takes_no_lessons_place(monkeypatch: pytest.MonkeyPatch) -> None:
    room = {"year": 5, "pupils": 28, "groups": 1, "minutes": 60, "needs": [], "cupboard": {}}
    held, inputs = Desk(), read_inputs({"scene": {"name": "two-cups"}, "class": room})
    monkeypatch.setattr(mending, "MOST_TRIED", 2)
    lost = next(plan for plan in held.study(inputs).draft.scene.parts[::-1])
    assert mending.mends(held, inputs, held.study(inputs).draft.rows.which(lost.key))
    assert [len(kept) for kept in (held._studies, held._drafts, held._classes)] == [1, 1, 1]


def test_readings_that_are_shared_count_once(monkeypatch: pytest.MonkeyPatch) -> None:
    held, inputs = Desk(), sent(0)
    monkeypatch.setattr(desk, "MOST_BYTES", 1.5 * 3 * 8 * ROWS + 2 * len(CSV))
    seeds = [replace(inputs, seed=seed) for seed in range(3)]
    for each in seeds:
        held.study(each)
    assert all(map(held.knows, seeds))


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
