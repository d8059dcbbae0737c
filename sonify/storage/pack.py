"""The lesson pack on disk: written whole or not at all, and never over somebody's own work.

It is made in a workshop beside it and swapped in (`workshop`). Its manifest, `pack.json`, knows every file that was
written, and itself: whatever else is found in the folder, or found changed, is a person's.
"""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import stat
from collections.abc import Iterator, Mapping, Sequence
from concurrent.futures import ThreadPoolExecutor
from contextlib import contextmanager, suppress
from pathlib import Path
from typing import Any

from sonify.errors import PackInTheWay, SonifyError
from sonify.records.fact import wrong
from sonify.storage.workshop import (
    NEW,
    check_free,
    flush,
    flush_folder,
    put_back,
    recover,
    swapped,
    uninterrupted,
    workshop,
)

__all__ = ["MANIFEST", "building", "check_place", "facts_of", "recover", "whole"]

MANIFEST = "pack.json"
#: Stems are some 300 MB: digests are taken side by side, which Python lets threads do.
DIGESTS = min(4, os.cpu_count() or 1)
#: The manifest's digest of itself: of its text without this line.
SEAL = "pack_json_sha256"
#: Files that file managers drop into folders; nobody's work.
LITTER = {".DS_Store", "Thumbs.db", "desktop.ini"}
#: How whole files end, those that a person made shorter too; a copy that was cut short does not end so.
ENDS = {
    ".html": b"</html>",
    ".musicxml": b"</score-partwise>",
    ".pdf": b"%%EOF",
    ".mid": b"\xff\x2f\x00",  # the end of its last track
    ".json": b"}",
}
END_BYTES = 64
FILE, FOLDER, LINK, OTHER = "file", "folder", "link", "other"


@contextmanager
def building(out: Path, facts: Mapping[str, Any], *, replace: bool = False) -> Iterator[Path]:
    """A fresh folder to fill; on leaving it gets its manifest and is put at `out`. On any error `out` is untouched.

    facts: what the manifest records beside the files' SHA-256 (no paths of this machine).
    Raises PackInTheWay where `out` holds files that a person changed or added (all named), or is no pack at all.
    """
    place = _place(out)
    made = _make_parents(place.parent)
    try:
        with _told(out), workshop(place) as shop:
            guard(place, replace=replace)
            work = shop / NEW
            work.mkdir()
            yield work
            _write_manifest(work, facts)
            _put(shop, place, replace=replace)
    finally:
        if not os.path.lexists(place):
            for folder in made:
                _remove_if_empty(folder)


def check_place(out: Path, *, replace: bool = False) -> None:
    """All that can be known of `out` before any work. Raises SonifyError where a pack could not be put there."""
    place = _place(out)
    above = next(folder for folder in place.parents if os.path.lexists(folder))
    if not above.is_dir() or not _open_to_us(above):
        raise SonifyError(
            wrong("error_files-read-only" if above.is_dir() else "error_files-no-folder", out=out, above=above)
        )
    with _told(out):
        check_free(place)
        recover(place)
        guard(place, replace=replace)


@contextmanager
def _told(out: Path) -> Iterator[None]:
    """The system's own errors as one message."""
    try:
        yield
    except OSError as error:
        raise SonifyError(wrong("error_files-pack-could-written", out=out, value=error.strerror or error)) from error


def _place(out: Path) -> Path:
    """Where the folder really is: a link is followed to the folder behind it."""
    try:
        place = Path(os.path.realpath(out))
        if out.is_symlink() and not place.exists():
            raise PackInTheWay(wrong("error_files-link-nothing-nothing", out=out, place=place))
        there = place.is_dir()
    except OSError as error:
        raise SonifyError(wrong("error_files-folder-choose-another", out=out, value=error.strerror or error)) from error
    if there and os.path.ismount(place):
        raise PackInTheWay(wrong("error_files-whole-drive", out=out, place=out / "pack"))
    with suppress(FileNotFoundError):  # where the current folder itself is gone
        here = Path.cwd()
        if place == here or place in here.parents:
            raise PackInTheWay(wrong("error_files-folder-you-are-in", out=out, place=out / "pack"))
    return place


# --- what is a person's ----------------------------------------------------------------------------------------------


def guard(out: Path, *, replace: bool = False) -> None:
    """Refuse to write where a person's work would be lost. With `replace`, changed files of a pack may go."""
    if not os.path.lexists(out):
        return
    if not out.is_dir():
        raise PackInTheWay(wrong("error_files-file-folder-choose", out=out))
    try:
        found = _entries(out)
        manifest, changed = _manifest(out)
        if manifest is None:
            if found:
                raise PackInTheWay(wrong("error_files-empty-lesson-pack", out=out, manifest=MANIFEST))
            _check_open(out, found)
            return
        changed += _changed(out, found, manifest)
    except OSError as error:
        raise PackInTheWay(
            wrong("error_files-read-nobody-tell", value=error.filename or out, strerror=error.strerror)
        ) from error
    added = _added(found, manifest)
    if replace:
        _check_keepable(out, found, manifest, changed, added)
    elif changed or added:
        named = [*(f"{name} (changed)" for name in changed), *(f"{name} (added)" for name in added)]
        raise PackInTheWay(wrong("error_files-holds-files-changed", out=out, named=", ".join(named)))
    _check_open(out, found)


def _entries(folder: Path, above: str = "") -> dict[str, str]:
    """Everything below a folder but litter: name with forward slashes -> kind, in order. Links are not followed."""
    found: dict[str, str] = {}
    with os.scandir(folder) as entries:
        for entry in sorted(entries, key=lambda entry: entry.name):
            name = f"{above}{entry.name}"
            if entry.is_symlink():
                found[name] = LINK
            elif entry.is_dir(follow_symlinks=False):
                found[name] = FOLDER
                found |= _entries(Path(entry.path), f"{name}/")
            elif not entry.is_file(follow_symlinks=False):
                found[name] = OTHER
            elif entry.name not in LITTER:
                found[name] = FILE
    return found


def _manifest(out: Path) -> tuple[dict[str, str] | None, list[str]]:
    """Each file's SHA-256 as the pack was written, None where there is no manifest of ours; and itself, if changed."""
    path = out / MANIFEST
    if path.is_symlink() or not path.is_file():
        return None, []
    written = path.read_bytes()
    try:
        facts = json.loads(written)
        files = {str(name): str(digest) for name, digest in facts["files"].items()}
        facts.pop(SEAL, None)
        whole = sealed(facts) == written
    except (ValueError, KeyError, TypeError, AttributeError):
        return None, []
    if not whole and not (files and str(facts.get("toolkit")).startswith("sonify ")):
        return None, []  # somebody else's file of this name
    return files, [] if whole else [MANIFEST]


def whole(folder: Path) -> bool:
    """Whether a pack stands here with every file as it was written. What a person added is no matter."""
    try:
        files, changed = _manifest(folder)
        return files is not None and not changed and all(sha256(folder / name) == files[name] for name in files)
    except OSError:
        return False


def complete(folder: Path, sizes: Mapping[str, int]) -> bool:
    """Whether a pack stands here with none of its files missing, empty or cut short, changed by hand or not.

    sizes: of its files as they were written. One that a person made shorter ends as files of its kind do, or is of a
    kind that has no end of its own: nothing tells there who shortened it, and a person's work comes first.
    """
    try:
        files, _ = _manifest(folder)
        return files is not None and not any(_is_cut(folder / name, sizes.get(name, 1)) for name in files)
    except OSError:
        return False


def _is_cut(path: Path, size: int) -> bool:
    now = path.stat().st_size
    if not now or now >= size:
        return not now
    with path.open("rb") as file:
        if path.suffix == ".wav":  # its first bytes say how long it is
            return int.from_bytes(file.read(8)[4:], "little") + 8 > now
        end = ENDS.get(path.suffix)
        if end is None:
            return False
        file.seek(max(0, now - END_BYTES))
        return not file.read().rstrip().endswith(end)


def sizes_of(folder: Path) -> dict[str, int]:
    """The sizes of a pack's files, by their names in its manifest; none where there is no pack."""
    try:
        files, _ = _manifest(folder)
        return {name: (folder / name).stat().st_size for name in files or ()}
    except OSError:
        return {}


def facts_of(folder: Path) -> dict[str, Any]:
    """What a pack's manifest records. Raises SonifyError where the folder holds none of ours."""
    try:
        found, _ = _manifest(folder)
        if found is not None:
            return dict(json.loads((folder / MANIFEST).read_bytes()))
    except OSError as error:
        raise SonifyError(
            wrong("error_files-read-nobody-tell", value=error.filename or folder, strerror=error.strerror)
        ) from error
    raise SonifyError(wrong("error_redeal-no-pack", pack=folder, manifest=MANIFEST))


def _changed(out: Path, found: Mapping[str, str], manifest: Mapping[str, str]) -> list[str]:
    """The pack's own names under which something else is found."""
    return [
        name
        for name, kind in found.items()
        if name in manifest and (kind != FILE or sha256(out / name) != manifest[name])
    ]


def _added(found: Mapping[str, str], manifest: Mapping[str, str]) -> list[str]:
    """What is not the pack's. A folder that a person made is named itself only where nothing in it is."""
    files = {MANIFEST, *manifest}
    folders = files | _folders_of(manifest)
    added = [name for name, kind in found.items() if name not in (folders if kind == FOLDER else files)]
    return [name for name in added if found[name] != FOLDER or not any(a.startswith(f"{name}/") for a in added)]


def _folders_of(names: Mapping[str, str] | Sequence[str]) -> set[str]:
    """The folders in which these files are."""
    return {"/".join(parts[:n]) for parts in (name.split("/") for name in names) for n in range(1, len(parts))}


def _check_keepable(
    out: Path, found: Mapping[str, str], manifest: Mapping[str, str], changed: Sequence[str], added: Sequence[str]
) -> None:
    """With --replace: refuse where something of a person's could be neither kept nor is a changed file of the pack."""
    folders = _folders_of(manifest)
    lost = [name for name in changed if found[name] not in (FILE, LINK)]
    lost += [name for name in added if found[name] == OTHER or name in folders]
    if lost:
        raise _would_be_lost(out, lost)


def _would_be_lost(out: Path, names: Sequence[str]) -> PackInTheWay:
    return PackInTheWay(wrong("error_files-holds-things-places", out=out, names=", ".join(names)))


def _check_open(out: Path, found: Mapping[str, str]) -> None:
    """Refuse before any work where the old pack could not be cleared away after it."""
    folders = [out, *(out / name for name, kind in found.items() if kind == FOLDER)]
    closed = [folder for folder in folders if not _open_to_us(folder)]
    if closed:
        raise PackInTheWay(wrong("error_files-read-pack-replaced", closed=closed[0]))


def _open_to_us(folder: Path) -> bool:
    return os.access(folder, os.W_OK | os.X_OK, effective_ids=os.access in os.supports_effective_ids)


def sha256(path: Path) -> str:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


# --- writing it ------------------------------------------------------------------------------------------------------


def _write_manifest(work: Path, facts: Mapping[str, Any]) -> None:
    names = [name for name, kind in _entries(work).items() if kind == FILE and name != MANIFEST]
    with ThreadPoolExecutor(max_workers=DIGESTS) as hands:
        digests = hands.map(sha256, [work / name for name in names])
        files = dict(zip(names, digests, strict=True))
    (work / MANIFEST).write_bytes(sealed({**facts, "files": files}))


def sealed(facts: Mapping[str, Any]) -> bytes:
    """The manifest's bytes: its facts, and the digest of them, so that a change in it is noticed like any other."""
    digest = hashlib.sha256(_text(facts).encode("utf-8")).hexdigest()
    return f"{_text({**facts, SEAL: digest})}\n".encode()


def _text(facts: Mapping[str, Any]) -> str:
    return json.dumps(facts, ensure_ascii=False, indent=1)


def _put(shop: Path, out: Path, *, replace: bool) -> None:
    """Swap the finished folder in, with what a person added to the old one, unless that has changed meanwhile."""
    before = _stamps(out)
    guard(out, replace=replace)
    if replace and before:
        _carry_over(out, shop / NEW)
    flush(shop / NEW)
    with uninterrupted():
        try:
            aside = swapped(shop, out)
        except OSError as error:
            raise SonifyError(
                wrong("error_files-replaced-file-probably", out=out, value=error.strerror or error)
            ) from error
        if aside is not None and _stamps(aside) != before:
            put_back(shop, out, aside)
            raise PackInTheWay(wrong("error_files-changed-while-pack", out=out))
        flush_folder(out.parent)


def _stamps(folder: Path) -> dict[str, tuple[int, ...]]:
    """What tells that a folder is still as it was: each entry's kind, size, number and time of its last change."""
    if not os.path.lexists(folder):
        return {}
    found: dict[str, tuple[int, ...]] = {}
    for name in _entries(folder):
        info = os.lstat(folder / name)
        found[name] = (stat.S_IFMT(info.st_mode), info.st_size, info.st_ino, info.st_mtime_ns)
    return found


def _carry_over(out: Path, work: Path) -> None:
    """Give the new pack what a person added to the old one. Raises PackInTheWay where both have the same name."""
    manifest, _ = _manifest(out)
    if manifest is None:
        return
    found = _entries(out)
    added = _added(found, manifest)
    clash = [name for name in added if os.path.lexists(work / name) or _blocked(work, name)]
    if clash:
        raise _would_be_lost(out, clash)
    for name in added:
        target = work / name
        target.parent.mkdir(parents=True, exist_ok=True)
        if found[name] == FOLDER:
            target.mkdir()
        elif found[name] == LINK:
            os.symlink(os.readlink(out / name), target)
        else:
            _copy(out / name, target)


def _blocked(work: Path, name: str) -> bool:
    """Whether a file of the new pack stands where a folder would have to be."""
    return any(os.path.lexists(work / above) and not (work / above).is_dir() for above in _folders_of([name]))


def _copy(file: Path, target: Path) -> None:
    """The same file under a second name where the drive can, else a copy of it."""
    try:
        os.link(file, target, follow_symlinks=False)
    except (OSError, NotImplementedError):
        shutil.copy2(file, target)


def _make_parents(folder: Path) -> list[Path]:
    """Make missing parent folders; returns those made, deepest first, so that they can go again."""
    missing = [f for f in (folder, *folder.parents) if not os.path.exists(f)]
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError as error:
        for made in missing:
            _remove_if_empty(made)
        raise SonifyError(wrong("error_files-folder-made", folder=folder, value=error.strerror or error)) from error
    return missing


def _remove_if_empty(folder: Path) -> None:
    with suppress(OSError):
        folder.rmdir()
