"""The graphic score: time from left to right, a lane a part, stages as columns, the science as a curve above.

A drawing of the Score alone (and of a curve given as plain numbers), as SVG texts in millimetres, for paper and page.
Groups are told apart by number, name and hatching; all of it reads in grey.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace

from sonify.errors import UnknownName
from sonify.notation.drawing import INK, box, document, hatched, in_lines, mm, rule, width_of, words
from sonify.notation.lanes import Frame, dynamics, lane
from sonify.notation.systems import GAP, Canvas, Plan, curve_label, curve_numbers, plan
from sonify.records.curve import Curve
from sonify.records.palette import group_style
from sonify.records.score import Part, Score, Section

__all__ = ["Canvas", "Curve", "graphic_alt", "graphic_lane", "graphic_score", "lane_alt"]

LEGEND = "Higher: higher notes. Thicker: louder. Closer marks: more sounds."
BLANK_LEGEND = "Dashed box: your own idea."


def graphic_score(score: Score, canvas: Canvas, curve: Curve | None = None, *, whole: bool = False) -> tuple[str, ...]:
    """SVG texts, one a page, each the size of the canvas. whole: one page with the whole piece on one line.

    Raises OutOfRange where there are too many parts for the canvas.
    """
    foot = legend(score)
    made = plan(score, canvas, curve, whole=whole, foot=foot)
    if cut := _cut_titles(score, made, canvas.text_mm):
        foot = f"{foot} {cut}"
        made = plan(score, canvas, curve, whole=whole, foot=foot)
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
    body = [*_columns(score, frame, 0.0, canvas.height_mm - foot)]
    for section in score.sections:
        body += _letter(section, frame.bar(section.bar), 0.2, text)
    style = group_style(canvas.palette, found.group)
    body += [
        *lane(score, found, frame, style, "c0"),
        *dynamics(found, frame, text, frame.y + frame.height + 0.75 * text),
    ]
    body.append(box(frame.x, frame.y, frame.end - frame.x, frame.height + 1.1 * text, pen=0.3))
    body += _bar_numbers(score, frame, canvas.height_mm - 0.4 * text, text)
    return document(canvas.width_mm, canvas.height_mm, lane_alt(score, part), body)


def part_named(score: Score, name: str) -> Part:
    for part in score.group_parts:
        if part.name == name:
            return part
    raise UnknownName("part", name, [part.name for part in score.group_parts])


def legend(score: Score) -> str:
    """How to read the drawing."""
    return f"{LEGEND} {BLANK_LEGEND}" if any(part.blanks for part in score.group_parts) else LEGEND


def graphic_alt(score: Score) -> str:
    """The drawing in words, for those who do not see it."""
    return f"Graphic score of {score.title}. " + " ".join(_told(part) for part in score.group_parts)


def lane_alt(score: Score, part: str) -> str:
    """One lane in words."""
    return _told(part_named(score, part))


def _told(part: Part) -> str:
    plays = "; ".join(f"bars {e.bar} to {e.bar + e.bars - 1}" if e.bars > 1 else f"bar {e.bar}" for e in part.entries)
    own = "; ".join(f"bars {b.bar} to {b.bar + b.bars - 1}" if b.bars > 1 else f"bar {b.bar}" for b in part.blanks)
    return f"Group {part.group}, {part.name}: {plays or 'silent'}." + (f" Their own idea: {own}." if own else "")


def _system(
    score: Score, canvas: Canvas, made: Plan, curve: Curve | None, bars: tuple[int, int], y: float, clip: str
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
    yield from _columns(score, frame, y, bottom)
    for section in score.sections:
        if bars[0] <= section.bar + section.bars - 1 and section.bar <= bars[1]:
            yield from _heading(section, frame, y, text)
    yield from _bar_numbers(score, frame, y + made.head_mm - 0.35 * text, text)
    if curve is not None:
        yield from _science(curve, frame, made.names_mm, text)
    for index, part in enumerate(parts):
        top = y + made.head_mm + made.curve_mm + index * made.lane_mm
        strip = replace(frame, y=top, height=made.lane_mm - 1.1 * text)
        joined = index > 0 and parts[index - 1].group == part.group
        yield rule(made.names_mm if joined else 0, top, frame.end, top, pen=0.15 if joined else 0.35)
        yield from _name(part, canvas, replace(strip, height=made.lane_mm), f"{clip}-n{index}")
        yield from lane(score, part, strip, group_style(canvas.palette, part.group), f"{clip}-{index}")
        yield from dynamics(part, strip, text, top + made.lane_mm - 0.35 * text)
    yield rule(0, bottom, frame.end, bottom, pen=0.35)
    yield rule(frame.end, frame.y, frame.end, bottom, pen=0.35)


def _columns(score: Score, frame: Frame, top: float, bottom: float) -> Iterator[str]:
    """Every other stage shaded, a line where each begins, and a faint one at every bar."""
    for index, section in enumerate(score.sections):
        first, last = max(section.bar, frame.first), min(section.bar + section.bars - 1, frame.last)
        if first > last:
            continue
        if index % 2:
            yield box(frame.bar(first), top, frame.bar(last + 1) - frame.bar(first), bottom - top, fill="#f0f0f0")
    path = "".join(f"M{mm(frame.bar(bar))} {mm(frame.y)}V{mm(bottom)}" for bar in range(frame.first, frame.last + 1))
    yield f'<path d="{path}" stroke="#cfcfcf" stroke-width="0.12" fill="none"/>'
    for section in score.sections:
        if frame.first <= section.bar <= frame.last:
            yield rule(frame.bar(section.bar), top, frame.bar(section.bar), bottom, pen=0.4)


def _letter(section: Section, x: float, y: float, text: float) -> Iterator[str]:
    """A rehearsal letter in its box."""
    yield box(x + 0.5, y, 1.5 * text, 1.5 * text, fill="#ffffff", pen=0.3)
    yield words(x + 0.5 + 0.75 * text, y + 1.12 * text, section.letter, text, anchor="middle", bold=True)


def _heading(section: Section, frame: Frame, y: float, text: float) -> Iterator[str]:
    """Letter and title over a stage's column, in two lines at most: what has no room is told at the foot."""
    x = frame.bar(max(section.bar, frame.first))
    room = frame.bar(min(section.bar + section.bars - 1, frame.last) + 1) - x
    if room < 1.5 * text + 1:
        return
    yield from _letter(section, x, y + 0.1 * text, text)
    rows = _title(section, room, text)
    for number, row in enumerate(rows if len(rows) <= 2 else [rows[0], f"{rows[1]} …"]):
        yield words(x + 2 * text + 0.8, y + (1.0 + 1.2 * number) * text, row, text)


def _title(section: Section, room: float, text: float) -> list[str]:
    """A stage's title in lines for a column; none where it is too narrow for more than the letter."""
    return in_lines(section.title, room - 2 * text - 1.2, text) if room > 7 * text else []


def _cut_titles(score: Score, made: Plan, text: float) -> str:
    """The titles that no column shows whole: "C: Vapour condenses into cloud."."""
    told = []
    for section in score.sections:
        spans = [
            min(section.bar + section.bars - 1, last) - max(section.bar, first) + 1
            for page in made.pages
            for first, last in page
        ]
        if not 1 <= len(_title(section, max(spans) * made.bar_mm, text)) <= 2:
            told.append(f"{section.letter}: {section.title}.")
    return " ".join(told)


def _bar_numbers(score: Score, frame: Frame, base: float, text: float) -> Iterator[str]:
    """Numbers at the beginnings of stages, and between them as many as have room."""
    room = width_of(str(score.bars), text) + 1.2
    step = next(s for s in (1, 2, 4, 8, 16, 32, 64, 10**6) if s * frame.bar_mm >= room)
    stages = [s.bar for s in score.sections if frame.first <= s.bar <= frame.last]
    shown: list[int] = []
    for bar in [*stages, *range(frame.first, frame.last + 1)]:
        regular = bar in stages or bar == frame.first or (bar - 1) % step == 0
        fits = frame.bar(bar) + room <= frame.end
        if regular and fits and all(abs(bar - other) * frame.bar_mm >= room for other in shown):
            shown.append(bar)
            yield words(frame.bar(bar) + 0.5, base, str(bar), text)


def _science(curve: Curve, frame: Frame, names: float, text: float) -> Iterator[str]:
    """The curve with its name, unit, least and greatest value beside it."""
    low, high = min(curve.values), max(curve.values)
    span = (high - low) or 1.0
    top, foot = frame.y + 1.5, frame.y + frame.height - 1.5
    shown = [
        (frame.at(beat), foot - (value - low) / span * (foot - top))
        for beat, value in zip(curve.beats, curve.values, strict=True)
        if frame.first - 1 <= beat / frame.beats <= frame.last
    ]
    path = "".join(f"{'L' if index else 'M'}{mm(x)} {mm(y)}" for index, (x, y) in enumerate(shown))
    yield rule(0, frame.y, frame.end, frame.y, pen=0.35)
    yield f'<path d="{path}" fill="none" stroke="{INK}" stroke-width="0.7" stroke-linejoin="round" data-curve="1"/>'
    for value, base in zip(curve_numbers(curve), (frame.y + text, foot + 1), strict=False):
        yield words(names - 1, base, value, text, anchor="end")
    for row, line in enumerate(curve_label(curve, names, text)):
        yield words(0, frame.y + (1.1 + 1.2 * row) * text, line, text)


def _name(part: Part, canvas: Canvas, strip: Frame, clip: str) -> Iterator[str]:
    """The group's number on its hatching, and the part's name beside it."""
    style, text = group_style(canvas.palette, part.group), canvas.text_mm
    side = min(9.0, strip.height - 2)
    y = strip.y + (strip.height - side) / 2
    yield f'<clipPath id="{clip}">{box(0.3, y, side, side)}</clipPath>'
    yield hatched(clip, (0.3, y, side, side), style.colour, style.hatching, side / 5)
    yield box(0.3, y, side, side, pen=0.3)
    yield f'<circle cx="{mm(0.3 + side / 2)}" cy="{mm(y + side / 2)}" r="{mm(side * 0.34)}" fill="#ffffff"' + (
        f' stroke="{INK}" stroke-width="0.25"/>'
    )
    size = min(text, side * 0.5)
    yield words(0.3 + side / 2, y + side / 2 + 0.36 * size, str(part.group), size, anchor="middle", bold=True)
    rows, text = _fitted(part.name, strip.x - side - 2.5, strip.height, text)
    first = strip.y + (strip.height - 1.15 * text * len(rows)) / 2 + 0.9 * text
    for number, row in enumerate(rows):
        yield words(side + 1.5, first + 1.15 * text * number, row, text, bold=True)


def _fitted(name: str, width: float, height: float, text: float) -> tuple[list[str], float]:
    """A name in lines that fit, in smaller letters where its lane is low; the rest of a very long one is left out."""
    for size in (text, 0.9 * text, 0.8 * text, 0.7 * text):
        rows = in_lines(name, width, size, bold=True)
        if len(rows) * 1.15 * size <= height:
            return rows, size
    most = max(1, int(height / (1.15 * size)))
    return [*rows[: most - 1], f"{rows[most - 1][:-1]}…"], size
