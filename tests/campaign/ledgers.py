"""Ledgers of many packs, damaged in every way that a disk or a stick has: one message each, or nothing that matters."""

from __future__ import annotations

import random
import tempfile
import traceback
from pathlib import Path

from sonify.batch import Ledger
from sonify.batch.ledger import NAME
from sonify.batch.shelf import check_index, write_index
from sonify.errors import SonifyError
from tests.batch.stub import CARD
from tests.batch.stubbed import pair
from tests.campaign.tally import Tally

KIND, TOLD = "damaged ledgers", "of them told in one message"
PAIRS = [pair(f"scene-{n % 8}/class {n // 8}") for n in range(80)]
WORDS = (b"made", b"begun", b"wanted", b'"scene', b"scene-", b"toolkit", b"form", b"index")


def campaign(tally: Tally, count: int, seed: int) -> None:
    lot = random.Random(f"ledgers {seed}")
    with tempfile.TemporaryDirectory() as name:
        out = Path(name) / "trust"
        _filled(out)
        good = (out / NAME).read_bytes()
        for _ in range(count):
            data = damaged(good, lot)
            for path in out.glob(f"{NAME}*"):
                path.unlink()
            (out / NAME).write_bytes(data)
            fault = ""
            try:
                _gone_on_with(out)
            except SonifyError:
                tally.add(TOLD)
            except Exception:
                fault = traceback.format_exc()[-400:]
            tally.add(KIND, fault)


def _filled(out: Path) -> None:
    with Ledger(out, "stamp") as ledger:
        for each in PAIRS:
            ledger.expect(each)
            ledger.begun(each)
            ledger.card(each, CARD)
            (out / each.folder).mkdir(parents=True)
            (out / each.folder / "pack.json").write_text("{}", encoding="utf-8")
            if each is not PAIRS[-1]:
                ledger.made(each)
        write_index(out, ledger)


def _gone_on_with(out: Path) -> None:
    """All that a run does with a ledger."""
    with Ledger(out, "stamp") as ledger:
        check_index(out, ledger, replace=True)
        for each in PAIRS:
            ledger.expect(each)
            ledger.stands(each)
        for each in PAIRS[:3]:
            ledger.begun(each)
            ledger.card(each, CARD)
            ledger.made(each)
        ledger.failed(PAIRS[4], "why")
        for each in PAIRS:
            ledger.row(each)
        write_index(out, ledger)


def damaged(good: bytes, lot: random.Random) -> bytes:
    data = bytearray(good)
    place, page = lot.randrange(len(data)), 4_096
    match lot.randrange(6):
        case 0:
            for _ in range(lot.choice((1, 5, 50, 500))):
                data[lot.randrange(len(data))] = lot.randrange(256)
        case 1:
            del data[place:]
        case 2:
            size = lot.choice((16, 512, page))
            data[place : place + size] = bytes(len(data[place : place + size]))
        case 3:
            one, other = (page * lot.randrange(len(data) // page) for _ in range(2))
            data[one : one + page], data[other : other + page] = data[other : other + page], data[one : one + page]
        case 4:
            for _ in range(10):
                at = data.find(lot.choice(WORDS), lot.randrange(len(data)))
                if at >= 0:
                    data[at + 1] = lot.choice(b"abcdeu0123\xff")
        case _:
            data[place:place] = lot.randbytes(lot.choice((1, 16, page)))
    return bytes(data)
