"""The shape of [[pattern]] in a scene file: a pattern that pupils made for a part."""

from __future__ import annotations

from typing import Annotated

from pydantic import Field

from sonify.inputs import readings
from sonify.inputs.own_pattern import bar_boxes
from sonify.inputs.shapes import Name, Shape, read_by, size, words
from sonify.records.own_pattern import MOST_BARS

MOST_SOUNDS = 64


class PatternShape(Shape):
    part: Name = Field(description="the name of the part that plays it, in quotation marks")
    boxes: Annotated[list[Annotated[str, words(80), read_by(bar_boxes)]], size(1, MOST_BARS, "bars")] = Field(
        description='one text of boxes for each bar, such as ["x. xx x. x.", "x. xx x- .."]'
    )
    notes: Annotated[list[Annotated[str, read_by(readings.note_number)]], size(0, MOST_SOUNDS, "notes")] = Field(
        default=[], description='one note for each sound, such as ["C5", "E5"]; left out: the part\'s own'
    )
    name: Annotated[str, words(60, least=0)] = Field(
        default="", description='what it is called, such as "Group 3\'s own pattern"'
    )
