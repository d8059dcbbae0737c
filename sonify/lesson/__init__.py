"""The whole pipeline: a scene file and a class file in, a lesson pack out.

`studying` computes, maps and arranges, `packing` writes; `study.reading` reads the files and checks the names in them,
`study.simulation` computes the science, `starting` writes a scene file to start from. All can be had here, each read
from its place when it is first asked for: who reads a scene waits for no typesetter.
"""

from __future__ import annotations

from importlib import import_module
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sonify.cycles import seldom_looked_for

if TYPE_CHECKING:
    from sonify.lesson.carried import class_to_send, plan_of, readings_beside
    from sonify.lesson.packing import (
        check_out,
        make,
        pack_facts,
        page_text,
        served_page_text,
        sheet_settings,
        write_pack,
    )
    from sonify.lesson.playing import play, sounds, sounds_of, write_sounds
    from sonify.lesson.rehearsing import rehearsal
    from sonify.lesson.studying import (
        check,
        check_seed,
        compared,
        compose,
        listened,
        mapped,
        sources_of,
        study,
    )
    from sonify.paper import Printing
    from sonify.processes import process_of
    from sonify.processes.beside_model import beside
    from sonify.recording import AUDIO, Wishes, write_wav
    from sonify.records.lesson import Lesson
    from sonify.starting import Measurement, Start, measure, measured_text, measurement, new_scene, start
    from sonify.storage.shelf import scene_names
    from sonify.study.film import film_is_quick, particle_film
    from sonify.study.reading import Changes, ClassLike, SceneLike, catalogue, load, load_class, load_table, palette
    from sonify.study.simulation import is_quick, simulate

#: Where everything stands.
_PLACES = {
    "sonify.lesson.carried": ("class_to_send", "plan_of", "readings_beside"),
    "sonify.lesson.packing": (
        "check_out",
        "make",
        "pack_facts",
        "page_text",
        "served_page_text",
        "sheet_settings",
        "write_pack",
    ),
    "sonify.lesson.playing": ("play", "sounds", "sounds_of", "write_sounds"),
    "sonify.lesson.rehearsing": ("rehearsal",),
    "sonify.lesson.studying": (
        "check",
        "check_seed",
        "compared",
        "compose",
        "listened",
        "mapped",
        "sources_of",
        "study",
    ),
    "sonify.paper": ("Printing",),
    "sonify.processes": ("process_of",),
    "sonify.processes.beside_model": ("beside",),
    "sonify.recording": ("AUDIO", "Wishes", "write_wav"),
    "sonify.records.lesson": ("Lesson",),
    "sonify.starting": ("Measurement", "Start", "measure", "measured_text", "measurement", "new_scene", "start"),
    "sonify.storage.shelf": ("scene_names",),
    "sonify.study.film": ("film_is_quick", "particle_film"),
    "sonify.study.reading": (
        "Changes",
        "ClassLike",
        "SceneLike",
        "catalogue",
        "load",
        "load_class",
        "load_table",
        "palette",
    ),
    "sonify.study.simulation": ("is_quick", "simulate"),
}
_PLACE_OF = {name: place for place, names in _PLACES.items() for name in names}

__all__ = [
    "AUDIO",
    "Changes",
    "ClassLike",
    "Lesson",
    "Measurement",
    "Printing",
    "SceneLike",
    "Start",
    "Wishes",
    "beside",
    "catalogue",
    "check",
    "check_out",
    "check_seed",
    "class_to_send",
    "compared",
    "compose",
    "film_is_quick",
    "is_quick",
    "listened",
    "load",
    "load_class",
    "load_table",
    "make",
    "mapped",
    "measure",
    "measured_text",
    "measurement",
    "new_scene",
    "pack_facts",
    "page_text",
    "palette",
    "particle_film",
    "plan_of",
    "play",
    "process_of",
    "readings_beside",
    "rehearsal",
    "scene_names",
    "served_page_text",
    "sheet_settings",
    "simulate",
    "sounds",
    "sounds_of",
    "sources_of",
    "start",
    "study",
    "write_pack",
    "write_sounds",
    "write_wav",
]


def __getattr__(name: str) -> Any:
    place = _PLACE_OF.get(name)
    if place is None:
        raise AttributeError(f"module 'sonify.lesson' has no attribute '{name}'")
    with seldom_looked_for():
        found = globals()[name] = getattr(import_module(place), name)
    return found


def process_names() -> list[str]:
    """Names of the processes that a scene can be of."""
    from sonify.processes import PROCESSES

    return sorted(PROCESSES)


def process_title(name: str) -> str:
    """What a process is called. Raises UnknownName."""
    from sonify.processes import find
    from sonify.say import say

    return say(find(name).title)


def pdf_pages(path: Path) -> int:
    """How many pages a PDF of a pack has."""
    from sonify.paper.preview import page_count

    return page_count(path)


def pdf_page_png(path: Path, page: int) -> bytes:
    """A page of a PDF of a pack, counted from 1, as a picture. Raises IndexError where there is no such page."""
    from sonify.paper.preview import page_png

    return page_png(path, page)
