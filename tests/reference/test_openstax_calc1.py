"""OpenStax, Calculus, volume 1, "Exponential Growth and Decay": Newton's law of cooling. Read. Minutes and °F."""

from __future__ import annotations

import pytest

from sonify.science.cooling import newton_rate, newton_temperature, newton_time
from tests.reference.tolerance import half_last_digit


def kelvin(t_f: float) -> float:
    return (t_f + 459.67) / 1.8


@pytest.mark.parametrize(("t_f", "printed"), [(175.0, "2.56"), (155.0, "5.09")])
def test_coffee_is_drunk_between_the_printed_minutes(t_f: float, printed: str) -> None:
    """Coffee of 200 °F in a room of 70 °F is at 180 °F after 2 minutes."""
    rate = newton_rate(2.0, kelvin(200.0), kelvin(180.0), kelvin(70.0))
    minutes = newton_time(kelvin(200.0), kelvin(t_f), kelvin(70.0), rate)
    assert float(minutes) == pytest.approx(float(printed), abs=half_last_digit(printed))


def test_the_turkey_s_temperature() -> None:
    """165 °F out of the oven, 155 °F after 10 minutes in a room of 70 °F. The book prints no answer; 146.05 °F after 20
    minutes is reckoned by hand: 70 + 95 (85/95)^2."""
    rate = newton_rate(10.0, kelvin(165.0), kelvin(155.0), kelvin(70.0))
    after = newton_temperature(20.0, kelvin(165.0), kelvin(70.0), rate)
    assert 1.8 * float(after) - 459.67 == pytest.approx(70.0 + 95.0 * (85.0 / 95.0) ** 2, abs=1e-9)
    assert 1.8 * float(after) - 459.67 == pytest.approx(float("146.05"), abs=half_last_digit("146.05"))
