"""Engraved pages made fit for any renderer of SVG, not only a browser.

The engraver leaves its note symbol for metronome marks to a web font that only browsers read, and sets texts in a font
we do not ship. Here the symbol is drawn, texts are set in the project's font, and every text stays on its page.
"""

from __future__ import annotations

import re

from lxml import etree

from sonify.notation.mei import UNSEEN

SVG = "{http://www.w3.org/2000/svg}"
TEXT_FONT = "Andika"
#: The engraver measures texts in a narrower face: Andika at this share of its size is never wider (measured: the widest
#: ratio of a text's lengths is 1.25).
TEXT_SCALE = 0.8
#: Width of a letter in Andika Bold, in ems, on the safe side of the average (measured: 0.46 to 0.52).
LETTER_EMS = 0.55
CROTCHET = "\ueca5"  # the private-use character that stands for the note symbol


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
    right = _right_edge(root)
    for text in list(root.iter(f"{SVG}text")):
        _set_text(text, right)
    left_over = [letter for text in root.itertext() for letter in text if 0xE000 <= ord(letter) <= 0xF8FF]
    if left_over:
        raise RuntimeError(
            f"the engraved page has private-use characters left: {sorted(set(map(hex, map(ord, left_over))))}"
        )
    return str(etree.tostring(root, encoding="unicode"))


def notes(page: str) -> int:
    """How many notes the engraver has drawn on a page, the unseen ones left out."""
    return len(re.findall(rf'<g id="(?!{UNSEEN})[^"]*" class="note(?: [^"]*)?"', page))


def filled(page: str) -> float:
    """How far down the page its lowest staff line lies, as a share of its height: more than 1 runs off it."""
    root = etree.fromstring(page.encode(), etree.XMLParser(huge_tree=True))
    inner = _inner(root)
    bottom = float(inner.get("viewBox", "").split()[3])
    lines = (path.get("d", "") for staff in _of_class(root, "staff") for path in staff.findall(f"{SVG}path"))
    return max((float(line.split()[1]) for line in lines), default=0.0) / bottom


def _of_class(root: etree._Element, name: str) -> list[etree._Element]:
    return [group for group in root.iter(f"{SVG}g") if name in group.get("class", "").split()]


def _inner(root: etree._Element) -> etree._Element:
    """The drawing inside the page, in the units of its notes."""
    return list(root.iter(f"{SVG}svg"))[-1]


def _right_edge(root: etree._Element) -> float:
    """The page's right edge in the units of its notes."""
    return float(_inner(root).get("viewBox", "").split()[2])


def _size(tspan: etree._Element) -> float:
    return float((tspan.get("font-size") or "0").removesuffix("px"))


def _set_text(text: etree._Element, right: float) -> None:
    leaves = [tspan for tspan in text.iter(f"{SVG}tspan") if (tspan.text or "").strip()]
    if not leaves:
        text.getparent().remove(text)
        return
    if any(CROTCHET in (leaf.text or "") for leaf in leaves):
        _set_metronome(text, leaves, right)
        return
    for leaf in leaves:
        leaf.set("font-size", f"{_size(leaf) * TEXT_SCALE:g}px")
    if text.get("text-anchor", "start") == "start":
        _keep_on_page(text, leaves, right)


def _keep_on_page(text: etree._Element, leaves: list[etree._Element], right: float) -> None:
    """Move a text left by what would stick out over the right edge."""
    widest = max(len(leaf.text or "") * LETTER_EMS * _size(leaf) for leaf in leaves)
    excess = float(text.get("x", "0")) + widest - right
    if excess > 0:
        for element in [text, *text.iter(f"{SVG}tspan")]:
            if element.get("x"):
                element.set("x", f"{float(element.get('x', '0')) - excess:g}")


def _set_metronome(text: etree._Element, leaves: list[etree._Element], right: float) -> None:
    """Words, note symbol, number, one after the other. The words end where the symbol begins: so their exact width
    need not be known."""
    words, number, symbol_seen = "", "", False
    size = min(_size(leaf) for leaf in leaves) * TEXT_SCALE
    for leaf in leaves:
        before, symbol, after = (leaf.text or "").partition(CROTCHET)
        if symbol:
            symbol_seen = True
            number += after
        elif symbol_seen:
            number += before
        else:
            words += before
    x, y = float(text.get("x", "0")), float(text.get("y", "0"))
    at = x + len(words.strip()) * LETTER_EMS * size
    at = min(at, right - (1.1 + len(number.strip()) * LETTER_EMS) * size)
    group = etree.Element(f"{SVG}g")
    for place, anchor, content in ((at, "end", words.strip()), (at + 1.1 * size, "start", number.strip())):
        if content:
            line = etree.SubElement(group, f"{SVG}text", x=f"{place:g}", y=f"{y:g}")
            line.set("text-anchor", anchor)
            line.set("font-family", TEXT_FONT)
            line.set("font-size", f"{size:g}px")
            line.set("font-weight", "bold")
            line.text = content
    group.append(_crotchet(at + 0.35 * size, y, size))
    text.getparent().replace(text, group)


def _crotchet(x: float, y: float, size: float) -> etree._Element:
    """A crotchet standing on the base line, its head's left edge at x, in a text of this size."""
    note = etree.Element(f"{SVG}g", transform=f"translate({x:g},{y:g}) scale({size:g})")
    head = etree.SubElement(note, f"{SVG}ellipse", cx="0.19", cy="-0.13", rx="0.19", ry="0.135")
    head.set("transform", "rotate(-24 0.19 -0.13)")
    stem = etree.SubElement(note, f"{SVG}rect", x="0.315", y="-0.98", width="0.05", height="0.82")
    for shape in (head, stem):
        shape.set("style", "stroke: none")  # the page's own style strokes every shape
    return note
