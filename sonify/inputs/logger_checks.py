"""What is noticed in a table of readings: gaps, odd cells, doubles, spikes. All is told with its rows and kept."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view
from numpy.typing import NDArray

from sonify.records.fact import Amount, Arg, Duration, Fact, fact
from sonify.records.findings import Finding
from sonify.records.timeline import FloatArray
from sonify.units import NO_UNIT

#: A reading stands out if it is further from the median of itself and its four neighbours than six times the usual
#: distance, and than three tenths of the usual range (our own limits; the first is Hampel's rule with a wide margin).
USUAL_DISTANCES, SHARE_OF_RANGE = 6.0, 0.3
#: Why a figure of these sentences has no reading behind it: there is no Timeline yet.
AS_READ = "as read from the file"
#: Where more than this share stands out, it is how the quantity goes, and no single reading is a spike.
MOST_SPIKES = 0.01
LEAST_FOR_SPIKES = 8
#: A step of more than this many usual steps is a gap in time.
LONG_STEP = 1.5
MOST_NAMED = 6
#: Distance of a normal distribution's quartile from its middle, in standard deviations, turned over.
_MAD_TO_SIGMA = 1.4826


def note(message: str, where: str = "", *, fix: bool = False, **places: Arg) -> Finding:
    """A thing to know about the readings, by its message in `logger.ftl`. fix: there is one that says what to do."""
    told = fact(f"logger-{message}", **places)
    return Finding(
        kind="data",
        message=told,
        fix=fact(f"logger-{message}-fix", **places) if fix else "",
        where=where,
        serious=False,
    )


def rows_told(rows: Iterable[int], count: int | None = None) -> Fact:
    """Rows of the file as people read them: the first few, and how many more. count: where not all are in `rows`."""
    named = list(rows)
    count = len(named) if count is None else count
    *first, last = map(str, named[:MOST_NAMED])
    more = count - len(first) - 1
    return fact("logger-rows", n=count, first=", ".join(first), last=last, more=more)


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
        rows_of_gaps = rows_told(gaps.tolist())
        found.append(note("gaps", name, fix=True, n=int(gaps.size), rows=rows_of_gaps, table="yes" if named else "no"))
    out = spikes(values)[: 0 if named else None]
    if out.size:
        told = tuple(
            fact("logger-in-row", what=_figure(float(values[i]), unit), row=str(rows[i]))
            for i in out[:MOST_NAMED].tolist()
        )
        found.append(note("spikes", name, fix=True, which=told, more=max(0, int(out.size) - MOST_NAMED)))
    if values.size and np.isfinite(values).any() and np.nanmin(values) == np.nanmax(values):
        found.append(note("level", name, value=_figure(float(np.nanmin(values)), unit)))
    return found


def odd_findings(name: str, odd: dict[int, str], count: int) -> list[Finding]:
    """Cells of a column of numbers that are no numbers."""
    if not count:
        return []
    shown = tuple(
        fact("logger-in-row", what=f'"{text[:20]}"', row=str(row)) for row, text in list(odd.items())[:MOST_NAMED]
    )
    return [note("odd", name, fix=True, which=shown, more=max(0, count - MOST_NAMED))]


def time_findings(time_s: FloatArray, rows: NDArray[np.int64], heading: str) -> list[Finding]:
    """Doubles and long steps. time_s never falls; rows are those of the file."""
    found = []
    steps = np.diff(time_s)
    twice = np.flatnonzero(steps == 0.0)
    if twice.size:
        found.append(note("twice", heading, fix=True, rows=rows_told(rows[twice + 1].tolist())))
    going = steps[steps > 0.0]
    if going.size:
        usual = float(np.median(going))
        long = np.flatnonzero(steps > LONG_STEP * usual)
        if long.size and long.size <= 0.2 * steps.size:
            longest = int(long[np.argmax(steps[long])])
            pause, step = (Duration(seconds=each, given=AS_READ) for each in (float(steps[longest]), usual))
            after = rows_told(rows[long].tolist())
            found.append(note("pauses", heading, fix=True, n=int(long.size), rows=after, pause=pause, usual=step))
    return found


def _figure(value: float, unit: str) -> Amount:
    return Amount(value=value, unit="1" if unit == NO_UNIT else unit, given=AS_READ)


def left_out(names: Sequence[str], why: Fact) -> list[Finding]:
    """Columns that are not played, and why."""
    return [note("left-out", name, column=name, why=why) for name in names]
