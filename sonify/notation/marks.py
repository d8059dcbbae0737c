"""What stands above and below the staves: tempo, rehearsal letters, captions, cues, dynamics, hairpins, blanks."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Mapping, Sequence
from fractions import Fraction
from typing import Literal

from sonify.frozen import dataclass
from sonify.notation.wording import wrapped
from sonify.records.fact import fact
from sonify.records.score import Cue, Part, Score
from sonify.records.words import tempo_term, without_title
from sonify.say import say, sentence
from sonify.say.cues import action_words, detail_words
from sonify.say.parts import tempo_words

Kind = Literal["rehearsal", "tempo", "caption", "cue", "blank", "dynamic", "cresc", "dim", "hairpin end"]

LINE_LENGTH = 26  # letters in a line of a cue or caption
HELD_BARS = 4  # a tempo held for fewer bars belongs to a glide


@dataclass(frozen=True, slots=True, kw_only=True)
class Mark:
    """One mark in a bar, `beat` from 0. bpm: for a tempo, exactly."""

    kind: Kind
    beat: Fraction = Fraction(0)
    text: str = ""
    bpm: float = 0.0


#: Marks by the bar in which they stand.
Marks = Mapping[int, Sequence[Mark]]


def top_marks(score: Score, first_bar: int) -> Marks:
    """What belongs to the whole score: letters of sections, cues to everybody, captions, tempi.

    In this order they stack above the staff: what comes first stands nearest to it (letters stand apart). The first
    tempo stands in `first_bar`, be that the count-in or bar 1.
    """
    found: dict[int, list[Mark]] = defaultdict(list)
    for section in score.sections:
        if section.letter:
            found[section.bar].append(Mark(kind="rehearsal", text=section.letter))
    _add_cues(found, score, "", first_bar)
    for section in score.sections:
        title = say(section.title)
        caption = without_title(title, say(section.caption))
        text = say(fact("mark-caption", title=title, caption=caption)) if caption else title
        found[section.bar].append(Mark(kind="caption", text=wrapped(text, 2 * LINE_LENGTH)))
    _add_tempi(found, score, first_bar)
    return found


def staff_marks(score: Score, part: Part, first_bar: int, *, main: bool) -> Marks:
    """What belongs to one staff: its dynamics and, on the part's main staff, cues to the part and its blanks."""
    found: dict[int, list[Mark]] = defaultdict(list)
    if main:
        _add_own_pattern(found, part)
        _add_cues(found, score, part.name, first_bar)
    _add_dynamics(found, part, score.bars)
    for blank in part.blanks if main else ():
        if blank.told:
            found[blank.bar].append(Mark(kind="cue", beat=Fraction(0), text=say(blank.told)))
        else:
            found[blank.bar].append(Mark(kind="blank", text=say(fact("mark-idea"))))
    return found


def cue_words(cue: Cue) -> str:
    """A cue as the page has it, short: "Come in: mp, Pattern A", "Louder: mf by bar 9".

    The gesture is on the cue sheet; a new beat is told by the metronome mark beside it.
    """
    begin = sentence(action_words(cue.action))
    detail = "" if cue.bpm else detail_words(cue)
    return say(fact("cue-told", who=begin, action=detail)) if detail else begin


def _add_cues(found: dict[int, list[Mark]], score: Score, part: str, first_bar: int) -> None:
    """Cues to a part. One given in a count-in that is left out moves to the beginning."""
    for cue in (own for sign in score.cues for own in sign.apart):
        if cue.part == part:
            beat = cue.beat - 1 if cue.bar >= first_bar else Fraction(0)
            text = wrapped(cue_words(cue), LINE_LENGTH)
            found[max(cue.bar, first_bar)].append(Mark(kind="cue", beat=beat, text=text))


def _add_own_pattern(found: dict[int, list[Mark]], part: Part) -> None:
    """What pupils call the pattern that they made, where it first comes."""
    for pattern in part.patterns:
        bar = min((entry.bar for entry in part.entries if entry.pattern == pattern.number), default=0)
        if pattern.name and bar:
            found[bar].append(Mark(kind="caption", text=wrapped(say(pattern.name), LINE_LENGTH)))


def _add_tempi(found: dict[int, list[Mark]], score: Score, first_bar: int) -> None:
    """Tempi where they begin. A glide's steps are there for playback only (no text), with words where it sets out."""
    sections = {section.bar for section in score.sections}
    tempi = score.tempi
    glides = [
        index > 0 and tempo.bar - tempi[index - 1].bar < HELD_BARS and tempo.bar not in sections
        for index, tempo in enumerate(tempi)
    ]
    for index, tempo in enumerate(tempi):
        bar = tempo.bar if index else first_bar
        words = say(fact("mark-tempo", term=tempo_term(tempo.bpm).capitalize(), words=tempo_words(tempo.bpm)))
        found[bar].append(
            Mark(kind="tempo", text="" if glides[index] else words, bpm=tempo.bpm),
        )
        if not glides[index] and any(glides[index + 1 : index + 2]):
            pace = "faster" if tempi[index + 1].bpm > tempo.bpm else "slower"
            found[bar].append(Mark(kind="caption", text=say(fact(f"mark-{pace}"))))


def _add_dynamics(found: dict[int, list[Mark]], part: Part, bars: int) -> None:
    """Dynamic marks; a hairpin from one ends in the bar before the next, or else with the stretch the part plays."""
    for mark, after in zip(part.dynamics, (*part.dynamics[1:], None), strict=False):
        found[mark.bar].append(Mark(kind="dynamic", text=mark.mark))
        if mark.hairpin:
            entry = next((e for e in part.entries if e.bar <= mark.bar < e.bar + e.bars), None)
            ends = entry.bar + entry.bars - 1 if entry else bars
            if after:
                ends = max(mark.bar, after.bar - 1)
            found[mark.bar].append(Mark(kind="cresc" if mark.hairpin == "cresc" else "dim"))
            found[ends].append(Mark(kind="hairpin end"))
