"""Two runs side by side, worked out by hand."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from sonify.facts.comparison import Figure, amount_unit, figures, stage_shifts
from sonify.records.timeline import Quantity, Stage, Timeline


def quantity(name: str, unit: str, si_unit: str, values: list[float]) -> Quantity:
    return Quantity(name=name, symbol="x", unit=unit, si_unit=si_unit, values=np.array(values))


def run(rain_mm_h: float, sea_c: float, stages: tuple[str, ...]) -> Timeline:
    """Two hours: rain at one rate, a sea that warms by 2 °C."""
    rain_m_s = rain_mm_h * 1e-3 / 3600.0
    return Timeline(
        process="made up",
        time_s=np.array([0.0, 3600.0, 7200.0]),
        quantities=(
            quantity("rain rate", "mm/h", "m/s", [rain_m_s] * 3),
            quantity("sea temperature", "degC", "K", [273.15 + sea_c + step for step in (0.0, 1.0, 2.0)]),
            quantity("wind", "m/s", "m/s", [4.0, 4.0, 4.0]),
        ),
        stages=tuple(
            Stage(name=name, title=name.title(), start_s=3600.0 * i, end_s=3600.0 * (i + 1))
            for i, name in enumerate(stages)
        ),
    )


def rows() -> dict[tuple[str, str], Figure]:
    found = figures(run(3.0, 10.0, ("dry", "wet")), run(4.5, 12.0, ("dry", "flood")))
    return {(figure.quantity, figure.what): figure for figure in found}


def test_what_flows_adds_up_and_what_stands_has_a_mean() -> None:
    assert list(rows()) == [
        ("rain rate", "total"),
        ("rain rate", "most"),
        ("sea temperature", "mean"),
        ("sea temperature", "most"),
        ("wind", "mean"),
        ("wind", "most"),
    ]


def test_the_figures_are_those_worked_out_by_hand() -> None:
    rain, sea = rows()["rain rate", "total"], rows()["sea temperature", "mean"]
    assert (rain.unit, rain.before, rain.after) == ("mm", pytest.approx(6.0), pytest.approx(9.0))
    assert rain.percent == pytest.approx(50.0)
    assert (sea.unit, sea.before, sea.after) == ("degC", pytest.approx(11.0), pytest.approx(13.0))
    assert sea.percent is None and not sea.same  # 0 °C is no nothing
    assert rows()["wind", "mean"].same


def test_a_speed_adds_up_to_no_amount() -> None:
    units = {"mm/h": "m/s", "m/s": "m/s", "ml/min": "m**3/s", "W/m**2": "W/m**2", "degC": "K", "1/min": "1/s"}
    found = {unit: amount_unit(quantity("x", unit, si, [0.0])) for unit, si in units.items()}
    assert found == {"mm/h": "mm", "m/s": "", "ml/min": "ml", "W/m**2": "", "degC": "", "1/min": "1"}


def test_stages_that_come_and_go_are_told() -> None:
    shifts = {shift.name: shift for shift in stage_shifts(run(3, 10, ("dry", "wet")), run(4, 12, ("dry", "flood")))}
    assert list(shifts) == ["dry", "wet", "flood"]
    assert shifts["dry"].before == shifts["dry"].after == (0.0, 3600.0)
    assert (shifts["wet"].before, shifts["wet"].after) == ((3600.0, 7200.0), None)
    assert (shifts["flood"].before, shifts["flood"].after) == (None, (3600.0, 7200.0))


def test_the_most_is_the_greatest_wherever_it_comes() -> None:
    gust = run(3.0, 10.0, ("dry", "wet"))
    gust = replace(gust, quantities=(quantity("wind", "m/s", "m/s", [4.0, 9.0, 2.0]),))
    (_, most) = figures(gust, gust)
    assert (most.what, most.before, most.after) == ("most", 9.0, 9.0)
