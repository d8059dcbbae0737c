"""A room's own text files (document templates, page parts), which ship inside the package and are as fixed as code.

The one place below `lesson` that reads a file, and it reads only the package's own.
"""

from __future__ import annotations

from functools import cache
from importlib.resources import files


@cache
def template(room: str, name: str) -> str:
    """The text of `sonify/<room>/<name>`."""
    return (files("sonify") / room / name).read_text(encoding="utf-8")
