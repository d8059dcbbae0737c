"""Drone: one sound that goes on. What can be held is held a bar or two; what rings is struck again in time."""

from __future__ import annotations

from fractions import Fraction

from sonify.arrange.blocks import Block, stretches
from sonify.arrange.hands import TWO_HANDED, too_fast_at
from sonify.arrange.pitches import fitted
from sonify.arrange.textures.task import Played, Stroke, Task, bars_text, doubled, finding
from sonify.records.instrument import Instrument
from sonify.records.score import Entry

#: Nobody of 7 to 11 holds a breath or a swirl longer than this (our own limit).
_LONGEST_S = 6.0
#: A ringing sound is struck again when so much of its ring is over.
_RING_SHARE = 1.5
_SWELL = 4


def played(task: Task) -> Played:
    """Long notes through every block; at the end what the piece began with, unless its own rule says otherwise."""
    found: list[Stroke] = []
    places, octaves, held = _places(task)
    wave = 0
    for block in task.blocks:  # no note goes on over a block's end: there the tempo may change, or the way home begin
        bar = block.bar
        while bar < block.end:
            each = _length(task, bar, block.end)
            for start, beats in each:
                found += _struck(task, start, beats, places, wave)
                wave += 1
            bar += max(1, int(sum(beats for _, beats in each)) // task.beats)
    found = _home(task, found)
    findings = []
    if held:
        findings.append(
            finding(
                task,
                f"{held} bars of its pitch lie beyond the {task.main.name.lower()}: the end of its range holds.",
                "Narrow the rule's pitches, or choose an instrument with a wider range.",
            )
        )
    return Played(
        strokes=tuple(doubled(task, found)),
        entries=_entries(task),
        words=_words(task),
        findings=tuple(findings),
        octaves=octaves,
        difficulty="easy",
    )


def _length(task: Task, bar: int, end: int) -> list[tuple[Fraction, Fraction]]:
    """The notes from a bar on: one of two bars, one of a bar, or several in a bar. (start, beats) each."""
    first, row = task.first_beat(bar), task.main
    seconds = task.piece.bar_seconds(bar)
    if row.sustains:
        two = bar + 1 < end and 2.0 * seconds <= _LONGEST_S
        if seconds <= _LONGEST_S:
            return [(first, Fraction(task.beats * (2 if two else 1)))]
        return _parts(task, first, 2)
    two = bar + 1 < end and 2.0 * seconds <= _RING_SHARE * row.ring_s
    if two:
        return [(first, Fraction(2 * task.beats))]
    for count in (1, 2, task.beats):
        if task.beats % count == 0 and seconds / count <= max(_RING_SHARE * row.ring_s, 0.9):
            break
    return _parts(task, first, _possible(row, seconds, count, task.beats))


def _possible(row: Instrument, seconds: float, count: int, beats: int) -> int:
    """At most so many strokes a bar as one player can keep up."""
    for fewer in (count, 2, 1):
        if fewer <= count and beats % fewer == 0:
            times = [i * seconds / fewer for i in range(fewer * 4)]
            if too_fast_at(times, row) is None:
                return fewer
    return 1


def _parts(task: Task, first: Fraction, count: int) -> list[tuple[Fraction, Fraction]]:
    if task.beats % count:
        count = task.beats
    each = Fraction(task.beats, count)
    return [(first + i * each, each) for i in range(count)]


def _struck(
    task: Task, start: Fraction, beats: Fraction, places: dict[int, tuple[int, float]] | None, wave: int
) -> list[Stroke]:
    """One long note, or for a tuned instrument the open fifth on the tonic (or what its pitch rule asks)."""
    row = task.main
    accent = _SWELL if wave % 2 == 0 else -_SWELL
    if not row.pitched:
        return [Stroke(beat=start, beats=beats, midi=row.gm_key, row=row, accent=accent)]
    notes = task.tuning
    if places is not None:
        place, asked = places[int(start // task.beats) + 1]
        return [Stroke(beat=start, beats=beats, midi=notes.notes[place], row=row, asked=asked, accent=accent)]
    root = notes.tonics[0]
    chord = [notes.notes[root]]
    fifth = notes.notes[notes.fifth_above(root)]
    if row.family in TWO_HANDED and fifth != chord[0]:
        chord.append(fifth)
    return [Stroke(beat=start, beats=beats, midi=midi, row=row, accent=accent) for midi in sorted(chord)]


def _places(task: Task) -> tuple[dict[int, tuple[int, float]] | None, int, int]:
    """For each bar the place of the note its own pitch rule asks for, the octaves added, the bars held at an end."""
    asked = task.results("pitch", own=True)
    if asked is None or not task.main.pitched:
        return None, 0, 0
    bars = task.bars
    values = [float(asked[(bar - 1) * task.beats]) for bar in bars]
    fit = fitted(values, task.tuning)
    return dict(zip(bars, zip(fit.places, values, strict=True), strict=True)), fit.octaves, fit.held


def _home(task: Task, strokes: list[Stroke]) -> list[Stroke]:
    """The last bars again as the first: the same pitches, so that the piece closes where it began."""
    opening = [b for b in task.blocks if task.shape.blocks.index(b) in task.shape.opening]
    home = [b for b in task.blocks if task.shape.blocks.index(b) in task.shape.home]
    if not opening or not home or not task.main.pitched or task.results("pitch", own=True) is not None:
        return strokes  # a rule of its own is followed to the end
    start = task.first_beat(home[0].bar)
    first = [stroke for stroke in strokes if stroke.beat == task.first_beat(opening[0].bar)]
    kept = [stroke for stroke in strokes if stroke.beat < start]
    onsets = sorted({(s.beat, s.beats, s.accent) for s in strokes if s.beat >= start})
    again = [
        Stroke(beat=beat, beats=beats, midi=one.midi, row=one.row, accent=accent)
        for beat, beats, accent in onsets
        for one in first
    ]
    return kept + again


def _entries(task: Task) -> tuple[Entry, ...]:
    found = []
    for stretch in stretches(task.blocks):
        bar, bars = stretch[0].bar, stretch[-1].end - stretch[0].bar
        found.append(Entry(bar=bar, bars=bars, instruction=_how(task, stretch[0])))
    return tuple(found)


def _how(task: Task, block: Block) -> str:
    notes = _length(task, block.bar, block.end)
    if task.main.sustains:
        return "one slow wave after another, without a gap"
    if len(notes) == 1:
        bars = int(notes[0][1]) // task.beats
        return "strike on beat 1 and let it ring" + ("" if bars == 1 else f"; again every {bars} bars")
    return f"{len(notes)} slow, even strokes a bar"


def _words(task: Task) -> tuple[str, ...]:
    words = ["You sound all the way through. Keep it steady, like breathing."]
    if task.main.family in ("voice", "wind"):
        words.append("Breathe when you need to, but not all together.")
    if task.line.voices > 1 and task.line.voice:
        words.append("You share this sound with another group: keep it going together.")
    home = [task.shape.blocks[i] for i in task.shape.home]
    if home and home[0] in task.blocks:
        bars = bars_text(home[0].bar, home[-1].end - home[0].bar)
        ruled = any(task.results(control) is not None for control in ("dynamics", "pitch", "brightness"))
        as_begun = task.shape.opening and task.shape.blocks[task.shape.opening[0]] in task.blocks and not ruled
        last = f"in {bars} only the opening sound is left" if as_begun else f"in {bars} only your sound is left"
        words.append(f"You end as you began: {last}." if as_begun else f"You have the last word: {last}.")
    return tuple(words)
