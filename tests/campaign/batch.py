"""Many packs at once, killed again and again: nothing made twice, nothing missing, and the ledger tells the truth.

`stubbed` runs small packs made by a stub through the real workshop, swap, workers and ledger. `packs` types the real
command. Both watch from outside: each making of a pack leaves another token (the stub's) or manifest and times (the
real one's), and one that once stood whole must stand there unchanged at the end.
"""

from __future__ import annotations

import os
import random
import shutil
import signal
import subprocess
import sys
import tempfile
import time
from pathlib import Path

from sonify.storage.pack import whole
from tests.batch.stubbed import lines, made, pair, tokens
from tests.campaign.tally import Tally

ROOT = Path(__file__).resolve().parent.parent.parent
STOOD = "small packs that stood before the last run"
KIND, PACKS = "kills over a run of small packs", "kills over a run of lesson packs"
#: Small packs take so long each, so that a kill finds some at every step.
PACK_S, LONGEST_S = 0.02, 30.0


def stubbed(tally: Tally, kills: int, seed: int) -> None:
    """A run that is killed `kills` times, each time up to three packs later, and then left to end."""
    lot = random.Random(f"batch {seed}")
    pairs = [pair(f"scene-{n % 5}/class-{n // 5}", seconds=PACK_S) for n in range(4 * kills + 10)]
    with tempfile.TemporaryDirectory() as name:
        out = Path(name) / "trust"
        stood: dict[str, str] = {}
        for number in range(kills):
            child = os.fork()
            if child == 0:
                _in_the_child(lambda: made(out, pairs))
            _wait_for(len(stood) + lot.randint(0, 3), out, lot.uniform(0.0, 3 * PACK_S))
            # A process that hands out the work is killed, or ended politely; now and then one of its workers.
            if number % 7 == 6:
                _kill_a_worker(child)
                time.sleep(0.1)
            os.kill(child, signal.SIGTERM if number % 5 == 4 else signal.SIGKILL)
            os.waitpid(child, 0)
            time.sleep(0.05)  # its workers go with it
            tally.add(KIND, _changed(stood, tokens(out)))
            stood |= tokens(out)
        for _ in stood:
            tally.add(STOOD)
        last = made(out, pairs)
        tally.wrong(KIND, _changed(stood, tokens(out)), "at the end")
        lacking = {each.folder for each in pairs} - {folder for folder in tokens(out) if whole(out / folder)}
        tally.wrong(KIND, f"missing: {sorted(lacking)}" if lacking else "")
        tally.wrong(KIND, f"failed: {[(row.folder, row.why) for row in last.failed]}" if last.failed else "")
        times = lines(out, "folder, times", "times != 1")
        tally.wrong(KIND, f"the ledger has them made as often: {times}" if times else "")
        left = [path.name for path in out.glob("*/.sonify-*")]
        tally.wrong(KIND, f"left: {left}" if left else "")
        again = made(out, pairs)
        tally.wrong(KIND, f"made again: {again.made}" if again.made else "")


def _wait_for(packs: int, out: Path, more_s: float) -> None:
    """Until so many stand, and a little longer; on a machine that is busy with other things, not for ever."""
    until = time.monotonic() + LONGEST_S
    while len(tokens(out)) < packs and time.monotonic() < until:
        time.sleep(0.005)
    time.sleep(more_s)


def _in_the_child(work: object) -> None:
    """All that a copy of this process does: the work, and nothing of what the original would do after it."""
    try:
        signal.signal(signal.SIGTERM, signal.SIG_DFL)
        work()  # type: ignore[operator]
    finally:
        os._exit(0)


def _kill_a_worker(maker: int) -> None:
    """The youngest worker of a run, if it has any (Linux: /proc)."""
    told = Path(f"/proc/{maker}/task/{maker}/children")
    if told.exists() and (children := told.read_text(encoding="ascii").split()):
        os.kill(int(children[-1]), signal.SIGKILL)


def _changed(before: dict[str, str], now: dict[str, str]) -> str:
    twice = [folder for folder, token in before.items() if now.get(folder) != token]
    return f"made twice or lost: {sorted(twice)}" if twice else ""


def packs(tally: Tally, kills: int, seed: int) -> None:
    """The real command over five scenes and two classes, killed at random and asked again until it has ended by itself,
    and then a batch anew, until it was killed so often."""
    lot = random.Random(f"packs {seed}")
    left = kills
    while left > 0:
        left -= _killed_to_its_end(tally, left, lot)


def _killed_to_its_end(tally: Tally, kills: int, lot: random.Random) -> int:
    """How often one batch was killed, at most `kills` times; then it is left to end."""
    scenes = ("two-cups", "a-frogs-life", "bouncing-balls", "harbour-water-cycle", "one-string")
    with tempfile.TemporaryDirectory() as name:
        folder, killed = Path(name), 0
        (folder / "rooms").mkdir()
        for room in ("well-stocked", "few-instruments"):
            shutil.copy(ROOT / "examples" / f"{room}.toml", folder / "rooms")
        command = [sys.executable, "-m", "sonify", "make", *scenes, "--classes", "rooms", "--out", "out", "--no-stems"]
        stood: dict[str, str] = {}
        while killed < kills:
            run = subprocess.Popen(command, cwd=folder, stderr=subprocess.DEVNULL, stdout=subprocess.DEVNULL)
            try:
                run.wait(lot.uniform(1.0, 40.0))
                break
            except subprocess.TimeoutExpired:
                run.kill()
                run.wait()
            killed += 1
            time.sleep(0.5)
            tally.add(PACKS, _changed(stood, now := _manifests(folder / "out")))
            stood |= now
        ended = subprocess.run(command, cwd=folder, capture_output=True, check=False)
        tally.wrong(PACKS, "" if ended.returncode == 0 else ended.stderr.decode()[-300:])
        now = _manifests(folder / "out")
        tally.wrong(PACKS, _changed(stood, now), "at the end")
        tally.wrong(PACKS, "" if len(now) == 2 * len(scenes) else f"{len(now)} packs stand")
        for _ in now:
            tally.add("packs of batches that were killed")
        return killed


def _manifests(out: Path) -> dict[str, str]:
    """Each whole pack's folder, and when its manifest was written: another making has another time."""
    found = [path.parent for path in out.glob("[!.]*/[!.]*/pack.json")]
    return {str(each.relative_to(out)): str((each / "pack.json").stat().st_mtime_ns) for each in found if whole(each)}
