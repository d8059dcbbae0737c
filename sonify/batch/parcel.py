"""What travels between machines: a task with the files that it names, and a pack that was made.

A pack is handed over in one of two ways. A machine that sees the very folder in which arrivals are awaited makes it
there (a random word in a file tells); any other sends the files' bytes. Either way only the one process that keeps the
ledger puts a pack in its place, after it has taken the digest of every file again.
"""

from __future__ import annotations

import json
import re
import secrets
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from pathlib import Path, PurePosixPath
from typing import Any

from sonify.batch.pairs import Pair
from sonify.errors import SonifyError
from sonify.storage.pack import MANIFEST, SEAL, building, facts_of, whole
from sonify.storage.workshop import removed

ARRIVALS, WORD = ".sonify-arrivals", "word.txt"
#: How the folder of a pack that arrives is called: `_named`.
PLACE = re.compile(r"[0-9a-f]{16}")


class Damaged(Exception):
    """What arrived is not what was sent."""


def packed(pair: Pair, arrivals: Path, about: Mapping[str, str]) -> dict[str, Any]:
    """A pair as it is sent. Ready-made scenes and the well-stocked class go by name, all others with their files.

    Raises OSError where a file is gone meanwhile.
    """
    task = json.loads(pair.task)
    files = {}
    for what, paths in task.pop("files", {}).items():
        files[what] = {Path(path).name: Path(path).read_bytes() for path in paths}
    word = (arrivals / WORD).read_text(encoding="utf-8")
    return {
        "task": task,
        "files": files,
        "about": dict(about),
        "arrivals": {"folder": str(arrivals.absolute()), "word": word},
    }


def unpacked(parcel: Mapping[str, Any], folder: Path) -> dict[str, Any]:
    """The task with the files that came with it in a folder of this machine.

    `called` is what the person who sent it calls them: a pack and an error name a file so.
    """
    task = dict(parcel["task"])
    called: dict[str, str] = {}
    for what, files in parcel["files"].items():
        (folder / what).mkdir()
        for name, data in files.items():
            (folder / what / name).write_bytes(data)
        called[what] = task[what]
        task[what] = str(folder / what / Path(task[what]).name)
    return {**task, "called": called}


@contextmanager
def awaited(out: Path) -> Iterator[Path]:
    """The folder in which packs arrive, beside those that stand; what was left in it by an earlier run goes."""
    folder = out / ARRIVALS
    with suppress(OSError):  # somebody who was given up may still write there
        removed(folder)
    folder.mkdir(exist_ok=True)
    (folder / WORD).write_text(secrets.token_hex(16), encoding="utf-8")
    try:
        yield folder
    finally:
        with suppress(OSError):
            removed(folder)


def seen(arrivals: Mapping[str, str]) -> Path | None:
    """The folder in which a pack is awaited, where this machine sees that very one and can write there."""
    folder = Path(arrivals["folder"])
    try:
        if (folder / WORD).read_text(encoding="utf-8") != arrivals["word"]:
            return None
        place = folder / _named()
        place.mkdir()
    except (OSError, ValueError):
        return None
    return place


def _named() -> str:
    return secrets.token_hex(8)


def files_in(pack: Path) -> dict[str, bytes]:
    """A pack as bytes."""
    return {path.relative_to(pack).as_posix(): path.read_bytes() for path in sorted(pack.rglob("*")) if path.is_file()}


def arrived(said: Mapping[str, Any], arrivals: Path) -> Path:
    """Where the pack lies that was made: written by the one who made it, or here. Raises Damaged."""
    if "place" in said:
        place = str(said["place"])
        if not PLACE.fullmatch(place):
            raise Damaged(place)
        return arrivals / place / "pack"
    pack = arrivals / _named() / "pack"
    for name, data in said["files"].items():
        path = PurePosixPath(name)
        if path.is_absolute() or ".." in path.parts or "\\" in name:
            raise Damaged(name)
        (pack / path).parent.mkdir(parents=True, exist_ok=True)
        (pack / path).write_bytes(data)
    return pack


def put(pack: Path, out: Path, *, replace: bool) -> None:
    """A pack that has arrived in its place, as it was made. Raises Damaged, and what `building` does."""
    if not whole(pack):
        raise Damaged(pack.name)
    try:
        facts = facts_of(pack)
    except SonifyError as error:
        raise Damaged(pack.name) from error
    names = facts.pop("files")
    facts.pop(SEAL)
    there = [path for path in pack.rglob("*") if path.is_symlink() or not path.is_dir()]
    if {path.relative_to(pack).as_posix() for path in there} != {MANIFEST, *names}:
        raise Damaged(pack.name)
    if any(path.is_symlink() for path in there):
        raise Damaged(pack.name)
    before = (pack / MANIFEST).read_bytes()
    with building(out, facts, replace=replace) as work:
        for name in names:
            (work / name).parent.mkdir(parents=True, exist_ok=True)
            (pack / name).rename(work / name)
    if (out / MANIFEST).read_bytes() != before:
        raise Damaged(out.name)
    removed(pack.parent)
