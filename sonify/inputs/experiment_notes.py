"""What is noticed in a class's table, with its rows: cells that are no readings, sums left out, odd means."""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from sonify.inputs.experiment_words import listed, noticed, places
from sonify.inputs.measured_columns import Measured
from sonify.inputs.roles import Assigned
from sonify.inputs.sheet_blocks import Block
from sonify.inputs.sheet_columns import SheetColumn
from sonify.records.fact import fact
from sonify.records.findings import Finding
from sonify.records.timeline import FloatArray

#: A mean in the file may be rounded as coarsely as this share of the readings' own range.
ROUNDED = 0.051


def notes_of(whole: Block, block: Block, roles: Assigned, key: FloatArray, lost: Sequence[str]) -> list[Finding]:
    """All that was noticed. whole: the table with the rows that sum up; lost: of what nothing was read."""
    found: list[Finding] = []
    sums = [row for row in whole.rows if row not in block.rows]
    if sums:
        found.append(noticed("noticed-sums", where_rows=places(sums, across=block.across)))
    for one in roles.measured:
        for column in one.all_columns():
            found += _of_cells(column, block)
    if roles.changed is not None and (
        astray := [row for row, at in zip(block.rows, key, strict=True) if not np.isfinite(at)]
    ):
        found.append(noticed("noticed-astray", roles.changed.label, where_rows=places(astray, across=block.across)))
    if lost:
        found.append(noticed("noticed-lost", steps=listed(lost)))
    found += [told for mean in roles.means if (told := _of_mean(mean, roles.measured, block)) is not None]
    return found


def _of_cells(column: SheetColumn, block: Block) -> list[Finding]:
    """Cells of one column that are no readings, or were read with a pinch of salt."""
    found = []
    for how in ("about", "bound", "odd"):
        rows = [row for mark, row in column.marks if mark == how]
        if rows:
            cells = listed(column.cells[row] for row in rows)
            fix = fact(f"table-noticed-{how}-fix")
            where = places([block.rows[row] for row in rows], across=block.across)
            found.append(noticed(f"noticed-{how}", column.label, fix, cells=cells, where_rows=where))
    empty = [block.rows[row] for row, cell in enumerate(column.cells) if not cell]
    if empty and len(empty) < len(column.cells):
        found.append(
            noticed("noticed-empty", column.label, where_rows=places(empty, across=block.across), n=len(empty))
        )
    return found


def _of_mean(mean: SheetColumn, measured: Sequence[Measured], block: Block) -> Finding | None:
    """A column of means that says something else than its tries."""
    tries = [one for one in measured if not one.grouped and len(one.all_columns()) > 1]
    if len(tries) != 1 or not np.isfinite(mean.values).any():
        return None
    read = np.vstack([column.values for column in tries[0].all_columns()])
    there = np.isfinite(read).any(axis=0) & np.isfinite(mean.values)
    ours = np.full(mean.values.shape, np.nan)
    ours[there] = np.nanmean(read[:, there], axis=0)
    room = ROUNDED * np.maximum(np.abs(ours), 1.0)
    wrong = [block.rows[row] for row in np.flatnonzero(there & (np.abs(ours - mean.values) > room)).tolist()]
    if not wrong:
        return None
    fix = fact("table-noticed-mean-fix")
    return noticed("noticed-mean", mean.label, fix, where_rows=places(wrong, across=block.across))
