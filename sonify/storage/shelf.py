"""The shelf: where the files that ship with the package lie, and reading what a person gives by name or path.

In a wheel they lie in `sonify/shipped`; in a checkout they are the top-level folders of the project.
"""

from __future__ import annotations

import os
import stat
from functools import cache
from pathlib import Path

from sonify.errors import BadFile, UnknownName
from sonify.records.fact import wrong

_PACKAGE = Path(__file__).resolve().parent.parent

#: A scene or class file of more bytes than this is refused unread.
LARGEST_TEXT_BYTES = 1_000_000
#: A file of readings may be larger: a million rows of a few columns are 40 MB.
LARGEST_DATA_BYTES = 200_000_000


@cache
def shelf() -> Path:
    """The folder that holds `scenes`, `shared` and `examples`."""
    shipped = _PACKAGE / "shipped"
    return shipped if shipped.is_dir() else _PACKAGE.parent


def scene_names() -> list[str]:
    """Names of the ready-made scenes, in alphabetical order."""
    return sorted(path.stem for path in (shelf() / "scenes").glob("*.toml"))


def scene_path(name_or_path: str | Path) -> Path:
    """The file of a scene given by name or by path.

    Raises UnknownName where it is neither: something with a suffix or a separator counts as a path.
    """
    given = Path(name_or_path)
    if given.suffix == ".toml" or len(given.parts) > 1 or os.path.isfile(given):
        return given
    shipped = shelf() / "scenes" / f"{name_or_path}.toml"
    if str(name_or_path) in scene_names():
        return shipped
    if os.path.isfile(f"{name_or_path}.toml"):
        raise BadFile(str(name_or_path), wrong("error_files-ready-made-scene", name_or_path=name_or_path))
    raise UnknownName("scene", str(name_or_path), scene_names())


def shared_text(name: str) -> str:
    """The text of a file in `shared/`."""
    return (shelf() / "shared" / name).read_text(encoding="utf-8")


def fonts_folder() -> Path:
    """The folder of the bundled open fonts."""
    return shelf() / "shared" / "fonts"


def default_class_path() -> Path:
    """The class file used where none is given: the well-stocked cupboard."""
    return shelf() / "examples" / "well-stocked.toml"


def bytes_of(path: Path, *, what: str, most: int = LARGEST_TEXT_BYTES) -> bytes:
    """The bytes of a file that a person wrote, at most one over the allowed size. BadFile where it cannot be read."""
    try:
        kind = os.stat(path).st_mode
        if stat.S_ISDIR(kind):
            raise BadFile(str(path), wrong("error_files-folder-give-file", what=what))
        if not stat.S_ISREG(kind):  # a pipe or a device: reading might wait for ever
            raise BadFile(str(path), wrong("error_files-ordinary-file-save", what=what))
        with path.open("rb") as file:
            return file.read(most + 1)
    except FileNotFoundError:
        raise BadFile(str(path), wrong("error_files-file-check-spelling", what=what)) from None
    except OSError as error:
        raise BadFile(str(path), wrong("error_files-file-read", what=what, strerror=error.strerror)) from None
