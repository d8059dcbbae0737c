"""The instrument catalogue as records. The rows live in shared/instruments.toml; `lesson` reads them."""

from __future__ import annotations

from dataclasses import dataclass

from sonify.errors import UnknownName


@dataclass(frozen=True, slots=True, kw_only=True)
class Instrument:
    """One row of the catalogue.

    id: kebab-case name; plural and aliases: other words a class file or scene may use.
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
    on_request: a bodily sound that comes into a piece only where its scene or its class names it.
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

    def names(self) -> tuple[str, ...]:
        return (self.id, self.name.lower(), self.plural.lower(), *(alias.lower() for alias in self.aliases))


@dataclass(frozen=True, slots=True, kw_only=True)
class Catalogue:
    """All instruments, found by id, name, plural or alias."""

    instruments: tuple[Instrument, ...]

    def __getitem__(self, instrument_id: str) -> Instrument:
        for row in self.instruments:
            if row.id == instrument_id:
                return row
        raise UnknownName("instrument", instrument_id, [row.id for row in self.instruments])

    def find(self, name: str) -> Instrument:
        """The row that goes by this name (any case). Raises UnknownName with the nearest spelling."""
        wanted = " ".join(name.lower().replace("_", " ").split())
        for row in self.instruments:
            if wanted in row.names() or wanted.replace(" ", "-") == row.id:
                return row
        raise UnknownName("instrument", name, [row.name.lower() for row in self.instruments])
