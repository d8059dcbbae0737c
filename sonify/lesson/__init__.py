"""The whole pipeline: a scene file and a class file in, a lesson pack out.

Read it from top to bottom: `study` computes, maps and arranges, `make` writes. `reading` reads the files and checks the
names in them, `simulation` computes the science, `starting` writes a scene file to start from; all can be had here.
"""

from __future__ import annotations

import sys
from collections.abc import Callable, Mapping
from dataclasses import replace as replaced
from pathlib import Path
from typing import TYPE_CHECKING, Any

from sonify import __version__
from sonify.arrange import arrange, playability
from sonify.data.exports import key_numbers, science_csv, score_json
from sonify.errors import SonifyError
from sonify.facts.authored import authored_findings, false_claims
from sonify.facts.cautions import caution_findings, needed
from sonify.facts.comparison import Comparison, comparison
from sonify.facts.evidence import Evidence
from sonify.facts.fitting import fitted_to_class, fitted_to_conditions, not_so, of_missing_stages
from sonify.facts.tied import tied_to_music, tied_to_science, without
from sonify.facts.truth import true_controls, true_findings, true_score, true_timeline
from sonify.lesson.carried import carried, class_to_send, plan_of, readings_beside
from sonify.lesson.sheet_files import sheets, when_asked
from sonify.mapping import map_scene
from sonify.notation.free import free_as_boxes
from sonify.notation.midi import midi_bytes
from sonify.notation.midi_files import midi_files
from sonify.notation.musicxml import musicxml_bytes
from sonify.page import page_html, served_page_html
from sonify.paper import PaperSettings, Printing
from sonify.paper.preview import page_count, page_png
from sonify.paper.printlist import PrintRow
from sonify.processes import PROCESSES, find, process_of
from sonify.processes.beside_model import beside
from sonify.processes.experiment_advice import advice
from sonify.recording import (
    AUDIO,
    Wishes,
    check_wishes,
    loudness_findings,
    played,
    recorded_beside,
    rendered,
    write_wav,
)
from sonify.recording.second_core import Copies, copies
from sonify.records.classroom import Classroom
from sonify.records.controls import Controls
from sonify.records.fact import fact, wrong
from sonify.records.findings import Finding
from sonify.records.heard import HeardRule
from sonify.records.instrument import Instrument
from sonify.records.lesson import Lesson, Source
from sonify.records.played import played_db
from sonify.records.process import ProcessSpec
from sonify.records.scene import Scene
from sonify.records.score import Score
from sonify.records.sounds import PageSounds
from sonify.records.timeline import Timeline
from sonify.say import say
from sonify.science.sources import SOURCES
from sonify.sound.balance import played_levels
from sonify.sound.landscape import KINDS as BACKGROUND_KINDS
from sonify.sound.page import page_sounds
from sonify.storage import shelf
from sonify.storage.pack import building, check_place
from sonify.study.names import ties_si
from sonify.study.reading import Changes, ClassLike, SceneLike, catalogue, load, load_class, load_table, palette
from sonify.study.simulation import film_is_quick, is_quick, is_warm, particle_film, simulate

#: Told what is being done and how much of the whole is done, 0 to 1.
Progress = Callable[[str, float], None]
NOTHING_MORE = Wishes()
AS_USUAL = Printing()

if TYPE_CHECKING:
    from sonify.starting import Measurement, Start, measure, measured_text, measurement, new_scene, start
_OF_STARTING = ("Measurement", "Start", "measure", "measured_text", "measurement", "new_scene", "start")

__all__ = [
    "AUDIO",
    "Changes",
    "ClassLike",
    "Lesson",
    "Measurement",
    "Printing",
    "SceneLike",
    "Start",
    "Wishes",
    "catalogue",
    "check",
    "class_to_send",
    "compose",
    "film_is_quick",
    "is_quick",
    "load",
    "load_class",
    "load_table",
    "make",
    "measure",
    "measured_text",
    "measurement",
    "new_scene",
    "palette",
    "particle_film",
    "plan_of",
    "readings_beside",
    "simulate",
    "start",
    "study",
    "write_pack",
    "write_wav",
    "beside",
]


def __getattr__(name: str) -> Any:
    """What begins a scene from a process or a table is read where it is asked for."""
    if name in _OF_STARTING:
        from sonify import starting

        return getattr(starting, name)
    raise AttributeError(f"module 'sonify.lesson' has no attribute '{name}'")


# --- computing -------------------------------------------------------------------------------------------------------


def mapped(scene: Scene, timeline: Timeline) -> Controls:
    """The scene's rules at work on its science."""
    return map_scene(scene, timeline, process_of(scene))[0]


def compared(scene: Scene, timeline: Timeline | None = None) -> Comparison:
    """What the changes for this run did to the science. timeline: the scene's own, where it is there already."""
    return comparison(scene.changes, simulate(scene.as_written()), timeline or simulate(scene))


def study(
    scene: SceneLike,
    classroom: ClassLike = None,
    *,
    seed: int = 0,
    scaffold: str = "full",
    timeline: Timeline | None = None,
    before: Scene | None = None,
) -> Lesson:
    """One scene for one class: computed, mapped to sound, arranged and checked. Writes nothing.

    timeline: the scene's own, where it is there already. before: the scene as its author wrote it, where conditions or
    rules were changed in its text since. Raises SonifyError for a seed below 0.
    """
    check_seed(seed)
    scene, classroom = load(scene), load_class(classroom)
    process = process_of(scene)
    stages = [stage.name for stage in process.stages]
    timeline, untrue = true_timeline(timeline or simulate(scene))
    computed = Evidence(timeline=timeline, rules=scene.rules)
    scene = tied_to_science(scene, dict(timeline.conditions), ties_si(process, scene), stages, computed)
    scene, doubtful = fitted_to_conditions(scene, before or scene.as_written(), stages, computed)
    controls, heard = map_scene(scene, timeline, process, youngest=classroom.youngest_age)
    rows = catalogue().with_own(classroom.own)
    score, arranged = arrange(scene, timeline, controls, classroom, rows, seed=seed, scaffold=scaffold)
    played_by_all = scene
    scene = fitted_to_class(scene, score, arranged)
    scene = replaced(scene, rules=tuple(rule for rule in scene.rules if not scene.set_aside(rule)))
    # the key tells of what is played
    retold = scene.parts != played_by_all.parts or scene.rules != played_by_all.rules
    score, unplayed = true_score(score, timeline, played_by_all.rules)
    score = replaced(score, levels=played_levels(score))
    if scaffold == "full":  # else the piece is not all there, and nobody knows yet
        loose = tied_to_music(scene, stages, Evidence(timeline=timeline, score=score, rules=scene.rules))
        played_by_all, score = without(played_by_all, score, loose)
        scene, _ = without(scene, score, loose)
        retold = retold or bool(loose)
    controls, heard = _as_played(scene, timeline, process, classroom, score, None if retold else (controls, heard))
    evidence = Evidence(timeline=timeline, score=score, rules=played_by_all.rules)
    controls, unmapped = true_controls(controls, evidence)
    lacking = needed(process, dict(timeline.conditions), scene.cautions)
    false = false_claims(scene, stages, evidence, whole=scaffold == "full")
    scene = replaced(
        scene, remarks=(*scene.remarks, *not_so(played_by_all, false), *of_missing_stages(played_by_all, stages, score))
    )
    claimed = (*doubtful, *authored_findings(scene, false))
    return Lesson(
        scene=scene,
        process=process,
        timeline=timeline,
        controls=controls,
        classroom=classroom,
        score=score,
        findings=(
            *caution_findings(lacking),
            *untrue,
            *unplayed,
            *unmapped,
            *true_findings(
                (*_read_findings(scene), *claimed, *heard, *arranged, *playability(score, classroom)), evidence
            ),
        ),
        sources=sources_of(process),
        seed=seed,
        scaffold=scaffold,
    )


def _as_played(
    scene: Scene,
    timeline: Timeline,
    process: ProcessSpec,
    classroom: Classroom,
    score: Score,
    mapped: tuple[Controls, tuple[Finding, ...]] | None,
) -> tuple[Controls, tuple[Finding, ...]]:
    """The rules mapped once more, those of dynamics judged by how loud the recording plays.

    mapped: what was mapped before the piece was arranged, while it still holds: it does where no rule is judged so.
    """
    ruled = [part for part in score.group_parts if "dynamics" in part.ruled]
    if mapped is not None and not ruled:
        return mapped
    names = {scene.plan_name(part.name) for part in ruled}
    played = {name: played_db(score, [part for part in ruled if scene.plan_name(part.name) == name]) for name in names}
    youngest = classroom.youngest_age
    return map_scene(scene, timeline, process, youngest=youngest, played=played)


def check_seed(seed: int) -> None:
    if seed < 0:
        raise SonifyError(wrong("error_files-seed-give-whole", seed=seed))


def _read_findings(scene: Scene) -> tuple[Finding, ...]:
    """What was noticed in the class's readings, and what was changed for this run."""
    noticed = scene.table.findings if scene.table is not None else ()
    advised = advice(scene.experiment) if scene.experiment is not None else ()
    changes = (
        Finding(
            kind="science",
            message=fact(
                "science-set-for-this-run",
                condition=change.name,
                after=change.after.text,
                known="yes" if change.before else "no",
                before=change.before.text if change.before else "",
            ),
            fix="",
            where=change.name,
            serious=False,
        )
        for change in scene.changes
    )
    return (*noticed, *advised, *changes, *_drawn_findings(scene))


def _drawn_findings(scene: Scene) -> tuple[Finding, ...]:
    """What nobody measured or computed."""
    if not scene.drawn:
        return ()
    told = fact("drawn-these", quantities=tuple(each.name for each in scene.drawn))
    return (Finding(kind="science", message=told, fix="", where="drawn", serious=False),)


def compose(scene: SceneLike, classroom: ClassLike = None, seed: int = 0, *, scaffold: str = "full") -> Score:
    """The Score of a scene for a class: what is played, and by whom."""
    return study(scene, classroom, seed=seed, scaffold=scaffold).score


def sources_of(process: ProcessSpec) -> tuple[Source, ...]:
    """The published sources a process rests on, for the teacher's sheet."""
    return tuple(SOURCES[key] for key in process.sources)


def check(scene: SceneLike, classroom: ClassLike = None, *, seed: int = 0) -> tuple[Finding, ...]:
    """Every finding on science, audibility and playability, and on loudness as measured in the rendered mix."""
    lesson = study(scene, classroom, seed=seed)
    with rendered(lesson.score) as rendering:
        return (*lesson.findings, *loudness_findings(rendering))


def listened(
    scene: SceneLike, classroom: ClassLike = None, *, seed: int = 0
) -> tuple[tuple[Finding, ...], tuple[HeardRule, ...]]:
    """`check`, and what an outsider hears in the recording: its findings besides, and a row for each rule and part."""
    from sonify.hearing import Recording, heard_findings, recovered, told_of

    lesson = study(scene, classroom, seed=seed)
    told = told_of(lesson)
    with played(lesson.score) as sound:
        recording = Recording(sound.mix, sound.stems, sound.rate_hz)
        rows = recovered(told, recording)
        heard = heard_findings(told, rows, recording)
        return (*lesson.findings, *loudness_findings(sound.rendering), *heard), rows


# --- writing ---------------------------------------------------------------------------------------------------------


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
        building(folder, facts, replace=replace) as work,
        copies() as begun,
        recorded_beside(lesson.score, work, wishes, lambda share: tell("recording", 0.1 + 0.6 * share), begun) as sound,
    ):
        _write_texts(lesson, work, wishes)
        facts["print"] = _write_sheets(lesson, work, printing, lambda what: tell(what, 0.3), begun)
        sounds, measured = sound()
        tell("page", 0.9)
        (work / "page.html").write_bytes(page_text(lesson, sounds, plan).encode("utf-8"))
        facts["sound"] = measured
    tell("done", 1.0)
    return folder


def page_text(lesson: Lesson, sounds: PageSounds, plan: Mapping[str, Any] | None = None) -> str:
    """The classroom page of a lesson, with the particle box where a temperature plays a part in it."""
    film = particle_film(lesson) if is_warm(lesson) else ""
    return page_html(lesson, sounds, palette(), film, carried(plan_of(lesson) if plan is None else plan))


def served_page_text(lesson: Lesson, address: str) -> str:
    """The same page from a running server, which gives its sounds at `address`."""
    return served_page_html(lesson, palette(), particle_film(lesson) if is_warm(lesson) else "", address)


def pack_facts(lesson: Lesson, printing: Printing = AS_USUAL) -> dict[str, Any]:
    """What pack.json says of the inputs: enough to make the same pack again, and no path of the machine."""
    scene = lesson.scene
    return {
        "toolkit": f"sonify {__version__}",
        "scene": {"name": scene.name, "sha256": scene.origin.sha256},
        **({"data": {"name": scene.data, "sha256": scene.table.sha256}} if scene.table is not None else {}),
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


def _write_texts(lesson: Lesson, work: Path, wishes: Wishes) -> None:
    (work / "science.csv").write_text(science_csv(lesson.timeline), encoding="utf-8", newline="\n")
    (work / "score.json").write_text(score_json(lesson.score), encoding="utf-8", newline="\n")
    (work / "soundscape.mid").write_bytes(midi_bytes(lesson.score))
    (work / "midi").mkdir()
    for name, data in midi_files(lesson.score, count_in=wishes.midi_count_in, for_keyboard=wishes.for_keyboard).items():
        (work / name).write_bytes(data)


def _write_sheets(
    lesson: Lesson, work: Path, printing: Printing, tell: Callable[[str], None], begun: Copies | None
) -> list[dict[str, object]]:
    """The sheets, side by side where there are copies of this process, and what of them is to be printed."""
    tell("engraving")
    music = musicxml_bytes(lesson.score, note_names=printing.note_names)
    (work / "score.musicxml").write_bytes(music)
    tell("typesetting")
    listed: list[PrintRow] = []
    engraved = musicxml_bytes(free_as_boxes(lesson.score), note_names=printing.note_names)
    for name, data in sheets(lesson, engraved, sheet_settings(printing), listed.extend, _setting(begun)):
        (work / name).write_bytes(data)
    return [row.for_programs() for row in listed]


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


def play(score: Score, at: Callable[[float], None], ask: Callable[[], str] = lambda: "") -> Path | None:
    """Play the Score, telling `at` the seconds heard so far and asking `ask` for commands (see `player.Playing`).

    Where nothing can play, returns a WAV made instead.
    """
    from sonify.recording import player

    try:
        player.play(score, at, ask)
    except player.NoSoundDevice:
        return write_wav(score, _free_path(score.scene))
    return None


def sounds() -> tuple[tuple[Instrument, ...], tuple[str, ...]]:
    """Everything that can sound: the instruments of the catalogue, and the backgrounds."""
    return catalogue().instruments, tuple(BACKGROUND_KINDS)


def write_sounds(path: str | Path) -> Path:
    """A recording of every instrument and background in turn, with a marker where each begins."""
    from sonify.sound.showcase import showcase

    if Path(path).suffix.lower() != ".wav":
        raise SonifyError(wrong("error_files-recording-wav-file", path=path))
    return write_wav(showcase(*sounds()), path)


def _free_path(stem: str) -> Path:
    """`STEM.wav`, or the first of `STEM-2.wav` and so on that is not there yet."""
    path, number = Path(f"{stem}.wav"), 2
    while path.exists():
        path, number = Path(f"{stem}-{number}.wav"), number + 1
    return path


def scene_names() -> list[str]:
    """Names of the ready-made scenes."""
    return shelf.scene_names()


def process_names() -> list[str]:
    """Names of the processes that a scene can be of."""
    return sorted(PROCESSES)


def process_title(name: str) -> str:
    """What a process is called. Raises UnknownName."""
    return say(find(name).title)


def pdf_pages(path: Path) -> int:
    """How many pages a PDF of a pack has."""
    return page_count(path)


def pdf_page_png(path: Path, page: int) -> bytes:
    """A page of a PDF of a pack, counted from 1, as a picture. Raises IndexError where there is no such page."""
    return page_png(path, page)


def sounds_of(score: Score) -> PageSounds:
    """The Score's sounds for a page that is heard at once: as loud as the recording will be, as near as can be told."""
    return page_sounds(score)
