"""Runs of small packs that a stub makes, for the ledger's tests and for the campaign of kills."""

from __future__ import annotations

import hashlib
import json
import sqlite3
import sys
from collections.abc import Callable
from contextlib import closing
from pathlib import Path

from sonify.batch import Made, Row, make_pairs
from sonify.batch.ledger import NAME
from sonify.batch.pairs import Pair

COMMAND = (sys.executable, "-m", "tests.batch.stub")


def pair(folder: str, how: str = "whole", *, version: str = "1", seconds: float = 0.0, replace: bool = False) -> Pair:
    """version: another one is another content of the inputs."""
    task = json.dumps({"how": how, "seconds": seconds, "replace": replace})
    return Pair(folder=folder, key=hashlib.sha256(f"{folder} {version}".encode()).hexdigest(), task=task)


def made(
    out: Path, pairs: list[Pair], warn: Callable[[Row], None] = lambda row: None, *, replace: bool = False
) -> Made:
    return make_pairs(pairs, out, warn=warn, replace=replace, command=COMMAND)


def lines(out: Path, columns: str, where: str = "true") -> list[tuple[object, ...]]:
    """Some columns of the ledger, in order of folder."""
    with closing(sqlite3.connect(out / NAME)) as ledger:
        return ledger.execute(f"SELECT {columns} FROM packs WHERE {where} ORDER BY folder").fetchall()


def tokens(out: Path) -> dict[str, str]:
    """Each pack's folder, and what tells one making of it from another."""
    return {
        path.parent.relative_to(out).as_posix(): path.read_text(encoding="utf-8")
        for path in out.glob("[!.]*/[!.]*/token.txt")
    }
