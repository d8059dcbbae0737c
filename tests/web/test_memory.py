"""Memory that work needed for a while goes back to the system at once: read from the system itself (Linux, glibc)."""

from __future__ import annotations

import gc
import inspect
import platform
import random
import subprocess
import sys
import weakref
from contextlib import suppress
from typing import Any

import pytest

from sonify import units
from sonify.errors import SonifyError
from sonify.web import memory
from sonify.web.desk import Desk
from sonify.web.inputs import read_inputs
from tests.campaign.soak import MOST_KB_A_MINUTE, Watched

#: Arrays of half a large one, a small thing that stays between each two: the heaps cannot shrink from their ends.
WORK = """
from pathlib import Path
from sonify.web.memory import LARGE_BYTES, lightened, settle
import numpy as np

settle()
stays = []

def resident():
    rows = dict(row.split(":", 1) for row in Path("/proc/self/status").read_text().splitlines())
    return int(rows["VmRSS"].split()[0]) * 1024

def work():
    arrays = []
    for _ in range(200):
        arrays.append(np.ones(LARGE_BYTES // 16))
        stays.append(bytearray(2000))
    return resident()

before = resident()
most = HOW(work)
print(most - before, resident() - before)
"""


@pytest.mark.skipif(platform.libc_ver()[0] != "glibc", reason="elsewhere nothing is done")
def test_what_work_needed_for_a_while_goes_back_at_once() -> None:
    def held(how: str) -> tuple[int, int]:
        ran = subprocess.run(
            [sys.executable, "-c", WORK.replace("HOW", how)], capture_output=True, text=True, check=True
        )
        most, after = map(int, ran.stdout.split())
        return most, after

    most, after = held("lightened")
    assert most > 90_000_000 and after < 10_000_000
    assert held("(lambda work: work())")[1] > 50_000_000  # so it is not the system that does it


@pytest.mark.parametrize(
    "given",
    [
        {"set": {"wind": "5.5 m/s"}},
        {"set": {"wind": "5 m"}},
        {"rules": {"0": {"to": ["66 bpm", "140 bpm"]}}, "edits": {"title": "Ours"}},
        {"edits": {"hear.9.to": [None]}},
    ],
)
def test_an_answer_leaves_no_call_behind_that_waits_for_the_collector(given: dict[str, Any]) -> None:
    """A frame in a circle holds all its callers and what they computed, until Python looks through everything it has:
    under load every five minutes, 25 MB by then."""
    inputs = read_inputs({"scene": {"name": "harbour-water-cycle"}, **given})

    def asked() -> None:
        with suppress(SonifyError):
            Desk().plan_text(inputs)

    asked()  # what is read once is read
    units.alike.cache_clear()  # of units the server has not met yet
    gc.collect()
    gc.disable()
    gc.set_debug(gc.DEBUG_SAVEALL)
    try:
        asked()
        gc.collect()
        left = [f"{each.f_code.co_filename}: {each.f_code.co_name}" for each in gc.garbage if inspect.isframe(each)]
    finally:
        gc.set_debug(0)
        gc.garbage.clear()
        gc.enable()
    assert not left


def test_circles_are_found_before_python_would_look(monkeypatch: pytest.MonkeyPatch) -> None:
    class Held:
        pass

    monkeypatch.setattr(memory, "MORE_BLOCKS", 2_000)
    gc.collect()
    circles = memory.Circles()
    circle = Held()
    circle.itself, gone = circle, weakref.ref(circle)
    del circle
    gc.disable()
    try:
        circles.look()
        assert gone() is not None  # nothing was added: nobody waits for a look through everything
        added = [[number] for number in range(3_000)]
        circles.look()
        assert gone() is None and len(added) == 3_000
    finally:
        gc.enable()


@pytest.mark.parametrize("mb_a_minute", [0.0, 1.5, 3.0])
def test_a_soak_tells_what_stays_from_work_that_comes_and_goes(mb_a_minute: float) -> None:
    """Every 2 s for twenty minutes; every third sample meets a piece or two being rendered, as was measured."""
    draw, watched = random.Random(1), Watched()
    for at_s in range(0, 1200, 2):
        own_kb = 1024 * (200 + mb_a_minute * at_s / 60 + draw.choice([0, 0, 60]) + draw.choice([0, 0, 125]))
        watched.at_s.append(float(at_s))
        watched.held.append((own_kb, own_kb, 40.0))
    slope_kb, _, files = watched.slopes()
    assert slope_kb == pytest.approx(1024 * mb_a_minute, abs=200) and files == pytest.approx(0.0, abs=1e-9)
    assert (slope_kb > MOST_KB_A_MINUTE) == (mb_a_minute > 1)
