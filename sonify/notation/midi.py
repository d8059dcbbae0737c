"""The Score as a Standard MIDI File: type 1, a conductor track, then a track a part in the order of the Score.

Onsets are exact: ticks a crotchet are a multiple of 960 in which every onset is whole (where no such number fits the
file format, the largest multiple of 960, at most 0.04 ms off at 30 bpm). Tempi are those of `Clock`, so that seconds
agree too. Velocity carries the level of each stroke; expression (CC 11) only what velocity cannot, the swell within a
long note that leads to the next; brightness (CC 74) the beater. Both controllers belong to a channel, so lines that
share one (all of channel 10) go without.
"""

from __future__ import annotations

import io
from collections.abc import Iterable, Iterator, Sequence
from fractions import Fraction
from itertools import pairwise
from math import lcm
from typing import TYPE_CHECKING, Any

from sonify.notation.channels import Voice, keyboard_voices, voices
from sonify.notation.keys import key_fifths
from sonify.notation.lines import chosen_parts, lines_of
from sonify.records.clock import microseconds
from sonify.records.fact import fact
from sonify.records.safe_text import for_midi
from sonify.records.score import Note, Part, Score
from sonify.say import say
from sonify.say.cues import told_words
from sonify.say.parts import listed

if TYPE_CHECKING:
    from mido import MidiTrack

TICKS = 960
MOST_TICKS = 32_767  # the header holds 15 bits
EXPRESSION, BRIGHTNESS = 11, 74
SWELL_BEATS = 2  # a note at least so long may swell
SWELL_STEP = Fraction(1, 4)  # beats between controller values

#: (tick, order among events of one tick, message)
Event = tuple[int, int, Any]
META, OFF, CONTROL, ON, END = range(5)

MAJOR_KEYS = ("Gb", "Db", "Ab", "Eb", "Bb", "F", "C", "G", "D", "A", "E", "B", "F#")  # from 6 flats to 6 sharps


def midi_bytes(score: Score, *, count_in: bool = True, group: int | None = None, for_keyboard: bool = False) -> bytes:
    """The file's bytes.

    count_in: False leaves the count-in out, and bar 1 begins at once; cues given in it move to the beginning.
    group: only this group's parts, with the count-in. for_keyboard: unpitched parts on keys of a 61-key keyboard.
    """
    import mido

    parts = chosen_parts(score, count_in=count_in, group=group)
    ticks = ticks_a_beat(score)
    start = -score.clock.count_in_beats if count_in else 0
    grid = Grid(score, ticks, start)
    lines = [lines_of(score, part) for part in parts]
    flat = [line for of_part in lines for line in of_part]
    sounding = iter(keyboard_voices(flat) if for_keyboard else voices(flat))
    tracks = [[next(sounding) for _ in of_part] for of_part in lines]
    level = _expression_level([voice for track in tracks for voice in track])

    # Texts are ASCII where their words allow (`for_midi`); what is left is UTF-8.
    file = mido.MidiFile(type=1, ticks_per_beat=ticks, charset="utf-8")
    file.tracks.append(_track(grid, _conductor(grid, [part.name for part in parts] if group is not None else None)))
    for part, of_part in zip(parts, tracks, strict=True):
        file.tracks.append(_track(grid, _part_events(grid, part, of_part, level)))
    out = io.BytesIO()
    file.save(file=out)
    return out.getvalue()


def ticks_a_beat(score: Score) -> int:
    """Ticks a crotchet in which every onset of the score is a whole number, if the format can hold it."""
    ticks = lcm(TICKS, *(note.beat.denominator for part in score.parts for note in part.notes))
    return ticks if ticks <= MOST_TICKS else MOST_TICKS // TICKS * TICKS


class Grid:
    """Beats to ticks: the one place where a beat is rounded."""

    def __init__(self, score: Score, ticks_a_beat: int, start: int) -> None:
        self.score, self.ticks_a_beat, self.start = score, ticks_a_beat, start

    def tick(self, beat: Fraction | int) -> int:
        return max(0, round((beat - self.start) * self.ticks_a_beat))

    @property
    def end(self) -> int:
        return self.tick(self.score.end_beat)


def _track(grid: Grid, events: Iterable[Event]) -> MidiTrack:
    """Events in order of tick, as a track of messages with the time since the one before."""
    import mido

    ordered = sorted(events, key=lambda event: event[:2])
    last = max([grid.end, *(event[0] for event in ordered)])
    ordered.append((last, END, mido.MetaMessage("end_of_track")))
    ticks = [0, *(event[0] for event in ordered)]
    track = mido.MidiTrack()
    for (before, after), (_, _, message) in zip(pairwise(ticks), ordered, strict=True):
        message.time = after - before
        track.append(message)
    return track


def _conductor(grid: Grid, only: Sequence[str] | None) -> Iterator[Event]:
    """Title, metre, key, tempo map, a marker a section, a cue point a cue (only those of the named parts, if given)."""
    from mido import MetaMessage

    score, clock = grid.score, grid.score.clock
    yield 0, META, MetaMessage("track_name", name=for_midi(score.title))
    yield 0, META, MetaMessage("time_signature", numerator=score.metre.beats, denominator=4)
    yield 0, META, MetaMessage("key_signature", key=MAJOR_KEYS[key_fifths(score.scale) + 6])
    for tempo in score.tempi:
        tick = 0 if tempo.bar == 1 else grid.tick(clock.beat_of_bar(tempo.bar))
        yield tick, META, MetaMessage("set_tempo", tempo=microseconds(tempo.bpm))
    for section in score.sections:
        text = say(fact("mark-section", letter=section.letter, title=say(section.title))).strip()
        yield grid.tick(clock.beat_of_bar(section.bar)), META, MetaMessage("marker", text=for_midi(text))
    for cue in score.cues:
        if only is None or not cue.part or any(part in only for part in cue.parts):
            beat = clock.beat_of_bar(cue.bar) + cue.beat - 1
            yield grid.tick(beat), META, MetaMessage("cue_marker", text=for_midi(told_words(cue)))


def _part_events(grid: Grid, part: Part, of_part: Sequence[Voice], level: int) -> Iterator[Event]:
    from mido import Message, MetaMessage

    yield 0, META, MetaMessage("track_name", name=for_midi(part.name))
    yield 0, META, MetaMessage("instrument_name", name=for_midi(listed([voice.line.row.name for voice in of_part])))
    for remark in dict.fromkeys(remark for voice in of_part for remark in voice.remarks):
        yield 0, META, MetaMessage("text", text=for_midi(remark))
    for own in (pattern.name for pattern in part.patterns if pattern.name):
        yield 0, META, MetaMessage("text", text=for_midi(say(own)))
    for blank in part.blanks:
        text = say(fact("mark-idea-at", n=blank.bars, bar=blank.bar))
        yield grid.tick(grid.score.clock.beat_of_bar(blank.bar)), META, MetaMessage("text", text=for_midi(text))
    for channel, program in dict.fromkeys((voice.channel, voice.program) for voice in of_part):
        yield 0, CONTROL, Message("program_change", channel=channel, program=program)
    yield from _strokes(grid, of_part)
    for voice in of_part:
        if not voice.shared:
            yield 0, CONTROL, Message("control_change", channel=voice.channel, control=EXPRESSION, value=level)
            yield from _swells(grid, voice, level)
            yield from _beaters(grid, voice)


def _strokes(grid: Grid, of_part: Sequence[Voice]) -> Iterator[Event]:
    """Note on and off. A note ends before the next one on its key: a key cannot be pressed twice at once.

    Strokes of several players on one key at one tick all stay: as many note-ons, then as many note-offs.
    """
    from mido import Message

    on_key: dict[tuple[int, int], list[Note]] = {}
    for voice in of_part:
        for note in voice.line.notes:
            on_key.setdefault((voice.channel, voice.key(note.midi)), []).append(note)
    for (channel, key), notes in on_key.items():
        notes.sort(key=lambda note: note.beat)
        starts = [grid.tick(note.beat) for note in notes]
        following = dict(pairwise(dict.fromkeys(starts)))
        for note, start in zip(notes, starts, strict=True):
            end = max(start + 1, grid.tick(note.beat + note.beats))
            end = min(end, following.get(start, end))
            yield start, ON, Message("note_on", channel=channel, note=key, velocity=note.velocity)
            yield end, OFF, Message("note_off", channel=channel, note=key, velocity=0)


def _swelling(voice: Voice) -> Iterator[tuple[Note, Note]]:
    """Long notes that can be held and that lead without a gap to one of another velocity."""
    if voice.shared or not voice.line.row.sustains:
        return
    for note, after in pairwise(voice.line.notes):
        if note.beats >= SWELL_BEATS and after.beat == note.beat + note.beats and after.velocity != note.velocity:
            yield note, after


def _expression_level(every: Sequence[Voice]) -> int:
    """The resting expression of the whole file: as high as leaves room for the steepest swell."""
    rises = [after.velocity / note.velocity for voice in every for note, after in _swelling(voice)]
    return int(127 / max([1.0, *rises]))


def _swells(grid: Grid, voice: Voice, level: int) -> Iterator[Event]:
    """Within a long note, expression goes from rest to where the next velocity takes over, and there back to rest."""
    from mido import Message

    for note, after in _swelling(voice):
        steps = int(note.beats / SWELL_STEP)
        for step in range(1, steps):
            share = step / steps * (after.velocity / note.velocity - 1)
            tick = grid.tick(note.beat + step * SWELL_STEP)
            value = round(level * (1 + share))
            yield tick, CONTROL, Message("control_change", channel=voice.channel, control=EXPRESSION, value=value)
        tick = grid.tick(after.beat)
        yield tick, CONTROL, Message("control_change", channel=voice.channel, control=EXPRESSION, value=level)


def _beaters(grid: Grid, voice: Voice) -> Iterator[Event]:
    """Brightness where it changes: 0 the softest beater, 64 neutral, 127 the hardest."""
    from mido import Message

    before = None
    for note in voice.line.notes:
        value = round(note.brightness * 127)
        if value != before:
            tick = grid.tick(note.beat)
            yield tick, CONTROL, Message("control_change", channel=voice.channel, control=BRIGHTNESS, value=value)
        before = value
