"""The commands, one function each. The help that a user reads is the messages `help-...`."""

from __future__ import annotations

import json
import os
from pathlib import Path
from typing import Annotated, Literal, Optional

import typer

from sonify.cli.help import ToldCommand, ToldGroup
from sonify.records.sheet import Paper

app = typer.Typer(
    name="sonify",
    cls=ToldGroup,
    help="help-sonify",
    no_args_is_help=True,
    add_completion=False,
    pretty_exceptions_enable=False,
    rich_markup_mode=None,
)

SceneArgument = Annotated[str, typer.Argument(metavar="SCENE", help="help-argument-scene")]
ClassOption = Annotated[
    Optional[Path],  # noqa: UP045 - typer reads this at run time
    typer.Option("--class", metavar="FILE", help="help-option-class"),
]
SeedOption = Annotated[int, typer.Option("--seed", metavar="N", help="help-option-seed")]
SetOption = Annotated[
    Optional[list[str]],  # noqa: UP045
    typer.Option("--set", metavar='NAME="VALUE"', help="help-option-set"),
]
JsonOption = Annotated[bool, typer.Option("--json", help="help-option-json")]
AllOption = Annotated[bool, typer.Option("--all", help="help-option-all")]
Scaffold = Literal["full", "part", "open"]


def _print_json(value: object) -> None:
    print(json.dumps(value, ensure_ascii=False, indent=1))


def _version(wanted: bool) -> None:
    if wanted:
        from sonify import __version__

        print(f"sonify {__version__}")
        raise typer.Exit


@app.callback(help="help-sonify")
def options(
    version: Annotated[
        bool, typer.Option("--version", callback=_version, is_eager=True, help="help-option-version")
    ] = False,
) -> None:
    """Turn a science process into a soundscape that your class can play."""


@app.command(cls=ToldCommand, help="help-command-scenes")
def scenes(as_json: JsonOption = False) -> None:
    """List the ready-made scenes."""
    from sonify import lesson
    from sonify.cli.views import scene_list

    rows = [lesson.load(name) for name in lesson.scene_names()]
    if as_json:
        _print_json([{"name": s.name, "title": s.title, "process": s.process, "ages": list(s.ages)} for s in rows])
    else:
        scene_list(rows)


@app.command(cls=ToldCommand, help="help-command-show")
def show(
    scene: SceneArgument,
    class_file: ClassOption = None,
    seed: SeedOption = 0,
    changes: SetOption = None,
    everything: AllOption = False,
    as_json: JsonOption = False,
) -> None:
    """Show the science, the key from science to sound, and the arrangement; with --set, what that changes."""
    from sonify import lesson
    from sonify.cli.views import comparison_view, lesson_view
    from sonify.data.exports import comparison_facts, lesson_facts

    studied = lesson.study(lesson.load(scene, changes or ()), class_file, seed=seed)
    found = lesson.compared(studied.scene, studied.timeline) if changes else None
    if as_json:
        _print_json({**lesson_facts(studied), **({"changed": comparison_facts(found)} if found else {})})
        return
    if found:
        comparison_view(found)
    lesson_view(studied, str(scene), everything=everything)


@app.command(cls=ToldCommand, help="help-command-check")
def check(
    scene: SceneArgument,
    class_file: ClassOption = None,
    seed: SeedOption = 0,
    changes: SetOption = None,
    heard: Annotated[bool, typer.Option("--heard", help="help-option-heard")] = False,
    everything: AllOption = False,
    as_json: JsonOption = False,
) -> None:
    """Check the science, what the ear can tell apart, what the class can play, and how loud it is."""
    from sonify import lesson
    from sonify.cli.views import drawn_view, findings_view, heard_view
    from sonify.data.exports import heard_rows, problem_rows

    loaded = lesson.load(scene, changes or ())
    if heard:
        findings, rows = lesson.listened(loaded, class_file, seed=seed)
    else:
        findings, rows = lesson.check(loaded, class_file, seed=seed), ()
    if as_json:
        serious = [f for f in findings if f.serious]
        told = {"problems": problem_rows(serious), "notes": problem_rows([f for f in findings if not f.serious])}
        _print_json({**told, **({"heard": heard_rows(rows)} if heard else {})})
    else:
        findings_view(findings, everything=everything)
        drawn_view(loaded)
        if heard:
            heard_view(heard_rows(rows))


@app.command(cls=ToldCommand, help="help-command-make")
def make(
    scenes: Annotated[
        Optional[list[str]],  # noqa: UP045
        typer.Argument(metavar="SCENE...", help="help-argument-scenes"),
    ] = None,
    class_file: ClassOption = None,
    classes: Annotated[
        Optional[Path],  # noqa: UP045
        typer.Option("--classes", metavar="FOLDER", help="help-option-classes"),
    ] = None,
    every: Annotated[bool, typer.Option("--all", help="help-option-all-scenes")] = False,
    scheduler: Annotated[
        Optional[str],  # noqa: UP045
        typer.Option("--scheduler", metavar="ADDRESS", help="help-option-scheduler"),
    ] = None,
    out: Annotated[
        Optional[Path],  # noqa: UP045
        typer.Option("--out", metavar="DIR", help="help-option-out"),
    ] = None,
    seed: SeedOption = 0,
    changes: SetOption = None,
    scaffold: Annotated[Scaffold, typer.Option("--scaffold", help="help-option-scaffold")] = "full",
    replace: Annotated[bool, typer.Option("--replace", help="help-option-replace")] = False,
    audio: Annotated[
        Optional[list[str]],  # noqa: UP045
        typer.Option("--audio", metavar="FORMAT", help="help-option-audio"),
    ] = None,
    without: Annotated[
        Optional[list[str]],  # noqa: UP045
        typer.Option(
            "--without",
            metavar="GROUP",
            help="help-option-without",
        ),
    ] = None,
    click: Annotated[bool, typer.Option("--click", help="help-option-click")] = False,
    no_stems: Annotated[bool, typer.Option("--no-stems", help="help-option-no-stems")] = False,
    for_keyboard: Annotated[bool, typer.Option("--for-keyboard", help="help-option-for-keyboard")] = False,
    no_count_in: Annotated[bool, typer.Option("--no-count-in", help="help-option-no-count-in")] = False,
    paper: Annotated[Paper, typer.Option("--paper", help="help-option-paper")] = "a4",
    large_print: Annotated[bool, typer.Option("--large-print", help="help-option-large-print")] = False,
    note_names: Annotated[bool, typer.Option("--note-names", help="help-option-note-names")] = False,
    also: Annotated[
        Optional[list[str]],  # noqa: UP045
        typer.Option("--also", metavar="SHEET", help="help-option-also"),
    ] = None,
) -> None:
    """Make the lesson pack: recording, MIDI, score, sheets and classroom page in one folder; or many at once."""
    from sonify import lesson
    from sonify.cli.many import check_asked, make_several
    from sonify.cli.views import pack_view, progress_bar
    from sonify.errors import SonifyError
    from sonify.records.fact import fact, wrong
    from sonify.say import say

    printing = lesson.Printing(
        paper=paper, large_print=large_print, note_names=note_names, also=tuple(dict.fromkeys(also or ()))
    )
    wishes = lesson.Wishes(
        audio=tuple(audio or ()),
        without=tuple(without or ()),
        click=click,
        stems=not no_stems,
        for_keyboard=for_keyboard,
        midi_count_in=not no_count_in,
    )
    lesson.check_seed(seed)
    check_asked(scenes or (), class_file, classes, every=every)
    if every or classes is not None or len(scenes or ()) > 1:
        options = {"seed": seed, "scaffold": scaffold, "wishes": wishes, "printing": printing}
        many = scenes or ()
        make_several(many, class_file, classes, out, changes or (), options, replace=replace, scheduler=scheduler)
        return
    if scheduler is not None:
        raise SonifyError(wrong("error_batch-scheduler-for-several"))
    scene = next(iter(scenes or ()))
    loaded = lesson.load(scene, changes or ())
    lesson.check_out(loaded, out, replace=replace)
    with progress_bar() as progress:
        progress(say(fact("progress-science")), 0.0)
        studied = lesson.study(loaded, class_file, seed=seed, scaffold=scaffold)
        plan = lesson.plan_of(studied, lesson.readings_beside(scene, loaded))
        folder = lesson.write_pack(
            studied, out=out, replace=replace, wishes=wishes, printing=printing, plan=plan, progress=progress
        )
    pack_view(folder, studied.problems, stems=not no_stems)


@app.command(cls=ToldCommand, help="help-command-redeal")
def redeal(
    pack: Annotated[Path, typer.Argument(metavar="PACK", help="help-argument-pack")],
    absent: Annotated[
        Optional[list[str]],  # noqa: UP045
        typer.Option("--absent", metavar="PUPILS", help="help-option-absent"),
    ] = None,
    broken: Annotated[
        Optional[list[str]],  # noqa: UP045
        typer.Option("--broken", metavar="INSTRUMENT", help="help-option-broken"),
    ] = None,
    class_file: Annotated[
        Optional[Path],  # noqa: UP045
        typer.Option("--class", metavar="FILE", help="help-option-class-of-pack"),
    ] = None,
    scene: Annotated[
        Optional[Path],  # noqa: UP045
        typer.Option("--scene", metavar="FILE", help="help-option-scene-of-pack"),
    ] = None,
    out: Annotated[
        Optional[Path],  # noqa: UP045
        typer.Option("--out", metavar="DIR", help="help-option-out-redeal"),
    ] = None,
) -> None:
    """Deal a pack's piece out again where pupils are absent or an instrument is broken: what to write on which card."""
    from sonify.lesson.morning import redeal as dealt

    for line in dealt(pack, absent or (), broken or (), scene=scene, classroom=class_file, out=out):
        print(line)


@app.command(cls=ToldCommand, help="help-command-listen")
def listen(
    pack: Annotated[Path, typer.Argument(metavar="PACK", help="help-argument-pack")],
    recording: Annotated[Path, typer.Argument(metavar="RECORDING", help="help-argument-recording")],
    out: Annotated[
        Optional[Path],  # noqa: UP045
        typer.Option("--out", metavar="FOLDER", help="help-option-out-listen"),
    ] = None,
    everything: AllOption = False,
    as_json: JsonOption = False,
) -> None:
    """Measure a recording of the class against a pack: tempo, loudness and entries, stage by stage."""
    # read when numpy is first loaded: its threads wait for each other at work, twice the processor's time for the same
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    from sonify.cli.listen_view import listened_view, wrote_view
    from sonify.cli.views import progress_bar
    from sonify.data.listened import listened_facts
    from sonify.lesson import class_recording

    if out is not None:
        class_recording.check_out(out)
    with progress_bar() as progress:
        found = class_recording.listen(pack, recording, progress)
    files = class_recording.write(found, pack, out) if out is not None and found.recognised else []
    if as_json:
        _print_json(listened_facts(found))
        return
    listened_view(found, everything=everything)
    if files and out is not None:
        wrote_view(files, out)


@app.command(cls=ToldCommand, help="help-command-play")
def play(scene: SceneArgument, class_file: ClassOption = None, seed: SeedOption = 0, changes: SetOption = None) -> None:
    """Play the piece, with the conductor's cues in the terminal.

    Keys: space pauses and goes on, n is the next stage, b the stage before, r this stage again, q stops.
    """
    from sonify import lesson
    from sonify.cli.keys import key_reader
    from sonify.cli.views import CueDisplay
    from sonify.records.fact import fact
    from sonify.say import say

    commands = {" ": "pause", "n": "next", "b": "before", "r": "again", "q": "stop"}
    studied = lesson.study(lesson.load(scene, changes or ()), class_file, seed=seed)
    with CueDisplay(studied.score) as display, key_reader() as pressed:
        wav = lesson.play(studied.score, display.at, lambda: commands.get(pressed().lower(), ""))
    if wav is not None:
        print(say(fact("cli-no-sound", wav=str(wav))))


@app.command(cls=ToldCommand, help="help-command-sounds")
def sounds(
    out: Annotated[
        Optional[Path],  # noqa: UP045
        typer.Option("--out", metavar="FILE.wav", help="help-option-out-2"),
    ] = None,
) -> None:
    """List every instrument and background; with --out, record them all in turn, to listen to."""
    from sonify import lesson
    from sonify.cli.views import progress_bar, sounds_view
    from sonify.records.fact import fact
    from sonify.say import say

    instruments, backgrounds = lesson.sounds()
    if out is None:
        sounds_view(instruments, backgrounds)
        return
    with progress_bar() as progress:
        progress(say(fact("progress-recording")), 0.1)
        lesson.write_sounds(out)
    counts = {"instruments": len(instruments), "backgrounds": len(backgrounds)}
    print(say(fact("cli-wrote-sounds", file=str(out), **counts)))


@app.command(cls=ToldCommand, help="help-command-new")
def new(
    name: Annotated[str, typer.Argument(metavar="NAME", help="help-argument-name")],
    process: Annotated[str, typer.Option("--process", metavar="PROCESS", help="help-option-process")] = "",
) -> None:
    """Write NAME.toml: a commented scene file of your own that already makes a pack, of any process."""
    from sonify import lesson
    from sonify.records.fact import fact
    from sonify.say import say

    path, *tables = lesson.new_scene(name, process)
    print(say(fact("cli-wrote-new", path=str(path))))
    for table in tables:
        print(say(fact("cli-wrote-table", table=str(table))))
    if not process:
        print(say(fact("cli-other-processes", processes=", ".join(lesson.process_names()))))


@app.command(cls=ToldCommand, help="help-command-measure")
def measure(
    file: Annotated[Path, typer.Argument(metavar="FILE", help="help-argument-file")],
    changed: Annotated[
        Optional[str],  # noqa: UP045
        typer.Option("--changed", metavar="COLUMN", help="help-option-changed"),
    ] = None,
    measured: Annotated[
        Optional[list[str]],  # noqa: UP045
        typer.Option("--measured", metavar="COLUMN", help="help-option-measured"),
    ] = None,
    repeats: Annotated[
        Optional[list[str]],  # noqa: UP045
        typer.Option("--repeats", metavar="COLUMN", help="help-option-repeats"),
    ] = None,
    groups: Annotated[
        Optional[list[str]],  # noqa: UP045
        typer.Option("--groups", metavar="COLUMN", help="help-option-groups"),
    ] = None,
    title: Annotated[
        Optional[str],  # noqa: UP045
        typer.Option("--title", metavar="TEXT", help="help-option-title"),
    ] = None,
    sheet: Annotated[
        Optional[str],  # noqa: UP045
        typer.Option("--sheet", metavar="NAME", help="help-option-sheet"),
    ] = None,
    model: Annotated[
        Optional[str],  # noqa: UP045
        typer.Option("--model", metavar="MODEL", help="help-option-model"),
    ] = None,
) -> None:
    """Make a scene of your own table: FILE.toml beside FILE, and say what was understood and what was guessed."""
    from sonify import lesson
    from sonify.cli.views import measured_view
    from sonify.records.experiment import Roles

    compared = None if groups is None else groups[0] if len(groups) == 1 else tuple(groups)
    said = Roles(
        changed=changed,
        measured=tuple(measured or ()),
        repeats=tuple(repeats or ()),
        groups=compared,
        title=title,
        sheet=sheet,
        model=model,
    )
    measured_view(*lesson.measure(file, said if said != Roles() else None))


@app.command(cls=ToldCommand, help="help-command-serve")
def serve(
    port: Annotated[int, typer.Option("--port", metavar="N", help="help-option-port")] = 8765,
    share: Annotated[bool, typer.Option("--share", help="help-option-share")] = False,
    no_browser: Annotated[bool, typer.Option("--no-browser", help="help-option-no-browser")] = False,
) -> None:
    """Open the classroom page in the browser: plan, hear, conduct and print. Ctrl-C stops it."""
    from sonify.web.serving import serve as serve_pages

    serve_pages(port, browser=not no_browser, share=share, say=lambda line: print(line, flush=True))
