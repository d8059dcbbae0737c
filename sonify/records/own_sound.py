"""A sound of pupils' own as an instrument: what it is called, what it is written as, and the sound itself as data."""

from __future__ import annotations

import hashlib
from dataclasses import field

from sonify.frozen import dataclass
from sonify.records.instrument import OwnInstrument

#: Longer than this no sound may be, and what it is kept as.
MOST_S, KEPT_HZ = 10.0, 44_100
#: What a sound is written as, and played as in MIDI, where nobody says.
USUALLY_LIKE = "egg shaker"


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnSound:
    """One sound. file: beside the scene. like: an instrument without notes that stands in on paper and in MIDI.

    pcm: trimmed, one channel, 16 bits at KEPT_HZ; b"" until the file was read. sha256: of the file. key: "sound.0".
    """

    name: str
    file: str
    like: str = USUALLY_LIKE
    how: str = ""
    key: str = "sound.0"
    sha256: str = ""
    pcm: bytes = field(default=b"", repr=False)

    @property
    def instrument(self) -> OwnInstrument:
        """It as an instrument of the class's own; like is a catalogue id by then.

        No two sounds of a scene have one name, so each is an instrument of its own, also where two files are the same
        or are not here.
        """
        told = "\n".join((self.name.lower(), self.file, self.sha256))
        mark = hashlib.sha256(told.encode("utf-8")).hexdigest()[:16]
        return OwnInstrument(name=self.name, like=self.like, number=0, how=self.how, sound=mark)

    @property
    def id(self) -> str:
        return self.instrument.id

    @property
    def seconds(self) -> float:
        return len(self.pcm) / 2 / KEPT_HZ
