"""Which letters the project's font can draw: for paper, which is set in it, and for the drawings that go on paper."""

from __future__ import annotations

from functools import cache

from sonify.templates import template

#: What stands for a letter that cannot be drawn.
STAND_IN = "\N{REPLACEMENT CHARACTER}"


@cache
def drawable() -> frozenset[int]:
    """Code points that the font can draw in both its cuts."""
    found: set[int] = set()
    for line in template("records", "letters.txt").splitlines():
        for ends in [] if line.startswith("#") else line.split():
            first, _, last = ends.partition("-")
            found.update(range(int(first, 16), int(last or first, 16) + 1))
    return frozenset(found)
