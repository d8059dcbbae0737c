"""By what a scene is found: topics, school years and aim, as its curriculum lines say; what its parts play on."""

from __future__ import annotations

import re
from typing import Any

from sonify.kinds.topics import topics_of
from sonify.records.instrument import Catalogue
from sonify.records.scene import Scene

#: "England, science, Years 3 to 6, plants: what they need": the years, what is named, and what is learnt.
_LINE = re.compile(r"England, science, Years? (\d)(?: (to|and) (\d))?, ([^:.]+)[:.]?\s*(.*)", re.DOTALL)
YEARS = (3, 4, 5, 6)
#: A Year 4 is eight years old at its start (England; common practice).
YOUNGER = 4
#: Processes that play what somebody measured, and those that play what an author drew or put in order.
READINGS, OWN = ("measured", "experiment", "results-table"), ("drawn", "in-order")


def found_by(scene: Scene, catalogue: Catalogue) -> dict[str, Any]:
    """What the list of scenes is filtered by, and the line that says what pupils learn.

    sounds: of each part the instruments of the cupboard that would do; a part for bodies and voices has none.
    """
    lines = [found for line in scene.curriculum if (found := _LINE.match(line))]
    named = [(found, topics) for found in lines if (topics := topics_of(found[4]))]
    # A scene is for these years even where a line of it looks back to earlier ones.
    named = [each for each in named if set(_years(each[0])) & set(YEARS)] or named
    years = [year for year in YEARS if any(year in _years(found) for found, _ in named)]
    return {
        "topics": list(dict.fromkeys(topic for _, topics in named for topic in topics)),
        "years": years or [year for year in YEARS if scene.ages[0] <= year + YOUNGER <= scene.ages[-1]],
        "learn": next((_aim(found[5]) for found, _ in named if found[5]), ""),
        "kind": kind_of(scene),
        "sounds": [_of_cupboard(part.sounds, catalogue) for part in scene.parts],
    }


def kind_of(scene: Scene) -> str:
    """Where a scene's numbers come from: computed, readings or own."""
    return "readings" if scene.process in READINGS else "own" if scene.process in OWN else "computed"


def _years(found: re.Match[str]) -> range | tuple[int, ...]:
    first, last = int(found[1]), int(found[3] or found[1])
    return range(first, last + 1) if found[2] == "to" else (first, last)


def _aim(text: str) -> str:
    """The first thing that a line names."""
    return re.split(r"[;.](?:\s|$)| \(", text.strip(), maxsplit=1)[0]


def _of_cupboard(sounds: tuple[str, ...], catalogue: Catalogue) -> list[str]:
    rows = [catalogue.find(name) for name in sounds]
    return list(dict.fromkeys(row.id for row in rows if not row.bodily))
