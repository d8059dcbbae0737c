"""The look of each group: a colour, its name and a hatching, so that colour is never the only carrier."""

from __future__ import annotations

import re
import tomllib

from sonify.frozen import dataclass

#: Every hatching that paper and page can draw.
HATCHINGS = (
    "rising lines",
    "falling lines",
    "level lines",
    "upright lines",
    "crossed lines",
    "dots",
    "wide dots",
    "squares",
)
_COLOUR = re.compile(r"#[0-9A-Fa-f]{6}")


@dataclass(frozen=True, slots=True, kw_only=True)
class GroupStyle:
    """How a group is drawn. colour: "#rrggbb". hatching: one of HATCHINGS."""

    colour: str
    name: str
    hatching: str

    def __post_init__(self) -> None:
        if not _COLOUR.fullmatch(self.colour):
            raise ValueError(f'palette: the colour "{self.colour}" is not written as "#0072B2"')
        if self.hatching not in HATCHINGS:
            raise ValueError(f'palette: the hatching "{self.hatching}" is not one of {", ".join(HATCHINGS)}')


def read_palette(text: str) -> tuple[GroupStyle, ...]:
    """The group styles of a palette file's text (shared/palette.toml), in order. Raises ValueError when malformed."""
    rows = tomllib.loads(text).get("group", [])
    if not rows:
        raise ValueError("palette: there is no [[group]]")
    return tuple(GroupStyle(**row) for row in rows)


def group_style(palette: tuple[GroupStyle, ...], group: int) -> GroupStyle:
    """The style of a group, numbered from 1. More groups than styles begin again: the number still tells them apart."""
    return palette[(group - 1) % len(palette)]
