"""The shape of [[sound]] in a scene file: a sound of pupils' own, in a file beside the scene."""

from __future__ import annotations

from typing import Annotated

from pydantic import AfterValidator, Field

from sonify.inputs.readings import UnreadableWord
from sonify.inputs.shapes import Name, Shape, words
from sonify.records.fact import wrong
from sonify.records.own_sound import USUALLY_LIKE

ENDINGS = (".wav", ".flac", ".ogg", ".mp3")
MOST_SOUNDS = 6


def sound_file(name: str) -> str:
    """The name of a sound file beside the scene file: no folder, nothing hidden."""
    plain = name == name.strip() and not set(name) & set('/\\:<>"|?*') and not name.startswith(".")
    if not plain or not name.lower().endswith(ENDINGS):
        raise UnreadableWord(wrong("error_sound-name", endings=", ".join(ENDINGS)))
    return name


class SoundShape(Shape):
    name: Annotated[str, words(40)] = Field(description='what it is called, such as "our crisp packets"')
    file: Annotated[str, words(100), AfterValidator(sound_file)] = Field(
        description='the name of a sound file that lies beside this one, such as "crisps.wav"'
    )
    like: Name = Field(
        default=USUALLY_LIKE, description="the instrument without notes that it is written as, and played as in MIDI"
    )
    how: Annotated[str, words(200, least=0)] = Field(default="", description="how it is played, one sentence")
