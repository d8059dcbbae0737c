"""Drying: a puddle on the playground goes into the air, faster in sun, wind and dry air."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from sonify.constants import MOLAR_MASS_WATER_KG_PER_MOL, ZERO_CELSIUS_K
from sonify.errors import BadCondition
from sonify.processes.declared import Adviser, drift, first, quantities, spans, stages
from sonify.processes.drying_model import HEATS, STORES, Weather, simulate
from sonify.processes.drying_words import Day, events, litres, science_sentences
from sonify.processes.specs import quantity_spec
from sonify.records.process import ConditionSpec, ProcessSpec, StageSpec
from sonify.records.timeline import Conserved, FloatArray, Missing, Timeline
from sonify.records.words import duration_text
from sonify.science.kinetic import mean_speed
from sonify.science.saturation import saturation_vapour_pressure

NEARLY = 0.9  # of the fastest evaporation: from then on it is as good as steady
LEFT_IN_PATCHES = 0.25  # of the water
LEAST_GONE = 0.02  # of the water: less, and nothing can be said to dry

CONDITIONS = tuple(
    ConditionSpec(name=name, meaning=meaning, unit=unit, si_unit=si_unit, default=usual, low=low, high=high)
    for name, meaning, (unit, si_unit), usual, (low, high) in (
        ("depth", "depth of the puddle in the middle, right after the rain", ("mm", "m"), 4.0e-3, (0.3e-3, 30.0e-3)),
        ("width", "how wide the puddle is from edge to edge", ("m", "m"), 1.5, (0.1, 10.0)),
        (
            "water_temperature",
            "temperature of the puddle right after the rain",
            ("degC", "K"),
            ZERO_CELSIUS_K + 12.0,
            (ZERO_CELSIUS_K + 1.0, ZERO_CELSIUS_K + 40.0),
        ),
        (
            "air_temperature",
            "temperature of the air",
            ("degC", "K"),
            ZERO_CELSIUS_K + 20.0,
            (ZERO_CELSIUS_K + 1.0, ZERO_CELSIUS_K + 40.0),
        ),
        ("humidity", "how full of vapour the air is, as a share of what it can hold", ("%", "1"), 0.5, (0.05, 1.0)),
        ("wind", "wind two metres above the ground", ("m/s", "m/s"), 4.0, (0.0, 15.0)),
        ("sunlight", "sunlight on the ground; 0 in the shade", ("W/m**2", "W/m**2"), 600.0, (0.0, 1000.0)),
    )
)

STAGES = (
    StageSpec(
        name="warming",
        title="The puddle warms",
        seen_as="the evaporation from each wet spot is still below nine tenths of its fastest",
    ),
    StageSpec(
        name="drying",
        title="The edge creeps in",
        seen_as="evaporation is nearly as fast as it gets, and more than a quarter of the water is left",
    ),
    StageSpec(name="patches", title="The last of it", seen_as="less than a quarter of the water is left"),
    StageSpec(name="dry", title="Dry", seen_as="no water is left"),
)
ORDER = tuple(stage.name for stage in STAGES)


_MASS, _ENERGY = ("kg", "kg"), ("kJ", "J")

QUANTITIES = (
    quantity_spec(
        "puddle temperature", "T", ("degC", "K"), "how warm water and wet tarmac are; once dry, as they were last"
    ),
    quantity_spec(
        "mean molecule speed",
        "v",
        ("m/s", "m/s"),
        "mean speed of the puddle's molecules at that temperature, by kinetic theory",
        companion="puddle temperature",
    ),
    quantity_spec("water left", "M", _MASS, "water in the puddle; a kilogram is a litre"),
    quantity_spec("water in the air", "V", _MASS, "water that has left the puddle as vapour"),
    quantity_spec("puddle area", "A", ("m**2", "m**2"), "ground that the water covers"),
    quantity_spec("puddle depth", "h", ("mm", "m"), "depth of the water at its deepest"),
    quantity_spec(
        "evaporation rate", "E", ("mm/h", "m/s"), "water that leaves each wet spot; negative where dew falls"
    ),
    quantity_spec("water leaving", "L", ("g/min", "kg/s"), "water that leaves the whole puddle, minute by minute"),
    quantity_spec("pull of the air", "D", ("hPa", "Pa"), "vapour pressure at the wet surface less that of the air"),
    quantity_spec("heat from the sun", "Q_s", _ENERGY, "sunlight that the puddle has taken in since the start"),
    quantity_spec("heat spent on evaporation", "Q_e", _ENERGY, "heat that it took to turn the water into vapour"),
)

HONESTY = (
    "The weather stands still: one sun, one wind, one temperature until the ground is dry. A real playground has "
    "clouds, shade that wanders, evening and dew.",
    "Water evaporates at any temperature; nothing boils here. Warm water, dry air and wind make it faster.",
    "The wind formula was made for ponds and whole days (after Dunne, in Ponce 1989). Small puddles dry somewhat "
    "faster, because dry air comes in from all sides. Its still-air part keeps some drying going without wind.",
    "The hollow is round and shaped like the bowl of a spoon, and nothing seeps into the ground or runs off. On grass "
    "or gravel most of a puddle would soak away.",
    "Water and the top three centimetres of tarmac are taken to be equally warm; how much heat that layer holds, how "
    "much sun is reflected and half a sky of cloud are round figures of ours.",
    "Evaporating takes heat. In the shade a puddle is colder than the air, as a wet hand is in the wind.",
    "Water vapour is a gas and cannot be seen. The mist over a road after a summer shower is tiny drops, not vapour.",
    "Molecule speeds are those of kinetic theory; the particle picture is enrichment at this age in England.",
)

SOURCES = (
    "BOWEN-1926",
    "BRUTSAERT-1975",
    "FAO-56",
    "HARRISON-1963",
    "HAYASHI-VAN-DER-KAMP-2000",
    "MURPHY-KOOP-2005",
    "OPENSTAX-UP2",
    "PONCE-1989",
    "UNSWORTH-MONTEITH-1975",
)


def run(conditions: Mapping[str, float]) -> Timeline:
    """The drying that follows from the conditions (SI units).

    Raises BadCondition where the air takes up nothing, the puddle freezes, or the formulae do not reach.
    """
    weather = Weather.of(conditions)
    day = simulate(weather)
    if day["vapour_kg"][-1] < LEAST_GONE * weather.full_kg:
        gone, watched = float(day["vapour_kg"][-1]), duration_text(float(day["time_s"][-1]))
        what = f"only {litres(gone)} of {litres(weather.full_kg)} dry up" if gone > 0.0 else "dew falls into the puddle"
        raise BadCondition(
            "humidity",
            f"in air {100.0 * weather.humidity:.0f} % full of vapour {what} in {watched}; take drier or warmer air, "
            "more wind or more sunlight",
        )
    found = stage_spans(day)
    return Timeline(
        process=PROCESS.name,
        time_s=day["time_s"],
        quantities=quantities(QUANTITIES, quantity_values(weather, day)),
        stages=stages(STAGES, found, day["time_s"], science_sentences(weather, day, found)),
        events=events(day, found),
        missing=missing(day, found, conditions),
        conserved=(
            Conserved(name="water", relative_drift=drift([day[name] for name in STORES], float(day["vapour_kg"][-1]))),
            Conserved(name="energy", relative_drift=energy_drift(day)),
        ),
    )


def stage_spans(day: Day) -> dict[str, tuple[int, int]]:
    """The stages that came: first and last minute of each."""
    rate, water = day["rate_kg_m2_s"], day["water_kg"]
    steady = first(rate >= NEARLY * rate.max())
    return spans(
        {
            "warming": 0,
            "drying": steady,
            "patches": first(water <= LEFT_IN_PATCHES * water[0]),
            "dry": first(water <= 0.0),
        },
        len(water) - 1,
    )


def energy_drift(day: Day) -> float:
    """The largest drift of heat held, left behind and passed on against the sun's, relative to all that moved."""
    held, sun, *rest = (day[name] for name in HEATS)
    moved = float(sum(np.sum(np.abs(np.diff(store))) for store in (sun, *rest)))
    return drift([held, -sun, *rest], moved)


def quantity_values(weather: Weather, day: Day) -> dict[str, FloatArray]:
    """Every quantity in SI units by name."""
    surface_k = day["surface_k"]
    wet = day["water_kg"] > 0.0
    return {
        "puddle temperature": surface_k,
        "mean molecule speed": mean_speed(surface_k, MOLAR_MASS_WATER_KG_PER_MOL),
        "water left": day["water_kg"],
        "water in the air": day["vapour_kg"],
        "puddle area": day["area_m2"],
        "puddle depth": day["depth_m"],
        "evaporation rate": day["rate_kg_m2_s"] / 1000.0,  # a kilogram on a square metre is a millimetre
        "water leaving": day["leaving_kg_s"],
        "pull of the air": np.where(wet, saturation_vapour_pressure(surface_k) - weather.vapour_pa, 0.0),
        "heat from the sun": day["sun_j"],
        "heat spent on evaporation": day["spent_j"],
    }


def missing(day: Day, found: Mapping[str, tuple[int, int]], conditions: Mapping[str, float]) -> tuple[Missing, ...]:
    """Why each stage that did not come stayed away, and which condition to change."""
    adviser = Adviser(specs=CONDITIONS, conditions=conditions, found=_stages_under)
    lacking = []
    for name in ORDER:
        if name in found:
            continue
        if name == "warming":
            reason = "the puddle starts as warm as sun and air make it"
            changes = [("water_temperature", ZERO_CELSIUS_K + 5.0), ("sunlight", 800.0), ("air_temperature", 303.15)]
        elif name == "drying":
            reason = "there is so little water that it has gone before it has grown warm"
            changes = [("depth", 2.0 * conditions["depth"]), ("depth", 5.0 * conditions["depth"])]
        else:
            left = float(day["water_kg"][-1])
            reason = f"after {duration_text(float(day['time_s'][-1]))} {litres(left)} are still there"
            changes = [("sunlight", 600.0), ("wind", 8.0), ("depth", 2.0e-3), ("humidity", 0.3)]
        lacking.append(adviser.missing(name, reason, changes))
    return tuple(lacking)


def _stages_under(conditions: Mapping[str, float]) -> list[str]:
    try:
        return list(stage_spans(simulate(Weather.of(conditions))))
    except BadCondition:
        return []


PROCESS = ProcessSpec(
    name="drying",
    title="A puddle dries",
    summary="A puddle on the playground goes into the air, faster in sun, wind and dry air.",
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=HONESTY,
    sources=SOURCES,
)
