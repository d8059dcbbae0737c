"""A puddle: water and heat kept, the hollow's geometry, a shaded puddle at the wet bulb, Dalton's law, the end."""

from __future__ import annotations

import re

import numpy as np
import psychrolib
import pytest
from hypothesis import example, given
from hypothesis import strategies as st
from scipy.integrate import solve_ivp

from sonify.errors import BadCondition
from sonify.processes import conditions_si, find
from sonify.processes.drying_model import STEP_S, Weather, simulate
from sonify.records.timeline import Timeline
from sonify.say import say
from sonify.science.drying import heat_along, hollow_area, hollow_depth, hollow_volume
from sonify.science.evaporation import mass_transfer_evaporation
from sonify.science.radiation import net_thermal_radiation, sky_emissivity
from sonify.science.saturation import latent_heat_of_vaporisation, saturation_vapour_pressure
from tests.processes.stories import check_story
from tests.processes.test_registry import condition

SPEC = find("drying")
STAGES = ["warming", "drying", "patches", "dry"]
DEFAULTS = {one.name: one.default for one in SPEC.conditions}


def values(timeline: Timeline, name: str) -> np.ndarray[tuple[int], np.dtype[np.float64]]:
    return timeline.quantity(name).values


def dry_after_s(**changed: float) -> float:
    timeline = SPEC.run({**DEFAULTS, **changed})
    return next(stage.start_s for stage in timeline.stages if stage.name == "dry")


def test_the_puddle_has_its_four_stages_in_order() -> None:
    timeline = SPEC.run(DEFAULTS)
    assert [stage.name for stage in timeline.stages] == STAGES
    assert timeline.missing == ()
    assert [event.name for event in timeline.events] == ["half the water", "half the area", "dry"]
    assert values(timeline, "water left")[-1] == 0.0


def test_water_leaves_ever_thinner_to_nothing() -> None:
    timeline = SPEC.run(DEFAULTS)
    leaving = values(timeline, "water leaving")
    after = leaving[int(np.argmax(leaving)) :]
    assert np.all(np.diff(after) <= 1e-12) and after[-1] == 0.0
    # what is heard is what is lost: the leaving water adds up to all of it
    assert leaving.sum() * STEP_S == pytest.approx(values(timeline, "water left")[0], rel=1e-9)


def test_the_hollow_is_a_bowl() -> None:
    # another way to its volume: rings under the surface of a paraboloid, added up
    radius, depth = 0.75, 0.006
    area = np.pi * radius**2
    r = np.linspace(0.0, radius, 20_001)
    rings = np.trapezoid(depth * (1.0 - (r / radius) ** 2) * 2.0 * np.pi * r, r)
    assert float(hollow_volume(depth, depth, area)) == pytest.approx(float(rings), rel=1e-6)
    for level in (0.001, 0.004):
        edge = radius * np.sqrt(level / depth)
        assert float(hollow_area(level, depth, area)) == pytest.approx(np.pi * edge**2, rel=1e-12)
        back = hollow_depth(hollow_volume(level, depth, area), depth, area)
        assert float(back) == pytest.approx(level, rel=1e-12)


def test_a_shaded_puddle_settles_at_the_wet_bulb() -> None:
    # Without sun, and under a sky as warm as a black body of the air's temperature, only vapour and heat pass. The
    # psychrometrics library's own method, ASHRAE's, at 20 °C and 50 %; the radiation left is small in a strong wind.
    psychrolib.SetUnitSystem(psychrolib.SI)
    wet_bulb_c = psychrolib.GetTWetBulbFromRelHum(20.0, 0.5, 101_325.0)
    timeline = SPEC.run({**DEFAULTS, "sunlight": 0.0, "wind": 15.0, "depth": 0.01, "humidity": 0.5})
    settled_c = values(timeline, "puddle temperature")[-300] - 273.15
    assert settled_c == pytest.approx(wet_bulb_c, abs=0.7)
    assert settled_c < wet_bulb_c, "half of the sky is clear and colder than the air"


def test_evaporation_goes_with_the_pull_of_the_air() -> None:
    # Dalton: the rate of each wet spot over the difference of vapour pressures is the wind's alone
    timeline = SPEC.run(DEFAULTS)
    wet = values(timeline, "water left") > 0.01
    share = 1000.0 * values(timeline, "evaporation rate")[wet] / values(timeline, "pull of the air")[wet]
    np.testing.assert_allclose(share, float(mass_transfer_evaporation(4.0, 1.0)), rtol=1e-9)


def test_nothing_dries_into_full_air_of_its_own_warmth() -> None:
    weather = Weather.of(
        {**DEFAULTS, "humidity": 1.0, "sunlight": 0.0, "water_temperature": DEFAULTS["air_temperature"]}
    )
    first_minute = simulate(weather)["rate_kg_m2_s"][0]
    assert first_minute == pytest.approx(0.0, abs=1e-15)


@pytest.mark.parametrize(
    "worse", [{"sunlight": 200.0}, {"wind": 1.0}, {"humidity": 0.8}, {"air_temperature": 283.15}, {"depth": 6.0e-3}]
)
def test_less_sun_wind_and_dryness_or_more_water_take_longer(worse: dict[str, float]) -> None:
    assert dry_after_s(**worse) > 1.1 * dry_after_s()


def test_width_alone_makes_no_difference() -> None:
    # twice as wide has four times the water and four times the surface
    assert dry_after_s(width=3.0) == pytest.approx(dry_after_s(width=1.5), abs=2 * STEP_S)


def test_at_a_steady_rate_the_last_quarter_takes_half_the_time() -> None:
    # geometry of the bowl: the level falls steadily, and a quarter of the water stands at half the depth
    shade = {**DEFAULTS, "sunlight": 0.0, "depth": 2.0e-3, "wind": 8.0}
    settled_k = float(values(SPEC.run(shade), "puddle temperature")[-1])
    timeline = SPEC.run({**shade, "water_temperature": settled_k})
    patches, dry = (next(s.start_s for s in timeline.stages if s.name == name) for name in ("patches", "dry"))
    assert patches / dry == pytest.approx(0.5, abs=0.005)


def test_half_the_step_dries_at_the_same_time(monkeypatch: pytest.MonkeyPatch) -> None:
    whole = dry_after_s()
    monkeypatch.setattr("sonify.processes.drying_model.STEP_S", STEP_S / 4.0)
    monkeypatch.setattr("sonify.processes.drying_model.LONGEST_STEPS", 4 * 1440)
    day = simulate(Weather.of(DEFAULTS))
    fine = day["time_s"][int(np.argmax(day["water_kg"] <= 0.0))]
    assert whole == pytest.approx(float(fine), rel=0.01)


def test_most_of_the_sun_s_heat_goes_into_evaporation() -> None:
    timeline = SPEC.run(DEFAULTS)
    share = values(timeline, "heat spent on evaporation")[-1] / values(timeline, "heat from the sun")[-1]
    assert 0.4 < share < 1.0
    # and it is the latent heat of all the water, 2.44 MJ/kg at 25 °C (IAPWS-95: 2441.7 kJ/kg)
    spent = values(timeline, "heat spent on evaporation")[-1] / values(timeline, "water left")[0]
    assert spent / 1e3 == pytest.approx(2441.7, rel=0.004)


@pytest.mark.parametrize(
    ("changed", "stage"),
    [
        ({"sunlight": 0.0}, "dry"),
        ({"depth": 0.03}, "patches"),
        ({"water_temperature": 310.0}, "warming"),
        ({"depth": 0.3e-3}, "drying"),
    ],
)
def test_the_advice_on_a_missing_stage_brings_it(changed: dict[str, float], stage: str) -> None:
    start = {**DEFAULTS, **changed}
    lacking = next(m for m in SPEC.run(start).missing if m.stage == stage)
    written = re.fullmatch(r'Set (\w+) = "?([^"]+?)"?\.', say(lacking.fix))
    assert written and written[1] == lacking.condition
    better = conditions_si(SPEC, (condition(written[1], written[2]),))[written[1]]
    assert stage in [s.name for s in SPEC.run({**start, written[1]: better}).stages]


def test_damp_air_in_the_shade_is_refused_by_name() -> None:
    with pytest.raises(BadCondition, match="humidity: in air of 100 % humidity dew falls") as caught:
        SPEC.run({**DEFAULTS, "humidity": 1.0, "sunlight": 0.0})
    assert caught.value.key == "humidity"
    with pytest.raises(BadCondition, match='humidity: "120 %" is out of range; allowed: 5 % to 100 %'):
        conditions_si(SPEC, (condition("humidity", "120 %"),))


def test_frost_and_scalding_are_refused_by_name() -> None:
    with pytest.raises(BadCondition, match="air_temperature: in air of 2.0 °C.* the puddle freezes"):
        SPEC.run({**DEFAULTS, "sunlight": 0.0, "air_temperature": 275.15, "humidity": 0.2})
    with pytest.raises(BadCondition, match="sunlight: under 1000 W/m² the puddle grows hotter than 57 °C"):
        SPEC.run({**DEFAULTS, "sunlight": 1000.0, "wind": 0.0, "air_temperature": 313.15, "humidity": 0.9})


@st.composite
def conditions(draw: st.DrawFn) -> dict[str, float]:
    return {one.name: draw(st.floats(one.low, one.high)) for one in SPEC.conditions}


@given(conditions())
@example({one.name: one.low for one in SPEC.conditions})
@example({one.name: one.high for one in SPEC.conditions})
@example({**DEFAULTS, "sunlight": 1000.0, "wind": 0.0, "air_temperature": 313.15, "humidity": 0.9})
@example({**DEFAULTS, "depth": 0.3e-3, "wind": 15.0, "sunlight": 1000.0, "humidity": 0.05})
def test_any_puddle(given_: dict[str, float]) -> None:
    try:
        timeline = SPEC.run(given_)  # the record itself refuses what is not finite, and stages that overlap
    except BadCondition as refused:
        assert refused.key in ("humidity", "air_temperature", "sunlight")
        return
    names = [stage.name for stage in timeline.stages]
    assert names == [name for name in STAGES if name in names] and names
    assert sorted(names + [m.stage for m in timeline.missing]) == sorted(STAGES)
    assert timeline.stages[0].start_s == 0.0 and timeline.stages[-1].end_s == timeline.time_s[-1]
    for before, after in zip(timeline.stages, timeline.stages[1:], strict=False):
        assert before.end_s == after.start_s
    assert [kept.name for kept in timeline.conserved] == ["water", "energy"]
    assert all(kept.relative_drift < 1e-9 for kept in timeline.conserved)
    for name in ("water left", "puddle area", "puddle depth"):
        assert values(timeline, name).min() >= 0.0
    surface = values(timeline, "puddle temperature")
    assert surface.min() >= 273.15 and surface.max() <= 330.15
    dewed = given_["humidity"] * float(saturation_vapour_pressure(given_["air_temperature"]))
    assert values(timeline, "pull of the air").min() >= -dewed
    check_story(SPEC, timeline, given_)


def test_dew_is_named_where_the_air_is_damper_than_the_puddle_is_warm() -> None:
    damp = {**DEFAULTS, "humidity": 1.0, "sunlight": 400.0, "air_temperature": 303.15, "water_temperature": 283.15}
    timeline = SPEC.run(damp)
    rate, left = values(timeline, "evaporation rate"), values(timeline, "water left")
    assert rate[0] < 0.0 and left.max() > left[0], "vapour condenses at first"
    assert "dew" in say(timeline.stages[0].science) and "−" not in say(timeline.stages[0].science)
    assert [event.name for event in timeline.events][:2] == ["dew", "evaporation begins"]
    begins = timeline.events[1].time_s
    assert rate[int(begins / STEP_S)] > 0.0 >= rate[int(begins / STEP_S) - 1]
    dry = SPEC.run({**damp, "humidity": 0.2})
    assert not any("dew" in say(words) for words in (*(s.science for s in dry.stages), *(e.text for e in dry.events)))


#: What the notes call round figures of ours: sunlight reflected by water over dark tarmac (0.06 for water alone,
#: common tables), warmth of three centimetres of tarmac, black of water and half a sky of cloud.
REFLECTED, TARMAC_J_M2_K, EMISSIVITY, CLOUD = 0.10, 60_000.0, 0.97, 0.5


@pytest.mark.parametrize(
    "changed", [{}, {"sunlight": 0.0, "wind": 8.0, "depth": 2.0e-3}, {"humidity": 0.9, "air_temperature": 303.15}]
)
def test_the_puddle_is_that_of_its_equations_integrated_by_scipy(changed: dict[str, float]) -> None:
    """Other bookkeeping than the model's: two equations, of mass and of temperature, and steps that scipy chooses.

    dM/dt = -E A,   (C A + c M) dT/dt = A ((1 - r) S - sky - air) - L E A,   A = A0 sqrt(M / M0)
    """
    given_ = {**DEFAULTS, **changed}
    timeline = SPEC.run(given_)
    area0 = np.pi / 4.0 * given_["width"] ** 2
    mass0 = 1000.0 * 0.5 * area0 * given_["depth"]  # half of area times depth: a bowl
    air_k = given_["air_temperature"]
    vapour_pa = given_["humidity"] * float(saturation_vapour_pressure(air_k))
    carried = float(mass_transfer_evaporation(given_["wind"], 1.0))
    sky = float(sky_emissivity(air_k, vapour_pa, CLOUD))

    def slopes(_: float, state: np.ndarray) -> list[float]:
        mass, surface_k = max(state[0], 1e-9 * mass0), state[1]
        area = area0 * np.sqrt(mass / mass0)
        rate = carried * (float(saturation_vapour_pressure(surface_k)) - vapour_pa)
        net = (1.0 - REFLECTED) * given_["sunlight"]
        net -= float(net_thermal_radiation(surface_k, air_k, sky, EMISSIVITY))
        net -= float(heat_along(carried, surface_k - air_k, surface_k))
        net -= float(latent_heat_of_vaporisation(surface_k)) * rate
        return [-rate * area, net * area / (TARMAC_J_M2_K * area + 4186.0 * mass)]

    def nearly_dry(_: float, state: np.ndarray) -> float:
        return float(state[0] - 0.01 * mass0)

    nearly_dry.terminal = True  # type: ignore[attr-defined]
    solved = solve_ivp(
        slopes,
        (0.0, float(timeline.time_s[-1])),
        [mass0, given_["water_temperature"]],
        method="LSODA",
        events=nearly_dry,
        dense_output=True,
        rtol=1e-8,
        atol=1e-8,
    )
    wet = timeline.time_s <= solved.t[-1]
    mass, surface_k = solved.sol(timeline.time_s[wet])
    # The model steps by a minute, with all fluxes from the minute's start. Observed: 0.2 % of the water at most.
    np.testing.assert_allclose(values(timeline, "water left")[wet], mass, atol=0.005 * mass0)
    np.testing.assert_allclose(values(timeline, "puddle temperature")[wet], surface_k, atol=0.3)
