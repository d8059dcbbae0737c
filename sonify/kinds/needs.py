"""What a class may need: a class file lists them by these names."""

from __future__ import annotations

#: Of the whole class.
NO_SUDDEN_SOUNDS, LARGE_PRINT, QUIET_START = OF_ALL = ("no sudden loud sounds", "large print", "quiet start")
#: Of single pupils: behind a colon may stand how many, and in which group ("one hand: 2 in group 3").
NEW_TO_ENGLISH, ONE_HAND, SHORT_REACH, STARTLES, HEARING_AID, BLIND, DOES_NOT_SPEAK, PARTNER = OF_PUPILS = (
    "new to English",
    "one hand",
    "limited reach",
    "startles",
    "hearing aid",
    "blind",
    "does not speak",
    "needs a partner",
)
NEEDS = (*OF_ALL, *OF_PUPILS)
#: Other words for them that a class file may have.
ALSO_CALLED = {"cochlear implant": HEARING_AID, "startle": STARTLES, "pictures": NEW_TO_ENGLISH}

#: Held in one hand and struck, scraped or covered with the other: no stand frees a hand (common practice).
BOTH_HANDS = frozenset(
    {
        "claves",
        "finger-cymbals",
        "guiro",
        "cabasa",
        "recorder",
        "ocarina",
        "ukulele",
        "guitar",
        "violin",
        "ocean-drum",
        "rain-stick",
        "claps",
        "paper",
        "slide-whistle",
        "vibraslap",
    }
)
