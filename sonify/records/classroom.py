"""A class file as records."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import field, replace

from sonify.frozen import dataclass
from sonify.records.instrument import OwnInstrument
from sonify.records.own_sound import OwnSound
from sonify.records.scene import Origin

#: How many lessons a piece may be given: one, two, or four short ones.
LESSONS = (1, 2, 4)


@dataclass(frozen=True, slots=True, kw_only=True)
class Stock:
    """So many of one instrument in the cupboard; `instrument` is a catalogue id, or that of one of the class's own."""

    instrument: str
    count: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """What some pupils need, a name of kinds.needs. group: 0 where the teacher leaves it to the arranger of seats."""

    name: str
    pupils: int = 1
    group: int = 0

    @property
    def text(self) -> str:
        """As a class file has it."""
        if self.pupils == 1 and not self.group:
            return self.name
        return f"{self.name}: {self.pupils}" + (f" in group {self.group}" if self.group else "")


@dataclass(frozen=True, slots=True, kw_only=True)
class Classroom:
    """A class. year: England's school years, 3 to 6 for 7 to 11 year-olds. lessons: how many for the piece. own: what
    no catalogue has. line: easy, core or stretch; "": by the year."""

    year: int
    pupils: int
    groups: int
    minutes: int = 60
    lessons: int = 1
    needs: tuple[str, ...] = ()  # of the whole class
    pupils_need: tuple[Need, ...] = ()
    cupboard: tuple[Stock, ...] = ()
    own: tuple[OwnInstrument, ...] = ()
    name: str = "class"
    line: str = ""
    origin: Origin = field(default_factory=lambda: Origin(file="(made in Python)"))

    @property
    def every_need(self) -> tuple[str, ...]:
        """All needs as a class file has them."""
        return (*self.needs, *(need.text for need in self.pupils_need))

    def without_needs(self) -> Classroom:
        """The class as others may see it."""
        return replace(self, needs=(), pupils_need=())

    @property
    def youngest_age(self) -> int:
        """Age at the start of the school year: Year 4 is 8 to 9 year-olds (England; common practice)."""
        return self.year + 4

    def count(self, instrument: str) -> int:
        return sum([stock.count for stock in self.cupboard if stock.instrument == instrument])


def with_sounds(classroom: Classroom, sounds: Iterable[OwnSound]) -> Classroom:
    """The class with one of each sound for every pupil: what makes it is no matter of the cupboard."""
    own = tuple(sound.instrument for sound in sounds)
    if not own:
        return classroom
    stock = tuple(Stock(instrument=one.id, count=classroom.pupils) for one in own)
    return replace(classroom, own=(*classroom.own, *own), cupboard=(*classroom.cupboard, *stock))


def without_sounds(classroom: Classroom) -> Classroom:
    """The class as its own file has it, without the sounds of a scene."""
    heard = {one.id for one in classroom.own if one.sound}
    if not heard:
        return classroom
    return replace(
        classroom,
        own=tuple(one for one in classroom.own if one.id not in heard),
        cupboard=tuple(stock for stock in classroom.cupboard if stock.instrument not in heard),
    )
