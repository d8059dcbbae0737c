"""How hard a part's line is: from plain to busy. Each has what the one before it has, so that a group can mix them."""

from __future__ import annotations

LINES = ("easy", "core", "stretch")
