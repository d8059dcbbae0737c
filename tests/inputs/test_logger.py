"""Files as school loggers and spreadsheets really write them. All readings here are invented."""

from __future__ import annotations

import numpy as np
import pytest

from sonify.errors import BadFile
from sonify.inputs.logger import read_table
from sonify.records.table import NO_UNIT, Table
from sonify.say import say


def read(text: str, encoding: str = "utf-8") -> Table:
    return read_table(text.encode(encoding), file="readings.csv")


def told(table: Table) -> str:
    return "\n".join(f"{finding.where}: {say(finding.message)} {say(finding.fix)}" for finding in table.findings)


PLAIN = "Time (s),Temp (°C)\n0,14.5\n30,14.6\n60,14.9\n"


def check_plain(table: Table) -> None:
    """Three readings of 14.5, 14.6 and 14.9 °C, half a minute apart, and nothing odd about them."""
    assert table.time_s is not None and table.time_s.tolist() == [0.0, 30.0, 60.0]
    (column,) = table.columns
    assert (column.name, column.unit, column.values.tolist()) == ("temp", "degC", [14.5, 14.6, 14.9])
    assert table.findings == ()


@pytest.mark.parametrize(
    ("text", "encoding"),
    [
        (PLAIN, "utf-8"),
        (PLAIN, "utf-8-sig"),
        (PLAIN, "cp1252"),
        (PLAIN, "utf-16"),
        (PLAIN, "utf-16-le"),
        (PLAIN, "utf-16-be"),
        (PLAIN.replace("\n", "\r\n"), "utf-8"),
        (PLAIN.replace("\n", "\r"), "utf-8"),
        (PLAIN.rstrip(), "utf-8"),
        (PLAIN.replace(",", "\t"), "utf-8"),
        (PLAIN.replace(",", ";"), "utf-8"),
        (PLAIN.replace(",", "|"), "utf-8"),
        (PLAIN.replace(",", ";").replace(".", ","), "cp1252"),
        (PLAIN.replace(",", "\t").replace(".", ","), "utf-8"),
        ("sep=;\r\n" + PLAIN.replace(",", ";"), "utf-8"),
        ("Time (s),Temp (°C)\n0,14.5\n\n30,14.6\n\n60,14.9\n\n", "utf-8"),
        ('"Time (s)","Temp (°C)"\n"0","14,5"\n"30","14,6"\n"60","14,9"\n', "utf-8"),
        ("Time (s), Temp (°C)\n0, 14.5\n30, 14.6\n60, 14.9\n", "utf-8"),
        ("Time;Temp\ns;°C\n0;14.5\n30;14.6\n60;14.9\n", "utf-8"),
        ("Logger 7;\nInterval;30\nName;pond\n\nTime (s);Temp [degC]\n0;14,5\n30;14,6\n60;14,9\n", "utf-8"),
        ("elapsed min,T / °C\n0,14.5\n0.5,14.6\n1,14.9\n".replace("T /", "Temp /").replace(" min", " (min)"), "utf-8"),
        ("Elapsed,Temp °C\n0:00:00,14.5\n0:00:30,14.6\n0:01:00,14.9\n", "utf-8"),
        ("Time,Temp (°C)\n09:59:30,14.5\n10:00:00,14.6\n10:00:30,14.9\n", "utf-8"),
        ("Time,Temp (°C)\n9:59:30 am,14.5\n10:00:00 am,14.6\n10:00:30 am,14.9\n", "utf-8"),
        ("When,Temp (°C)\n2026-03-02T09:59:30Z,14.5\n2026-03-02T10:00:00Z,14.6\n2026-03-02T10:00:30Z,14.9\n", "utf-8"),
        ("When,Temp (°C)\n13/03/2026 09:59:30,14.5\n13/03/2026 10:00,14.6\n13/03/2026 10:00:30,14.9\n", "utf-8"),
        ("When,Temp (°C)\n2 Mar 2026 09:59:30,14.5\n2 Mar 2026 10:00,14.6\n2 Mar 2026 10:00:30,14.9\n", "utf-8"),
        ("Date,Time,Temp (°C)\n13.3.26,09:59:30,14.5\n13.3.26,10:00:00,14.6\n13.3.26,10:00:30,14.9\n", "utf-8"),
        ("Time (s),Temp\n0,14.5 °C\n30,14.6 °C\n60,14.9 °C\n", "utf-8"),
    ],
)
def test_one_table_written_in_many_ways_is_one_table(text: str, encoding: str) -> None:
    check_plain(read(text, encoding))


def test_how_it_was_written_is_remembered() -> None:
    table = read("made by hand\n\nTime (s);Temp (°C)\n0;14,5\n30;14,6\n", "cp1252")
    writing = table.writing
    assert (writing.encoding, writing.separator, writing.decimal, writing.above) == (
        "Windows-1252",
        "semicolons",
        "comma",
        2,
    )
    assert table.rows.tolist() == [4, 5]


@pytest.mark.parametrize(
    ("text", "kind", "start", "end", "hour"),
    [
        ("t (min),x\n1,1\n2,2\n", "elapsed", "1 min", "2 min", None),
        ("Time,x\n23:30,1\n00:10,2\n", "clock", "23:30", "00:10", 23.5),
        ("Date,x\n2026-03-02,1\n2026-03-04,2\n", "date", "2 March 2026", "4 March 2026", None),
        ("date,x\n20260302,1\n20260304,2\n", "date", "2 March 2026", "4 March 2026", None),
        ("year,x\n1871,1\n1873,2\n", "date", "1871", "1873", None),
        (
            "Date time,x\n2026-03-02 06:00,1\n2026-03-02 18:00,2\n",
            "date",
            "2 March 2026, 06:00",
            "2 March 2026, 18:00",
            6,
        ),
    ],
)
def test_times_are_understood(text: str, kind: str, start: str, end: str, hour: float | None) -> None:
    table = read(text)
    assert (table.time_kind, table.start, table.end, table.clock_start) == (kind, start, end, hour)


def test_midnight_between_clock_times_begins_a_new_day_and_is_told() -> None:
    table = read("Time,x (cm)\n23:30,1\n00:10,2\n")
    assert table.time_s is not None and table.time_s.tolist() == [0.0, 2400.0]
    assert "Midnight passes before row 3" in told(table)


def test_day_before_month_is_a_guess_that_is_told_unless_the_file_tells() -> None:
    assert "day before the month" in told(read("Date,x (cm)\n2/3/2026,1\n3/3/2026,2\n"))
    american = read("Date,x (cm)\n2/13/2026,1\n2/14/2026,2\n")
    assert (american.start, american.findings) == ("13 February 2026", ())
    # With the day first these would be 1 November, 1 December and 2 January of one year.
    assert read("Date,x (cm)\n1/11/2026,1\n1/12/2026,2\n2/1/2026,3\n").start == "11 January 2026"


def test_a_column_without_a_unit_stays_and_is_told() -> None:
    table = read("Time (s),Temp,Light (lux)\n0,1,2\n1,2,3\n")
    assert [(column.name, column.unit) for column in table.columns] == [("temp", NO_UNIT), ("light", "lux")]
    assert "temp: The file names no unit" in told(table)


def test_gaps_odd_cells_and_lines_below_the_table_are_told_with_their_rows() -> None:
    table = read("Time (s),Temp (°C)\n0,14\n1,\n2,error 7\n3,15\n4,n/a\nEnd of data\n")
    assert np.isnan(table.columns[0].values).tolist() == [False, True, True, False, True]
    text = told(table)
    assert '"error 7" in row 4' in text
    assert "3 readings missing, in rows 3, 4 and 6" in text
    assert "No reading stands in row 7" in text


def test_doubles_pauses_and_steps_back_are_told_and_kept() -> None:
    table = read("Time (s),Temp (°C)\n0,1\n1,2\n3,4\n2,3\n4,5\n4,6\n5,7\n6,8\n60,9\n61,9\n")
    assert table.time_s is not None and table.time_s.tolist() == [0, 1, 2, 3, 4, 4, 5, 6, 60, 61]
    assert table.columns[0].values.tolist() == [1, 2, 3, 4, 5, 6, 7, 8, 9, 9]
    assert table.rows.tolist() == [2, 3, 5, 4, 6, 7, 8, 9, 10, 11]
    text = told(table)
    assert "goes back at row 5" in text
    assert "The same time comes more than once, in row 7" in text
    assert "pause 1 time, after row 9: for up to 54 seconds instead of 1 second" in text


def test_a_spike_is_told_and_kept() -> None:
    values = [14.0 + 0.1 * (i % 3) for i in range(40)]
    values[20] = 85.0
    table = read("Time (s),Temp (°C)\n" + "".join(f"{i},{v}\n" for i, v in enumerate(values)))
    assert table.columns[0].values[20] == 85.0
    assert "stand out from their neighbours: 85 °C in row 22" in told(table)


def test_showers_are_no_spikes() -> None:
    rain = [0.0] * 200
    for i in range(0, 200, 7):
        rain[i] = 3.0 + i % 5
    table = read("Day,Rain (mm)\n" + "".join(f"{i},{v}\n" for i, v in enumerate(rain)))
    assert "stand out" not in told(table)


def test_readings_without_a_time_keep_the_order_of_the_file() -> None:
    table = read("Reading,Temp (°C)\n1,14\n2,\n3,15\n")
    assert (table.time_s, table.time_kind, table.labels) == (None, "", ())
    assert np.isnan(table.columns[0].values[1])
    assert "it only counts the rows" in told(table)


def test_one_column_with_a_decimal_comma_is_one_column() -> None:
    table = read("Temp (°C)\n14,5\n14,6\n14,9\n")
    assert [column.values.tolist() for column in table.columns] == [[14.5, 14.6, 14.9]]
    assert table.writing.separator == ""


def test_a_table_of_results_has_labels_and_a_declared_unit() -> None:
    table = read("material,reading,unit\nwool,12.5,cm\ncotton,8.1,cm\nfelt,,cm\n")
    assert (table.labels, table.label_heading) == (("wool", "cotton", "felt"), "material")
    assert (table.columns[0].name, table.columns[0].unit) == ("reading", "cm")
    assert "1 reading missing, in row 4" in told(table)


def test_headings_alike_are_told_apart() -> None:
    table = read("Time (s),Temp (°C),Temp (°C)\n0,1,2\n1,2,3\n")
    assert [column.name for column in table.columns] == ["temp", "temp (2)"]


def test_no_headings_are_told() -> None:
    table = read("0;14,2\n1;14,3\n2;14,5\n")
    assert table.time_kind == "elapsed" and table.columns[0].name == "column 2"
    assert "no headings" in told(table) and "taken for seconds" in told(table)


def test_thousands_and_what_could_be_thousands() -> None:
    assert read('Time (s),Steps\n0,"1,234.5"\n1,"2,345"\n').columns[0].values.tolist() == [1234.5, 2345.0]
    assert read("Time (s);Steps\n0;1.234,5\n1;2.345,0\n").columns[0].values.tolist() == [1234.5, 2345.0]
    guessed = read("Time (s);Steps\n0;1,234\n1;2,345\n")
    assert guessed.columns[0].values.tolist() == [1.234, 2.345]
    assert "taken for a decimal comma" in told(guessed)


def test_more_cells_than_columns_are_told() -> None:
    assert "More cells than the table has columns in row 3" in told(read("Time (s),x (m)\n0,1\n1,2,3\n2,3\n"))


@pytest.mark.parametrize(
    ("data", "message"),
    [
        (b"", "the file is empty"),
        (b" \r\n\t\n", "the file is empty"),
        (b"PK\x03\x04 and so on", "workbook.*CSV"),
        (b"\x00\x01\x02\xff\xfe binary", "not a text file"),
        (b"a,b\nc,d\n", "holds no numbers"),
        (b"Time (s),Temp\n0,14.2\n", "one row of readings"),
        (b"Time (s),Temp (C)\n0,\n1,\n2,NA\n", "every reading is missing"),
        (b"Time (s),Temp (C)\n0,n/a\n1,-\n", "every reading is missing"),
        (b"Time (s),State\n0,on\n1,off\n", "no column of numbers besides the time"),
        (
            b"Material,Stretch\nwool,12 cm\nfelt,30 mm\n",
            "line 3: mixed units: the column Stretch is in cm and here in mm",
        ),
        (b"Material,Stretch (cm)\nwool,12 cm\nfelt,30 mm\n", "line 3: mixed units"),
        (b"material,reading,unit\nwool,12,cm\nfelt,30,mm\n", "line 3: mixed units"),
        (b'Time (s),x\n0,"1\n1,2\n' + b"2,3\n" * 60, "line 2: a quotation mark that opens here is never closed"),
        (b"Time (s),x\n" + b"0,1\n" * 500 + b'1,"2\n' + b"2,3\n" * 60, "line 502: a quotation mark"),
    ],
)
def test_what_is_no_table_gets_one_clear_message(data: bytes, message: str) -> None:
    with pytest.raises(BadFile, match=message) as caught:
        read_table(data, file="readings.csv")
    assert str(caught.value).startswith("readings.csv") and "\n" not in str(caught.value)


def test_two_hundred_columns_are_refused_by_number() -> None:
    rows = [",".join(f"column {i}" for i in range(200)), *[",".join(["1"] * 200)] * 3]
    with pytest.raises(BadFile, match="200 columns; up to 50 are read"):
        read("\n".join(rows))


def test_numbers_no_instrument_reads_are_odd_cells() -> None:
    table = read("Time (s),x (m)\n0,1\n1,1e300\n2,inf\n3,1_000\n4,2\n")
    assert np.isnan(table.columns[0].values).tolist() == [False, True, True, True, False]
    assert '"1e300" in row 3, "inf" in row 4 and "1_000" in row 5' in told(table)
