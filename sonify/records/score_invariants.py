"""What holds for every Score, so that sound, MIDI and notation may rely on it. Not playability: see `arrange`."""

from __future__ import annotations

from collections.abc import Iterator
from fractions import Fraction
from itertools import pairwise

from sonify.kinds.cues import ACTIONS, FINGERS
from sonify.kinds.marks import DYNAMICS
from sonify.records.instrument import Instrument
from sonify.records.score import COUNT_IN, DIFFICULTIES, Note, Part, Score

#: Onsets and lengths are multiples of this part of a beat: the semiquaver. Within a bar of up to four beats every such
#: length is one notehead or two tied ones (a dotted one among them), so all can be written plainly.
GRID = Fraction(1, 4)


def faults(score: Score) -> list[str]:
    """Every invariant that a Score breaks, in words; empty for a sound one."""
    return [
        *_frame_faults(score),
        *(f"{part.name}: {text}" for part in score.parts for text in _part_faults(score, part)),
        *_cue_faults(score),
        *_bed_faults(score),
    ]


def _frame_faults(score: Score) -> Iterator[str]:
    if not score.parts or score.parts[0].name != COUNT_IN or score.parts[0].group != 0:
        yield "the first part is not the count-in of group 0"
    names = [part.name for part in score.parts]
    yield from (f'two parts are called "{name}"' for name in sorted({n for n in names if names.count(n) > 1}))
    groups = {part.group for part in score.group_parts}
    if groups != set(range(1, len(groups) + 1)):
        yield f"groups are numbered {sorted(groups)}, not from 1 on"
    if any(not 1 <= tempo.bar <= score.bars for tempo in score.tempi):
        yield "a tempo begins outside the piece"
    bar = 1
    for section in score.sections:
        if section.bar != bar or section.bars < 1:
            yield f"section {section.letter} begins at bar {section.bar}, not {bar}"
        bar = section.bar + section.bars
    if score.sections and bar != score.bars + 1:
        yield f"sections end with bar {bar - 1}, the piece with bar {score.bars}"


def _part_faults(score: Score, part: Part) -> Iterator[str]:
    known = {row.id: row for row in score.instruments}
    used = {part.instrument, *(seat.instrument for seat in part.seats), *(note.instrument for note in part.notes)} - {
        ""
    }
    if used - known.keys():
        yield f"the score has no row for {', '.join(sorted(used - known.keys()))}"
        return
    low, high = (Fraction(0), score.end_beat)
    if part.name == COUNT_IN:
        # Where everything is for pupils to invent the beat goes on under it.
        end = score.end_beat if score.scaffold == "open" else Fraction(0)
        low, high = Fraction(-score.count_in_bars * score.metre.beats), end
    for note in part.notes:
        row = known[note.instrument or part.instrument]
        yield from (f"note at beat {note.beat} {text}" for text in _note_faults(note, row, part, score, low, high))
    if [note.beat for note in part.notes] != sorted(note.beat for note in part.notes):
        yield "notes are not in order of beat"
    yield from _overlap_faults(part)
    yield from _stretch_faults(score, part)
    if part.difficulty not in DIFFICULTIES:
        yield f'difficulty "{part.difficulty}"'
    for pattern in part.patterns:
        length = pattern.bars * score.metre.beats
        if any(start < 0 or beats <= 0 or start + beats > length for start, beats, _ in pattern.hits):
            yield f"pattern {pattern.number} does not fit in its {pattern.bars} bars"


def _note_faults(note: Note, row: Instrument, part: Part, score: Score, low: Fraction, high: Fraction) -> Iterator[str]:
    if note.beat < low or note.beat + note.beats > high:
        yield f"sounds outside beats {low} to {high}"
    if note.beats <= 0 or note.beat % GRID or note.beats % GRID:
        yield f"is off the semiquaver grid or has no length ({note.beats})"
    if not 1 <= note.velocity <= 127 or not 0.0 <= note.brightness <= 1.0 or not 0 <= note.midi <= 127:
        yield f"has velocity {note.velocity}, brightness {note.brightness}, pitch {note.midi}"
    if not row.pitched and note.midi != row.gm_key:
        yield f"has key {note.midi}; {row.name} is {row.gm_key}"
    if not 0 <= note.player <= max(part.players, 0):
        yield f"is for player {note.player} of {part.players}"


def _overlap_faults(part: Part) -> Iterator[str]:
    """The same pitch never overlaps itself in a part, but where two instruments begin it as one (a recorder beside bars
    ends sooner, to breathe). One instrument has one voice (chords are struck together)."""
    for midi in sorted({note.midi for note in part.notes}):
        same = [note for note in part.notes if note.midi == midi]
        for a, b in pairwise(same):
            at_one = b.beat == a.beat and b.instrument != a.instrument
            if b.beat < _end(a) and not at_one:
                yield f"pitch {midi} overlaps itself at beat {b.beat}"
    for instrument in sorted({note.instrument for note in part.notes}):
        voice = [note for note in part.notes if note.instrument == instrument]
        for a, b in pairwise(voice):
            if b.beat < _end(a) and (b.beat, b.beats) != (a.beat, a.beats):
                yield f"two voices on one instrument at beat {b.beat}"


def _end(note: Note) -> Fraction:
    return note.beat + note.beats


def _stretch_faults(score: Score, part: Part) -> Iterator[str]:
    """Entries, blanks and marks lie in the piece, in order; notes lie in entries and never in blanks."""
    for what, stretches in (("entry", part.entries), ("blank", part.blanks)):
        bar = 1
        for stretch in stretches:
            if stretch.bar < bar or stretch.bars < 1 or stretch.bar + stretch.bars > score.bars + 1:
                yield f"{what} at bar {stretch.bar} for {stretch.bars} bars overlaps or leaves the piece"
            bar = stretch.bar + stretch.bars
    played = {bar for entry in part.entries for bar in range(entry.bar, entry.bar + entry.bars)}
    empty = {bar for blank in part.blanks for bar in range(blank.bar, blank.bar + blank.bars)}
    if part.name != COUNT_IN:
        for note in part.notes:
            sounding = {int(beat // score.metre.beats) + 1 for beat in (note.beat, _end(note) - GRID)}
            if not sounding <= played or sounding & empty:
                yield f"note at beat {note.beat} is outside the entries or in a blank"
    marks = [mark.bar for mark in part.dynamics]
    if marks != sorted(set(marks)) or any(not 1 <= bar <= score.bars for bar in marks):
        yield "dynamic marks are not in order of bars"
    for mark in part.dynamics:
        if mark.mark not in DYNAMICS or mark.hairpin not in ("", "cresc", "dim"):
            yield f'unknown mark "{mark.mark}" or hairpin "{mark.hairpin}"'


def _cue_faults(score: Score) -> Iterator[str]:
    names = {"", *(part.name for part in score.parts)}
    for cue in score.cues:
        if not 1 - score.count_in_bars <= cue.bar <= score.bars or not 1 <= cue.beat < score.metre.beats + 1:
            yield f"cue at bar {cue.bar}, beat {cue.beat} is outside the piece"
        if cue.action not in ACTIONS or not names.issuperset(cue.parts) or (cue.also and "" in cue.parts):
            yield f'cue "{cue.action}" for "{cue.part}" is unknown'
            continue
        if cue.gesture not in ACTIONS[cue.action].gestures:
            yield f'cue at bar {cue.bar}: "{cue.gesture}" is no gesture for {cue.action}'
        if not cue.reason.words and not cue.reason.music:
            yield f"cue at bar {cue.bar} has no reason"
        if cue.mark and cue.mark not in DYNAMICS or not cue.mark and cue.action in ("louder", "softer"):
            yield f'cue at bar {cue.bar} leads to the mark "{cue.mark}"'
        if (cue.bpm > 0.0) != (cue.action in ("start", "tempo")) or cue.from_bpm < 0.0:
            yield f"cue at bar {cue.bar} gives a beat of {cue.bpm:g}"
        if cue.by_bar and not cue.bar <= cue.by_bar <= score.bars:
            yield f"cue at bar {cue.bar} is to be done by bar {cue.by_bar}"
        if not 0 <= cue.pattern <= len(FINGERS):
            yield f"cue at bar {cue.bar} shows {cue.pattern} fingers"
    places = [(cue.bar, cue.beat) for cue in score.cues]
    if places != sorted(places):
        yield "cues are not in order"


def _bed_faults(score: Score) -> Iterator[str]:
    for bed in score.beds:
        beats = [beat for beat, _ in bed.levels]
        if not beats or beats != sorted(set(beats)) or beats[0] < 0 or beats[-1] > score.end_beat:
            yield f"the {bed.kind} bed's corners are not in order within the piece"
        if any(not 0.0 <= level <= 1.0 for _, level in bed.levels):
            yield f"the {bed.kind} bed has a level outside 0 to 1"
