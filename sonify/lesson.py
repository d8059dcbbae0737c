"""The whole pipeline: a scene file and a class file in, a lesson pack out.

Read it from top to bottom: `load` and `load_class` read the files, `study` computes, maps and arranges, `make` writes.
This is where files are opened and where names are checked against the registries; the rooms below only compute.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from dataclasses import replace as changed
from functools import cache as once
from pathlib import Path
from typing import Any

from sonify import __version__, cache, player, shelf
from sonify.arrange import arrange, playability
from sonify.errors import BadCondition, SonifyError
from sonify.inputs.catalogue_file import read_catalogue
from sonify.inputs.changes import read_changes, with_changes
from sonify.inputs.class_file import read_class
from sonify.inputs.logger import read_table
from sonify.inputs.measured_scene import measured_scene_text, understood
from sonify.inputs.scene_file import read_scene, text_of
from sonify.inputs.template import new_scene_text, valid_scene_name
from sonify.mapping import map_scene
from sonify.names import check_names, condition_fault, fault_at
from sonify.notation.midi import midi_bytes
from sonify.notation.midi_files import midi_files
from sonify.notation.musicxml import musicxml_bytes
from sonify.pack import building
from sonify.page import film_text, is_film, page_html, served_page_html
from sonify.paper import PaperSettings, Printing
from sonify.paper.preview import page_count, page_png
from sonify.processes import conditions_si, process_of
from sonify.processes.states_of_matter_film import film_key, film_params, filmed, usual_params
from sonify.recording import AUDIO, Wishes, check_wishes, loudness_findings, recorded_beside, rendered, write_wav
from sonify.records.classroom import Classroom
from sonify.records.comparison import Comparison, comparison
from sonify.records.controls import Controls
from sonify.records.exports import science_csv, score_json
from sonify.records.findings import Finding
from sonify.records.instrument import Catalogue, Instrument
from sonify.records.lesson import Lesson, Source
from sonify.records.palette import GroupStyle, read_palette
from sonify.records.process import ProcessSpec
from sonify.records.scene import Scene
from sonify.records.score import Score
from sonify.records.sounds import PageSounds
from sonify.records.table import Table
from sonify.records.timeline import Timeline
from sonify.science.sources import SOURCES
from sonify.sheets import sheets
from sonify.sound.landscape import KINDS as BACKGROUND_KINDS
from sonify.sound.page import page_sounds
from sonify.sound.showcase import showcase
from sonify.units import UnitError

#: Told what is being done and how much of the whole is done, 0 to 1.
Progress = Callable[[str, float], None]
SceneLike = Scene | str | Path
ClassLike = Classroom | str | Path | None
Changes = Mapping[str, str | int] | Iterable[str]
NOTHING_MORE = Wishes()
AS_USUAL = Printing()

__all__ = [
    "AUDIO",
    "Lesson",
    "Printing",
    "Wishes",
    "check",
    "compose",
    "load",
    "load_class",
    "make",
    "simulate",
    "study",
    "write_pack",
    "write_wav",
]


# --- reading ---------------------------------------------------------------------------------------------------------


@once
def catalogue() -> Catalogue:
    """The shipped instrument catalogue."""
    return read_catalogue(shelf.shared_text("instruments.toml"), file="shared/instruments.toml")


@once
def palette() -> tuple[GroupStyle, ...]:
    """The shipped group colours and hatchings."""
    return read_palette(shelf.shared_text("palette.toml"))


def load(name_or_path: SceneLike, changes: Changes = ()) -> Scene:
    """A scene by name (`sonify.cli scenes` lists them) or from a file, with every name in it checked.

    changes: conditions to set anew for this run: {"sea_temperature": "19 degC"}, or ["sea_temperature=19 degC"].

    Raises UnknownName, BadFile naming file, line and key, or BadChange.
    """
    if isinstance(name_or_path, Scene):
        if not changes:
            return name_or_path
        scene = name_or_path
    else:
        path = shelf.scene_path(name_or_path)
        text = text_of(shelf.bytes_of(path, what="scene"), file=str(name_or_path))
        scene = _with_table(read_scene(text, file=str(name_or_path), name=path.stem), path)
    scene = with_changes(scene, changes if isinstance(changes, Mapping) else read_changes(changes))
    check_names(scene, catalogue())
    return scene


def _with_table(scene: Scene, path: Path) -> Scene:
    """The scene with the readings of the file that it names, which lies beside it."""
    if not scene.data:
        return scene
    table = load_table(path.with_name(scene.data))
    return changed(scene, table=table)


def load_table(path: str | Path) -> Table:
    """A logger's CSV or a table of results. Raises BadFile where nothing can be made of it."""
    path = Path(path)
    data = shelf.bytes_of(path, what="data", most=shelf.LARGEST_DATA_BYTES)
    return read_table(data, file=path.name)


def load_class(given: ClassLike = None) -> Classroom:
    """A class from a file, or the well-stocked one of the examples. Raises BadFile naming file, line and key."""
    if isinstance(given, Classroom):
        return given
    path = shelf.default_class_path() if given is None else Path(given)
    file = path.name if given is None else str(given)
    return read_class(
        text_of(shelf.bytes_of(path, what="class"), file=file), file=file, name=path.stem, catalogue=catalogue()
    )


# --- computing -------------------------------------------------------------------------------------------------------


def simulate(scene: SceneLike) -> Timeline:
    """The scene's process, computed: named quantities over model time, and the stages found in them."""
    scene = load(scene)
    process = process_of(scene)
    try:
        return _run(process, conditions_si(process, scene.conditions))
    except BadCondition as error:
        raise condition_fault(scene, error) from error
    except UnitError as error:
        raise fault_at(scene, "conditions", str(error)) from error


def _run(process: ProcessSpec, conditions: Mapping[str, float]) -> Timeline:
    """The process's Timeline; what is slow in it is kept between runs. Broken bytes are computed anew."""
    slow = process.slow
    if slow is None:
        return process.run(conditions)
    key = f"{process.name} {slow.key(conditions)}"
    try:
        return slow.finish(conditions, cache.remembered(key, lambda: slow.compute(conditions)))
    except ValueError:
        return slow.finish(conditions, cache.remembered(key, lambda: slow.compute(conditions), fresh=True))


def is_quick(scene: Scene) -> bool:
    """Whether `simulate` answers at once: nothing slow is in the scene's process, or an earlier run kept it."""
    process = process_of(scene)
    if process.slow is None:
        return True
    return cache.holds(f"{process.name} {process.slow.key(conditions_si(process, scene.conditions))}")


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
) -> Lesson:
    """One scene for one class: computed, mapped to sound, arranged and checked. Writes nothing.

    timeline: the scene's own, where it is there already.
    """
    scene, classroom = load(scene), load_class(classroom)
    process = process_of(scene)
    timeline = timeline or simulate(scene)
    controls, heard = map_scene(scene, timeline, process)
    score, arranged = arrange(scene, timeline, controls, classroom, catalogue(), seed=seed, scaffold=scaffold)
    return Lesson(
        scene=scene,
        process=process,
        timeline=timeline,
        controls=controls,
        classroom=classroom,
        score=score,
        findings=(*_read_findings(scene), *heard, *arranged, *playability(score, classroom)),
        sources=sources_of(process),
        seed=seed,
        scaffold=scaffold,
    )


def _read_findings(scene: Scene) -> tuple[Finding, ...]:
    """What was noticed in the class's readings, and what was changed for this run."""
    noticed = scene.table.findings if scene.table is not None else ()
    changes = (
        Finding(
            kind="science",
            message=f"For this run {change.name} is {change.after.text}, in place of "
            f"{change.before.text if change.before else 'the usual value'}. Story, captions and answers were written "
            "for the scene as its file has it.",
            fix="",
            where=change.name,
            serious=False,
        )
        for change in scene.changes
    )
    return (*noticed, *changes)


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
    lesson = study(scene, classroom, seed=seed, scaffold=scaffold)
    return write_pack(lesson, out=out, replace=replace, wishes=wishes, printing=printing, progress=progress)


def write_pack(
    lesson: Lesson,
    *,
    out: str | Path | None = None,
    replace: bool = False,
    wishes: Wishes = NOTHING_MORE,
    printing: Printing = AS_USUAL,
    progress: Progress | None = None,
) -> Path:
    """The pack of a lesson that has been studied: `make` without its first half."""
    check_wishes(lesson.score, wishes)
    tell = progress or (lambda doing, share: None)
    folder = Path(out) if out is not None else Path(lesson.scene.name)
    facts = pack_facts(lesson, printing)
    with (
        building(folder, facts, replace=replace) as work,
        recorded_beside(lesson.score, work, wishes, lambda share: tell("recording", 0.1 + 0.6 * share)) as sound,
    ):
        _write_texts(lesson, work, wishes)
        _write_sheets(lesson, work, printing, lambda what: tell(what, 0.3))
        sounds, measured = sound.result()
        tell("drawing the page", 0.9)
        (work / "page.html").write_bytes(page_text(lesson, sounds).encode("utf-8"))
        facts["sound"] = measured
    tell("done", 1.0)
    return folder


def page_text(lesson: Lesson, sounds: PageSounds) -> str:
    """The classroom page of a lesson, with the particle box where a temperature plays a part in it."""
    return page_html(lesson, sounds, palette(), particle_film(lesson) if is_warm(lesson) else "")


def served_page_text(lesson: Lesson, address: str) -> str:
    """The same page from a running server, which gives its sounds at `address`."""
    return served_page_html(lesson, palette(), particle_film(lesson) if is_warm(lesson) else "", address)


def is_warm(lesson: Lesson) -> bool:
    """Whether a temperature plays a part in the lesson, so that its page has the particle box."""
    return any(quantity.si_unit == "K" for quantity in lesson.process.quantities)


def film_is_quick(lesson: Lesson) -> bool:
    """Whether the lesson's page is drawn at once: it has no particle box of its own, or an earlier run kept it."""
    params = film_params(lesson.process.name, conditions_si(lesson.process, lesson.scene.conditions))
    return not is_warm(lesson) or params == usual_params() or cache.holds(film_key(params))


def particle_film(lesson: Lesson) -> str:
    """The particle box for the page: the lesson's own where it is about one, else the usual one, which is shipped."""
    conditions = conditions_si(lesson.process, lesson.scene.conditions)
    params = film_params(lesson.process.name, conditions)
    if params == usual_params():
        return shelf.shared_text("particle-box.json")

    def kept(fresh: bool) -> str:
        data = cache.remembered(film_key(params), lambda: film_text(filmed(params)).encode(), fresh=fresh)
        return data.decode("utf-8", "replace")

    text = kept(fresh=False)
    return text if is_film(text) else kept(fresh=True)  # a cut file is no film


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
    }


def _write_texts(lesson: Lesson, work: Path, wishes: Wishes) -> None:
    (work / "science.csv").write_text(science_csv(lesson.timeline), encoding="utf-8", newline="\n")
    (work / "score.json").write_text(score_json(lesson.score), encoding="utf-8", newline="\n")
    (work / "soundscape.mid").write_bytes(midi_bytes(lesson.score))
    (work / "midi").mkdir()
    for name, data in midi_files(lesson.score, count_in=wishes.midi_count_in, for_keyboard=wishes.for_keyboard).items():
        (work / name).write_bytes(data)


def _write_sheets(lesson: Lesson, work: Path, printing: Printing, tell: Callable[[str], None]) -> None:
    tell("engraving the score")
    music = musicxml_bytes(lesson.score, note_names=printing.note_names)
    (work / "score.musicxml").write_bytes(music)
    tell("typesetting the sheets")
    for name, data in sheets(lesson, music, sheet_settings(printing)):
        (work / name).write_bytes(data)


def sheet_settings(printing: Printing = AS_USUAL) -> PaperSettings:
    """What the paper room needs to know: the fonts and group looks that are shipped, and what was asked for."""
    return PaperSettings(
        fonts_dir=str(shelf.fonts_folder()),
        palette=palette(),
        paper=printing.paper,
        large_print=printing.large_print,
    )


def new_scene(name: str) -> Path:
    """A commented scene file NAME.toml in the current folder that already makes a pack. Never overwrites."""
    name = valid_scene_name(name)
    path = Path(f"{name}.toml")
    _write_new(path, new_scene_text(name))
    return path


def _write_new(path: Path, text: str) -> None:
    """Write a text where nothing is yet."""
    try:
        with path.open("x", encoding="utf-8", newline="\n") as file:
            file.write(text)
    except FileExistsError:
        raise SonifyError(f"{path} is there already, and nothing was written; choose another name") from None
    except OSError as error:
        raise SonifyError(f"{path} cannot be written: {error.strerror or error}") from error


def measure(path: str | Path) -> tuple[Path, list[str], tuple[Finding, ...]]:
    """A scene file FILE.toml beside a file of readings: its path, what was understood of them, and what was noticed.

    Never overwrites. Raises BadFile where nothing can be made of the readings.
    """
    table = load_table(path)
    target = Path(path).with_suffix(".toml")
    _write_new(target, measured_text(table, target.stem))
    return target, understood(table), table.findings


def measured_text(table: Table, stem: str) -> str:
    """The text of a scene that plays these readings. Raises BadFile where they cannot be played."""
    text = measured_scene_text(table, stem)
    scene = changed(read_scene(text, file=f"{stem}.toml", name=stem), table=table)
    check_names(scene, catalogue())
    controls, _ = map_scene(scene, simulate(scene), process_of(scene))
    if any(key.rule.control == "tempo" and not key.audible for key in controls.keys):
        return measured_scene_text(table, stem, gliding=True)
    return text


def play(score: Score, at: Callable[[float], None], ask: Callable[[], str] = lambda: "") -> Path | None:
    """Play the Score, telling `at` the seconds heard so far and asking `ask` for commands (see `player.Playing`).

    Where nothing can play, returns a WAV made instead.
    """
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
    if Path(path).suffix.lower() != ".wav":
        raise SonifyError(f"{path}: the recording is a WAV file; give it a name that ends in .wav")
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


def pdf_pages(path: Path) -> int:
    """How many pages a PDF of a pack has."""
    return page_count(path)


def pdf_page_png(path: Path, page: int) -> bytes:
    """A page of a PDF of a pack, counted from 1, as a picture. Raises IndexError where there is no such page."""
    return page_png(path, page)


def sounds_of(score: Score) -> PageSounds:
    """The Score's sounds for a page that is heard at once: as loud as the recording will be, as near as can be told."""
    return page_sounds(score)
