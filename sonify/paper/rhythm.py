"""Box rhythm notation: a bar as a row of equal boxes, a letter or a dot where a sound begins, and how to count it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from fractions import Fraction
from math import lcm
from typing import Any

from sonify.records.fact import fact
from sonify.records.instrument import Instrument
from sonify.records.score import Part
from sonify.records.words import NOTE_LETTERS, note_name
from sonify.say import say
from sonify.say.parts import listed

Hit = tuple[Fraction, Fraction, int]  # beat from 0, beats, pitch or percussion key

#: How the boxes of one beat are counted aloud, by boxes a beat (common practice). The first is the beat's number.
COUNTS = {1: ("",), 2: ("", "&"), 3: ("", "&", "a"), 4: ("", "e", "&", "a")}
#: What is said on a sound of so many beats, and on a silent beat (rhythm syllables, common practice; schools differ).
SYLLABLES = {Fraction(1, 2): "ti", Fraction(3, 2): "tam", Fraction(3, 4): "tim", Fraction(1, 3): "ti"}
REST = "sh"
MOST_SAID_BEATS = 4
HIGHER = "′"
#: Beyond two octaves marks for "higher" pile up, so the octave's number is written instead.
MOST_MARKED_SEMITONES = 24


def letter(midi: int, instrument: Instrument) -> str:
    """What is written on the bar: its letter, with a mark for each octave above the instrument's lowest such note.

    An instrument without notes gives nothing: its sound is drawn as a dot.
    """
    if not instrument.pitched:
        return ""
    if instrument.high - instrument.low > MOST_MARKED_SEMITONES:
        return note_name(midi)
    lowest = instrument.low + (midi - instrument.low) % 12
    return NOTE_LETTERS[midi % 12] + HIGHER * ((midi - lowest) // 12)


def boxes_a_beat(hits: Iterable[Hit]) -> int:
    """The fewest equal boxes a beat such that every sound begins at the start of one."""
    return lcm(*(beat.denominator for beat, _, _ in hits), 1)


def boxes(
    hits: list[Hit],
    beats: int,
    beats_a_bar: int,
    instrument: Instrument,
    *,
    most_in_row: int = 16,
    spoken: bool = True,
    words: Sequence[str] = (),
) -> dict[str, Any]:
    """`beats` of rhythm as rows of boxes: each box its count, what begins in it, and whether a sound is held through.

    A row holds whole bars, or, where a bar is too long for the paper, whole beats. spoken: with a syllable a sound;
    words: the syllables of science words in their place, one for each beginning.
    """
    each = boxes_a_beat(hits)
    cells = [_box(number, each, beats_a_bar) for number in range(beats * each)]
    for beat, length, midi in hits:
        first = int(beat * each)
        cells[first]["sounds"].append(letter(midi, instrument))
        if instrument.sustains:
            for held in range(first + 1, min(len(cells), first + int(length * each))):
                cells[held]["held"] = True
    if words:
        for start, word in zip(sorted({beat for beat, _, _ in hits}), words, strict=True):
            cells[int(start * each)]["say"] = word
    elif spoken:
        _say(cells, hits, each)
    in_row = _boxes_in_row(each, beats_a_bar, most_in_row)
    return {
        "said": spoken,
        "rows": [cells[start : start + in_row] for start in range(0, len(cells), in_row)],
        "in_row": min(in_row, len(cells)),
        "pitched": instrument.pitched,
        "marked": any(HIGHER in sound for cell in cells for sound in cell["sounds"]),
        "alt": _spoken(cells, beats_a_bar, each),
    }


def _box(number: int, each: int, beats_a_bar: int) -> dict[str, Any]:
    beat, inside = divmod(number, each)
    count = COUNTS.get(each, ("",) * each)[inside]
    return {
        "count": str(beat % beats_a_bar + 1) if inside == 0 else count,
        "sounds": [],
        "say": "",
        "held": False,
        "beat": inside == 0,
        "bar": inside == 0 and beat % beats_a_bar == 0,
    }


def syllable(beat: Fraction, beats: Fraction) -> str:
    """What is said on a sound of so many beats that begins at a beat; "" for a length without a word of its own.

    >>> [syllable(Fraction(0), Fraction(n, 2)) for n in (1, 2, 3, 4, 8)], syllable(Fraction(1, 4), Fraction(1, 4))
    (['ti', 'ta', 'tam', 'ta-a', 'ta-a-a-a'], 'ka')
    """
    if beats == Fraction(1, 4):
        return "ti" if beat % Fraction(1, 2) == 0 else "ka"
    if beats.denominator == 1 and beats <= MOST_SAID_BEATS:
        return "ta" + "-a" * (int(beats) - 1)
    return SYLLABLES.get(beats, "")


def _say(cells: list[dict[str, Any]], hits: list[Hit], each: int) -> None:
    """Syllables on the sounds, and "sh" on each beat that is silent from end to end."""
    held = [any(beat < Fraction(n + 1, each) and Fraction(n, each) < beat + beats for beat, beats, _ in hits)
            for n in range(len(cells))]  # fmt: skip
    for beat, beats, _ in hits:
        cells[int(beat * each)]["say"] = syllable(beat, beats)
    for first in range(0, len(cells), each):
        if not any(held[first : first + each]):
            cells[first]["say"] = REST


def _boxes_in_row(each: int, beats_a_bar: int, most: int) -> int:
    bar = each * beats_a_bar
    return most // bar * bar if bar <= most else max(1, most // each) * each


def _spoken(cells: list[dict[str, Any]], beats_a_bar: int, each: int) -> str:
    """The boxes as a sentence, for those who listen to the page."""
    found = []
    for number, cell in enumerate(cells):
        if cell["sounds"]:
            bar, beat = number // (each * beats_a_bar) + 1, number // each % beats_a_bar + 1
            count = str(beat) if cell["beat"] else f"{beat} {cell['count']}".strip()
            sounds = listed([sound or say(fact("card-a-tap")) for sound in cell["sounds"]])
            found.append(say(fact("card-sound-at", bar=bar, count=count, sounds=sounds)))
    return "; ".join(found) or say(fact("card-no-sounds"))


def taps(part: Part, first: int, bars: int, beats_a_bar: int) -> list[dict[str, Any]]:
    """Free taps as a picture: for each bar where in it each tap falls (0 to 1) and which player's line it is on."""
    players = max((note.player for note in part.notes), default=0) or 1
    found = []
    for bar in range(first, first + bars):
        start = Fraction((bar - 1) * beats_a_bar)
        notes = [note for note in part.notes if start <= note.beat < start + beats_a_bar]
        # player 0 is everybody together: drawn on the middle line
        dots = [
            [float((note.beat - start) / beats_a_bar), (note.player or (players + 1) / 2) / (players + 1)]
            for note in notes
        ]
        found.append({"bar": bar, "dots": dots})
    return found
