"""A Lesson written: the pack in its folder, whole or not at all."""

from __future__ import annotations

import sys
from collections.abc import Callable, Mapping
from itertools import islice
from pathlib import Path
from typing import Any

from sonify import __version__
from sonify.cycles import seldom_looked_for
from sonify.data.exports import key_numbers, science_csv, score_json
from sonify.lesson.carried import carried, plan_of, readings_beside
from sonify.lesson.sheet_files import sheets, when_asked
from sonify.lesson.studying import check_seed, study
from sonify.notation.free import free_as_boxes
from sonify.notation.midi import midi_bytes
from sonify.notation.midi_files import midi_files
from sonify.notation.musicxml import musicxml_bytes
from sonify.page import page_to_sound, served_page_html
from sonify.paper import PaperSettings, Printing
from sonify.paper.printlist import PrintRow
from sonify.paper.typeset import remembering
from sonify.recording import Wishes, check_wishes, recorded_beside
from sonify.recording.second_core import Copies, alone, copies
from sonify.records.fact import fact
from sonify.records.lesson import Lesson
from sonify.records.scene import Scene
from sonify.records.sounds import PageSounds
from sonify.say import say
from sonify.storage import shelf
from sonify.storage.kept import kept
from sonify.storage.pack import building, check_place
from sonify.study.film import is_warm, particle_film
from sonify.study.reading import ClassLike, SceneLike, load, palette

#: Told what is being done and how much of the whole is done, 0 to 1.
Progress = Callable[[str, float], None]
NOTHING_MORE = Wishes()
AS_USUAL = Printing()


@seldom_looked_for()
def make(
    scene: SceneLike,
    classroom: ClassLike = None,
    *,
    out: str | Path | None = None,
    seed: int = 0,
    scaffold: str = "full",
    replace: bool = False,
    wishes: Wishes = NOTHING_MORE,
    printing: Printing = AS_USUAL,
    progress: Progress | None = None,
) -> Path:
    """The lesson pack of a scene for a class, in the folder `out` (left out: the scene's name, here), returned.

    Written whole or not at all. Raises PackInTheWay where files changed or added by hand would be lost.
    """
    check_seed(seed)
    given, scene = scene, load(scene)
    check_out(scene, out, replace=replace)
    lesson = study(scene, classroom, seed=seed, scaffold=scaffold)
    plan = plan_of(lesson, readings_beside(given, scene))
    return write_pack(lesson, out=out, replace=replace, wishes=wishes, printing=printing, plan=plan, progress=progress)


def check_out(scene: Scene, out: str | Path | None, *, replace: bool = False) -> None:
    """Before any work: raises SonifyError where the scene's pack could not be put at `out`."""
    check_place(_pack_folder(scene, out), replace=replace)


def _pack_folder(scene: Scene, out: str | Path | None) -> Path:
    return Path(out) if out is not None else Path(scene.name)


@seldom_looked_for()
def write_pack(
    lesson: Lesson,
    *,
    out: str | Path | None = None,
    replace: bool = False,
    wishes: Wishes = NOTHING_MORE,
    printing: Printing = AS_USUAL,
    plan: Mapping[str, Any] | None = None,
    progress: Progress | None = None,
) -> Path:
    """The pack of a lesson that has been studied: `make` without its first half.

    plan: what page.html carries, so that it can be opened again; left out, what the lesson itself knows of it.
    """
    check_wishes(lesson.score, wishes)

    def tell(doing: str, share: float) -> None:
        if progress is not None:
            progress(say(fact(f"progress-{doing}")), share)

    folder = _pack_folder(lesson.scene, out)
    facts = pack_facts(lesson, printing)
    with (
        remembering(kept),
        building(folder, facts, replace=replace) as work,
        copies() as begun,
        recorded_beside(lesson.score, work, wishes, lambda share: tell("recording", 0.1 + 0.6 * share), begun) as sound,
    ):
        listed: list[PrintRow] = []
        music, settings = (lambda: _engraved(lesson, printing)), sheet_settings(printing)
        coming = sheets(lesson, music, settings, listed.extend, _setting(begun), alone)
        tell("engraving", 0.3)
        _write_texts(lesson, work, wishes, printing)
        tell("typesetting", 0.3)
        page = page_to_come(lesson, plan)  # while the sheets and the recording are made elsewhere
        for name, data in islice(coming, 2):  # by then the others are begun
            (work / name).write_bytes(data)
        sounds, measured = sound()
        tell("page", 0.9)
        (work / "page.html").write_bytes(page(sounds).encode("utf-8"))
        for name, data in coming:
            (work / name).write_bytes(data)
        facts |= {"print": [row.for_programs() for row in listed], "sound": measured}
    tell("done", 1.0)
    return folder


def page_text(lesson: Lesson, sounds: PageSounds, plan: Mapping[str, Any] | None = None) -> str:
    """The classroom page of a lesson, with the particle box where a temperature plays a part in it."""
    return page_to_come(lesson, plan)(sounds)


def page_to_come(lesson: Lesson, plan: Mapping[str, Any] | None) -> Callable[[PageSounds], str]:
    """All of `page_text` but the sounds, which are put in by what comes back."""
    film = particle_film(lesson) if is_warm(lesson) else ""
    return page_to_sound(lesson, palette(), film, carried(plan_of(lesson) if plan is None else plan))


def served_page_text(lesson: Lesson, address: str, *, records: bool) -> str:
    """The same page from a running server, which gives its sounds at `address`. records: leads to "Our recording"."""
    film = particle_film(lesson) if is_warm(lesson) else ""
    return served_page_html(lesson, palette(), film, address, records=records)


def pack_facts(lesson: Lesson, printing: Printing = AS_USUAL) -> dict[str, Any]:
    """What pack.json says of the inputs: enough to make the same pack again, and no path of the machine."""
    scene = lesson.scene
    return {
        "toolkit": f"sonify {__version__}",
        "scene": {"name": scene.name, "sha256": scene.origin.sha256},
        **({"data": {"name": scene.data, "sha256": scene.table.sha256}} if scene.table is not None else {}),
        **({"sounds": [{"name": s.file, "sha256": s.sha256} for s in scene.sounds]} if scene.sounds else {}),
        **({"set": {change.name: change.after.text for change in scene.changes}} if scene.changes else {}),
        "class": {"name": lesson.classroom.name, "sha256": lesson.classroom.origin.sha256},
        "seed": lesson.seed,
        "scaffold": lesson.scaffold,
        "paper": printing.paper,
        "large_print": printing.large_print,
        "note_names": printing.note_names,
        **({"also": list(printing.also)} if printing.also else {}),
        **key_numbers(lesson),
    }


def _write_texts(lesson: Lesson, work: Path, wishes: Wishes, printing: Printing) -> None:
    (work / "science.csv").write_text(science_csv(lesson.timeline), encoding="utf-8", newline="\n")
    (work / "score.json").write_text(score_json(lesson.score), encoding="utf-8", newline="\n")
    (work / "soundscape.mid").write_bytes(midi_bytes(lesson.score))
    (work / "midi").mkdir()
    for name, data in midi_files(lesson.score, count_in=wishes.midi_count_in, for_keyboard=wishes.for_keyboard).items():
        (work / name).write_bytes(data)
    (work / "score.musicxml").write_bytes(musicxml_bytes(lesson.score, note_names=printing.note_names))


def _engraved(lesson: Lesson, printing: Printing) -> bytes:
    """The music that the conductor's sheets engrave."""
    return musicxml_bytes(free_as_boxes(lesson.score), note_names=printing.note_names)


def _setting(begun: Copies | None) -> Callable[[Callable[[], Any]], Callable[[], Any]]:
    """How sheets are begun. The typesetter has threads of its own, for which a copy would wait in vain: once it has
    been at work here, it goes on here."""
    if begun is None or "typst" in sys.modules:
        return when_asked
    return lambda work: begun.begin(lambda tell: work())


def sheet_settings(printing: Printing = AS_USUAL) -> PaperSettings:
    """What the paper room needs to know: the fonts and group looks that are shipped, and what was asked for."""
    return PaperSettings(
        fonts_dir=str(shelf.fonts_folder()),
        palette=palette(),
        paper=printing.paper,
        large_print=printing.large_print,
        also=printing.also,
    )
