"""The graphic score: time from left to right, a lane a part, stages as columns, the science as a curve above.

A drawing of the Score alone (and of a curve given as plain numbers), as SVG texts in millimetres, for paper and page.
Groups are told apart by number, name and hatching; all of it reads in grey.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from sonify.errors import OutOfRange, UnknownName
from sonify.notation.drawing import box, document, in_lines, rule, words
from sonify.notation.lanes import Frame, dynamics, lane
from sonify.notation.surrounds import bar_numbers, columns, heading, letter, name_beside, science, title_lines
from sonify.notation.systems import GAP, Canvas, SystemPlan, plan
from sonify.records.curve import Curve
from sonify.records.fact import fact
from sonify.records.palette import group_style
from sonify.records.score import Part, Score
from sonify.say import say
from sonify.say.parts import bars as bars_words

__all__ = ["Canvas", "Curve", "graphic_alt", "graphic_lane", "graphic_score", "lane_alt"]


def graphic_score(score: Score, canvas: Canvas, curve: Curve | None = None, *, whole: bool = False) -> tuple[str, ...]:
    """SVG texts, one a page, each the size of the canvas. whole: one page with the whole piece on one line.

    Where the parts do not fit below each other, some are drawn on pages of their own.

    Raises OutOfRange where the canvas has no room for one part, or for all of a `whole` piece.
    """
    try:
        made, foot = _planned(score, canvas, curve, whole=whole)
    except OutOfRange:
        if whole or len(score.group_parts) < 2:
            raise
        return tuple(page for half in _halves(score) for page in graphic_score(half, canvas, curve))
    pages = []
    for number, systems in enumerate(made.pages):
        body: list[str] = []
        y = 0.0
        for index, bars in enumerate(systems):
            body += _system(score, canvas, made, curve, bars, y, f"c{number}-{index}")
            y += made.system_mm(len(score.group_parts)) + GAP
        base = y - GAP + 1.6 * canvas.text_mm
        for row, text in enumerate(in_lines(foot, canvas.width_mm, canvas.text_mm)):
            body.append(words(0, base + row * 1.3 * canvas.text_mm, text, canvas.text_mm))
        pages.append(document(canvas.width_mm, canvas.height_mm, graphic_alt(score), body))
    return tuple(pages)


def _planned(score: Score, canvas: Canvas, curve: Curve | None, *, whole: bool) -> tuple[SystemPlan, str]:
    """Where everything lies, and the words at the foot: how to read it, and what no column had room for."""
    foot = legend(score)
    if curve is not None and curve.tenfold:
        foot = f"{foot} {say(fact('graphic-tenfold'))}"
    made = plan(score, canvas, curve, whole=whole, foot=foot)
    if cut := _cut_titles(score, made, canvas.text_mm):
        foot = f"{foot} {cut}"
        made = plan(score, canvas, curve, whole=whole, foot=foot)
    return made, foot


def _halves(score: Score) -> tuple[Score, Score]:
    """The score with the first and with the other half of its parts, cut between groups where that is possible."""
    parts = score.group_parts
    cuts = [at for at in range(1, len(parts)) if parts[at - 1].group != parts[at].group] or range(1, len(parts))
    middle = min(cuts, key=lambda at: abs(2 * at - len(parts)))
    return replace(score, parts=parts[:middle]), replace(score, parts=parts[middle:])


def graphic_lane(score: Score, part: str, canvas: Canvas) -> str:
    """One part's lane over the whole piece, with stages' letters and bar numbers, the size of the canvas.

    Raises UnknownName for a part the Score does not have.
    """
    found = part_named(score, part)
    text = canvas.text_mm
    top, foot = 1.9 * text, 1.5 * text
    frame = Frame(
        x=0.3,
        y=top,
        height=canvas.height_mm - top - foot - 1.1 * text,
        first=1,
        last=score.bars,
        bar_mm=(canvas.width_mm - 0.6) / score.bars,
        beats=score.metre.beats,
    )
    body = [*columns(score, frame, 0.0, canvas.height_mm - foot)]
    for section in score.sections:
        body += letter(section, frame.bar(section.bar), 0.2, text)
    style = group_style(canvas.palette, found.group)
    body += [
        *lane(score, found, frame, style, "c0"),
        *dynamics(found, frame, text, frame.y + frame.height + 0.75 * text),
    ]
    body.append(box(frame.x, frame.y, frame.end - frame.x, frame.height + 1.1 * text, pen=0.3))
    body += bar_numbers(score, frame, canvas.height_mm - 0.4 * text, text)
    return document(canvas.width_mm, canvas.height_mm, lane_alt(score, part), body)


def part_named(score: Score, name: str) -> Part:
    for part in score.group_parts:
        if part.name == name:
            return part
    raise UnknownName("part", name, [part.name for part in score.group_parts])


def legend(score: Score) -> str:
    """How to read the drawing."""
    own = any(part.blanks for part in score.group_parts)
    return say((fact("graphic-legend"), fact("graphic-blank") if own else ()))


def graphic_alt(score: Score) -> str:
    """The drawing in words, for those who do not see it."""
    told = " ".join(_told(part) for part in score.group_parts)
    return say(fact("graphic-alt", title=score.title, parts=told))


def lane_alt(score: Score, part: str) -> str:
    """One lane in words."""
    return _told(part_named(score, part))


def _told(part: Part) -> str:
    plays = "; ".join(bars_words(entry.bar, entry.bars) for entry in part.entries) or say(fact("graphic-silent"))
    own = "; ".join(bars_words(blank.bar, blank.bars) for blank in part.blanks)
    if own:
        return say(fact("graphic-part-own", group=part.group, part=part.name, plays=plays, own=own))
    return say(fact("graphic-part", group=part.group, part=part.name, plays=plays))


def _system(
    score: Score, canvas: Canvas, made: SystemPlan, curve: Curve | None, bars: tuple[int, int], y: float, clip: str
) -> Iterator[str]:
    """One system from y down: stage heads, curve, lanes with their names."""
    text, parts = canvas.text_mm, score.group_parts
    frame = Frame(
        x=made.names_mm,
        y=y + made.head_mm,
        height=made.curve_mm,
        first=bars[0],
        last=bars[1],
        bar_mm=made.bar_mm,
        beats=score.metre.beats,
    )
    bottom = y + made.system_mm(len(parts))
    yield from columns(score, frame, y, bottom)
    for section in score.sections:
        if bars[0] <= section.bar + section.bars - 1 and section.bar <= bars[1]:
            yield from heading(section, frame, y, text)
    yield from bar_numbers(score, frame, y + made.head_mm - 0.35 * text, text)
    if curve is not None:
        yield from science(curve, frame, made.names_mm, text)
    for index, part in enumerate(parts):
        top = y + made.head_mm + made.curve_mm + index * made.lane_mm
        strip = replace(frame, y=top, height=made.lane_mm - 1.1 * text)
        joined = index > 0 and parts[index - 1].group == part.group
        yield rule(made.names_mm if joined else 0, top, frame.end, top, pen=0.15 if joined else 0.35)
        yield from name_beside(part, canvas, replace(strip, height=made.lane_mm), f"{clip}-n{index}")
        yield from lane(score, part, strip, group_style(canvas.palette, part.group), f"{clip}-{index}")
        yield from dynamics(part, strip, text, top + made.lane_mm - 0.35 * text)
    yield rule(0, bottom, frame.end, bottom, pen=0.35)
    yield rule(frame.end, frame.y, frame.end, bottom, pen=0.35)


def _cut_titles(score: Score, made: SystemPlan, text: float) -> str:
    """The titles that no column shows whole: "C: Vapour condenses into cloud."."""
    told = []
    for section in score.sections:
        spans = [
            min(section.bar + section.bars - 1, last) - max(section.bar, first) + 1
            for page in made.pages
            for first, last in page
        ]
        if not 1 <= len(title_lines(section, max(spans) * made.bar_mm, text)) <= 2:
            told.append(say(fact("graphic-title", letter=section.letter, title=say(section.title))))
    return " ".join(told)
