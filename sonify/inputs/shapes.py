"""What pydantic checks for every kind of file: no key too many, no bool for a number, texts that can be printed.

Imported only where a file is read: pydantic takes a while to load. A field's `description` says what is allowed there,
and is what a message quotes.
"""

from __future__ import annotations

import re
import unicodedata
from collections.abc import Callable
from typing import Annotated, Any, TypeVar, get_args

from pydantic import AfterValidator, BaseModel, BeforeValidator, ConfigDict, ValidationError
from pydantic.fields import FieldInfo

from sonify.errors import Said, SonifyError, Words
from sonify.inputs.document import MOST_ADVICE, Fault, shown
from sonify.inputs.readings import UnreadableWord, unknown
from sonify.records.fact import Fact, did_you_mean, fact, wrong

Model = TypeVar("Model", bound=BaseModel)

_SPACES = re.compile(r"[ \t\r\n]+")


class Shape(BaseModel):
    model_config = ConfigDict(strict=True, extra="forbid", frozen=True)


def words(most: int, *, least: int = 1) -> AfterValidator:
    """A text that can be printed, its line breaks and runs of spaces made single spaces."""

    def check(text: str) -> str:
        clean = _SPACES.sub(" ", text).strip()
        _printable(clean)
        if len(clean) > most:
            raise UnreadableWord(wrong("error_inputs-characters-long-up", clean=len(clean), most=most))
        if least and not any(letter.isprintable() and not letter.isspace() for letter in clean):
            raise UnreadableWord(wrong("error_inputs-empty-write-words"))
        return clean

    return AfterValidator(check)


def _printable(text: str) -> None:
    """Refuse what neither paper, MusicXML nor a terminal can show: control characters and non-characters."""
    for letter in text:
        if unicodedata.category(letter) in ("Cc", "Cs") or ord(letter) & 0xFFFE == 0xFFFE:
            raise UnreadableWord(wrong("error_inputs-holds-character-printed", ord=f"{ord(letter):04X}"))


def within(low: float, high: float, unit: str = "") -> AfterValidator:
    """A number from low to high."""

    def check(value: float) -> float:
        if not low <= value <= high:  # also refuses nan
            raise UnreadableWord(
                wrong("error_inputs-allowed", value=shown(value), low=f"{low:g}", high=f"{high:g}", unit=unit)
            )
        return value

    return AfterValidator(check)


def read_by(reading: Callable[[str], object]) -> AfterValidator:
    """A text that a reading understands; the text itself is kept."""

    def check(text: str) -> str:
        reading(text)
        return text

    return AfterValidator(check)


def one_of(kind: str, allowed: tuple[str, ...]) -> AfterValidator:
    """One of a few known words."""

    def check(name: str) -> str:
        if name not in allowed:
            raise unknown(kind, name, allowed)
        return name

    return AfterValidator(check)


def size(low: int, high: int, of: str) -> BeforeValidator:
    """A list of low to high items, counted before any of them is looked at."""

    def check(items: object) -> object:
        if isinstance(items, list) and not low <= len(items) <= high:
            allowed = f"exactly {low}" if low == high else f"{low} to {high}"
            raise UnreadableWord(wrong("error_inputs-holds-allowed", items=len(items), of=of, allowed=allowed))
        return items

    return BeforeValidator(check)


Name = Annotated[str, words(60)]
Line = Annotated[str, words(300)]
Text = Annotated[str, words(1500)]


def validated(shape: type[Model], data: dict[str, Any]) -> tuple[Model | None, list[Fault]]:
    """The data in its shape and no faults, or None and every fault."""
    try:
        return shape.model_validate(data), []
    except ValidationError as error:
        return None, [_fault(shape, row, n < MOST_ADVICE) for n, row in enumerate(error.errors(include_url=False))]


def _fault(shape: type[BaseModel], row: Any, advise: bool) -> Fault:
    place: tuple[str | int, ...] = row["loc"]
    return Fault(key=".".join(map(str, place)), message=_message(shape, row, advise))


def _message(shape: type[BaseModel], row: Any, advise: bool) -> Words:
    if not advise:
        return wrong("error_inputs-not-here")
    table, field = _at(shape, row["loc"])
    name = str(row["loc"][-1])
    misplaced = None
    if len(row["loc"]) > 1 and name in keys_of(shape) and name not in keys_of(table):
        misplaced = wrong("error_inputs-misplaced", name=name)
    if row["type"] == "extra_forbidden":
        allowed = sorted(keys_of(table))
        near = misplaced or did_you_mean(name[:60], allowed)
        return wrong("error_inputs-unknown-key", near=near, allowed=", ".join(allowed))
    if row["type"] == "value_error":
        error = row["ctx"]["error"]
        return wrong("error_inputs-and", told=error, misplaced=misplaced) if misplaced else _words_of(error)
    wanted = field.description if field and field.description else "something else"
    if row["type"] == "missing":
        return wrong("error_inputs-missing-wanted", wanted=wanted)
    return wrong("error_inputs-is-wanted", value=shown(row["input"]), wanted=wanted)


def _words_of(error: Exception) -> Words:
    """What an error of ours says, as words or as itself; of anybody else's its text."""
    if not isinstance(error, SonifyError):
        return str(error)
    words = error.words
    if isinstance(words, Said):
        return fact(words.message, **words.places)
    return words if isinstance(words, Fact) else error


def keys_of(table: type[BaseModel] | None) -> set[str]:
    """The keys a table may have, as they are written in a file."""
    if table is None:
        return set()
    return {field.alias or name for name, field in table.model_fields.items()}


def _at(shape: type[BaseModel], place: tuple[str | int, ...]) -> tuple[type[BaseModel] | None, FieldInfo | None]:
    """The table that holds the last key of a place, and the last field on the way there."""
    table: type[BaseModel] | None = shape
    holder, field = table, None
    for step in place:
        if isinstance(step, int):
            continue
        holder = table
        found = {f.alias or name: f for name, f in table.model_fields.items()}.get(step) if table else None
        field = found or field
        table = _table_in(found.annotation) if found else None
    return holder, field


def _table_in(annotation: Any) -> type[BaseModel] | None:
    """The table within `list[Table]`, `Table | None` or `Table`."""
    if isinstance(annotation, type) and issubclass(annotation, BaseModel):
        return annotation
    return next((table for inner in get_args(annotation) if (table := _table_in(inner))), None)
