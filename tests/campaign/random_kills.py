"""Whole commands killed at a random moment: the pack that was there, or the new one, and the next make clears up."""

from __future__ import annotations

import os
import random
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from tests.campaign.swap import ERRORS, TABLE, whole_files
from tests.campaign.tally import Tally

ARGUMENTS = ("make", "two-cups", "--no-stems", "--out", "pack")


def sonify(folder: Path, *arguments: str) -> subprocess.Popen[bytes]:
    return subprocess.Popen(
        [sys.executable, "-m", "sonify", *arguments],
        cwd=folder,
        stdout=subprocess.DEVNULL,
        stderr=subprocess.DEVNULL,
        start_new_session=True,
    )


def makes(tally: Tally, count: int, seed: int) -> None:
    """`count` makes over a pack that is there, each killed at a random moment of the time that one takes."""
    lot = random.Random(f"makes {seed}")
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        began = time.monotonic()
        assert sonify(folder, *ARGUMENTS).wait() == 0
        takes_s = time.monotonic() - began
        for number in range(count):
            replace = number % 2 == 1
            if replace:
                (folder / "pack" / "notes.txt").write_text("mine", encoding="utf-8")
            elif (folder / "pack" / "notes.txt").exists():
                (folder / "pack" / "notes.txt").unlink()
            process = sonify(folder, *ARGUMENTS, "--seed", str(number), *(["--replace"] if replace else []))
            # Half of them in the last third, where files are written and swapped.
            after_s = lot.uniform(0.0 if number % 4 < 2 else 0.65, 1.05) * takes_s
            try:
                process.wait(after_s)
            except subprocess.TimeoutExpired:
                kind = signal.SIGKILL if number % 5 else lot.choice((signal.SIGTERM, signal.SIGHUP, signal.SIGINT))
                os.kill(process.pid, kind)
                process.wait()
            killed = process.returncode != 0
            tally.add("whole makes killed at random" if killed else "whole makes that ended before the kill")
            kind_of = "whole makes killed at random"
            tally.wrong(kind_of, "refused after the kill before" if process.returncode == 2 else "", f"make {number}")
            tally.wrong(kind_of, "" if whole_files(folder / "pack") else "the pack is not whole", f"make {number}")
            if replace:
                kept = (folder / "pack" / "notes.txt").is_file()
                tally.wrong(kind_of, "" if kept else "notes are lost", f"make {number}")
        (folder / "pack" / "notes.txt").unlink(missing_ok=True)
        status = sonify(folder, *ARGUMENTS).wait()
        left = sorted(os.listdir(folder))
        tally.wrong("whole makes killed at random", "" if (status, left) == (0, ["pack"]) else f"{status}, left {left}")


def scene_files(tally: Tally, count: int, seed: int) -> None:
    """`new` and `measure` as whole commands, killed at a random moment."""
    for command in ("new", "measure"):
        lot = random.Random(f"{command} {seed}")
        arguments = ("new", "pond") if command == "new" else ("measure", "pond.csv")
        with tempfile.TemporaryDirectory() as name:
            folder = Path(name)
            (folder / "pond.csv").write_text(TABLE, encoding="utf-8")
            began = time.monotonic()
            assert sonify(folder, *arguments).wait() == 0
            takes_s = time.monotonic() - began
            wanted = (folder / "pond.toml").read_bytes()
            for number in range(count):
                (folder / "pond.toml").unlink(missing_ok=True)
                process = sonify(folder, *arguments)
                time.sleep(lot.uniform(0.3, 1.0) * takes_s)
                process.kill()
                process.wait()
                made = folder / "pond.toml"
                half = made.exists() and made.read_bytes() != wanted
                tally.add(f"{command} killed at random", f"{number}: half a file" if half else "")
            (folder / "pond.toml").unlink(missing_ok=True)
            assert sonify(folder, *arguments).wait() == 0
            left = sorted(os.listdir(folder))
            fault = "" if left == ["pond.csv", "pond.toml"] else f"left {left}"
            tally.wrong(f"{command} killed at random", fault)


def failing(tally: Tally, count: int, seed: int) -> None:
    """`count` whole makes in which one write, at random, fails: status 2, one message, and the pack that was there."""
    lot = random.Random(f"failing {seed}")
    with tempfile.TemporaryDirectory() as name, tempfile.TemporaryDirectory() as beside:
        folder, told = Path(name), Path(beside) / "steps"
        root = str(Path(__file__).resolve().parent.parent.parent)
        environment = {**os.environ, "PYTHONPATH": root, "SONIFY_CACHE": "", "TMPDIR": beside}

        def run(at: int, error: int) -> subprocess.CompletedProcess[str]:
            return subprocess.run(
                [sys.executable, "-m", "tests.campaign.faults", str(at), str(error), str(told), *ARGUMENTS],
                cwd=folder,
                env=environment,
                capture_output=True,
                encoding="utf-8",
                check=False,
            )

        assert run(0, 0).returncode == 0
        steps = int(told.read_text(encoding="utf-8"))
        before = (folder / "pack" / "pack.json").read_bytes()
        for number in range(count):
            kind = list(ERRORS)[number % len(ERRORS)]
            at = lot.randint(1, steps)
            done = run(at, ERRORS[kind])
            what = f"whole makes with a failing write, {kind}"
            good = done.returncode in (0, 2) and "Traceback" not in done.stderr
            tally.add(what, "" if good else f"step {at} of {steps}: {done.returncode} {done.stderr[-300:]}")
            kept = whole_files(folder / "pack") and (folder / "pack" / "pack.json").read_bytes() == before
            tally.wrong(what, "" if kept else f"step {at}: the pack is not what it was")
        assert run(0, 0).returncode == 0
        left = os.listdir(folder)
        tally.wrong(what, "" if left == ["pack"] else f"left {left}")
