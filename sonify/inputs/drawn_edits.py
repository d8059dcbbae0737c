"""Drawn quantities set anew in a scene's text, as a page sends them: the author's comments, order and spacing stay."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from math import floor, inf, isfinite, log10
from typing import Any

from sonify.errors import BadFile
from sonify.frozen import dataclass
from sonify.inputs.document import one_line
from sonify.records.fact import wrong

#: What a stroke of the hand is made of at most, and what is kept of it.
MOST_SENT, MOST_KEPT = 5000, 120
#: A place that is left out lies nearer to the line that is kept than this share of the height of the drawing.
CLOSE = 0.01
#: A line that is drawn needs so many decimal places of a stage.
PLACES = 3
#: The key of a quantity that is not there yet.
NEW = "new"

_GIVEN = ("values", "points", "shape", "from", "to", "times", "at")
_NAMED = ("name", "unit")

Points = Sequence[tuple[float, float]]


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnEdit:
    """What is set anew in one [[drawn]]. lines: its keys with their values; remove: the whole table is taken out."""

    lines: tuple[tuple[str, Any], ...] = ()
    remove: bool = False


def edited_drawn_text(text: str, edits: Mapping[str, DrawnEdit], *, file: str) -> str:
    """The text with drawn quantities set anew, by number ("0" is the first) or NEW for one more.

    Raises BadFile for a quantity that the file does not have.
    """
    if not edits:
        return text
    import tomlkit

    document: Any = tomlkit.parse(text.removeprefix("\ufeff").replace("\r\n", "\n"))
    rows: Any = document.get("drawn", [])
    for number, edit in edits.items():
        if number != NEW and int(number) >= len(rows):
            raise BadFile(
                file, wrong("error_drawn-drawn-quantity-scene", value=int(number) + 1, rows=len(rows)), key="drawn"
            )
        if number != NEW and not edit.remove:
            _set(rows[int(number)], edit.lines)
    for place in sorted((int(number) for number, edit in edits.items() if edit.remove), reverse=True):
        del rows[place]
    if NEW in edits:
        _append(document, edits[NEW].lines)
    return str(tomlkit.dumps(document))


def _set(row: Any, lines: Sequence[tuple[str, Any]]) -> None:
    """One table: what is given in another way than before loses the lines of that way."""
    given = {key for key, _ in lines}
    if given - set(_NAMED):
        for key in _GIVEN:
            if key in row and key not in given:
                del row[key]
    for key, value in lines:
        if key not in row or row[key] != value:
            row[key] = value


def _append(document: Any, lines: Sequence[tuple[str, Any]]) -> None:
    import tomlkit

    row = tomlkit.table()
    for key, value in lines:
        row[key] = value
    if "drawn" in document:
        document["drawn"].append(row)
        return
    rows = tomlkit.aot()
    rows.append(row)
    document.append("drawn", rows)


def drawn_edit_of(number: str, given: object, *, file: str) -> tuple[str, DrawnEdit]:
    """One quantity's number and its edit, from plain data as a page sends it. Raises BadFile for another shape.

    given: {"remove": true}, or any of name, unit, and one of {"points": [[place, value], ...]}, {"values": [...]} and
    {"shape": "rises", "from": 0, "to": 10}. Points may be a whole stroke of the hand: what is kept of it is as few as
    draw the same line. low, high: how high the drawing is; close: how many stages a circle has, which closes itself, so
    that no point is kept there.
    """
    key = f"drawn.{one_line(number, 10)}"
    if number != NEW and not (number.isascii() and number.isdigit() and len(number) < 3):
        raise BadFile(file, wrong("error_drawn-drawn-quantity-number"), key=key)
    if not isinstance(given, dict):
        raise BadFile(file, wrong("error_drawn-wanted-table-name"), key=key)
    if given.get("remove") is True and number != NEW:
        return number, DrawnEdit(remove=True)
    if unknown := sorted(map(str, set(given) - {*_GIVEN, *_NAMED, "low", "high", "close"})):
        raise BadFile(file, wrong("error_drawn-changed-here", unknown=one_line(unknown[0], 40)), key=key)
    lines = {name: given[name] for name in (*_NAMED, *_GIVEN) if given.get(name) is not None}
    if any(not isinstance(value, str | int | float | list) for value in lines.values()):
        raise BadFile(file, wrong("error_drawn-wanted-texts-numbers"), key=key)
    if "points" in lines:
        points = _points(lines["points"], file, key)
        points = [each for each in points if each[0] < _close(given)] or points[:1]
        lines["points"] = [list(each) for each in simplified(points, _height(given))]
    return number, DrawnEdit(lines=tuple(lines.items()))


def _height(given: Mapping[str, Any]) -> float:
    """How high the drawing is, in the quantity's unit; 0 where the page does not say."""
    ends = [given.get(end) for end in ("low", "high")]
    if all(isinstance(end, int | float) and isfinite(end) for end in ends):
        return abs(float(ends[1]) - float(ends[0]))  # type: ignore[arg-type]
    return 0.0


def _close(given: Mapping[str, Any]) -> float:
    close = given.get("close")
    return float(close) if isinstance(close, int) and not isinstance(close, bool) else inf


def _points(given: Any, file: str, key: str) -> list[tuple[float, float]]:
    fault = BadFile(file, wrong("error_drawn-wanted-up-pairs", most_sent=MOST_SENT), key=f"{key}.points")
    if not isinstance(given, list) or not 0 < len(given) <= MOST_SENT:
        raise fault
    found = []
    for pair in given:
        plain = isinstance(pair, list) and len(pair) == 2
        if not plain or not all(isinstance(each, int | float) and not isinstance(each, bool) for each in pair):
            raise fault
        if not all(isfinite(each) and abs(each) <= 1e12 for each in pair):
            raise fault
        found.append((float(pair[0]), float(pair[1])))
    return found


def simplified(points: Points, height: float = 0.0) -> list[tuple[float, float]]:
    """As few points as draw the same line, in rising places; where a hand went back, its last word counts.

    height: of the whole drawing, in the unit of the values; 0 takes that of the points.

    >>> simplified([(0, 1), (0.5, 2), (1, 3), (2, 3)])
    [(0.0, 1.0), (1.0, 3.0), (2.0, 3.0)]
    """
    last: dict[float, float] = {}
    for place, value in points:
        last[round(float(place), PLACES)] = float(value)
    line = sorted(last.items())
    values = [value for _, value in line]
    height = height or max(values) - min(values)
    if height:
        grain = 3 - floor(log10(height))
        line = [(place, round(value, grain)) for place, value in line]
    close = CLOSE * height
    while len(kept := _kept(line, close)) > MOST_KEPT:
        close *= 1.5
    return kept if len(kept) > 1 else [*kept, (kept[0][0] + 10.0**-PLACES, kept[0][1])]


def _kept(line: list[tuple[float, float]], close: float) -> list[tuple[float, float]]:
    """The ends, and where the line lies farthest from what is kept, until nothing is far (Ramer; Douglas, Peucker)."""
    keep, open_spans = {0, len(line) - 1}, [(0, len(line) - 1)]
    while open_spans:
        first, last = open_spans.pop()
        (x0, y0), (x1, y1) = line[first], line[last]
        gaps = [abs(y - (y0 + (y1 - y0) * (x - x0) / (x1 - x0))) for x, y in line[first + 1 : last]]
        if gaps and max(gaps) > close:
            farthest = first + 1 + gaps.index(max(gaps))
            keep.add(farthest)
            open_spans += [(first, farthest), (farthest, last)]
    return [line[number] for number in sorted(keep)]
