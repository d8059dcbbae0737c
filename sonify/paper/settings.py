"""What a person chooses about paper, and where the fonts are."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from sonify.records.palette import GroupStyle

Paper = Literal["a4", "us-letter"]
PAPERS: tuple[Paper, ...] = ("a4", "us-letter")


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperSettings:
    """fonts_dir: the folder of the sheets' font. palette: how each group is drawn. large_print: 18 pt and up."""

    fonts_dir: str
    palette: tuple[GroupStyle, ...]
    paper: Paper = "a4"
    large_print: bool = False

    def __post_init__(self) -> None:
        if self.paper not in PAPERS:
            raise ValueError(f'paper is "{self.paper}"; sheets can be set on {" or ".join(PAPERS)}')
        if not self.palette:
            raise ValueError("the palette is empty; read shared/palette.toml with records.palette.read_palette")
