"""SVG in millimetres: lines, boxes, words, and the hatching of a group. Texts in, text out.

Hatching is drawn as plain lines within a clip: tilings show white seams in some viewers.
"""

from __future__ import annotations

from collections.abc import Iterable
from math import ceil
from xml.sax.saxutils import escape

from sonify.notation.texts import TEXT_FONT, width_ems
from sonify.notation.wording import drawable

INK = "#1a1a1a"
MM_A_POINT = 25.4 / 72
BOLD = 1.07  # how much wider bold words may be
HATCH_STEP = 2.2
DOTS = {"dots": 0.8, "wide dots": 1.4}  # how wide the pen is; other hatchings take a fine one
FINE_PEN = 0.25


def mm(value: float) -> str:
    """A length to a hundredth of a millimetre, without idle zeros."""
    return f"{value:.2f}".rstrip("0").rstrip(".") or "0"


def rule(x1: float, y1: float, x2: float, y2: float, *, pen: float = 0.2, ink: str = INK, dashed: str = "") -> str:
    dash = f' stroke-dasharray="{dashed}"' if dashed else ""
    ends = f'x1="{mm(x1)}" y1="{mm(y1)}" x2="{mm(x2)}" y2="{mm(y2)}"'
    return f'<line {ends} stroke="{ink}" stroke-width="{mm(pen)}"{dash}/>'


def box(
    x: float, y: float, width: float, height: float, *, fill: str = "none", pen: float = 0.0, more: str = ""
) -> str:
    """A rectangle; `more`: further attributes, ready written."""
    stroke = f' stroke="{INK}" stroke-width="{mm(pen)}"' if pen else ""
    corner = f'x="{mm(x)}" y="{mm(y)}" width="{mm(width)}" height="{mm(height)}"'
    return f'<rect {corner} fill="{fill}"{stroke}{f" {more}" if more else ""}/>'


def words(x: float, y: float, text: str, size: float, *, anchor: str = "start", bold: bool = False) -> str:
    """Text on a base line, its size in millimetres."""
    weight = ' font-weight="bold"' if bold else ""
    place = f'x="{mm(x)}" y="{mm(y)}" font-size="{mm(size)}" text-anchor="{anchor}"'
    return f'<text {place}{weight} font-family="{TEXT_FONT}" fill="{INK}">{escape(drawable(text))}</text>'


def width_of(text: str, size: float, *, bold: bool = False) -> float:
    """How wide a text may be, on the safe side."""
    return width_ems(text) * (BOLD if bold else 1.0) * size


def in_lines(text: str, width: float, size: float, *, bold: bool = False) -> list[str]:
    """The text in lines that fit a width, broken between words or, where one is too long, within it."""
    rows = [""]
    for word in (piece for whole in text.split() for piece in _pieces(whole, width, size, bold=bold)):
        longer = f"{rows[-1]} {word}".strip()
        if rows[-1] and width_of(longer, size, bold=bold) > width:
            rows.append(word)
        else:
            rows[-1] = longer
    return rows


def _pieces(word: str, width: float, size: float, *, bold: bool) -> list[str]:
    """A word, cut where it is too long for a line."""
    pieces = [""]
    for letter in word:
        if pieces[-1] and width_of(pieces[-1] + letter, size, bold=bold) > width:
            pieces.append("")
        pieces[-1] += letter
    return pieces


def mixed(colour: str, other: int, share: float) -> str:
    """A colour "#rrggbb" with a share of black (0) or white (255)."""
    parts = (int(colour[at : at + 2], 16) for at in (1, 3, 5))
    return "#" + "".join(f"{round(part * (1 - share) + other * share):02x}" for part in parts)


def hatched(clip: str, area: tuple[float, float, float, float], colour: str, hatching: str, step: float) -> str:
    """A tint and a hatching over an area (x, y, width, height), shown within the clip of that id."""
    x, y, width, height = area
    pen = DOTS.get(hatching, FINE_PEN) * step / HATCH_STEP
    ink = mixed(colour, 0, 0.4)
    path = f'<path d="{_hatching(area, hatching, step)}" stroke="{ink}" stroke-width="{mm(pen)}" fill="none"'
    tint = box(x, y, width, height, fill=mixed(colour, 255, 0.78))
    return f'<g clip-path="url(#{clip})">{tint}{path} stroke-linecap="round"/></g>'


def _hatching(area: tuple[float, float, float, float], hatching: str, step: float) -> str:
    x, y, w, h = area

    def slanted(up: bool) -> Iterable[str]:
        for number in range(ceil((w + h) / step) + 1):
            top = x + number * step
            yield f"M{mm(top - h)} {mm(y + h if up else y)}L{mm(top)} {mm(y if up else y + h)}"

    def points(gap: float, mark: str) -> Iterable[str]:
        for row in range(ceil(h / gap)):
            for column in range(ceil(w / gap)):
                yield f"M{mm(x + (column + 0.5) * gap)} {mm(y + (row + 0.5) * gap)}{mark}"

    rows = (f"M{mm(x)} {mm(y + (k + 0.5) * step)}h{mm(w)}" for k in range(ceil(h / step)))
    columns = (f"M{mm(x + (k + 0.5) * step)} {mm(y)}v{mm(h)}" for k in range(ceil(w / step)))
    side = mm(step / 2)
    drawn: dict[str, Iterable[str]] = {
        "rising lines": slanted(True),
        "falling lines": slanted(False),
        "crossed lines": [*slanted(True), *slanted(False)],
        "level lines": rows,
        "upright lines": columns,
        "dots": points(step, "h0.01"),
        "wide dots": points(2 * step, "h0.01"),
        "squares": points(1.5 * step, f"h{side}v{side}h-{side}z"),
    }
    return "".join(drawn[hatching])


def document(width: float, height: float, title: str, body: Iterable[str]) -> str:
    """A whole SVG of so many millimetres."""
    size = f'width="{mm(width)}mm" height="{mm(height)}mm" viewBox="0 0 {mm(width)} {mm(height)}"'
    head = f'<svg xmlns="http://www.w3.org/2000/svg" {size}><title>{escape(drawable(title))}</title>'
    return f"{head}{''.join(body)}</svg>"
