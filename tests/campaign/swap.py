"""Kills and failing writes at every step of the swap and of its recovery: what was there, or what is new, and whole."""

from __future__ import annotations

import errno
import json
import os
import shutil
import tempfile
from collections.abc import Callable
from pathlib import Path

from sonify import starting
from sonify.inputs.template import new_scene_text
from sonify.storage import workshop
from sonify.storage.pack import MANIFEST, building, check_place
from sonify.storage.pack import sha256 as digest_of
from sonify.study.reading import load_table
from tests.campaign.faults import Plan, in_a_copy, traced
from tests.campaign.tally import Tally

ERRORS = {"full": errno.ENOSPC, "quota": errno.EDQUOT, "read-only": errno.EROFS}
NOTES = b"a person's own"


def make(out: Path, text: str, *, replace: bool = False) -> None:
    """A pack of three files in two folders."""
    with building(out, {"seed": 0}, replace=replace) as work:
        (work / "stems").mkdir()
        (work / "page.html").write_text(text, encoding="utf-8")
        (work / "midi").mkdir()
        (work / "stems" / "a.wav").write_bytes(text.encode() * 20_000)
        with (work / "midi" / "a.mid").open("w+b") as file:
            file.write(text.encode())


def whole(out: Path) -> str:
    """Which pack stands at `out`, "" for none. Fails where it is a mixture or half of one."""
    if not os.path.lexists(out):
        return ""
    assert whole_files(out)
    return (out / "page.html").read_text(encoding="utf-8")


def whole_files(out: Path) -> bool:
    """Whether every file that a pack's manifest names is there, as it was written."""
    try:
        files = json.loads((out / MANIFEST).read_text(encoding="utf-8"))["files"]
        return bool(files) and all(digest_of(out / name) == digest for name, digest in files.items())
    except (OSError, ValueError):
        return False


class Case:
    """A place with a pack `one`, perhaps with a person's notes in it, in which `two` is made with faults."""

    def __init__(self, folder: Path, *, before: bool, exchange: bool, replace: bool) -> None:
        self.folder, self.out = folder, folder / "pack"
        self.before, self.exchange, self.replace = before, exchange, replace
        if before:
            make(self.out, "one")
        if replace:
            (self.out / "notes.txt").write_bytes(NOTES)
        (folder / ".pack.previous").mkdir()
        (folder / ".pack.previous" / "mine").write_bytes(NOTES)

    def run(self, plan: Plan, work: Callable[[], None]) -> int:
        def traced_work() -> None:
            if not self.exchange:
                workshop.exchanged = lambda one, other: False
            with traced(plan):
                work()

        return in_a_copy(traced_work)

    def make(self) -> None:
        make(self.out, "two", replace=self.replace)

    def put_right(self) -> None:
        """What the next make does first."""
        check_place(self.out, replace=self.replace)

    def check(self, *, recovered: bool) -> str:
        """What is wrong now, in words; "" for nothing."""
        try:
            stands = whole(self.out)
        except (AssertionError, OSError, ValueError) as error:
            return f"a pack that is not whole: {error!r}"
        if self.before and not stands and (recovered or self.exchange):
            return "the pack is gone"
        if self.replace and stands and (self.out / "notes.txt").read_bytes() != NOTES:
            return "a person's notes are lost"
        if (self.folder / ".pack.previous" / "mine").read_bytes() != NOTES:
            return "a neighbour's file is lost"
        if recovered and sorted(os.listdir(self.folder)) not in ([".pack.previous", "pack"], [".pack.previous"]):
            return f"something is left: {os.listdir(self.folder)}"
        return ""


WAYS = [
    {"before": True, "exchange": True, "replace": False},
    {"before": True, "exchange": True, "replace": True},
    {"before": True, "exchange": False, "replace": True},
    {"before": False, "exchange": True, "replace": False},
]


def steps_of(way: dict[str, bool]) -> int:
    """How many steps a make takes that nothing disturbs, counted in a copy of this process."""
    with tempfile.TemporaryDirectory() as folder:
        case, told = Case(Path(folder), **way), Path(folder) / "steps"

        def counted() -> None:
            if not case.exchange:
                workshop.exchanged = lambda one, other: False
            plan = Plan()
            with traced(plan):
                case.make()
            told.write_text(str(len(plan.steps)), encoding="utf-8")

        assert in_a_copy(counted) == 0
        return int(told.read_text(encoding="utf-8"))


def kills(tally: Tally, every: int = 1) -> None:
    """Killed at every step of the swap; then at every step of the recovery of each state that was left."""
    for way in WAYS:
        for at in range(1, steps_of(way) + 1, every):
            with tempfile.TemporaryDirectory() as name:
                (Path(name) / "a").mkdir()
                case = Case(Path(name) / "a", **way)
                status = case.run(Plan(at=at), case.make)
                tally.add("kills in the swap", "" if status == -9 else f"not killed at {at}: {status}")
                tally.wrong("kills in the swap", case.check(recovered=False), f"{way} step {at}")
                _recoveries(tally, case, way, at, every)


def _recoveries(tally: Tally, case: Case, way: dict[str, bool], at: int, every: int) -> None:
    """The state that a kill left, recovered with a kill at every step, and after it without."""
    for step in range(1, 1_000, every):
        with tempfile.TemporaryDirectory() as name:
            copy = Path(name) / "a"
            shutil.copytree(case.folder, copy, symlinks=True)
            case_here = _at(case, copy)
            status = case_here.run(Plan(at=step), case_here.put_right)
            if status == -9:
                tally.add("kills in the recovery", "")
                tally.wrong("kills in the recovery", case_here.check(recovered=False), f"{way} step {at}, {step}")
            again = case_here.run(Plan(), case_here.put_right)
            tally.wrong(
                "kills in the recovery", "" if again == 0 else f"recovery ends with {again}", f"{way} {at} {step}"
            )
            tally.wrong("kills in the recovery", case_here.check(recovered=True), f"{way} step {at}, {step}, recovered")
            if status != -9:
                return


def _at(case: Case, folder: Path) -> Case:
    moved = object.__new__(Case)
    moved.__dict__.update(case.__dict__)
    moved.folder, moved.out = folder, folder / "pack"
    return moved


def failures(tally: Tally, every: int = 1) -> None:
    """Every step failing once: one message, and what was there stays."""
    for way in WAYS:
        for kind, number in ERRORS.items():
            for at in range(1, steps_of(way) + 1, every):
                with tempfile.TemporaryDirectory() as name:
                    (Path(name) / "a").mkdir()
                    case = Case(Path(name) / "a", **way)
                    status = case.run(Plan(at=at, error=number), case.make)
                    what = f"steps failing, {kind}"
                    tally.add(what, "" if status in (0, 1) else f"{way} step {at}: status {status}")
                    tally.wrong(what, case.check(recovered=False), f"{way} step {at}")
                    again = case.run(Plan(), case.put_right)
                    tally.wrong(what, "" if again == 0 else f"recovery ends with {again}", f"{way} step {at}")
                    tally.wrong(what, case.check(recovered=True), f"{way} step {at}, recovered")


TABLE = "time (s),temperature (degC)\n" + "".join(f"{60 * n},{20 + 30 * 0.9**n:.2f}\n" for n in range(40))


def new_files(tally: Tally, every: int = 1) -> None:
    """`new` and `measure`, killed and failing at every step: the whole scene file or none, and never another's."""
    with tempfile.TemporaryDirectory() as folder:
        readings = Path(folder) / "pond.csv"
        readings.write_text(TABLE, encoding="utf-8")
        measured = starting.measured_text(load_table(readings), "pond")
    for command, text in {"new": new_scene_text(), "measure": measured}.items():
        for kind, number in {"killed": None, **ERRORS}.items():
            step, status = 1, -1
            while status != 0:
                with tempfile.TemporaryDirectory() as folder:
                    status, fault = _new_file(text, Path(folder), Plan(at=step, error=number))
                    tally.add(f"{command}, {kind}", fault)
                step += every


def _new_file(text: str, folder: Path, plan: Plan) -> tuple[int, str]:
    """One scene file written with a fault, and then again without: the status of the first, and what was wrong."""
    target = folder / "pond.toml"

    def write() -> None:
        with traced(plan):
            starting._write_new(target, text)

    status = in_a_copy(write)
    if status not in (0, 1, -9):
        return status, f"step {plan.at}: status {status}"
    if target.exists() and target.read_text(encoding="utf-8") != text:
        return status, f"step {plan.at}: half a file"
    if status == 0 and not target.exists():
        return status, f"step {plan.at}: nothing written, and no word of it"
    target.unlink(missing_ok=True)
    again = in_a_copy(lambda: starting._write_new(target, text))
    left = os.listdir(folder)
    return status, "" if again == 0 and left == [target.name] else f"step {plan.at}: {again}, left {left}"
