"""The units worked out beforehand are what pint makes of them, bit for bit."""

from __future__ import annotations

from sonify import units
from sonify.known_units import AFFINE, SI


def test_units_worked_out_beforehand_are_pints() -> None:
    assert {pair: units.asked(*pair) for pair in AFFINE} == AFFINE
    assert {unit: units.asked_si(unit) for unit in SI} == SI
    assert len(AFFINE) > 50 and len(SI) > 40


def test_a_unit_that_is_not_among_them_is_asked_of_pint() -> None:
    assert ("furlong", "m") not in AFFINE and "furlong" not in SI
    assert abs(units.convert(1.0, "furlong", "m") - 201.168) < 0.001  # 220 yards of 0.9144 m, by definition
    assert units.si("furlong") == "m" and units.known("furlong") and not units.known("smoots per hop")


def test_a_rate_of_temperature_and_a_count_are_printed_as_people_read_them() -> None:
    # The SI brochure (9th edition, 2.3.1 and 5.4.7): the sign of the degree is °C; a number of things has no unit sign.
    for written in ("degC/minute", "degC/min", "delta_degC/min", "K/minute"):
        assert units.printed(written) == "°C a minute"
    assert units.printed("degC/second") == "°C a second" and units.printed("degC/hour") == "°C an hour"
    assert units.printed("count") == ""
    assert units.printed("um") == "µm"  # SI brochure, 9th edition, table 7: micro is µ
