"""The lesson pack on disk: written whole or not at all, and never over somebody's own work.

A folder cannot be replaced in one step, so it takes two renames; the next start recovers an interrupted one.
`.NAME.building-PID` is being written; `.NAME.previous` is what was there, kept until the new one stands.
"""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from sonify.errors import PackInTheWay, SonifyError

MANIFEST = "pack.json"
SECONDS_A_DAY = 86_400
#: Files that file managers drop into folders; nobody's work.
LITTER = {".DS_Store", "Thumbs.db", "desktop.ini"}


@contextmanager
def building(out: Path, facts: Mapping[str, Any], *, replace: bool = False) -> Iterator[Path]:
    """A fresh folder to fill; on leaving it gets its manifest and is put at `out`. On any error `out` is untouched.

    facts: what the manifest records beside the files' SHA-256 (no paths of this machine).
    Raises PackInTheWay where `out` holds files that a person changed or added (all named), or is no pack at all.
    """
    out = out.absolute()
    recover(out)
    guard(out, replace=replace)
    made = _make_parents(out.parent)
    work = out.parent / f".{out.name}.building-{os.getpid()}"
    try:
        try:
            shutil.rmtree(work, ignore_errors=True)
            work.mkdir()
            yield work
            _write_manifest(work, facts)
        except OSError as error:
            raise SonifyError(f"{out}: the pack could not be written: {error.strerror or error}") from error
        guard(out, replace=replace)  # somebody may have changed a file while the pack was being made
        _put(work, out, keep=_added(out) if replace else [])
    finally:
        shutil.rmtree(work, ignore_errors=True)
        if not out.exists():
            for folder in made:
                _remove_if_empty(folder)


def recover(out: Path) -> None:
    """Put back what an interrupted swap left aside, and clear away folders of makes that died."""
    previous = out.parent / f".{out.name}.previous"
    if previous.is_dir():
        if out.exists():
            shutil.rmtree(previous, ignore_errors=True)
        else:
            previous.rename(out)
    for stale in out.parent.glob(f".{out.name}.building-*"):
        if _is_stale(stale):
            shutil.rmtree(stale, ignore_errors=True)


def guard(out: Path, *, replace: bool = False) -> None:
    """Refuse to write where a person's work would be lost. With `replace`, changed files of a pack may go."""
    if not out.exists():
        return
    if not out.is_dir():
        raise PackInTheWay(f"{out} is a file, not a folder; choose another place with --out")
    manifest = _manifest(out)
    if manifest is None:
        if any(entry.name not in LITTER for entry in out.iterdir()):
            raise PackInTheWay(
                f"{out} is not empty and is no lesson pack (it has no {MANIFEST}); choose another place with --out"
            )
        return
    if replace:
        return
    theirs = [f"{name} (changed)" for name in _changed(out, manifest)] + [f"{name} (added)" for name in _added(out)]
    if theirs:
        raise PackInTheWay(
            f"{out} holds files changed or added by hand, and nothing was written: {', '.join(theirs)}. "
            "Move them elsewhere, choose another --out, or give --replace "
            "(it overwrites changed files and keeps added ones)"
        )


def _manifest(out: Path) -> dict[str, str] | None:
    """Each file's SHA-256 as the pack was written, or None where there is no readable manifest."""
    try:
        files = json.loads((out / MANIFEST).read_text(encoding="utf-8"))["files"]
        return {str(name): str(digest) for name, digest in files.items()}
    except (OSError, ValueError, KeyError, TypeError, AttributeError):
        return None


def _files(folder: Path) -> list[str]:
    """All files below a folder but the manifest and litter, as names with forward slashes, in order."""
    found = (path for path in folder.rglob("*") if path.is_file() or path.is_symlink())
    names = (path.relative_to(folder).as_posix() for path in found if path.name not in LITTER)
    return sorted(name for name in names if name != MANIFEST)


def _changed(out: Path, manifest: Mapping[str, str]) -> list[str]:
    return [name for name in _files(out) if name in manifest and sha256(out / name) != manifest[name]]


def _added(out: Path) -> list[str]:
    manifest = _manifest(out) if out.is_dir() else None
    return [] if manifest is None else [name for name in _files(out) if name not in manifest]


def sha256(path: Path) -> str:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def _write_manifest(work: Path, facts: Mapping[str, Any]) -> None:
    files = {name: sha256(work / name) for name in _files(work)}
    text = json.dumps({**facts, "files": files}, ensure_ascii=False, indent=1)
    (work / MANIFEST).write_text(text + "\n", encoding="utf-8", newline="\n")


def _put(work: Path, out: Path, *, keep: list[str]) -> None:
    """Swap the finished folder in by two renames, carrying over the files that a person added."""
    for name in keep:
        target = work / name
        if not target.exists():
            target.parent.mkdir(parents=True, exist_ok=True)
            shutil.copy2(out / name, target)
    previous = out.parent / f".{out.name}.previous"
    try:
        if out.exists():
            out.rename(previous)
        try:
            work.rename(out)
        except OSError:
            if previous.exists():
                previous.rename(out)
            raise
    except OSError as error:
        raise SonifyError(
            f"{out} cannot be replaced: {error.strerror or error}. "
            "A file in it is probably open in another program (a PDF viewer, say): close it and try again"
        ) from error
    shutil.rmtree(previous, ignore_errors=True)


def _make_parents(folder: Path) -> list[Path]:
    """Make missing parent folders; returns those made, deepest first, so that they can go again."""
    missing = [f for f in (folder, *folder.parents) if not f.exists()]
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        for made in missing:
            _remove_if_empty(made)
        raise SonifyError(f"{folder}: the folder cannot be made: {error.strerror or error}") from error
    return missing


def _remove_if_empty(folder: Path) -> None:
    if folder.is_dir() and not any(folder.iterdir()):
        folder.rmdir()


def _is_stale(folder: Path) -> bool:
    """Whether the make that filled this folder is gone. Windows cannot be asked safely: there, its age tells."""
    if os.name == "nt":
        return time.time() - folder.stat().st_mtime > SECONDS_A_DAY
    pid = folder.name.rpartition("-")[2]
    try:
        os.kill(int(pid), 0)
    except (ValueError, ProcessLookupError):
        return True
    except OSError:
        return False
    return False
