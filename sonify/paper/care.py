"""Cautions: what the scene says, with what every lesson needs added to it, nothing said twice."""

from __future__ import annotations

import re

from sonify.frozen import dataclass
from sonify.records.fact import fact
from sonify.records.scene import Scene
from sonify.say import say


@dataclass(frozen=True, slots=True)
class Care:
    """A standing caution. spoken: how to tell that a person's own words speak of it already.

    known: words that a scene has where it says the addition itself.
    """

    id: str
    spoken: re.Pattern[str]
    known: str = ""


SOUND = Care("sound", re.compile(r"\b(no louder|as loud|about as loud)\b", re.IGNORECASE))
HEAT = Care(
    "heat",
    re.compile(r"\b(hot|boiling|steam|kettles?|flames?)\b.*\bteacher\b|\bteacher\b.*\bhot\b", re.IGNORECASE),
    "half an hour",
)
#: Whether a person's own words deal with anything hot.
_HOT = re.compile(r"\b(hot|hotter|boil\w*|steam|kettles?|flames?|hob|candles?|burn\w*|heater|heated)\b", re.IGNORECASE)


def deals_with_heat(scene: Scene) -> bool:
    """Whether any word of the scene is of something hot."""
    told = (*scene.cautions, *scene.teacher_notes, scene.story, *(note.caption for note in scene.stages))
    asked = (*(q.ask + q.answer for q in scene.questions), *(m.correction + m.ask for m in scene.misconceptions))
    return any(_HOT.search(words) for words in (*told, *asked))


def cautions(said: tuple[str, ...], *, heat: bool = True, instruments: bool = True) -> list[str]:
    """The scene's cautions, each followed by what is to be added to it, then what it does not speak of.

    heat: the lesson deals with something hot. instruments: there are some to carry.
    """
    found = list(dict.fromkeys(said))
    for care in (SOUND, HEAT) if heat else (SOUND,):
        adds = say(fact(f"care-{care.id}-adds", instruments="yes" if instruments else "no"))
        place = next((i for i, words in enumerate(found) if care.spoken.search(words)), None)
        if place is None:
            found.append(say(fact("care-both", same=say(fact(f"care-{care.id}-same")), adds=adds)))
        elif not care.known or care.known not in found[place]:
            found[place] = say(fact("care-both", same=found[place], adds=adds))
    return [*found, say(fact("care-instruments" if instruments else "care-bodies"))]
