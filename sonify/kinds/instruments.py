"""What instruments are: their families, and what makes them sound darker or brighter."""

from __future__ import annotations

FAMILIES = (
    "bars",
    "bells",
    "metal",
    "skin",
    "wood",
    "shaken",
    "scraped",
    "effect",
    "strings",
    "wind",
    "keys",
    "body",
    "voice",
)
REGISTERS = ("low", "middle", "high")
#: What strikes it, softer or harder; or that it has one sound however it is played.
BEATERS, HANDS, ONE_SOUND = STRUCK_WITH = ("beaters", "hands", "one sound")
