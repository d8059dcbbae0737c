"""Whether the bytes of a spreadsheet can be opened without harm: what is refused before any library reads them.

A spreadsheet is a zip of XML. A few kilobytes can claim gigabytes: by packing, by one cell in the last row, by a cell
repeated a million times, by one long text that every cell points at. Each is counted here, in a stream.
"""

from __future__ import annotations

import io
import re
import struct
import zipfile
import zlib
from collections.abc import Iterator
from dataclasses import dataclass, field
from xml.parsers import expat

from sonify.errors import BadFile
from sonify.records.fact import wrong

#: Far more than any class writes, and little enough for an old laptop.
MOST_BYTES = 20_000_000
MOST_UNPACKED = 60_000_000
MOST_FILES = 2_000
MOST_ROWS, MOST_COLUMNS, MOST_CELLS = 100_000, 1_000, 500_000
MOST_LETTERS = 20_000_000

_CHUNK = 65_536
_REFERENCE = re.compile(r"([A-Za-z]{1,3})(\d{1,7})")
_BROKEN = wrong("error_readings-broken-workbook")


def checked(data: bytes, *, file: str) -> None:
    """Raise BadFile where the bytes are no spreadsheet that is safe to open."""
    if len(data) > MOST_BYTES:
        raise BadFile(file, wrong("error_readings-over-workbook", most=MOST_BYTES // 1_000_000))
    try:
        with zipfile.ZipFile(io.BytesIO(data)) as archive:
            _check(archive, file)
    except (zipfile.BadZipFile, zlib.error, EOFError, OSError, ValueError, struct.error, NotImplementedError) as error:
        if isinstance(error, BadFile):
            raise
        raise BadFile(file, _BROKEN) from None


def _check(archive: zipfile.ZipFile, file: str) -> None:
    members = archive.infolist()
    names = {member.filename for member in members}
    if len(names) < len(members):
        raise BadFile(file, _BROKEN)
    if any(member.flag_bits & 1 for member in members):
        raise BadFile(file, wrong("error_readings-locked-workbook"))
    if any("vbaproject" in name.casefold() or name.startswith(("Basic/", "Scripts/")) for name in names):
        raise BadFile(file, wrong("error_readings-macros"))
    if "xl/workbook.xml" not in names and "content.xml" not in names:
        raise BadFile(file, wrong("error_readings-no-workbook"))
    if len(members) > MOST_FILES or sum(member.file_size for member in members) > MOST_UNPACKED:
        raise _too_much(file)
    _check_texts(archive, members, file)


def _too_much(file: str) -> BadFile:
    return BadFile(file, wrong("error_readings-unpacks"))


def _check_texts(archive: zipfile.ZipFile, members: list[zipfile.ZipInfo], file: str) -> None:
    """Every XML of the archive is read once, in chunks: real sizes, no entities, and how far its cells reach."""
    shared: list[int] = []
    # The shared texts first: the sheets point at them.
    for member in sorted(members, key=lambda each: "sharedstrings" not in each.filename.casefold()):
        name = member.filename.casefold()
        if not name.endswith((".xml", ".rels")):
            continue
        counter: _Counter = _Counter(file)
        if "sharedstrings" in name:
            counter = _Shared(file, lengths=shared)
        elif name == "content.xml":
            counter = _OpenDocument(file)
        elif "worksheets/" in name:
            counter = _Worksheet(file, shared=shared)
        _parse(archive, member, counter, file)


def _parse(archive: zipfile.ZipFile, member: zipfile.ZipInfo, counter: _Counter, file: str) -> None:
    parser = expat.ParserCreate()
    parser.buffer_text = True
    parser.StartElementHandler = counter.start
    parser.EndElementHandler = counter.end
    parser.CharacterDataHandler = counter.text

    def refuse(*_: object) -> None:
        raise BadFile(file, _BROKEN)

    parser.StartDoctypeDeclHandler = refuse
    try:
        for chunk in _chunks(archive, member):
            parser.Parse(chunk, False)
        parser.Parse(b"", True)
    except expat.ExpatError:
        raise BadFile(file, _BROKEN) from None


def _chunks(archive: zipfile.ZipFile, member: zipfile.ZipInfo) -> Iterator[bytes]:
    unpacked = archive.read(member)  # never more than the size it declares, and checked against its sum
    for at in range(0, len(unpacked), _CHUNK):
        yield unpacked[at : at + _CHUNK]


@dataclass
class _Counter:
    """What is counted while an XML passes by. Names come with their prefix: "x:row" is row."""

    file: str

    def start(self, name: str, attributes: dict[str, str]) -> None:
        """An element begins."""

    def end(self, name: str) -> None:
        """An element ends."""

    def text(self, letters: str) -> None:
        """Letters between elements."""


@dataclass
class _Shared(_Counter):
    """The length of each shared text of an .xlsx."""

    lengths: list[int] = field(default_factory=list)

    def start(self, name: str, attributes: dict[str, str]) -> None:
        if _local(name) == "si":
            self.lengths.append(0)

    def text(self, letters: str) -> None:
        if self.lengths:
            self.lengths[-1] += len(letters)


@dataclass
class _Worksheet(_Counter):
    """How far the cells of an .xlsx sheet reach, those without anything in them not counted."""

    shared: list[int] = field(default_factory=list)
    row: int = 0
    column: int = 0
    kind: str = ""
    index: str = ""
    within: str = ""
    letters: int = 0
    far: _Reach = field(default_factory=lambda: _Reach())

    def start(self, name: str, attributes: dict[str, str]) -> None:
        name = _local(name)
        if name == "row":
            self.row, self.column = _whole(attributes.get("r"), self.row + 1), 0
        elif name == "c":
            self.column += 1
            reference = attributes.get("r")
            if reference is not None:
                self.column, self.row = self._place(reference)
            self.kind, self.index = attributes.get("t", ""), ""
        elif name in ("v", "is"):
            self.far.reach(self.row, self.column, self.file)
            self.within = name

    def _place(self, reference: str) -> tuple[int, int]:
        found = _REFERENCE.fullmatch(reference)
        if found is None:  # what no spreadsheet writes, a reader may still take for the billionth column
            raise BadFile(self.file, _BROKEN)
        return _column_number(found[1]), int(found[2])

    def end(self, name: str) -> None:
        if _local(name) in ("v", "is"):
            self.within = ""
        if _local(name) == "c" and self.kind == "s" and self.index.strip().isdigit():
            place = int(self.index[:9])
            self._count(self.shared[place] if place < len(self.shared) else 0)

    def text(self, letters: str) -> None:
        if self.within == "v" and self.kind == "s" and len(self.index) < 10:
            self.index += letters
        elif self.within:
            self._count(len(letters))

    def _count(self, letters: int) -> None:
        self.letters += letters
        if self.letters > MOST_LETTERS:
            raise _too_much(self.file)


@dataclass
class _OpenDocument(_Counter):
    """How far the cells of an .ods reach, once their repeats are written out."""

    row: int = 0
    column: int = 0
    rows: int = 1
    columns: int = 1
    filled: int = 0
    letters: int = 0
    cell: bool = False
    far: _Reach = field(default_factory=lambda: _Reach())

    def start(self, name: str, attributes: dict[str, str]) -> None:
        match _local(name):
            case "table":
                self.row, self.far = 0, _Reach()
            case "table-row":
                self.column, self.filled = 0, 0
                self.rows = _whole(_attribute(attributes, "number-rows-repeated"), 1)
            case "table-cell" | "covered-table-cell":
                self.columns = _whole(_attribute(attributes, "number-columns-repeated"), 1)
                self.cell = True
                if _attribute(attributes, "value-type"):
                    self._fill()
            case "p":
                if self.cell:
                    self._fill()

    def _fill(self) -> None:
        self.filled = self.column + self.columns
        self.far.reach(self.row + self.rows, self.filled, self.file)

    def end(self, name: str) -> None:
        match _local(name):
            case "table-cell" | "covered-table-cell":
                self.column += self.columns
                self.cell = False
            case "table-row":
                self.row += self.rows

    def text(self, letters: str) -> None:
        if self.cell:
            self.letters += len(letters) * self.columns * self.rows
            if self.letters > MOST_LETTERS:
                raise _too_much(self.file)


@dataclass
class _Reach:
    """The last row and column in which something stands."""

    rows: int = 0
    columns: int = 0

    def reach(self, row: int, column: int, file: str) -> None:
        self.rows, self.columns = max(self.rows, row), max(self.columns, column)
        if self.rows > MOST_ROWS or self.columns > MOST_COLUMNS or self.rows * self.columns > MOST_CELLS:
            raise BadFile(file, wrong("error_readings-far-cell", row=row, column=column))


def _local(name: str) -> str:
    return name.rpartition(":")[2]


def _attribute(attributes: dict[str, str], name: str) -> str | None:
    return next((value for key, value in attributes.items() if _local(key) == name), None)


def _whole(text: str | None, other: int) -> int:
    return min(int(text), 10**9) if text and text.isdecimal() and len(text) < 12 else other


def _column_number(letters: str) -> int:
    """
    >>> _column_number("A"), _column_number("AB")
    (1, 28)
    """
    number = 0
    for letter in letters.upper():
        number = 26 * number + ord(letter) - 64
    return number
