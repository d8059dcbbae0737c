"""The processes, by the name a scene gives, and a scene's conditions made ready for them.

To add one: write `sonify/processes/<module>.py` with a `PROCESS`, and name it in `_MODULES`. It is imported when first
asked for.
"""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from importlib import import_module

from sonify.errors import BadCondition, BadFile, UnknownName
from sonify.kinds.experiments import REPEATS
from sonify.records.fact import Fact, did_you_mean, wrong
from sonify.records.process import ConditionSpec, ProcessSpec
from sonify.records.scene import WORD, Condition, Scene
from sonify.units import UnitError, convert, printed

_MODULES = {
    "circuit": "circuit",
    "day-length": "day_length",
    "experiment": "experiment",
    "measured": "measured",
    "melting": "melting",
    "moon": "moon",
    "pendulum": "pendulum",
    "pitch": "pitch",
    "planets": "planets",
    "plant-growth": "plant_growth",
    "pulse": "pulse",
    "results-table": "results_table",
    "shadow": "shadow",
    "drying": "drying",
    "dissolving": "dissolving",
    "cooling": "cooling",
    "food-chain": "food_chain",
    "gears": "gears",
    "heating-curve": "heating_curve",
    "in-order": "in_order",
    "drawn": "drawn",
    "falling": "falling",
    "filtering": "filtering",
    "states-of-matter": "states_of_matter",
    "rain-garden": "rain_garden",
    "snow-melt": "snow_melt",
    "soaking": "soaking",
    "solar-still": "solar_still",
    "sound-level": "sound_level",
    "water-cycle": "water_cycle",
}


class _Registry(Mapping[str, ProcessSpec]):
    """Read-only: names are known at once, each process is imported when it is looked up."""

    def __getitem__(self, name: str) -> ProcessSpec:
        found = import_module(f"sonify.processes.{_MODULES[name]}").PROCESS
        assert isinstance(found, ProcessSpec) and found.name == name, f"{_MODULES[name]} is not the process {name}"
        return found

    def __iter__(self) -> Iterator[str]:
        return iter(_MODULES)

    def __len__(self) -> int:
        return len(_MODULES)


PROCESSES: Mapping[str, ProcessSpec] = _Registry()

#: Units in which a share, or a bare number such as a day of the year, may be written. An angle is not a share.
_SHARES = {"1", "%", "percent", "dimensionless"}


def find(name: str) -> ProcessSpec:
    """The process of this name. Raises UnknownName with the nearest spelling."""
    if name not in PROCESSES:
        raise UnknownName("process", name, PROCESSES)
    return PROCESSES[name]


def process_of(scene: Scene) -> ProcessSpec:
    """The process of a scene; one that plays a class's own readings is fitted to the scene's table.

    A process of the author's own gets the scene's stages. Raises UnknownName, or BadFile where there is no table, one
    too many, or one that cannot serve, and where stages or drawn quantities do not fit.
    """
    process = find(scene.process)
    if process.for_experiment is not None and scene.experiment is not None:
        return _fitted(process, scene)
    if process.for_table is not None and scene.table is None:
        message = wrong("error_processes-plays-readings-file", name=process.name)
    elif process.for_table is None and (scene.data or scene.table is not None):
        message = wrong("error_processes-computes-quantities-reads", name=process.name)
        if process.for_scene is not None:
            message = wrong("error_processes-stages-stand-here", name=process.name)
    else:
        return _fitted(process, scene)
    raise BadFile(scene.origin.file, message, line=scene.origin.line("data") or scene.origin.line("process"))


def _fitted(process: ProcessSpec, scene: Scene) -> ProcessSpec:
    """A process with what stands in the scene: a class's readings, stages of its author's own, drawn quantities."""
    if process.for_scene is not None:
        return process.for_scene(scene)
    _refuse_own(process, scene)
    if process.for_experiment is not None and scene.experiment is not None:
        return process.for_experiment(scene.experiment)
    if process.for_table is not None and scene.table is not None:
        return process.for_table(scene.table)
    if scene.drawn:
        from sonify.processes.drawn import with_drawn

        return with_drawn(process, scene)
    return process


def _refuse_own(process: ProcessSpec, scene: Scene) -> None:
    """What only a process of the author's own can have."""
    said = (("lasts", "lasts_s"), ("sound", "sounds"), ("why", "why"))
    keys = [f"{each.key}.{key}" for each in scene.stages for key, name in said if getattr(each, name)]
    keys += [each.key for each in scene.events] + ["circle"] * scene.circle
    keys += ["drawn.0"] * (process.for_table is not None and bool(scene.drawn))
    if keys:
        raise _own_only(process, scene, keys[0])


def _own_only(process: ProcessSpec, scene: Scene, key: str) -> BadFile:
    message = "error_processes-nothing-drawn" if key == "drawn.0" else "error_processes-finds-itself"
    told = wrong(message, name=process.name)
    return BadFile(scene.origin.file, told, line=scene.origin.line(key), key=key)


def conditions_si(spec: ProcessSpec, scene_conditions: tuple[Condition, ...]) -> dict[str, float]:
    """Every condition of the process in its SI unit: as the scene sets it, else the process's default.

    Raises BadCondition for a name the process does not have, one set twice, a wrong unit, or a value out of range.
    """
    known = {condition.name: condition for condition in spec.conditions}
    values = {name: condition.default for name, condition in known.items()}
    seen: set[str] = set()
    for given in scene_conditions:
        if given.name not in known:
            if given.name == REPEATS and spec.name in ("measured", "experiment", "results-table"):
                raise BadCondition(REPEATS, wrong("error_processes-repeats-have-no-turns"))
            near = did_you_mean(given.name, known)
            told = wrong("error_processes-condition-allowed", name=spec.name, near=near, known=", ".join(known))
            raise BadCondition(given.name, told)
        if given.name in seen:
            raise BadCondition(given.name, wrong("error_processes-set-twice-leave"))
        seen.add(given.name)
        values[given.name] = value_si(known[given.name], given)
    return values


def value_si(condition: ConditionSpec, given: Condition) -> float:
    """One condition's value in SI units. Raises BadCondition for a wrong unit or a value out of range."""
    measure = given.measure
    if condition.choices:
        if measure.unit != WORD or measure.text not in condition.choices:
            near = did_you_mean(measure.text, condition.choices, "error-semicolon")
            raise BadCondition(
                given.name,
                wrong("error_processes-none-words", text=measure.text, near=near, allowed=allowed(condition)),
            )
        return float(condition.choices.index(measure.text))
    if measure.unit == WORD:
        raise BadCondition(
            given.name, wrong("error_processes-number-unit", text=measure.text, allowed=allowed(condition))
        )
    share = condition.si_unit == "1"
    if share != (measure.unit in _SHARES):
        message = "error_processes-without-unit" if measure.unit == "1" else "error_processes-wrong-unit"
        raise BadCondition(given.name, wrong(message, text=measure.text, unit=measure.unit, allowed=allowed(condition)))
    try:
        value = float(convert(measure.value, measure.unit, condition.si_unit))
    except UnitError:
        places = {"text": measure.text, "unit": measure.unit, "condition": condition.name}
        raise BadCondition(
            given.name, wrong("error_processes-no-unit-for", **places, allowed=allowed(condition))
        ) from None
    if condition.whole and value != round(value):
        raise BadCondition(
            given.name, wrong("error_processes-whole-number", text=measure.text, allowed=allowed(condition))
        )
    # rounding in the conversion must not refuse the very end of the range; nan fails every comparison
    spare = 1e-9 * max(abs(condition.low), abs(condition.high))
    if not condition.low - spare <= value <= condition.high + spare:
        raise BadCondition(
            given.name, wrong("error_processes-out-range", text=measure.text, allowed=allowed(condition))
        )
    return min(max(value, condition.low), condition.high)


def allowed(condition: ConditionSpec) -> Fact:
    """What a condition may be, as a person reads it: `allowed: 0 °C to 32 °C, such as "14 degC"`."""
    if condition.choices:
        words = ", ".join(condition.choices)
        return wrong("error_processes-allowed-words", words=words, example=usual_text(condition))
    low, high, usual = (_readable(condition, value) for value in (condition.low, condition.high, condition.default))
    unit = "" if condition.unit == "1" else condition.unit
    example = usual if not unit else f'"{usual} {unit}"'
    sign = printed(unit)
    gap = "" if sign in ("°", "") else " "
    ends = {"low": f"{low}{gap}{sign}", "high": f"{high}{gap}{sign}"}
    return wrong("error_processes-allowed", **ends, example=example)


def usual_text(condition: ConditionSpec) -> str:
    """A condition's usual value as a scene file writes it: `"14 degC"`, `172`."""
    if condition.choices:
        return f'"{condition.choices[int(condition.default)]}"'
    number = _readable(condition, condition.default)
    return number if condition.unit == "1" else f'"{number} {condition.unit}"'


def _readable(condition: ConditionSpec, value: float) -> str:
    return f"{round(float(convert(value, condition.si_unit, condition.unit)), 6):g}"
