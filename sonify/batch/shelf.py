"""`index.html` beside the packs: made anew from the ledger by every run, never over a page that a person wrote."""

from __future__ import annotations

import hashlib
import os
from pathlib import Path

from sonify.batch.ledger import Ledger
from sonify.errors import PackInTheWay, SonifyError
from sonify.page.shelf import shelf_html
from sonify.records.fact import wrong
from sonify.storage.workshop import NEW, flush, flush_folder, workshop

INDEX = "index.html"


def check_index(out: Path, ledger: Ledger, *, replace: bool) -> None:
    """Raises PackInTheWay where the page that is there is not one that was written here."""
    index = out / INDEX
    if os.path.lexists(index) and not replace and _digest(index) not in ledger.about(INDEX).split():
        raise PackInTheWay(wrong("error_batch-index-in-the-way", index=index))


def write_index(out: Path, ledger: Ledger) -> Path:
    """The page that leads to all packs that the ledger knows and that stand here."""
    index = out / INDEX
    data = shelf_html(ledger.cards()).encode("utf-8")
    try:
        with workshop(index, "file") as shop:
            (shop / NEW).write_bytes(data)
            flush(shop / NEW)
            digest = hashlib.sha256(data).hexdigest()
            ledger.note(INDEX, f"{digest} {_digest(index)}")  # a kill may come on either side of the next line
            os.replace(shop / NEW, index)
            ledger.note(INDEX, digest)
            flush_folder(out)
    except OSError as error:
        raise SonifyError(wrong("error_files-written", path=index, value=error.strerror or error)) from error
    return index


def _digest(index: Path) -> str:
    try:
        return hashlib.sha256(index.read_bytes()).hexdigest()
    except OSError:
        return "unread"
