"""The players of a score on paper: one a staff, with its id, names, channel, key and bars."""

from __future__ import annotations

from sonify.frozen import dataclass
from sonify.notation import keys
from sonify.notation.channels import Voice, voices
from sonify.notation.lines import NotatedLine, chosen_parts, lines_of
from sonify.notation.staves import Bar, staff
from sonify.records.fact import fact
from sonify.records.score import Score
from sonify.say import say


@dataclass(frozen=True, slots=True, kw_only=True)
class Player:
    """One staff's part in the file. strokes: for an unpitched one, the percussion keys it strikes, low to high."""

    id: str
    line: NotatedLine
    voice: Voice
    name: str
    abbreviation: str
    bars: tuple[Bar, ...]
    fifths: int
    strokes: tuple[int, ...]

    def instrument_id(self, midi: int) -> str:
        return f"{self.id}-I{1 if self.line.row.pitched else self.strokes.index(midi) + 1}"


def _named(line: NotatedLine) -> str:
    return say(fact("mark-instrument", part=line.part.name, instrument=line.row.called))


def players_of(score: Score, *, count_in: bool, group: int | None) -> tuple[Player, ...]:
    parts = chosen_parts(score, count_in=count_in, group=group)
    flat = [(line, len(of_part) == 1) for of_part in (lines_of(score, part) for part in parts) for line in of_part]
    return tuple(
        Player(
            id=f"P{index}",
            line=line,
            voice=voice,
            name=line.part.name if alone else _named(line),
            abbreviation=line.row.abbreviation,
            bars=staff(score, line, count_in=count_in).bars,
            fifths=keys.key_fifths(score.scale, line.row.written_shift),
            strokes=tuple(sorted({note.midi for note in line.notes} or {line.row.gm_key})),
        )
        for index, ((line, alone), voice) in enumerate(zip(flat, voices([line for line, _ in flat]), strict=True), 1)
    )
