"""Spreadsheets spoilt in every way thought of: each is read, or refused in one line, soon and in bounded memory.

`read_all` runs in a process of its own, because what it looks for is a process that dies or grows.
"""

from __future__ import annotations

import io
import json
import random
import re
import subprocess
import sys
import time
import zipfile
from collections.abc import Callable
from pathlib import Path

from tests.campaign.tally import Tally

TABLES = Path(__file__).parent.parent / "inputs" / "tables"
SOUND = (
    "magnet.xlsx",
    "shared-texts.xlsx",
    "merged-places.xlsx",
    "merged-headings.xlsx",
    "several-sheets.xlsx",
    "plants.ods",
    "rain.ods",
)
#: A case may take so long on a busy machine, and the process may grow by so much over all its cases.
LONGEST_S, MOST_GROWTH_MB = 20.0, 700.0

Spoiling = Callable[[bytes, random.Random], bytes]


def campaign(tally: Tally, count: int, seed: int) -> None:
    """So many spoilt spreadsheets, read in another process."""
    command = [sys.executable, "-m", "tests.campaign.spreadsheets", str(count), str(seed)]
    done = subprocess.run(command, capture_output=True, text=True, check=False, timeout=3600)
    rows = [json.loads(line) for line in done.stdout.splitlines()]
    for row in rows:
        tally.add(row["kind"], row["fault"])
    tally.add("the process that read them", "" if done.returncode == 0 else f"died: {done.stderr[-400:]}")
    if sum(row["kind"] != GROWTH for row in rows) != count:
        tally.wrong("the process that read them", f"{count} were to be read, and {len(rows)} answered")


GROWTH = "memory of the process"


def read_all(count: int, seed: int) -> None:
    """Spoil and read, a line of JSON for each."""
    from sonify.errors import SonifyError
    from sonify.inputs.experiment import read_experiment

    rng = random.Random(seed)
    names = list(SPOILT)
    for name in SOUND:
        read_experiment((TABLES / name).read_bytes(), file=name)
    before = _peak_mb()
    for number in range(count):
        kind = names[number % len(names)]
        base = rng.choice(SOUND)
        data = SPOILT[kind]((TABLES / base).read_bytes(), rng)
        began = time.monotonic()
        fault = ""
        try:
            read_experiment(data, file=f"ours{base[-5:]}")
        except SonifyError as error:
            text = str(error)
            fault = "" if text.isprintable() and text.startswith("ours") and len(text) < 1000 else f"told as {text!r}"
        except Exception as error:  # whatever else comes is what is looked for
            fault = f"{type(error).__name__}: {error}"
        if time.monotonic() - began > LONGEST_S:
            fault = f"took {time.monotonic() - began:.0f} s"
        print(json.dumps({"kind": kind, "fault": f"{base}, case {number}: {fault}" if fault else ""}), flush=True)
    grown = _peak_mb() - before
    told = "" if grown <= MOST_GROWTH_MB else f"grew by {grown:.0f} MB"
    print(json.dumps({"kind": GROWTH, "fault": told, "grown": round(grown)}), flush=True)


def _peak_mb() -> float:
    try:
        import resource
    except ImportError:  # Windows
        return 0.0
    peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss
    return peak / (1e6 if sys.platform == "darwin" else 1e3)


# --- ways to spoil ---------------------------------------------------------------------------------------------------


def _members(data: bytes) -> dict[str, bytes]:
    with zipfile.ZipFile(io.BytesIO(data)) as archive:
        return {item.filename: archive.read(item) for item in archive.infolist()}


def _zipped(members: dict[str, bytes]) -> bytes:
    made = io.BytesIO()
    with zipfile.ZipFile(made, "w", zipfile.ZIP_DEFLATED) as archive:
        for name, held in members.items():
            archive.writestr(name, held)
    return made.getvalue()


def _sheet(members: dict[str, bytes]) -> str:
    return next(name for name in members if name == "content.xml" or "worksheets/sheet" in name)


def _edited(data: bytes, edit: Callable[[bytes], bytes]) -> bytes:
    members = _members(data)
    name = _sheet(members)
    return _zipped({**members, name: edit(members[name])})


def _cut(data: bytes, rng: random.Random) -> bytes:
    return data[: rng.randrange(len(data))]


def _flipped(data: bytes, rng: random.Random) -> bytes:
    spoilt = bytearray(data)
    for _ in range(rng.randint(1, 12)):
        spoilt[rng.randrange(len(spoilt))] = rng.randrange(256)
    return bytes(spoilt)


def _doubled(data: bytes, rng: random.Random) -> bytes:
    at = rng.randrange(len(data))
    return data[:at] + data[rng.randrange(len(data)) :] + data[at:]


def _noise(data: bytes, rng: random.Random) -> bytes:
    return b"PK\x03\x04" + rng.randbytes(rng.randint(0, 3000))


def _flipped_xml(data: bytes, rng: random.Random) -> bytes:
    def edit(xml: bytes) -> bytes:
        spoilt = bytearray(xml)
        for _ in range(rng.randint(1, 5)):
            spoilt[rng.randrange(len(spoilt))] = rng.choice(b'<>&"/ 0x9A=')
        return bytes(spoilt)

    return _edited(data, edit)


def _cut_xml(data: bytes, rng: random.Random) -> bytes:
    return _edited(data, lambda xml: xml[: rng.randrange(len(xml))])


def _without_a_member(data: bytes, rng: random.Random) -> bytes:
    members = _members(data)
    members.pop(rng.choice(list(members)))
    return _zipped(members)


def _swapped_members(data: bytes, rng: random.Random) -> bytes:
    members = _members(data)
    one, other = rng.sample(list(members), 2)
    return _zipped({**members, one: members[other], other: members[one]})


def _odd_numbers(data: bytes, rng: random.Random) -> bytes:
    odd = [b"NaN", b"1e999", b"-1e308", b"inf", b"1e-320", b"", b"0x1F", b"99999999999999999999", b"-0", b"4e1000000"]
    return _edited(
        data, lambda xml: re.sub(rb"(?<=<v>)[^<]*(?=</v>)|(?<=:value=\")[^\"]*", lambda _: rng.choice(odd), xml)
    )


def _odd_words(data: bytes, rng: random.Random) -> bytes:
    odd = ["\u202e", "\u0000"[:0], "=cmd()", "<b>", "'" * 9, "\u2028", "9" * 300, "|" * 150, "Test 1", "Mean", "12 May"]

    def edit(xml: bytes) -> bytes:
        def word(_: re.Match[bytes]) -> bytes:
            text = rng.choice(odd).replace("&", "&amp;").replace("<", "&lt;")
            return text.encode()

        return re.sub(rb"(?<=>)[A-Za-z][^<]*(?=</(?:t|text:p)>)", word, xml)

    members = _members(data)
    return _zipped({name: edit(held) if name.endswith(".xml") else held for name, held in members.items()})


def _far_cell(data: bytes, rng: random.Random) -> bytes:
    reference = rng.choice(
        [b"XFD1048576", b"A1048576", b"XFD1", b"ZZZ9999999", b"A0", b"AAAA1", b"AAAAAAA1", b"A99999999"]
    )
    data = (TABLES / "magnet.xlsx").read_bytes()
    return _edited(data, lambda xml: re.sub(rb'r="B2"', b'r="' + reference + b'"', xml, count=1))


def _repeated(data: bytes, rng: random.Random) -> bytes:
    times = str(rng.choice([16_384, 1_048_576, 2_000_000_000, 10**30, -5])).encode()
    what = rng.choice([b"table-cell", b"table-row"])
    data = (TABLES / rng.choice(["plants.ods", "rain.ods"])).read_bytes()
    key = b"table:number-columns-repeated" if what == b"table-cell" else b"table:number-rows-repeated"
    return _edited(
        data, lambda xml: xml.replace(b"<table:" + what, b"<table:" + what + b" " + key + b'="' + times + b'"')
    )


def _long_text(data: bytes, rng: random.Random) -> bytes:
    """One long text that every cell points at, or that is repeated."""
    members = _members(data)
    long = b"w" * rng.choice([40_000, 2_000_000])
    if "content.xml" in members:
        repeats = b'<table:table-cell table:number-columns-repeated="900" '
        held = members["content.xml"].replace(b"<table:table-cell ", repeats)
        return _zipped({**members, "content.xml": re.sub(rb"(?<=>)[A-Z][^<]*(?=</text:p>)", long, held)})
    strings = (
        b'<sst xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><si><t>' + long + b"</t></si></sst>"
    )
    cells = b"".join(b'<c t="s"><v>0</v></c>' for _ in range(90))
    rows = b"".join(b"<row>" + cells + b"</row>" for _ in range(400))
    name = _sheet(members)
    held = re.sub(rb"(?s)<sheetData>.*</sheetData>", b"<sheetData>" + rows + b"</sheetData>", members[name])
    return _zipped({**members, "xl/sharedStrings.xml": strings, name: held})


def _entities(data: bytes, rng: random.Random) -> bytes:
    bomb = b'<!DOCTYPE z [<!ENTITY a "aaaaaaaaaa">' + b"".join(
        b'<!ENTITY %c "&%c;&%c;&%c;&%c;&%c;&%c;">' % (98 + n, *[97 + n] * 6) for n in range(9)
    )
    return _edited(data, lambda xml: re.sub(rb"(\?>)?", lambda found: (found[1] or b"") + bomb + b"]>", xml, count=1))


def _zeros(data: bytes, rng: random.Random) -> bytes:
    """A packed bomb: spaces between two elements."""
    blank = b" " * rng.choice([1_000_000, 30_000_000, 70_000_000])
    return _edited(data, lambda xml: xml.replace(b"><", b">" + blank + b"<", 1))


def _lying_size(data: bytes, rng: random.Random) -> bytes:
    """The directory of the archive says another size than the members have."""
    spoilt = bytearray(_zeros(data, rng) if rng.random() < 0.1 else data)
    place = spoilt.find(b"PK\x01\x02")
    while place >= 0:
        if rng.random() < 0.5:
            at = place + rng.choice([20, 24])  # the packed and the unpacked size
            spoilt[at : at + 4] = rng.choice([0, 1, 100, 5_000, 2**31, 2**32 - 1]).to_bytes(4, "little")
        place = spoilt.find(b"PK\x01\x02", place + 4)
    return bytes(spoilt)


def _many_members(data: bytes, rng: random.Random) -> bytes:
    members = _members(data)
    return _zipped({**members, **{f"junk/{number}.xml": b"<a/>" for number in range(rng.choice([50, 2_500]))}})


def _deep(data: bytes, rng: random.Random) -> bytes:
    depth = rng.choice([500, 50_000])
    return _edited(data, lambda xml: xml.replace(b"><", b">" + b"<q>" * depth + b"</q>" * depth + b"<", 1))


def _macros(data: bytes, rng: random.Random) -> bytes:
    name = rng.choice(["xl/vbaProject.bin", "Basic/Standard/Module1.xml", "Scripts/python/a.py"])
    return _zipped({**_members(data), name: rng.randbytes(50)})


def _random_cells(data: bytes, rng: random.Random) -> bytes:
    """A sound workbook of cells in any order."""
    from tests.inputs.spreadsheets import workbook

    cells = [
        "",
        None,
        1,
        2.5,
        -3,
        "12 cm",
        "7 mm",
        "<5",
        "about 4",
        "Test 1",
        "Test 2",
        "Mean",
        "Day 3",
        "9.30",
        "11:00",
    ]
    cells += [
        "Total",
        "wool",
        "Temp (°C)",
        "cm",
        "°C",
        "||||",
        "yes",
        "no",
        "12 May",
        "Monday",
        "n/a",
        46146,
        True,
        "=1/0",
    ]
    rows = [[rng.choice(cells) for _ in range(rng.randint(1, 7))] for _ in range(rng.randint(1, 14))]
    made = io.BytesIO()
    workbook({"Sheet1": rows, **({"Again": rows[::-1]} if rng.random() < 0.2 else {})}).save(made)
    return made.getvalue()


SPOILT: dict[str, Spoiling] = {
    "cut": _cut,
    "bytes changed": _flipped,
    "a part twice": _doubled,
    "noise": _noise,
    "XML changed": _flipped_xml,
    "XML cut": _cut_xml,
    "a member missing": _without_a_member,
    "members swapped": _swapped_members,
    "odd numbers": _odd_numbers,
    "odd words": _odd_words,
    "a cell far away": _far_cell,
    "cells repeated": _repeated,
    "a long text everywhere": _long_text,
    "entities in entities": _entities,
    "packed blanks": _zeros,
    "sizes that lie": _lying_size,
    "many members": _many_members,
    "deep XML": _deep,
    "macros": _macros,
    "any cells": _random_cells,
}

if __name__ == "__main__":
    read_all(int(sys.argv[1]), int(sys.argv[2]))
