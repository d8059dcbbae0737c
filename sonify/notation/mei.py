"""Changes to the engraver's own form of the score (MEI) between its two passes.

The engraver hides a staff in each system where it has no note, and everything that belongs to it; what stands above the
hidden top staff would be lost. So marks of the whole score move to the topmost staff that will show, and a staff that
must show although it rests (it has a cue or a box for the pupils' idea) gets an unseen grace note, which takes no time.
Every bar's number stands below the lowest staff, out of the way of the words above.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from math import ceil

from lxml import etree

from sonify.notation.staff_names import set_names
from sonify.notation.words_above import PACE, join_words, keep_over_their_bar
from sonify.records.fact import fact
from sonify.say import say

# Staves that carry the same notes: one staff, with the names of all who play from it ----------------------------------
#
# Instruments of one part that play together throughout (an octave apart, too: each reads the same notes) need one
# staff on the conductor's page. MusicXML keeps a staff for each, so that a program can give each its sound.

MEI = "{http://www.music-encoding.org/ns/mei}"
XML_ID = "{http://www.w3.org/XML/1998/namespace}id"
#: What may differ: ids, the sounding key, and how long the player's file counts.
IGNORED = {XML_ID, "pnum", "oct.ges", "dur.ppq", "n"}


def merge_doubles(root: etree._Element) -> None:
    """Leave one staff of those in a bracket with the same part's name and the same notes."""
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


UNSEEN = "unseen-"  # how the ids of unseen notes begin
SQUEEZE = 0.25  # of a line that finds room in the others
SQUEEZED_BOXES = 0.5  # of a line of bars for ideas, which are nearly empty
CONTROLS = ("dir", "dynam", "hairpin", "reh")


def systems(page_based: str, *, a_part: bool = False) -> list[list[str]]:
    """The bars of each system, by `n`, as the engraver has broken them.

    In a part each section begins a line: bars of rest are narrow, and in one line the words above two sections would be
    in each other's way. Its bars are then spread evenly over as many lines as they filled. In a score no section begins
    in the last bar of a line, where its tempo and its words would have to stand over the bar before.
    """
    root = etree.fromstring(page_based.encode())
    found = [list(system.iter(f"{MEI}measure")) for system in root.iter(f"{MEI}system")]
    broken = _by_section(found) if a_part else _sections_not_last(found)
    lines = [[bar.get("n", "") for bar in line] for line in broken]
    if len(lines) > 1 and len(lines[-1]) <= SQUEEZED_BOXES * len(lines[-2]) and all(map(_boxes, broken[-1])):
        lines[-2:] = [lines[-2] + lines[-1]]  # empty bars find room before them
    if len(lines) > 1 and len(lines[-1]) == 1 < len(lines[-2]) - 1:
        lines[-1].insert(0, lines[-2].pop())  # no lonely last bar
    return lines


def _boxes(bar: etree._Element) -> bool:
    return any(_has(staff, "mSpace") for staff in bar.findall(f"{MEI}staff"))


def _sections_not_last(lines: Sequence[Sequence[etree._Element]]) -> list[list[etree._Element]]:
    """A section that would begin in the last bar of a line begins the next one, which hands on what it cannot hold."""
    found: list[list[etree._Element]] = []
    over: list[etree._Element] = []
    for line in lines:
        bars, over = [*over, *line], []
        if len(bars) > len(line) + 1:
            bars, over = bars[: len(line) + 1], bars[len(line) + 1 :]
        if len(bars) > 2 and bars[-1].find(f"{MEI}reh") is not None:
            over.insert(0, bars.pop())
        found.append(bars)
    return [*found, over] if over else found


def _by_section(lines: Sequence[Sequence[etree._Element]]) -> list[list[etree._Element]]:
    sections: list[list[etree._Element]] = []
    in_lines: list[float] = []  # how many lines each section filled
    for line in lines:
        for bar in line:
            if not sections or bar.find(f"{MEI}reh") is not None:
                sections.append([])
                in_lines.append(0.0)
            sections[-1].append(bar)
            in_lines[-1] += 1 / len(line)
    spread = []
    for bars, filled in zip(sections, in_lines, strict=True):
        count = max(1, ceil(filled - SQUEEZE))
        spread += [bars[len(bars) * k // count : len(bars) * (k + 1) // count] for k in range(count)]
    return spread


def notes(mei: str) -> int:
    """How many notes the text has."""
    return sum(1 for _ in etree.fromstring(mei.encode()).iter(f"{MEI}note"))


def unseen(mei: str) -> int:
    """How many of them are there only to keep a staff from being hidden."""
    return mei.count(f'"{UNSEEN}')


def gathered(mei: str, long_rests: Mapping[str, int]) -> str:
    """A part with these rests (first bar -> how many) as one bar each."""
    root = etree.fromstring(mei.encode())
    bars = list(root.iter(f"{MEI}measure"))
    for index, bar in enumerate(bars):
        count = long_rests.get(bar.get("n", ""), 1)
        if count > 1:
            for rest in list(bar.iter(f"{MEI}mRest")):
                rest.tag = f"{MEI}multiRest"
                rest.set("num", str(count))
            last = bars[index + count - 1]
            if last.get("right"):
                bar.set("right", last.get("right"))
            for other in bars[index + 1 : index + count]:
                other.getparent().remove(other)
    return str(etree.tostring(root, encoding="unicode"))


def condensed(mei: str, broken: Sequence[Sequence[str]], names: tuple[int, int] = (24, 2), across: int = 80) -> str:
    """The score with its system breaks written in, resting staves to be hidden, and all marks where they will show.

    names: letters in a line of a staff's name that the page has room for, and lines. across: letters beside the names.
    """
    root = etree.fromstring(mei.encode())
    for score_def in root.iter(f"{MEI}scoreDef"):
        score_def.set("optimize", "true")
    merge_doubles(root)
    set_names(root, *names)
    _tempi_as_words(root)
    _without_told_frames(root)
    _room_for_boxes(root)
    bars = {bar.get("n"): bar for bar in root.iter(f"{MEI}measure")}
    lines = [[bars[number] for number in numbers] for numbers in broken]
    for index, system in enumerate(_without_repeats(root, lines)):
        if index:
            system[0].addprevious(etree.Element(f"{MEI}sb"))
        _arrange_system(system, show_all=index == 0)
        keep_over_their_bar(system, across)
    for bar in root.iter(f"{MEI}measure"):
        del bar.attrib["n"]  # the engraver's own bar numbers collide with the words above
    return str(etree.tostring(root, encoding="unicode"))


def _without_repeats(
    root: etree._Element, lines: Sequence[Sequence[etree._Element]]
) -> Iterator[Sequence[etree._Element]]:
    """The systems but for those in which boxes go on empty and all else is as in the bar before: told once instead.

    Nothing may reach over them: a hairpin is told where it ends by how many bars later that is.
    """
    reaching = next(root.iter(f"{MEI}hairpin"), None) is not None
    kept: Sequence[etree._Element] = ()
    until = ""
    for line in lines:
        if kept and not reaching and _as_before(kept[-1], line):
            until = line[-1].get("n", "")
            for bar in line:
                bar.getparent().remove(bar)
            continue
        if until:
            _told_until(kept, until)
            until = ""
        kept = line
        yield line
    if until:
        _told_until(kept, until)


def _as_before(last: etree._Element, line: Sequence[etree._Element]) -> bool:
    """Whether every bar has boxes for ideas, nothing told, and the same notes as the bar before the line."""

    def music(bar: etree._Element) -> list[str]:
        return [_content([bar], staff.get("n", ""), set()) for staff in bar.findall(f"{MEI}staff")]

    def told(bar: etree._Element) -> bool:
        return any(etree.QName(child).localname in CONTROLS for child in bar)

    return all(map(_boxes, line)) and not any(map(told, line)) and all(music(bar) == music(last) for bar in line)


def _told_until(line: Sequence[etree._Element], number: str) -> None:
    """Below the last bar of a line that the bars up to this one are as it is."""
    words = etree.SubElement(line[-1], f"{MEI}dir", place="below", tstamp="1", vgrp="3100")
    words.set("staff", _numbers_of(line[-1])[-1])
    etree.SubElement(words, f"{MEI}rend", fontstyle="normal", fontweight="bold").text = say(
        fact("mark-as-here", bar=number)
    )


def _numbers_of(bar: etree._Element) -> list[str]:
    return [staff.get("n", "") for staff in bar.findall(f"{MEI}staff")]


def _tempi_as_words(root: etree._Element) -> None:
    """The engraver shows all staves of a system that has a tempo mark; as plain words the mark looks the same."""
    for tempo in list(root.iter(f"{MEI}tempo")):
        tempo.tag = f"{MEI}dir"
        tempo.set("type", PACE)
        for name in ("mm", "mm.unit", "mm.dots", "midi.bpm"):
            tempo.attrib.pop(name, None)


def _without_told_frames(root: etree._Element) -> None:
    """Framed words go where a cue beside them says the same: the empty bars get a box of their own when drawn."""
    for bar in root.iter(f"{MEI}measure"):
        words = bar.findall(f"{MEI}dir")
        framed = [told for told in words if told.find(f".//{MEI}rend[@rend='box']") is not None]
        for frame in framed:
            if any(other.get("staff") == frame.get("staff") for other in words if other not in framed):
                bar.remove(frame)


def _room_for_boxes(root: etree._Element) -> None:
    """An empty line below the words that stand lowest over an empty bar of one line: the box stands as high as that."""
    single = {each.get("n"): each.get("lines") == "1" for each in reversed(list(root.iter(f"{MEI}staffDef")))}
    for bar in root.iter(f"{MEI}measure"):
        words = bar.findall(f"{MEI}dir")
        for staff in bar.findall(f"{MEI}staff"):
            n = staff.get("n")
            told = next((told for told in words if told.get("staff") == n), None)
            if single[n] and told is not None and _has(staff, "mSpace"):
                rend = next((child for child in told if child.tag == f"{MEI}rend"), told)
                for framed in told.iterfind(f".//{MEI}rend[@rend='box']"):
                    del framed.attrib["rend"]  # a frame of two lines would reach into the staff above
                etree.SubElement(rend, f"{MEI}lb").tail = "\N{NO-BREAK SPACE}"


def _arrange_system(system: Sequence[etree._Element], *, show_all: bool) -> None:
    staves = [staff.get("n", "") for staff in system[0].iter(f"{MEI}staff")]
    top = staves[0]
    sounding = {staff.get("n") for bar in system for staff in bar.iter(f"{MEI}staff") if _has(staff, "note")}
    controls = [child for bar in system for child in bar if etree.QName(child).localname in CONTROLS]
    wanted = {control.get("staff") for control in controls if control.get("staff") != top}
    wanted |= {staff.get("n") for bar in system for staff in bar.iter(f"{MEI}staff") if _has(staff, "mSpace")}
    shown = [n for n in staves if show_all or n in sounding or n in wanted] or staves[1:2] or [top]
    if shown[0] != top:
        for bar in system:
            join_words(bar, top, shown[0])
    for control in controls:
        if control.get("staff") == top:
            control.set("staff", shown[0])
    for n in shown:
        if n not in sounding:
            _force(system[0], n)
    for bar in system:
        _number(bar, shown[-1])


def _number(bar: etree._Element, staff: str) -> None:
    """The bar's number as words; one group, so that all numbers of a system stand in one row."""
    number = bar.get("n", "")
    if number.isdigit():
        words = etree.SubElement(bar, f"{MEI}dir", staff=staff, place="below", tstamp="1", vgrp="3000")
        etree.SubElement(words, f"{MEI}rend", fontstyle="normal").text = number


def _has(staff: etree._Element, name: str) -> bool:
    return next(staff.iter(f"{MEI}{name}"), None) is not None


def _force(bar: etree._Element, n: str) -> None:
    staff = next(staff for staff in bar.iter(f"{MEI}staff") if staff.get("n") == n)
    layer = next(staff.iter(f"{MEI}layer"))
    note = etree.Element(f"{MEI}note", dur="8", grace="unacc", visible="false", loc="0")
    note.set(XML_ID, f"{UNSEEN}{bar.get('n')}-{n}")
    layer.insert(0, note)
