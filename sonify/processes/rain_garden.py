"""The rain garden: a storm on roofs and paths, the hollow that takes their water, and the ground that keeps it."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from sonify.processes.declared import drift, quantities, stages
from sonify.processes.rain_garden_model import STORES, Garden
from sonify.processes.rain_garden_words import STAGES, Flood, events, found, missing, observe, told
from sonify.processes.specs import condition_spec, quantity_spec
from sonify.processes.telling import Stretch
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Conserved, FloatArray, Timeline
from sonify.science.infiltration import SOILS

HOUR_S = 3600.0
_SOIL = SOILS["sandy loam"]


_MM, _CM, _AREA, _SHARE, _HOURS = ("mm", "m"), ("cm", "m"), ("m**2", "m**2"), ("%", "1"), ("h", "s")

CONDITIONS = (
    condition_spec("rain", "rain of the whole storm", _MM, 0.035, (0.0005, 0.150)),
    condition_spec("storm_length", "how long it rains", ("min", "s"), 5400.0, (600.0, 24 * HOUR_S)),
    condition_spec("storm_peak", "share of the storm after which it rains hardest", _SHARE, 0.35, (0.05, 0.95)),
    condition_spec("watched", "how long we watch, from the first drop", _HOURS, 30 * HOUR_S, (HOUR_S, 120 * HOUR_S)),
    condition_spec("roof_area", "roofs that drain into the garden", _AREA, 60.0, (0.0, 1000.0)),
    condition_spec("path_area", "paths and yard that drain into the garden", _AREA, 20.0, (0.0, 1000.0)),
    condition_spec(
        "path_curve",
        "how little the paths let in, as a curve number: 98 asphalt, 89 gravel on heavy soil, 61 grass",
        ("1", "1"),
        89.0,
        (30.0, 98.0),
    ),
    condition_spec("garden_area", "area of the rain garden", _AREA, 14.0, (1.0, 500.0)),
    condition_spec("garden_depth", "depth of its hollow below the lip", _CM, 0.12, (0.0, 0.60)),
    condition_spec(
        "soil_conductivity",
        "how fast wet soil lets water through: sand 118, sandy loam 11, clay 0.3 mm/h",
        ("mm/h", "m/s"),
        _SOIL.conductivity_m_s,
        (0.1e-3 / HOUR_S, 0.3 / HOUR_S),
    ),
    condition_spec(
        "soil_suction", "how strongly dry soil sucks, as a height of water", _CM, _SOIL.suction_m, (0.0, 0.50)
    ),
    condition_spec("soil_pores", "share of the soil that water can fill", _SHARE, _SOIL.pores, (0.05, 0.60)),
    condition_spec("soil_wetness", "share of the pores that is full before the storm", _SHARE, 0.5, (0.0, 0.95)),
    condition_spec("soil_depth", "depth of the soil above the ground water", _CM, 0.60, (0.10, 3.0)),
    condition_spec("soil_time", "how long water stays in the soil", _HOURS, 6 * HOUR_S, (0.5 * HOUR_S, 240 * HOUR_S)),
    condition_spec("ground_time", "how long ground water stays", _HOURS, 36 * HOUR_S, (HOUR_S, 2000 * HOUR_S)),
    condition_spec("ground_water", "ground water under the garden at the start, as a layer", _MM, 0.020, (0.0, 1.0)),
)


_RATE, _FLOW, _LITRES = ("mm/h", "m/s"), ("l/min", "m**3/s"), ("l", "m**3")

QUANTITIES = (
    quantity_spec("rain rate", "R", _RATE, "how hard it rains"),
    quantity_spec("rain so far", "P", _MM, "rain since the first drop"),
    quantity_spec("run-off", "Q_r", _FLOW, "water from roofs and paths that runs into the garden"),
    quantity_spec("water coming in", "Q_i", _FLOW, "run-off, and the rain on the garden itself"),
    quantity_spec("pond depth", "h", _CM, "how deep the water stands in the hollow"),
    quantity_spec("soaking rate", "f", _RATE, "how fast the garden's soil drinks"),
    quantity_spec("overflow", "Q_o", _FLOW, "water that runs over the lip into the street drain"),
    quantity_spec("seeping down", "q", _RATE, "water that passes from the soil to the ground water"),
    quantity_spec("flow to the brook", "Q_b", ("l/h", "m**3/s"), "ground water that comes out in the brook"),
    quantity_spec("rain still to fall", "V_s", _LITRES, "rain that has yet to fall on roofs, paths and garden"),
    quantity_spec(
        "water on roofs and paths", "V_w", _LITRES, "rain that roofs and paths keep, and that dries off later"
    ),
    quantity_spec("water on its way", "V_g", _LITRES, "run-off in gutters, pipes and along paths"),
    quantity_spec("water in the pond", "V_p", _LITRES, "water that stands in the hollow"),
    quantity_spec("water in the soil", "V_so", _LITRES, "water of this storm in the soil"),
    quantity_spec("ground water", "V_gr", _LITRES, "water under the garden that the brook can still get"),
    quantity_spec("water in the brook", "V_b", _LITRES, "ground water that has come out into the brook so far"),
    quantity_spec("water down the drain", "V_d", _LITRES, "water that has spilt into the street drain so far"),
)

HONESTY = (
    "The storm has one peak and grows and dies away evenly, a shape that engineers use for design. Real storms come in "
    "bursts.",
    "What runs off roofs and paths is reckoned with curve numbers from an American table, as a pattern and not as a "
    "design value; roofs are given the number 98 of that table.",
    "The soil is the same all through, and water sinks into it with a sharp wet front. Real soil has roots and "
    "worm-holes that let the first water run down quickly.",
    "Two things pull water into the soil: its own suction, as in kitchen paper, and the weight of the pond. The longer "
    "the way through wet soil, the less of both arrives at the wet front, so the soil drinks ever more slowly.",
    "How long water stays in soil and ground are conditions of the scene, each let go in proportion to what there is. "
    "Real ground water also comes from and goes to other places.",
    "Plants drink from the garden and water dries from its surface; over a day and a half that is a few millimetres, "
    "and the model leaves it out. The water that roofs and paths keep dries off later.",
    "A rain garden is planned for its own soil and place. These figures are a lesson, not a plan.",
)

SOURCES = (
    "CHOW-1988",
    "GREEN-AMPT-1911",
    "MEIN-LARSON-1973",
    "RAWLS-1983",
    "TR-55",
    "YEN-CHOW-1980",
)


def run(conditions: Mapping[str, float]) -> Timeline:
    """The storm and what follows from the conditions (SI units): quantities, stages found, what was conserved."""
    flood = observe(Garden.of(conditions))
    came = found(flood)
    time_s = flood.storm.time_s
    stores = [flood[store] for store in STORES]
    made = quantities(QUANTITIES, _values(flood))
    whole = Stretch.whole(time_s, made)
    return Timeline(
        process=PROCESS.name,
        time_s=time_s,
        quantities=made,
        stages=stages(STAGES, came, time_s, told(flood, whole, came)),
        events=events(flood, whole),
        missing=missing(flood, whole, came, conditions, CONDITIONS),
        conserved=(Conserved(name="water", relative_drift=drift(stores, float(flood["moved"][-1]))),),
    )


def _values(flood: Flood) -> dict[str, FloatArray]:
    """Every quantity in SI units by name. Rates hold over the step that follows a time."""
    area = flood.garden.garden_area
    return {
        "rain rate": flood.rain_m_s,
        "rain so far": np.asarray(flood.storm.fallen_m),
        "run-off": flood.rate_m3_s("arriving"),
        "water coming in": flood.coming_m3_s,
        "pond depth": flood.depth_m,
        "soaking rate": flood.soaking_m_s,
        "overflow": flood.rate_m3_s("spill"),
        "seeping down": flood.rate_m3_s("down") / area,
        "flow to the brook": flood.rate_m3_s("springs"),
        "rain still to fall": flood["sky"],
        "water on roofs and paths": flood["wetting"],
        "water on its way": flood["gutters"],
        "water in the pond": flood["pond"],
        "water in the soil": flood["soil"],
        "ground water": flood["ground"],
        "water in the brook": flood["brook"],
        "water down the drain": flood["drain"],
    }


PROCESS = ProcessSpec(
    name="rain-garden",
    title="A rain garden in a storm",
    summary="A storm on roofs and paths, a planted hollow that takes their water, and the ground that keeps it.",
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=HONESTY,
    sources=SOURCES,
)
