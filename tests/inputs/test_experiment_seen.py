"""A table as it stands in its file, and one column said to be something else: what a page shows and changes."""

from __future__ import annotations

from pathlib import Path

import pytest

from sonify.inputs.experiment import read_experiment
from sonify.inputs.experiment_seen import seen_table, with_role
from sonify.records.experiment import Experiment, Roles

TABLES = Path(__file__).parent / "tables"


def read(name: str, roles: Roles | None = None) -> tuple[bytes, Experiment]:
    data = (TABLES / name).read_bytes()
    return data, read_experiment(data, file=name, roles=roles)


def roles_seen(name: str, roles: Roles | None = None) -> dict[str, str]:
    data, experiment = read(name, roles)
    assert experiment.roles is not None
    seen = seen_table(data, file=name, roles=experiment.roles)
    assert seen is not None
    return {column.label: column.role for column in seen.columns}


def corrected(name: str, label: str, role: str) -> Experiment:
    data, experiment = read(name)
    assert experiment.roles is not None
    seen = seen_table(data, file=name, roles=experiment.roles)
    assert seen is not None
    return read(name, with_role(seen, experiment.roles, label, role))[1]


def test_every_column_of_the_file_is_seen_with_what_it_was_taken_for() -> None:
    assert roles_seen("magnet-and-paper.csv") == {
        "Layers of paper": "changed",
        "Test 1": "repeats",
        "Test 2": "repeats",
        "Test 3": "repeats",
        "Mean": "unused",
    }
    assert roles_seen("plants-long.csv") == {"Date": "changed", "Plant": "groups", "Height (cm)": "measured"}


def test_a_try_that_is_left_out_no_longer_counts() -> None:
    # 0 layers: 12, 11 and 13 in the file; without the third try the mean is 11.5.
    found = corrected("magnet-and-paper.csv", "Test 3", "unused")
    assert found.series[0].values[0] == 11.5 and found.series[0].tries[0] == 2


def test_what_was_changed_and_what_was_measured_change_places() -> None:
    found = corrected("surfaces-long.csv", "Distance (cm)", "changed")
    assert found.changed == "distance"
    assert found.quantities == ("height of ramp",)


def test_groups_that_are_left_out_become_repeats() -> None:
    found = corrected("plants-long.csv", "Plant", "unused")
    assert found.groups == () and found.repeated


def test_a_column_of_words_becomes_the_groups_again() -> None:
    data, experiment = read("plants-long.csv")
    assert experiment.roles is not None
    without = corrected("plants-long.csv", "Plant", "unused")
    assert without.roles is not None
    seen = seen_table(data, file="plants-long.csv", roles=without.roles)
    assert seen is not None
    again = read("plants-long.csv", with_role(seen, without.roles, "Plant", "groups"))[1]
    assert again.groups == experiment.groups == ("sill", "cupboard", "fridge")


@pytest.mark.parametrize("name", ["several-sheets.xlsx", "two-tables.csv"])
def test_other_tables_of_a_file_are_named(name: str) -> None:
    data, experiment = read(name)
    assert experiment.roles is not None
    seen = seen_table(data, file=name, roles=experiment.roles)
    assert seen is not None and len(seen.tables) > 1 and seen.chosen in seen.tables
    other = next(each for each in seen.tables if each != seen.chosen)
    assert read(name, Roles(sheet=other))[1].quantities
