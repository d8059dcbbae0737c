"""Spreadsheets that would cost a machine its memory, refused by what they declare; `tests.campaign` has more."""

from __future__ import annotations

import io
import zipfile

import pytest

from sonify.errors import BadFile
from sonify.inputs.experiment import read_experiment
from sonify.inputs.workbook_checks import MOST_UNPACKED, checked
from tests.inputs.tables import FOLDER

CELL = b'<c r="B2" t="n"><v>12</v></c>'


def edited(name: str, member: str, old: bytes, new: bytes) -> bytes:
    """A spreadsheet of the folder with one place of one member changed."""
    made = io.BytesIO()
    with zipfile.ZipFile(FOLDER / name) as read, zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as written:
        for item in read.infolist():
            held = read.read(item)
            if item.filename == member:
                assert old in held
                held = held.replace(old, new, 1)
            written.writestr(item.filename, held)
    return made.getvalue()


def refused(data: bytes, name: str = "ours.xlsx") -> str:
    with pytest.raises(BadFile) as told:
        read_experiment(data, file=name)
    return str(told.value)


@pytest.mark.parametrize(
    ("new", "told"),
    [
        (b'<c r="XFD1048576" t="n"><v>12</v></c>', "row 1048576, column 16384 of a sheet, far beyond any table"),
        (b'<c r="AAAAAAA2" t="n"><v>12</v></c>', "cut off or damaged"),
        (b'<c r="B2" t="n"><v>12</v></c><q>' + b" " * MOST_UNPACKED + b"</q>", "unpacks to more than a class"),
    ],
    ids=["far", "farther", "blanks"],
)
def test_a_cell_that_claims_too_much_is_refused(new: bytes, told: str) -> None:
    assert told in refused(edited("magnet.xlsx", "xl/worksheets/sheet1.xml", CELL, new))


def test_a_cell_with_nothing_in_it_may_be_far_away() -> None:
    data = edited("magnet.xlsx", "xl/worksheets/sheet1.xml", CELL, CELL + b'<c r="XFD2" s="1"/>')
    assert read_experiment(data, file="ours.xlsx").series[0].values[0] == 12.0


def test_one_long_text_that_all_cells_share_is_counted_as_often_as_it_stands() -> None:
    row = b'<row r="9">' + b'<c t="s"><v>0</v></c>' * 900 + b"</row>"
    data = edited("magnet.xlsx", "xl/worksheets/sheet1.xml", b"</sheetData>", row + b"</sheetData>")
    for letters, harmless in ((10, True), (30_000, False)):
        with zipfile.ZipFile(made := io.BytesIO(data), "a", zipfile.ZIP_DEFLATED) as archive:
            archive.writestr("xl/sharedStrings.xml", b"<sst><si><t>" + b"w" * letters + b"</t></si></sst>")
        if harmless:
            checked(made.getvalue(), file="ours.xlsx")
        else:
            assert "unpacks to more than a class" in refused(made.getvalue())


def test_repeated_cells_of_an_open_document_are_counted_written_out() -> None:
    old, key = b"<table:table-row", b' table:number-rows-repeated="1000000"'
    data = edited("plants.ods", "content.xml", old, old + key)
    assert "far beyond any table of a class" in refused(data, "ours.ods")


def test_entities_are_never_opened() -> None:
    bomb = b'<!DOCTYPE z [<!ENTITY a "aaaaaaaaaa"><!ENTITY b "&a;&a;&a;&a;">]>'
    data = edited("magnet.xlsx", "xl/worksheets/sheet1.xml", b"<worksheet", bomb + b"<worksheet")
    assert "cut off or damaged" in refused(data)


def test_a_locked_spreadsheet_says_so() -> None:
    data = bytearray((FOLDER / "magnet.xlsx").read_bytes())
    place = data.find(b"PK\x01\x02")
    while place >= 0:
        data[place + 8] |= 1
        place = data.find(b"PK\x01\x02", place + 4)
    assert "locked with a password" in refused(bytes(data))
