"""A person's plans and classes on this computer, each a file of its own: written whole or not at all, or not kept.

    plans/ID.json  classes/ID.json   a name and the latest states (`records.kept.Kept`)
    readings/KEY.txt                 a table that states of plans name by its digest
    lock                             held for each of the short steps here, so that two servers take turns

SONIFY_SHELF names another folder; set to nothing it keeps nothing.
"""

from __future__ import annotations

import json
import os
import re
import stat
import threading
import time
from collections.abc import Iterator, Mapping
from contextlib import contextmanager, suppress
from dataclasses import replace
from pathlib import Path
from typing import Any, NoReturn

import platformdirs

from sonify.errors import SonifyError
from sonify.records.fact import wrong
from sonify.records.kept import CLASS, KINDS, MOST_STATES, PLAN, Kept, State
from sonify.storage.workshop import flush_folder, locked

#: What the first lines of each file say; raise it where an older program would misread what a newer one wrote.
FORM = 1
FOLDERS = {PLAN: "plans", CLASS: "classes"}
READINGS = "readings"
LOCK = "lock"
MOST_OF = {PLAN: 300, CLASS: 60}
#: Twenty states of a scene of 1 MB each, as JSON writes them; and all tables together.
MOST_BYTES, MOST_READINGS_BYTES = 64_000_000, 500_000_000
#: States that follow each other within so many seconds are one: the twenty reach back over days, not over a minute.
ONE_STATE_S = 60.0
#: What was deleted can be had back for so long.
LAPSES_S = 3600.0
LONGEST_NAME = 80
#: How long another server's step is waited for.
PATIENCE_S, PAUSE_S = 5.0, 0.02
ID = re.compile(r"[0-9a-f]{16}")
_KEY = re.compile(r"[0-9a-f]{32}")
_OURS = re.compile(r"[0-9a-f]{16}\.(json|spoilt)|[0-9a-f]{32}\.txt|\.[0-9a-f]+\.part")


class CannotKeep(SonifyError):
    """Nothing can be kept just now, and why. The plan itself is none the worse for it."""


def folder() -> Path | None:
    """Where things are kept, None where they are not to be."""
    named = os.environ.get("SONIFY_SHELF")
    if named is not None:
        return Path(named) if named else None
    try:
        return platformdirs.user_data_path("sonify", appauthor=False) / "kept"
    except RuntimeError:
        return None  # an account that has no home


class Keeping:
    """What is kept in a folder. Every method raises CannotKeep where the folder does not let it."""

    def __init__(self, place: Path) -> None:
        self.place = place
        self._read: dict[Path, tuple[tuple[int, int, int], Kept]] = {}

    # --- reading -----------------------------------------------------------------------------------------------------

    def all(self) -> list[Kept]:
        """Everything, the newest first, what was deleted too until that can no longer be undone.

        A file that nothing can be made of is passed over, and stays.
        """
        with self._turn():
            found = self._all()
            for kept in found:
                if kept.gone_s is not None and abs(time.time() - kept.gone_s) > LAPSES_S:
                    self._remove(kept)
                    found = [each for each in found if each is not kept]
            return sorted(found, key=lambda kept: -kept.newest.at_s)

    def one(self, kind: str, number: str) -> Kept:
        """One of them. Raises CannotKeep where it is not there."""
        with self._turn():
            return self._one(kind, number)

    def readings(self, key: str) -> str:
        """The text of readings by their key. Raises CannotKeep where they are not there."""
        with _told():
            path = self._readings_path(key)
            try:
                return _text_of(path)
            except (FileNotFoundError, ValueError):
                raise CannotKeep(wrong("error_files-keep-no-readings")) from None

    def has_readings(self, key: str) -> bool:
        return self._readings_path(key).is_file()

    # --- changing ----------------------------------------------------------------------------------------------------

    def keep(self, kind: str, number: str, name: str, held: Mapping[str, Any], readings: str | None = None) -> Kept:
        """Keep how something is now. name: what it is called if it is new, else it is called as it was.

        What was deleted stays so, and as it was, until `undelete`.
        """
        with self._turn():
            before = self._found(kind, number)
            others = [kept for kept in self._all() if kept.kind == kind]
            if before is not None and before.gone_s is not None:
                return before
            if before is None and sum(kept.gone_s is None for kept in others) >= MOST_OF[kind]:
                raise CannotKeep(wrong("error_files-keep-many", most=MOST_OF[kind]))
            now = State(at_s=round(time.time(), 3), held=held)
            if before is None:
                kept = Kept(kind=kind, id=number, name=_free(name, others), states=(now,))
            else:
                kept = replace(before, states=_followed(before.states, now))
            if readings is not None and now.readings:
                self._keep_readings(now.readings, readings)
            if kept != before:
                kept = self._write(kept)
            if before is not None:
                self._sweep(before.readings - kept.readings)
            return kept

    def rename(self, kind: str, number: str, name: str) -> Kept:
        """Another name; a number follows it where something of the kind has it already."""
        with self._turn():
            kept = self._one(kind, number)
            others = [each for each in self._all() if each.kind == kind and each.id != number]
            kept = replace(kept, name=_free(name, others))
            self._write(kept)
            return kept

    def delete(self, kind: str, number: str) -> None:
        """Delete something; `undelete` has it back until that lapses."""
        with self._turn():
            self._write(replace(self._one(kind, number), gone_s=round(time.time(), 3)))

    def undelete(self, kind: str, number: str) -> None:
        with self._turn():
            self._write(replace(self._one(kind, number), gone_s=None))

    def lapse(self) -> None:
        """What was deleted is gone for good."""
        if not self.place.is_dir():
            return
        with self._turn():
            for kept in self._all():
                if kept.gone_s is not None:
                    self._remove(kept)

    def forget(self) -> None:
        """Remove everything that was ever kept here, at once and for good."""
        with self._turn():
            self._read.clear()
            for name in (*FOLDERS.values(), READINGS):
                for path in self._files(name):
                    path.unlink(missing_ok=True)
                with suppress(OSError):  # somebody else's file is in it: it stays
                    (self.place / name).rmdir()
            flush_folder(self.place)

    # --- the files ---------------------------------------------------------------------------------------------------

    @contextmanager
    def _turn(self) -> Iterator[None]:
        """The folder, made if need be, nobody else at work in it, and what they half wrote gone."""
        with _told():
            for name in ("", *FOLDERS.values(), READINGS):
                (self.place / name).mkdir(mode=0o700, parents=not name, exist_ok=True)
            lock = os.open(self.place / LOCK, os.O_RDWR | os.O_CREAT | getattr(os, "O_NOFOLLOW", 0), 0o600)
            try:
                until = time.monotonic() + PATIENCE_S
                while locked(lock) is False:
                    if time.monotonic() > until:
                        raise CannotKeep(wrong("error_files-keep-busy"))
                    time.sleep(PAUSE_S)
                yield
            finally:
                os.close(lock)

    def _files(self, name: str) -> list[Path]:
        """Our own files in one of our folders. A link is none."""
        with os.scandir(self.place / name) as entries:
            ours = [each for each in entries if _OURS.fullmatch(each.name) and each.is_file(follow_symlinks=False)]
            return sorted(Path(each.path) for each in ours)

    def _all(self) -> list[Kept]:
        paths = [(kind, path) for kind in KINDS for path in self._files(FOLDERS[kind]) if path.suffix == ".json"]
        found = [self._at(path, kind) for kind, path in paths]
        return [kept for kept in found if kept is not None]

    def _path(self, kind: str, number: str) -> Path:
        if kind not in KINDS or not ID.fullmatch(number):
            raise CannotKeep(wrong("error_files-keep-not-there"))
        return self.place / FOLDERS[kind] / f"{number}.json"

    def _readings_path(self, key: str) -> Path:
        if not _KEY.fullmatch(key):
            raise CannotKeep(wrong("error_files-keep-no-readings"))
        return self.place / READINGS / f"{key}.txt"

    def _one(self, kind: str, number: str) -> Kept:
        found = self._at(self._path(kind, number), kind)
        if found is None:
            raise CannotKeep(wrong("error_files-keep-not-there"))
        return found

    def _found(self, kind: str, number: str) -> Kept | None:
        """Something if it is there. What cannot be read is moved aside, for what is kept now takes its place."""
        path = self._path(kind, number)
        if (found := self._at(path, kind)) is None and os.path.lexists(path):
            os.replace(path, path.with_suffix(".spoilt"))
        return found

    def _at(self, path: Path, kind: str) -> Kept | None:
        try:
            info = os.lstat(path)
            stamp = (info.st_mtime_ns, info.st_size, info.st_ino)
            if (known := self._read.get(path)) is not None and known[0] == stamp:
                return known[1]
            kept = kept_of(_text_of(path), kind, path.stem)
        except (FileNotFoundError, PermissionError, ValueError, RecursionError):
            return None
        self._read[path] = (stamp, kept)
        return kept

    def _write(self, kept: Kept) -> Kept:
        """Write it, without its oldest states where a file that can be read again would not hold them."""
        data = text_of(kept).encode("utf-8")
        while len(data) > MOST_BYTES:
            if len(kept.states) == 1:
                raise CannotKeep(wrong("error_files-keep-too-long", most=MOST_BYTES // 1_000_000))
            kept = replace(kept, states=kept.states[(len(kept.states) + 1) // 2 :])
            data = text_of(kept).encode("utf-8")
        put(self._path(kept.kind, kept.id), data)
        return kept

    def _remove(self, kept: Kept) -> None:
        path = self._path(kept.kind, kept.id)
        self._read.pop(path, None)
        path.unlink(missing_ok=True)
        self._sweep(kept.readings)

    def _keep_readings(self, key: str, text: str) -> None:
        path = self._readings_path(key)
        if path.is_file():
            return
        data = text.encode("utf-8")
        if self._full(len(data)):  # what was deleted gives way before what is wanted now is refused
            for kept in [each for each in self._all() if each.gone_s is not None and each.readings]:
                self._remove(kept)
        if self._full(len(data)):
            raise CannotKeep(wrong("error_files-keep-readings-full", most=MOST_READINGS_BYTES // 1_000_000))
        put(path, data)

    def _full(self, more_bytes: int) -> bool:
        return more_bytes + sum(each.stat().st_size for each in self._files(READINGS)) > MOST_READINGS_BYTES

    def _sweep(self, keys: frozenset[str]) -> None:
        """Readings among these that no state names any more are removed, and what a killed program half wrote."""
        if keys:
            needed = frozenset().union(*(kept.readings for kept in self._all()))
            for key in keys - needed:
                self._readings_path(key).unlink(missing_ok=True)
        for name in (*FOLDERS.values(), READINGS):
            for path in self._files(name):
                if path.suffix == ".part":
                    path.unlink(missing_ok=True)


@contextmanager
def _told() -> Iterator[None]:
    """What the system refuses, as the one sentence that says so."""
    try:
        yield
    except OSError as error:
        raise CannotKeep(wrong("error_files-cannot-keep", why=error.strerror or "?")) from error


def put(path: Path, data: bytes) -> None:
    """Put a file where it belongs in one step: whatever happens, the whole old one is there or the whole new one."""
    part = path.with_name(f".{os.getpid():x}{threading.get_ident():x}.part")
    try:
        with open(part, "wb", opener=_private) as file:
            file.write(data)
            file.flush()
            os.fsync(file.fileno())
        os.replace(part, path)
    except BaseException:
        with suppress(OSError):
            part.unlink(missing_ok=True)
        raise
    flush_folder(path.parent)


def _private(path: str, flags: int) -> int:
    """A file that only this person can read, and no link to another."""
    return os.open(path, flags | getattr(os, "O_NOFOLLOW", 0), 0o600)


def _text_of(path: Path) -> str:
    """The text of one of our files. ValueError where it cannot be one."""
    info = os.lstat(path)
    if not stat.S_ISREG(info.st_mode) or info.st_size > MOST_BYTES:
        raise ValueError(path.name)
    return path.read_text(encoding="utf-8")


def _followed(states: tuple[State, ...], now: State) -> tuple[State, ...]:
    """States with one more, unless it is as it was; what was so for less than a minute makes room for it."""
    last = states[-1]
    if last.held == now.held:
        return states
    if len(states) > 1 and 0 <= now.at_s - last.at_s < ONE_STATE_S:
        return (*states[:-1], replace(now, at_s=last.at_s))
    return (*states, now)[-MOST_STATES:]


def _free(name: str, others: list[Kept]) -> str:
    """A name that none of the others has: as it is, or with a number after it."""
    plain = plain_name(name)
    taken = {kept.name for kept in others}
    tried = [plain, *(f"{plain} {number}" for number in range(2, len(others) + 3))]
    return next(each for each in tried if each not in taken)


def plain_name(name: str) -> str:
    """A name as one line of at most LONGEST_NAME letters. Raises CannotKeep where nothing is left of it.

    >>> plain_name("  Year 4,\\n Tuesday ")
    'Year 4, Tuesday'
    """
    plain = " ".join("".join(letter if letter.isprintable() else " " for letter in name).split())[:LONGEST_NAME].strip()
    if not plain:
        raise CannotKeep(wrong("error_files-keep-no-name"))
    return plain


# --- the text of a file ----------------------------------------------------------------------------------------------


def text_of(kept: Kept) -> str:
    """The text of its file, which `kept_of` reads back equal."""
    facts = {
        "sonify": "kept",
        "form": FORM,
        "kind": kept.kind,
        "id": kept.id,
        "name": kept.name,
        "gone_s": kept.gone_s,
        "states": [{"at_s": state.at_s, "held": state.held} for state in kept.states],
    }
    return json.dumps(facts, indent=1) + "\n"


def kept_of(text: str, kind: str, number: str) -> Kept:
    """What a file says, which should be of this kind and number. ValueError where it is not one of ours."""
    facts = json.loads(text, parse_constant=_no_number)
    if not isinstance(facts, dict) or facts.get("sonify") != "kept" or facts.get("form") != FORM:
        raise ValueError("not ours")
    if facts.get("kind") != kind or facts.get("id") != number:
        raise ValueError("another's")
    states, gone_s = facts.get("states"), facts.get("gone_s")
    if not isinstance(states, list) or not 0 < len(states) <= MOST_STATES:
        raise ValueError("no states")
    named = facts.get("name")
    if not isinstance(named, str):
        raise ValueError("no name")
    try:
        name = plain_name(named)
    except CannotKeep:
        raise ValueError("no name") from None
    return Kept(
        kind=kind,
        id=number,
        name=name,
        states=tuple(_state_of(state) for state in states),
        gone_s=None if gone_s is None else _seconds(gone_s),
    )


def _state_of(facts: Any) -> State:
    if not isinstance(facts, dict) or not isinstance(facts.get("held"), dict):
        raise ValueError("no state")
    return State(at_s=_seconds(facts.get("at_s")), held=facts["held"])


def _seconds(value: Any) -> float:
    if isinstance(value, bool) or not isinstance(value, int | float) or not -1e12 < value < 1e12:
        raise ValueError("no time")
    return float(value)


def _no_number(name: str) -> NoReturn:
    raise ValueError(name)
