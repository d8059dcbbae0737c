"""Empty boxes on engraved staves, over the bars that are left to the pupils."""

from __future__ import annotations

import re
from collections.abc import Iterator, Sequence
from itertools import groupby

from lxml import etree

from sonify.notation.texts import SVG, of_class

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
