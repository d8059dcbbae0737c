"""Where the texts of an engraved page really are, measured with the bundled font's own widths."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from fontTools.ttLib import TTFont
from lxml import etree

from tests.catalogue import ROOT

SVG = "{http://www.w3.org/2000/svg}"


@dataclass(frozen=True, slots=True)
class Box:
    """One line of text, in the page's own units."""

    text: str
    left: float
    right: float
    top: float
    bottom: float

    def overlap(self, other: Box) -> bool:
        """Whether two lines touch by more than a hair in both directions."""
        hair = 0.12 * (self.bottom - self.top)
        wide = min(self.right, other.right) - max(self.left, other.left)
        high = min(self.bottom, other.bottom) - max(self.top, other.top)
        return wide > hair and high > hair


@lru_cache(maxsize=2)
def _widths(bold: bool) -> tuple[dict[int, float], float]:
    font = TTFont(ROOT / "shared" / "fonts" / f"Andika-{'Bold' if bold else 'Regular'}.ttf")
    advance, each = font["hmtx"], font["head"].unitsPerEm
    return {code: advance[glyph][0] / each for code, glyph in font.getBestCmap().items()}, 0.6


def width_ems(text: str, *, bold: bool) -> float:
    widths, unknown = _widths(bold)
    return sum(widths.get(ord(letter), unknown) for letter in text)


def inner(root: etree._Element) -> Box:
    """The page, in the units of its notes."""
    left, top, width, height = map(float, list(root.iter(f"{SVG}svg"))[-1].get("viewBox", "").split())
    return Box(text="", left=left, right=left + width, top=top, bottom=top + height)


def boxes(page: str) -> list[Box]:
    root = etree.fromstring(page.encode(), etree.XMLParser(huge_tree=True))
    return [_framed(box, text) for text in root.iter(f"{SVG}text") for box in _lines(text, _raised(text))]


def _framed(box: Box, text: etree._Element) -> Box:
    """The box as large as the frame drawn round its text, if there is one."""
    frame = next((shape for shape in text.itersiblings(f"{SVG}rect", preceding=True)), None)
    if frame is None:
        return box
    x, y, width, height = (float(frame.get(side, "0")) for side in ("x", "y", "width", "height"))
    top = y - _raised(text)
    assert x <= box.left and box.right <= x + width and top <= box.top and box.bottom <= top + height, box
    return Box(text=box.text, left=x, right=x + width, top=top, bottom=top + height)


def _raised(text: etree._Element) -> float:
    """How far a text has been moved up by the groups round it."""
    moves = [re.match(r"translate\(0,(-?[\d.]+)\)", group.get("transform", "")) for group in text.iterancestors()]
    return sum(-float(move[1]) for move in moves if move)


def _lines(text: etree._Element, raised: float) -> Iterator[Box]:
    """The lines of a text element: a new one begins wherever a part of it has a place of its own."""
    x, y, size, run, bold = float(text.get("x", "0")), float(text.get("y", "0")), 0.0, "", False
    leaves = [element for element in [text, *text.iter(f"{SVG}tspan")] if (element.text or "").strip()]
    for leaf in leaves:
        placed = next((a for a in [leaf, *leaf.iterancestors(f"{SVG}tspan")] if a.get("x")), None)
        if placed is not None and float(placed.get("y", "0")) != y:
            yield _box(run, x, y - raised, size, bold, text)
            x, y, run = float(placed.get("x", "0")), float(placed.get("y", "0")), ""
        size = max(float((leaf.get("font-size") or "0").removesuffix("px")), 0.0 if not run else size)
        bold = any(a.get("font-weight") == "bold" or a.get("class") == "reh" for a in [leaf, *leaf.iterancestors()])
        run += leaf.text or ""
    yield _box(run, x, y - raised, size, bold, text)


def _box(run: str, x: float, y: float, size: float, bold: bool, text: etree._Element) -> Box:
    width = width_ems(run.strip(), bold=bold) * size
    left = x - {"start": 0.0, "middle": width / 2, "end": width}[text.get("text-anchor", "start")]
    # Between the tops of capitals and the base line: what hangs below may touch the next line's ascenders' room.
    return Box(text=run.strip(), left=left, right=left + width, top=y - 0.73 * size, bottom=y)
