"""What a teacher reads about the particle box: a sentence a stage, moments worth naming, and what did not come."""

from __future__ import annotations

from sonify.constants import GAS_CONSTANT_J_PER_MOL_K, ZERO_CELSIUS_K
from sonify.processes.states_of_matter_box import BoxParams
from sonify.processes.states_of_matter_stages import ORDER, Readings
from sonify.records.timeline import Event, FloatArray, Missing

PATH_S = 10.0e-12  # over so long it is told how far particles get
CROWDED = 0.35  # particles in a square diameter: beyond it so many are always near that few are alone (our own measure)
FEW = 120  # particles: in a smaller crystal so many stand at the rim that it crumbles before it has melted

Spans = dict[str, tuple[int, int]]


def degrees(temperature_k: float) -> str:
    return f"{temperature_k - ZERO_CELSIUS_K:.0f} °C".replace("-", "−")


def science_sentences(seen: Readings, wandering_m: FloatArray, spans: Spans) -> dict[str, str]:
    """One sentence a stage, with this run's own figures."""
    return {name: _WRITERS[name](seen, wandering_m, span) for name, span in spans.items()}


def _solid(seen: Readings, wandering_m: FloatArray, span: tuple[int, int]) -> str:
    part = slice(*span)
    return (
        f"Each particle trembles about its own place. It is never at rest, {_speed(seen, part)} on average, yet in "
        f"ten million-millionths of a second it gets only {_nm(wandering_m[part].mean())}, a fraction of its own size; "
        f"the box warms from {degrees(seen.temperature_k[span[0]])} to {degrees(seen.temperature_k[span[1]])}."
    )


def _melting(seen: Readings, wandering_m: FloatArray, span: tuple[int, int]) -> str:
    return (
        f"The rows give way: the order falls from {_percent(seen.order[span[0]])} to {_percent(seen.order[span[1]])}. "
        f"{_heat_share(seen, span)}"
    )


def _liquid(seen: Readings, wandering_m: FloatArray, span: tuple[int, int]) -> str:
    part = slice(*span)
    path_m = seen.speed_m_s[part].mean() * PATH_S
    return (
        f"The particles are still close, {seen.neighbours[part].mean():.1f} neighbours each, but in no order: they "
        f"jostle and get nowhere. In ten million-millionths of a second each travels {_nm(path_m)} to and fro and "
        f"ends {_nm(wandering_m[part].mean())} from where it was."
    )


def _evaporating(seen: Readings, wandering_m: FloatArray, span: tuple[int, int]) -> str:
    return (
        f"Particles tear themselves from their neighbours: the share on their own grows from "
        f"{_percent(seen.isolated[span[0]])} to {_percent(seen.isolated[span[1]])}. {_heat_share(seen, span)}"
    )


def _gas(seen: Readings, wandering_m: FloatArray, span: tuple[int, int]) -> str:
    part = slice(*span)
    return (
        f"Most particles fly on their own, {_nm(seen.spacing_m[part].mean())} from their six nearest, and fill the "
        f"box. They are faster now, {_speed(seen, part)} on average, because they are warmer "
        f"({degrees(seen.temperature_k[part].mean())} on average), not because they are a gas."
    )


_WRITERS = {"solid": _solid, "melting": _melting, "liquid": _liquid, "evaporating": _evaporating, "gas": _gas}


def _heat_share(seen: Readings, span: tuple[int, int]) -> str:
    """How much of the heat of a stage made the particles faster: in the flat, motion holds R T for a mole."""
    start, end = span
    given = float(seen.run.heat_j_per_mol[end] - seen.run.heat_j_per_mol[start])
    warmed = GAS_CONSTANT_J_PER_MOL_K * float(seen.temperature_k[end] - seen.temperature_k[start])
    share = max(0.0, warmed / given) if given > 0.0 else 0.0
    return (
        f"Only {_percent(share)} of the heat given here makes them faster; the rest pulls them apart against their "
        "hold on each other."
    )


def _speed(seen: Readings, part: slice) -> str:
    return f"{seen.speed_m_s[part].mean():.0f} m/s"


def _nm(length_m: float) -> str:
    return f"{1e9 * length_m:.2f} nm"


def _percent(share: float) -> str:
    return f"{100.0 * share:.0f} %"


def events(seen: Readings, spans: Spans) -> tuple[Event, ...]:
    """The turning points of the heating."""
    texts = {
        "melting": "The first rows of the crystal give way",
        "liquid": "The last of the crystal's order is gone",
        "evaporating": "One particle in four is on its own",
        "gas": "Half of the particles are on their own",
    }
    starts = [(name, spans[name][0]) for name in ORDER[1:] if name in spans and spans[name][0] > 0]
    return tuple(
        Event(
            name=f"{name} begins",
            time_s=float(seen.run.time_s[start]),
            text=f"{texts[name]}, at {degrees(seen.temperature_k[start])}.",
        )
        for name, start in starts
    )


def missing(seen: Readings, spans: Spans, params: BoxParams) -> tuple[Missing, ...]:
    """Why each stage that did not come stayed away, and which condition to change."""
    return tuple(_missing(name, seen, spans, params) for name in ORDER if name not in spans)


def _missing(name: str, seen: Readings, spans: Spans, params: BoxParams) -> Missing:
    latest = max(ORDER.index(stage) for stage in spans)
    if ORDER.index(name) < latest:
        later = next(stage for stage in ORDER[ORDER.index(name) + 1 :] if stage in spans)
        if params.particles < FEW:
            reason = f"so few particles have so many at the rim that {later} comes before it"
            return Missing(stage=name, reason=reason, condition="particles", fix="Set particles = 200.")
        reason = f"the heat comes so fast that {later} overtakes it"
        return Missing(stage=name, reason=reason, condition="duration", fix='Set duration = "400 ps".')
    reached = f"the box only warms to {degrees(seen.temperature_k[-1])}"
    if name == "gas" and params.density > CROWDED:
        width_nm = 1e9 * params.width_m * (params.density / 0.16) ** 0.5
        reason = "the box is so narrow that its particles always have others near"
        return Missing(stage=name, reason=reason, condition="box_width", fix=f'Set box_width = "{width_nm:.0f} nm".')
    more = "3 kJ/mol" if params.heat_j_per_mol < 2800.0 else "6 kJ/mol"
    return Missing(stage=name, reason=reached, condition="heat", fix=f'Set heat = "{more}".')
