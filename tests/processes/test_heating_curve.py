"""Ice to steam: level stretches that are level, energy that adds up, and losses that can win."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from sonify.errors import BadCondition
from sonify.processes import conditions_si, find
from sonify.processes.heating_curve_model import BOILS_K, MELTS_K
from sonify.records.timeline import Timeline
from sonify.say import say
from sonify.science.heating import (
    BOILING_J_PER_KG,
    ICE_J_PER_KG_K,
    MELTING_J_PER_KG,
    STEAM_J_PER_KG_K,
    WATER_J_PER_KG_K,
)
from tests.processes.stories import left_out
from tests.processes.test_registry import condition

SPEC = find("heating-curve")
STAGES = ["ice", "melting", "water", "boiling", "steam"]
DEFAULTS = {one.name: one.default for one in SPEC.conditions}
BARE = {**DEFAULTS, "loss": 0.0, "vessel": 0.0}


def seconds(timeline: Timeline) -> dict[str, float]:
    return {stage.name: stage.end_s - stage.start_s for stage in timeline.stages}


def inside(timeline: Timeline, name: str, stage: str) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    span = next(s for s in timeline.stages if s.name == stage)
    return timeline.quantity(name).values[(timeline.time_s > span.start_s) & (timeline.time_s <= span.end_s)]


def test_the_whole_curve_comes_in_order() -> None:
    timeline = SPEC.run(DEFAULTS)
    assert [stage.name for stage in timeline.stages] == STAGES
    assert timeline.missing == ()
    assert [event.name for event in timeline.events] == ["first melting", "ice gone", "boiling begins", "heater off"]


def test_the_temperature_stands_still_on_both_plateaux_and_rises_elsewhere() -> None:
    timeline = SPEC.run(DEFAULTS)
    np.testing.assert_array_equal(inside(timeline, "temperature", "melting"), MELTS_K)
    np.testing.assert_array_equal(inside(timeline, "temperature", "boiling"), BOILS_K)
    for stage in ("ice", "water", "steam"):
        assert np.all(np.diff(inside(timeline, "temperature", stage)) > 0.0)
    assert np.all(np.diff(inside(timeline, "share melted", "melting")) > 0.0)
    assert inside(timeline, "share melted", "melting")[-1] == pytest.approx(1.0, rel=1e-12)


def test_boiling_takes_six_and_three_quarter_times_as_long_as_melting() -> None:
    # reference: 2256 / 334
    took = seconds(SPEC.run(BARE))
    assert took["boiling"] / took["melting"] == pytest.approx(6.75, abs=0.005)


@pytest.mark.parametrize(("power", "to_boil", "to_dry"), [(2200.0, "152.2", "1025"), (3000.0, "111.6", "752")])
def test_a_kilogram_takes_the_reckoned_seconds(power: float, to_boil: str, to_dry: str) -> None:
    # Q = m c dT and m L, reckoned by hand in the house's table of check values; no vessel, no losses
    took = seconds(SPEC.run({**BARE, "mass": 1.0, "start_temperature": 293.15, "power": power}))
    assert took["water"] == pytest.approx(float(to_boil), abs=0.05)
    assert took["boiling"] == pytest.approx(float(to_dry), abs=0.5)


def test_a_stepped_enthalpy_gives_the_same_curve() -> None:
    # Another method: the heat held is stepped through time, and the temperature read from it.
    from scipy.integrate import solve_ivp

    timeline = SPEC.run(DEFAULTS)
    m, vessel = DEFAULTS["mass"], DEFAULTS["vessel"]
    legs = ((ICE_J_PER_KG_K, MELTING_J_PER_KG, 18.0), (WATER_J_PER_KG_K, BOILING_J_PER_KG, 100.0))

    def temperature(held: float) -> float:
        t = DEFAULTS["start_temperature"]
        for specific, latent, span in legs:
            each = m * specific + vessel
            if held < each * span:
                return t + held / each
            t, held = t + span, held - each * span
            if held < m * latent:
                return t
            held -= m * latent
        return t + held / (m * STEAM_J_PER_KG_K + vessel)

    def gain(_: float, held: np.ndarray) -> list[float]:
        return [DEFAULTS["power"] - DEFAULTS["loss"] * (temperature(float(held[0])) - DEFAULTS["room_temperature"])]

    found = solve_ivp(gain, (0.0, timeline.time_s[-1]), [0.0], t_eval=timeline.time_s, rtol=1e-8, max_step=5.0)
    stepped = np.array([temperature(held) for held in found.y[0]])
    # at a corner a hair's breadth of heat decides between plateau and rise
    assert np.abs(stepped - timeline.quantity("temperature").values).max() < 0.02


def test_what_is_lost_is_the_loss_added_up() -> None:
    timeline = SPEC.run(DEFAULTS)
    lost = timeline.quantity("heat lost").values
    added = np.concatenate(
        [
            [0.0],
            np.cumsum(
                np.diff(timeline.time_s)
                * 0.5
                * (timeline.quantity("power lost").values[1:] + timeline.quantity("power lost").values[:-1])
            ),
        ]
    )
    np.testing.assert_allclose(lost, added, rtol=1e-3, atol=2.0)


def test_losses_lengthen_every_stage_that_is_hotter_than_the_room() -> None:
    kept, leaky = seconds(SPEC.run({**DEFAULTS, "loss": 0.0})), seconds(SPEC.run({**DEFAULTS, "loss": 3.0}))
    assert leaky["boiling"] > 1.5 * kept["boiling"]
    assert leaky["ice"] < kept["ice"], "below the room's temperature the room helps"


def test_too_weak_a_heater_never_boils_and_ends_where_gain_and_loss_are_even() -> None:
    timeline = SPEC.run({**DEFAULTS, "power": 60.0})
    assert [stage.name for stage in timeline.stages] == ["ice", "melting", "water"]
    assert timeline.quantity("temperature").values[-1] == pytest.approx(293.15 + 60.0 / 1.2, abs=0.1)
    assert [m.stage for m in timeline.missing] == ["boiling", "steam"]


@pytest.mark.parametrize(
    ("changed", "stage"),
    [
        ({"power": 60.0}, "boiling"),
        ({"power": 5.0, "loss": 20.0}, "boiling"),
        ({"start_temperature": 290.0}, "melting"),
        ({"start_temperature": 273.15}, "ice"),
        ({"power": 5.0, "loss": 0.0, "mass": 5.0}, "water"),
    ],
)
def test_the_advice_on_a_missing_stage_brings_it(changed: dict[str, float], stage: str) -> None:
    values = {**DEFAULTS, **changed}
    lacking = next(m for m in SPEC.run(values).missing if m.stage == stage)
    written = re.fullmatch(r'Set (\w+) = "?([^"]+?)"?\.', say(lacking.fix))
    assert written and written[1] == lacking.condition
    better = conditions_si(SPEC, (condition(written[1], written[2]),))[written[1]]
    assert stage in [s.name for s in SPEC.run({**values, written[1]: better}).stages]


def test_a_heater_that_is_switched_off_early_is_not_asked_for_steam() -> None:
    timeline = SPEC.run({**DEFAULTS, "boil_away": 0.25})
    assert timeline.missing == () and [s.name for s in timeline.stages] == STAGES[:-1]
    assert timeline.quantity("share boiled").values[-1] == pytest.approx(0.25, rel=1e-12)


@pytest.mark.parametrize(
    ("name", "text", "said"),
    [
        ("power", "0 W", "allowed: 5 W to 25000 W"),
        ("mass", "-1 g", "allowed: 10 g to 5000 g"),
        ("start_temperature", "110 degC", "allowed: -40 °C to 95 °C"),
    ],
)
def test_impossible_conditions_are_named(name: str, text: str, said: str) -> None:
    with pytest.raises(BadCondition, match=said) as caught:
        conditions_si(SPEC, (condition(name, text),))
    assert caught.value.key == name


@st.composite
def conditions(draw: st.DrawFn) -> dict[str, float]:
    return {one.name: draw(st.floats(one.low, one.high)) for one in SPEC.conditions}


@given(conditions())
@example({one.name: one.low for one in SPEC.conditions})
@example({one.name: one.high for one in SPEC.conditions})
@example({**DEFAULTS, "loss": 1e-300})
@example({**DEFAULTS, "loss": 20.0, "vessel": 0.0, "power": 1600.0})
def test_any_heating(values: dict[str, float]) -> None:
    if values["power"] <= values["loss"] * (values["start_temperature"] - values["room_temperature"]):
        with pytest.raises(BadCondition, match="power: .* warms nothing here"):
            SPEC.run(values)
        return
    timeline = SPEC.run(values)  # the record itself refuses what is not finite, and stages that overlap
    names = [stage.name for stage in timeline.stages]
    assert names == [name for name in STAGES if name in names] and names
    asked = STAGES if values["boil_away"] == 1.0 and values["steam_temperature"] > BOILS_K else STAGES[:-1]
    assert sorted(names + [m.stage for m in timeline.missing]) == sorted(asked)
    assert timeline.stages[0].start_s == 0.0 and timeline.stages[-1].end_s == timeline.time_s[-1]
    for before, after in zip(timeline.stages, timeline.stages[1:], strict=False):
        assert before.end_s == after.start_s
    (energy,) = timeline.conserved
    assert energy.relative_drift < 1e-9
    t = timeline.quantity("temperature").values
    assert t.min() >= values["start_temperature"] - 1e-9 and t.max() <= values["steam_temperature"] + 1e-6
    for name in ("share melted", "share boiled"):
        share = timeline.quantity(name).values
        assert np.all(np.diff(share) >= 0.0) and share.min() >= 0.0 and share.max() <= 1.0 + 1e-12
    left_out(replace(timeline, conditions=tuple(values.items())))
    assert all("nan" not in say(stage.science) and "inf" not in say(stage.science) for stage in timeline.stages)
