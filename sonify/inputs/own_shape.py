"""The shape of what an author draws or puts in order: [[drawn]] and [[event]] of a scene file, and a stage's sound."""

from __future__ import annotations

from math import isfinite
from typing import Annotated, Any

from pydantic import AfterValidator, BeforeValidator, Field, model_validator

from sonify.inputs.document import shown
from sonify.inputs.own_process import place_share, unit_text
from sonify.inputs.readings import UnreadableWord
from sonify.inputs.shapes import Name, Shape, one_of, read_by, size, within, words
from sonify.kinds.ideas import IDEAS, PAIRS
from sonify.kinds.shapes import SHAPES
from sonify.records.drawing import MOST_STAGES
from sonify.records.fact import wrong

MOST_DRAWN, MOST_EVENTS, MOST_POINTS, MOST_TIMES = 10, 12, 400, 48
WAYS = ("values", "points", "shape")


def plain_number(value: object) -> object:
    """A number without its unit, which stands beside it once."""
    if isinstance(value, str):
        raise UnreadableWord(wrong("error_drawn-write-number-alone", value=shown(value)))
    if isinstance(value, bool) or not isinstance(value, int | float):
        raise UnreadableWord(wrong("error_drawn-wanted-number", value=shown(value)))
    if not isfinite(value) or abs(value) > 1e12:
        raise UnreadableWord(wrong("error_drawn-too-large-number"))
    return float(value)


def point(value: object) -> object:
    """A place and a value."""
    if not isinstance(value, list) or len(value) != 2:
        raise UnreadableWord(wrong("error_drawn-wanted-place-value", value=shown(value)))
    return value


def unlike_ideas(names: list[str]) -> list[str]:
    """Words for a sound of which no two contradict each other, or say the same."""
    for control, pair in PAIRS.items():
        both = [name for name in names if name in pair]
        if len(both) > 1:
            pair_said = wrong("error_drawn-both", one=both[0], other=" and ".join(both[1:]))
            raise UnreadableWord(wrong("error_drawn-contradict", both=pair_said, control=control))
    return names


Number = Annotated[float, BeforeValidator(plain_number)]
Sound = Annotated[
    list[Annotated[str, one_of("sound", tuple(IDEAS))]], size(0, len(PAIRS), "words"), AfterValidator(unlike_ideas)
]
SOUND = f'a list of words such as ["soft", "still"]; allowed: {", ".join(IDEAS)}'


class DrawnShape(Shape):
    name: Name = Field(description='what is drawn, such as "height of the dough"')
    unit: Annotated[str, words(40), read_by(unit_text)] = Field(
        description='what its numbers count, in quotation marks: a unit such as "cm" or "%", or a word such as "frogs"'
    )
    values: Annotated[list[Number], size(3, MOST_STAGES + 1, "values")] = Field(
        default=[], description="a list of numbers, one a stage, such as [4, 7, 12]"
    )
    points: Annotated[list[Annotated[list[Number], BeforeValidator(point)]], size(2, MOST_POINTS, "points")] = Field(
        default=[], description="a list of places and values, such as [[0, 4], [1.5, 9], [3, 12]]"
    )
    shape: Annotated[str, one_of("shape", tuple(SHAPES))] = Field(default="", description=f"one of {', '.join(SHAPES)}")
    start: Number | None = Field(default=None, alias="from", description="a number, in the unit of this quantity")
    end: Number | None = Field(default=None, alias="to", description="a number, in the unit of this quantity")
    times: Annotated[int, within(1, MOST_TIMES)] | None = Field(
        default=None, description=f"a whole number from 1 to {MOST_TIMES}"
    )
    at: Name | None = Field(default=None, description="the name of a stage, in quotation marks")

    @model_validator(mode="before")
    @classmethod
    def one_way(cls, data: Any) -> Any:
        """Exactly one way of giving a quantity, and no line that belongs to another."""
        if not isinstance(data, dict):
            return data
        given = [way for way in WAYS if way in data]
        if len(given) != 1:
            told = wrong("error_drawn-has" if given else "error_drawn-has-none", given=" and ".join(given))
            raise UnreadableWord(wrong("error_drawn-write-three", told=told, ways=", ".join(WAYS)))
        if stray := [key for key in ("from", "to", "times", "at") if key in data and given != ["shape"]]:
            raise UnreadableWord(wrong("error_drawn-line-belongs-shape", stray=stray[0]))
        return data

    @model_validator(mode="after")
    def shape_is_whole(self) -> DrawnShape:
        if not self.shape:
            places = [place for place, _ in self.points]
            if any(later <= earlier for earlier, later in zip(places, places[1:], strict=False)):
                raise UnreadableWord(wrong("error_drawn-places-points-do"))
            return self
        row = SHAPES[self.shape]
        if self.start is None or (self.end is None and row.way != "none"):
            wanted = wrong("error_drawn-from" if row.way == "none" else "error_drawn-from-and-to")
            raise UnreadableWord(wrong("error_drawn-needs-values-write", shape=self.shape, wanted=wanted))
        if row.way == "none" and self.end is not None and self.end != self.start:
            raise UnreadableWord(wrong("error_drawn-value-write-alone", shape=self.shape))
        if self.end is not None and row.way != "none":
            self._goes_its_way(row.way, self.start, self.end)
        if self.times is not None and not row.times:
            raise UnreadableWord(wrong("error_drawn-comes-once-times", shape=self.shape))
        if (self.at is not None) != row.at:
            needed = "error_drawn-needs-stage" if row.at else "error_drawn-no-use-for-stage"
            raise UnreadableWord(wrong(needed, shape=self.shape))
        return self

    def _goes_its_way(self, way: str, start: float, end: float) -> None:
        if end == start:
            raise UnreadableWord(wrong("error_drawn-goes-value-through", start=f"{start:g}", end=f"{end:g}"))
        if (way == "up" and end < start) or (way == "down" and end > start):
            wanted = wrong("error_drawn-more" if way == "up" else "error_drawn-less")
            raise UnreadableWord(
                wrong("error_drawn-ends-starts", shape=self.shape, wanted=wanted, start=f"{start:g}", end=f"{end:g}")
            )


class EventShape(Shape):
    what: Annotated[str, words(120)] = Field(description="what happens, in quotation marks")
    stage: Name = Field(description="the name of the stage in which it happens, in quotation marks")
    at: Annotated[str, read_by(place_share)] = Field(
        default="start", description='where in the stage: "start", "halfway", "end" or a share such as "25 %"'
    )
