"""What an author says of a process of her own, read: how long a stage takes, where an event comes, what is drawn."""

from __future__ import annotations

from typing import TYPE_CHECKING

from sonify.inputs import readings
from sonify.inputs.document import shown
from sonify.inputs.readings import UnreadableWord
from sonify.records.drawing import DrawnQuantity, OwnEvent
from sonify.records.fact import wrong
from sonify.units import to_si

if TYPE_CHECKING:
    from sonify.inputs.own_shape import DrawnShape, EventShape

_PLACES = {"start": 0.0, "halfway": 0.5, "end": 1.0}
_LONGEST_S = 1e10  # three centuries


def unit_text(text: str) -> str:
    """What the numbers count: a unit, or a word of one's own."""
    return readings.measure(f"1 {text}").unit


def lasts_s(text: str) -> float:
    """How long a stage takes, in seconds."""
    readings.measure(text)
    seconds = to_si(text, "s")
    if not 0.0 < seconds <= _LONGEST_S:
        raise UnreadableWord(wrong("error_drawn-outside-what-allowed", text=shown(text)))
    return seconds


def place_share(text: str) -> float:
    """How far into its stage an event comes, 0 to 1.

    >>> place_share("halfway"), place_share("25 %")
    (0.5, 0.25)
    """
    return _PLACES[text] if text in _PLACES else readings.share(text)


def drawn_quantity(number: int, shape: DrawnShape) -> DrawnQuantity:
    """One [[drawn]] of the file."""
    start = shape.start or 0.0
    return DrawnQuantity(
        name=shape.name,
        unit=unit_text(shape.unit),
        values=tuple(shape.values),
        points=tuple((place, value) for place, value in shape.points),
        shape=shape.shape,
        start=start,
        end=start if shape.end is None else shape.end,
        times=shape.times or 0,
        at=shape.at or "",
        key=f"drawn.{number}",
    )


def own_event(number: int, shape: EventShape) -> OwnEvent:
    """One [[event]] of the file."""
    return OwnEvent(text=shape.what, stage=shape.stage, share=place_share(shape.at), key=f"event.{number}")
