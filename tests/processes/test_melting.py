"""Melting in warm water: heat that adds up, a wait for ice, none for mixtures, and exact integrals of enthalpy."""

from __future__ import annotations

import re
from math import log

import numpy as np
import pytest
from hypothesis import assume, given
from scipy.integrate import quad

from sonify.errors import BadCondition
from sonify.facts.cautions import needed
from sonify.processes import conditions_si, find
from sonify.records.scene import WORD, Condition, Measure
from sonify.records.timeline import Timeline
from sonify.say import say
from sonify.science.melting import BUTTER, CHOCOLATE, ICE, SUBSTANCES, WAX, Substance
from tests.processes.stories import any_conditions, check_story
from tests.processes.test_registry import condition

SPEC = find("melting")
DEFAULTS = {one.name: one.default for one in SPEC.conditions}
C = 273.15
STAGES = ["solid", "first half", "second half", "liquid"]


def of(substance: Substance, start_c: float, bath_c: float, **changes: float) -> dict[str, float]:
    place = float(SUBSTANCES.index(substance))
    return {**DEFAULTS, "substance": place, "start_temperature": start_c + C, "bath_temperature": bath_c + C, **changes}


CASES = [of(ICE, -18, 45), of(WAX, 18, 75), of(BUTTER, 5, 45), of(CHOCOLATE, 18, 45)]


def ends(timeline: Timeline, stage: str, quantity: str) -> tuple[float, float]:
    span = next(each for each in timeline.stages if each.name == stage)
    values = np.interp([span.start_s, span.end_s], timeline.time_s, timeline.quantity(quantity).values)
    return float(values[0]), float(values[1])


@pytest.mark.parametrize("conditions", CASES)
def test_all_stages_come_in_order(conditions: dict[str, float]) -> None:
    timeline = SPEC.run(conditions)
    assert [stage.name for stage in timeline.stages] == STAGES
    assert not timeline.missing


def test_ice_waits_at_its_melting_point_and_mixtures_do_not() -> None:
    ice = SPEC.run(CASES[0])
    for stage in ("first half", "second half"):
        assert ends(ice, stage, "temperature") == pytest.approx((C, C), abs=1e-9)
    for conditions, least_k in zip(CASES[1:], (4.0, 10.0, 3.0), strict=True):
        for stage in ("first half", "second half"):
            first, last = ends(SPEC.run(conditions), stage, "temperature")
            assert last - first > 0.5 * least_k


def apparent(substance: Substance, kelvin: float, mass: float, dish: float) -> float:
    """Heat for a degree, written down anew from the table: specific heat, melting of that degree, and the dish."""
    celsius, table = kelvin - C, substance.melted
    inside = [(a, b) for a, b in zip(table, table[1:], strict=False) if a[0] <= celsius < b[0]]
    if not inside:
        return mass * (substance.solid_j_per_kg_k if celsius < table[0][0] else substance.liquid_j_per_kg_k) + dish
    (low, f_low), (high, f_high) = inside[0]
    share = 0.5 * (f_low + f_high)
    each = (1.0 - share) * substance.solid_j_per_kg_k + share * substance.liquid_j_per_kg_k
    return mass * (each + substance.melting_j_per_kg * (f_high - f_low) / (high - low)) + dish


@pytest.mark.parametrize(("conditions", "substance"), list(zip(CASES[1:], (WAX, BUTTER, CHOCOLATE), strict=True)))
def test_the_time_to_a_temperature_is_the_integral_of_heat_over_flow(
    conditions: dict[str, float], substance: Substance
) -> None:
    # dt = C(T) dT / (k (T_bath - T)), integrated by another program's quadrature
    timeline = SPEC.run(conditions)
    mass, dish, bath = conditions["mass"], conditions["dish"], conditions["bath_temperature"]
    goal = substance.melted[-1][0] + C
    table = [celsius + C for celsius, _ in substance.melted]

    def seconds(kelvin: float) -> float:
        return apparent(substance, kelvin, mass, dish) / (conditions["contact"] * (bath - kelvin))

    corners = [t for t in table if conditions["start_temperature"] < t < goal]
    found, _ = quad(seconds, conditions["start_temperature"], goal, points=corners or None, limit=200)
    at = float(np.interp(goal, timeline.quantity("temperature").values, timeline.time_s))
    assert at == pytest.approx(found, rel=1e-6)


def test_ice_melts_in_the_reckoned_seconds() -> None:
    # by hand: m L / (k 45 K) for all of it, and (m c + C) ln(63/45) / k to warm it from -18 °C to 0 °C
    timeline = SPEC.run(CASES[0])
    melted, temperature = timeline.quantity("share melted").values, timeline.quantity("temperature").values
    begins = float(np.interp(C - 1e-9, temperature, timeline.time_s))
    assert begins == pytest.approx((0.1 * 2090.0 + 60.0) * log(63.0 / 45.0) / 0.8, rel=1e-6)
    whole = timeline.time_s[int(np.argmax(melted >= 1.0 - 1e-12))] - begins
    assert whole == pytest.approx(0.1 * 334e3 / (0.8 * 45.0), rel=1e-6)


@pytest.mark.parametrize("conditions", CASES)
def test_the_heat_flow_added_up_is_the_heat_that_came(conditions: dict[str, float]) -> None:
    timeline = SPEC.run(conditions)
    added = np.trapezoid(timeline.quantity("heat flow").values, timeline.time_s)
    assert timeline.quantity("heat from the bath").values[-1] == pytest.approx(added, rel=1e-3)
    melting = np.sum(timeline.quantity("power melting").values[1:] * np.diff(timeline.time_s))
    assert timeline.quantity("heat that melted").values[-1] == pytest.approx(melting, rel=1e-9)


def test_melting_all_the_chocolate_takes_what_the_table_prints() -> None:
    # CHOCOLATE-CONSTANTS: 46 J/g, 100 g
    assert SPEC.run(CASES[3]).quantity("heat that melted").values[-1] == pytest.approx(4600.0, rel=1e-9)


@given(any_conditions(SPEC))
def test_anywhere_in_the_ranges_the_story_holds(conditions: dict[str, float]) -> None:
    try:
        timeline = SPEC.run(conditions)
    except BadCondition:
        assume(False)
        return
    check_story(SPEC, timeline, conditions)


@pytest.mark.parametrize(
    ("conditions", "key", "says"),
    [
        (of(BUTTER, -5, 45), "start_temperature", "not computed below 0 °C, where the water in it freezes"),
        (of(CHOCOLATE, 20, 21), "bath_temperature", "warms nothing that is at 20.0 °C"),
        (of(ICE, 5, 45), "start_temperature", "ice has melted already"),
    ],
)
def test_what_cannot_melt_is_refused(conditions: dict[str, float], key: str, says: str) -> None:
    with pytest.raises(BadCondition, match=says) as caught:
        SPEC.run(conditions)
    assert caught.value.key == key


def test_wax_in_the_bath_of_chocolate_stays_solid_and_the_fix_melts_it() -> None:
    conditions = of(WAX, 18, 45)
    lacking = SPEC.run(conditions).missing
    assert [each.stage for each in lacking] == STAGES[1:]
    written = re.fullmatch(r'Set (\w+) = "([^"]+)"\.', say(lacking[-1].fix))
    assert written
    better = conditions_si(SPEC, (condition(written[1], written[2]),))[written[1]]
    assert "liquid" in [stage.name for stage in SPEC.run({**conditions, written[1]: better}).stages]


def word(text: str) -> Condition:
    return Condition(name="substance", measure=Measure(text=text, value=0.0, unit=WORD))


def test_a_substance_is_chosen_by_its_word() -> None:
    assert conditions_si(SPEC, (word("butter"),))["substance"] == 2.0
    with pytest.raises(BadCondition, match='did you mean "butter"\\? allowed: ice, candle wax, butter, chocolate'):
        conditions_si(SPEC, (word("buter"),))
    with pytest.raises(BadCondition, match="none of its words"):
        conditions_si(SPEC, (condition("substance", "2"),))
    with pytest.raises(BadCondition, match='"warm" is not a number with a unit; allowed: 5 g to 1000 g'):
        conditions_si(SPEC, (Condition(name="mass", measure=Measure(text="warm", value=0.0, unit=WORD)),))


def test_each_substance_has_its_cautions_and_what_is_said_is_not_asked_for() -> None:
    lacking = {substance.name: needed(SPEC, of(substance, 5, 45)) for substance in SUBSTANCES}
    said = {name: " ".join(map(say, facts)) for name, facts in lacking.items()}
    assert "Hot wax sticks to skin" in said["candle wax"] and "naked flame" in said["candle wax"]
    assert "ask about allergies" in said["chocolate"] and "Melted chocolate" in said["chocolate"]
    assert "milk allergies" in said["butter"] and "hot fat" in said["butter"]
    written = ("Ask about allergies first.", "Melted chocolate is hot.")
    assert not needed(SPEC, of(CHOCOLATE, 18, 45), written)
    assert len(needed(SPEC, of(CHOCOLATE, 18, 45), written[:1])) == 1
