"""OpenStax, College Algebra, modules m49367 and m49368: Newton's law of cooling. Read. Minutes and °F as printed."""

from __future__ import annotations

import pytest

from sonify.science.cooling import newton_rate, newton_temperature, newton_time
from tests.reference.tolerance import half_last_digit


def kelvin(t_f: float) -> float:
    return (t_f + 459.67) / 1.8


def test_the_cheesecake_takes_the_printed_minutes() -> None:
    """165 °F into a refrigerator of 35 °F, 150 °F after 10 minutes, 70 °F when? 107 minutes.

    The book also prints 106.68, with its rate rounded to 0.0123 a minute; exactly it is 107.03.
    """
    rate = newton_rate(10.0, kelvin(165.0), kelvin(150.0), kelvin(35.0))
    minutes = float(newton_time(kelvin(165.0), kelvin(70.0), kelvin(35.0), rate))
    assert minutes == pytest.approx(float("107"), abs=half_last_digit("107"))
    rounded = float(newton_time(kelvin(165.0), kelvin(70.0), kelvin(35.0), 0.0123))
    assert rounded == pytest.approx(float("106.68"), abs=half_last_digit("106.68"))


def test_the_soup_takes_about_the_printed_minutes() -> None:
    """350 °F in a room of 71 °F, 175 °F after 15 minutes, 85 °F when? About 45 minutes, and 45.5 exactly."""
    rate = newton_rate(15.0, kelvin(350.0), kelvin(175.0), kelvin(71.0))
    assert float(newton_time(kelvin(350.0), kelvin(85.0), kelvin(71.0), rate)) == pytest.approx(45.0, abs=0.55)


def test_the_soda_has_the_printed_temperature() -> None:
    """71 °F into a refrigerator of 35 °F, 63 °F after 10 minutes: 43 °F after an hour."""
    rate = newton_rate(10.0, kelvin(71.0), kelvin(63.0), kelvin(35.0))
    assert float(rate) == pytest.approx(float("0.025131"), abs=half_last_digit("0.025131"))
    after = 1.8 * float(newton_temperature(60.0, kelvin(71.0), kelvin(35.0), rate)) - 459.67
    assert after == pytest.approx(float("43"), abs=half_last_digit("43"))
