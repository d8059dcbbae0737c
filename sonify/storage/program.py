"""How this program starts a module of itself in a process of its own: with the Python that runs it, or, made into one
folder that needs no Python (`tools/folder.py`), with itself."""

from __future__ import annotations

import os
import sys


def is_folder() -> bool:
    """Whether this is the program as one folder: there is no Python to hand a module to."""
    return bool(getattr(sys, "frozen", False))


def command(module: str) -> tuple[str, ...]:
    """What starts a module; -P: nothing is imported from the folder it works in."""
    return (sys.executable, "-m", module) if is_folder() else (sys.executable, "-P", "-m", module)


def environment() -> dict[str, str]:
    """The process imports what this one does, however that was found."""
    path = os.pathsep.join(path or os.getcwd() for path in sys.path)
    return {**os.environ, "PYTHONPATH": path}
