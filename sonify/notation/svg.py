"""Engraved pages made fit for any renderer of SVG, not only a browser.

The engraver leaves its note symbol for metronome marks to a web font that only browsers read, and sets texts in a font
we do not ship. Here the symbol is drawn, texts are set in the project's font, and every text stays on its page.
"""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import groupby
from math import floor

from lxml import etree

from sonify.notation.mei import UNSEEN
from sonify.notation.texts import SVG, TEXT_FONT, of_class, set_texts

# Empty boxes on engraved staves, over the bars that are left to the pupils --------------------------------------------

EDGE = 60.0  # in the page's units, of which a staff is 600 high
ONE_LINE = (330.0, 0.0)  # above and below a staff of one line: on it, as stems stand, and clear of the bar numbers
SIGN = 620.0  # room for a clef or another sign at the beginning of a line
_LINE = re.compile(r"M(-?[\d.]+) (-?[\d.]+) L(-?[\d.]+) (-?[\d.]+)")
_PLACE = re.compile(r"translate\((-?[\d.]+)")
LOOK = "fill:none;stroke:#000000;stroke-width:40;stroke-dasharray:160 100"  # in a style: the page's own strokes shapes


def draw_blanks(root: etree._Element) -> None:
    """Put a dashed box round each run of bars that a staff leaves empty."""
    for system in of_class(root, "system"):
        bars = [of_class(bar, "staff") for bar in of_class(system, "measure")]
        for staff in zip(*bars, strict=True):
            for bars_of_run in _runs(staff):
                system.append(_box(bars_of_run))


def _runs(staff: Sequence[etree._Element]) -> Iterator[list[etree._Element]]:
    for empty, run in groupby(staff, key=lambda bar: bool(of_class(bar, "mSpace"))):
        if empty:
            yield list(run)


def _box(run: Sequence[etree._Element]) -> etree._Element:
    lines = [[float(number) for number in found] for bar in run for found in _lines(bar)]
    left = max([min(line[0] for line in lines), *(place + SIGN for place in _signs(run[0]))])
    right = max(line[2] for line in lines)
    top, foot = min(line[1] for line in lines), max(line[1] for line in lines)
    above, below = (EDGE, EDGE) if foot > top else ONE_LINE
    box = etree.Element(f"{SVG}rect", x=f"{left + EDGE:g}", y=f"{top - above:g}", style=LOOK)
    box.set("width", f"{right - left - 2 * EDGE:g}")
    box.set("height", f"{foot - top + above + below:g}")
    box.set("class", "blank")
    box.set("data-bars", str(len(run)))
    return box


def _lines(bar: etree._Element) -> Iterator[tuple[str, ...]]:
    for path in bar.findall(f"{SVG}path"):
        found = _LINE.match(path.get("d", ""))
        if found:
            yield found.groups()


def _signs(bar: etree._Element) -> Iterator[float]:
    """Where the signs at the beginning of a line stand."""
    for group in (*of_class(bar, "clef"), *of_class(bar, "keySig"), *of_class(bar, "meterSig")):
        for use in group.iter(f"{SVG}use"):
            found = _PLACE.match(use.get("transform", ""))
            if found:
                yield float(found[1])


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
