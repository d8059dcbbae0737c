"""What `sonify listen` prints: the take, its stages, what the science asks, and the next run."""

from __future__ import annotations

from collections.abc import Iterator
from pathlib import Path

from rich.text import Text

from sonify.cli.views import SCREEN_LINES, _add, _console, _table, _text
from sonify.records.fact import fact
from sonify.records.listened import CANNOT_TELL, Listened, Question, StageHeard
from sonify.say import say


def listened_view(found: Listened, *, everything: bool = False) -> None:
    console = _console()
    if not found.recognised:
        console.print(_text(fact("recorded-not"), style="bold"))
        console.print(_text(found.why))
        return
    start, end = (
        f"{int(second) // 60}:{int(second) % 60:02d}" for second in (found.start_s or 0.0, found.end_s or 0.0)
    )
    console.print(_text(fact("recorded-found", takes=found.takes, start=start, end=end)))
    if found.clipped:
        console.print(_text(fact("recorded-clipped")))
    table = _table("stage", "written", "yours")
    for row in found.stages:
        heading = say(fact("recorded-stage", letter=row.letter, title=row.title))
        _add(table, heading, f"{row.planned_bpm:.0f}", _yours(row))
    console.print(table)
    last = [_text(words) for words in found.feedback]
    if last:
        last = [_text(fact("recorded-next-run"), style="bold"), *last]
    room = SCREEN_LINES - len(found.stages) - 2 * len(last) - 5
    for line in _answers(found, everything=everything, room=max(4, room)):
        console.print(line)
    for line in last:
        console.print(line)
    console.print(_text(fact("recorded-nothing-kept")))


def _yours(row: StageHeard) -> str:
    if row.bpm is None:
        return say(fact("recorded-because", why=row.why))
    low, value, high = (f"{bpm:.0f}" for bpm in (row.bpm.low, row.bpm.value, row.bpm.high))
    return say(fact("recorded-beats", value=value, low=low, high=high))


def _answers(found: Listened, *, everything: bool, room: int) -> Iterator[Text]:
    """Those that are answered first; as many as there is room for, a question taking two lines of a narrow terminal."""
    if not found.questions:
        return
    yield _text(fact("recorded-questions"), style="bold")
    told = [question for question in found.questions if question.answer != CANNOT_TELL]
    untold = [question for question in found.questions if question.answer == CANNOT_TELL]
    shown = [*told, *untold] if everything else told[: room // 2]
    for question in shown:
        yield _text(_answer(question))
    if not everything and len(told) > len(shown):
        yield _text(fact("recorded-more", count=len(told) - len(shown)))
    elif not everything and untold:
        yield _text(fact("recorded-untold", count=len(untold)))


def _answer(question: Question) -> str:
    if question.answer == CANNOT_TELL:
        why = say(fact("recorded-because", why=question.why))
        return say(fact("recorded-answer-untold", asked=question.asked, why=why))
    return say(fact("recorded-answer", answer=question.answer, asked=question.asked, why=question.why))


def wrote_view(files: list[str], folder: Path) -> None:
    _console().print(_text(fact("recorded-wrote", files=", ".join(files), folder=str(folder))))
