"""A pattern of pupils' own as a scene file has it: a text of boxes for each bar, and the notes where they chose any."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from sonify.inputs import readings
from sonify.inputs.document import Fault, shown
from sonify.inputs.readings import UnreadableWord
from sonify.records.fact import did_you_mean, fact, wrong
from sonify.records.own_pattern import BOXES_A_BEAT, HELD, SILENT, SOUND, OwnPattern
from sonify.records.scene import Music, Scale
from sonify.records.words import NOTE_LETTERS

if TYPE_CHECKING:
    from sonify.inputs.pattern_shape import PatternShape


def bar_boxes(text: str) -> str:
    """A bar's boxes without the spaces between beats. Raises UnreadableWord for anything that no box can hold.

    >>> bar_boxes("x. xx x- ..")
    'x.xxx-..'
    """
    boxes = "".join(text.split()).lower()
    if stray := next((box for box in boxes if box not in (SOUND, HELD, SILENT)), ""):
        raise UnreadableWord(wrong("error_pattern-box", stray=shown(stray)))
    if not boxes:
        raise UnreadableWord(wrong("error_pattern-no-boxes"))
    before = SILENT
    for box in boxes:
        if box == HELD and before == SILENT:
            raise UnreadableWord(wrong("error_pattern-holds-nothing", text=shown(text)))
        before = box
    return boxes


def own_patterns(rows: Sequence[PatternShape], music: Music) -> list[OwnPattern | Fault]:
    """The patterns of a scene, or what is wrong with each beside its metre and its key."""
    return [_own_pattern(number, row, music) for number, row in enumerate(rows)]


def _own_pattern(number: int, row: PatternShape, music: Music) -> OwnPattern | Fault:
    key, beats = f"pattern.{number}", music.metre.beats
    bars = tuple(map(bar_boxes, row.boxes))
    allowed = [each * beats for each in BOXES_A_BEAT]
    for place, bar in enumerate(bars):
        if len(bar) not in allowed:
            told = wrong(
                "error_pattern-how-many-boxes",
                boxes=len(bar),
                metre=music.metre.text,
                allowed=f"{', '.join(map(str, allowed[:-1]))} or {allowed[-1]}",
            )
            return Fault(key=f"{key}.boxes.{place}", message=told)
    sounds = sum(bar.count(SOUND) for bar in bars)
    if not sounds:
        return Fault(key=f"{key}.boxes", message=wrong("error_pattern-no-sound"))
    notes = tuple(map(readings.note_number, row.notes))
    if notes and len(notes) != sounds:
        told = fact("error_pattern-how-many-notes", notes=len(notes), sounds=sounds)
        return Fault(key=f"{key}.notes", message=told)
    for place, note in enumerate(notes):
        if note % 12 not in music.scale.pitch_classes:
            told = wrong(
                "error_pattern-not-in-key",
                note=shown(row.notes[place]),
                scale=music.scale.name,
                allowed=", ".join(_letters(music.scale)),
            )
            return Fault(key=f"{key}.notes.{place}", message=told)
    return OwnPattern(part=row.part, boxes=bars, beats=beats, notes=notes, name=row.name, key=key)


def _letters(scale: Scale) -> list[str]:
    return [NOTE_LETTERS[pitch_class] for pitch_class in scale.pitch_classes]


def faults_of_patterns(owners: Sequence[tuple[int, str]], parts: Sequence[str]) -> Iterator[Fault]:
    """A pattern for a part that there is not, or a second one for a part. owners: (number of the table, part)."""
    first: dict[str, int] = {}
    for number, part in owners:
        key = f"pattern.{number}.part"
        if parts and part not in parts:
            told = wrong(
                "error_inputs-part-called-allowed",
                name=shown(part),
                near=did_you_mean(part[:60], parts),
                allowed=", ".join(sorted(set(parts))),
            )
            yield Fault(key=key, message=told)
        elif part in first:
            yield Fault(key=key, message=wrong("error_pattern-two", part=shown(part), first=first[part] + 1))
        first.setdefault(part, number)
