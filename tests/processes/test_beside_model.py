"""A class's own readings beside a model: ours, the model, one rule; and tables that no model speaks of."""

from __future__ import annotations

from collections.abc import Callable
from math import pi, sqrt
from pathlib import Path

import numpy as np
import pytest

from sonify import lesson
from sonify.errors import SonifyError, UnknownName
from sonify.inputs.experiment import read_experiment
from sonify.kinds.experiments import MODELS
from sonify.processes.beside_model import beside
from sonify.records.experiment import Experiment, Roles
from sonify.say import say

TABLES = {
    "pendulum": "Length (cm),Time of ten swings (s)\n20,9.1\n40,12.6\n60,15.7\n100,20.3\n",
    "fall": "Height (cm),Time (s)\n50,0.40\n100,0.55\n150,0.68\n200,0.81\n",
    "sound-level": "Distance (m),Loudness (dB)\n1,85\n2,79\n4,74\n8,70\n16,69\n",
    "plant-growth": "Day,Height (cm)\n1,1\n5,4\n9,11\n13,21\n17,30\n21,35\n25,37\n",
    "shadow": "Time,Shadow (cm)\n09:00,210\n10:00,165\n11:00,140\n12:00,129\n13:00,131\n14:00,148\n15:00,182\n",
}


def laid(model: str, table: str = "") -> Experiment:
    data = (table or TABLES[model]).encode()
    return beside(read_experiment(data, file="ours.csv", roles=Roles(model=model)), model)


def test_every_model_has_a_table_here() -> None:
    assert set(TABLES) == set(MODELS)


@pytest.mark.parametrize("model", MODELS)
def test_ours_stays_as_it_was_read_and_the_model_stands_beside_it(model: str) -> None:
    found, alone = laid(model), read_experiment(TABLES[model].encode(), file="ours.csv")
    assert found.groups == ("ours", "the model") and found.model == model
    ours, theirs = found.series
    np.testing.assert_array_equal(ours.values, alone.series[0].values)
    assert ours.unit == theirs.unit and np.all(np.isfinite(theirs.values))


@pytest.mark.parametrize(
    ("model", "law"),
    [
        ("pendulum", lambda cm: 10.0 * 2.0 * pi * sqrt(cm / 100.0 / 9.81)),
        ("fall", lambda cm: sqrt(2.0 * cm / 100.0 / 9.81)),
        ("sound-level", lambda m: 85.0 - 20.0 * np.log10(m)),
    ],
)
def test_the_model_is_the_law_as_finely_as_the_class_read(model: str, law: Callable[[float], float]) -> None:
    """Laws of any textbook, written here once more."""
    found = laid(model)
    fine = {"pendulum": 0.051, "fall": 0.0051, "sound-level": 0.51}[model]
    np.testing.assert_allclose(found.series[1].values, [law(float(step)) for step in found.steps], atol=fine)


@pytest.mark.parametrize(("model", "near_cm"), [("plant-growth", 1.5), ("shadow", 3.0)])
def test_a_curve_that_is_fitted_comes_near_to_what_was_read(model: str, near_cm: float) -> None:
    ours, theirs = laid(model).series
    assert float(np.max(np.abs(ours.values - theirs.values))) <= near_cm


@pytest.mark.parametrize("model", MODELS)
def test_a_table_of_another_kind_is_refused_with_what_it_needs(model: str) -> None:
    with pytest.raises(SonifyError, match=f"the model {model} beside it, the table has to hold"):
        laid(model, "Layers of paper,Clips lifted\n0,9\n1,7\n2,5\n3,2\n")


def test_an_unknown_model_is_named_with_the_known_ones() -> None:
    with pytest.raises(UnknownName, match="pendulum"):
        beside(laid("pendulum"), "pendulums")


def test_a_table_that_compares_groups_already_is_refused() -> None:
    with pytest.raises(SonifyError, match="compares groups already"):
        laid("pendulum", "Length (cm),Thread,Time (s)\n20,a,0.9\n20,b,0.9\n40,a,1.2\n40,b,1.3\n")


def test_the_scene_that_is_written_plays_both_by_one_rule_and_says_what_a_difference_may_mean(tmp_path: Path) -> None:
    file = tmp_path / "swings.csv"
    file.write_text(TABLES["pendulum"], encoding="utf-8")
    target, _, _ = lesson.measure(file, Roles(model="pendulum"))
    studied = lesson.study(target)
    assert len({(rule.low, rule.high, rule.to_low, rule.to_high) for rule in studied.scene.rules}) == 1
    assert [rule.quantity for rule in studied.scene.rules] == [
        "time of ten swings: ours",
        "time of ten swings: the model",
    ]
    assert {part.name for part in studied.score.group_parts} >= {"Ours", "The model"}
    assert any("time ten swings and divide" in say(each) for each in lesson.process_of(studied.scene).honesty)
