"""The pulse: at rest, in exercise, and on its way back. How fast it comes back is for the class to measure."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np

from sonify.errors import BadCondition
from sonify.processes.declared import Adviser, first, quantities, spans, stages
from sonify.processes.specs import condition_spec, quantity_spec
from sonify.records.process import ProcessSpec, StageSpec
from sonify.records.timeline import Event, FloatArray, Missing, Timeline
from sonify.records.words import duration_text, number_text
from sonify.science.pulse import (
    RESTING_BOYS_PER_MIN,
    RESTING_GIRLS_PER_MIN,
    beats_on_the_way,
    half_time_to_constant,
    pulse_on_the_way,
)

STEP_S = 1.0
LEAST_RISE_HZ = 10.0 / 60.0
#: Shares of the whole rise: below the first the heart still rests, above the second it has got there; in recovery it
#: has settled when no more than the third is left (our own choices).
AWAKE, THERE, SETTLED = 0.05, 0.95, 0.10

_PULSE, _TIME = ("1/min", "1/s"), ("s", "s")


CONDITIONS = (
    condition_spec(
        "resting_pulse",
        "pulse at rest; left out, half way between the published means of boys and girls of 9 to 11",
        _PULSE,
        (RESTING_BOYS_PER_MIN + RESTING_GIRLS_PER_MIN) / 2.0 / 60.0,
        (40.0 / 60.0, 130.0 / 60.0),
    ),
    condition_spec(
        "exercise_pulse",
        "pulse that this exercise leads to if it goes on; measure it",
        _PULSE,
        150.0 / 60.0,
        (60.0 / 60.0, 220.0 / 60.0),
    ),
    condition_spec("rise_half_time", "time until half of the rise is done; measure it", _TIME, 20.0, (3.0, 300.0)),
    condition_spec(
        "recovery_half_time",
        "time after exercise until half of the extra pulse is gone; measure it, no published figure is given",
        _TIME,
        45.0,
        (5.0, 900.0),
    ),
    condition_spec("rest", "time sitting still at the start", ("min", "s"), 60.0, (10.0, 1800.0)),
    condition_spec("exercise", "how long the exercise lasts", ("min", "s"), 180.0, (10.0, 3600.0)),
    condition_spec("recovery", "time sitting still afterwards", ("min", "s"), 300.0, (10.0, 7200.0)),
)

STAGES = (
    StageSpec(
        name="resting",
        title="The heart at rest",
        seen_as=f"until {100 * AWAKE:g} % of the whole rise is done",
    ),
    StageSpec(
        name="quickening",
        title="The pulse quickens",
        seen_as=f"from then until {100 * THERE:g} % of the whole rise is done",
    ),
    StageSpec(name="working", title="The heart works hard", seen_as="from then until the pulse begins to fall"),
    StageSpec(
        name="recovering",
        title="The pulse drops fast",
        seen_as="from the end of the exercise until half of the extra pulse is gone",
    ),
    StageSpec(
        name="settling",
        title="The pulse drops more slowly",
        seen_as=f"from then until {100 * SETTLED:g} % of the extra pulse is left",
    ),
    StageSpec(name="rested", title="Nearly at rest again", seen_as="from then to the end"),
)


QUANTITIES = (
    quantity_spec("pulse", "p", _PULSE, "how many times the heart beats in a minute", whose="one pupil"),
    quantity_spec("extra pulse", "p_x", _PULSE, "how much faster the heart beats than at rest", whose="one pupil"),
    quantity_spec("time between beats", "T", _TIME, "time from one heartbeat to the next", whose="one pupil"),
    quantity_spec(
        "effort", "e", ("%", "1"), "nothing while sitting still, all of this exercise while moving", whose="one pupil"
    ),
    quantity_spec("heartbeats", "N", ("1", "1"), "heartbeats counted since the start", whose="one pupil"),
)

HONESTY = (
    "Only the resting pulse is a published figure: UK children of 9 to 11 had 78.7 beats a minute (boys) and 82.2 "
    "(girls) on average, and healthy children lie well above and below. No pulse here says whether a child is well.",
    "How fast the pulse rises and falls differs from child to child, and no figure for children was found that could "
    "be printed here. The class measures it: the time until half of the extra beats are gone.",
    "The way up and the way down are single exponential curves. That describes gentle exercise fairly well and the "
    "hardest badly: after it the first drop is steeper and the rest takes longer.",
    "A real pulse is never so smooth. It changes with every breath, with excitement, and with standing up.",
    "Only here the beat of the music is the quantity itself: one beat of the bar is one heartbeat, and nothing is "
    "exaggerated.",
)

SOURCES = ("OPENSTAX-CALC1", "PETERS-2014", "PIERPONT-2000")


def run(conditions: Mapping[str, float]) -> Timeline:
    """The pulse that follows from the conditions (SI units).

    Raises BadCondition where the exercise does not raise the pulse.
    """
    least = conditions["resting_pulse"] + LEAST_RISE_HZ
    if conditions["exercise_pulse"] < least:
        allowed = f"{number_text(60 * least)} a minute to 220 a minute with this resting pulse"
        raise BadCondition(
            "exercise_pulse", f"exercise that hardly raises the pulse changes nothing; allowed: {allowed}"
        )
    values = _values(conditions)
    time_s = values.pop("time")
    found = _found(values["pulse"], conditions)
    return Timeline(
        process=PROCESS.name,
        time_s=time_s,
        quantities=quantities(QUANTITIES, values),
        stages=stages(STAGES, found, time_s, _sentences(values, time_s, found)),
        events=_events(values, time_s, conditions),
        missing=_missing(found, conditions),
    )


def _times(conditions: Mapping[str, float]) -> FloatArray:
    """Second by second, with the two moments at which effort changes among them."""
    moves, stops = conditions["rest"], conditions["rest"] + conditions["exercise"]
    end = stops + conditions["recovery"]
    return np.unique(np.concatenate([np.arange(0.0, end, STEP_S), [moves, stops, end]]))


def _values(conditions: Mapping[str, float]) -> dict[str, FloatArray]:
    """Every quantity over time, SI: three pieces, each beginning where the one before it ended."""
    time_s = _times(conditions)
    rest, work = conditions["resting_pulse"], conditions["exercise_pulse"]
    moves, stops = conditions["rest"], conditions["rest"] + conditions["exercise"]
    up, down = (float(half_time_to_constant(conditions[f"{way}_half_time"])) for way in ("rise", "recovery"))
    rising, falling = np.clip(time_s - moves, 0.0, stops - moves), np.clip(time_s - stops, 0.0, None)
    top = float(pulse_on_the_way(rest, work, stops - moves, up))
    pulse = np.where(
        time_s <= stops, pulse_on_the_way(rest, work, rising, up), pulse_on_the_way(top, rest, falling, down)
    )
    counted = rest * np.minimum(time_s, moves) + beats_on_the_way(rest, work, rising, up)
    return {
        "time": time_s,
        "pulse": pulse,
        "extra pulse": np.maximum(pulse - rest, 0.0),  # rounding may leave a hair below
        "time between beats": 1.0 / pulse,
        "effort": ((time_s >= moves) & (time_s < stops)).astype(np.float64),
        "heartbeats": counted + beats_on_the_way(top, rest, falling, down),
    }


def _found(pulse: FloatArray, conditions: Mapping[str, float]) -> dict[str, tuple[int, int]]:
    """First and last sample of each stage that came."""
    rest = conditions["resting_pulse"]
    rise, peak = conditions["exercise_pulse"] - rest, int(np.argmax(pulse))
    extra, top = pulse - rest, float(pulse[peak]) - rest
    there = first(extra >= THERE * rise)
    return spans(
        {
            "resting": 0,
            "quickening": first(extra >= AWAKE * rise),
            "working": there if there is not None and there < peak else None,
            "recovering": peak,
            "settling": first(extra <= 0.5 * top, peak),
            "rested": first(extra <= SETTLED * top, peak),
        },
        pulse.size - 1,
    )


def per_minute(pulse_hz: float) -> str:
    return f"{number_text(round(60.0 * pulse_hz), 4)} a minute"


def _sentences(
    values: Mapping[str, FloatArray], time_s: FloatArray, found: Mapping[str, tuple[int, int]]
) -> dict[str, str]:
    pulse, counted = values["pulse"], values["heartbeats"]
    said = {}
    for name, (start, end) in found.items():
        beats = number_text(round(float(counted[end] - counted[start])), 5)
        lasts = duration_text(float(time_s[end] - time_s[start]))
        first_, last = per_minute(float(pulse[start])), per_minute(float(pulse[end]))
        said[name] = {
            "resting": f"At rest the pulse is {first_}: {beats} heartbeats in {lasts}.",
            "quickening": f"The muscles ask for more blood, and in {lasts} the pulse goes from {first_} to {last}.",
            "working": f"For {lasts} the pulse stays near {last}: {beats} heartbeats.",
            "recovering": f"The exercise is over. In {lasts} the pulse drops from {first_} to {last}.",
            "settling": f"The nearer to rest, the slower it drops: in {lasts} from {first_} to {last}.",
            "rested": f"For the last {lasts} the pulse stays near rest: {last} at the end.",
        }[name]
    return said


def _events(values: Mapping[str, FloatArray], time_s: FloatArray, conditions: Mapping[str, float]) -> tuple[Event, ...]:
    moves, stops = conditions["rest"], conditions["rest"] + conditions["exercise"]
    top, total = per_minute(float(values["pulse"].max())), number_text(round(float(values["heartbeats"][-1])), 5)
    return (
        Event(name="exercise begins", time_s=moves, text=f"The exercise begins, after {duration_text(moves)} of rest."),
        Event(name="exercise ends", time_s=stops, text=f"The exercise ends. The pulse is highest: {top}."),
        Event(
            name="the last beat", time_s=float(time_s[-1]), text=f"Since the start the heart has beaten {total} times."
        ),
    )


def _missing(found: Mapping[str, tuple[int, int]], conditions: Mapping[str, float]) -> tuple[Missing, ...]:
    """Stages that never came, and the condition that brings them."""
    adviser = Adviser(
        specs=CONDITIONS,
        conditions=conditions,
        found=lambda changed: _found(_values(changed)["pulse"], changed),
    )
    exercise, recovery = conditions["exercise"], conditions["recovery"]
    told = {
        "resting": (f"the rest of {duration_text(conditions['rest'])} is too short", [("rest", 60.0)]),
        "quickening": ("the pulse rises too fast to see it rise", [("rise_half_time", 20.0)]),
        "working": (
            f"{duration_text(exercise)} of exercise are too short for the pulse to get where it is going",
            [("exercise", 6.0 * conditions["rise_half_time"]), ("rise_half_time", exercise / 6.0)],
        ),
        "recovering": ("the pulse falls too fast to see it fall", [("recovery_half_time", 45.0)]),
        "settling": (
            f"{duration_text(recovery)} of rest are too short for half of the extra beats to go",
            [("recovery", 5.0 * conditions["recovery_half_time"]), ("recovery_half_time", recovery / 5.0)],
        ),
        "rested": (
            f"{duration_text(recovery)} of rest are too short for the pulse to come back",
            [("recovery", 6.0 * conditions["recovery_half_time"]), ("recovery_half_time", recovery / 6.0)],
        ),
    }
    return tuple(adviser.missing(spec.name, *told[spec.name]) for spec in STAGES if spec.name not in found)


PROCESS = ProcessSpec(
    name="pulse",
    title="Pulse and exercise",
    summary="A heart at rest, in exercise and in recovery; the recovery is what the class measures.",
    conditions=CONDITIONS,
    stages=STAGES,
    quantities=QUANTITIES,
    run=run,
    honesty=HONESTY,
    sources=SOURCES,
)
