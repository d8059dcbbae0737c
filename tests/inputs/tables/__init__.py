"""Tables as primary schools and loggers write them, and what each holds (expected.toml)."""

from __future__ import annotations

import tomllib
from dataclasses import replace
from pathlib import Path
from typing import Any

import numpy as np

from sonify import starting
from sonify.inputs.experiment import read_experiment
from sonify.inputs.scene_file import read_scene
from sonify.records.experiment import Experiment, Roles
from sonify.say import say
from sonify.study.simulation import simulate

FOLDER = Path(__file__).parent
EXPECTED: dict[str, dict[str, Any]] = tomllib.loads((FOLDER / "expected.toml").read_text(encoding="utf-8"))
#: Two sentences of each file: what was understood of what was changed, and what is told of the first stage.
TOLD: dict[str, list[str]] = tomllib.loads((FOLDER / "told.toml").read_text(encoding="utf-8"))
#: Figures of expected.toml are written to three decimals.
ROUNDED = 6e-4


def read(name: str, roles: Roles | None = None) -> Experiment:
    """A file of the folder as an experiment."""
    return read_experiment((FOLDER / name).read_bytes(), file=name, roles=roles)


def corrected(name: str) -> Roles | None:
    """What one correction says, None where a file's first guess is right."""
    said = EXPECTED[name].get("correction")
    if said is None:
        return None
    return Roles(**{key: tuple(value) if isinstance(value, list) else value for key, value in said.items()})


def told(name: str) -> list[str]:
    """The two sentences of a file as they are told now."""
    found = starting.measurement((FOLDER / name).read_bytes(), file=name, stem="ours", roles=corrected(name))
    scene = replace(
        read_scene(found.text, file="ours.toml", name="ours"), table=found.table, experiment=found.experiment
    )
    changed = next(words for words in map(say, found.understood) if words.startswith("We changed"))
    return [changed, say(simulate(scene).stages[0].science)]


def differences(found: Experiment, wanted: dict[str, Any]) -> list[str]:
    """What an experiment has otherwise than expected; [] where it is right."""
    series = {each.name: each for each in found.series}
    said = {
        "shape": found.shape,
        "changed": found.changed,
        "unit": "" if found.changed_unit == "no unit" else found.changed_unit,
        "labels": list(found.labels),
        "groups": list(found.groups),
        "kept": list(found.kept),
        "unused": list(found.unused),
        "tries": max(int(each.tries.max()) for each in found.series),
    }
    keys = ("shape", "changed", "unit", "labels", "groups", "kept", "unused", "tries")
    told = [f"{key}: {said[key]!r}, not {wanted[key]!r}" for key in keys if key in wanted and said[key] != wanted[key]]
    if "steps" in wanted and not _same(found.steps, wanted["steps"]):
        told.append(f"steps: {found.steps.tolist()}, not {wanted['steps']}")
    for name, values in wanted.get("values", {}).items():
        if name not in series:
            told.append(f"no series {name!r}; there are {', '.join(series)}")
        elif not _same(series[name].values, values):
            told.append(f"{name}: {series[name].values.tolist()}, not {values}")
    doubted = [doubt.about for doubt in found.doubts]
    told += [f"no doubt {about!r}; there are {doubted}" for about in wanted.get("doubt", []) if about not in doubted]
    return told


def _same(found: Any, wanted: list[float]) -> bool:
    if len(found) != len(wanted):
        return False
    near = np.isclose(found, wanted, rtol=0.0, atol=ROUNDED, equal_nan=True)
    return bool(near.all())
