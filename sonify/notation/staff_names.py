"""Names of staves on engraved pages, in lines that the staff above and the one below leave room for."""

from __future__ import annotations

from lxml import etree

from sonify.notation.wording import wrapped

MEI = "{http://www.music-encoding.org/ns/mei}"
#: Letters in a line of a name, in full and abbreviated; a full one may be longer where it would need a third line.
NAME_LENGTH, SHORT_NAME_LENGTH = 24, 16


def set_names(root: etree._Element, longest: int, most: int) -> None:
    """Break the names into lines. longest: letters in a line that the page has room for. most: lines that stand beside
    a staff of one line without touching the next name.

    A name that still needs more lines tells its instruments in their short form.
    """
    labels = list(root.iter(f"{MEI}label"))
    lengths = range(min(NAME_LENGTH, longest), longest + 1)
    length = next((each for each in lengths if all(_fits(label, each, most) for label in labels)), longest)
    for label in labels:
        fits = _fits(label, length, most)
        set_lines(label, _lines(label.text or "", length) if fits else _shorter(label, length, most))
    for label in root.iter(f"{MEI}labelAbbr"):
        set_lines(label, _lines(label.text or "", SHORT_NAME_LENGTH))


def _fits(label: etree._Element, length: int, most: int) -> bool:
    return len(_lines(label.text or "", length)) <= most


def _lines(text: str, length: int) -> list[str]:
    return [row for line in text.split("\n") for row in wrapped(line, length).split("\n")]


def _shorter(label: etree._Element, length: int, most: int) -> list[str]:
    part = (label.text or "").partition("\n")[0]
    staff = label.getparent()
    short = (staff.findtext(f"{MEI}labelAbbr") or "") if staff is not None else ""
    instruments = short.partition(" ")[2]
    texts = (f"{part}\n{instruments}", f"{part}: {instruments}", part) if instruments else (part,)
    tries = [_lines(text, length) for text in texts]
    return next((lines for lines in tries if len(lines) <= most), tries[-1])


def set_lines(words: etree._Element, lines: list[str]) -> None:
    """A text in these lines."""
    for child in list(words):
        words.remove(child)
    words.text = lines[0]
    for line in lines[1:]:
        etree.SubElement(words, f"{MEI}lb").tail = line
