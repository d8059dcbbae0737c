"""A scene file to start from: a commented one, or one that plays a class's own readings. Never overwrites."""

from __future__ import annotations

import json
import os
import re
from dataclasses import replace as changed
from pathlib import Path

from sonify.errors import BadFile, SonifyError
from sonify.frozen import dataclass
from sonify.inputs.experiment import read_experiment
from sonify.inputs.experiment_of_logger import log_of
from sonify.inputs.experiment_scene import experiment_scene_text, with_roles
from sonify.inputs.experiment_words import doubts_as_findings
from sonify.inputs.experiment_words import understood as understood_of
from sonify.inputs.logger import read_table
from sonify.inputs.measured_scene import measured_scene_text, understood
from sonify.inputs.scene_file import read_scene
from sonify.inputs.template import SAMPLES, new_scene_text, own_scene_text, sample_table, valid_scene_name
from sonify.kinds.experiments import CATEGORIES
from sonify.mapping import map_scene
from sonify.processes import find, process_of
from sonify.processes.beside_model import beside
from sonify.processes.experiment_advice import advice
from sonify.processes.results_experiment import played
from sonify.records.experiment import Experiment, Roles
from sonify.records.fact import Words, fact, wrong
from sonify.records.findings import Finding
from sonify.records.safe_text import for_document
from sonify.records.table import Table
from sonify.say import say
from sonify.starting.outlines import process_scene_text
from sonify.storage.workshop import NEW, flush, put_new, uninterrupted, workshop
from sonify.study.names import check_names
from sonify.study.reading import catalogue, data_of
from sonify.study.simulation import simulate


@dataclass(frozen=True, slots=True, kw_only=True)
class Start:
    """A scene file to start from, and the table of invented readings that it plays, "" for none."""

    text: str
    readings: str = ""


def start(name: str, process: str = "") -> Start:
    """What `new_scene` writes. The readings are to lie beside the scene file, in NAME.csv.

    process: its science; left out, a day of the water cycle. Raises BadName, or UnknownName with the whole list.
    """
    valid_scene_name(name)
    if not process:
        return Start(text=new_scene_text())
    found = find(process)
    if found.for_scene is not None:
        return Start(text=own_scene_text(process))
    if found.for_table is None and found.for_experiment is None:
        return Start(text=process_scene_text(found))
    if process not in SAMPLES:
        raise SonifyError(wrong("error_files-plays-table-sonify", process=process))
    readings = sample_table(process)
    data, file = readings.encode("utf-8"), f"{name}.csv"
    if process == "experiment":
        text = measurement(data, file=file, stem=name, roles=Roles(measured=("number of swings",))).text
    else:
        text = measured_text(read_table(data, file=file), name)
    title = f"title   = {json.dumps(say(fact('outline-sample-title')))}"
    return Start(text=re.sub("(?m)^title .*$", lambda _: title, text, count=1), readings=readings)


def new_scene(name: str, process: str = "") -> tuple[Path, ...]:
    """A commented scene file NAME.toml in the current folder that already makes a pack, and the table it plays, if any.

    Never overwrites.
    """
    made = start(name, process)
    path = Path(f"{name}.toml")
    beside = path.with_suffix(".csv")
    if made.readings and os.path.lexists(path):  # before the table is written that nothing would name
        raise _in_the_way(path)
    if made.readings:
        _write_new(beside, made.readings)
    _write_new(path, made.text)
    return (path, beside) if made.readings else (path,)


def _in_the_way(path: Path) -> SonifyError:
    return SonifyError(wrong("error_files-already-nothing-written", path=path))


def _write_new(path: Path, text: str) -> None:
    """Write a text where nothing is yet, whole or not at all."""
    try:
        if os.path.lexists(path):
            raise FileExistsError
        with workshop(path, "file") as shop:
            made = shop / NEW
            made.write_bytes(text.encode("utf-8"))
            flush(made)
            with uninterrupted():
                put_new(made, path)
    except FileExistsError:
        raise _in_the_way(path) from None
    except OSError as error:
        raise SonifyError(wrong("error_files-written", path=path, value=error.strerror or error)) from error


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Measurement:
    """A file of readings made into a scene. text: the scene file. understood: what was read of the file, a sentence a
    column. noticed: what was guessed, each with the option that settles it, and what is odd. experiment: what was
    changed and measured; None where a logger's readings are played as they come."""

    text: str
    understood: tuple[Words, ...]
    noticed: tuple[Finding, ...]
    table: Table
    experiment: Experiment | None = None


def measure(path: str | Path, roles: Roles | None = None) -> tuple[Path, tuple[Words, ...], tuple[Finding, ...]]:
    """A scene file FILE.toml beside a file of readings: its path, what was understood of them, and what was noticed.

    roles: what is what in the file; all that is left out is guessed. Never overwrites. Raises BadFile where nothing can
    be made of the readings, UnknownName where a column is named that is not there.
    """
    path = Path(path)
    if path.name != for_document(path.name):
        raise BadFile(for_document(path.name), wrong("error_files-scene-name-file"))
    target = path.with_suffix(".toml")
    made = measurement(data_of(path), file=path.name, stem=target.stem, roles=roles)
    _write_new(target, made.text)
    return target, made.understood, made.noticed


def measurement(data: bytes, *, file: str, stem: str, roles: Roles | None = None) -> Measurement:
    """What can be made of a file of readings. Raises as `measure` does."""
    experiment = beside(read_experiment(data, file=file, roles=roles), None if roles is None else roles.model)
    table = log_of(data, experiment, file=file) if roles is None else None
    if table is not None:
        return Measurement(
            text=measured_text(table, stem), understood=tuple(understood(table)), noticed=table.findings, table=table
        )
    said = experiment.roles or Roles()
    if roles is not None and roles.title:
        said = changed(said, title=roles.title)
    return Measurement(
        text=experiment_text(experiment, said, stem),
        understood=tuple(understood_of(experiment)),
        noticed=(*doubts_as_findings(experiment), *advice(experiment), *experiment.table.findings),
        table=experiment.table,
        experiment=experiment,
    )


def measured_text(table: Table, stem: str) -> str:
    """The text of a scene that plays these readings. Raises BadFile where they cannot be played."""
    text = measured_scene_text(table, stem)
    scene = changed(read_scene(text, file=f"{stem}.toml", name=stem), table=table)
    check_names(scene, catalogue())
    controls, _ = map_scene(scene, simulate(scene), process_of(scene))
    if any(key.rule.control == "tempo" and not key.audible for key in controls.keys):
        return measured_scene_text(table, stem, gliding=True)
    return text


def experiment_text(experiment: Experiment, roles: Roles, stem: str) -> str:
    """The text of a scene that plays an experiment, its roles recorded. Raises BadFile where it cannot be played.

    roles: what is what in the file, in its own headings. What the class could not hear is tried otherwise, or left out.
    """
    if experiment.shape == CATEGORIES and not experiment.groups:
        if (fitted := find("results-table").for_experiment) is not None:
            fitted(experiment)  # too many to be told apart by ear is said with what to do
        text = measured_text(played(experiment), stem)
        title = roles.title or f"Our readings: {stem}"
        return with_roles(re.sub("(?m)^title .*$", lambda _: f"title   = {json.dumps(title)}", text, count=1), roles)
    lost: set[str] = set()
    for second in ("density", "dynamics", ""):
        text = experiment_scene_text(experiment, roles, stem, second=second)
        scene = changed(read_scene(text, file=f"{stem}.toml", name=stem), table=experiment.table, experiment=experiment)
        check_names(scene, catalogue())
        controls, _ = map_scene(scene, simulate(scene), process_of(scene))
        lost = {key.rule.control for key in controls.keys if not key.audible}
        if second not in lost:
            break
    return experiment_scene_text(experiment, roles, stem, gliding="tempo" in lost, second=second)
