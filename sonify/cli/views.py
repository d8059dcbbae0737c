"""What the commands print for people: plain tables that read well in any terminal."""

from __future__ import annotations

import sys
from collections.abc import Callable, Iterator, Mapping, Sequence
from contextlib import contextmanager
from fractions import Fraction
from pathlib import Path
from types import TracebackType
from typing import Any

from rich.console import Console
from rich.table import Table
from rich.text import Text

from sonify.cli.screen import styled
from sonify.facts.comparison import Comparison, Figure
from sonify.records.fact import fact
from sonify.records.findings import Finding
from sonify.records.instrument import Instrument
from sonify.records.lesson import Lesson
from sonify.records.safe_text import for_terminal
from sonify.records.scene import Scene
from sonify.records.score import Cue, Score
from sonify.records.words import clock_text, duration_text, measure_text, note_name, number_text, tempo_word
from sonify.say import say
from sonify.say.cues import told_words
from sonify.units import printed

#: A stage that begins earlier or later by less than this share of its length has not moved (our own choice).
SHIFTED = 0.02


def _console(*, stderr: bool = False) -> Console:
    return Console(file=styled(sys.stderr if stderr else sys.stdout), highlight=False, soft_wrap=False)


def _text(words: str, style: str = "") -> Text:
    """Words from anywhere: no square bracket in them is markup, and no letter is obeyed."""
    return Text(for_terminal(words), style=style)


def _table(*headings: str, title: str = "") -> Table:
    table = Table(title=title or None, title_justify="left", title_style="bold", box=None, pad_edge=False)
    for heading in headings:
        table.add_column(heading, header_style="bold", overflow="fold")
    return table


def _add(table: Table, *cells: str) -> None:
    table.add_row(*(_text(cell) for cell in cells))


def scene_list(scenes: Sequence[Scene]) -> None:
    """One line a scene, the name first; never wrapped, so that it can be piped."""
    width = max((len(scene.name) for scene in scenes), default=0)
    for scene in scenes:
        print(f"{scene.name:<{width}}  {scene.title} (ages {scene.ages[0]} to {scene.ages[1]}; {scene.process})")


def sounds_view(instruments: Sequence[Instrument], backgrounds: Sequence[str]) -> None:
    """Every instrument with the notes it has, then the backgrounds: numbered as the recording has them."""
    table = _table("", "instrument", "name in files", "family", "notes", title="Instruments")
    for number, row in enumerate(instruments, start=1):
        notes = f"{note_name(row.low)} to {note_name(row.high)}" if row.pitched else "-"
        _add(table, str(number), row.name, row.id, row.family, notes)
    console = _console()
    console.print(table)
    numbered = (f"{number} {kind}" for number, kind in enumerate(backgrounds, start=len(instruments) + 1))
    console.print(_text(f"Backgrounds: {', '.join(numbered)}"))


def lesson_view(lesson: Lesson) -> None:
    """The science, the key and the arrangement."""
    console = _console()
    scene, timeline, score = lesson.scene, lesson.timeline, lesson.score
    console.print(_text(scene.title, style="bold"))
    console.print(_text(scene.story))
    console.print()
    table = _table("quantity", "unit", "least", "most", "start", "end", title="The science")
    for quantity in timeline.quantities:
        values = quantity.in_unit()
        figures = (f"{v:.4g}" for v in (values.min(), values.max(), values[0], values[-1]))
        _add(table, quantity.name, printed(quantity.unit), *figures)
    console.print(table)
    for kept in timeline.conserved:
        console.print(_text(f"{kept.name}: constant to {kept.relative_drift:.1e} of what moved"))
    console.print()
    bars = {s.stage: s for s in lesson.controls.time_map.stages}
    table = _table("stage", "bars", "beats a minute", "what happens", title="The stages, as the model found them")
    for stage in timeline.stages:
        held = bars.get(stage.name)
        where = f"{held.bar} to {held.bar + held.bars - 1}" if held else "-"
        speed = f"{held.bpm:g} ({tempo_word(held.bpm)[1]})" if held else "-"
        _add(table, say(stage.title), where, speed, say(stage.science))
    console.print(table)
    for missing in timeline.missing:
        console.print(_text(f"No {missing.stage}: {say(missing.reason)}. {say(missing.fix)}"))
    console.print()
    console.print(_text("The key: what you hear, and why", style="bold"))
    for key in lesson.controls.keys:
        console.print(_text(f"- {say(key.sentence)} {key.rule.why}"))
        console.print(_text(f"  {say((key.exaggeration_words, key.verdict))}"))
    console.print()
    _arrangement(console, score)
    findings_view(lesson.findings, console=console)


def comparison_view(found: Comparison) -> None:
    """What changed against the scene as its file has it, before the science of this run."""
    console = _console()
    for change in found.changes:
        before = f" (the scene file has {change.before.text})" if change.before else ""
        console.print(_text(f"With {change.name} = {change.after.text}{before}:", style="bold"))
    table = _table("quantity", "", "unit", "as written", "now", "change")
    for figure in (each for each in found.figures if not each.same):
        numbers = (number_text(figure.before, 4), number_text(figure.after, 4))
        _add(table, figure.quantity, figure.what, printed(figure.unit), *numbers, _change_text(figure))
    if table.row_count:
        console.print(table)
    same = [figure for figure in found.figures if figure.same]
    if same:
        console.print(_text(f"{len(same)} of {len(found.figures)} figures stay the same within half a per cent."))
    for shift in found.stages:
        if shift.before is None or shift.after is None:
            console.print(_text(f"{say(shift.title)}: {'now comes' if shift.before is None else 'never comes now'}"))
        elif abs(later := shift.after[0] - shift.before[0]) > SHIFTED * (shift.before[1] - shift.before[0]):
            way = "later" if later > 0 else "earlier"
            console.print(_text(f"{say(shift.title)}: begins {duration_text(abs(later))} {way}"))
    console.print()


def _change_text(figure: Figure) -> str:
    if figure.percent is not None:
        return f"{figure.percent:+.0f} %".replace("-", "−")
    return measure_text(figure.after - figure.before, figure.unit, 2)


def _arrangement(console: Console, score: Score) -> None:
    table = _table("group", "part", "plays", "how", "pupils", "notes", title=f"The arrangement ({score.scale.name})")
    for part in score.group_parts:
        row = score.instrument(part.instrument)
        pitches = [note.midi for note in part.notes]
        span = f", {note_name(min(pitches))} to {note_name(max(pitches))}" if row.pitched and pitches else ""
        played = f"{len(part.notes)}{span}"
        _add(table, str(part.group), part.name, row.name.lower(), part.texture, str(part.players), played)
    console.print(table)
    length = clock_text(float(score.clock.seconds(score.end_beat)))
    console.print(
        _text(f"{score.bars} bars of {score.metre.text} after a {score.count_in_bars}-bar count-in, {length}")
    )


def findings_view(findings: Sequence[Finding], *, console: Console | None = None) -> None:
    """Problems first, then notes; a plain sentence where there is nothing to say."""
    console = console or _console()
    console.print()
    problems, notes = [f for f in findings if f.serious], [f for f in findings if not f.serious]
    if not problems:
        console.print(_text("No problems found."))
    for heading, listed in (("To mend", problems), ("Good to know", notes)):
        if listed:
            console.print(_text(heading, style="bold"))
        for finding in listed:
            place = ", ".join(word for word in (finding.part, say(finding.where)) if word)
            console.print(_text(f"- {place + ': ' if place else ''}{say((finding.message, finding.fix))}"))


def heard_view(rows: Sequence[Mapping[str, Any]], *, console: Console | None = None) -> None:
    """What an outsider reads back from the recording: how alike in order by stage and bar, and how far off."""
    console = console or _console()
    table = _table(
        "quantity", "as", "part", "from", "rank by stage", "by bar", "off by", title="What can be told from it"
    )
    for row in rows:
        ranks = ["-" if row[name] is None else f"{row[name]:.2f}" for name in ("rank_by_stage", "rank_by_bar")]
        off = "-" if row["error"] is None else f"{row['error']:.3g} {printed(row['unit'])}".rstrip()
        _add(table, row["quantity"], row["as"], row["part"] or "-", row["from"], *ranks, off)
    console.print(table)


def measured_view(path: Path, understood: Sequence[str], noticed: Sequence[Finding]) -> None:
    """What was understood of a file of readings, what was noticed in it, and what to do next."""
    console = _console()
    console.print(_text("Understood", style="bold"))
    for sentence in understood:
        console.print(_text(f"- {sentence}"))
    if noticed:
        console.print(_text("Noticed", style="bold"))
    for finding in noticed:
        place = f"{say(finding.where)}: " if finding.where else ""
        console.print(_text(f"- {place}{say((finding.message, finding.fix))}"))
    console.print(_text(f"Wrote {path}. Look at it with: sonify show {quoted(path)}"))
    console.print(_text(f"Then make the lesson pack: sonify make {quoted(path)}"))


def quoted(path: Path) -> str:
    """A path as it is typed: in quotation marks where it holds a space.

    >>> quoted(Path("pond week 3.toml"))
    '"pond week 3.toml"'
    """
    return f'"{path}"' if " " in str(path) else str(path)


def pack_view(folder: Path, problems: Sequence[Finding]) -> None:
    """Where the pack is, what to open first, and what should be mended before the lesson."""
    print(f"The lesson pack is in {folder}")
    print("  teacher.pdf     read this first: the lesson in minutes, the science, the key")
    print("  conductor.pdf   your map, cue sheet, graphic score and score")
    print("  pupils.pdf      flow chart, group cards, vocabulary, our sound and why")
    print("  poster.pdf      one page for the wall or the projector")
    print("  page.html       open it in a browser, in front of the projector: hear and conduct")
    print("  soundscape.wav  the recording; stems/ has one file a group")
    print(
        "  soundscape.mid, score.musicxml   for keyboards, sequencers and notation programs; midi/ has one file a group"
    )
    if problems:
        findings_view(problems)


@contextmanager
def progress_bar() -> Iterator[Callable[[str, float], None]]:
    """Progress on standard error: a bar in a terminal, nothing in a pipe."""
    console = _console(stderr=True)
    if not console.is_terminal:
        yield lambda doing, share: None
        return
    from rich.progress import BarColumn, Progress, TextColumn

    columns = (TextColumn("{task.description:<28}"), BarColumn(), TextColumn("{task.percentage:>3.0f} %"))
    with Progress(*columns, console=console, transient=True) as bar:
        task = bar.add_task("starting", total=1.0)
        yield lambda doing, share: bar.update(task, description=doing, completed=share)


class CueDisplay:
    """One line that follows the piece: bar, beat, tempo, stage, and who comes next in how many beats."""

    def __init__(self, score: Score) -> None:
        self.score, self.clock = score, score.clock
        self.shown = ""

    def __enter__(self) -> CueDisplay:
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, tb: TracebackType | None) -> None:
        if self.shown:
            print()

    def at(self, second: float) -> None:
        """Show the moment `second` seconds into the piece; prints only when the beat has changed."""
        line = self.line(self.clock.beat_at(second))
        if line != self.shown:
            out = styled(sys.stdout)
            out.write("\r" + for_terminal(line).ljust(len(self.shown)))
            out.flush()
            self.shown = line

    def line(self, beat: Fraction) -> str:
        bar, within = self.clock.bar_and_beat(beat)
        count = f"count-in {int(within)}" if bar < 1 else f"bar {bar} beat {int(within)}"
        bpm = [t.bpm for t in self.score.tempi if t.bar <= max(bar, 1)][-1]
        section = self.score.section_at(max(bar, 1))
        ahead = [c for c in self.score.cues if self._beat(c) > beat]
        words = [count, f"{bpm:g} a minute", say(section.title) if section else "the end"]
        if ahead:
            first = min(ahead, key=self._beat)
            words.append(say(fact("cue-in-beats", beats=-int((beat - self._beat(first)) // 1), told=told_words(first))))
        return "  |  ".join(words)[:118]

    def _beat(self, cue: Cue) -> Fraction:
        return self.clock.beat_of_bar(cue.bar) + cue.beat - 1
