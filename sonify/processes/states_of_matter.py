"""The states of matter: particles in a flat box, heated from a cold solid until most of them fly on their own."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

import numpy as np

from sonify.constants import ZERO_CELSIUS_K
from sonify.errors import BadCondition
from sonify.kinds.timelines import BRIEF
from sonify.processes.declared import quantities, stages
from sonify.processes.specs import quantity_spec
from sonify.processes.states_of_matter_box import LEAST_DENSITY, MOST_DENSITY, BoxParams, simulate_box
from sonify.processes.states_of_matter_run import BoxRun
from sonify.processes.states_of_matter_stages import STAGES, Readings, found, readings, wandered
from sonify.processes.states_of_matter_words import PATH_S, events, missing, told
from sonify.processes.telling import Stretch
from sonify.records.fact import fact, wrong
from sonify.records.process import ConditionSpec, ProcessSpec, SlowPart
from sonify.records.timeline import Conserved, FloatArray, Timeline
from sonify.science.kinetic import mean_speed
from sonify.science.particles import ARGON_DIAMETER_M, ARGON_KG_PER_MOL

FRAMES = 400  # kept of a run for the Timeline
#: Energy is followed in small steps, so it drifts; the largest of many random runs was 0.2 % of what moved.
DRIFT_ALLOWED = 5e-3

BOX = fact("states_of_matter-whose")

CONDITIONS = (
    ConditionSpec(
        name="particles",
        meaning=fact("states_of_matter-condition-particles"),
        unit="1",
        si_unit="1",
        default=200.0,
        low=60.0,
        high=600.0,
        whole=True,
    ),
    ConditionSpec(
        name="box_width",
        meaning=fact("states_of_matter-condition-box_width"),
        unit="nm",
        si_unit="m",
        default=12.0e-9,
        low=4.0e-9,
        high=30.0e-9,
    ),
    ConditionSpec(
        name="start_temperature",
        meaning=fact("states_of_matter-condition-start_temperature"),
        unit="degC",
        si_unit="K",
        default=ZERO_CELSIUS_K - 249.0,
        low=ZERO_CELSIUS_K - 261.0,
        high=ZERO_CELSIUS_K - 238.0,
    ),
    ConditionSpec(
        name="heat",
        meaning=fact("states_of_matter-condition-heat"),
        unit="kJ/mol",
        si_unit="J/mol",
        default=3000.0,
        low=200.0,
        high=6000.0,
    ),
    ConditionSpec(
        name="duration",
        meaning=fact("states_of_matter-condition-duration"),
        unit="ps",
        si_unit="s",
        default=240.0e-12,
        low=60.0e-12,
        high=400.0e-12,
    ),
    ConditionSpec(
        name="shuffle",
        meaning=fact("states_of_matter-condition-shuffle"),
        unit="1",
        si_unit="1",
        default=0.0,
        low=0.0,
        high=9999.0,
        whole=True,
    ),
)


_SPEED, _LENGTH, _SHARE, _HEAT = ("m/s", "m/s"), ("nm", "m"), ("%", "1"), ("kJ/mol", "J/mol")

QUANTITIES = (
    quantity_spec("temperature", "T", ("degC", "K"), fact("states_of_matter-quantity-temperature"), whose=BOX),
    quantity_spec("mean speed", "v", _SPEED, fact("states_of_matter-quantity-mean-speed"), whose=BOX),
    quantity_spec(
        "speed of real argon atoms",
        "v_r",
        _SPEED,
        fact("states_of_matter-quantity-real-speed"),
        companion="temperature",
    ),
    quantity_spec(
        "knock rate",
        "k",
        ("count/ns", "1/s"),
        fact("states_of_matter-quantity-knock-rate"),
    ),
    quantity_spec("order", "psi", _SHARE, fact("states_of_matter-quantity-order")),
    quantity_spec("isolated share", "a", _SHARE, fact("states_of_matter-quantity-isolated-share")),
    quantity_spec("number of neighbours", "n", ("1", "1"), fact("states_of_matter-quantity-number-of-neighbours")),
    quantity_spec("spacing", "d", _LENGTH, fact("states_of_matter-quantity-spacing")),
    quantity_spec("spacing inside", "d_i", _LENGTH, fact("states_of_matter-quantity-spacing-inside")),
    quantity_spec("wandering", "w", _LENGTH, fact("states_of_matter-quantity-wandering")),
    quantity_spec("heat given", "Q", _HEAT, fact("states_of_matter-quantity-heat-given")),
    quantity_spec("energy gained", "E", _HEAT, fact("states_of_matter-quantity-energy-gained")),
)

HONESTY = (
    fact("states_of_matter-honesty-temperature-alone"),
    fact("states_of_matter-honesty-liquid"),
    fact("states_of_matter-honesty-flat"),
    fact("states_of_matter-honesty-argon"),
    fact("states_of_matter-honesty-water"),
    fact("states_of_matter-honesty-brief"),
    fact("states_of_matter-honesty-weightless"),
    fact("states_of_matter-honesty-crowded"),
    fact("states_of_matter-honesty-averaged"),
    fact("states_of_matter-honesty-drift"),
    fact("states_of_matter-honesty-enrichment"),
)

SOURCES = (
    "ALLEN-TILDESLEY-2017",
    "BARKER-1981",
    "BERENDSEN-1984",
    "IKESHOJI-HAFSKJOLD-1994",
    "LENNARD-JONES-1931",
    "NELSON-HALPERIN-1979",
    "OPENSTAX-UP2",
    "ROWLEY-1975",
    "SWOPE-1982",
)

simulated = lru_cache(maxsize=4)(simulate_box)


def box_params(conditions: Mapping[str, float], frames: int = FRAMES) -> BoxParams:
    """The box that these conditions (SI units) describe. Raises BadCondition where the particles do not fit it."""
    particles, width_m = round(conditions["particles"]), float(conditions["box_width"])
    density = particles * (ARGON_DIAMETER_M / width_m) ** 2
    if not LEAST_DENSITY <= density <= MOST_DENSITY:
        least, most = (1e9 * ARGON_DIAMETER_M * (particles / each) ** 0.5 for each in (MOST_DENSITY, LEAST_DENSITY))
        raise BadCondition(
            "box_width",
            wrong(
                "error_processes-nm-width-particles",
                value=f"{1e9 * width_m:g}",
                particles=particles,
                value_2=f"{least + 0.05:.1f}",
                min=f"{min(most, 30.0):.1f}",
            ),
        )
    return BoxParams(
        particles=particles,
        width_m=width_m,
        start_k=float(conditions["start_temperature"]),
        heat_j_per_mol=float(conditions["heat"]),
        duration_s=float(conditions["duration"]),
        frames=frames,
        seed=round(conditions["shuffle"]),
    )


def run(conditions: Mapping[str, float]) -> Timeline:
    """The heating that follows from the conditions (SI units): readings, the states found, and the energy balance."""
    params = box_params(conditions)
    return timeline(simulated(params), params)


def kept(conditions: Mapping[str, float]) -> bytes:
    """The box's run as bytes, for keeping between runs."""
    return simulated(box_params(conditions)).to_bytes()


def finished(conditions: Mapping[str, float], data: bytes) -> Timeline:
    """The Timeline of a run that was kept. Raises ValueError where the bytes are broken."""
    return timeline(BoxRun.from_bytes(data), box_params(conditions))


def timeline(box: BoxRun, params: BoxParams) -> Timeline:
    """A run of the box as a Timeline, with the states found in it."""
    seen = readings(box)
    spans = found(seen.order, seen.isolated)
    made = quantities(QUANTITIES, quantity_values(seen, wandered(box, PATH_S)))
    whole = Stretch.whole(box.time_s, made)
    return Timeline(
        process=PROCESS.name,
        time_s=box.time_s,
        quantities=made,
        stages=stages(STAGES, spans, box.time_s, told(whole, spans)),
        events=events(whole, spans),
        missing=missing(whole, spans, params),
        conserved=(Conserved(name="energy", relative_drift=box.energy_drift, allowed=DRIFT_ALLOWED),),
        kind=BRIEF,
    )


def quantity_values(seen: Readings, wandering_m: FloatArray) -> dict[str, FloatArray]:
    """Every quantity in SI units by name."""
    box = seen.run
    return {
        "temperature": seen.temperature_k,
        "mean speed": seen.speed_m_s,
        "speed of real argon atoms": mean_speed(seen.temperature_k, ARGON_KG_PER_MOL),
        "knock rate": seen.knocks_per_s,
        "order": seen.order,
        "isolated share": seen.isolated,
        "number of neighbours": seen.neighbours,
        "spacing": seen.spacing_m,
        "spacing inside": seen.inside_m,
        "wandering": wandering_m,
        "heat given": np.array(box.heat_j_per_mol),
        "energy gained": box.energy_j_per_mol - box.energy_j_per_mol[0],
    }


PROCESS = ProcessSpec(
    name="states-of-matter",
    title=fact("states_of_matter-title"),
    summary=fact("states_of_matter-summary"),
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=HONESTY,
    sources=SOURCES,
    slow=SlowPart(key=lambda conditions: box_params(conditions).key(), compute=kept, finish=finished),
)
