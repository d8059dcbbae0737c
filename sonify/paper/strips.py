"""A melody as its players read it: a box for each bar with the notes it really has, bars that come again merged."""

from __future__ import annotations

from fractions import Fraction
from typing import Any

from sonify.paper.facts import entries_of
from sonify.paper.rhythm import letter
from sonify.records.fact import fact
from sonify.records.score import Note, Part, Score
from sonify.say import say, sentence
from sonify.say.parts import bars, listed

#: Bars that come again are looked for in pieces of so many: phrases first where they save the most.
PHRASES = (1, 2, 4, 8)
#: A strip holds so many bars at most, as no page break goes through it: in ordinary and in large print.
LONGEST = (32, 16)
#: Where in the bar, how long (beats), the letters, and whether they are ornament.
Bar = tuple[tuple[Fraction, Fraction, str, bool], ...]


def strips(part: Part, score: Score, longest: int = LONGEST[0]) -> list[dict[str, Any]]:
    """A strip of bars for each of a melody's entries; its instruments share one where they read the same letters."""
    if part.texture != "melody" or not score.instrument(part.instrument).pitched:
        return []
    played = {instrument: _bars(part, instrument, score) for instrument in _instruments(part)}
    found: list[dict[str, Any]] = []
    for entry in sorted(entries_of(part, score), key=lambda entry: entry.bar):
        read: list[list[Bar]] = []
        for instrument in played:
            row = [played[instrument].get(bar, ()) for bar in range(entry.bar, entry.bar + entry.bars)]
            if any(row) and row not in read:
                read.append(row)
                name = score.instrument(instrument).name if len(read) > 1 else ""
                found += _pieces(row, entry.bar, name, score.metre.beats, longest)
    return found


def note_letters(part: Part, score: Score, first: int = 1, bars: int = 0) -> list[str]:
    """The letters of a pitch rule's own notes on the part's main instrument, low to high, in some bars (0: in all)."""
    row = score.instrument(part.instrument)
    start = Fraction((first - 1) * score.metre.beats)
    end = start + (bars or score.bars) * score.metre.beats
    mine = [n for n in _played(part, part.instrument) if start <= n.beat < end]
    chosen = [n for n in mine if n.asked is not None] or mine
    return [letter(midi, row) for midi in sorted({note.midi for note in chosen})] if row.pitched else []


def span_text(letters: list[str]) -> str:
    """'C to D′', or the one letter there is."""
    if len(letters) < 2:
        return "".join(letters)
    return say(fact("meaning-notes-span", first=letters[0], last=letters[-1]))


def _instruments(part: Part) -> list[str]:
    return list(dict.fromkeys([part.instrument, *(note.instrument or part.instrument for note in part.notes)]))


def _played(part: Part, instrument: str) -> list[Note]:
    return [note for note in part.notes if (note.instrument or part.instrument) == instrument]


def _bars(part: Part, instrument: str, score: Score) -> dict[int, Bar]:
    """What begins in each bar that has anything. Notes struck together stand as one, lowest first."""
    row, beats = score.instrument(instrument), score.metre.beats
    ruled = {note.beat for note in part.notes if note.asked is not None}
    at: dict[int, dict[Fraction, list[Note]]] = {}
    for note in _played(part, instrument):
        at.setdefault(int(note.beat // beats) + 1, {}).setdefault(note.beat, []).append(note)
    return {
        bar: tuple(
            (
                beat % beats,
                notes[0].beats,
                "+".join(letter(midi, row) for midi in sorted({note.midi for note in notes})),
                beat not in ruled if ruled else beat % beats > 0,
            )
            for beat, notes in sorted(found.items())
        )
        for bar, found in at.items()
    }


def _pieces(row: list[Bar], first: int, name: str, beats: int, longest: int) -> list[dict[str, Any]]:
    """Runs of bars, each with the bar numbers it is played at: phrases that follow each other alike are drawn once."""
    found: list[dict[str, Any]] = []
    place = fresh = 0  # `fresh`: where the bars begin that no phrase has taken yet
    while place < len(row):
        size, times = _again(row, place)
        if times > 1:
            found += _fresh(row, fresh, place, first, name, beats, longest)
            found.append(_piece(row, place, size, times, first, name, beats))
            place = fresh = place + size * times
        else:
            place += 1
    return [*found, *_fresh(row, fresh, len(row), first, name, beats, longest)]


def _fresh(
    row: list[Bar], start: int, end: int, first: int, name: str, beats: int, longest: int
) -> list[dict[str, Any]]:
    """Bars that come once, in pieces that a page can hold."""
    return [
        _piece(row, place, min(longest, end - place), 1, first, name, beats) for place in range(start, end, longest)
    ]


def _again(row: list[Bar], place: int) -> tuple[int, int]:
    """The phrase from a place on that spares the most bars by coming again at once: its bars, and how often."""
    best = (1, 1)
    for size in PHRASES:
        if place % size:
            continue  # a phrase begins where phrases of its length do
        times = 1
        while row[place : place + size] == row[place + times * size : place + (times + 1) * size] != []:
            times += 1
        if size * (times - 1) > best[0] * (best[1] - 1):
            best = (size, times)
    return best


def _piece(row: list[Bar], place: int, size: int, times: int, first: int, name: str, beats: int) -> dict[str, Any]:
    shown = row[place : place + size]
    starts = [first + place + size * again for again in range(times)]
    merged = size == 1 and times > 1
    if merged:
        head = say(fact("card-each-of", first=starts[0], last=starts[-1]))
    else:
        again = tuple(bars(start, size) for start in starts[1:])
        head = bars(starts[0], size)
        head = say(fact("card-same-again", head=head, again=", ".join(again))) if again else head
    cells = [
        {
            "bar": say(fact("sheet-from-to", low=starts[0], high=starts[-1])) if merged else str(starts[0] + offset),
            "notes": [
                {
                    "at": float(at / beats),
                    "share": float(length / beats),
                    "long": length > 1,
                    "letter": words,
                    "light": light,
                }
                for at, length, words, light in bar
            ],
        }
        for offset, bar in enumerate(shown)
    ]
    each = max((_most_a_beat(bar) for bar in shown), default=1)
    spoken = "; ".join(_spoken(str(cell["bar"]), bar) for cell, bar in zip(cells, shown, strict=True))
    head = say(fact("card-strip-of", instrument=name, head=sentence(head))) if name else sentence(head)
    return {"head": head, "bars": cells, "each": each, "beats": beats, "alt": spoken}


def _spoken(number: str, bar: Bar) -> str:
    """A bar for those who listen to the page."""
    letters = [letters for _, _, letters, _ in bar]
    played = listed(letters) if letters else say(fact("card-rest"))
    return say(fact("card-bar-plays", bar=number, played=played))


def _most_a_beat(bar: Bar) -> int:
    """The boxes a beat needs so that the closest notes keep apart."""
    gaps = [b[0] - a[0] for a, b in zip(bar, bar[1:], strict=False)]
    return max(1, *(int(1 / gap) for gap in gaps)) if gaps else 1
