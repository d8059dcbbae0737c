"""Whatever bytes a file holds, a Table comes of it or one clear message, and soon; and rows by the million in time."""

from __future__ import annotations

import time

import numpy as np
from hypothesis import example, given
from hypothesis import strategies as st

from sonify.errors import SonifyError
from sonify.inputs.logger import read_table
from sonify.records.table import Table
from sonify.say import say

CELLS = st.sampled_from(
    ["0", "1", "14,5", "-3.2", "1e9", "12:30", "2026-03-02", "02/03/2026 10:00", "°C", "wool", "Temp (°C)", "Time (s)"]
    + ["", '"', "n/a", "12 cm", "7 mm", "=1+1", "year", "1871", "1.234,5", "\x00", "é", "\u2028", "--", "9" * 50]
)
TABLES = st.builds(
    lambda rows, separator, end: end.join(separator.join(row) for row in rows),
    st.lists(st.lists(CELLS, max_size=6), max_size=12),
    st.sampled_from([",", ";", "\t", "|", " "]),
    st.sampled_from(["\n", "\r\n", "\r"]),
)


def check(data: bytes) -> None:
    began = time.process_time()
    try:
        table = read_table(data, file="any.csv")
    except SonifyError as error:
        assert str(error).isprintable()
    else:
        assert isinstance(table, Table) and table.rows.size >= 2 and table.columns
        for column in table.columns:
            assert column.name.isprintable() and column.read.size and np.abs(column.read).max() <= 1e11
        assert all(say(finding.message).isprintable() for finding in table.findings)
    assert time.process_time() - began < 2.0


@given(st.binary(max_size=2000))
@example(b"\xff\xfe")
@example(b"\xef\xbb\xbf")
@example(b'"')
def test_any_bytes(data: bytes) -> None:
    check(data)


@given(TABLES, st.sampled_from(["utf-8", "utf-16", "utf-8-sig"]))
@example("Time\n1\n2", "utf-8")
@example("material,reading,unit\na,1,c\tm1\nb,2,mm", "utf-8")
@example("2026-03-02,1\n,2\n2026-03-03,3", "utf-8")
def test_any_table(text: str, encoding: str) -> None:
    check(text.encode(encoding))


def test_time_goes_with_the_rows() -> None:
    """Eight times the rows take about eight times as long, nowhere near sixty-four; the best of several, for other work
    on the machine only ever adds."""

    def seconds(rows: int) -> float:
        lines = ["When;Temp (°C);Light (lux)"]
        for i in range(rows):
            clock = f"{i // 3600 % 24:02d}:{i // 60 % 60:02d}:{i % 60:02d}"
            lines.append(f"{13 + i // 86400}/03/2026 {clock};{14 + i % 97 / 50:.2f};{i % 331}")
        data = "\n".join(lines).encode()
        began = time.process_time()
        assert read_table(data, file="many.csv").rows.size == rows
        return time.process_time() - began

    seconds(1000)
    many, few = (min(seconds(rows) for _ in range(4)) for rows in (80_000, 10_000))
    assert many < 24.0 * few
