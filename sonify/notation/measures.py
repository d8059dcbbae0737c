"""What is in a measure of MusicXML: marks, notes and rests, each with its elements in the schema's order."""

from __future__ import annotations

from collections.abc import Sequence
from fractions import Fraction

from lxml import etree

from sonify.kinds.marks import DYNAMICS
from sonify.notation import keys
from sonify.notation.marks import Mark
from sonify.notation.players import Player
from sonify.notation.rhythm import GRID, VALUES, beam_groups, beam_words
from sonify.notation.staves import Bar, StaffPiece
from sonify.notation.xml import add

# Marks as MusicXML directions -----------------------------------------------------------------------------------------


def add_direction(measure: etree._Element, mark: Mark, *, divisions: int) -> None:
    """Put the mark into a measure that stands at its beginning (or, for the end of a hairpin, at its end)."""
    if mark.kind == "tempo" and not mark.text:
        add(measure, "sound", tempo=f"{mark.bpm:.10g}")
        return
    below = mark.kind in ("dynamic", "cresc", "dim", "hairpin end")
    direction = add(measure, "direction", placement="below" if below else "above")
    kind = add(direction, "direction-type")
    if mark.kind == "rehearsal":
        add(kind, "rehearsal", mark.text, enclosure="square", font_weight="bold")
    elif mark.kind == "tempo":
        add(kind, "words", mark.text + " ", font_weight="bold")
        metronome = add(add(direction, "direction-type"), "metronome", parentheses="no")
        add(metronome, "beat-unit", "quarter")
        add(metronome, "per-minute", f"{mark.bpm:.0f}")  # the very number of the cue sheet; tempi are whole
    elif mark.kind == "dynamic":
        add(add(kind, "dynamics"), mark.text)
    elif mark.kind in ("cresc", "dim", "hairpin end"):
        words = {"cresc": "crescendo", "dim": "diminuendo", "hairpin end": "stop"}
        add(kind, "wedge", type=words[mark.kind], number="1")
    elif mark.kind == "blank":
        add(kind, "words", mark.text, enclosure="rectangle", font_style="normal")
    else:
        add(kind, "words", mark.text, font_style="normal", font_weight="bold" if mark.kind == "cue" else "normal")
    if mark.beat:
        add(direction, "offset", str(int(mark.beat * divisions)))
    if mark.kind == "tempo":
        add(direction, "sound", tempo=f"{mark.bpm:.10g}")
    elif mark.kind == "dynamic":
        # The standard counts in percent of MIDI's 90 (its definition of this attribute; from memory, not verified).
        add(direction, "sound", dynamics=f"{DYNAMICS[mark.text] / 90 * 100:.2f}")


DIVISIONS = int(1 / GRID)  # a crotchet
LINE_POSITION = 4 * 7 + 2  # a one-line staff's line, as steps from C0: where a treble clef has E4
CROSSED = {"body", "voice"}  # families written with crosses for heads (common practice)
ACCIDENTALS = {-2: "flat-flat", -1: "flat", 0: "natural", 1: "sharp", 2: "double-sharp"}


def fill(measure: etree._Element, player: Player, bar: Bar, marks: Sequence[Mark], *, note_names: bool) -> None:
    """Marks, then notes and rests, then the end of a hairpin."""
    for mark in marks:
        if mark.kind != "hairpin end":
            add_direction(measure, mark, divisions=DIVISIONS)
    if bar.silent:
        _whole_bar_rest(measure, bar)
    else:
        _notes(measure, player, bar, note_names=note_names)
    for mark in marks:
        if mark.kind == "hairpin end":
            add_direction(measure, mark, divisions=DIVISIONS)


def _duration(beats: Fraction) -> str:
    return str(int(beats * DIVISIONS))


def _whole_bar_rest(measure: etree._Element, bar: Bar) -> None:
    """A rest in the middle of the bar; in a bar left to the pupils it is there but not seen."""
    note = add(measure, "note", **({"print-object": "no"} if bar.blank else {}))
    add(note, "rest", measure="yes")
    add(note, "duration", _duration(sum((piece.beats for piece in bar.pieces), Fraction(0))))
    add(note, "voice", "1")


def _notes(measure: etree._Element, player: Player, bar: Bar, *, note_names: bool) -> None:
    beams: dict[int, list[str]] = {}
    for group in beam_groups([(p.start, p.beats, not p.notes) for p in bar.pieces]):
        beams.update(zip(group, beam_words([VALUES[bar.pieces[index].beats][2] for index in group]), strict=True))
    altered: dict[tuple[str, int], int] = {}
    for index, piece in enumerate(bar.pieces):
        if not piece.notes:
            _rest(measure, piece)
        for rank, midi in enumerate(piece.notes):
            note = add(measure, "note")
            if rank:
                add(note, "chord")
            accidental = _pitch(note, player, midi, altered, tied=midi in piece.tied_in)
            _tied_note(note, player, piece, midi, accidental, beams.get(index, []) if rank == 0 else [])
            if note_names and player.line.row.pitched and rank == 0 and not piece.tied_in:
                _letters(note, player, piece)


def _rest(measure: etree._Element, piece: StaffPiece) -> None:
    note = add(measure, "note")
    add(note, "rest")
    add(note, "duration", _duration(piece.beats))
    add(note, "voice", "1")
    add(note, "type", VALUES[piece.beats][0])


def _pitch(note: etree._Element, player: Player, midi: int, altered: dict[tuple[str, int], int], *, tied: bool) -> str:
    """Write the pitch, or the place on the line; return the accidental to print, "" for none.

    altered: what the bar's accidentals have done so far to each (letter, octave).
    tied: it goes on from the note before, and needs no accidental.
    """
    row = player.line.row
    if not row.pitched:
        # Several sounds of one instrument stand evenly round the line, low to high.
        position = LINE_POSITION + 2 * player.strokes.index(midi) - (len(player.strokes) - 1)
        unpitched = add(note, "unpitched")
        add(unpitched, "display-step", "CDEFGAB"[position % 7])
        add(unpitched, "display-octave", str(position // 7))
        return ""
    letter, alteration, octave = keys.spelling(midi + row.written_shift, player.fifths)
    pitch = add(note, "pitch")
    add(pitch, "step", letter)
    if alteration:
        add(pitch, "alter", str(alteration))
    add(pitch, "octave", str(octave))
    before = altered.get((letter, octave), keys.signature_alteration(letter, player.fifths))
    if tied:
        return ""
    altered[letter, octave] = alteration
    return "" if before == alteration else ACCIDENTALS[alteration]


def _tied_note(
    note: etree._Element, player: Player, piece: StaffPiece, midi: int, accidental: str, beams: Sequence[str]
) -> None:
    """The rest of a note, in the schema's order."""
    add(note, "duration", _duration(piece.beats))
    ties = [kind for kind, tied in (("stop", piece.tied_in), ("start", piece.tied_out)) if midi in tied]
    for kind in ties:
        add(note, "tie", type=kind)
    if not player.line.row.pitched:
        add(note, "instrument", id=player.instrument_id(midi))
    add(note, "voice", "1")
    value, dots, _ = VALUES[piece.beats]
    add(note, "type", value)
    for _ in range(dots):
        add(note, "dot")
    if accidental:
        add(note, "accidental", accidental)
    if not player.line.row.pitched:
        add(note, "stem", "up")
    if player.line.row.family in CROSSED and not player.line.row.pitched:
        add(note, "notehead", "x")
    for level, state in enumerate(beams, 1):
        add(note, "beam", state, number=str(level))
    if ties:
        notations = add(note, "notations")
        for kind in ties:
            add(notations, "tied", type=kind)


def _letters(note: etree._Element, player: Player, piece: StaffPiece) -> None:
    """The letters of the written notes under the head, low to high."""
    shift = player.line.row.written_shift
    lyric = add(note, "lyric", number="1")
    add(lyric, "syllabic", "single")
    add(lyric, "text", " ".join(keys.name(midi + shift, player.fifths) for midi in piece.notes))
