"""The scene file that `sonify new` writes: explained line by line, and already playable."""

from __future__ import annotations

import re
import unicodedata

from sonify.errors import BadName
from sonify.inputs.document import shown
from sonify.records.fact import wrong
from sonify.templates import template

#: Invented readings for the processes that play a table, to be replaced by a class's own.
SAMPLES = {
    "experiment": "sample_experiment.csv",
    "measured": "sample_measured.csv",
    "results-table": "sample_results_table.csv",
}

LONGEST_NAME = 60

_NAME = re.compile(r"[a-z0-9]+(-[a-z0-9]+)*")
#: Names that Windows keeps for its devices, whatever follows a dot.
_DEVICES = re.compile(r"con|prn|aux|nul|(com|lpt)[0-9]")


def valid_scene_name(name: str) -> str:
    """The name itself, if it serves as a file's and a folder's name on every system.

    Raises BadName, saying what is allowed.

    >>> valid_scene_name("my-puddle-2")
    'my-puddle-2'
    """
    if not _NAME.fullmatch(name):
        near = _plain_name(name) or "my-puddle-2"
        raise BadName(wrong("error_inputs-scene-called", name=shown(name), near=near))
    if len(name) > LONGEST_NAME:
        raise BadName(
            wrong("error_inputs-scene-name-letters", longest_name=LONGEST_NAME, name=shown(name), name_2=len(name))
        )
    if _DEVICES.fullmatch(name):
        raise BadName(wrong("error_inputs-scene-called-windows", name=shown(name)))
    return name


def _plain_name(name: str) -> str:
    """The nearest name that serves: "Chocolate melting" is chocolate-melting; "" where nothing is left of it."""
    letters = "".join(c for c in unicodedata.normalize("NFKD", name.lower()) if not unicodedata.combining(c))
    near = "-".join(re.findall("[a-z0-9]+", letters))[:LONGEST_NAME].rstrip("-")
    return "" if _DEVICES.fullmatch(near) else near


def new_scene_text() -> str:
    """A commented scene file of a day of the water cycle, written by hand: it shows every key that a scene may have."""
    return template("inputs", "new_scene.toml")


def own_scene_text(process: str) -> str:
    """A commented scene file for a process whose stages stand in the scene itself, written by hand."""
    return template("inputs", f"new_{process.replace('-', '_')}.toml")


def sample_table(process: str) -> str:
    """Invented readings for a process that plays a table, to show their form."""
    return template("inputs", SAMPLES[process])
