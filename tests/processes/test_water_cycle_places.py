"""The water cycle elsewhere and at other times of the year: what a place and a season change, and what they do not."""

from __future__ import annotations

from math import radians

import numpy as np
import pytest

from sonify.processes import conditions_si, find
from sonify.records.timeline import Timeline

SPEC = find("water-cycle")
USUAL = conditions_si(SPEC, ())
ZERO_K = 273.15

#: A harbour in its season: dawn conditions as a teacher might set them. Invented, with climates of such places in mind.
PLACES = {
    "northern summer": {},
    "northern spring": {"day": 80.0, "sea_temperature": 8.0, "air_temperature": 5.0, "humidity": 0.75},
    "northern autumn": {"day": 280.0, "sea_temperature": 13.0, "air_temperature": 9.0, "humidity": 0.82},
    "warm inland sea": {"latitude": 40.0, "day": 200.0, "sea_temperature": 24.0, "air_temperature": 20.0},
    "tropics": {"latitude": 5.0, "day": 80.0, "sea_temperature": 29.0, "air_temperature": 25.0, "humidity": 0.85},
    "southern summer": {"latitude": -35.0, "day": 15.0, "sea_temperature": 20.0, "air_temperature": 16.0},
    "far north in June": {"latitude": 64.0, "sea_temperature": 9.0, "air_temperature": 8.0, "humidity": 0.8},
}


def at_place(place: str, **changes: float) -> Timeline:
    values = dict(USUAL)
    for name, value in {**PLACES[place], **changes}.items():
        values[name] = radians(value) if name == "latitude" else value + ZERO_K * name.endswith("temperature")
    return SPEC.run(values)


def most(timeline: Timeline, quantity: str) -> float:
    return float(timeline.quantity(quantity).in_unit().max())


@pytest.mark.parametrize("place", PLACES)
def test_every_season_and_place_tells_the_whole_cycle(place: str) -> None:
    day = at_place(place)
    assert [stage.name for stage in day.stages] == [stage.name for stage in SPEC.stages]
    assert not day.missing and day.conserved[0].relative_drift < 1e-9
    assert 0.1 < most(day, "rain rate") < 10.0
    assert day.quantity("air temperature").in_unit().max() < most(day, "shallows temperature")


def test_half_a_year_later_the_other_half_of_the_world_has_the_same_day() -> None:
    """The Sun's year is a little lopsided, so a quarter of an hour and a few hundredths are allowed."""
    north, south = at_place("northern summer"), at_place("northern summer", latitude=-54.0, day=355.0)
    assert [stage.name for stage in south.stages] == [stage.name for stage in north.stages]
    for one, other in zip(north.stages, south.stages, strict=True):
        assert one.start_s == pytest.approx(other.start_s, abs=900.0)
    np.testing.assert_allclose(
        south.quantity("evaporation rate").values, north.quantity("evaporation rate").values, rtol=0.02, atol=1e-10
    )


def test_warm_seas_give_more_vapour_and_more_rain() -> None:
    """In the order of the sea's warmth: each step up gives more, as the vapour pressure over it does."""
    order = ("northern spring", "northern summer", "southern summer", "warm inland sea")
    evaporated, rained = (
        [most(at_place(place), name) for place in order] for name in ("evaporation rate", "rain rate")
    )
    assert evaporated == sorted(evaporated) and rained == sorted(rained)
    assert evaporated[-1] > 2.5 * evaporated[0]


def test_the_sun_stands_as_high_at_noon_as_latitude_and_season_say() -> None:
    """90° less latitude, and the tilt of 23.4° added in June and taken away in December."""
    for latitude, day, noon in ((54.0, 172.0, 59.4), (54.0, 355.0, 12.6), (-35.0, 355.0, 78.4), (5.0, 80.0, 85.0)):
        values = {**USUAL, "latitude": radians(latitude), "day": day, "humidity": 0.8}
        assert most(SPEC.run(values), "sun height") == pytest.approx(noon, abs=0.6)


def test_a_winter_day_keeps_the_sun_from_warming_the_shallows_and_says_so() -> None:
    winter = at_place("northern summer", day=355.0, sea_temperature=8.0, air_temperature=4.0, humidity=0.85)
    lacking = {missing.stage: missing for missing in winter.missing}
    assert "warming" in lacking and "precipitation" in [stage.name for stage in winter.stages]


def test_a_dry_coast_has_no_cloud_and_names_what_would_change_that() -> None:
    dry = at_place("southern summer", latitude=-20.0, hill_height=300.0, humidity=0.6)
    lacking = {missing.stage: missing for missing in dry.missing}
    assert set(lacking) == {"condensation", "precipitation", "collection"}
    assert lacking["condensation"].condition in ("hill_height", "humidity")
