"""A reading of the graphic score: every mark's note from its place on the paper, held against what it says it is."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction as F

from lxml import etree

from tests.notation.boxes import width_ems

SVG = "{http://www.w3.org/2000/svg}"


@dataclass(frozen=True, slots=True)
class Mark:
    """One mark. x: its left edge, y: its middle, thick: how high it is drawn, long: how wide. In millimetres."""

    part: str
    beat: F
    key: int
    x: float
    y: float
    thick: float
    long: float


@dataclass(frozen=True, slots=True)
class Blank:
    part: str
    bar: int
    bars: int
    x: float
    width: float


def root_of(page: str) -> etree._Element:
    return etree.fromstring(page.encode())


def sizes(page: str) -> tuple[str, str]:
    root = root_of(page)
    return root.get("width", ""), root.get("height", "")


def texts(page: str) -> list[str]:
    return [element.text or "" for element in root_of(page).iter(f"{SVG}text")]


def marks(page: str) -> list[Mark]:
    found = []
    for group in root_of(page).iter(f"{SVG}g"):
        for shape in group:
            if shape.get("data-beat"):
                found.append(_mark(group.get("data-part", ""), shape))
    return found


def _mark(part: str, shape: etree._Element) -> Mark:
    beat, key = F(shape.get("data-beat")), int(shape.get("data-key"))
    if shape.tag == f"{SVG}circle":
        x, y, radius = (float(shape.get(name)) for name in ("cx", "cy", "r"))
        return Mark(part, beat, key, x - radius, y, 2 * radius, 2 * radius)
    x, y, width, height = (float(shape.get(name)) for name in ("x", "y", "width", "height"))
    return Mark(part, beat, key, x, y + height / 2, height, width)


def blanks(page: str) -> list[Blank]:
    found = []
    for shape in root_of(page).iter(f"{SVG}rect"):
        if shape.get("data-blank"):
            assert shape.get("stroke-dasharray") and shape.get("fill") == "#ffffff", "an empty dashed box"
            bar, bars = int(shape.get("data-blank")), int(shape.get("data-bars"))
            x, width = float(shape.get("x")), float(shape.get("width"))
            found.append(Blank(shape.get("data-part", ""), bar, bars, x, width))
    return found


def check_words(page: str) -> None:
    """Every word is on its page, and none lies upon another; widths from the font file itself, by fontTools."""
    root = root_of(page)
    wide, high = (float(root.get(side, "").removesuffix("mm")) for side in ("width", "height"))
    boxes = [_word_box(element) for element in root.iter(f"{SVG}text")]
    for left, right, top, base, text in boxes:
        assert left >= -0.1 and right <= wide + 0.1 and top >= -0.1 and base <= high, text
    for index, a in enumerate(boxes):
        for b in boxes[index + 1 :]:
            apart = a[1] <= b[0] or b[1] <= a[0] or a[3] <= b[2] + 0.05 or b[3] <= a[2] + 0.05
            assert apart, (a, b)


def _word_box(element: etree._Element) -> tuple[float, float, float, float, str]:
    """Left, right, top of capitals and base line."""
    size, x, y = (float(element.get(name)) for name in ("font-size", "x", "y"))
    width = width_ems(element.text or "", bold=element.get("font-weight") == "bold") * size
    left = x - {"start": 0.0, "middle": width / 2, "end": width}[element.get("text-anchor", "start")]
    return left, left + width, y - 0.73 * size, y, element.text or ""


def curve_points(page: str) -> Iterator[list[tuple[float, float]]]:
    for path in root_of(page).iter(f"{SVG}path"):
        if path.get("data-curve"):
            yield [(float(x), float(y)) for x, y in re.findall(r"[ML](-?[\d.]+) (-?[\d.]+)", path.get("d", ""))]
