"""A scene file to start from: a commented one, or one that plays a class's own readings. Never overwrites."""

from __future__ import annotations

import os
from dataclasses import replace as changed
from pathlib import Path

from sonify.errors import BadFile, SonifyError
from sonify.inputs.measured_scene import measured_scene_text, understood
from sonify.inputs.scene_file import read_scene
from sonify.inputs.template import new_scene_text, valid_scene_name
from sonify.mapping import map_scene
from sonify.names import check_names
from sonify.processes import process_of
from sonify.reading import catalogue, load_table
from sonify.records.findings import Finding
from sonify.records.safe_text import for_document
from sonify.records.table import Table
from sonify.simulation import simulate
from sonify.workshop import NEW, flush, put_new, uninterrupted, workshop


def new_scene(name: str) -> Path:
    """A commented scene file NAME.toml in the current folder that already makes a pack. Never overwrites."""
    name = valid_scene_name(name)
    path = Path(f"{name}.toml")
    _write_new(path, new_scene_text(name))
    return path


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
        raise SonifyError(f"{path} is there already, and nothing was written; choose another name") from None
    except OSError as error:
        raise SonifyError(f"{path} cannot be written: {error.strerror or error}") from error


def measure(path: str | Path) -> tuple[Path, list[str], tuple[Finding, ...]]:
    """A scene file FILE.toml beside a file of readings: its path, what was understood of them, and what was noticed.

    Never overwrites. Raises BadFile where nothing can be made of the readings.
    """
    if (name := Path(path).name) != for_document(name):
        raise BadFile(for_document(name), "a scene cannot name a file that is called so; rename it, in plain letters")
    table = load_table(path)
    target = Path(path).with_suffix(".toml")
    _write_new(target, measured_text(table, target.stem))
    return target, understood(table), table.findings


def measured_text(table: Table, stem: str) -> str:
    """The text of a scene that plays these readings. Raises BadFile where they cannot be played."""
    text = measured_scene_text(table, stem)
    scene = changed(read_scene(text, file=f"{stem}.toml", name=stem), table=table)
    check_names(scene, catalogue())
    controls, _ = map_scene(scene, simulate(scene), process_of(scene))
    if any(key.rule.control == "tempo" and not key.audible for key in controls.keys):
        return measured_scene_text(table, stem, gliding=True)
    return text
