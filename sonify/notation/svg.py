"""Engraved pages made fit for any renderer of SVG, not only a browser.

The engraver leaves its note symbol for metronome marks to a web font that only browsers read, and sets texts in a font
we do not ship. Here the symbol is drawn, texts are set in the project's font, and every text stays on its page.
"""

from __future__ import annotations

import re
from math import floor

from lxml import etree

from sonify.notation.blanks import draw_blanks
from sonify.notation.mei import UNSEEN
from sonify.notation.texts import SVG, TEXT_FONT, of_class, set_texts


def finished(page: str, width_mm: float, height_mm: float) -> str:
    """One page as the engraver gives it, finished; its outer size is given in millimetres."""
    root = etree.fromstring(page.encode(), etree.XMLParser(huge_tree=True))
    root.set("width", f"{width_mm:g}mm")
    root.set("height", f"{height_mm:g}mm")
    for element in list(root.iter(f"{SVG}desc")):
        element.getparent().remove(element)
    for element in list(root.iter(f"{SVG}g")):
        if element.get("id", "").startswith(UNSEEN):
            element.getparent().remove(element)
    for element in root.iter():
        if "Times" in (element.get("font-family") or ""):
            element.set("font-family", TEXT_FONT)
    draw_blanks(root)
    _make_room(root, set_texts(root, float(_inner(root).get("viewBox", "").split()[2])))
    left_over = [letter for text in root.itertext() for letter in text if 0xE000 <= ord(letter) <= 0xF8FF]
    if left_over:
        raise RuntimeError(
            f"the engraved page has private-use characters left: {sorted(set(map(hex, map(ord, left_over))))}"
        )
    return str(etree.tostring(root, encoding="unicode"))


def _make_room(root: etree._Element, top: float) -> None:
    """Let the page show what stands above its edge: all of it becomes a little smaller."""
    if top < 0:
        top = floor(top)
        inner = _inner(root)
        width, height = map(float, inner.get("viewBox", "").split()[2:])
        inner.set("viewBox", f"0 {top:g} {width:g} {height - top:g}")


def extent(page: str) -> tuple[float, float]:
    """Width and height of a page in the engraver's page units, of which its drawing has ten each."""
    width, height = _inner(etree.fromstring(page.encode())).get("viewBox", "").split()[2:]
    return float(width) / 10, float(height) / 10


def notes(page: str) -> int:
    """How many notes the engraver has drawn on a page, the unseen ones left out."""
    return len(re.findall(rf'<g id="(?!{UNSEEN})[^"]*" class="note(?: [^"]*)?"', page))


def filled(page: str) -> float:
    """How far down the page its lowest staff line or text lies, as a share of its height: more than 1 runs off it."""
    root = etree.fromstring(page.encode(), etree.XMLParser(huge_tree=True))
    inner = _inner(root)
    bottom = float(inner.get("viewBox", "").split()[3])
    lines = [path.get("d", "") for staff in of_class(root, "staff") for path in staff.findall(f"{SVG}path")]
    texts = [float(text.get("y", "0")) for text in root.iter(f"{SVG}text", f"{SVG}tspan") if text.get("y")]
    return max([0.0, *texts, *(float(line.split()[1]) for line in lines)]) / bottom


def _inner(root: etree._Element) -> etree._Element:
    """The drawing inside the page, in the units of its notes."""
    return list(root.iter(f"{SVG}svg"))[-1]
