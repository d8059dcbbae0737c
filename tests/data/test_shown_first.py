"""Which curve the page shows where nobody has chosen, and what a condition is called there."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from sonify.data.changed import condition_words
from sonify.data.plan import condition_rows, curve_rows, shown_first
from sonify.records.timeline import Timeline
from tests.studies import studied


def with_values(timeline: Timeline, name: str, shares: np.ndarray) -> Timeline:
    """The same run with one quantity drawn otherwise: by hand, over the shares of its time."""
    rows = tuple(
        replace(each, values=each.values.min() + shares) if each.name == name else each for each in timeline.quantities
    )
    return replace(timeline, quantities=rows)


def test_the_two_cups_are_shown_by_a_cup_and_not_by_a_spike() -> None:
    found = {row["quantity"]: row for row in curve_rows(studied("two-cups"))}
    assert [name for name, row in found.items() if row["first"]] == ["temperature of cup A"]
    assert [name for name, row in found.items() if row["lead"]] == ["pace of the race"]
    heights = np.array([y for _, y in found["temperature of cup A"]["points"]])
    assert np.quantile(heights, 0.5) > heights.min() + 0.1 * np.ptp(heights)


@pytest.mark.parametrize(("shape", "spike"), [("falls", False), ("spike", True), ("level", False)])
def test_what_sets_the_tempo_is_shown_unless_it_is_a_spike(shape: str, spike: bool) -> None:
    made = studied("harbour-water-cycle")
    lead = next(row["quantity"] for row in curve_rows(made) if row["lead"])
    across = made.timeline.time_s / made.timeline.time_s[-1]
    shares = {"falls": 1.0 - across, "spike": np.exp(-across / 0.002), "level": np.ones(across.size)}[shape]
    assert (shown_first(with_values(made.timeline, lead, shares), made.controls) != lead) is spike


def test_what_tells_two_of_a_kind_apart_is_a_capital() -> None:
    labels = [row["label"] for row in condition_rows(studied("two-cups"), studied("two-cups").scene)]
    assert {"Wrap A", "Wrap B conductivity"} <= set(labels) and condition_words("hill_height") == "hill height"
