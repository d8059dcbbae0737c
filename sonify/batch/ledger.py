"""The ledger of a folder of packs: which are made, which failed and why, so that a run can go on after any end.

It is written before a pack is begun and after it is there, by the one process that hands out the work. A run that was
killed between a pack's last step (its folder is put in place) and the ledger's next line leaves a pack "begun": it was
made where another manifest stands there than when it was begun. So nothing is made twice, and nothing is taken on
trust: a pack counts as made only while the manifest that was written then is the one that stands there now, and none of
its files is missing, empty or cut short. A file that was changed is a person's own work, and stays.
"""

from __future__ import annotations

import hashlib
import json
import os
import sqlite3
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from types import TracebackType
from typing import Any

from sonify.batch.pairs import Pair
from sonify.errors import InUse, PackInTheWay, SonifyError
from sonify.frozen import dataclass
from sonify.records.fact import wrong
from sonify.storage.pack import MANIFEST, complete, recover, sizes_of, whole

NAME = "sonify-ledger.sqlite"
FORM = 2
TABLES = """
CREATE TABLE IF NOT EXISTS about (name TEXT PRIMARY KEY, value TEXT NOT NULL) WITHOUT ROWID;
CREATE TABLE IF NOT EXISTS packs (
    folder TEXT PRIMARY KEY,            -- SCENE/CLASS, below the folder that holds this file
    state TEXT NOT NULL,                -- wanted, begun, made or failed
    key TEXT NOT NULL DEFAULT '',       -- digest of all that it is made of, as of `state`
    before TEXT NOT NULL DEFAULT '',    -- digest of the manifest that stood there when it was begun
    manifest TEXT NOT NULL DEFAULT '',  -- digest of the manifest that was made
    why TEXT NOT NULL DEFAULT '',       -- why it failed, for people
    trace TEXT NOT NULL DEFAULT '',     -- where in the program, if that was its own fault
    card TEXT NOT NULL DEFAULT '',      -- what the shelf is to show of it once it is made, sealed
    shown TEXT NOT NULL DEFAULT '',     -- what the shelf shows of the one that was made
    sizes TEXT NOT NULL DEFAULT '',     -- of its files, sealed: name -> bytes
    times INTEGER NOT NULL DEFAULT 0,   -- how often it was made
    seconds REAL NOT NULL DEFAULT 0,    -- how long that took the last time
    changed_s REAL NOT NULL DEFAULT 0   -- when this line was written, in seconds since 1970
) WITHOUT ROWID;
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Row:
    """One line of the ledger."""

    folder: str
    state: str
    key: str
    before: str
    manifest: str
    why: str
    card: str
    shown: str
    sizes: str
    times: int


class Ledger:
    """The ledger of `out`, which is made where it is not there. Held by one process at a time."""

    def __init__(self, out: Path, stamp: str) -> None:
        """Raises SonifyError where `out` is no place for packs, InUse where another run is at work there."""
        self.out = out
        self.began_s: dict[str, float] = {}
        if os.path.lexists(out / MANIFEST):
            raise PackInTheWay(wrong("error_batch-is-a-pack", out=out))
        try:
            out.mkdir(parents=True, exist_ok=True)
        except OSError as error:
            raise SonifyError(wrong("error_files-folder-made", folder=out, value=error.strerror or error)) from error
        with self._told():
            self._lines = sqlite3.connect(out / NAME, timeout=2.0, isolation_level=None)
            try:
                self._lines.execute("PRAGMA locking_mode = EXCLUSIVE")  # let go by the system when this process ends
                self._lines.execute("PRAGMA synchronous = FULL")
                self._lines.execute("BEGIN EXCLUSIVE")
                self._set_up()
                self.note("toolkit", stamp)
                self._lines.execute("COMMIT")
            except BaseException:
                self._lines.close()
                raise

    def _set_up(self) -> None:
        if self._lines.execute("PRAGMA integrity_check").fetchone()[0] != "ok":
            raise sqlite3.DatabaseError
        for statement in TABLES.split(";"):
            self._lines.execute(statement)
        self._lines.execute("INSERT OR IGNORE INTO about VALUES ('form', ?)", (str(FORM),))
        if self.about("form") != str(FORM):
            raise SonifyError(wrong("error_batch-other-form", ledger=self.out / NAME))

    def __enter__(self) -> Ledger:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, tb: TracebackType | None) -> None:
        self._lines.close()

    # --- reading -----------------------------------------------------------------------------------------------------

    def row(self, pair: Pair) -> Row:
        with self._told():
            for row in self.rows("WHERE folder = ?", pair.folder):
                return row
            raise sqlite3.DatabaseError  # it was expected, and is not found

    def rows(self, only: str = "", *values: str) -> list[Row]:
        names = ", ".join(Row.__slots__)
        with self._told():
            found = self._lines.execute(f"SELECT {names} FROM packs {only} ORDER BY folder", values).fetchall()
            for *texts, times in found:
                if not isinstance(times, int) or not all(isinstance(text, str) and "\0" not in text for text in texts):
                    raise sqlite3.DatabaseError
        return [Row(**dict(zip(Row.__slots__, each, strict=True))) for each in found]

    def cards(self) -> Iterator[tuple[str, dict[str, Any]]]:
        """Every pack that stands as a run made it, though a later try failed: its folder, and what is shown of it."""
        for row in self.rows("WHERE manifest != ''"):
            if self.manifest_of(row.folder) == row.manifest:
                with self._told():
                    card = opened(row.shown)
                yield row.folder, card

    def manifest_of(self, folder: str) -> str:
        """The digest of the manifest that stands in a folder, "" where there is none."""
        try:
            return hashlib.sha256((self.out / folder / MANIFEST).read_bytes()).hexdigest()
        except OSError:
            return ""

    def stands(self, pair: Pair) -> bool:
        """Whether the pair's pack was made by an earlier run, of the same inputs by the same program, and is here."""
        row = self.row(pair)
        if row.state == "begun":
            row = self._settled(pair, row)
        if row.state != "made" or row.key != pair.key or self.manifest_of(pair.folder) != row.manifest:
            return False
        with self._told():
            sizes = opened(row.sizes)
        return complete(self.out / pair.folder, sizes)

    def _settled(self, pair: Pair, row: Row) -> Row:
        """The line of a pack that was begun by a run that is gone: made, where it came to that."""
        place = self.out / pair.folder
        try:
            recover(place)
        except SonifyError:
            return row  # the next make of it says why
        now = self.manifest_of(pair.folder)
        if not now or now == row.before or not row.card or not whole(place):
            return row
        self._made(pair, row, now)
        return self.row(pair)

    # --- writing -----------------------------------------------------------------------------------------------------

    def expect(self, pair: Pair) -> None:
        """The pair is wanted; what is known of it already stays."""
        with self._told():
            self._lines.execute("INSERT OR IGNORE INTO packs (folder, state) VALUES (?, 'wanted')", (pair.folder,))

    def begun(self, pair: Pair) -> None:
        self.began_s[pair.folder] = time.monotonic()
        before = self.manifest_of(pair.folder)
        self._write(pair, state="begun", key=pair.key, before=before, why="", trace="")

    def card(self, pair: Pair, card: dict[str, Any]) -> None:
        """What the shelf is to show of a pack. The worker waits for this line before it goes on: it may be the last."""
        self._write(pair, card=sealed(card))

    def made(self, pair: Pair, seconds: float | None = None) -> None:
        """seconds: how long it took, where that is not the time since it was begun."""
        took_s = time.monotonic() - self.began_s[pair.folder] if seconds is None else seconds
        self._made(pair, self.row(pair), self.manifest_of(pair.folder), seconds=round(took_s, 2))

    def _made(self, pair: Pair, row: Row, manifest: str, **more: Any) -> None:
        sizes = sealed(sizes_of(self.out / pair.folder))
        values = {"manifest": manifest, "times": row.times + 1, "shown": row.card, "sizes": sizes}
        self._write(pair, state="made", **values, **more)

    def failed(self, pair: Pair, why: str, trace: str = "") -> None:
        told = why.encode("utf-8", "replace").decode()  # a file's name need not be text
        self._write(pair, state="failed", key=pair.key, why=told, trace=trace)

    def about(self, name: str) -> str:
        with self._told():
            found = self._lines.execute("SELECT value FROM about WHERE name = ?", (name,)).fetchone()
        return str(found[0]) if found else ""

    def note(self, name: str, value: str) -> None:
        with self._told():
            self._lines.execute("INSERT OR REPLACE INTO about VALUES (?, ?)", (name, value))

    def _write(self, pair: Pair, **values: Any) -> None:
        values["changed_s"] = round(time.time(), 3)
        names = ", ".join(f"{name} = ?" for name in values)
        with self._told():
            self._lines.execute(f"UPDATE packs SET {names} WHERE folder = ?", (*values.values(), pair.folder))

    @contextmanager
    def _told(self) -> Iterator[None]:
        """The database's own errors as one message."""
        ledger = self.out / NAME
        try:
            yield
        except sqlite3.OperationalError as error:
            if getattr(error, "sqlite_errorcode", 0) & 0xFF in (sqlite3.SQLITE_BUSY, sqlite3.SQLITE_LOCKED):
                raise InUse(wrong("error_batch-in-use", out=self.out)) from error
            raise SonifyError(wrong("error_batch-ledger-unwritten", ledger=ledger, why=error)) from error
        except (sqlite3.DatabaseError, ValueError) as error:
            raise SonifyError(wrong("error_batch-no-ledger", ledger=ledger)) from error


def sealed(value: dict[str, Any]) -> str:
    """A value as JSON behind its digest: a line that was damaged is not read as another one."""
    text = json.dumps(value)
    return f"{hashlib.sha256(text.encode()).hexdigest()} {text}"


def opened(line: str) -> dict[str, Any]:
    """What was sealed. Raises ValueError where it is damaged."""
    digest, _, text = line.partition(" ")
    if hashlib.sha256(text.encode()).hexdigest() != digest:
        raise ValueError(line)
    return dict(json.loads(text))
