"""How a part moves: the five textures (common terms of the trade)."""

from __future__ import annotations

DRONE, OSTINATO, MELODY, TREMOLO, SCATTER = TEXTURES = ("drone", "ostinato", "melody", "tremolo", "scatter")
