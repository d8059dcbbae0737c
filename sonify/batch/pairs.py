"""What a run is to make: each scene with each class, where its pack goes, and the digest of all that it is made of."""

from __future__ import annotations

import hashlib
import json
import os
import unicodedata
from collections.abc import Sequence
from pathlib import Path
from typing import Any

from sonify import lesson
from sonify.errors import SonifyError
from sonify.frozen import dataclass
from sonify.records.fact import wrong
from sonify.records.scene import Scene
from sonify.storage.shelf import scene_path, shelf
from sonify.storage.toolkit import stamp

#: What no file name may hold on Windows, and names that are devices there.
ILLEGAL = '<>:"/\\|?*'
DEVICES = {"con", "prn", "aux", "nul", *(f"{port}{n}" for port in ("com", "lpt") for n in range(1, 10))}


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What a person asked for. classes: class files, None among them for the well-stocked class.

    options: what a worker is told of every pack (`work.options_of` reads it): seed, scaffold, sheets, recordings.
    """

    scenes: tuple[str, ...]
    classes: tuple[Path | None, ...]
    changes: tuple[str, ...] = ()
    options: tuple[tuple[str, Any], ...] = ()
    replace: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class Pair:
    """One scene for one class. folder: SCENE/CLASS. key: digest of all that decides its bytes. task: for a worker.

    why: it cannot be made, for its class file is wrong; "" for all others.
    """

    folder: str
    key: str
    task: str
    why: str = ""


def pairs_of(asked: Asked) -> list[Pair]:
    """The pairs in the order in which they are made: all classes of a scene, then the next scene.

    Raises SonifyError for a scene that cannot be read and for two that would share a folder.
    """
    scenes = [(typed, lesson.load(typed, asked.changes)) for typed in asked.scenes]
    classes = [(file, *_class_of(file)) for file in asked.classes]
    _check_apart([(typed, scene.name) for typed, scene in scenes])
    _check_apart([(str(file or ""), name) for file, name, _, _ in classes])
    found = []
    for typed, scene in scenes:
        beside = _files_of(typed, scene)
        for file, name, digest, why in classes:
            task = {
                "scene": typed,
                "class": str(file) if file else None,
                "changes": list(asked.changes),
                "replace": asked.replace,
                "options": dict(asked.options),
                "files": {**beside, **({"class": [str(file)]} if file else {})},
            }
            parts = [stamp(), _digest_of(scene), digest, list(asked.changes), dict(asked.options)]
            key = hashlib.sha256(json.dumps(parts, sort_keys=True).encode()).hexdigest()
            folder = f"{legal_name(scene.name)}/{legal_name(name)}"
            found.append(Pair(folder=folder, key=key, task=json.dumps(task), why=why))
    return found


def class_files(folder: Path) -> tuple[Path, ...]:
    """The class files of a folder, in order of name. Raises SonifyError where there are none."""
    try:
        found = sorted(path for path in folder.iterdir() if path.suffix.lower() == ".toml" and path.name[0] != ".")
    except OSError as error:
        raise SonifyError(wrong("error_batch-classes-unread", folder=folder, why=error.strerror or error)) from None
    if not found:
        raise SonifyError(wrong("error_batch-no-classes", folder=folder))
    return tuple(found)


def _files_of(typed: str, scene: Scene) -> dict[str, list[str]]:
    """The files of a person's own that a scene is, for a machine that has them not; a ready-made one is everywhere."""
    path = scene_path(typed)
    if path.parent == shelf() / "scenes":
        return {}
    beside = [*([scene.data] if scene.data else []), *(sound.file for sound in scene.sounds)]
    return {"scene": [str(path), *(str(path.with_name(name)) for name in beside)]}


def _class_of(file: Path | None) -> tuple[str, str, str]:
    """A class's name, the digest of its file, and what is wrong with it."""
    try:
        room = lesson.load_class(file)
    except SonifyError as error:
        return (file.stem if file else "class"), "", str(error)
    return room.name, room.origin.sha256, ""


def _digest_of(scene: Scene) -> str:
    """Of the scene file, and of the readings and the sounds that it plays."""
    beside = [scene.table.sha256] if scene.table else [""]
    return " ".join([scene.name, scene.origin.sha256, *beside, *(sound.sha256 for sound in scene.sounds)])


def _check_apart(named: Sequence[tuple[str, str]]) -> None:
    """Raises SonifyError where two names would be one folder on some system."""
    seen: dict[str, str] = {}
    for typed, name in named:
        same = unicodedata.normalize("NFC", legal_name(name)).casefold()
        if same in seen:
            raise SonifyError(wrong("error_batch-same-folder", one=seen[same], other=typed, folder=legal_name(name)))
        seen[same] = typed


def legal_name(name: str) -> str:
    """A name as a folder on any system and stick; most stay as they are.

    >>> legal_name("4B, Tuesdays"), legal_name("4B: Tuesdays?"), legal_name("aux"), legal_name(" .. ")
    ('4B, Tuesdays', '4B- Tuesdays-', 'aux-', 'unnamed')
    """
    kept = "".join("-" if c in ILLEGAL or not c.isprintable() or not _can_be_written(c) else c for c in name)
    kept = kept[:80].strip(" .") or "unnamed"
    return f"{kept}-" if kept.split(".")[0].casefold() in DEVICES else kept


def _can_be_written(letter: str) -> bool:
    """Whether a file's name may hold it here: without a locale some systems know no more than ASCII."""
    try:
        os.fsencode(letter)
    except UnicodeEncodeError:
        return False
    return True
