"""Which toolkit this is, to the byte: what is kept from one run must not stand in for what another code would make."""

from __future__ import annotations

import hashlib
import platform
import sys
from functools import cache
from pathlib import Path

from sonify import __version__
from sonify.storage.program import is_folder
from sonify.storage.shelf import default_class_path, shelf

_PACKAGE = Path(__file__).resolve().parent.parent

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
    program = [Path(sys.executable)] if is_folder() else []  # it holds the modules
    rows = [sys.version, _digest_of(_PACKAGE, shelf() / "shared", *program)]
    rows += [f"{name} {_version(name)}" for name in RESTS_ON]
    digest = hashlib.sha256("\n".join(rows).encode()).hexdigest()
    return f"{__version__} {digest[:24]}"


@cache
def about() -> dict[str, str]:
    """`about_now` when this process first asked: what it makes packs with."""
    return about_now()


def about_now() -> dict[str, str]:
    """What a pack's bytes rest on besides its inputs, by name: machines that make packs of one run agree in it.

    Ready-made scenes count, for a task names them, and so do the letters that a file's name may have.
    """
    files = _digest_of(_PACKAGE, shelf() / "shared", shelf() / "scenes", default_class_path())
    return {
        "sonify": __version__,
        "files": files[:12],
        "Python": platform.python_version(),
        "system": f"{platform.system()} {platform.machine()}",
        "letters": sys.getfilesystemencoding(),
        **{name: _version(name) for name in (*RESTS_ON, "distributed")},
    }


def _digest_of(*roots: Path) -> str:
    """Of all files in these folders; of the program's own, without what was compiled and what has a folder here."""
    digest = hashlib.sha256()
    for root in roots:
        for path in [root] if root.is_file() else sorted(root.rglob("*")):
            name = path.relative_to(root)
            if path.is_file() and "__pycache__" not in name.parts and name.parts[:1] != ("shipped",):
                digest.update(name.as_posix().encode() + b"\0" + path.read_bytes())
    return digest.hexdigest()


def _version(name: str) -> str:
    from importlib.metadata import PackageNotFoundError, version  # what is kept from run to run is not always asked for

    try:
        return version(name)
    except PackageNotFoundError:
        return "unknown"
