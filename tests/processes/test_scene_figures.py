"""Figures that a scene's author has written into notes and answers are those that its run computes."""

from __future__ import annotations

from functools import cache

import numpy as np
import pytest

from sonify.processes import conditions_si, find
from sonify.records.scene import Scene
from sonify.records.timeline import Timeline
from sonify.science.liquid_water import water_density, water_viscosity
from sonify.science.settling import settling_speed
from sonify.study.reading import load
from tests.processes.stories import at, stage_of


@cache
def scene(name: str) -> Scene:
    return load(name)


def run(name: str, **changed: float) -> Timeline:
    """The scene's own run, with some conditions changed (SI)."""
    spec = find(scene(name).process)
    return spec.run({**conditions_si(spec, scene(name).conditions), **changed})


def notes(name: str) -> str:
    """All that the scene's author tells teachers and pupils."""
    told = scene(name)
    return "\n".join(
        [
            *told.teacher_notes,
            *(note.caption for note in told.stages),
            *(part.meaning for part in told.parts),
            *(f"{row.belief} {row.correction} {row.ask}" for row in told.misconceptions),
            *(f"{row.ask} {row.answer}" for row in told.questions),
        ]
    )


def test_the_puddle_dries_soonest_in_sun_and_wind_as_its_notes_say() -> None:
    hours = {}
    for name, changed in (("both", {}), ("sun", {"wind": 0.0}), ("wind", {"sunlight": 0.0})):
        timeline = run("playground-puddle", **changed)
        water = timeline.quantity("water left").values
        hours[name] = timeline.time_s[int(np.argmin(water))] / 3600.0
    assert hours["both"] == pytest.approx(5.0, abs=0.25)
    assert hours["sun"] == pytest.approx(7.5, abs=0.25)
    assert hours["wind"] == pytest.approx(24.0, abs=0.5)


def test_the_puddle_is_as_warm_and_its_molecules_as_fast_as_its_notes_say() -> None:
    told, timeline = notes("playground-puddle"), run("playground-puddle")
    air_c, middle = 21.0, stage_of(timeline, "drying")[1]
    assert "warmer than the air" in told
    assert at(timeline, "puddle temperature", middle) - air_c == pytest.approx(5.0, abs=0.5)
    shade = run("playground-puddle", sunlight=0.0)
    assert "would be colder than the air" in told
    assert air_c - shade.quantity("puddle temperature").in_unit().max() == pytest.approx(7.0, abs=0.5)
    speed = timeline.quantity("mean molecule speed").values
    assert "only a little faster" in told and speed.max() / speed[0] - 1.0 == pytest.approx(0.02, abs=0.005)


def test_the_cloths_hold_what_their_notes_say() -> None:
    told, timeline = notes("which-cloth-drinks-most"), run("which-cloth-drinks-most")
    end = float(timeline.time_s[-1])
    for cloth, said, ml in (("cotton towel", "about 22.5 ml", 22.5), ("kitchen paper", "about 12 ml", 12.0)):
        assert said in told and at(timeline, f"water in the {cloth}", end) == pytest.approx(ml, abs=0.5)
    overtaken = next(e.time_s for e in timeline.events if e.name == "cotton towel overtakes sponge cloth")
    assert "leads for four minutes" in told and overtaken == pytest.approx(240.0, abs=10.0)
    assert "cannot climb beyond about 7 cm" in told
    assert at(timeline, "wet height of the sponge cloth", end) == pytest.approx(7.0, abs=0.5)


def test_the_mud_takes_as_long_as_its_notes_say() -> None:
    told, timeline = notes("muddy-water"), run("muddy-water")
    lasts = {stage.name: stage.end_s - stage.start_s for stage in timeline.stages}
    assert "Half a minute of sieving, eighteen seconds of sand, five minutes of silt and half an hour" in told
    assert lasts["sieving"] == pytest.approx(30.0) and lasts["sand"] == pytest.approx(18.0, abs=0.5)
    assert lasts["silt"] == pytest.approx(300.0, abs=30.0)
    assert lasts["dripping"] + lasts["clogging"] == pytest.approx(1800.0, rel=0.15)
    flow = timeline.quantity("flow through the paper").in_unit()
    assert told.count("from 51 to 9 ml a minute") == 2
    assert (round(flow.max()), round(flow[flow > 0.0].min())) == (51, 9)
    silt = stage_of(timeline, "silt")[1]
    assert "not even half of it has sunk" in told and at(timeline, "silt in the water", silt) > 6.0
    # sizes: ISO 14688-1; clay from a fifth of a thousandth of a millimetre on, as the process has it
    water = water_density(288.15), water_viscosity(288.15)
    down = {d: 0.12 / float(settling_speed(d, 2650.0, *water)) for d in (63e-6, 2e-6, 0.2e-6)}
    assert "silt from half a minute to half a day, clay from half a day to more than a month" in told
    assert 25.0 < down[63e-6] < 45.0 and 9.0 < down[2e-6] / 3600.0 < 14.0 and down[0.2e-6] > 31.0 * 86_400.0
    assert told.count("about three hundred times") == 2 and "thousand times" not in told


def test_the_salt_is_what_its_notes_say() -> None:
    told, timeline = notes("salt-in-the-jar"), run("salt-in-the-jar")
    end, begun = float(timeline.time_s[-1]), stage_of(timeline, "stirring")[0]
    assert "At the end about 8.5 g are left" in told
    assert at(timeline, "undissolved salt", end) == pytest.approx(8.5, abs=0.1)
    most = at(timeline, "dissolved salt", end) / (at(timeline, "fullness", end) / 100.0)
    assert told.count("71.8 g") == 2 and most == pytest.approx(71.8, abs=0.15)
    assert "from half a millimetre to four hundredths of one" in told
    assert at(timeline, "clinging layer", 0.0) == pytest.approx(0.5, abs=0.05)
    assert at(timeline, "clinging layer", begun) == pytest.approx(0.04, abs=0.005)


def test_the_pan_of_ice_takes_as_long_and_as_much_as_its_notes_say() -> None:
    told, timeline = notes("ice-on-the-hob"), run("ice-on-the-hob")
    took = {}
    for name in ("ice", "melting", "water"):
        start, end = stage_of(timeline, name)
        took[name] = at(timeline, "heat in the water", end) - at(timeline, "heat in the water", start)
    assert "(about 126 kilojoules)" in told and took["water"] == pytest.approx(126.0, abs=1.0)
    assert "(about 100)" in told and took["melting"] == pytest.approx(100.0, abs=1.0)
    assert "(about 11)" in told and took["ice"] == pytest.approx(11.0, abs=0.5)
    start, end = stage_of(timeline, "melting")
    assert "for almost three minutes" in scene("ice-on-the-hob").story and 160.0 < end - start < 185.0
    # the same water from 0 to 80 degrees: 4.186 kJ a kilogram and degree
    assert "as warming the same water from 0 to 80 °C" in told
    assert took["melting"] / (0.3 * 4.186) == pytest.approx(80.0, abs=0.5)
    speed = timeline.quantity("mean molecule speed").values
    assert "speed up by about a fifth" in told and speed.max() / speed[0] == pytest.approx(1.2, abs=0.02)


def total(timeline: Timeline, rate: str) -> float:
    """What a rate comes to over the run, in SI."""
    return float(np.trapezoid(timeline.quantity(rate).values, timeline.time_s))


def hour_of_most(timeline: Timeline, name: str, day: int) -> float:
    """At which hour of a day, from 0, a quantity is largest."""
    hours = timeline.time_s / 3600.0
    own = np.flatnonzero((hours >= 24.0 * day) & (hours < 24.0 * (day + 1)))
    return float(hours[own][int(timeline.quantity(name).values[own].argmax())] - 24.0 * day)


def test_the_valleys_stream_is_highest_when_its_notes_say() -> None:
    told, timeline = notes("valley-snow-melt"), run("valley-snow-melt")
    assert "highest between three and half past four" in told
    plenty = [hour_of_most(timeline, "stream flow", day) for day in range(7)]
    assert min(plenty) >= 15.0 and max(plenty) <= 16.5
    assert "until after nine in the morning" in told
    assert 9.0 < stage_of(timeline, "frost")[1] / 3600.0 < 10.0
    assert "the last days are the warmest" in told
    air, hours = timeline.quantity("air temperature").values, timeline.time_s / 3600.0
    assert hours[int(air.argmax())] > 12 * 24.0


def test_the_valleys_water_adds_up_only_with_what_has_flowed_away() -> None:
    told, timeline = notes("valley-snow-melt"), run("valley-snow-melt")
    assert "and what the stream has carried away, adds up" in told
    kept = ("snow", "water in the snow", "ground water", "water in the stream", "water gone into the air")
    here = sum(timeline.quantity(name).values for name in kept)
    assert here[-1] < 0.2 * here[0]
    np.testing.assert_allclose(here + timeline.quantity("water that has left").values, here[0], rtol=1e-9)


def test_the_rain_gardens_litres_and_hours_are_those_of_its_notes() -> None:
    told, timeline = notes("rain-garden-storm"), run("rain-garden-storm")
    drained = timeline.quantity("water down the drain").in_unit()[-1]
    run_off = 1000.0 * total(timeline, "run-off")
    own_rain = 35.0 * 14.0
    assert "Of the 2500 litres that came into the garden, one tenth" in told
    assert run_off + own_rain == pytest.approx(2500.0, rel=0.03)
    assert drained == pytest.approx(0.1 * (run_off + own_rain), rel=0.1)
    assert "the 2000 litres from roofs and paths" in told and run_off == pytest.approx(2000.0, rel=0.03)
    assert "four times as much water as falls on it" in told and run_off / own_rain == pytest.approx(4.0, abs=0.3)
    assert at(timeline, "run-off", 2 * 3600.0) < 0.1  # "within two hours", litres a minute
    fullest = timeline.time_s[int(timeline.quantity("flow to the brook").values.argmax())] / 3600.0
    assert "seventeen and a half hours after the first drop" in told and fullest == pytest.approx(17.5, abs=0.25)
    start, end = stage_of(timeline, "sinking")
    assert "For eight hours the pond sinks" in told and (end - start) / 3600.0 == pytest.approx(8.0, abs=0.25)
    soaking = timeline.quantity("soaking rate").in_unit()
    assert "54 mm an hour at first and 12 at the end" in told
    assert soaking.max() == pytest.approx(54.0, abs=0.5)
    assert at(timeline, "soaking rate", end - 60.0) == pytest.approx(12.0, abs=0.5)
    sand = run("rain-garden-storm", soil_conductivity=0.118 / 3600.0)
    assert "stays under 4 cm and nothing spills" in told
    assert sand.quantity("pond depth").in_unit().max() < 4.0 and sand.quantity("water down the drain").values[-1] == 0.0


def test_the_island_gives_what_its_notes_say() -> None:
    told, timeline = notes("desert-island-water"), run("desert-island-water")
    assert "4.5 litres to a square metre" in told and at(timeline, "fresh water", 86_400.0) == pytest.approx(
        4.5, abs=0.05
    )
    sunset = next(event.time_s for event in timeline.events if event.name == "sunset")
    for hours, ml in ((1.0, 53.0), (4.0, 11.0)):
        assert at(timeline, "dripping rate", sunset + 3600.0 * hours) == pytest.approx(ml, rel=0.1)
    assert "one hour after sunset some 53 ml an hour, four hours after it 11 ml" in told
    warm = timeline.quantity("brine temperature").in_unit()
    assert "The hottest salt water of our day is 67 °C" in told and warm.max() == pytest.approx(67.0, abs=0.5)
    vapour = timeline.quantity("evaporation rate").in_unit()
    at_36 = float(vapour[int(np.argmax(warm >= 36.0))])
    assert "from 36 °C to 67 °C it becomes some ten times as much" in told
    assert vapour.max() / at_36 == pytest.approx(10.0, rel=0.15)


def test_the_harbour_does_what_its_answers_say() -> None:
    told = notes("harbour-water-cycle")
    usual, cold = run("harbour-water-cycle"), run("harbour-water-cycle", sea_temperature=278.15)
    flat = run("harbour-water-cycle", hill_height=0.0)
    assert "No cloud, rain or river on this day" in told
    assert flat.quantity("cloud water").values.max() == 0.0
    assert "a little less cloud and rain" in told
    for name, least in (("cloud water", 0.7), ("rain rate", 0.7)):
        assert least < cold.quantity(name).values.max() / usual.quantity(name).values.max() < 1.0
    assert "Less water would evaporate" in told and total(cold, "evaporation rate") < total(usual, "evaporation rate")


def test_chocolate_climbs_more_slowly_where_its_notes_say() -> None:
    # Of the same heat, a degree takes more between 26 and 35 °C than below and above.
    assert "leans over between about 26 and 35 °C" in notes("chocolate-in-warm-water")
    timeline = run("chocolate-in-warm-water")
    kelvin, heat = timeline.quantity("temperature").values, timeline.quantity("heat from the bath").values

    def each(low_c: float, high_c: float) -> float:
        first, last = np.interp([low_c + 273.15, high_c + 273.15], kelvin, heat)
        return float(last - first) / (high_c - low_c)

    assert each(26.0, 35.0) > 2.0 * each(36.0, 41.0)
    assert each(26.0, 35.0) > 1.5 * each(20.0, 26.0)
    frozen = run("chocolate-in-warm-water", substance=1.0)  # wax does not melt in hand-hot water, as a note says
    assert frozen.quantity("share melted").values.max() == 0.0
    assert "Wax in water of 45 °C does not melt at all" in notes("chocolate-in-warm-water")
