"""The text of a class file as a Classroom."""

from __future__ import annotations

from collections.abc import Sequence
from typing import TYPE_CHECKING, Any

from sonify.errors import UnknownName
from sonify.inputs.document import MOST_ADVICE, Fault, read_document, refuse, shown
from sonify.kinds.instruments import STAND_INS
from sonify.kinds.needs import OF_ALL
from sonify.records.classroom import Classroom, Stock
from sonify.records.fact import Fact, did_you_mean, wrong
from sonify.records.instrument import Catalogue, OwnInstrument

if TYPE_CHECKING:
    from sonify.inputs.class_shape import OtherShape  # loads pydantic


def read_class(text: str, *, file: str, name: str, catalogue: Catalogue) -> Classroom:
    """The class that a file's text describes.

    Two names of one instrument ("tambours", "frame drums") are added up: a cupboard list may well keep them on two
    lines. A count of 0 is the same as no line.

    Args:
        text: the whole file.
        file: its name as the user gave it, for messages.
        name: the name of the class, the file's stem.
        catalogue: the instruments that there are.

    Raises BadFile, which names every fault with its line, its key and what is allowed.
    """
    from sonify.inputs.class_shape import ClassShape, read_need  # loads pydantic
    from sonify.inputs.shapes import keys_of, validated

    document = read_document(text, file=file)
    shape, faults = validated(ClassShape, document.data)
    counts, unknown = _cupboard(document.data.get("cupboard"), catalogue, keys_of(ClassShape))
    faults += unknown
    own: tuple[OwnInstrument, ...] = ()
    if shape is not None:
        own, wrongly = _own(shape.other, catalogue)
        faults += wrongly
    if shape is None or faults:
        refuse(faults, document.origin)
    if shape.groups > shape.pupils:
        message = wrong(
            "error_inputs-groups-need-least", groups=shape.groups, groups_2=shape.groups, pupils=shape.pupils
        )
        refuse([Fault(key="groups", message=message)], document.origin)
    pupils_need = tuple(read_need(text) for text in dict.fromkeys(shape.needs) if text not in OF_ALL)
    for each in pupils_need:
        if each.group > shape.groups or each.pupils > shape.pupils:
            message = wrong("error_inputs-need-beyond", text=each.text, groups=shape.groups, pupils=shape.pupils)
            refuse([Fault(key="needs", message=message)], document.origin)
    return Classroom(
        year=shape.year,
        pupils=shape.pupils,
        groups=shape.groups,
        minutes=shape.minutes,
        lessons=shape.lessons,
        line=shape.line or "",
        needs=tuple(dict.fromkeys(text for text in shape.needs if text in OF_ALL)),
        pupils_need=pupils_need,
        cupboard=(
            *(Stock(instrument=row, count=count) for row, count in counts.items() if count),
            *(Stock(instrument=one.id, count=said.count) for one, said in zip(own, shape.other, strict=True)),
        ),
        own=own,
        name=name,
        origin=document.origin,
    )


def _cupboard(rows: Any, catalogue: Catalogue, top: set[str]) -> tuple[dict[str, int], list[Fault]]:
    """How many of each instrument, by catalogue id, and the names that no instrument has."""
    # The nearest spelling may be an alias; the list of what is allowed stays readable without them.
    spellings = [spelling for row in catalogue.instruments for spelling in row.names()]
    counts: dict[str, int] = {}
    faults: list[Fault] = []
    for name, count in rows.items() if isinstance(rows, dict) else ():
        try:
            found = catalogue.find(name)
        except UnknownName as error:
            faults.append(Fault(key=f"cupboard.{name}", message=_unknown(name, error, top, spellings)))
            if len(faults) == MOST_ADVICE:
                spellings = []
            continue
        if isinstance(count, int):
            counts[found.id] = counts.get(found.id, 0) + count
    return counts, faults


def _own(rows: Sequence[OtherShape], catalogue: Catalogue) -> tuple[tuple[OwnInstrument, ...], list[Fault]]:
    """A class's own instruments, each with what it is said to sound like, or its family's stand-in."""
    own: list[OwnInstrument] = []
    faults: list[Fault] = []
    named: dict[str, int] = {}
    for number, row in enumerate(rows, start=1):
        key = f"other.{number - 1}"
        try:
            like = catalogue.find(row.like) if row.like else catalogue[STAND_INS[row.family]]
        except UnknownName as error:
            spellings = [spelling for one in catalogue.instruments for spelling in one.names()]
            faults.append(Fault(key=f"{key}.like", message=_unknown(row.like, error, set(), spellings)))
            continue
        if like.family != row.family:
            message = wrong("error_inputs-other-family", like=shown(row.like), family=like.family)
            faults.append(Fault(key=f"{key}.family", message=message))
        first = named.setdefault(row.name.casefold(), number)
        if first != number:
            faults.append(Fault(key=f"{key}.name", message=wrong("error_inputs-other-twice", name=shown(row.name))))
        own.append(OwnInstrument(name=row.name, like=like.id, number=number, how=row.how))
    return tuple(own), faults


def _unknown(name: str, error: UnknownName, top: set[str], spellings: list[str]) -> Fact:
    if name in top:
        return wrong("error_inputs-no-instrument", name=name)
    near = did_you_mean(name[:60], spellings)
    return wrong("error_inputs-unknown-instrument", name=shown(name), near=near, allowed=", ".join(error.allowed))
