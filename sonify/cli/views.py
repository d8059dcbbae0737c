"""What the commands print for people: a screen of what needs doing first, the rest with --all.

Every table reads well in any terminal; nothing from a file is obeyed there (`screen.py`).
"""

from __future__ import annotations

import shlex
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
from sonify.data.changed import SHIFTED
from sonify.data.sliders import short_ends
from sonify.facts.comparison import Comparison, Figure
from sonify.facts.sounding import soundings
from sonify.kinds.packfiles import FOR_PEOPLE
from sonify.records.fact import Amount, Duration, Elapsed, Fact, Named, Note, Words, fact
from sonify.records.findings import Finding
from sonify.records.instrument import Instrument
from sonify.records.lesson import Lesson
from sonify.records.safe_text import for_terminal
from sonify.records.scene import Scene
from sonify.records.score import Cue, Score
from sonify.say import say
from sonify.say.cues import told_words
from sonify.say.parts import tempo_words
from sonify.units import printed

#: A screen: what is told without --all fits into so many lines, or says how many more there are.
SCREEN_LINES = 24


def _console(*, stderr: bool = False) -> Console:
    return Console(file=styled(sys.stderr if stderr else sys.stdout), highlight=False, soft_wrap=False)


def _text(words: Words, style: str = "") -> Text:
    """Words from anywhere: no square bracket in them is markup, and no letter is obeyed."""
    return Text(for_terminal(say(words)), style=style)


def _said(message: str) -> str:
    """A message of the command line that has no places."""
    return say(fact(f"cli-{message}"))


def _table(*headings: str, title: str = "") -> Table:
    """headings and title: messages."""
    told = _said(title) if title else None
    table = Table(title=told, title_justify="left", title_style="bold", box=None, pad_edge=False)
    for heading in headings:
        name = _said(heading) if heading else ""
        table.add_column(name, header_style="bold", overflow="fold")
    return table


def _add(table: Table, *cells: Words) -> None:
    table.add_row(*(_text(cell) for cell in cells))


def _figure(value: float, unit: str = "1", digits: int = 4) -> str:
    return say(fact("value-alone", value=Amount(value=value, unit=unit, digits=digits)))


def scene_list(scenes: Sequence[Scene]) -> None:
    """One line a scene, the name first; never wrapped, so that it can be piped."""
    width = max((len(scene.name) for scene in scenes), default=0)
    for scene in scenes:
        line = fact(
            "cli-scene-line",
            name=f"{scene.name:<{width}}",
            title=scene.title,
            youngest=scene.ages[0],
            oldest=scene.ages[1],
            process=scene.process,
        )
        print(say(line))


def sounds_view(instruments: Sequence[Instrument], backgrounds: Sequence[str]) -> None:
    """Every instrument with the notes it has, then the backgrounds: numbered as the recording has them."""
    table = _table("", "instrument", "name-in-files", "family", "notes", title="instruments")
    for number, row in enumerate(instruments, start=1):
        notes = fact("cli-span", low=Note(row.low), high=Note(row.high)) if row.pitched else fact("cli-none")
        _add(table, str(number), row.name, row.id, row.family, notes)
    console = _console()
    console.print(table)
    first = len(instruments) + 1
    kinds = (fact("cli-numbered", number=str(n), kind=kind) for n, kind in enumerate(backgrounds, start=first))
    console.print(_text(fact("cli-backgrounds", kinds=", ".join(map(say, kinds)))))


# --- show ------------------------------------------------------------------------------------------------------------


def lesson_view(lesson: Lesson, typed: str, *, everything: bool = False) -> None:
    """The stages, the key and what is to be mended on one screen; with `everything` the science and the arrangement.

    typed: the scene as it stood on the command line, so that what to type next can be copied.
    """
    console, scene = _console(), shlex.quote(typed)
    console.print(_text(lesson.scene.title, style="bold"))
    if everything:
        if lesson.scene.story:
            console.print(_text(lesson.scene.story))
        _science(console, lesson)
    else:
        console.print(_text(_length(lesson.score)))
    if not everything:
        problems = len(lesson.problems)
        told = fact("cli-things-to-mend", n=problems, scene=scene) if problems else fact("cli-no-problems")
        last = [_missing(each.stage, each.reason, each.fix) for each in lesson.timeline.missing]
        last += [_text(told), _text(fact("cli-show-all", scene=scene))]
        stages = _stages_in_short(lesson)
        console.print(stages)
        _key_in_short(
            console, lesson, SCREEN_LINES - 3 - sum(len(console.render_lines(text)) for text in (stages, *last))
        )
        drawn_view(lesson.scene)
        for text in last:
            console.print(text)
        return
    console.print()
    _stages(console, lesson)
    console.print()
    console.print(_text(fact("cli-key"), style="bold"))
    _sounds(console, lesson)
    for key in lesson.controls.keys:
        console.print(_text(fact("cli-line", words=say((key.sentence, key.rule.why)))))
        console.print(_text(f"  {say((key.exaggeration_words, key.verdict))}"))
    console.print()
    _arrangement(console, lesson.score)
    findings_view(lesson.findings, everything=True)


def drawn_view(scene: Scene) -> None:
    """What of a scene nobody computed or measured, in one line."""
    if scene.drawn:
        _console().print(_text(fact("drawn-these", quantities=tuple(each.name for each in scene.drawn))))


def _stages_in_short(lesson: Lesson) -> Text:
    """The stages in one sentence, each with its beat."""
    score = lesson.score
    rows = (
        fact("cli-stage-in-short", letter=each.letter, title=say(each.title), bpm=f"{score.bpm_at(each.bar):g}")
        for each in score.sections
    )
    return _text(fact("cli-stages-in-short", stages=tuple(rows)))


def _key_in_short(console: Console, lesson: Lesson, lines: int) -> None:
    """Each rule, whole where `lines` more allow it, with its reason under it, cut where the screen ends."""
    console.print(_text(fact("cli-key"), style="bold"))
    _sounds(console, lesson)
    lines -= 2 * len(lesson.controls.keys)
    for key in lesson.controls.keys:
        rule = key.rule
        told = fact(
            "cli-rule",
            quantity=Named("quantity", rule.quantity),
            control=Named("control", rule.control),
            whom="part" if rule.part else "all",
            part=rule.part or "",
            **short_ends(rule),
        )
        more = len(console.render_lines(_text(told))) - 1
        cut = more > lines
        lines -= 0 if cut else more
        console.print(_text(told), overflow="ellipsis" if cut else None, no_wrap=cut)
        console.print(_text(f"  {rule.why}"), overflow="ellipsis", no_wrap=True)


def _sounds(console: Console, lesson: Lesson) -> None:
    """How each stage is meant to sound, where its author says so and nothing is measured."""
    rows = soundings(lesson.scene, lesson.score)
    for each in rows:
        if each.words:
            console.print(_text(fact("order-told", stage=each.title, sounds=each.told, why=each.why)))
    if rows:
        console.print(_text(fact("order-no-scale")))


def _missing(stage: str, reason: Words, fix: Words) -> Text:
    return _text(fact("cli-missing", stage=stage, reason=say(reason), fix=say(fix)))


def _length(score: Score) -> Words:
    return fact(
        "cli-length",
        bars=score.bars,
        metre=score.metre.text,
        count_in=score.count_in_bars,
        length=Elapsed(float(score.clock.seconds(score.end_beat))),
    )


def _science(console: Console, lesson: Lesson) -> None:
    timeline = lesson.timeline
    if not timeline.quantities:
        return
    console.print()
    table = _table("quantity", "unit", "least", "most", "start", "end", title="science")
    for quantity in timeline.quantities:
        values = quantity.in_unit()
        figures = (f"{v:.4g}" for v in (values.min(), values.max(), values[0], values[-1]))
        named = fact("cli-name", name=Named("quantity", quantity.name))
        _add(table, fact("drawn-beside", quantity=named) if quantity.drawn else named, printed(quantity.unit), *figures)
    console.print(table)
    for kept in timeline.conserved:
        console.print(_text(fact("cli-conserved", name=kept.name, drift=f"{kept.relative_drift:.1e}")))


def _stages(console: Console, lesson: Lesson) -> None:
    bars = {s.stage: s for s in lesson.controls.time_map.stages}
    table = _table(
        "stage", "bars", "beats", "what-happens", title="stages-own" if lesson.scene.own_stages else "stages-told"
    )
    for stage in lesson.timeline.stages:
        held = bars.get(stage.name)
        where: Words = fact("cli-none")
        speed: Words = fact("cli-none")
        if held:
            where = fact("cli-span", low=str(held.bar), high=str(held.bar + held.bars - 1))
            speed = fact("cli-tempo", bpm=f"{held.bpm:g}", words=tempo_words(held.bpm))
        _add(table, stage.title, where, speed, stage.science)
    console.print(table)
    for missing in lesson.timeline.missing:
        console.print(_missing(missing.stage, missing.reason, missing.fix))


def _arrangement(console: Console, score: Score) -> None:
    table = _table("group", "part", "plays", "how", "pupils", "notes")
    table.title = say(fact("cli-arrangement", scale=score.scale.name))
    for part in score.group_parts:
        row = score.instrument(part.instrument)
        pitches = [note.midi for note in part.notes]
        played: Words = str(len(part.notes))
        if row.pitched and pitches:
            played = fact("cli-played", notes=played, low=Note(min(pitches)), high=Note(max(pitches)))
        _add(table, str(part.group), part.name, row.called, part.texture, str(part.players), played)
    console.print(table)
    console.print(_text(_length(score)))


# --- what a change did -----------------------------------------------------------------------------------------------


def comparison_view(found: Comparison) -> None:
    """What changed against the scene as its file has it, before the science of this run."""
    console = _console()
    for change in found.changes:
        named = {"condition": change.name, "after": change.after.text}
        told = fact("cli-with", **named, before=change.before.text) if change.before else fact("cli-with-new", **named)
        console.print(_text(told, style="bold"))
    table = _table("quantity", "", "unit", "as-written", "now", "change")
    for figure in (each for each in found.figures if not each.same):
        name = fact("cli-name", name=Named("quantity", figure.quantity))
        numbers = (_figure(figure.before), _figure(figure.after))
        _add(table, name, fact(f"changed-{figure.what}"), printed(figure.unit), *numbers, _change_text(figure))
    if table.row_count:
        console.print(table)
    same = [figure for figure in found.figures if figure.same]
    if same:
        console.print(_text(fact("cli-same", same=len(same), all=len(found.figures))))
    for shift in found.stages:
        title = say(shift.title)
        if shift.before is None or shift.after is None:
            comes = "cli-now-comes" if shift.before is None else "cli-never-comes-now"
            console.print(_text(fact(comes, stage=title)))
        elif abs(later := shift.after[0] - shift.before[0]) > SHIFTED * (shift.before[1] - shift.before[0]):
            way = "cli-begins-later" if later > 0 else "cli-begins-earlier"
            console.print(_text(fact(way, stage=title, shift=Duration(seconds=abs(later)))))
    console.print()


def _change_text(figure: Figure) -> str:
    if figure.percent is not None:
        return f"{figure.percent:+.0f} %".replace("-", "−")
    return _figure(figure.after - figure.before, figure.unit, 2)


# --- what was found --------------------------------------------------------------------------------------------------


def findings_view(findings: Sequence[Finding], *, everything: bool = False) -> None:
    """Problems first, then what she may wish to change, each with its fix; what asks for nothing with `everything`."""
    console = _console()
    console.print()
    problems = [f for f in findings if f.serious]
    wishes = [f for f in findings if not f.serious and f.fix]
    asks_nothing = [f for f in findings if not f.serious and not f.fix]
    lines: list[Text] = []
    if not problems:
        lines.append(_text(fact("cli-no-problems")))
    kinds = [("to-mend", problems), ("if-you-wish", wishes), *([("good-to-know", asks_nothing)] if everything else [])]
    for heading, listed in kinds:
        if listed:
            lines.append(_text(fact(f"cli-{heading}"), style="bold"))
        lines += map(_finding, listed)
    for line in lines if everything else _on_a_screen(console, lines):
        console.print(line)


def heard_view(rows: Sequence[Mapping[str, Any]]) -> None:
    """What an outsider reads back from the recording: how alike in order by stage and by bar, how far off."""
    if not rows:
        _console().print(_text(fact("heard-no-key")))
        return
    table = _table("quantity", "as", "part", "from", "rank-by-stage", "by-bar", "off-by", title="told-from-it")
    for row in rows:
        ranks = ["-" if row[name] is None else f"{row[name]:.2f}" for name in ("rank_by_stage", "rank_by_bar")]
        off = "-" if row["error"] is None else f"{row['error']:.3g} {printed(row['unit'])}".rstrip()
        _add(table, row["quantity"], row["as"], row["part"] or "-", row["from"], *ranks, off)
    _console().print(table)


def _finding(finding: Finding) -> Text:
    place = ", ".join(word for word in (finding.part, say(finding.where)) if word)
    words = say((finding.message, finding.fix))
    if finding.change:
        settings = " ".join(f"--set {one}" for one in finding.change.settings)
        words = say((words, fact("cli-try-change", settings=settings)))
    return _text(fact("cli-finding", place=place, words=words) if place else fact("cli-finding-bare", words=words))


def _on_a_screen(console: Console, lines: Sequence[Text]) -> Iterator[Text]:
    """As many lines as a screen takes, and how many findings more there are."""
    room = SCREEN_LINES - 2
    for place, line in enumerate(lines):
        room -= len(line.wrap(console, console.width))
        if room < 0:
            left = sum(1 for other in lines[place:] if not other.style)
            yield _text(fact("cli-more-findings", n=left))
            return
        yield line


def measured_view(path: Path, understood: Sequence[Words], noticed: Sequence[Finding]) -> None:
    """What was understood of a file of readings, what was noticed in it, and what to do next."""
    console = _console()
    console.print(_text(fact("cli-understood"), style="bold"))
    for told in understood:
        console.print(_text(fact("cli-line", words=say(told))))
    if noticed:
        console.print(_text(fact("cli-noticed"), style="bold"))
    for finding in noticed:
        console.print(_finding(finding))
    console.print(_text(fact("cli-wrote-scene", path=quoted(path))))
    if any(isinstance(finding.fix, Fact) and finding.fix.message == "table-settled" for finding in noticed):
        console.print(_text(fact("cli-measure-again", path=quoted(path))))
    console.print(_text(fact("cli-then-make", path=quoted(path))))


def quoted(path: Path) -> str:
    """A path as it is typed: in quotation marks where it holds a space.

    >>> quoted(Path("pond week 3.toml"))
    '"pond week 3.toml"'
    """
    return f'"{path}"' if " " in str(path) else str(path)


def pack_view(folder: Path, problems: Sequence[Finding], *, stems: bool = True) -> None:
    """Where the pack is, what to open first, and what should be mended before the lesson."""
    print(say(fact("cli-pack-is-in", folder=str(folder))))
    width = max(map(len, FOR_PEOPLE))
    for file in FOR_PEOPLE:
        what = fact(f"packfile-{file.replace('.', '-')}", stems="yes" if stems else "no")
        print(say(fact("cli-pack-file", file=f"{file:<{width}}", what=what)))
    if problems:
        findings_view(problems)


# --- while it works --------------------------------------------------------------------------------------------------


@contextmanager
def progress_bar() -> Iterator[Callable[[str, float], None]]:
    """Progress on standard error: a bar in a terminal, nothing in a pipe."""
    console = _console(stderr=True)
    if not console.is_terminal:
        yield lambda doing, share: None
        return
    from rich.progress import BarColumn, Progress, TextColumn

    columns = (TextColumn("{task.description:<28}"), BarColumn(), TextColumn("{task.percentage:>3.0f} %"))
    # Drawn when there is news: a thread that draws all the time would keep this process from copying itself.
    with Progress(*columns, console=console, transient=True, auto_refresh=False) as bar:
        task = bar.add_task(_said("starting"), total=1.0)
        yield lambda doing, share: bar.update(task, description=doing, completed=share, refresh=True)


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
        inside = fact("cli-bar-beat", bar=str(bar), beat=str(int(within)))
        count = fact("cli-count-in", beat=str(int(within))) if bar < 1 else inside
        tempo = fact("cli-a-minute", bpm=f"{self.score.bpm_at(bar):g}")
        section = self.score.section_at(max(bar, 1))
        ahead = [c for c in self.score.cues if self._beat(c) > beat]
        words = [say(count), say(tempo), say(section.title) if section else _said("the-end")]
        if ahead:
            first = min(ahead, key=self._beat)
            words.append(say(fact("cue-in-beats", beats=-int((beat - self._beat(first)) // 1), told=told_words(first))))
        return "  |  ".join(words)[:118]

    def _beat(self, cue: Cue) -> Fraction:
        return self.clock.beat_of_bar(cue.bar) + cue.beat - 1
