"""Makes the spreadsheets of tests/inputs/tables, by two other libraries: python -m tests.inputs.spreadsheets."""

from __future__ import annotations

import io
import zipfile
from datetime import date, datetime, time
from pathlib import Path
from typing import Any

FOLDER = Path(__file__).parent / "tables"

MAGNET = [
    ["Layers of paper", "Test 1", "Test 2", "Test 3", "Mean"],
    [0, 12, 11, 13, "=AVERAGE(B2:D2)"],
    [2, 9, 10, 9, "=AVERAGE(B3:D3)"],
    [4, 6, 7, 6, "=AVERAGE(B4:D4)"],
    [8, 3, 3, 3, "=AVERAGE(B5:D5)"],
]
PLANTS = [["Day", "Sill (cm)", "Cupboard (cm)", "Fridge (cm)"], [1, 0, 0, 0], [5, 11, 9, 0.5], [12, 44, 15, 1.5]]


def workbook(sheets: dict[str, list[list[Any]]], merged: dict[str, list[str]] | None = None) -> Any:
    """An openpyxl workbook of these cells."""
    from openpyxl import Workbook

    made = Workbook()
    made.remove(made.active)
    for name, rows in sheets.items():
        sheet = made.create_sheet(name)
        for row in rows:
            sheet.append(row)
        for cells in (merged or {}).get(name, []):
            sheet.merge_cells(cells)
    return made


def open_document(sheets: dict[str, list[list[Any]]]) -> Any:
    """An odfpy spreadsheet of these cells; None repeats nothing and is an empty cell."""
    from odf.opendocument import OpenDocumentSpreadsheet
    from odf.table import Table, TableCell, TableRow
    from odf.text import P

    made = OpenDocumentSpreadsheet()
    for name, rows in sheets.items():
        table = Table(name=name)
        for row in rows:
            line = TableRow()
            for value in row:
                if value is None:
                    cell = TableCell()
                elif isinstance(value, date):
                    cell = TableCell(valuetype="date", datevalue=value.isoformat())
                elif isinstance(value, int | float):
                    cell = TableCell(valuetype="float", value=value)
                else:
                    cell = TableCell(valuetype="string")
                if value is not None:
                    cell.addElement(P(text=str(value)))
                line.addElement(cell)
            table.addElement(line)
        made.spreadsheet.addElement(table)
    return made


_MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
_OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
_PACKAGE = "http://schemas.openxmlformats.org/package/2006"


def shared_texts(rows: list[list[str | int]], sheet: str) -> bytes:
    """An .xlsx whose texts stand in a part of their own, as office programs write them (ECMA-376, 18.4), the first of
    them in two runs of letters; and a second sheet that is hidden. Neither library above writes such a file."""
    texts = list(dict.fromkeys(cell for row in rows for cell in row if isinstance(cell, str)))
    runs = "".join(
        f"<si><r><t>{text[:3]}</t></r><r><rPr><b/></rPr><t>{text[3:]}</t></r></si>"
        if not at
        else f"<si><t>{text}</t></si>"
        for at, text in enumerate(texts)
    )

    def cell(value: str | int, row: int, column: int) -> str:
        place = f'r="{chr(65 + column)}{row}"'
        return (
            f'<c {place} t="s"><v>{texts.index(value)}</v></c>'
            if isinstance(value, str)
            else f"<c {place}><v>{value}</v></c>"
        )

    lines = "".join(
        f'<row r="{at}">' + "".join(cell(value, at, column) for column, value in enumerate(row)) + "</row>"
        for at, row in enumerate(rows, 1)
    )
    kinds = ("worksheet", "worksheet", "sharedStrings")
    parts = ("worksheets/sheet1.xml", "worksheets/sheet2.xml", "sharedStrings.xml")
    links = "".join(
        f'<Relationship Id="rId{at}" Type="{_OFFICE}/{kind}" Target="{part}"/>'
        for at, (kind, part) in enumerate(zip(kinds, parts, strict=True), 1)
    )
    book = (
        f'<sheet name="{sheet}" sheetId="1" r:id="rId1"/><sheet name="Lists" sheetId="2" state="hidden" r:id="rId2"/>'
    )
    members = {
        "_rels/.rels": f'<Relationships xmlns="{_PACKAGE}/relationships"><Relationship Id="rId1" '
        f'Type="{_OFFICE}/officeDocument" Target="xl/workbook.xml"/></Relationships>',
        "xl/workbook.xml": f'<workbook xmlns="{_MAIN}" xmlns:r="{_OFFICE}"><sheets>{book}</sheets></workbook>',
        "xl/_rels/workbook.xml.rels": f'<Relationships xmlns="{_PACKAGE}/relationships">{links}</Relationships>',
        "xl/sharedStrings.xml": f'<sst xmlns="{_MAIN}">{runs}</sst>',
        "xl/worksheets/sheet1.xml": f'<worksheet xmlns="{_MAIN}"><sheetData>{lines}</sheetData></worksheet>',
        "xl/worksheets/sheet2.xml": f'<worksheet xmlns="{_MAIN}"><sheetData/></worksheet>',
    }
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, text in members.items():
            archive.writestr(name, f'<?xml version="1.0" encoding="UTF-8" standalone="yes"?>{text}')
    return made.getvalue()


def main() -> None:
    def save(name: str, made: Any) -> None:
        made.save(str(FOLDER / name))

    save("magnet.xlsx", workbook({"Sheet1": MAGNET}))
    merged = [
        ["Place", "Day", "Height (cm)"],
        ["sill", 1, 0],
        [None, 5, 11],
        [None, 12, 44],
        ["fridge", 1, 0],
        [None, 5, 0.5],
        [None, 12, 1.5],
    ]
    save("merged-places.xlsx", workbook({"Plants": merged}, {"Plants": ["A2:A4", "A5:A7"]}))
    tests = [
        ["Height of ramp (cm)", "Distance rolled (cm)", None, None],
        [None, "Test 1", "Test 2", "Test 3"],
        [10, 21, 23, 22],
        [20, 44, 46, 45],
        [30, 65, 67, 66],
    ]
    save("merged-headings.xlsx", workbook({"Ramp": tests}, {"Ramp": ["A1:A2", "B1:D1"]}))
    dates = [["Date", "Height (cm)"], [46146, 1], [46148, 3], [46153, 9], [46160, 20]]
    save("dates-as-numbers.xlsx", workbook({"Sheet1": dates}))
    days = [["Date", "Height (cm)"], *([datetime(2026, 5, day), height] for day, height in ((4, 1), (6, 3), (11, 9)))]
    save("real-dates.xlsx", workbook({"Sheet1": days}))
    clock = [["Time", "Shadow (cm)"], [time(11, 30), 131], [time(12, 0), 113], [time(12, 30), 110], [time(13, 0), 112]]
    save("clock-cells.xlsx", workbook({"Sheet1": clock}))
    several = {"About us": [["Class 4"], ["Autumn term"]], "Results": PLANTS, "Again": [PLANTS[0], *PLANTS[2:]]}
    save("several-sheets.xlsx", workbook(several))
    save("plants.ods", open_document({"Plants": [["Height in cm", None, None, None], *PLANTS]}))
    day_cells = [[date(2026, 5, day), rain] for day, rain in ((28, 3), (29, 0), (30, 11), (31, 6))]
    save("rain.ods", open_document({"Rain": [["Date", "Rain (mm)"], *day_cells]}))
    percent = workbook({"Sheet1": [["Mix", "Sand"], ["a", 0.25], ["b", 0.5], ["c", 0.75]]})
    for cell in percent["Sheet1"]["B"][1:]:
        cell.number_format = "0%"
    save("percent.xlsx", percent)
    office = [["Our class"], ["Balls", "Bounces"], ["rubber", 14], ["foam", 5], ["rubber", 12], ["foam", 7]]
    (FOLDER / "shared-texts.xlsx").write_bytes(shared_texts(office, "Bouncing"))
    save("drawn-only.xlsx", workbook({"Sheet1": []}))
    # Refused: a file cut in two, one with macros, a workbook of the old kind, and a picture.
    whole = (FOLDER / "magnet.xlsx").read_bytes()
    (FOLDER / "cut-in-two.xlsx").write_bytes(whole[: len(whole) // 2])
    with (
        zipfile.ZipFile(FOLDER / "magnet.xlsx") as read,
        zipfile.ZipFile(FOLDER / "with-macros.xlsm", "w", zipfile.ZIP_DEFLATED) as written,
    ):
        for item in read.infolist():
            written.writestr(item.filename, read.read(item))
        written.writestr("xl/vbaProject.bin", b"\xd0\xcf\x11\xe0" + bytes(64))
    (FOLDER / "old-kind.xls").write_bytes(b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1" + bytes(504))
    (FOLDER / "a-picture.csv").write_bytes(b"\x89PNG\r\n\x1a\n\x00\x00\x00\rIHDR" + bytes(40))


if __name__ == "__main__":
    main()
