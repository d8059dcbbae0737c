"""Words above the staves of an engraved page: over the bar they belong to, and none on another."""

from __future__ import annotations

from collections.abc import Sequence

from lxml import etree

from sonify.notation.staff_names import MEI, set_lines
from sonify.notation.wording import wrapped

#: The type of words that were a mark of the tempo.
PACE = "pace"
#: Letters in a line of words, however near the end of the system their bar stands.
LEAST_LETTERS = 18
#: Of a line's letters so many are counted on: bars differ in width.
SURE = 0.9


def join_words(bar: etree._Element, top: str, staff: str) -> None:
    """The whole score's words that move to a staff with words of its own: one text, so that no line lies on another."""
    moved = {told.get("tstamp"): told for told in _words(bar, top)}
    for told in _words(bar, staff):
        above = moved.get(told.get("tstamp"))
        if above is not None:
            if _text(told) != _text(above):
                etree.SubElement(above, f"{MEI}lb")
                above.extend(list(told))
            bar.remove(told)


def _words(bar: etree._Element, staff: str) -> list[etree._Element]:
    """What stands above a staff, frames and marks of the tempo apart."""
    above = (told for told in bar.findall(f"{MEI}dir") if told.get("staff") == staff and told.get("place") == "above")
    words = (told for told in above if told.get("type") != PACE)
    return [told for told in words if told.find(f".//{MEI}rend[@rend='box']") is None]


def _text(words: etree._Element) -> str:
    return " ".join("".join(words.itertext()).split())


def keep_over_their_bar(system: Sequence[etree._Element], across: int) -> None:
    """Words that would reach over the end of the line, in narrower ones: or they are moved off their bar."""
    for index, bar in enumerate(system):
        room = max(LEAST_LETTERS, int(SURE * across * (len(system) - index) / len(system)))
        for told in bar.findall(f"{MEI}dir"):
            for rend in told.findall(f"{MEI}rend"):
                lines = [rend.text or "", *(each.tail or "" for each in rend.findall(f"{MEI}lb"))]
                if told.get("place") == "above" and len(lines) > 1 and max(map(len, lines)) > room:
                    set_lines(rend, wrapped(" ".join(lines), room).split("\n"))
