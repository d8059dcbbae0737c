"""What all parts do together: the breath before the fullest moment, and the last gesture of the piece."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from dataclasses import replace
from fractions import Fraction

from sonify.arrange.compared import of_one_height
from sonify.arrange.hands import TWO_HANDED
from sonify.arrange.textures.task import Stroke, Task, lasting
from sonify.records.fact import Words, fact

#: The last gesture is a little stronger; hands have so long to get ready for it.
_ACCENT, _READY_BEATS = 4, Fraction(1, 2)
#: Short where the piece ends in its fullest part; else it rings to the end of the bar.
DAMPED_BEATS = Fraction(1, 2)


def last_beat(beats: int) -> int:
    """The beat of the last bar, from 0, on which everybody ends: the third, or the last in shorter bars."""
    return min(2, beats - 1)


def with_form(task: Task, strokes: Sequence[Stroke]) -> list[Stroke]:
    """The strokes with the held breath and the ending of the piece."""
    found = list(strokes)
    if task.shape.breath:
        found = breathing(found, task.shape.breath, task.beats)
    return found if task.texture == "scatter" else _ended(task, found)


def form_words(task: Task) -> tuple[Words, ...]:
    """For the card: the silent beat, where the part plays then, and how the piece ends."""
    words: list[Words] = []
    if task.shape.breath in task.bars:
        words.append(fact("part-held-breath", bar=task.shape.breath))
    if task.piece.bars in task.bars:
        damped = "yes" if task.shape.damped else "no"
        words.append(fact("part-end-together", beat=last_beat(task.beats) + 1, damped=damped))
    return tuple(words)


def breathing(strokes: Iterable[Stroke], bar: int, beats: int) -> list[Stroke]:
    """The strokes with the last beat of a bar silent: nothing begins in it, and nothing is held into it."""
    first, end, found = bar * beats - 1, bar * beats, []
    for stroke in strokes:
        begins, ends = lasting(stroke)
        if not first <= begins < end:
            found.append(replace(stroke, beats=first - stroke.beat) if begins < first < ends else stroke)
    return found


def _ended(task: Task, strokes: Sequence[Stroke]) -> list[Stroke]:
    """Whatever sounds in the last bar sounds once more, all together and with nothing after it."""
    bar = task.first_beat(task.piece.bars)
    at = _end(task)
    over = float(bar)  # most strokes lie far before it, and floats tell that sooner
    sounding = [stroke for stroke in strokes if lasting(stroke)[1] > over]
    if not sounding:
        return list(strokes)
    found = [stroke for stroke in strokes if lasting(stroke)[1] <= over]
    latest: dict[tuple[str, int], Stroke] = {}
    for stroke in sorted(sounding, key=lambda one: one.beat):
        latest[stroke.row.id, stroke.midi] = stroke
        if stroke.beat + _READY_BEATS < at:
            found.append(replace(stroke, beats=min(stroke.beats, at - stroke.beat)))
    lasts = DAMPED_BEATS if task.shape.damped else bar + task.beats - at
    for row in task.rows:
        own = [stroke for (name, _), stroke in latest.items() if name == row.id]
        for like, asked in _last_notes(task, own):
            found.append(replace(like, beat=at, beats=lasts, asked=asked, accent=max(like.accent, _ACCENT)))
    return sorted(found, key=lambda stroke: lasting(stroke)[0])


def _last_notes(task: Task, own: Sequence[Stroke]) -> list[tuple[Stroke, float | None]]:
    """What one kind of instrument ends on, and what a rule asks of it.

    A tune ends on the key's own note, with the tonic under it where there is a hand for it, and no other tune is to be
    compared with it. What is no tune and follows
    no rule sounds the notes of its last bar, which stand on the tonic. Rolls end all together.
    """
    if not own:
        return []
    texture, last = task.texture, own[-1]
    if texture == "melody" and last.row.pitched:
        pitch, notes = task.results("pitch"), task.tuning_of(last.row)
        main = last.row is task.main
        asked = None if pitch is None or not main else float(pitch[int(_end(task))])
        ruled = last.midi if asked is None else notes.notes[notes.index(asked + 12 * task.octaves)]
        found = [(replace(last, midi=ruled), asked)]
        home = notes.notes[notes.tonics[0]]
        alone = not of_one_height(task.piece.scene, task.line.plan.name)
        if alone and last.row.family in TWO_HANDED and home < ruled:
            found.insert(0, (replace(last, midi=home), None))
        return found
    if texture == "drone" and task.results("pitch", own=True) is None:
        hands = own if last.row.family in TWO_HANDED else own[:1]  # one hand has one note of a bordun
        return [(one, None) for one in hands]
    if texture == "tremolo":
        return [(replace(last, player=0), last.asked)]
    return [(last, last.asked)]


def _end(task: Task) -> Fraction:
    return task.first_beat(task.piece.bars) + last_beat(task.beats)
