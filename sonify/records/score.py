"""The Score: the single truth of what is played. Sound, MIDI, MusicXML and engraving are functions of it alone."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from fractions import Fraction

from sonify.errors import UnknownName
from sonify.frozen import dataclass
from sonify.records.clock import Clock, Tempo
from sonify.records.fact import Words
from sonify.records.instrument import Instrument
from sonify.records.own_sound import OwnSound
from sonify.records.scene import Metre, Scale

COUNT_IN = "count-in"
DIFFICULTIES = ("easy", "core", "stretch")
#: How much pupils are given: everything, a part, or an open frame.
SCAFFOLDS = ("full", "part", "open")


@dataclass(frozen=True, slots=True, kw_only=True)
class Note:
    """One stroke or note. beat: absolute, 0 at bar 1, negative in the count-in. beats: how long, > 0.

    midi: the sounding pitch, or for an unpitched instrument its General MIDI percussion key.
    velocity 1..127. brightness 0 (soft beater) .. 1 (hard beater). instrument: which of the part's instruments
    plays it, "" for the part's first. player: which player of the part, from 1, counted through its seats; 0 = all who
    play that instrument then. asked: the MIDI note number that a pitch rule asked for at this beat, before scale and
    range; None where the note is not the rule's own (a passing note, a pattern, an unpitched sound).
    """

    beat: Fraction
    beats: Fraction
    midi: int
    velocity: int
    brightness: float = 0.5
    instrument: str = ""
    player: int = 0
    asked: float | None = None

    def bars_held(self, beats: int) -> range:
        """The bars, of so many beats, in which it is struck or held."""
        # in whole numbers: it is asked of every note, several times
        above, below = self.beat.as_integer_ratio()
        more, parts = self.beats.as_integer_ratio()
        return range(above // (below * beats) + 1, -(-(above * parts + more * below) // (below * parts * beats)) + 1)


@dataclass(frozen=True, slots=True, kw_only=True)
class Seat:
    """`players` pupils of a group on `count` of one instrument. job: what they do, in words, if it is not plain.

    at_once: how many of them play at a time where they take turns (0: all do); the turn passes on every `turn_bars`
    bars, counted from bar 1.
    """

    instrument: str
    players: int
    count: int
    job: Words = ""
    at_once: int = 0
    turn_bars: int = 4

    def on_duty(self, bar: int) -> tuple[int, ...]:
        """Who of the seat plays in a bar, from 0: all, or those whose turn it is."""
        if not 0 < self.at_once < self.players:
            return tuple(range(self.players))
        first = (bar - 1) // self.turn_bars * self.at_once
        return tuple(sorted((first + place) % self.players for place in range(self.at_once)))


@dataclass(frozen=True, slots=True, kw_only=True)
class Blank:
    """What pupils are to invent: silent in every output, drawn as an empty box. bar from 1.

    told: what stands at the box, where it is no idea of their own: taps that fall where their players like.
    """

    bar: int
    bars: int
    ask: Words
    told: Words = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class DynamicMark:
    """From `bar` on: a mark (pp p mp mf f ff). hairpin: "" or "cresc" or "dim" leading to the next mark."""

    bar: int
    mark: str
    hairpin: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Pattern:
    """A pattern or tune as a group learns it, one to four bars: `hits` are (beat in it from 0, beats, pitch or key).

    number: from 1; it is shown with so many fingers. light: which of the hits, from 0, are ornament, to leave out
    or to play. spoken: a science word or more that has its rhythm, a syllable a hit. name: what it is called where
    pupils made it.
    """

    number: int
    bars: int
    hits: tuple[tuple[Fraction, Fraction, int], ...]
    words: Words = ""  # what it does
    light: tuple[int, ...] = ()
    spoken: Words = ""
    name: Words = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class OtherLine:
    """An easier or a harder line of a part, that fits the one played: how it goes, and what to do."""

    level: str
    patterns: tuple[Pattern, ...] = ()
    words: tuple[Words, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Entry:
    """A stretch in which a part plays: from bar, for bars, what it does there."""

    bar: int
    bars: int
    pattern: int = 0  # its number, 0 for none
    instruction: Words = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Part:
    """One group's part (group 0 is the count-in). Notes are in order of beat and never overlap for one player's hand.

    instrument: the catalogue id of the main instrument. instructions: what the card says instead of exact notes
    (scatter: "from a few taps to many"). meaning: what the group is in the science.
    team: 0 where the whole group plays; a group that plays two parts at once is in two teams, 1 and 2.
    bars_off, bars_on: pitch classes to take off a barred instrument, and swap bars to put on.
    difficulty: the line that is played, "easy", "core" or "stretch"; others: those that are not.
    octaves: added to what the pitch rule asks, to suit the instrument.
    ruled: the controls that a rule sets for it, its own or the whole piece's.
    pulse: True for the quiet beat that a group keeps while its own part waits; it stands for no quantity.
    """

    name: str
    group: int
    instrument: str
    texture: str
    notes: tuple[Note, ...]
    seats: tuple[Seat, ...] = ()
    meaning: str = ""
    instructions: tuple[Words, ...] = ()
    entries: tuple[Entry, ...] = ()
    patterns: tuple[Pattern, ...] = ()
    dynamics: tuple[DynamicMark, ...] = ()
    blanks: tuple[Blank, ...] = ()
    team: int = 0
    bars_off: tuple[int, ...] = ()
    bars_on: tuple[int, ...] = ()
    difficulty: str = "core"
    octaves: int = 0
    ruled: tuple[str, ...] = ()
    pulse: bool = False
    others: tuple[OtherLine, ...] = ()

    @property
    def players(self) -> int:
        return sum(seat.players for seat in self.seats)

    def plays_in(self, bar: int) -> bool:
        """Whether one of its entries lasts over a bar."""
        return any(entry.bar <= bar < entry.bar + entry.bars for entry in self.entries)


@dataclass(frozen=True, slots=True, kw_only=True)
class Bed:
    """A natural sound laid under the recording. levels: (beat, level 0..1) corners, linear between; 0 is silent."""

    kind: str  # sea, wind, rain, stream
    levels: tuple[tuple[Fraction, float], ...]
    seed: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Reason:
    """Why a cue is given. music: for the music's sake; it stands for nothing in the science, and is told so.

    words: what moved, or a stage's science; "" only where music is reason enough.
    """

    words: Words = ""
    music: bool = False


FOR_THE_MUSIC = Reason(music=True)


@dataclass(frozen=True, slots=True, kw_only=True)
class Also:
    """A further group of a cue: its part, and what it plays from then on, as in `Cue`."""

    part: str
    mark: str = ""
    pattern: int = 0
    what: Words = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Cue:
    """What the conductor does. bar from 1 (0 or less in the count-in), beat within the bar from 1. part: "" for all.

    also: further groups that the same sign is for: they share the part, and may play it each in its own way.

    action, gesture: rows of `kinds.cues`. mark: how loud from then on, "" where that is not said. bpm: the beat of a
    start or tempo cue; from_bpm: where it glides, the beat it sets out from. by_bar: where mark or beat is reached
    little by little, the bar in which it is there; 0: at once. pattern: shown with so many fingers, 0 for none.
    what: what is played from then on, where neither mark nor pattern says it.
    """

    bar: int
    beat: Fraction
    part: str
    action: str
    gesture: str
    reason: Reason
    mark: str = ""
    bpm: float = 0.0
    from_bpm: float = 0.0
    by_bar: int = 0
    pattern: int = 0
    what: Words = ""
    also: tuple[Also, ...] = ()

    @property
    def parts(self) -> tuple[str, ...]:
        """Whom the sign is for, the first group first; ("",) for everybody."""
        return (self.part, *(other.part for other in self.also))

    @property
    def apart(self) -> tuple[Cue, ...]:
        """The same sign as each of its groups sees it."""
        own = replace(self, also=()) if self.also else self
        return (own, *(replace(own, part=o.part, mark=o.mark, pattern=o.pattern, what=o.what) for o in self.also))


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A stage as bars. letter: rehearsal letter. caption: the science in one line for pupils."""

    name: str
    title: Words
    letter: str
    bar: int
    bars: int
    caption: Words = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Swap:
    """An instrument the scene asked for and the cupboard lacks, and what plays instead."""

    part: str
    wanted: str
    given: str
    reason: Words


@dataclass(frozen=True, slots=True, kw_only=True)
class PlayedLevels:
    """How loud parts are in the recording. narrowed: factor of the decibels between marks, where no rule sets them;
    ruled: where one does.

    lifts_db: a row for each of the Score's parts, what it is lifted by in each section.
    """

    narrowed: float
    ruled: float
    lifts_db: tuple[tuple[float, ...], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class Score:
    """All that is played. parts[0] is the count-in. instruments: the catalogue rows that the parts use."""

    title: str
    scene: str
    metre: Metre
    scale: Scale
    bars: int
    tempi: tuple[Tempo, ...]
    sections: tuple[Section, ...]
    parts: tuple[Part, ...]
    cues: tuple[Cue, ...]
    instruments: tuple[Instrument, ...]
    beds: tuple[Bed, ...] = ()
    swaps: tuple[Swap, ...] = ()
    count_in_bars: int = 2
    seed: int = 0
    scaffold: str = "full"
    gentle: bool = False  # "no sudden loud sounds": sound limits how fast level may rise
    levels: PlayedLevels | None = None  # of the recording, where they have been worked out
    sounds: tuple[OwnSound, ...] = ()  # that pupils recorded and that are played
    loudness_range: str = "classroom"  # or "wide": sound keeps quiet and loud about 10 LU apart, or as written

    @property
    def clock(self) -> Clock:
        return Clock(beats_a_bar=self.metre.beats, count_in_bars=self.count_in_bars, tempi=self.tempi)

    @property
    def end_beat(self) -> Fraction:
        return Fraction(self.bars * self.metre.beats)

    @property
    def group_pupils(self) -> dict[int, int]:
        """How many pupils each group has: the largest part of each of its teams, added up."""
        teams: dict[tuple[int, int], int] = {}
        for part in self.group_parts:
            key = (part.group, part.team)
            teams[key] = max(teams.get(key, 0), part.players)
        groups: dict[int, int] = {}
        for (group, _), players in teams.items():
            groups[group] = groups.get(group, 0) + players
        return groups

    @property
    def group_parts(self) -> tuple[Part, ...]:
        """The parts that pupils play: all but the count-in."""
        return tuple(part for part in self.parts if part.name != COUNT_IN)

    def bars_sounding(self, parts: Iterable[Part]) -> frozenset[int]:
        """The bars in which some parts begin a note or hold one."""
        beats, held = self.metre.beats, set[int]()
        for part in parts:
            for note in part.notes:
                held.update(note.bars_held(beats))
        return frozenset(held)

    def instrument(self, instrument_id: str) -> Instrument:
        for row in self.instruments:
            if row.id == instrument_id:
                return row
        raise UnknownName("instrument", instrument_id, [row.id for row in self.instruments])

    def bpm_at(self, bar: int) -> float:
        """The tempo of a bar; before bar 1, in the count-in, that of bar 1."""
        return [tempo.bpm for tempo in self.tempi if tempo.bar <= max(bar, 1)][-1]

    def section_at(self, bar: int) -> Section | None:
        return next((s for s in self.sections if s.bar <= bar < s.bar + s.bars), None)
