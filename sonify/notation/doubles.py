"""Staves that carry the same notes: one staff, with the names of all who play from it.

Instruments of one part that play together throughout (an octave apart, too: each reads the same notes) need one staff
on the conductor's page. MusicXML keeps a staff for each, so that a program can give each its sound.
"""

from __future__ import annotations

from collections.abc import Iterable

from lxml import etree

from sonify.notation.wording import wrapped

MEI = "{http://www.music-encoding.org/ns/mei}"
XML_ID = "{http://www.w3.org/XML/1998/namespace}id"
NAME_LENGTH, SHORT_NAME_LENGTH = 24, 16  # letters in a line of a staff's name, in full and abbreviated
#: What may differ: ids, the sounding key, and how long the player's file counts.
IGNORED = {XML_ID, "pnum", "oct.ges", "dur.ppq", "n"}


def merge_doubles(root: etree._Element) -> None:
    """Leave one staff of those in a bracket with the same part's name and the same notes; break names into lines."""
    bars = list(root.iter(f"{MEI}measure"))
    tied = {tie.get("startid", "")[1:] for tie in root.iter(f"{MEI}tie")}
    content = {n: _content(bars, n, tied) for n in _numbers(root)}
    for group in root.iter(f"{MEI}staffGrp"):
        kept: dict[tuple[str, str], list[etree._Element]] = {}
        for staff_def in group.findall(f"{MEI}staffDef"):
            part = _label(staff_def, "label").split("\n")[0]
            kept.setdefault((part, content[staff_def.get("n", "")]), []).append(staff_def)
        for first, *others in kept.values():
            if others:
                _join_names(first, others)
                _remove(bars, [other.get("n", "") for other in others])
                for other in others:
                    group.remove(other)
        symbol = group.find(f"{MEI}grpSym")
        if symbol is not None and len(group.findall(f"{MEI}staffDef")) == 1:
            group.remove(symbol)
    for tag, length in (("label", NAME_LENGTH), ("labelAbbr", SHORT_NAME_LENGTH)):
        for label in root.iter(f"{MEI}{tag}"):
            _break_lines(label, length)


def _numbers(root: etree._Element) -> list[str]:
    return [staff_def.get("n", "") for staff_def in root.iter(f"{MEI}staffDef")]


def _label(staff_def: etree._Element, tag: str) -> str:
    return staff_def.findtext(f"{MEI}{tag}") or ""


def _content(bars: Iterable[etree._Element], n: str, tied: set[str]) -> str:
    """A staff's music as one text, the same for staves that look the same."""
    words = []
    for bar in bars:
        for staff in bar.findall(f"{MEI}staff"):
            if staff.get("n") == n:
                for element in staff.iterdescendants():
                    kept = sorted((k, v) for k, v in element.attrib.items() if k not in IGNORED)
                    words.append(f"{element.tag}{kept}{element.get(XML_ID) in tied}")
        words.append("|")
    return " ".join(words)


def _join_names(first: etree._Element, others: list[etree._Element]) -> None:
    """ "The sea / Ocean drum, thunder sheet, rain stick"."""
    label, short = first.find(f"{MEI}label"), first.find(f"{MEI}labelAbbr")
    if label is not None:
        part, _, instrument = (label.text or "").partition("\n")
        more = [_label(other, "label").partition("\n")[2].lower() for other in others]
        label.text = f"{part}\n{', '.join([instrument, *more])}"
    if short is not None:
        more = [_label(other, "labelAbbr").partition(" ")[2] for other in others]
        short.text = ", ".join([short.text or "", *more])


def _remove(bars: Iterable[etree._Element], numbers: list[str]) -> None:
    """Take these staves out of every bar, with all that hangs on them."""
    for bar in bars:
        gone: set[str] = set()
        for staff in bar.findall(f"{MEI}staff"):
            if staff.get("n") in numbers:
                gone |= {element.get(XML_ID, "") for element in staff.iterdescendants()}
                bar.remove(staff)
        for control in list(bar):
            if control.get("staff") in numbers or control.get("startid", "")[1:] in gone - {""}:
                bar.remove(control)


def _break_lines(label: etree._Element, length: int) -> None:
    lines = [row for line in (label.text or "").split("\n") for row in wrapped(line, length).split("\n")]
    label.text = lines[0]
    for line in lines[1:]:
        etree.SubElement(label, f"{MEI}lb").tail = line
