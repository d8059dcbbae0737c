"""The words of a tagged PDF, row by row in reading order, as a screen reader walks them: fast, for our own files only.

A paragraph, heading, list item or cell is one text however its lines were broken, so that a changed word changes one
row. pypdf opens the file and its tags; the pages' drawing commands are read here, where it would take seconds: typst
writes them in one plain shape (an identity-encoded font, a marked run a tag), which `Unreadable` guards.
"""

from __future__ import annotations

import io
import re
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Any

from pypdf import PdfReader

#: A text in the drawing commands (brackets that pair may stand in it bare), and the glyphs shown by one command.
PLAIN = rb"[^\\()]|\\."
TEXT = rb"\((?:" + PLAIN + rb"|\((?:" + PLAIN + rb"|\((?:" + PLAIN + rb")*\))*\))*\)"
COMMAND = re.compile(
    rb"/(?P<tag>\w+)\s*<<(?P<facts>.*?)>>\s*BDC|(?P<again>/Artifact BMC\b)|(?P<end>\bEMC\b)"
    rb"|/(?P<font>\w+) (?P<size>[\d.]+) Tf"
    rb"|q 1 0 0 -1 (?P<left>\S+) (?P<height>\S+) cm\b"
    rb"|(?P<glyphs>\[(?:" + TEXT + rb"|[^\]()])*\]|" + TEXT + rb")\s*T[jJ]\b",
    re.DOTALL,
)
ESCAPE = re.compile(rb"\\(?:([0-7]{1,3})|(.))", re.DOTALL)
LETTERS = {b"n": b"\n", b"r": b"\r", b"t": b"\t", b"b": b"\b", b"f": b"\f"}
#: Tags that are a row of their own, with what is written before it; "" takes what the tag around it has.
ROWS = {f"/H{level}": "#" * level + " " for level in range(1, 7)}
ROWS |= {"/TD": "| ", "/TH": "| ", "/LI": "- ", "/Figure": "[picture] ", "/P": "", "/Div": "", "/Caption": ""}

#: The mark of what is printed again, to be cut apart: programs that read aloud pass it over, and so do the pins.
AGAIN = -1
#: What stands under one mark of a page: (page, mark), text. A new line begins with NEW_LINE.
Marked = dict[tuple[int, int], str]
NEW_LINE = "\n"
#: The page of a picture's words: pictures without marks name the first page, so theirs is where the row before stood.
NOWHERE = -1
#: Texts further apart than this, in ems, are words of their own.
APART_EM = 0.15


@dataclass(frozen=True)
class Font:
    """What each glyph says, and how far it goes on in thousandths of an em."""

    letters: dict[int, str]
    widths: dict[int, float]


class Unreadable(AssertionError):
    """A page holds text in a shape that this reader does not know."""


def rows_of(data: bytes) -> list[str]:
    """`=== page` with what its foot says, then its rows; a table's cells begin with `|`."""
    reader = PdfReader(io.BytesIO(data))
    marked, feet = _pages(reader)
    numbers = {page.indirect_reference.idnum: n for n, page in enumerate(reader.pages) if page.indirect_reference}
    root: Any = reader.trailer["/Root"]
    rows: list[str] = []
    begun, on_page, opening, gathered = NOWHERE, NOWHERE, "", ""
    for page, opens, text in [*_walk(root["/StructTreeRoot"], "", NOWHERE, numbers, marked), (NOWHERE, "", None)]:
        if text is not None:
            on_page = on_page if gathered else page
            gathered += text
            continue
        if plain(gathered):
            if on_page not in (begun, NOWHERE):
                rows.append(f"=== page {on_page + 1}: {plain(feet[on_page])}")
                begun = on_page
            rows.append(opening + plain(gathered))
        opening, gathered = opens, ""
    return rows


def plain(text: str) -> str:
    """Without line breaks and break marks. A line broken at a hyphen goes on without a space."""
    return " ".join(re.sub(r"(?<=[-\N{NON-BREAKING HYPHEN}])\n", "", text).replace("\N{ZERO WIDTH SPACE}", "").split())


def _pages(reader: PdfReader) -> tuple[Marked, list[str]]:
    """The text under each mark, and what stands outside the tags of each page: its foot."""
    marked: Marked = {}
    feet = []
    for number, page in enumerate(reader.pages):
        resources: Any = page["/Resources"]
        fonts = {name[1:]: _font(font.get_object()) for name, font in resources.get("/Font", {}).items()}
        contents = page.get_contents()
        foot = []
        for mark, text in _runs(contents.get_data() if contents is not None else b"", fonts):
            if mark is None:
                foot.append(text)
            else:
                marked[number, mark] = marked.get((number, mark), "") + text
        feet.append(" ".join(foot))
    return marked, feet


def _runs(drawing: bytes, fonts: dict[str, Font]) -> Iterator[tuple[int | None, str]]:
    """Each shown text with the mark that it stands under, after a space or line break where there is one."""
    under: list[int | None] = []
    font, em = Font({}, {}), 0.0
    # Where the next text begins, and where the last one ended; letters of a drawing are not placed one by one.
    at, after = (0.0, 0.0), (0.0, 0.0)
    shown = repeated = 0
    for found in COMMAND.finditer(drawing):
        if found["tag"]:
            mark = re.search(rb"/MCID (\d+)", found["facts"])
            under.append(int(mark[1]) if mark else None)
        elif found["again"]:
            under.append(AGAIN)
            repeated += 1
        elif found["end"]:
            under.pop()
        elif found["font"]:
            font, em = fonts[found["font"].decode()], float(found["size"])
        elif found["left"]:
            at = float(found["left"]), float(found["height"])
        else:
            shown += 1
            raw = b"".join(
                ESCAPE.sub(_escaped, each[0][1:-1]) for each in re.finditer(TEXT, found["glyphs"], re.DOTALL)
            )
            glyphs = [int.from_bytes(raw[i : i + 2], "big") for i in range(0, len(raw), 2)]
            between = NEW_LINE if at[1] != after[1] else " " if abs(at[0] - after[0]) > APART_EM * em else ""
            if AGAIN in under:
                continue
            yield (under[-1] if under else None), between + "".join(font.letters[glyph] for glyph in glyphs)
            at = after = at[0] + em * sum(font.widths[glyph] for glyph in glyphs) / 1000, at[1]
    if under or shown != len(re.findall(rb"[)\]>]\s*T[jJ]\b", drawing)) or drawing.count(b" BMC") != repeated:
        raise Unreadable("a page's text is not written as it was: look at tests/pinned/tagged.py")


def _escaped(found: re.Match[bytes]) -> bytes:
    octal, letter = found.groups()
    return bytes([int(octal, 8)]) if octal else LETTERS.get(letter, letter)


def _font(font: Any) -> Font:
    """A font's own tables."""
    told = font["/ToUnicode"].get_object().get_data().decode("ascii")
    letters = {}
    for block in re.findall(r"beginbfchar\s(.*?)endbfchar", told, re.DOTALL):
        for glyph, text in re.findall(r"<(\w+)>\s*<(\w*)>", block):
            letters[int(glyph, 16)] = bytes.fromhex(text).decode("utf-16-be")
    if "beginbfrange" in told:
        raise Unreadable("a font's letters are given as ranges: look at tests/pinned/tagged.py")
    rows = [float(each) for each in font["/DescendantFonts"][0].get_object()["/W"].get_object()]
    runs = zip(rows[::3], rows[1::3], rows[2::3], strict=True)
    return Font(letters, {glyph: width for first, last, width in runs for glyph in range(int(first), int(last) + 1)})


def _walk(
    node: Any, opening: str, page: int, pages: dict[int, int], marked: Marked
) -> Iterator[tuple[int, str, str | None]]:
    """(page, what opens the row, text) in reading order; no text where a row begins or ends."""
    node = node.get_object() if hasattr(node, "get_object") else node
    if isinstance(node, int):
        yield page, opening, marked.get((page, node), "")
        return
    if isinstance(node, list):
        for kid in node:
            yield from _walk(kid, opening, page, pages, marked)
        return
    if "/Pg" in node:
        page = pages[node.raw_get("/Pg").idnum]
    if "/MCID" in node:
        yield from _walk(node["/MCID"], opening, page, pages, marked)
        return
    tag = node.get("/S", "")
    row = tag in ROWS or any(facts.get("/Placement") == "/Block" for facts in _facts(node))
    inside = ROWS.get(tag, "") or opening
    if row:
        yield page, inside, None
    if "/Alt" in node:
        yield NOWHERE, inside, str(node["/Alt"])
        yield page, inside, None
    if tag != "/Lbl":
        yield from _walk(node.get("/K", []), inside, page, pages, marked)
    if row:
        yield page, opening, None


def _facts(node: Any) -> Iterator[Any]:
    """What is said of a tag's layout."""
    found = node.get("/A", [])
    found = found.get_object() if hasattr(found, "get_object") else found
    for each in found if isinstance(found, list) else [found]:
        each = each.get_object() if hasattr(each, "get_object") else each
        if isinstance(each, dict):
            yield each
