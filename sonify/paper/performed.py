"""What stands on the sheet of the class's own recording: two curves over the same bars, and what to talk about."""

from __future__ import annotations

from math import ceil, log10
from typing import Any

from sonify.facts.graphs import nice_ticks
from sonify.records.fact import Fact, fact
from sonify.records.listened import CANNOT_TELL, Listened, ReadBack, StageRead
from sonify.say import say
from sonify.say.language import spoken
from sonify.units import printed

#: Room above and below the curves, a share of their reach; so many ticks.
MARGIN, TICKS = 0.12, 4
#: A figure is whole where the curve reaches over so many units.
COARSE = 6.0
#: A stage's beat says what the science says where the two lie no further apart than this share of the curve's reach.
ALIKE = 0.08


def sheet(title: str, found: Listened, back: ReadBack | None) -> dict[str, Any]:
    """Everything that performed.typ places."""
    answered = [question for question in found.questions if question.answer != CANNOT_TELL]
    right = sum(question.answer == question.planned for question in answered)
    untold = len(found.questions) - len(answered)
    counts = {"asked": len(found.questions), "answered": len(answered), "right": right, "untold": untold}
    return {
        "title": title,
        "plot": None if back is None else _plot(back),
        "rows": _rows(found, back),
        "assessment": say(fact("performed-assessment", title=title, **counts)),
        "answers": [
            {
                "asked": say(question.asked),
                "answer": say(fact("performed-answer", answer=question.answer, why=question.why)),
            }
            for question in answered
        ],
        "more": [say(fact("performed-more", count=count)) for count in range(1, len(answered) + 1)],
        "next": [say(words) for words in found.feedback],
        "reflect": [say(row) for row in _reflections(back)],
    }


def _rows(found: Listened, back: ReadBack | None) -> list[dict[str, str]]:
    """A row a stage: what was written, what was played, and what the beat says."""
    read = {row.letter: row for row in back.stages} if back else {}
    out = []
    for stage in found.stages:
        ours = "-" if stage.bpm is None else f"{stage.bpm.value:.0f}"
        told = say(fact("performed-untold", why=stage.why)) if stage.bpm is None else ""
        beside = read.get(stage.letter)
        if not told and back and beside and beside.ours:
            told = say(_says(beside, back))
        out.append(
            {
                "letter": stage.letter,
                "title": stage.title,
                "written": f"{stage.planned_bpm:.0f}",
                "ours": ours,
                "told": told,
            }
        )
    return out


def _figures(row: StageRead, back: ReadBack) -> tuple[str, str]:
    """Ours and the science's, to as many digits as the curve's reach needs."""
    values = [*back.science, *(stage.ours.value for stage in back.stages if stage.ours)]
    reach = max(values) - min(values) or 1.0
    places = max(0, ceil(log10(COARSE / reach)))
    unit = printed(back.unit)
    assert row.ours is not None
    return f"{_number(row.ours.value, places)} {unit}".strip(), f"{_number(row.science, places)} {unit}".strip()


def _number(value: float, places: int) -> str:
    """A figure as every sheet writes it: a true minus, and none before nothing."""
    return spoken().numbers.number(value, places=places)


def _says(row: StageRead, back: ReadBack) -> Fact:
    ours, science = _figures(row, back)
    if row.beyond:
        return fact("performed-beyond", way=row.beyond, end=ours, science=science)
    return fact("performed-says", ours=ours, science=science)


def _reflections(back: ReadBack | None) -> list[Fact]:
    """Two questions: one of where beat and science lie furthest apart, one of what the sound cannot carry."""
    told = [row for row in back.stages if row.ours is not None] if back else []
    if not back or not told:
        return [fact("performed-reflect-listen"), fact("performed-reflect-change")]
    furthest, nearest = max(told, key=_away), min(told, key=_away)
    if _alike(furthest, back):
        return [fact("performed-reflect-alike", quantity=back.quantity), fact("performed-reflect-change")]
    if furthest is nearest:
        return [fact("performed-reflect-listen"), fact("performed-reflect-change")]
    return [
        fact("performed-reflect-furthest", stage=furthest.letter, title=furthest.title, other=nearest.letter),
        fact("performed-reflect-change"),
    ]


def _away(row: StageRead) -> tuple[bool, float]:
    """How far beat and science lie apart: beyond the key's end further than anywhere within it."""
    return bool(row.beyond), abs(row.ours.value - row.science) if row.ours else 0.0


def _alike(row: StageRead, back: ReadBack) -> bool:
    beyond, away = _away(row)
    return row.ours is not None and not beyond and away <= ALIKE * (max(back.science) - min(back.science))


def _plot(back: ReadBack) -> dict[str, Any]:
    """Both curves as shares of the plot's width and height."""
    ends = [end for row in back.stages if row.ours for end in (row.ours.low, row.ours.high)]
    low, high = min([*back.science, *ends]), max([*back.science, *ends])
    room = MARGIN * ((high - low) or abs(high) or 1.0)
    low, high = low - room, high + room
    bars = len(back.science)

    def share(value: float) -> float:
        return (value - low) / (high - low)

    unit, beyond = printed(back.unit), any(row.beyond for row in back.stages)
    ticks = [tick for tick in nice_ticks(low, high, TICKS + 2) if low <= tick <= high]
    return {
        "legend": say(fact("performed-legend", quantity=back.quantity, beyond="yes" if beyond else "no")),
        "unit-told": say(fact("performed-unit", quantity=back.quantity, unit=unit)),
        "ticks": [{"at": share(tick), "text": spoken().numbers.number(tick)} for tick in ticks],
        "science": [[(n + 0.5) / bars, share(value)] for n, value in enumerate(back.science)],
        "stages": [
            {
                "letter": row.letter,
                "from": (row.bar - 1) / bars,
                "to": (row.bar - 1 + row.bars) / bars,
                "ours": None if row.ours is None else share(row.ours.value),
                "low": None if row.ours is None else share(row.ours.low),
                "high": None if row.ours is None else share(row.ours.high),
                "above": back.above(row),
            }
            for row in back.stages
        ],
    }
