"""What a pack's page.html carries of the plan that it was made from, so that it can be opened again and changed.

It goes to colleagues and stands on projectors: of the class there is what the music needs, and no remark of a person's;
what some pupils need is in it only where she asked for that.
"""

from __future__ import annotations

import json
from collections.abc import Mapping
from pathlib import Path
from typing import Any

from sonify.inputs.class_text import class_text
from sonify.records.classroom import Classroom, without_sounds
from sonify.records.lesson import Lesson
from sonify.records.scene import Scene
from sonify.records.sendable import FORM, packed
from sonify.storage import shelf
from sonify.study.reading import SceneLike, catalogue, data_of

#: A table of more characters is left out of the page: it is in the ZIP, as a file of its own.
MOST_READINGS = 1_000_000


def plan_of(lesson: Lesson, readings: bytes = b"") -> dict[str, Any]:
    """The plan of a lesson, by its own files. readings: the bytes of the table that its scene plays."""
    scene = lesson.scene
    return {
        "scene": {"name": scene.name, "text": scene.origin.text, "file": f"{scene.name}.toml"},
        "readings": packed(readings) if readings else None,
        "set": {change.name: change.after.text for change in scene.changes},
        "rules": {},
        "drawn": {},
        "edits": {},
        "sounds": {},
        "class": {"text": class_to_send(lesson.classroom), "file": "class.toml"},
        "scaffold": lesson.scaffold,
        "seed": lesson.seed,
    }


def class_to_send(classroom: Classroom, *, needs: bool = False) -> str:
    """A class as a file for others."""
    return class_text(without_sounds(classroom if needs else classroom.without_needs()), catalogue())


def carried(plan: Mapping[str, Any]) -> str:
    """The plan as the page carries it; "" for a lesson that was made in Python and has no file."""
    if not plan["scene"]["text"]:
        return ""
    readings = plan["readings"]
    short = plan if readings is None or len(readings) <= MOST_READINGS else {**plan, "readings": None}
    # Letters beyond ASCII are escaped: no mark in a person's own text is lost on the way.
    return json.dumps({"sonify": "plan", "form": FORM, **short}, separators=(",", ":")).replace("<", "\\u003c")


def readings_beside(given: SceneLike, scene: Scene) -> bytes:
    """The bytes of the table that a scene's file plays; b"" for none, and for a scene that is no file."""
    if isinstance(given, Scene) or not scene.data:
        return b""
    return data_of(shelf.scene_path(given).with_name(Path(scene.data).name))
