"""What a person chooses about paper, and where the fonts are."""

from __future__ import annotations

from sonify.errors import UnknownName
from sonify.frozen import dataclass
from sonify.kinds.pupil_sheets import ALSO
from sonify.records.palette import GroupStyle
from sonify.records.sheet import PAPERS, SIZES_MM, Paper

#: Large print is so many points and up (clear-print guidelines, reference 8).
LARGE_PT = 18.0
#: What a page of the conductor's drawings keeps free: left and right together, top and bottom, a heading above.
_SIDES_MM, _ENDS_MM, _HEAD_MM = 16.0, 23.0, 9.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Printing:
    """What a teacher asks of a pack's paper. large_print: every sheet at 18 pt and up, not the pupils' alone.

    note_names: letters under the noteheads of the score, on paper and as MusicXML. also: sheets of kinds.pupil_sheets
    that the print list has besides the usual ones.
    """

    paper: Paper = "a4"
    large_print: bool = False
    note_names: bool = False
    also: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if self.paper not in PAPERS:
            raise UnknownName("paper", self.paper, PAPERS)
        for name in self.also:
            if name not in ALSO:
                raise UnknownName("sheet", name, ALSO)


@dataclass(frozen=True, slots=True, kw_only=True)
class PaperSettings:
    """fonts_dir: the folder of the sheets' font. palette: how each group is drawn. large_print: 18 pt and up."""

    fonts_dir: str
    palette: tuple[GroupStyle, ...]
    paper: Paper = "a4"
    large_print: bool = False
    also: tuple[str, ...] = ()

    def __post_init__(self) -> None:
        if self.paper not in PAPERS:
            raise ValueError(f'paper is "{self.paper}"; sheets can be set on {" or ".join(PAPERS)}')
        if not self.palette:
            raise ValueError("the palette is empty; read shared/palette.toml with records.palette.read_palette")


def drawing_room_mm(settings: PaperSettings) -> tuple[float, float]:
    """Width and height that a drawing has on a page on its side."""
    short, long = SIZES_MM[settings.paper]
    return long - _SIDES_MM, short - _ENDS_MM - _HEAD_MM
