"""What stands round the lanes of the graphic score: stages as columns, bar numbers, the science curve, names."""

from __future__ import annotations

from collections.abc import Iterator
from math import ceil, floor

from sonify.notation.drawing import INK, box, hatched, in_lines, mm, rule, width_of, words
from sonify.notation.lanes import Frame
from sonify.notation.systems import Canvas, curve_label, curve_numbers
from sonify.records.curve import Curve
from sonify.records.palette import group_style
from sonify.records.score import Part, Score, Section
from sonify.say import say

#: Of what is compared each curve has a line of its own, told apart without colour.
DASHES = ("", ' stroke-dasharray="2.4 1.4"', ' stroke-dasharray="0.6 1.2"', ' stroke-dasharray="3 1 0.6 1"')


def columns(score: Score, frame: Frame, top: float, bottom: float) -> Iterator[str]:
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


def letter(section: Section, x: float, y: float, text: float) -> Iterator[str]:
    """A rehearsal letter in its box."""
    yield box(x + 0.5, y, 1.5 * text, 1.5 * text, fill="#ffffff", pen=0.3)
    yield words(x + 0.5 + 0.75 * text, y + 1.12 * text, section.letter, text, anchor="middle", bold=True)


def heading(section: Section, frame: Frame, y: float, text: float) -> Iterator[str]:
    """Letter and title over a stage's column, in two lines at most: what has no room is told at the foot."""
    x = frame.bar(max(section.bar, frame.first))
    room = frame.bar(min(section.bar + section.bars - 1, frame.last) + 1) - x
    if room < 1.5 * text + 1:
        return
    yield from letter(section, x, y + 0.1 * text, text)
    rows = title_lines(section, room, text)
    for number, row in enumerate(rows if len(rows) <= 2 else [rows[0], f"{rows[1]} …"]):
        yield words(x + 2 * text + 0.8, y + (1.0 + 1.2 * number) * text, row, text)


def title_lines(section: Section, room: float, text: float) -> list[str]:
    """A stage's title in lines for a column; none where it is too narrow for more than the letter."""
    return in_lines(say(section.title), room - 2 * text - 1.2, text) if room > 7 * text else []


def bar_numbers(score: Score, frame: Frame, base: float, text: float) -> Iterator[str]:
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


def science(curve: Curve, frame: Frame, names: float, text: float) -> Iterator[str]:
    """The curve, and what it is compared with, on one scale: name, unit, least and greatest value beside it."""
    low, high = (min(curve.heights), max(curve.heights)) if curve.tenfold else curve.ends
    span = (high - low) or 1.0
    top, foot = frame.y + 1.5, frame.y + frame.height - 1.5
    yield rule(0, frame.y, frame.end, frame.y, pen=0.35)
    for power in range(ceil(low), floor(high) + 1) if curve.tenfold else ():
        y = foot - (power - low) / span * (foot - top)
        level = f"M{mm(frame.x)} {mm(y)}H{mm(frame.end)}"
        yield f'<path d="{level}" stroke="#8a8a8a" stroke-width="0.2" data-power="{power}"/>'
    ends: list[tuple[int, float]] = []
    for place, heights in enumerate((curve.heights, *curve.beside)):
        shown = [
            (frame.at(beat), foot - (value - low) / span * (foot - top))
            for beat, value in zip(curve.beats, heights, strict=True)
            if frame.first - 1 <= beat / frame.beats <= frame.last
        ]
        before = [None, *(y for _, y in shown)]
        goes_on = [
            last is not None and (curve.joined or last == y) for last, (_, y) in zip(before, shown, strict=False)
        ]
        path = "".join(f"{'L' if on else 'M'}{mm(x)} {mm(y)}" for on, (x, y) in zip(goes_on, shown, strict=True))
        look = f'fill="none" stroke="{INK}" stroke-width="0.7" stroke-linejoin="round"{DASHES[place % len(DASHES)]}'
        yield f'<path d="{path}" {look} data-curve="{place + 1}"/>'
        if curve.groups and shown:
            ends.append((curve.groups[place], shown[-1][1]))
    yield from _numbered(ends, frame, top, foot, text)
    for value, base in zip(curve_numbers(curve), (frame.y + text, foot + 1), strict=False):
        yield words(names - 1, base, value, text, anchor="end")
    for row, line in enumerate(curve_label(curve, names, text)):
        yield words(0, frame.y + (1.1 + 1.2 * row) * text, line, text)


def _numbered(ends: list[tuple[int, float]], frame: Frame, top: float, foot: float, text: float) -> Iterator[str]:
    """Each group's number at the end of its curve, none on another."""
    across = min(text * 1.25, (foot - top) / max(1, len(ends)))
    free = top - across / 2
    for left, (group, y) in zip(range(len(ends) - 1, -1, -1), sorted(ends, key=lambda end: end[1]), strict=True):
        middle = max(free + across / 2, min(y, foot - across * left))
        free = middle + across / 2
        x = frame.end - across / 2
        circle = f'<circle cx="{mm(x)}" cy="{mm(middle)}" r="{mm(across / 2)}" fill="#ffffff"'
        yield f'{circle} stroke="{INK}" stroke-width="0.25"/>'
        yield words(x, middle + 0.36 * across * 0.8, str(group), across * 0.8, anchor="middle", bold=True)


def name_beside(part: Part, canvas: Canvas, strip: Frame, clip: str) -> Iterator[str]:
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
