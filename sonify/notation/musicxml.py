"""The Score as MusicXML 4.0, written element by element.

Written directly rather than through a notation library: that library needs 2 s for a piece of three minutes against
0.1 s, numbers unpitched parts' channels wrongly and makes up ids; it is the tests' independent reader instead.
The order of elements is the schema's. Same score, same bytes: no dates, and ids count from 1.
"""

from __future__ import annotations

from collections.abc import Sequence

from lxml import etree

from sonify.notation.marks import Mark, staff_marks, top_marks
from sonify.notation.measures import DIVISIONS, fill
from sonify.notation.players import Player, players_of
from sonify.notation.staves import Bar
from sonify.notation.xml import add
from sonify.records.score import COUNT_IN, Score

DOCTYPE = (
    '<!DOCTYPE score-partwise PUBLIC "-//Recordare//DTD MusicXML 4.0 Partwise//EN" '
    '"http://www.musicxml.org/dtds/partwise.dtd">'
)
CLEFS = {"treble": ("G", "2"), "bass": ("F", "4")}


def musicxml_bytes(score: Score, *, note_names: bool = False, count_in: bool = True, group: int | None = None) -> bytes:
    """The file's bytes: UTF-8, with the MusicXML 4.0 document type.

    note_names: letters under the noteheads. group: this group's parts alone, with the bars of a long rest gathered.
    count_in: False leaves the count-in out.
    """
    players = players_of(score, count_in=count_in, group=group)
    root = etree.Element("score-partwise", version="4.0")
    add(add(root, "work"), "work-title", score.title)
    encoding = add(add(root, "identification"), "encoding")
    add(encoding, "software", "sonify")
    for element in ("accidental", "beam", "stem"):
        add(encoding, "supports", element=element, type="yes" if element != "stem" else "no")
    _part_list(root, players)
    marks = _marks(score, players)
    gathered = _gathered(players, marks) if group is not None else {}
    for player, of_player in zip(players, marks, strict=True):
        part = add(root, "part", id=player.id)
        for bar, of_bar in zip(player.bars, of_player, strict=True):
            measure = _measure(part, score, bar)
            if bar is player.bars[0]:
                _attributes(measure, score, player)
            if bar.number in gathered:
                add(add(add(measure, "attributes"), "measure-style"), "multiple-rest", str(gathered[bar.number]))
            fill(measure, player, bar, of_bar, note_names=note_names)
        add(add(measure, "barline", location="right"), "bar-style", "light-heavy")
    written: bytes = etree.tostring(root, xml_declaration=True, encoding="UTF-8", doctype=DOCTYPE, pretty_print=True)
    return written


def _marks(score: Score, players: Sequence[Player]) -> list[list[list[Mark]]]:
    """The marks of each bar of each staff; the top staff carries those of the whole score."""
    marks = []
    for index, player in enumerate(players):
        first_bar = player.bars[0].number
        part = player.line.part
        main = index == 0 or players[index - 1].line.part is not part
        both = [staff_marks(score, part, first_bar, main=main)]
        if index == 0:
            both.insert(0, top_marks(score, first_bar))
        marks.append([[mark for of_bar in both for mark in of_bar.get(bar.number, ())] for bar in player.bars])
    return marks


def _part_list(root: etree._Element, players: Sequence[Player]) -> None:
    """Names, sounds, and a bracket round the staves of one group where it has several."""
    listed = add(root, "part-list")
    for index, player in enumerate(players):
        group = player.line.part.group
        before = players[index - 1].line.part.group if index else None
        after = players[index + 1].line.part.group if index + 1 < len(players) else None
        if after == group != before:
            start = add(listed, "part-group", type="start", number="1")
            add(start, "group-symbol", "bracket")
            add(start, "group-barline", "yes")
        _score_part(listed, player)
        if before == group != after:
            add(listed, "part-group", type="stop", number="1")


def _score_part(listed: etree._Element, player: Player) -> None:
    row, number = player.line.row, player.line.part.group
    listing = add(listed, "score-part", id=player.id)
    add(listing, "part-name", player.name)
    shown = player.name if player.line.part.name == COUNT_IN else f"{number} {player.line.part.name}\n{row.name}"
    add(add(listing, "part-name-display"), "display-text", shown)
    add(listing, "part-abbreviation", player.abbreviation)
    short = player.abbreviation if player.line.part.name == COUNT_IN else f"{number} {player.abbreviation}"
    add(add(listing, "part-abbreviation-display"), "display-text", short)
    ids = [(player.instrument_id(midi), midi) for midi in player.strokes]
    if row.pitched:
        ids = [(player.instrument_id(0), 0)]
    for instrument_id, _ in ids:
        add(add(listing, "score-instrument", id=instrument_id), "instrument-name", row.name)
    for instrument_id, midi in ids:
        sound = add(listing, "midi-instrument", id=instrument_id)
        add(sound, "midi-channel", str(player.voice.channel + 1))
        add(sound, "midi-program", str(player.voice.program + 1))
        if not row.pitched:
            add(sound, "midi-unpitched", str(midi + 1))  # this element counts keys from 1


def _gathered(players: Sequence[Player], marks: Sequence[Sequence[Sequence[Mark]]]) -> dict[int, int]:
    """Rests of two or more bars in all these staves: first bar -> how many. Only the first may carry marks."""
    gathered: dict[int, int] = {}
    open_at = None
    for index, bars in enumerate(zip(*(player.bars for player in players), strict=True)):
        resting = bars[0].number >= 1 and all(bar.silent and not bar.blank for bar in bars)
        marked = any(of_player[index] for of_player in marks)
        if resting and open_at is not None and not marked:
            gathered[open_at] += 1
        elif resting:
            open_at = bars[0].number
            gathered[open_at] = 1
        else:
            open_at = None
    return {bar: count for bar, count in gathered.items() if count > 1}


def _measure(part: etree._Element, score: Score, bar: Bar) -> etree._Element:
    if bar.number >= 1:
        return add(part, "measure", number=str(bar.number))
    # Bars before bar 1 carry no number of the piece: X1, X2 ... as the standard suggests.
    return add(part, "measure", number=f"X{bar.number + score.count_in_bars}", implicit="yes")


def _attributes(measure: etree._Element, score: Score, player: Player) -> None:
    row = player.line.row
    attributes = add(measure, "attributes")
    add(attributes, "divisions", str(DIVISIONS))
    add(add(attributes, "key"), "fifths", str(player.fifths if row.pitched else 0))
    time = add(attributes, "time")
    add(time, "beats", str(score.metre.beats))
    add(time, "beat-type", "4")
    clef = add(attributes, "clef")
    if not row.pitched:
        add(clef, "sign", "percussion")
        add(add(attributes, "staff-details"), "staff-lines", "1")
        return
    sign, line = CLEFS.get(row.clef, CLEFS["treble"])
    add(clef, "sign", sign)
    add(clef, "line", line)
    if row.written_shift:
        _transpose(attributes, -row.written_shift)


def _transpose(attributes: etree._Element, semitones: int) -> None:
    """From written to sounding pitch: scale steps and semitones within the octave, then whole octaves."""
    octaves = int(semitones / 12)  # towards zero, so that the rest has the same sign
    rest = semitones - 12 * octaves
    steps = (0, 1, 1, 2, 2, 3, 3, 4, 5, 5, 6, 6)[abs(rest)] * (1 if rest >= 0 else -1)
    transpose = add(attributes, "transpose")
    add(transpose, "diatonic", str(steps))
    add(transpose, "chromatic", str(rest))
    if octaves:
        add(transpose, "octave-change", str(octaves))
