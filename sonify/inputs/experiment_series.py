"""One table of a sheet made into an experiment: its rows sorted into steps and groups, its repeats averaged."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace

import numpy as np
from numpy.typing import NDArray

from sonify.constants import DAY_S
from sonify.errors import BadFile
from sonify.frozen import dataclass
from sonify.inputs.document import one_line
from sonify.inputs.experiment_notes import notes_of
from sonify.inputs.experiment_words import doubt, flag
from sonify.inputs.logger_layout import unlike
from sonify.inputs.measured_columns import Measured
from sonify.inputs.roles import BOTH, Assigned, assigned
from sonify.inputs.school_cells import yes_or_no
from sonify.inputs.sheet import Sheet
from sonify.inputs.sheet_blocks import Block
from sonify.inputs.sheet_columns import SUMMED, SheetColumn, columns_of, spelled, time_of
from sonify.kinds.experiments import BEFORE_AFTER, NUMBER, OVER_TIME
from sonify.records.experiment import Doubt, Experiment, Roles, Series
from sonify.records.fact import Fact, wrong
from sonify.records.table import Column, Table
from sonify.records.timeline import FloatArray
from sonify.records.words import date_text
from sonify.units import NO_UNIT

LEAST_STEPS = 2
#: More rows of names than this are repeats of before and after, not groups to be told apart.
MOST_COMPARED = 8
NOTHING = wrong("error_readings-nothing-measured")
MISSING = wrong("error_readings-nothing-under")


@dataclass(frozen=True, slots=True, eq=False)
class _Steps:
    """Where each row of the table stands. key: its step (nan for none). label: what its step is called."""

    key: FloatArray
    label: tuple[str, ...]
    unit: str
    kind: str = ""
    dated: bool = False
    clocked: bool = False


def made(block: Block, sheet: Sheet, said: Roles, *, file: str, sha256: str) -> Experiment:
    """The experiment of one table. Raises BadFile where it is none, UnknownName for a column that is not there."""
    whole, block = block, _without_sums(block)
    columns, numerals = columns_of(block, sheet.separator, file=file)
    roles = assigned(block, columns, said)
    if roles is None:
        raise BadFile(file, MISSING if any(each.kind == "empty" for each in columns) else NOTHING)
    doubts = list(roles.doubts)
    steps = _steps(roles, block, said, doubts)
    both = roles.shape == BEFORE_AFTER and roles.name == BOTH
    values, labels = _kept_steps(steps, both)
    groups = _groups(roles, both, doubts)
    series = tuple(
        each
        for one in roles.measured
        for each in (_of_columns(one, groups, roles) if both else _of_rows(one, groups, roles, steps, values))
    )
    silent = [each.name for each in series if not np.isfinite(each.values).any()]
    series = tuple(each for each in series if np.isfinite(each.values).any())
    some = (
        np.any([np.isfinite(each.values) for each in series], axis=0) if series else np.zeros(values.size, dtype=bool)
    )
    if some.sum() < LEAST_STEPS:
        raise BadFile(file, _too_few(block, labels, some))
    lost = [label for label, there in zip(labels, some, strict=True) if not there]
    findings = notes_of(whole, block, roles, steps.key, (*silent, *lost))
    at = values[some]
    if roles.shape == OVER_TIME:
        at = at - at[0]
    elif _worded(roles):
        at = np.arange(at.size, dtype=np.float64)
    return Experiment(
        shape=roles.shape,
        changed=roles.name,
        changed_unit=steps.unit,
        steps=at,
        labels=tuple(label for label, there in zip(labels, some, strict=True) if there),
        series=tuple(_cut(each, some) for each in series),
        groups=tuple(dict.fromkeys(each.group for each in series if each.group)),
        table=_table(block, sheet, roles, steps, both, file, sha256, findings, numerals.sign),
        kept=tuple(each.label for each in roles.kept),
        unused=tuple(each.label for each in roles.unused),
        doubts=tuple(doubts),
        roles=_resolved(roles, block, both),
    )


def _too_few(block: Block, labels: Sequence[str], some: NDArray[np.bool_]) -> Fact:
    if len(block.body) == 1:
        return wrong("error_readings-one-row")
    if not some.any():
        return wrong("error_readings-none-of-a-step")
    label = next(label for label, there in zip(labels, some, strict=True) if there)
    return wrong("error_readings-one-step", step=one_line(label, 40))


def _worded(roles: Assigned) -> bool:
    return roles.shape not in (OVER_TIME, NUMBER)


def _without_sums(block: Block) -> Block:
    """The table without rows that sum up the others, by their name."""
    stays = [not SUMMED.fullmatch(next(filter(None, row), "").strip(" :.")) for row in block.body]
    if all(stays) or sum(stays) < LEAST_STEPS:
        return block
    body = tuple(row for row, stay in zip(block.body, stays, strict=True) if stay)
    return replace(block, body=body, rows=tuple(row for row, stay in zip(block.rows, stays, strict=True) if stay))


# --- steps -----------------------------------------------------------------------------------------------------------


def _steps(roles: Assigned, block: Block, said: Roles, doubts: list[Doubt]) -> _Steps:
    changed = roles.changed
    count = len(block.body)
    if changed is None:
        numbers = np.arange(1.0, count + 1.0)
        return _Steps(numbers, tuple(f"{number:g}" for number in numbers), NO_UNIT)
    if roles.shape == OVER_TIME:
        return _times(roles, changed, said, doubts)
    if roles.shape == NUMBER:
        return _Steps(changed.values, changed.cells, changed.unit)
    words = changed.words()
    place = {word: float(number) for number, word in enumerate(words)}
    key = np.array([place[spelled(changed.cells, cell)] if cell else np.nan for cell in changed.cells])
    return _Steps(key, tuple(spelled(changed.cells, cell) if cell else "" for cell in changed.cells), "")


def _times(roles: Assigned, changed: SheetColumn, said: Roles, doubts: list[Doubt]) -> _Steps:
    again = roles.words is not None
    named = _unit_said(said)
    found = time_of(changed, again=again, unit=named)
    if found is None:  # numbers that somebody called a time
        return _Steps(changed.values, changed.cells, "s", "elapsed")
    times, unsure = found
    seconds = np.array([np.nan if second is None else second for second in times.seconds])
    label = changed.cells
    clocked = times.clocked
    if roles.clock is not None and (clock := time_of(roles.clock, again=True)) is not None:
        # The date says which day it is: midnight begins it.
        seconds = seconds + np.array([np.nan if second is None else second % DAY_S for second in clock[0].seconds])
        label = tuple(f"{day}, {hour}" for day, hour in zip(changed.cells, roles.clock.cells, strict=True))
        clocked = True
    if unsure == "serial":
        label = tuple("" if second is None else date_text(int(second // DAY_S)) for second in times.seconds)
    if unsure:
        settled = flag("changed", f"{changed.heading or 'Time'} (min)") if unsure in ("unit", "stopwatch") else ""
        doubts.append(doubt(f"time-{unsure}", settled, name=changed.label))
    doubts += [doubt(f"time-{guess}", "", name=changed.label) for guess in times.guessed]
    return _Steps(seconds, label, "s", times.kind, times.dated, clocked)


def _unit_said(said: Roles) -> str:
    from sonify.inputs.logger_units import TIME_UNITS, name_and_unit

    unit = name_and_unit(said.changed)[1] if said.changed else ""
    return unit if unit in TIME_UNITS else ""


def _kept_steps(steps: _Steps, both: bool) -> tuple[FloatArray, list[str]]:
    """The different steps in order, and what each is called."""
    if both:
        return np.array([0.0, 1.0]), ["before", "after"]
    there = np.isfinite(steps.key)
    values, first = np.unique(steps.key[there], return_index=True)
    places = np.flatnonzero(there)[first]
    return values, [steps.label[place] for place in places]


# --- groups and series -----------------------------------------------------------------------------------------------


def _groups(roles: Assigned, both: bool, doubts: list[Doubt]) -> tuple[str, ...]:
    """The groups that stand in a column of words."""
    if roles.words is None:
        return ()
    words = roles.words.words()
    if both and len(words) > MOST_COMPARED:
        doubts.append(doubt("averaged", flag("groups", roles.words.label), n=len(words), name=roles.words.label))
        return ()
    return words if len(words) > 1 else ()


def _of_rows(one: Measured, groups: Sequence[str], roles: Assigned, steps: _Steps, values: FloatArray) -> list[Series]:
    """A quantity whose steps are rows: a series for each group of columns, or for each word of the column of groups."""
    place = np.searchsorted(values, np.where(np.isfinite(steps.key), steps.key, values[0] if values.size else 0.0))
    found = []
    for group, columns in one.columns:
        for word in groups or ("",):
            belongs = np.isfinite(steps.key) & _belongs(roles.words, word)
            name = ", ".join(filter(None, (group, _called(roles.words, word))))
            readings = [(place[belongs], column.values[belongs]) for column in columns]
            found.append(_averaged(one, name, readings, values.size))
    return found


def _called(words: SheetColumn | None, word: str) -> str:
    """What a group is called: by its word, and where that is yes or no, by what was asked: "not stirred"."""
    if not word or words is None or words.kind != "answer":
        return word
    if words.name.endswith("ed"):
        return words.name if yes_or_no(word) else f"not {words.name}"
    return f"{words.name}: {word}"


def _belongs(words: SheetColumn | None, word: str) -> NDArray[np.bool_] | bool:
    if words is None or not word:
        return True
    return np.array([cell.casefold() == word.casefold() for cell in words.cells])


def _of_columns(one: Measured, groups: Sequence[str], roles: Assigned) -> list[Series]:
    """A quantity before and after: its columns are the steps, its rows the groups, or repeats."""
    found = []
    for word in groups or ("",):
        belongs = np.broadcast_to(_belongs(roles.words, word), one.all_columns()[0].values.shape)
        readings = [
            (np.full(int(belongs.sum()), step), column.values[belongs])
            for step, (_, columns) in enumerate(one.columns)
            for column in columns
        ]
        found.append(_averaged(one, word, readings, 2))
    return found


def _averaged(one: Measured, group: str, readings: Sequence[tuple[NDArray[np.intp], FloatArray]], count: int) -> Series:
    at = np.concatenate([place for place, _ in readings])
    read = np.concatenate([values for _, values in readings])
    by_step = [read[(at == step) & np.isfinite(read)] for step in range(count)]

    def each(of: Callable[[FloatArray], float]) -> FloatArray:
        return np.array([of(values) if values.size else np.nan for values in by_step], dtype=np.float64)

    return Series(
        quantity=one.name,
        group=group,
        unit=one.unit,
        values=each(lambda values: float(values.mean())),
        least=each(lambda values: float(values.min())),
        most=each(lambda values: float(values.max())),
        tries=np.array([values.size for values in by_step]),
        every=tuple(tuple(values.tolist()) for values in by_step) if max(map(len, by_step), default=0) > 1 else (),
        counted=one.counted,
    )


def _cut(series: Series, some: NDArray[np.bool_]) -> Series:
    return replace(
        series,
        values=series.values[some],
        least=series.least[some],
        most=series.most[some],
        tries=series.tries[some],
        every=tuple(each for each, there in zip(series.every, some, strict=True) if there) if series.every else (),
    )


# --- what was read ---------------------------------------------------------------------------------------------------


def _table(
    block: Block,
    sheet: Sheet,
    roles: Assigned,
    steps: _Steps,
    both: bool,
    file: str,
    sha256: str,
    findings: Sequence[object],
    decimal: str,
) -> Table:
    """The rows and the measured columns of the file, in the order of time where there is one."""
    keep = np.arange(len(block.body)) if both else np.flatnonzero(np.isfinite(steps.key))
    timed = roles.shape == OVER_TIME
    if timed:
        keep = keep[np.argsort(steps.key[keep], kind="stable")]
    columns = [column for one in roles.measured for column in one.all_columns()]
    names = unlike(name for one in roles.measured for name in _names(one))
    first, last = (float(steps.key[keep[end]]) if timed else 0.0 for end in (0, -1))
    return Table(
        file=file,
        columns=tuple(
            Column(name=name, unit=column.unit, values=column.values[keep], heading=column.heading)
            for name, column in zip(names, columns, strict=True)
        ),
        rows=np.array(block.rows)[keep],
        writing=sheet.writing(decimal),
        time_s=steps.key[keep] - first if timed else None,
        time_heading=roles.name if timed else "",
        time_kind=steps.kind,
        start=_told(steps, keep[0], first) if timed else "",
        end=_told(steps, keep[-1], last) if timed else "",
        start_day=int(first // DAY_S) if timed and steps.dated else None,
        clock_start=first % DAY_S / 3600.0 if timed and steps.clocked else None,
        labels=tuple(steps.label[row] for row in keep) if _worded(roles) and not both else (),
        label_heading=roles.name if _worded(roles) and not both else "",
        findings=tuple(findings),  # type: ignore[arg-type]
        sha256=sha256,
    )


def _names(one: Measured) -> list[str]:
    """What the columns of a quantity are called: its tries by number, its groups by name."""
    found = []
    for group, columns in one.columns:
        name = f"{one.name}: {group}" if group else one.name
        found += [name] if len(columns) == 1 else [f"{name} {number}" for number in range(1, len(columns) + 1)]
    return found


def _told(steps: _Steps, row: int, second: float) -> str:
    """A moment as people write it: a date with its month's name, anything else as it stands in the file."""
    return date_text(int(second // DAY_S)) if steps.dated and not steps.clocked else steps.label[row]


def _resolved(roles: Assigned, block: Block, both: bool) -> Roles:
    """Every column's role by its label, so that a file read with these is read in the same way."""
    repeats = [c.label for one in roles.measured for _, columns in one.columns if len(columns) > 1 for c in columns]
    by_columns = [one for one in roles.measured if one.grouped and not both]
    groups: str | tuple[str, ...] = roles.words.label if roles.words is not None else ""
    if by_columns and roles.words is None:
        groups = tuple(
            dict.fromkeys(
                columns[0].label if len(columns) == 1 else columns[0].over or group
                for one in by_columns
                for group, columns in one.columns
            )
        )
    return Roles(
        changed=roles.changed.label if roles.changed is not None and not both else BOTH if both else None,
        measured=tuple(
            one.name if len(one.all_columns()) > 1 else one.all_columns()[0].label for one in roles.measured
        ),
        repeats=tuple(repeats),
        groups=groups,
        kept=tuple(each.label for each in roles.kept),
        unused=tuple(each.label for each in roles.unused),
        across=True if block.across else None,
    )
