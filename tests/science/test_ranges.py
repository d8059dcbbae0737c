"""Formulae refuse what they do not cover, keep the shape of what they are given, and take lists as numbers."""

from __future__ import annotations

import inspect
from collections.abc import Callable
from typing import Any

import numpy as np
import pytest

from sonify.errors import OutOfRange
from sonify.science.ranges import Range
from tests.science.samples import INSIDE, SCALARS, TOGETHER
from tests.science.test_docstrings import BY_NAME, FORMULAE

CASES = [(f, name) for f in FORMULAE if f.__name__ not in TOGETHER for name in inspect.signature(f).parameters]
BY_CASE = pytest.mark.parametrize(("formula", "name"), CASES, ids=[f"{f.__name__}-{name}" for f, name in CASES])


def inside(formula: Callable[..., Any]) -> dict[str, Any]:
    return {name: INSIDE[name][0] for name in inspect.signature(formula).parameters}


@BY_CASE
def test_a_value_out_of_range_is_refused(formula: Callable[..., Any], name: str) -> None:
    beyond = INSIDE[name][1]
    if beyond is None:
        assert np.all(np.isfinite(formula(**inside(formula))))
        return
    with pytest.raises(OutOfRange, match="covers"):
        formula(**{**inside(formula), name: beyond})


@BY_CASE
def test_not_a_number_is_refused(formula: Callable[..., Any], name: str) -> None:
    if name in SCALARS - {"inversion_m", "inversion_k_m", "above_k_m"}:
        return
    with pytest.raises(OutOfRange, match="nan"):
        formula(**{**inside(formula), name: float("nan")})
    if name not in SCALARS:
        with pytest.raises(OutOfRange, match="nan"):
            formula(**{**inside(formula), name: np.array([INSIDE[name][0], np.nan])})


@BY_NAME
def test_many_values_at_once_give_what_each_gives_alone(formula: Callable[..., Any]) -> None:
    if formula.__name__ in TOGETHER:
        return
    given = inside(formula)
    alone = formula(**given)
    many = {name: value if name in SCALARS else np.full((2, 3), value) for name, value in given.items()}
    together = formula(**many)
    assert np.shape(alone) == ()
    assert together.shape == (2, 3)
    np.testing.assert_allclose(together, alone, rtol=1e-12)


def test_the_message_names_value_unit_and_what_is_covered() -> None:
    with pytest.raises(OutOfRange, match=r"wind_m_s is -2 m/s; the wind covers 0 to 20 m/s"):
        Range("wind_m_s", "m/s", 0.0, 20.0, "the wind").checked(np.array([3.0, -2.0]))
    with pytest.raises(OutOfRange, match=r"covers more than 0 kg"):
        Range("mass_kg", "kg", 0.0, np.inf, "a body", above=True).checked(0.0)
    with pytest.raises(OutOfRange, match=r"covers 0 K and above"):
        Range("temperature_k", "K", 0.0, np.inf, "a gas").checked(-1.0)


def test_the_ends_of_a_range_are_inside() -> None:
    ends = Range("share", "1", 0.0, 1.0, "a share")
    np.testing.assert_array_equal(ends.checked(np.array([0.0, 1.0])), [0.0, 1.0])
    assert ends.checked(np.array([])).size == 0
