"""A dask cluster on this machine whose workers, scheduler and asker are killed: nothing twice, nothing missing.

The packs are the stub's, the way there and back, the ledger and the swap are real. It needs `pip install distributed`.
"""

from __future__ import annotations

import json
import os
import random
import signal
import tempfile
import time
from dataclasses import replace
from pathlib import Path

from sonify.batch import make_pairs
from sonify.batch.dask_cluster import reached
from sonify.batch.pairs import Pair
from sonify.errors import SonifyError
from sonify.storage.pack import whole
from tests.batch.stubbed import lines, pair, tokens
from tests.campaign.local_cluster import LocalCluster, wait_for
from tests.campaign.tally import Tally

KIND = "kills over a run on a cluster"
PACK_S = 0.2


def wanted(count: int) -> list[Pair]:
    plain = [pair(f"scene-{n % 5}/class-{n // 5}", seconds=PACK_S) for n in range(count)]
    return [replace(each, task=json.dumps({**json.loads(each.task), "files": {}})) for each in plain]


def run(address: str, out: Path, pairs: list[Pair]) -> str:
    try:
        with reached(address) as cluster:
            found = make_pairs(pairs, out, cluster=cluster)
    except SonifyError as error:
        return str(error)
    return "".join(f"{row.folder}: {row.why}" for row in found.failed)


def campaign(tally: Tally, kills: int, seed: int) -> None:
    """Of three kills two are of a worker (another takes its place), every sixth is the scheduler's or the asker's."""
    lot, pairs = random.Random(f"cluster {seed}"), wanted(3 * kills + 12)
    with tempfile.TemporaryDirectory() as name:
        out, stood, number = Path(name) / "packs", dict[str, str](), 0
        while number < kills:
            with LocalCluster(Path(name) / f"cluster {number}", stubbed=True) as cluster:
                child = os.fork()
                if child == 0:
                    try:
                        os._exit(3 if run(cluster.address, out, pairs) else 0)
                    finally:
                        os._exit(1)
                for _ in range(6):
                    number += 1
                    _wait_for(len(tokens(out)) + lot.randint(0, 2), out)
                    time.sleep(lot.uniform(0.0, PACK_S))
                    tally.add(KIND, changed(stood, tokens(out)))
                    stood |= tokens(out)
                    if number % 6 == 0 or number >= kills:
                        (cluster.scheduler if number % 12 else cluster.workers[0]).send_signal(signal.SIGKILL)
                        if not number % 12:
                            os.kill(child, signal.SIGKILL)
                        break
                    gone = cluster.workers.pop(lot.randrange(2))
                    gone.send_signal(signal.SIGKILL)
                    cluster.workers.append(cluster.worker())
                os.waitpid(child, 0)
        with LocalCluster(Path(name) / "last", stubbed=True) as cluster:
            tally.wrong(KIND, run(cluster.address, out, pairs), "the last run")
        now = tokens(out)
        tally.wrong(KIND, changed(stood, now), "at the end")
        lacking = [each.folder for each in pairs if each.folder not in now or not whole(out / each.folder)]
        tally.wrong(KIND, f"missing: {lacking}" if lacking else "")
        times = lines(out, "folder, times", "times != 1")
        tally.wrong(KIND, f"the ledger has them made as often: {times}" if times else "")
        left = [path.name for path in out.rglob(".sonify*")]
        tally.wrong(KIND, f"left: {left}" if left else "")
        for _ in now:
            tally.add("packs that stand after them")


def _wait_for(packs: int, out: Path) -> None:
    wait_for(lambda: len(tokens(out)) >= packs)


def changed(before: dict[str, str], now: dict[str, str]) -> str:
    twice = [folder for folder, token in before.items() if now.get(folder) != token]
    return f"made twice or lost: {sorted(twice)}" if twice else ""
