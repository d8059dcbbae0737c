"""The rain garden: a storm on roofs and paths, the hollow that takes their water, and the ground that keeps it."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from sonify.processes.declared import drift, quantities, stages
from sonify.processes.rain_garden_model import STORES, Garden
from sonify.processes.rain_garden_words import STAGES, Flood, events, found, missing, observe, told
from sonify.processes.specs import Declared
from sonify.processes.telling import Stretch
from sonify.records.process import ProcessSpec
from sonify.records.timeline import Conserved, FloatArray, Timeline
from sonify.science.infiltration import SOILS

HOUR_S = 3600.0
_SOIL = SOILS["sandy loam"]


_MM, _CM, _AREA, _SHARE, _HOURS = ("mm", "m"), ("cm", "m"), ("m**2", "m**2"), ("%", "1"), ("h", "s")

_DECLARED = Declared("rain_garden")

CONDITIONS = (
    _DECLARED.condition("rain", _MM, 0.035, (0.0005, 0.150)),
    _DECLARED.condition("storm_length", ("min", "s"), 5400.0, (600.0, 24 * HOUR_S)),
    _DECLARED.condition("storm_peak", _SHARE, 0.35, (0.05, 0.95)),
    _DECLARED.condition("watched", _HOURS, 30 * HOUR_S, (HOUR_S, 120 * HOUR_S)),
    _DECLARED.condition("roof_area", _AREA, 60.0, (0.0, 1000.0)),
    _DECLARED.condition("path_area", _AREA, 20.0, (0.0, 1000.0)),
    _DECLARED.condition(
        "path_curve",
        ("1", "1"),
        89.0,
        (30.0, 98.0),
    ),
    _DECLARED.condition("garden_area", _AREA, 14.0, (1.0, 500.0)),
    _DECLARED.condition("garden_depth", _CM, 0.12, (0.0, 0.60)),
    _DECLARED.condition(
        "soil_conductivity",
        ("mm/h", "m/s"),
        _SOIL.conductivity_m_s,
        (0.1e-3 / HOUR_S, 0.3 / HOUR_S),
    ),
    _DECLARED.condition("soil_suction", _CM, _SOIL.suction_m, (0.0, 0.50)),
    _DECLARED.condition("soil_pores", _SHARE, _SOIL.pores, (0.05, 0.60)),
    _DECLARED.condition("soil_wetness", _SHARE, 0.5, (0.0, 0.95)),
    _DECLARED.condition("soil_depth", _CM, 0.60, (0.10, 3.0)),
    _DECLARED.condition("soil_time", _HOURS, 6 * HOUR_S, (0.5 * HOUR_S, 240 * HOUR_S)),
    _DECLARED.condition("ground_time", _HOURS, 36 * HOUR_S, (HOUR_S, 2000 * HOUR_S)),
    _DECLARED.condition("ground_water", _MM, 0.020, (0.0, 1.0)),
)


_RATE, _FLOW, _LITRES = ("mm/h", "m/s"), ("l/min", "m**3/s"), ("l", "m**3")

QUANTITIES = (
    _DECLARED.quantity("rain rate", "R", _RATE),
    _DECLARED.quantity("rain so far", "P", _MM),
    _DECLARED.quantity("run-off", "Q_r", _FLOW),
    _DECLARED.quantity("water coming in", "Q_i", _FLOW),
    _DECLARED.quantity("pond depth", "h", _CM),
    _DECLARED.quantity("soaking rate", "f", _RATE),
    _DECLARED.quantity("overflow", "Q_o", _FLOW),
    _DECLARED.quantity("seeping down", "q", _RATE),
    _DECLARED.quantity("flow to the brook", "Q_b", ("l/h", "m**3/s")),
    _DECLARED.quantity("rain still to fall", "V_s", _LITRES),
    _DECLARED.quantity("water on roofs and paths", "V_w", _LITRES),
    _DECLARED.quantity("water on its way", "V_g", _LITRES),
    _DECLARED.quantity("water in the pond", "V_p", _LITRES),
    _DECLARED.quantity("water in the soil", "V_so", _LITRES),
    _DECLARED.quantity("ground water", "V_gr", _LITRES),
    _DECLARED.quantity("water in the brook", "V_b", _LITRES),
    _DECLARED.quantity("water down the drain", "V_d", _LITRES),
)

HONESTY = _DECLARED.honesty(7)

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
    title=_DECLARED.words("title"),
    summary=_DECLARED.words("summary"),
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=HONESTY,
    sources=SOURCES,
)
