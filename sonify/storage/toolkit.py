"""Which toolkit this is, to the byte: what is kept from one run must not stand in for what another code would make."""

from __future__ import annotations

import hashlib
import sys
from functools import cache
from importlib.metadata import PackageNotFoundError, version
from pathlib import Path

from sonify import __version__
from sonify.storage.shelf import shelf

#: What the bytes of a pack rest on besides our own files.
RESTS_ON = (
    "numpy",
    "scipy",
    "verovio",
    "typst",
    "soundfile",
    "lxml",
    "mido",
    "pint",
    "fluent.runtime",
    "babel",
    "jinja2",
)


@cache
def stamp() -> str:
    """The version, and the digest of every file of the program and of the versions of what it rests on.

    A version alone would do for one that is released; whoever changes a line of it gets another stamp.
    """
    digest = hashlib.sha256(sys.version.encode())
    package = Path(__file__).resolve().parent.parent
    for root in (package, shelf() / "shared"):
        for path in sorted(root.rglob("*")):
            if path.is_file() and "__pycache__" not in path.parts and "shipped" not in path.parts:
                digest.update(path.relative_to(root).as_posix().encode() + b"\0" + path.read_bytes())
    for name in RESTS_ON:
        digest.update(f"{name} {_version(name)}\n".encode())
    return f"{__version__} {digest.hexdigest()[:24]}"


def _version(name: str) -> str:
    try:
        return version(name)
    except PackageNotFoundError:
        return "unknown"
