"""The shape of a class file: which keys it may have, and what may stand there."""

from __future__ import annotations

import re
from typing import Annotated

from pydantic import AfterValidator, Field

from sonify.inputs.readings import UnreadableWord, unknown
from sonify.inputs.shapes import Shape, one_of, size, within, words
from sonify.kinds.instruments import FAMILIES
from sonify.kinds.lines import LINES
from sonify.kinds.needs import ALSO_CALLED, NEEDS, OF_ALL
from sonify.records.classroom import LESSONS, Need
from sonify.records.fact import wrong

COUNT = Annotated[int, within(0, 100)]


#: "one hand", "one hand: 2", "one hand: 2 in group 3", "one hand in group 3".
_NEED = re.compile(r"([^:]*?)(?:: *(\d{1,2}))?(?: *:? *in group (\d{1,2}))?")


def need(text: str) -> str:
    """The text of a need, its name as kinds.needs has it."""
    plain = " ".join(text.lower().split())
    found = _NEED.fullmatch(plain)
    name = found[1].strip() if found else plain
    named = {each.lower(): each for each in NEEDS} | ALSO_CALLED
    if name not in named:
        raise unknown("need", text, NEEDS)
    assert found is not None
    read = Need(name=named[name], pupils=int(found[2] or 1), group=int(found[3] or 0))
    if read.name in OF_ALL and (found[2] or found[3]):
        raise UnreadableWord(wrong("error_inputs-need-of-all", name=read.name))
    if read.pupils < 1 or (found[3] and not read.group):
        raise UnreadableWord(wrong("error_inputs-need-counts", text=text))
    return read.text


def read_need(text: str) -> Need:
    """A text that `need` has passed, as a record."""
    found = _NEED.fullmatch(text)
    assert found is not None
    return Need(name=found[1], pupils=int(found[2] or 1), group=int(found[3] or 0))


class OtherShape(Shape):
    """An instrument that the catalogue has not."""

    name: Annotated[str, words(40)] = Field(description='its name, such as "our thunder sheet"')
    family: Annotated[str, one_of("family", FAMILIES)] = Field(description=f"one of {', '.join(FAMILIES)}")
    count: Annotated[int, within(1, 100)] = Field(default=1, description="a whole number from 1 to 100, how many")
    like: Annotated[str, words(60)] = Field(default="", description="the name of an instrument that it sounds like")
    how: Annotated[str, words(120)] = Field(default="", description="one sentence: how it is played, softly and safely")


MOST_OTHERS = 20
MOST_NEEDS = 20


def one_two_or_four(count: int) -> int:
    if count not in LESSONS:
        raise UnreadableWord(wrong("error_inputs-lessons", count=count))
    return count


def known_line(name: str) -> str:
    if name not in LINES:
        raise unknown("line", name, LINES)
    return name


class ClassShape(Shape):
    year: Annotated[int, within(3, 6, ", the school years of 7 to 11 year-olds in England")] = Field(
        description="a whole number from 3 to 6, the school year"
    )
    pupils: Annotated[int, within(1, 60)] = Field(description="a whole number from 1 to 60")
    groups: Annotated[int, within(1, 12)] = Field(description="a whole number from 1 to 12")
    minutes: Annotated[int, within(10, 180)] = Field(default=60, description="a whole number from 10 to 180")
    lessons: Annotated[int, AfterValidator(one_two_or_four)] = Field(default=1, description="1, 2 or 4")
    needs: Annotated[list[Annotated[str, AfterValidator(need)]], size(0, MOST_NEEDS, "needs")] = Field(
        default=[],
        description=f"a list of any of: {', '.join(NEEDS)}; those of single pupils may say how many and where, such as "
        '"one hand: 2 in group 3"',
    )
    line: Annotated[str, AfterValidator(known_line)] | None = Field(
        default=None, description=f"one of {', '.join(LINES)}"
    )
    cupboard: dict[str, COUNT] = Field(
        default={}, description='how many of each instrument, a whole number from 0 to 100, such as "ocean drum" = 1'
    )
    other: Annotated[list[OtherShape], size(0, MOST_OTHERS, "instruments")] = Field(
        default=[],
        description='a table for each instrument of your own, [[other]] with name = "our thunder sheet" and family = '
        '"metal" below it, at the end of the file',
    )
