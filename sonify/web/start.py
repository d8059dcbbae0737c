"""What the page needs before anything is chosen: the ready-made scenes, the instruments, the usual class."""

from __future__ import annotations

from typing import Any

from sonify import __version__, lesson
from sonify.data.finding import found_by
from sonify.data.plan import class_facts, instrument_rows, picture_facts
from sonify.kinds.needs import NEEDS, OF_PUPILS
from sonify.kinds.shapes import SHAPES
from sonify.records.fact import fact
from sonify.records.scene import CURVES, Scene
from sonify.records.score import SCAFFOLDS
from sonify.records.sheet import PAPERS
from sonify.say import say
from sonify.web import drafts
from sonify.web.desk import Desk
from sonify.web.inputs import MOST_CSV, MOST_FILE, MOST_TEXT, Inputs

#: The shape that quantities have between them.
TURNS = "one after another"


def start_facts(desk: Desk, *, shared: bool) -> dict[str, Any]:
    """Everything the page shows first. shared: other machines of the network may ask too."""
    return {
        "scenes": desk.once_complete("scenes", lambda: _scene_rows(desk)),
        "instruments": instrument_rows(lesson.catalogue()),
        "needs": list(NEEDS),
        "needs_of_pupils": list(OF_PUPILS),
        "class": class_facts(drafts.class_of(drafts.default_class_text())),
        "curves": list(CURVES),
        "scaffolds": [{"id": name, "words": say(fact(f"server-scaffold-{name}"))} for name in SCAFFOLDS],
        "beginnings": beginning_rows(),
        "shapes": shape_rows(),
        "audio": list(lesson.AUDIO),
        "papers": list(PAPERS),
        "most_bytes": {"scene": MOST_TEXT, "class": MOST_TEXT, "csv": MOST_CSV, "pack": MOST_FILE},
        "shared": shared,
        "version": __version__,
    }


def _scene_rows(desk: Desk) -> tuple[list[dict[str, Any]], bool]:
    """All scenes, and whether every one has its picture."""
    rows = [kept_row(desk, name) for name in lesson.scene_names()]
    return rows, all(row["picture"] for row in rows)


def kept_row(desk: Desk, name: str) -> dict[str, Any]:
    """A scene's row, kept once it has its picture."""

    def drawn() -> tuple[dict[str, Any], bool]:
        row = scene_row(desk, name)
        return row, bool(row["picture"])

    return desk.once_complete(f"row {name}", drawn)


def shape_rows() -> list[list[object]]:
    """The shapes that a drawn quantity can take here, each with its words and whether a circle can have it.

    What needs the name of a stage, or a second quantity, is for the scene file.
    """
    alone = [shape for shape in SHAPES.values() if not shape.at and shape.id != TURNS]
    return [[shape.id, say(fact(f"planner-shape-{shape.id.replace(' ', '-')}")), shape.closes] for shape in alone]


def beginning_rows() -> list[list[str]]:
    """The processes that a scene can be begun of, each with its title; a table of one's own is dropped instead."""
    return [[name, lesson.process_title(name)] for name in lesson.process_names() if name != "experiment"]


def slow_scenes(desk: Desk) -> list[Inputs]:
    """The ready-made scenes whose science takes seconds and was never computed on this machine."""
    given = [ready_made(name) for name in lesson.scene_names()]
    return [inputs for inputs in given if not lesson.is_quick(desk.base(inputs)[0])]


def ready_made(name: str) -> Inputs:
    return Inputs(name=name, conditions={}, rules={}, drawn={}, class_values={})


def scene_row(desk: Desk, name: str) -> dict[str, Any]:
    """One scene to choose. picture: None where its science takes seconds and was not computed on this machine yet."""
    scene, _ = desk.base(ready_made(name))
    row: dict[str, Any] = {
        "name": name,
        "title": scene.title,
        "process": scene.process,
        "ages": list(scene.ages),
        "story": scene.story,
        "minutes": round(scene.music.length_s / 60.0, 1),
        "data_file": scene.data,
        "stages": [note.stage for note in scene.stages],
        "picture": None,
        **found_by(scene, lesson.catalogue()),
    }
    if lesson.is_quick(scene):
        row |= _pictured(desk, scene)
    return row


def _pictured(desk: Desk, scene: Scene) -> dict[str, Any]:
    timeline = desk.timeline(scene)
    controls = lesson.mapped(scene, timeline)
    return {
        "stages": [say(stage.title) for stage in controls.time_map.stages],
        "picture": picture_facts(timeline, controls),
    }
