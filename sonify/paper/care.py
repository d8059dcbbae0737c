"""Cautions: what the scene says, with what every lesson needs added to it, nothing said twice."""

from __future__ import annotations

import re
from dataclasses import dataclass

from sonify.records.scene import Scene


@dataclass(frozen=True, slots=True)
class Care:
    """A standing caution: how to tell that the scene speaks of it, what both would say, and what it only adds.

    known: words that a scene has where it says the addition itself.
    """

    spoken: str
    same: str
    adds: str
    known: str = ""


#: What a lesson on voices and bodies alone needs no word of.
_NEAR = "Keep beaters away from faces, and ears from drums, cymbals and sounding bars; give quiet breaks"
SOUND = Care(
    r"(?i)\b(no louder|as loud|about as loud)\b",
    "Play recordings no louder than ordinary speech, and stop when anyone raises a voice, covers the ears or hears "
    "ringing.",
    f"The level at a pupil's ear depends on loudspeaker and room, and no file can limit it. {_NEAR}, and ear defenders "
    "or a seat further off to those who want them.",
)
HEAT = Care(
    r"(?i)\b(hot|boiling|steam|kettles?|flames?)\b.*\bteacher\b|\bteacher\b.*\bhot\b",
    "Kettles, steam, flames and hot liquids, should you show any, are for the teacher alone. Wipe up spills and keep "
    "electrical things dry.",
    "Hot liquid can scald for up to half an hour: away from edges, out of reach, cooled before it is moved.",
    "half an hour",
)
#: Whether a scene deals with anything hot.
_HOT = re.compile(r"(?i)\b(hot|hotter|boil\w*|steam|kettles?|flames?|hob|candles?|burn\w*|heater|heated)\b")
#: Common practice in class music.
INSTRUMENTS = (
    "Instruments: two pupils carry a heavy xylophone. Beaters go down at the stop signal. Rain sticks and cymbals are "
    "put down, not dropped. Ask pupils with hearing aids beforehand what suits them."
)
BODIES = (
    "Clap and pat softly: hands and thighs should not sting. Ask pupils with hearing aids beforehand what suits them."
)


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
        place = next((i for i, words in enumerate(found) if re.search(care.spoken, words)), None)
        if place is None:
            found.append(f"{care.same} {care.adds}")
        elif not care.known or care.known not in found[place]:
            found[place] = f"{found[place]} {care.adds}"
    if instruments:
        return [*found, INSTRUMENTS]
    return [*(words.replace(_NEAR, "Give quiet breaks") for words in found), BODIES]
