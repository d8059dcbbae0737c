"""What a process that waits for its next pack can do meanwhile: modules read, messages and templates taken apart.

A pack is made in copies of the process, which begin with all that it knows. Nothing is written, and nothing that was
made is kept: only what Python remembers of it. No typesetter is begun, for its threads would not come over into a copy.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator

from sonify.data.exports import science_csv, score_json
from sonify.lesson.packing import page_to_come, sheet_settings
from sonify.lesson.sheet_files import card_pictures, graphic
from sonify.notation.midi import midi_bytes
from sonify.notation.midi_files import midi_files
from sonify.notation.musicxml import musicxml_bytes
from sonify.paper import conductor, poster, pupils, typeset
from sonify.records.lesson import Lesson
from sonify.sound.room import spectra


def rehearsal(lesson: Lesson) -> Iterator[None]:
    """Goes through a lesson's pack, a step at a time, each of a tenth of a second or two."""
    settings = sheet_settings()
    steps: tuple[Callable[[], object], ...] = (
        lambda: science_csv(lesson.timeline),
        lambda: score_json(lesson.score),
        lambda: midi_bytes(lesson.score),
        lambda: midi_files(lesson.score),
        lambda: musicxml_bytes(lesson.score),
        lambda: page_to_come(lesson, None),
        lambda: pupils.sheet(lesson, settings, card_pictures(lesson, settings)),
        lambda: conductor.sheet(lesson, (), settings, graphic(lesson, settings)),
        lambda: poster.sheet(lesson, settings),
        lambda: [typeset.shown_words(sheet) for sheet in typeset.SHOWN],
        spectra,
    )
    for step in steps:
        step()
        yield
