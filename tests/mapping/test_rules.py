"""Rules tied to their quantities: units read, faults named with the key of the scene file."""

from __future__ import annotations

import numpy as np
import pytest

from sonify.errors import BadRule, UnknownName
from sonify.mapping.rules import BoundRule, bound_rule, bound_rules
from sonify.records.scene import Rule
from sonify.records.timeline import Timeline
from tests.mapping.making import process, quantity, rule, scene, stepped, timeline


def invented() -> Timeline:
    return timeline(
        quantity("warmth", stepped([280.0, 290.0, 285.0, 281.0, 286.0])),
        quantity("rain rate", stepped([0.0, 0.0, 0.0, 3e-7, 0.0]), unit="mm/h", si_unit="m/s"),
        quantity("sun height", stepped([0.1, 0.5, 0.9, 0.5, 0.1]), unit="deg", si_unit="rad", true_zero=False),
    )


def bound(written: Rule) -> BoundRule:
    found = invented()
    return bound_rule(written, found, process(found))


def test_the_range_is_turned_into_si() -> None:
    curve = bound(rule(ends=("5 degC", "25 degC"))).curve
    assert (curve.low, curve.high) == pytest.approx((278.15, 298.15))


def test_any_unit_of_the_right_kind_will_do() -> None:
    assert bound(rule(ends=("41 degF", "77 degF"))).curve.low == pytest.approx(278.15)
    curve = bound(rule("rain rate", "density", ("0 mm/h", "3.6 mm/h"), (0.25, 2.0))).curve
    assert curve.high == pytest.approx(1e-6)


def test_a_range_written_downwards_is_the_same_rule_turned_round() -> None:
    values = np.linspace(278.15, 298.15, 7)
    falling = bound(rule(ends=("25 degC", "5 degC"), to=(66.0, 112.0)))
    same = bound(rule(ends=("5 degC", "25 degC"), to=(112.0, 66.0)))
    np.testing.assert_allclose(falling.apply(values), same.apply(values))
    assert falling.apply(values)[0] == 112.0


def test_values_outside_hold_the_end_and_are_told() -> None:
    found = bound(rule(ends=("5 degC", "25 degC")))
    values = np.array([278.15 - 2.0, 288.15, 298.15 + 0.5])
    assert list(found.apply(values)) == pytest.approx([66.0, 89.0, 112.0])
    assert list(found.outside(values)) == pytest.approx([-2.0, 0.0, 0.5])


@pytest.mark.parametrize(
    ("written", "key", "told"),
    [
        (rule(ends=("5 m/s", "25 degC"), key="hear.3"), "hear.3.from", r'"5 m/s" is no measure of warmth.*°C'),
        (rule(ends=("5 degC", "5 degC")), "hear.0.from", "is no range"),
        (rule(to=(66.0, 66.0)), "hear.0.to", "nothing would change"),
        (rule(to=(20.0, 112.0)), "hear.0.to", "tempo goes from 30 to 240 bpm"),
        (rule(control="dynamics", to=(0.0, 89.0)), "hear.0.to", "1 to 127"),
        (rule(control="brightness", to=(0.2, 1.2)), "hear.0.to", "0 to 1"),
        (rule(control="density", to=(-1.0, 2.0)), "hear.0.to", "0 to 24"),
        (rule(part="The rain"), "hear.0.part", "one conductor"),
        (
            rule("rain rate", "density", ("0 mm/h", "3 mm/h"), (0.0, 2.0), curve="logarithmic"),
            "hear.0.curve",
            'starts from 0.*curve = "linear"',
        ),
        (
            rule("sun height", "pitch", ("5 deg", "60 deg"), (60.0, 72.0), curve="logarithmic"),
            "hear.0.curve",
            "only a point on a scale",
        ),
    ],
)
def test_a_rule_that_cannot_work_names_its_key(written: Rule, key: str, told: str) -> None:
    with pytest.raises(BadRule, match=told) as caught:
        bound(written)
    assert caught.value.key == key
    assert str(caught.value).startswith(f"{key}: ")


def test_an_unknown_quantity_gets_the_nearest_spelling_and_its_key() -> None:
    with pytest.raises(UnknownName, match=r'hear\.2\.quantity "rain rte"; did you mean "rain rate"'):
        bound(rule("rain rte", key="hear.2"))


def test_an_unknown_control_and_curve_are_named() -> None:
    with pytest.raises(UnknownName, match=r'control in hear\.0\.as "temp"; did you mean "tempo"'):
        bound(rule(control="temp"))
    with pytest.raises(UnknownName, match=r'curve in hear\.0\.curve "cubic"'):
        bound(rule(curve="cubic"))


def test_an_unknown_part_is_named() -> None:
    found = invented()
    written = rule("rain rate", "density", ("0 mm/h", "3 mm/h"), (0.0, 2.0), part="The rian")
    with pytest.raises(UnknownName, match='did you mean "The rain"'):
        bound_rules(scene(written), found, process(found))


def test_two_rules_for_one_control_are_refused_naming_both() -> None:
    found = invented()
    for part in (None, "The sea"):
        one = rule(control="pitch", to=(60.0, 72.0), part=part, key="hear.0")
        other = rule("rain rate", "pitch", ("0 mm/h", "3 mm/h"), (60.0, 72.0), part=part, key="hear.4")
        with pytest.raises(BadRule, match=r"^hear\.4: sets pitch for .*hear\.0"):
            bound_rules(scene(one, other), found, process(found))


def test_a_part_may_have_its_own_rule_beside_that_of_the_whole_piece() -> None:
    found = invented()
    rules = (
        rule(control="pitch", to=(60.0, 72.0)),
        rule(control="pitch", to=(72.0, 84.0), part="The sea", key="hear.1"),
    )
    assert len(bound_rules(scene(*rules), found, process(found))) == 2
