"""Engraved pages: MusicXML laid out by the engraving library, as SVG texts.

Two passes: the first finds where the systems break, the second hides resting staves (see `mei`). One toolkit a call,
with its own resources: the library's default toolkit finds no fonts outside the main thread. Nothing it returns is
taken on trust: it says yes to an empty score, and draws the old one after a failure.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from pathlib import Path
from typing import TYPE_CHECKING

from lxml import etree

from sonify.errors import OutOfRange, UnknownName
from sonify.frozen import dataclass
from sonify.notation import mei, svg
from sonify.notation.drawing import MM_A_POINT
from sonify.notation.texts import TEXT_SCALE
from sonify.notation.wording import drawable
from sonify.records.sheet import SIZES_MM

if TYPE_CHECKING:
    from verovio import toolkit

UNITS_A_STAFF = 60.0  # page units in the height of a staff of five lines: 6 mm in tenths
UNIT = UNITS_A_STAFF / 8  # half the gap between two lines
NAMES_MM = 70.0  # what the names before the first system may take
SHORT_NAMES_MM = 35.0  # and those before the others, with clef and signature
LETTER = 0.53  # how wide a letter of a name is, of its size
LARGEST_WORDS = 8.0  # in those units: the engraver takes no more
TEXT_PT = 10.0
SMALLEST_STAFF_MM = 3.5
CLOSER = 0.92  # a staff may shrink so far where that spares a last page with one system on it
SNIPPET_MM = 300.0  # room for a few bars on one line; the drawing is cut to what it needs
OPTIONS = {
    "unit": UNIT,
    "header": "none",
    "footer": "none",
    "pageMarginTop": 0,
    "pageMarginBottom": 0,
    "pageMarginLeft": 0,
    "pageMarginRight": 0,
    "svgViewBox": True,
    "condenseFirstPage": True,
    "systemDivider": "none",
    "multiRestStyle": "block",
    "spacingSystem": 8,
    "justifyVertically": True,
    "smuflTextFont": "none",
    "font": "Leipzig",
}


@dataclass(frozen=True, slots=True, kw_only=True)
class EngravedSheet:
    """The part of a page that is for music. staff_mm: height of a staff of five lines. text_pt: size of words.

    Words are at most as large as the engraver can set them for such a staff: 18 pt need a staff of 8 mm.
    """

    width_mm: float
    height_mm: float
    staff_mm: float
    text_pt: float = TEXT_PT

    @property
    def letters(self) -> int:
        """Letters in a line beside the abbreviated names."""
        return round((self.width_mm - SHORT_NAMES_MM) / (LETTER * self.text_pt * MM_A_POINT))

    @property
    def names(self) -> tuple[int, int]:
        """Letters in a line of a staff's name, and lines: large ones have room for one."""
        letters = round(NAMES_MM / (LETTER * self.text_pt * MM_A_POINT))
        return letters, 2 if self.text_pt <= TEXT_PT else 1

    def options(self) -> dict[str, object]:
        scale = UNITS_A_STAFF / self.staff_mm
        size = {"pageWidth": round(self.width_mm * scale), "pageHeight": round(self.height_mm * scale)}
        words = self.text_pt * MM_A_POINT * scale / (UNIT * TEXT_SCALE)
        return {**OPTIONS, **size, "lyricSize": min(LARGEST_WORDS, words)}


def engraved_pages(
    musicxml: bytes,
    *,
    paper: str = "a4",
    landscape: bool = False,
    staff_mm: float = 6.0,
    text_pt: float = TEXT_PT,
    margins_mm: tuple[float, float] = (8.0, 16.0),
) -> tuple[str, ...]:
    """Pages of the score as SVG texts, each the size of the paper within its margins (as its width and height say).

    staff_mm: height of a five-line staff; where a system would not fit the page, the next smaller size that does.
    text_pt: size of cues, names and bar numbers; 18 pt need a staff of 8 mm.
    margins_mm: free at the left and right side each, and at top and bottom each.

    Raises:
        UnknownName: no such paper. OutOfRange: too many staves for the paper, however small.
    """
    if paper not in SIZES_MM:
        raise UnknownName("paper", paper, SIZES_MM)
    width, height = sorted(SIZES_MM[paper], reverse=landscape)
    while staff_mm >= SMALLEST_STAFF_MM:
        sheet = EngravedSheet(
            width_mm=width - 2 * margins_mm[0],
            height_mm=height - 2 * margins_mm[1],
            staff_mm=staff_mm,
            text_pt=text_pt,
        )
        pages = _pages(musicxml, sheet)
        fullest = max(svg.filled(page) for page in pages)
        if fullest <= 1:
            if text_pt <= TEXT_PT and len(pages) > 1 and _lines_of(pages[-1]) == 1:
                closer = _pages(musicxml, replace(sheet, staff_mm=max(SMALLEST_STAFF_MM, CLOSER * staff_mm)))
                if len(closer) < len(pages) and max(svg.filled(page) for page in closer) <= 1:
                    pages = closer
            return tuple(svg.finished(page, sheet.width_mm, sheet.height_mm) for page in pages)
        staff_mm *= min(0.95, 1 / fullest)
    raise OutOfRange("staff", staff_mm, "mm", f"{SMALLEST_STAFF_MM:g} mm and more", "a legible score on this paper")


def _lines_of(page: str) -> int:
    """How many systems stand on a page."""
    return page.count('class="system"')


def _pages(musicxml: bytes, sheet: EngravedSheet) -> list[str]:
    toolkit = _toolkit()
    # Each reading has its own seed for the ids the library makes up: a second with the same seed would repeat them.
    first_pass = {**sheet.options(), "breaks": "auto", "condense": "none", "xmlIdSeed": 1}
    text, long_rests = _without_long_rests(drawable(musicxml.decode("utf-8")))
    _load(toolkit, text, first_pass)
    read = toolkit.getMEI({})
    _compare("read", mei.notes(read), _written_notes(musicxml))
    if long_rests:
        read = mei.gathered(read, long_rests)
        _load(toolkit, read, {**first_pass, "xmlIdSeed": 2})
    broken = mei.systems(toolkit.getMEI({"scoreBased": False}), a_part=bool(long_rests))
    arranged = mei.condensed(read, broken, sheet.names, sheet.letters)
    _load(toolkit, arranged, {**sheet.options(), "breaks": "line", "condense": "encoded", "xmlIdSeed": 3})
    pages = [toolkit.renderToSVG(number) for number in range(1, toolkit.getPageCount() + 1)]
    _compare("drew", sum(svg.notes(page) for page in pages), mei.notes(arranged) - mei.unseen(arranged))
    return pages


def engraved_snippets(texts: Sequence[bytes], *, staff_mm: float, text_pt: float = TEXT_PT) -> list[str]:
    """Small scores of a few bars, each as an SVG text as large as its music. One toolkit for all is quicker."""
    toolkit = _toolkit()
    found = []
    for number, text in enumerate(texts, start=1):
        sheet = EngravedSheet(width_mm=SNIPPET_MM, height_mm=SNIPPET_MM, staff_mm=staff_mm, text_pt=text_pt)
        fit = {"adjustPageWidth": True, "adjustPageHeight": True, "breaks": "none", "xmlIdSeed": number}
        _load(toolkit, drawable(text.decode("utf-8")), {**sheet.options(), **fit})
        page = toolkit.renderToSVG(1)
        _compare("drew", svg.notes(page), _written_notes(text))
        across, down = svg.extent(page)
        found.append(svg.finished(page, across / UNITS_A_STAFF * staff_mm, down / UNITS_A_STAFF * staff_mm))
    return found


def _compare(did: str, found: int, expected: int) -> None:
    if found != expected:
        raise RuntimeError(f"the engraver {did} {found} notes of {expected}")


def _without_long_rests(musicxml: str) -> tuple[str, dict[str, int]]:
    """The score with every bar written out, and where a rest of several bars began: bar -> how many.

    The library loses whatever stands above a bar that begins a long rest, so `mei` gathers the bars instead.
    """
    try:
        root = etree.fromstring(musicxml.encode())
    except etree.XMLSyntaxError as error:
        raise RuntimeError(f"the engraver could not read the score: {error}") from error
    found: dict[str, int] = {}
    for style in list(root.iter("measure-style")):
        attributes = style.getparent()
        found[attributes.getparent().get("number", "")] = int(style.findtext("multiple-rest", "1"))
        attributes.remove(style)
    return str(etree.tostring(root, encoding="unicode")), found


def _toolkit() -> toolkit:
    import verovio

    verovio.enableLog(verovio.LOG_OFF)
    made = verovio.toolkit(False)
    made.setResourcePath(str(Path(verovio.__file__).parent / "data"))
    return made


def _load(toolkit: toolkit, text: str, options: dict[str, object]) -> None:
    if not toolkit.setOptions(options):
        raise RuntimeError(f"the engraver refused an option among {sorted(options)}")
    if not toolkit.loadData(text) or toolkit.getPageCount() < 1:
        raise RuntimeError("the engraver could not read the score")


def _written_notes(musicxml: bytes) -> int:
    root = etree.fromstring(musicxml)
    return sum(note.find("rest") is None for note in root.iter("note"))
