"""Readings over time: what is found in made series whose stretches are known. All readings are invented."""

from __future__ import annotations

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.errors import BadCondition, BadFile, SonifyError
from sonify.inputs.logger import read_table
from sonify.processes import conditions_si, find
from sonify.processes.measured import MOST_SAMPLES
from sonify.records.timeline import Timeline
from sonify.say import say
from tests.processes.truth import check_told, judged

PLAIN = find("measured")


def run(text: str, **changes: float) -> Timeline:
    spec = PLAIN.for_table(read_table(text.encode(), file="made.csv"))  # type: ignore[misc]
    return spec.run({**conditions_si(spec, ()), **changes})


def series(values: np.ndarray, heading: str = "Temp (°C)") -> str:
    return f"Time (min),{heading}\n" + "".join(f"{i},{value:.3f}\n" for i, value in enumerate(values))


def ways(found: Timeline) -> list[str]:
    return [say(stage.title).split()[0] for stage in found.stages]


LEVEL_RISE_FALL = np.concatenate([np.full(60, 14.0), np.linspace(14.0, 20.0, 60), np.linspace(20.0, 15.0, 60)])


def test_level_rising_and_falling_stretches_are_found_where_they_are() -> None:
    found = run(series(LEVEL_RISE_FALL))
    assert ways(found) == ["Level", "Rising", "Falling"]
    edges = [stage.start_s / 60.0 for stage in found.stages] + [found.stages[-1].end_s / 60.0]
    np.testing.assert_allclose(edges, [0.0, 60.0, 120.0, 179.0], atol=3.0)
    assert say(found.stages[1].science).endswith("the temp rises from 14 °C to 20 °C.")


@pytest.mark.parametrize("wild", [(30, 500.0), (90, -300.0), (150, 99.0)])
def test_a_wild_reading_moves_no_stretch_but_is_kept(wild: tuple[int, float]) -> None:
    values = LEVEL_RISE_FALL.copy()
    values[wild[0]] = wild[1]
    clean, found = run(series(LEVEL_RISE_FALL)), run(series(values))
    assert ways(found) == ways(clean)
    np.testing.assert_allclose(
        [stage.end_s for stage in found.stages], [stage.end_s for stage in clean.stages], atol=180.0
    )
    assert found.quantity("temp").in_unit()[wild[0]] == pytest.approx(wild[1])


def test_noise_of_a_sensor_does_not_hide_the_stretches() -> None:
    noisy = LEVEL_RISE_FALL + np.random.default_rng(4).normal(0.0, 0.15, LEVEL_RISE_FALL.size)
    assert ways(run(series(noisy))) == ["Level", "Rising", "Falling"]


def test_a_step_is_two_level_stretches() -> None:
    step = np.concatenate([np.full(80, 5.0), np.full(80, 9.0)])
    found = run(series(step))
    assert [say(stage.title) for stage in found.stages] == ["Level near 5 °C", "Level near 9 °C"]


def test_a_cooling_cup_falls_fast_and_then_slowly() -> None:
    minutes = np.arange(180.0)
    found = run(series(20.0 + 60.0 * np.exp(-minutes / 45.0)))
    assert [say(stage.title).rsplit(" to ", 1)[0] for stage in found.stages] == ["Falling fast", "Falling slowly"]


def test_ups_and_downs_too_many_for_lines_are_told_by_the_largest() -> None:
    time = np.arange(400.0)
    found = run(series(10.0 + 3.0 * np.sin(time / 8.0)))
    assert len(found.stages) == 6
    assert set(ways(found)) <= {"Rising", "Falling", "From"} and "Level" not in ways(found)


@pytest.mark.parametrize(
    ("values", "why"),
    [
        (np.linspace(10.0, 30.0, 50), "It rises all along"),
        (np.linspace(30.0, 10.0, 50), "It falls all along"),
        (np.full(50, 7.0), "It hardly changes"),
    ],
)
def test_where_nothing_is_told_apart_there_are_equal_parts_and_it_is_said(values: np.ndarray, why: str) -> None:
    found = run(series(values))
    assert [say(stage.title) for stage in found.stages] == [
        "First quarter",
        "Second quarter",
        "Third quarter",
        "Last quarter",
    ]
    assert len({round(stage.end_s - stage.start_s) for stage in found.stages}) == 1
    assert all(why in say(stage.science) and "four equal parts" in say(stage.science) for stage in found.stages)


def test_gaps_are_bridged_by_straight_lines_and_doubles_are_their_mean() -> None:
    found = run("Time (s),Temp (°C)\n0,10\n1,\n2,14\n2,16\n3,15\n")
    np.testing.assert_allclose(found.time_s, [0.0, 1.0, 2.0, 3.0])
    np.testing.assert_allclose(found.quantity("temp").in_unit(), [10.0, 12.5, 15.0, 15.0])


def test_a_reading_that_stays_beyond_an_end_is_no_straight_line() -> None:
    """A straight line needs a reading on either side: what was read to day 10 of 14 says nothing of the rest."""
    text = "Time (s),Inside,Late,Early\n0,1,,5\n1,,2,6\n2,3,3,7\n3,4,4,\n"
    spec = PLAIN.for_table(read_table(text.encode(), file="made.csv"))  # type: ignore[misc]
    told = "\n".join(map(say, spec.honesty))
    assert "straight lines bridge the gaps (number of them: inside 1)" in told
    assert "late and early stay as there in the music and in averages, though nobody measured it" in told


def test_units_go_into_si_and_none_stays_none() -> None:
    found = run("Time (s),Temp (°C),Wind (km/h),Bounces,Change (°C)\n0,0,36,3,-1\n1,10,18,5,1\n2,5,9,4,0\n")
    by_name = {quantity.name: quantity for quantity in found.quantities}
    assert by_name["temp"].values[0] == pytest.approx(273.15) and by_name["temp"].true_zero
    assert by_name["wind"].values[0] == pytest.approx(10.0)
    assert (by_name["bounces"].unit, by_name["bounces"].values[1], by_name["bounces"].true_zero) == (
        "no unit",
        5.0,
        False,
    )
    assert by_name["change"].values[0] == pytest.approx(-1.0) and not by_name["change"].true_zero


def test_very_many_readings_are_heard_as_means_and_it_is_said() -> None:
    table = read_table(series(np.sin(np.arange(10_000) / 700.0)).encode(), file="made.csv")
    spec = PLAIN.for_table(table)  # type: ignore[misc]
    found = spec.run(conditions_si(spec, ()))
    assert found.time_s.size == MOST_SAMPLES
    assert any("10000 rows" in say(sentence) for sentence in spec.honesty)
    assert found.quantity("temp").values.mean() == pytest.approx(table.columns[0].values.mean() + 273.15, abs=0.01)


def test_the_stretches_of_another_column_can_be_followed() -> None:
    text = "Time (s),a (m),b (m)\n" + "".join(f"{i},{min(i, 20)},{abs(i - 15)}\n" for i in range(31))
    assert ways(run(text)) == ["Rising", "Level"]
    assert ways(run(text, follow=2.0)) == ["Falling", "Rising"]
    with pytest.raises(BadCondition, match="the file has 2, so allowed: 1 to 2"):
        run(text, follow=3.0)


def test_rows_without_times_take_the_interval_of_the_scene() -> None:
    assert run("Temp (°C)\n10\n12\n11\n", interval=90.0).time_s.tolist() == [0.0, 90.0, 180.0]


def test_clock_times_are_told_as_clock_times_and_dates_as_dates() -> None:
    clock = run(
        "Time,Temp (°C)\n" + "".join(f"{9 + i // 60:02d}:{i % 60:02d},{v}\n" for i, v in enumerate(LEVEL_RISE_FALL))
    )
    assert clock.clock_start == 9.0
    assert say(clock.stages[0].science).startswith("From 09:00 to 10:00")
    years = run("year,Flow (m3/s)\n" + "".join(f"{1900 + i},{v}\n" for i, v in enumerate(LEVEL_RISE_FALL[:120])))
    assert years.clock_start is None
    assert say(years.stages[0].science).startswith("From 1900 to 19")


def test_too_few_times_are_refused() -> None:
    with pytest.raises(BadFile, match="made.csv: readings at 2 different times; a piece needs three"):
        run("Time (s),Temp (°C)\n0,1\n1,2\n1,3\n")


def test_without_a_table_there_is_nothing_to_run() -> None:
    with pytest.raises(SonifyError, match="name their file in the scene"):
        PLAIN.run(conditions_si(PLAIN, ()))


@given(
    st.lists(st.floats(-1e6, 1e6), min_size=3, max_size=80),
    st.floats(0.01, 0.5),
    st.integers(2, 8),
)
def test_any_readings_have_stretches_that_follow_each_other(values: list[float], level: float, most: int) -> None:
    found = run(series(np.array(values)), level=level, stretches=float(most))
    assert 1 <= len(found.stages) <= 8
    assert found.stages[0].start_s == 0.0 and found.stages[-1].end_s == pytest.approx(found.time_s[-1])
    for before, after in zip(found.stages, found.stages[1:], strict=False):
        assert before.end_s == after.start_s
    assert len({say(stage.title) for stage in found.stages}) == len(found.stages)
    conditions = {**conditions_si(PLAIN, ()), "level": level, "stretches": float(most)}
    _, false = judged(found, conditions)
    assert not false, false[0]
    check_told(found, conditions)
