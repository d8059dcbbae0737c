"""The water cycle: one day of water over a harbour town, from dawn to dawn."""

from __future__ import annotations

from collections.abc import Mapping
from math import radians

import numpy as np

from sonify.constants import MOLAR_MASS_WATER_KG_PER_MOL, STANDARD_ATMOSPHERE_PA, ZERO_CELSIUS_K
from sonify.errors import BadCondition
from sonify.processes.declared import quantities, stages
from sonify.processes.specs import quantity_spec
from sonify.processes.water_cycle_journey import journey
from sonify.processes.water_cycle_missing import missing
from sonify.processes.water_cycle_model import (
    AIR_KG_PER_M2,
    LAND_SHARE,
    STEP_S,
    STORES,
    Morning,
    drop_diameter,
    fall_speed,
)
from sonify.processes.water_cycle_stages import RAIN_M_S, STAGES, Day, found, observe
from sonify.processes.water_cycle_words import events, science_sentences
from sonify.records.process import ConditionSpec, ProcessSpec
from sonify.records.timeline import Conserved, FloatArray, Timeline
from sonify.science.humidity import relative_humidity, vapour_pressure
from sonify.science.kinetic import mean_speed

TRAVELLER = "the water on its journey"

CONDITIONS = (
    ConditionSpec(
        name="latitude",
        meaning="how far north of the equator the harbour lies (south is negative)",
        unit="deg",
        si_unit="rad",
        default=radians(54.0),
        low=radians(-65.0),
        high=radians(65.0),
    ),
    ConditionSpec(
        name="day",
        meaning="day of the year, 1 is 1 January and 172 is 21 June",
        unit="1",
        si_unit="1",
        default=172.0,
        low=1.0,
        high=365.0,
        whole=True,
    ),
    ConditionSpec(
        name="sea_temperature",
        meaning="temperature of the sea at dawn",
        unit="degC",
        si_unit="K",
        default=ZERO_CELSIUS_K + 14.0,
        low=ZERO_CELSIUS_K,
        high=ZERO_CELSIUS_K + 30.0,
    ),
    ConditionSpec(
        name="humidity",
        meaning="how full of vapour the air is at dawn, as a share of what it can hold",
        unit="%",
        si_unit="1",
        default=0.72,
        low=0.05,
        high=1.0,
    ),
    ConditionSpec(
        name="wind",
        meaning="wind from the sea towards the hill, 10 m above the water",
        unit="m/s",
        si_unit="m/s",
        default=4.0,
        low=1.0,
        high=20.0,
    ),
    ConditionSpec(
        name="hill_height",
        meaning="height of the hill behind the town, which lifts the air",
        unit="m",
        si_unit="m",
        default=900.0,
        low=0.0,
        high=3000.0,
    ),
    ConditionSpec(
        name="air_temperature",
        meaning="temperature of the air at dawn",
        unit="degC",
        si_unit="K",
        default=ZERO_CELSIUS_K + 11.0,
        low=ZERO_CELSIUS_K,
        high=ZERO_CELSIUS_K + 32.0,
    ),
)


_TEMPERATURE, _RATE, _DEPTH, _HEIGHT = ("degC", "K"), ("mm/h", "m/s"), ("mm", "m"), ("m", "m")

QUANTITIES = (
    quantity_spec(
        "sun height", "h", ("deg", "rad"), "height of the Sun above the horizon, negative at night", true_zero=False
    ),
    quantity_spec("sunlight", "G", ("W/m**2", "W/m**2"), "sunlight that reaches the ground through any cloud"),
    quantity_spec("sea temperature", "T_s", _TEMPERATURE, "the sea, stirred ten metres deep", whose="the deep sea"),
    quantity_spec("shallows temperature", "T_f", _TEMPERATURE, "ankle-deep water by the shore", whose="the shallows"),
    quantity_spec("air temperature", "T_a", _TEMPERATURE, "the air near the ground", whose="the air"),
    quantity_spec("relative humidity", "U", ("%", "1"), "vapour near the ground, as a share of what the air can hold"),
    quantity_spec(
        "evaporation rate", "E", _RATE, "water leaving the surface of sea and shallows; negative where dew falls"
    ),
    quantity_spec("water vapour", "W_v", _DEPTH, "vapour in the air, as a layer of water over the whole column"),
    quantity_spec("cloud base", "z_b", _HEIGHT, "height at which rising air would begin to form cloud"),
    quantity_spec("height the air climbs", "z_c", _HEIGHT, "how high wind and warmed ground carry the air up the hill"),
    quantity_spec("condensation rate", "C", _RATE, "vapour becoming cloud drops, over the whole column"),
    quantity_spec("cloud water", "W_c", _DEPTH, "liquid water in cloud drops, over the whole column"),
    quantity_spec("rain rate", "R", _RATE, "rain on town and hill"),
    quantity_spec(
        "drop size", "D", ("mm", "m"), "diameter above which half the rain's water falls; 0 while none falls"
    ),
    quantity_spec("drop fall speed", "v_d", ("m/s", "m/s"), "speed at which such a drop falls; 0 while none falls"),
    quantity_spec("river flow", "Q", _RATE, "water the river brings to the sea, as a layer over town and hill"),
    quantity_spec("water in the sea", "W_s", _DEPTH, "the stirred upper ten metres of sea, over the whole column"),
    quantity_spec("water in the shallows", "W_f", _DEPTH, "the ankle-deep water, over the whole column"),
    quantity_spec("falling rain", "W_r", _DEPTH, "rain on its way down, over the whole column"),
    quantity_spec(
        "water in the hillside", "W_h", _DEPTH, "today's rain that has soaked into the ground, over the column"
    ),
    quantity_spec("water in the river", "W_q", _DEPTH, "today's rain that is in the river, over the whole column"),
    quantity_spec(
        "height of the water",
        "z",
        _HEIGHT,
        "how high the water is: 0 at sea, up as vapour, down as rain",
        whose=TRAVELLER,
    ),
    quantity_spec("journey temperature", "T", _TEMPERATURE, "how warm the water is, wherever it is", whose=TRAVELLER),
    quantity_spec(
        "mean molecule speed",
        "v",
        ("m/s", "m/s"),
        "mean speed of its molecules, at that temperature",
        whose=TRAVELLER,
        companion="journey temperature",
    ),
)

HONESTY = (
    "Clouds form without hills too: wherever air rises, over warm ground or where warm air glides over cold air.",
    "Evaporation does not stop while it rains, and it did not start with the sun: only its rate changes.",
    "Plants and damp ground send up much of the vapour over land (transpiration); this model leaves them out and "
    "counts only what sea and shallows give.",
    "Condensation gives out the heat that evaporation took. The model lets it warm the rising air, so that a cloud "
    "cools more slowly with height than dry air does, but not the air over the town.",
    "Real water stays in the air for days, about 8.9 on the world's average (van der Ent and Tuinenburg 2017), and "
    "comes down far from where it rose; here one column of air keeps its water, and a day is enough.",
    "It is one column of air and one day: no weather comes in from elsewhere, no front passes, and nothing freezes.",
    "The temperature of the water on its journey is a story line through the model, not the path of one molecule: it "
    "is the model's own temperature of the sea, the shallows, the vapour, the cloud, the rain and the river in turn.",
    "At one temperature the molecules of vapour have the same mean speed as those of liquid water. A gas is not faster "
    "because it is a gas: its molecules are further apart and free.",
    "How deep the tide, the night's layered air and the shallows are, and how fast hillside and river let water go, "
    "are round figures of ours; the formulae between them are published.",
    "Rates are given where they happen (evaporation over the water, rain and river over town and hill), stores as "
    "layers over the whole column; so 1 mm of rain on the land is "
    f"{LAND_SHARE:g} mm of the column's water.",
    "Times are by the Sun: at noon it stands highest.",
)

SOURCES = (
    "ALMANAC-1988",
    "AMS-GLOSSARY",
    "ATLAS-1973",
    "BOHREN-1987",
    "BOLTON-1980",
    "BRUTSAERT-1975",
    "CHOW-1988",
    "FAO-56",
    "GUNN-KINZER-1949",
    "HARRISON-1963",
    "HAURWITZ-1945",
    "KESSLER-1969",
    "MARSHALL-PALMER-1948",
    "MEEUS-1998",
    "MURPHY-KOOP-2005",
    "OPENSTAX-UP2",
    "ROGERS-YAU-1989",
    "STEPHENS-1978",
    "STULL-1988",
    "TR-55",
    "UNSWORTH-MONTEITH-1975",
    "USSA-1976",
    "VAN-DER-ENT-2017",
    "WALLACE-HOBBS-2006",
)


def run(conditions: Mapping[str, float]) -> Timeline:
    """The day that follows from the conditions (SI units): quantities, the stages found, and what was conserved.

    Raises BadCondition for a day without a single stage (dew and no cloud in the dark of a polar winter).
    """
    day = observe(Morning.of(conditions))
    spans = found(day)
    lacking = missing(day, spans)
    if not spans:
        raise BadCondition(
            lacking[0].condition, f"nothing of the water cycle comes: {lacking[0].reason}. {lacking[0].fix}"
        )
    values = quantity_values(day, spans)
    return Timeline(
        process=PROCESS.name,
        time_s=day["time_s"],
        quantities=quantities(QUANTITIES, values),
        stages=stages(STAGES, spans, day["time_s"], science_sentences(day, spans)),
        events=events(day, spans),
        missing=lacking,
        conserved=(Conserved(name="water", relative_drift=drift(day)),),
        clock_start=day.morning.sunrise_h,
    )


def quantity_values(day: Day, spans: dict[str, tuple[int, int]]) -> dict[str, FloatArray]:
    """Every quantity in SI units by name."""
    traveller = journey(day, spans)
    e_air = vapour_pressure(day["vapour"] / AIR_KG_PER_M2, STANDARD_ATMOSPHERE_PA)
    rain = day["rain_rate_m_s"]
    falls = rain >= RAIN_M_S
    per_step = 1.0e-3 / STEP_S  # mm in a step to m/s
    return {
        "sun height": day["sun_rad"],
        "sunlight": day["sunlight"],
        "sea temperature": day["sea_k"],
        "shallows temperature": day["shallows_k"],
        "air temperature": day["air_k"],
        "relative humidity": relative_humidity(e_air, day["air_k"]),
        "evaporation rate": day.evaporation_mm_h * 1.0e-3 / 3600.0,
        "water vapour": day["vapour"] * 1.0e-3,
        "cloud base": day.lcl_m,
        "height the air climbs": day.climb_m,
        "condensation rate": day["condensation"] * per_step,
        "cloud water": day["cloud"] * 1.0e-3,
        "rain rate": rain,
        "drop size": np.array([drop_diameter(r) if some else 0.0 for r, some in zip(rain, falls, strict=True)]),
        "drop fall speed": np.array([fall_speed(r) if some else 0.0 for r, some in zip(rain, falls, strict=True)]),
        "river flow": day["returning"] / LAND_SHARE * per_step,
        "water in the sea": day["sea"] * 1.0e-3,
        "water in the shallows": day["shallows"] * 1.0e-3,
        "falling rain": day["falling"] * 1.0e-3,
        "water in the hillside": day["hillside"] * 1.0e-3,
        "water in the river": day["river"] * 1.0e-3,
        "height of the water": traveller.height_m,
        "journey temperature": traveller.temperature_k,
        "mean molecule speed": mean_speed(traveller.temperature_k, MOLAR_MASS_WATER_KG_PER_MOL),
    }


def drift(day: Day) -> float:
    """The largest change of all stores' water together, relative to the water that moved between them."""
    total = np.sum([day[store] for store in STORES], axis=0)
    return float(np.max(np.abs(total - total[0])) / day["moved"][-1])


PROCESS = ProcessSpec(
    name="water-cycle",
    title="The water cycle",
    summary="One day of water over a harbour town: sun, evaporation, cloud over the hill, rain, and the river home.",
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=HONESTY,
    sources=SOURCES,
    cycle=True,
)
