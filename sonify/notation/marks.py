"""What stands above and below the staves: tempo, rehearsal letters, captions, cues, dynamics, hairpins, blanks."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from sonify.notation.staves import Bar
from sonify.records.score import Cue, Part, Score
from sonify.records.words import tempo_word

Kind = Literal["rehearsal", "tempo", "caption", "cue", "blank", "dynamic", "cresc", "dim", "hairpin end"]

#: How a cue begins on the page.
CUE_WORDS = {
    "start": "Start",
    "enter": "Come in",
    "rest": "Rest",
    "louder": "Louder",
    "softer": "Softer",
    "tempo": "New beat",
    "stop": "Stop",
}
LINE_LENGTH = 26  # letters in a line of a cue or caption
BLANK_WORDS = "your idea"
HELD_BARS = 4  # a tempo held for fewer bars belongs to a glide


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """One mark in a bar, `beat` from 0. bpm: for a tempo, exactly."""

    kind: Kind
    beat: Fraction = Fraction(0)
    text: str = ""
    bpm: float = 0.0


def top_marks(score: Score, bar: int, *, first: bool) -> Iterator[Mark]:
    """What belongs to the whole score in a bar: letter of a section, cues to everybody, its caption, the tempo.

    In this order they stack above the staff: what comes first stands nearest to it (letters stand apart).
    """
    section = next((s for s in score.sections if s.bar == bar), None)
    if section and section.letter:
        yield Mark(kind="rehearsal", text=section.letter)
    yield from _cues(score.cues, "", bar)
    if section:
        text = f"{section.title}: {section.caption}" if section.caption else section.title
        yield Mark(kind="caption", text=wrapped(text, 2 * LINE_LENGTH))
    yield from _tempi(score, bar, first=first)


def staff_marks(score: Score, part: Part, bar: Bar) -> Iterator[Mark]:
    """What belongs to one staff in a bar: cues to its part, its dynamics, and its blank's beginning."""
    yield from _cues(score.cues, part.name, bar.number)
    yield from _dynamics(part, bar.number, score.bars)
    if bar.blank and bar.blank.bar == bar.number:
        yield Mark(kind="blank", text=BLANK_WORDS)
        if bar.blank.ask:
            yield Mark(kind="caption", text=wrapped(bar.blank.ask, LINE_LENGTH))


def cue_words(cue: Cue) -> str:
    """A cue as the page has it: "Come in: open palm"."""
    begin = CUE_WORDS.get(cue.action, cue.action.capitalize())
    if cue.detail:
        begin += f" ({cue.detail})"
    return f"{begin}: {cue.gesture[:1].lower()}{cue.gesture[1:]}" if cue.gesture else begin


def wrapped(text: str, length: int) -> str:
    """The text in lines of about so many letters, broken between words, as even as may be."""
    lines = -(-len(text) // length)
    target = len(text) / max(lines, 1)
    out: list[str] = []
    row = ""
    for word in text.split():
        if row and len(row) + len(word) / 2 > target and len(out) < lines - 1:
            out.append(row)
            row = word
        else:
            row = f"{row} {word}".strip()
    return "\n".join([*out, row])


def _cues(cues: tuple[Cue, ...], part: str, bar: int) -> Iterator[Mark]:
    for cue in cues:
        if cue.part == part and cue.bar == bar:
            yield Mark(kind="cue", beat=cue.beat - 1, text=wrapped(cue_words(cue), LINE_LENGTH))


def _tempi(score: Score, bar: int, *, first: bool) -> Iterator[Mark]:
    """The tempo that begins in this bar. A gliding tempo has a step every few bars: its steps are there for playback
    (no text), and words where it sets out."""
    starts = [tempo.bar for tempo in score.tempi]
    if first:  # bar 1's tempo stands at the beginning, be that the count-in or bar 1
        index = 0
    elif bar in starts[1:]:
        index = starts.index(bar)
    else:
        return
    sections = {section.bar for section in score.sections}

    def glides(index: int) -> bool:
        near = 0 < index < len(starts) and starts[index] - starts[index - 1] < HELD_BARS
        return near and starts[index] not in sections

    bpm = score.tempi[index].bpm
    italian, plain = tempo_word(bpm)
    yield Mark(kind="tempo", text="" if glides(index) else f"{italian} ({plain})", bpm=bpm)
    if glides(index + 1) and not glides(index):
        faster = score.tempi[index + 1].bpm > bpm
        yield Mark(kind="caption", text="little by little faster" if faster else "little by little slower")


def _dynamics(part: Part, bar: int, bars: int) -> Iterator[Mark]:
    """The mark that begins in this bar; a hairpin from it, which ends in the bar before the next mark, or else with
    the stretch that the part plays there."""
    marks = part.dynamics
    for index, mark in enumerate(marks):
        entry = next((e for e in part.entries if e.bar <= mark.bar < e.bar + e.bars), None)
        ends = entry.bar + entry.bars - 1 if entry else bars
        if index + 1 < len(marks):
            ends = max(mark.bar, marks[index + 1].bar - 1)
        if mark.bar == bar:
            yield Mark(kind="dynamic", text=mark.mark)
            if mark.hairpin == "cresc":
                yield Mark(kind="cresc")
            elif mark.hairpin == "dim":
                yield Mark(kind="dim")
        if mark.hairpin and ends == bar:
            yield Mark(kind="hairpin end")
