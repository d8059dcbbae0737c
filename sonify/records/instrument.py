"""The instrument catalogue as records. The rows live in shared/instruments.toml; `lesson` reads them."""

from __future__ import annotations

import re
from collections.abc import Sequence
from dataclasses import field, replace
from typing import Any

from sonify.errors import UnknownName
from sonify.frozen import dataclass
from sonify.kinds.instruments import ONE_SOUND, STAND_INS
from sonify.kinds.textures import TEXTURES


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnInstrument:
    """What a class has and the catalogue has not. like: the catalogue id of what it sounds like and is written as.

    number: which of the class's own it is, from 1. how: how it is played, "" where nobody said. sound: what tells one
    from another among those that pupils recorded.
    """

    name: str
    like: str
    number: int
    how: str = ""
    sound: str = ""

    @property
    def id(self) -> str:
        return f"{self.like}{OWN}{self.sound or self.number}"


#: Parts the id of a class's own instrument: before it the catalogue's id, so that its voice is found by it alone.
OWN = "."


def stands_for(instrument_id: str) -> str:
    """The catalogue id that an instrument sounds as: its own, or that of the stand-in of a class's own.

    >>> stands_for("thunder-sheet.1"), stands_for("triangle")
    ('thunder-sheet', 'triangle')
    """
    return instrument_id.partition(OWN)[0]


@dataclass(frozen=True, slots=True, kw_only=True)
class Instrument:
    """One row of the catalogue.

    id: kebab-case name; plural and aliases: other words a class file or scene may use.
    one: what one is called behind its number, where its name is a plural: "pair of maracas"; "" where its name will do.
    pitched: plays notes; then low and high are the lowest and highest *sounding* MIDI notes a class has, and
    written_shift is semitones to add to the sounding note to get the written one (glockenspiel: -12 or -24).
    bars: pitch classes the instrument has (diatonic sets: C D E F G A B), empty = chromatic.
    gm_program: General MIDI 1 program, 1-based, for pitched. gm_key: General MIDI 1 percussion key, for unpitched.
    stand_in: words that say which General MIDI sound stands in, "" where it is the thing itself.
    textures: textures it suits. fastest_per_s: our own limit of strokes a second for one player at this age.
    sustains: True if a sound can be held (blown, bowed, shaken on, swirled, sung). ring_s: rough ring time, seconds.
    loud: 1 soft, 2 medium, 3 loud, as heard in a classroom (common practice). players: players one instrument takes.
    struck_with: "beaters" or "hands", which are changed to sound darker or brighter, or "one sound".
    bodily: needs nothing from the cupboard (claps, stamps, voices). clef: treble, bass or percussion.
    on_request: a sound of the body, or one that pupils recorded, that comes into a piece only where it is asked for.
    own: the name that a class gives to an instrument of its own, as it wrote it; "" for one of the catalogue.
    cautions: what has to be said wherever it is played, as `kinds.cautions` names it.
    register: how high it sounds among a class's instruments, so that groups can be told apart by ear.
    """

    id: str
    name: str
    plural: str
    abbreviation: str
    family: str
    pitched: bool
    textures: tuple[str, ...]
    struck_with: str
    aliases: tuple[str, ...] = ()
    one: str = ""
    low: int = 0
    high: int = 0
    written_shift: int = 0
    bars: tuple[int, ...] = ()
    gm_program: int = 0
    gm_key: int = 0
    stand_in: str = ""
    fastest_per_s: float = 2.0
    sustains: bool = False
    ring_s: float = 0.5
    loud: int = 2
    players: int = 1
    bodily: bool = False
    on_request: bool = False
    clef: str = "percussion"
    register: str = "middle"
    how: str = ""  # how to play it softly and safely, one sentence
    cautions: tuple[str, ...] = ()
    own: str = ""

    def __hash__(self) -> int:
        return hash(self.id)

    @property
    def called(self) -> str:
        """Its name within a sentence."""
        return self.own or self.name.lower()

    def of(self, count: int) -> str:
        """What so many are called behind their number: "our gong" is "1 gong", maracas are "1 pair of maracas"."""
        if self.own:
            return _OURS.sub("", self.own)
        return (self.one or self.name.lower()) if count == 1 else self.plural.lower()

    def names(self) -> tuple[str, ...]:
        once = (self.one.lower(),) if self.one else ()
        return (self.id, self.name.lower(), self.plural.lower(), *once, *(alias.lower() for alias in self.aliases))


_OURS = re.compile(r"^(our|my|the|a|an) (?=.)", re.IGNORECASE)


@dataclass(frozen=True, slots=True, kw_only=True)
class Catalogue:
    """All instruments, found by id, name, plural or alias."""

    instruments: tuple[Instrument, ...]
    _places: dict[str, int] = field(init=False, repr=False, compare=False)
    _ids: dict[str, int] = field(init=False, repr=False, compare=False)

    def __post_init__(self) -> None:
        places: dict[str, int] = {}
        for place, row in enumerate(self.instruments):
            for name in row.names():
                places.setdefault(name, place)
        object.__setattr__(self, "_places", places)
        object.__setattr__(self, "_ids", {row.id: place for place, row in reversed([*enumerate(self.instruments)])})

    def with_own(self, own: Sequence[OwnInstrument]) -> Catalogue:
        """This catalogue with a class's own instruments behind it."""
        return Catalogue(instruments=(*self.instruments, *(_as_row(one, self[one.like]) for one in own)))

    def own_like(self, row: Instrument) -> tuple[Instrument, ...]:
        """The class's own instruments that sound as this one."""
        own = (one for one in self.instruments if one.own and not one.on_request)
        return tuple(one for one in own if stands_for(one.id) == row.id)

    def __getitem__(self, instrument_id: str) -> Instrument:
        if (place := self._ids.get(instrument_id)) is not None:
            return self.instruments[place]
        raise UnknownName("instrument", instrument_id, [row.id for row in self.instruments])

    def find(self, name: str) -> Instrument:
        """The row that goes by this name (any case). Raises UnknownName with the nearest spelling."""
        wanted = " ".join(name.lower().replace("_", " ").split())
        found = [self._places.get(wanted), self._ids.get(wanted.replace(" ", "-"))]
        if places := [place for place in found if place is not None]:
            return self.instruments[min(places)]
        raise UnknownName("instrument", name, [row.name.lower() for row in self.instruments])


def _as_row(one: OwnInstrument, like: Instrument) -> Instrument:
    """A class's own instrument: everything that its stand-in is, under its own name."""
    sound = like.stand_in.partition(",")[0] or like.called
    return replace(
        like,
        id=one.id,
        name=one.name[:1].upper() + one.name[1:],
        plural=one.name,
        abbreviation="".join(f"{word[0].upper()}." for word in _OURS.sub("", one.name).split()[:4]),
        aliases=(),
        own=one.name,
        stand_in=f"{sound}, for {one.name}",
        # A family's stand-in lends its sound alone: an unknown drum may be played in quite another way.
        how=one.how or ("" if one.like in STAND_INS.values() else like.how),
        cautions=(),
        **(_RECORDED if one.sound else {}),
    )


#: A recorded sound is made once for each stroke, in any texture, and is played where a scene asks for it.
_RECORDED: dict[str, Any] = {"textures": TEXTURES, "struck_with": ONE_SOUND, "sustains": False, "on_request": True}
