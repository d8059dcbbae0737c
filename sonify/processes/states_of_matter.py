"""The states of matter: particles in a flat box, heated from a cold solid until most of them fly on their own."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache

import numpy as np

from sonify.constants import ZERO_CELSIUS_K
from sonify.errors import BadCondition
from sonify.processes.declared import quantities, stages
from sonify.processes.specs import quantity_spec
from sonify.processes.states_of_matter_box import LEAST_DENSITY, MOST_DENSITY, BoxParams, simulate_box
from sonify.processes.states_of_matter_run import BoxRun
from sonify.processes.states_of_matter_stages import STAGES, Readings, found, readings, wandered
from sonify.processes.states_of_matter_words import PATH_S, events, missing, science_sentences
from sonify.records.process import ConditionSpec, ProcessSpec, SlowPart
from sonify.records.timeline import Conserved, FloatArray, Timeline
from sonify.science.kinetic import mean_speed
from sonify.science.particles import ARGON_DIAMETER_M, ARGON_KG_PER_MOL

FRAMES = 400  # kept of a run for the Timeline
#: Energy is followed in small steps, so it drifts; the largest of many random runs was 0.2 % of what moved.
DRIFT_ALLOWED = 5e-3

BOX = "the particles in the box"

CONDITIONS = (
    ConditionSpec(
        name="particles",
        meaning="how many particles are in the box",
        unit="1",
        si_unit="1",
        default=200.0,
        low=60.0,
        high=600.0,
        whole=True,
    ),
    ConditionSpec(
        name="box_width",
        meaning="how wide and how high the flat box is",
        unit="nm",
        si_unit="m",
        default=12.0e-9,
        low=4.0e-9,
        high=30.0e-9,
    ),
    ConditionSpec(
        name="start_temperature",
        meaning="how cold the solid is when the heating begins",
        unit="degC",
        si_unit="K",
        default=ZERO_CELSIUS_K - 249.0,
        low=ZERO_CELSIUS_K - 261.0,
        high=ZERO_CELSIUS_K - 238.0,
    ),
    ConditionSpec(
        name="heat",
        meaning="heat given to the particles over the whole run, for each mole of them",
        unit="kJ/mol",
        si_unit="J/mol",
        default=3000.0,
        low=200.0,
        high=6000.0,
    ),
    ConditionSpec(
        name="duration",
        meaning="how long the heating takes",
        unit="ps",
        si_unit="s",
        default=240.0e-12,
        low=60.0e-12,
        high=400.0e-12,
    ),
    ConditionSpec(
        name="shuffle",
        meaning="which of many starts that differ only by chance",
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
    quantity_spec(
        "temperature", "T", ("degC", "K"), "how warm the particles are: their mean energy of motion", whose=BOX
    ),
    quantity_spec("mean speed", "v", _SPEED, "mean speed of the particles, as counted in the flat box", whose=BOX),
    quantity_spec(
        "speed of real argon atoms",
        "v_r",
        _SPEED,
        "mean speed, by kinetic theory, of atoms as warm as the box and free to move in all directions",
        companion="temperature",
    ),
    quantity_spec(
        "knock rate",
        "k",
        ("count/ns", "1/s"),
        "how often a particle knocks against another, in a billionth of a second",
    ),
    quantity_spec(
        "order", "psi", _SHARE, "how much the particles stand in the rows of one crystal (100 %: all of them)"
    ),
    quantity_spec("isolated share", "a", _SHARE, "particles that have at most two others near, as a share of all"),
    quantity_spec(
        "number of neighbours", "n", ("1", "1"), "others near a particle, on average: within one and a half diameters"
    ),
    quantity_spec("spacing", "d", _LENGTH, "mean distance from a particle to its six nearest"),
    quantity_spec(
        "wandering", "w", _LENGTH, "how far from where it was a particle is ten million-millionths of a second later"
    ),
    quantity_spec("heat given", "Q", _HEAT, "heat given since the start, for each mole of particles"),
    quantity_spec("energy gained", "E", _HEAT, "energy of motion and of the pulls between particles, since the start"),
)

HONESTY = (
    "A gas is not faster because it is a gas. Speed follows temperature alone: solid, liquid and gas of one "
    "temperature have particles of one mean speed. What changes is spacing and freedom.",
    "Liquid particles are as fast as those of a gas of the same warmth. They jostle and get nowhere, because others "
    "are in the way.",
    "The box is a model, not to scale: its particles are smooth discs in the flat that pull and push each other as two "
    "argon atoms do. Real matter has depth, twelve neighbours instead of six, and far more particles than anyone could "
    "follow.",
    "Flat argon melts near −223 °C; real argon, held by twice as many neighbours, melts at −189 °C and boils at "
    "−186 °C. The speeds printed beside the box are those of real atoms as warm as the box, by kinetic theory, and "
    "27 % more than in the flat.",
    "Water would need molecules that turn and cling in a pattern, and ice takes more room than water; this box shows "
    "neither. Water molecules in a cup at 20 °C have a mean speed of 587 m/s, at 100 °C of 662 m/s.",
    "All of this lasts a few hundred million-millionths of a second, played slowly enough to follow. Heated so fast, "
    "the liquid grows hotter than it would on a stove before it is all gone.",
    "The particles have no weight that matters at this size: the drop floats. It is the walls that keep the gas in.",
    "In a real gas, such as the air, particles are about ten of their own widths apart: this gas is crowded.",
    "Readings are averaged over a twenty-fifth of the run, because a few hundred particles fluctuate. A knock is "
    "counted when two particles come closer than the distance at which their push undoes all that their pull gave.",
    "Particles are followed in small steps, so their energy drifts by a fraction of a per cent of the heat given; the "
    "figure is printed with the run.",
    "In England the particle model belongs to key stage 3: for 7 to 11 year-olds this is enrichment.",
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
            f"{1e9 * width_m:g} nm is no width for {particles} particles; allowed for so many: {least + 0.05:.1f} nm "
            f"to {min(most, 30.0):.1f} nm",
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
    seen, wandering_m = readings(box), wandered(box, PATH_S)
    spans = found(seen.order, seen.isolated)
    return Timeline(
        process=PROCESS.name,
        time_s=box.time_s,
        quantities=quantities(QUANTITIES, quantity_values(seen, wandering_m)),
        stages=stages(STAGES, spans, box.time_s, science_sentences(seen, wandering_m, spans)),
        events=events(seen, spans),
        missing=missing(seen, spans, params),
        conserved=(Conserved(name="energy", relative_drift=box.energy_drift, allowed=DRIFT_ALLOWED),),
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
        "wandering": wandering_m,
        "heat given": np.array(box.heat_j_per_mol),
        "energy gained": box.energy_j_per_mol - box.energy_j_per_mol[0],
    }


PROCESS = ProcessSpec(
    name="states-of-matter",
    title="Solid, liquid, gas",
    summary="Particles in a flat box, heated from a cold crystal until most of them fly on their own.",
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=HONESTY,
    sources=SOURCES,
    slow=SlowPart(key=lambda conditions: box_params(conditions).key(), compute=kept, finish=finished),
)
