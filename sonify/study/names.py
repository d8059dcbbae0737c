"""Names that a scene file uses, checked against the registries: process, quantities, units, stages, instruments."""

from __future__ import annotations

from collections.abc import Callable

from sonify.errors import BadChange, BadCondition, BadFile, SonifyError, UnknownName, Words
from sonify.processes import conditions_si, process_of
from sonify.records.instrument import Catalogue
from sonify.records.process import ProcessSpec
from sonify.records.scene import STAGES_ALL, Condition, Rule, Scene, Tie
from sonify.units import convert


def check_names(scene: Scene, rows: Catalogue) -> None:
    """Every process, condition, quantity, unit, stage and instrument that a scene names.

    Raises BadChange for a change made for this run, else one BadFile with all faults.
    """
    try:
        process = process_of(scene)
    except UnknownName as error:
        raise fault_at(scene, "process", error) from None
    for change in scene.changes:
        try:
            conditions_si(process, (Condition(name=change.name, measure=change.after),))
        except BadCondition as error:
            raise condition_fault(scene, error) from None
    rows = rows.with_own([sound.instrument for sound in scene.sounds])
    faults = _Faults(scene)
    for condition in scene.conditions:
        faults.expect("conditions", conditions_si, process, (condition,))
    for rule in scene.rules:
        faults.expect(f"{rule.key}.quantity", _known_quantity, process, rule.quantity)
        faults.expect(f"{rule.key}.from", _right_unit, process, rule)
    for bed in scene.background:
        faults.expect(f"{bed.key}.follows", _known_quantity, process, bed.quantity)
    for part in scene.parts:
        for stage in part.stages if part.stages != STAGES_ALL else ():
            faults.expect(f"{part.key}.stages", _known_stage, process, stage)
        for sound in part.sounds:
            faults.expect(f"{part.key}.sounds", rows.find, sound)
    for note in scene.stages:
        faults.expect(f"{note.key}.name", _known_stage, process, note.stage)
    for sentence in scene.sentences:
        for tie in sentence.ties:
            faults.expect(f"{sentence.key}.only_if", tie_si, process, tie)
    quantities, stages = [q.name for q in process.quantities], [s.name for s in process.stages]
    for claim in (*scene.claims, *(claim for sentence in scene.sentences for claim in sentence.claims)):
        if (known := claim.known(quantities, stages)) is not None:
            spec = process.quantity(known.quantity)
            if known.value is not None and spec is not None:
                faults.expect(claim.key, convert, known.value.value, known.value.unit, spec.si_unit)
            continue
        for name in filter(None, (claim.quantity, claim.beside_quantity)):
            faults.expect(claim.key, _known_quantity, process, name)
        for name in filter(None, (claim.stage, claim.than)):
            faults.expect(claim.key, _known_stage, process, name)
    if faults.found:
        raise faults.as_one()


def tie_si(process: ProcessSpec, tie: Tie) -> float:
    """What a sentence is tied to in SI. Raises BadCondition where the process has no such condition or value."""
    return conditions_si(process, (Condition(name=tie.condition, measure=tie.value),))[tie.condition]


def ties_si(process: ProcessSpec, scene: Scene) -> dict[Tie, float]:
    """What the scene's sentences are tied to, each in SI."""
    return {tie: tie_si(process, tie) for sentence in scene.sentences for tie in sentence.ties}


def fault_at(scene: Scene, key: str, message: Words) -> BadFile:
    """A fault with the file and the line of a scene's key. message: what is wrong, or the error that says so."""
    return BadFile(scene.origin.file, message, line=scene.origin.line(key), key=key)


def condition_fault(scene: Scene, error: BadCondition) -> SonifyError:
    """A bad condition with the place it was set at: the option of this run, or the line of the scene file."""
    for change in scene.changes:
        if change.name == error.key:
            return BadChange(error.key, change.after.text, error.message)
    return fault_at(scene, f"conditions.{error.key}", error.message)


class _Faults:
    """Collects what checks raise, each with its place in the scene file."""

    def __init__(self, scene: Scene) -> None:
        self.scene = scene
        self.found: list[BadFile] = []

    def expect(self, key: str, check: Callable[..., object], *args: object) -> None:
        try:
            check(*args)
        except BadCondition as error:
            self.found.append(fault_at(self.scene, f"{key}.{error.key}", error.message))
        except SonifyError as error:
            self.found.append(fault_at(self.scene, key, error))

    def as_one(self) -> BadFile:
        """All of them, which are held here no longer: who raises what it holds is in a circle with it."""
        found, self.found = self.found, []
        return BadFile.several(found)


def _known_quantity(process: ProcessSpec, name: str) -> None:
    if process.quantity(name) is None:
        raise UnknownName("quantity", name, [q.name for q in process.quantities])


def _right_unit(process: ProcessSpec, rule: Rule) -> None:
    spec = process.quantity(rule.quantity)
    for end in (rule.low, rule.high) if spec else ():
        convert(end.value, end.unit, spec.si_unit)  # type: ignore[union-attr]


def _known_stage(process: ProcessSpec, name: str) -> None:
    if name not in (names := [s.name for s in process.stages]):
        raise UnknownName("stage", name, names)
