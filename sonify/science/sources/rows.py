"""A table of sources as rows of key, text, and how far each was checked."""

from __future__ import annotations

from sonify.records.lesson import Source


def table(*rows: tuple[str, str, str]) -> dict[str, Source]:
    """The rows by key. Raises ValueError where two rows have one key."""
    found = {key: Source(key=key, text=text, checked=checked) for key, text, checked in rows}
    if len(found) < len(rows):
        raise ValueError(f"one key twice among the sources {sorted(key for key, _, _ in rows)}")
    return found
