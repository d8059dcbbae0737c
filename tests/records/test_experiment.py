"""What an experiment must hold to be one."""

from __future__ import annotations

from typing import Any

import numpy as np
import pytest

from sonify.errors import UnknownName
from sonify.records.experiment import Experiment, Series
from sonify.records.table import Column, Table, Writing


def series(group: str = "", values: tuple[float, ...] = (1.0, 2.0), tries: int = 1) -> Series:
    read = np.array(values)
    counts = np.full(read.size, tries)
    return Series(quantity="height", group=group, unit="cm", values=read, least=read, most=read, tries=counts)


def experiment(**changed: Any) -> Experiment:
    column = Column(name="height", unit="cm", values=np.array([1.0, 2.0]))
    writing = Writing(encoding="UTF-8", separator="commas", decimal="point")
    table = Table(file="cress.csv", columns=(column,), rows=np.array([2, 3]), writing=writing)
    given: dict[str, Any] = {
        "shape": "number",
        "changed": "water",
        "changed_unit": "ml",
        "steps": np.array([10.0, 20.0]),
        "labels": ("10", "20"),
        "series": (series("sill"), series("fridge")),
        "groups": ("sill", "fridge"),
        "table": table,
    }
    return Experiment(**{**given, **changed})


def test_a_series_is_named_for_its_quantity_and_its_group() -> None:
    assert (series("sill").name, series().name) == ("height: sill", "height")


def test_the_series_of_a_quantity_are_found_by_its_name() -> None:
    found = experiment()
    assert [each.group for each in found.of("height")] == ["sill", "fridge"]
    assert (found.quantities, found.timed, found.repeated) == (("height",), False, False)
    assert experiment(series=(series(tries=3),)).repeated
    with pytest.raises(UnknownName, match='did you mean "height"'):
        found.of("heigth")


@pytest.mark.parametrize(
    "wrong",
    [
        {"shape": "circle"},
        {"steps": np.array([20.0, 10.0])},
        {"labels": ("10",)},
        {"series": ()},
        {"series": (series(values=(1.0, 2.0, 3.0)),)},
    ],
)
def test_what_does_not_fit_together_is_no_experiment(wrong: dict[str, Any]) -> None:
    with pytest.raises(ValueError, match="an experiment|of an experiment"):
        experiment(**wrong)
