"""Texts of an engraved page: set in the project's font, on the page, and none upon another.

The engraver reckons with the widths of another font and looks only at neighbours, so here every text's place is
reckoned anew, with widths on the safe side.
"""

from __future__ import annotations

from dataclasses import replace

from lxml import etree

from sonify.frozen import dataclass

SVG = "{http://www.w3.org/2000/svg}"
FRAME = f"{SVG}rect"
TEXT_FONT = "Andika"
#: The engraver measures texts in a narrower face: Andika at this share of its size is never wider (measured: the widest
#: ratio of a text's lengths is 1.25).
TEXT_SCALE = 0.8
#: Width of a letter in Andika Bold, in ems, on the safe side of the average (measured: 0.46 to 0.52).
LETTER_EMS = 0.55
#: The same for capitals, and for the few letters that are wider still: a line of those alone keeps its place, too.
CAPITAL_WIDTH, WIDEST, WIDE = 0.7, 1.05, frozenset("WMm@")
CAPITAL_EMS = 0.73  # height of capitals; what hangs below the line finds room in the gap
HAIR = 25.0  # so much two texts may seem to overlap, reckoned on the safe side
BELOW_LINE = 115.0  # what hangs below a line of text, and HAIR
GAP = 150.0  # between a text and one moved up from it; a staff is 600 high
CROTCHET = "\ueca5"  # the private-use character that stands for the note symbol


@dataclass(frozen=True, slots=True, kw_only=True)
class TextBox:
    """Where some lines of text are, in the units of the page's notes."""

    left: float
    right: float
    top: float
    bottom: float

    def meets(self, other: TextBox) -> bool:
        beside = self.right <= other.left or other.right <= self.left
        return not beside and self.top < other.bottom - HAIR and other.top < self.bottom - HAIR

    def up(self, by: float) -> TextBox:
        return TextBox(left=self.left, right=self.right, top=self.top - by, bottom=self.bottom - by)


def set_texts(root: etree._Element, right: float) -> float:
    """Set every text of a page whose notes reach to `right`; return how high the highest mark stands."""
    for text in list(root.iter(f"{SVG}text")):
        _set_text(text, right)
    parted = [
        _part(of_class(system, "dir") + of_class(system, "reh"), _frames(system)) for system in of_class(root, "system")
    ]
    return min((top for top in parted), default=0.0)


def width_ems(text: str) -> float:
    """How wide a text in Andika Bold may be, in ems, on the safe side of the average."""
    return sum(WIDEST if c in WIDE else CAPITAL_WIDTH if c.isupper() else LETTER_EMS for c in text)


def of_class(root: etree._Element, name: str) -> list[etree._Element]:
    return [group for group in root.iter(f"{SVG}g") if name in group.get("class", "").split()]


def _leaves(text: etree._Element) -> list[etree._Element]:
    """The elements that hold the letters."""
    return [element for element in text.iter(f"{SVG}text", f"{SVG}tspan") if (element.text or "").strip()]


def _size(element: etree._Element) -> float:
    return float((element.get("font-size") or "0").removesuffix("px"))


def _set_text(text: etree._Element, right: float) -> None:
    leaves = _leaves(text)
    if not leaves:
        text.getparent().remove(text)
        return
    if any(CROTCHET in (leaf.text or "") for leaf in leaves):
        _set_metronome(text, leaves, right)
        return
    for leaf in leaves:
        leaf.set("font-size", f"{_size(leaf) * TEXT_SCALE:g}px")
    frames = text.getparent().findall(FRAME)
    excess = max(box.right for box in [_box(text), *_frames(text.getparent())]) - right
    if text.get("text-anchor", "start") == "start" and excess > 0:
        for element in [*frames, *text.iter(f"{SVG}text", f"{SVG}tspan")]:
            if element.get("x"):
                element.set("x", f"{float(element.get('x', '0')) - excess:g}")


def _box(text: etree._Element) -> TextBox:
    """Round all lines of a text: a line begins wherever a part of it has a height of its own."""
    left, y = float(text.get("x", "0")), float(text.get("y", "0"))
    rows: dict[float, float] = {}  # height of a base line -> width of what stands on it
    size = 0.0
    for leaf in _leaves(text):
        placed = next((e for e in (leaf, *leaf.iterancestors(f"{SVG}tspan")) if e.get("y")), None)
        y = float(placed.get("y", "0")) if placed is not None else y
        size = max(size, _size(leaf))
        rows[y] = rows.get(y, 0.0) + width_ems((leaf.text or "").strip()) * _size(leaf)
    width = max(rows.values())
    left -= {"start": 0.0, "middle": width / 2, "end": width}[text.get("text-anchor", "start")]
    return TextBox(left=left, right=left + width, top=min(rows) - CAPITAL_EMS * size, bottom=max(rows))


def _part(groups: list[etree._Element], walls: list[TextBox]) -> float:
    """Move up what would stand upon another text, from the lowest to the highest; return the top of them all.

    walls: boxes that stay where they are; a text that reaches below one stands under it.
    """
    placed: list[TextBox] = []
    boxes = [(_round([*_frames(group), *(_box(text) for text in group.iter(f"{SVG}text"))]), group) for group in groups]
    for box, group in sorted(((b, g) for b, g in boxes if b), key=lambda pair: (-pair[0].bottom, pair[0].left)):
        rise = 0.0
        others = [*placed, *(replace(w, top=w.top - BELOW_LINE) for w in walls if box.bottom < w.bottom)]
        while met := [other for other in others if other.meets(box.up(rise))]:
            rise = box.bottom - min(other.top for other in met) + GAP
        if rise:
            group.set("transform", f"translate(0,{-rise:g})")
        placed.append(box.up(rise))
    return min((box.top for box in placed), default=0.0)


def _frames(group: etree._Element) -> list[TextBox]:
    """Frames drawn round texts."""
    sides = [[float(frame.get(side, "0")) for side in ("x", "y", "width", "height")] for frame in group.findall(FRAME)]
    return [TextBox(left=x, right=x + width, top=y, bottom=y + height) for x, y, width, height in sides]


def _round(boxes: list[TextBox]) -> TextBox | None:
    if not boxes:
        return None
    return TextBox(
        left=min(box.left for box in boxes),
        right=max(box.right for box in boxes),
        top=min(box.top for box in boxes),
        bottom=max(box.bottom for box in boxes),
    )


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
    at = x + width_ems(words.strip()) * size
    at = min(at, right - (1.1 + width_ems(number.strip())) * size)
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
