"""What is noticed in a table of readings: gaps, odd cells, doubles, spikes. All is told with its rows and kept."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view
from numpy.typing import NDArray

from sonify.records.findings import Finding
from sonify.records.timeline import FloatArray
from sonify.records.words import duration_text, measure_text, number_text

#: A reading stands out if it is further from the median of itself and its four neighbours than six times the usual
#: distance, and than three tenths of the usual range (our own limits; the first is Hampel's rule with a wide margin).
USUAL_DISTANCES, SHARE_OF_RANGE = 6.0, 0.3
#: Where more than this share stands out, it is how the quantity goes, and no single reading is a spike.
MOST_SPIKES = 0.01
LEAST_FOR_SPIKES = 8
#: A step of more than this many usual steps is a gap in time.
LONG_STEP = 1.5
MOST_NAMED = 6
#: Distance of a normal distribution's quartile from its middle, in standard deviations, turned over.
_MAD_TO_SIGMA = 1.4826


def note(message: str, fix: str = "", where: str = "") -> Finding:
    """A thing to know about the readings."""
    return Finding(kind="data", message=message, fix=fix, where=where, serious=False)


def rows_text(rows: Iterable[int], count: int | None = None) -> str:
    """Rows of the file as people read them.

    >>> rows_text([7]), rows_text([3, 9]), rows_text(range(2, 14))
    ('row 7', 'rows 3 and 9', 'rows 2, 3, 4, 5, 6, 7 and 6 more')
    """
    named = list(rows)
    count = len(named) if count is None else count
    if count == 1:
        return f"row {named[0]}"
    listed = [str(row) for row in named[:MOST_NAMED]]
    if count > len(listed):
        return f"rows {', '.join(listed)} and {count - len(listed)} more"
    return f"rows {', '.join(listed[:-1])} and {listed[-1]}"


def spikes(values: FloatArray) -> NDArray[np.intp]:
    """Where single readings (or two together) stand out from their neighbours. Gaps are passed over.

    >>> spikes(np.array([14.0, 14.1, 14.1, 14.2, 85.0, 14.2, 14.3, 14.3, 14.4]))
    array([4])
    """
    there = np.flatnonzero(np.isfinite(values))
    if there.size < LEAST_FOR_SPIKES:
        return there[:0]
    read = values[there]
    away = np.abs(read - _median_of_five(read))
    low, high = np.percentile(read, [5.0, 95.0])
    usual = _MAD_TO_SIGMA * float(np.median(away))
    found = there[away > max(USUAL_DISTANCES * usual, SHARE_OF_RANGE * float(high - low))]
    return found if found.size <= max(3, MOST_SPIKES * there.size) else there[:0]


def _median_of_five(values: FloatArray) -> FloatArray:
    """The running median of five, by comparing pairs: twenty times as fast as sorting every window."""
    a, b, c, d, e = sliding_window_view(np.pad(values, 2, mode="reflect"), 5).T
    f = np.maximum(np.minimum(a, b), np.minimum(c, d))
    g = np.minimum(np.maximum(a, b), np.maximum(c, d))
    middle: FloatArray = np.maximum(np.minimum(e, f), np.minimum(np.maximum(e, f), g))
    return middle


def column_findings(
    name: str, unit: str, values: FloatArray, rows: NDArray[np.int64], *, named: bool = False
) -> list[Finding]:
    """Gaps and spikes of one column. named: the rows are of a table of results, so one is no neighbour of the next."""
    found = []
    gaps = rows[~np.isfinite(values)]
    if gaps.size:
        bridge = "It has no turn in the music." if named else "In the music a straight line bridges the gap."
        found.append(note(f"{_counted(gaps.size, 'reading')} missing, in {rows_text(gaps.tolist())}.", bridge, name))
    out = spikes(values)[: 0 if named else None]
    if out.size:
        told = ", ".join(f"{measure_text(float(values[i]), unit)} in row {rows[i]}" for i in out[:MOST_NAMED].tolist())
        more = f" and {out.size - MOST_NAMED} more" if out.size > MOST_NAMED else ""
        fix = "They are kept. If an instrument slipped, mend or empty those cells in the file."
        found.append(note(f"Readings that stand out from their neighbours: {told}{more}.", fix, name))
    if values.size and np.isfinite(values).any() and np.nanmin(values) == np.nanmax(values):
        found.append(note(f"Every reading is {measure_text(float(np.nanmin(values)), unit)}.", "", name))
    return found


def odd_findings(name: str, odd: dict[int, str], count: int) -> list[Finding]:
    """Cells of a column of numbers that are no numbers."""
    if not count:
        return []
    shown = ", ".join(f'"{text[:20]}" in row {row}' for row, text in list(odd.items())[:MOST_NAMED])
    more = f" and {count - MOST_NAMED} more" if count > MOST_NAMED else ""
    message = f"Cells that are no numbers count as missing: {shown}{more}."
    return [note(message, "Write a number there, or leave the cell empty.", name)]


def time_findings(time_s: FloatArray, rows: NDArray[np.int64], heading: str) -> list[Finding]:
    """Doubles and long steps. time_s never falls; rows are those of the file."""
    found = []
    steps = np.diff(time_s)
    twice = np.flatnonzero(steps == 0.0)
    if twice.size:
        message = f"The same time comes more than once, in {rows_text(rows[twice + 1].tolist())}."
        found.append(note(message, "In the music their mean is heard.", heading))
    going = steps[steps > 0.0]
    if going.size:
        usual = float(np.median(going))
        long = np.flatnonzero(steps > LONG_STEP * usual)
        if long.size and long.size <= 0.2 * steps.size:
            longest = int(long[np.argmax(steps[long])])
            message = (
                f"The readings pause {_counted(long.size, 'time')}, after {rows_text(rows[long].tolist())}: for up to "
                f"{duration_text(float(steps[longest]))} instead of {duration_text(usual)}."
            )
            found.append(note(message, "In the music a straight line bridges the pause.", heading))
    return found


def _counted(number: int, noun: str) -> str:
    return f"{number_text(number, 12)} {noun}{'' if number == 1 else 's'}"


def left_out(names: Sequence[str], why: str, fix: str = "") -> list[Finding]:
    """Columns that are not played, and why."""
    return [note(f"The column {name} is not played: {why}.", fix, name) for name in names]
