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
#: What an instrument of a class's own sounds like and is written as, by its family, where nobody says what it is like.
STAND_INS = {
    "bars": "alto-xylophone",
    "bells": "hand-bells",
    "metal": "triangle",
    "skin": "hand-drum",
    "wood": "wood-block",
    "shaken": "egg-shaker",
    "scraped": "guiro",
    "effect": "ocean-drum",
    "strings": "ukulele",
    "wind": "recorder",
    "keys": "keyboard",
    "body": "knee-taps",
    "voice": "voices-sh",
}
REGISTERS = ("low", "middle", "high")
#: What strikes it, softer or harder; or that it has one sound however it is played.
BEATERS, HANDS, ONE_SOUND = STRUCK_WITH = ("beaters", "hands", "one sound")
