"""SVG patterns: a group's colour with its hatching drawn over it."""

from __future__ import annotations

from sonify.records.palette import GroupStyle

SIZE = 10

#: The hatchings as SVG drawn in one tile of SIZE by SIZE; `{ink}` is the colour that shows on the group's own.
TILES = {
    "rising lines": '<path d="M-2 2L2 -2M0 10L10 0M8 12L12 8" {stroke}/>',
    "falling lines": '<path d="M-2 8L2 12M0 0L10 10M8 -2L12 2" {stroke}/>',
    "level lines": '<path d="M0 5H10" {stroke}/>',
    "upright lines": '<path d="M5 0V10" {stroke}/>',
    "crossed lines": '<path d="M0 0L10 10M0 10L10 0" {stroke}/>',
    "dots": '<circle cx="2.5" cy="2.5" r="1.6" {fill}/><circle cx="7.5" cy="7.5" r="1.6" {fill}/>',
    "wide dots": '<circle cx="5" cy="5" r="2.4" {fill}/>',
    "squares": '<path d="M3 3H7V7H3Z" {fill}/>',
}


def luminance(colour: str) -> float:
    """Relative luminance of "#rrggbb", 0 black to 1 white, by the WCAG 2 formula."""
    channels = (int(colour[i : i + 2], 16) / 255 for i in (1, 3, 5))
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in channels]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def ink_on(colour: str) -> str:
    """Black or white, whichever stands out more on a colour."""
    light = luminance(colour)
    return "#ffffff" if 1.05 / (light + 0.05) > (light + 0.05) / 0.05 else "#000000"


def pattern(style: GroupStyle, name: str) -> str:
    """An SVG `pattern` of that id, to fill a group's shape with. Markup of our own: no text of a scene is in it."""
    ink = ink_on(style.colour)
    marks = TILES[style.hatching].format(
        stroke=f'fill="none" stroke="{ink}" stroke-width="1.6" stroke-opacity="0.75"',
        fill=f'fill="{ink}" fill-opacity="0.75"',
    )
    return (
        f'<pattern id="{name}" width="{SIZE}" height="{SIZE}" patternUnits="userSpaceOnUse">'
        f'<path d="M0 0H{SIZE}V{SIZE}H0Z" fill="{style.colour}"/>{marks}</pattern>'
    )
