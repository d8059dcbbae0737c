"""What the server takes: its start, every scene's sliders, the first sound, thirty browsers. Told; ratios are asserted.

Run: python -m pytest tests/benchmarks/test_web.py -s

The yardstick is `lesson.study` of the same scene in the same run: a slider's answer holds that and little more.
"""

from __future__ import annotations

import statistics
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import httpx
import pytest

from sonify import lesson
from tests.web.running import HARBOUR, Running, server
from tests.web.test_many import one_browser
from tests.web.test_plan import moved

#: Browsers at once: a class set of tablets.
CLIENTS = 30


def timed(work: Any) -> tuple[float, Any]:
    begun = time.perf_counter()
    found = work()
    return time.perf_counter() - begun, found


def asked(client: httpx.Client, inputs: dict[str, Any]) -> tuple[float, dict[str, Any]]:
    """How long an answer takes, and the answer; what takes seconds the first time is waited for beforehand."""
    while True:
        seconds, answer = timed(lambda: client.post("/api/plan", json=inputs))
        assert answer.status_code in (200, 202), answer.text
        if answer.status_code == 200:
            return seconds, answer.json()
        time.sleep(0.5)


def memory_mb(running: Running) -> float:
    status = Path(f"/proc/{running.process.pid}/status").read_text(encoding="ascii")
    return int(status.partition("VmRSS:")[2].split()[0]) / 1024


def test_what_the_server_takes(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    begun = time.perf_counter()
    lines = []
    with server(tmp_path / "scratch") as running, running.client() as client:
        first, answer = timed(lambda: client.get("/"))
        assert answer.status_code == 200
        lines.append(f"start to the first page {time.perf_counter() - begun:.2f} s (the page itself {first:.2f} s)")
        for name in lesson.scene_names():
            lines.append(slider_line(client, name))
        key = client.post("/api/lesson", json=HARBOUR).json()["key"]
        opened, _ = timed(lambda: client.get(f"/lesson/{key}"))
        sounds, _ = timed(lambda: client.get(f"/lesson/{key}/sounds"))
        lines.append(f"a lesson's page {opened:.2f} s, then its sounds {sounds:.2f} s")
        before = memory_mb(running)
        with ThreadPoolExecutor(CLIENTS) as pool:
            whole, _ = timed(lambda: list(pool.map(lambda number: one_browser(running, number), range(CLIENTS))))
        lines.append(f"{CLIENTS} browsers: {whole:.1f} s in all, memory {before:.0f} to {memory_mb(running):.0f} MB")
    with capsys.disabled():
        print("\n" + "\n".join(lines))


def slider_line(client: httpx.Client, name: str) -> str:
    """One scene's answers: a step of every condition, and of every rule's two ends."""
    scene = {"scene": {"name": name}}
    _, plan = asked(client, scene)
    changes: list[dict[str, Any]] = []
    if name != "ice-rink-particles":  # there a condition is a new simulation, which is waited for
        changes += [{"set": {row["name"]: moved(row)}} for row in plan["conditions"]]
    for row in plan["rules"]:
        texts = row["to_high"]["texts"]
        other = texts[row["to_high"]["at"] - 1]
        changes.append({"rules": {str(row["index"]): {"to": [row["to"][0], other]}}} if other != row["to"][0] else {})
    times = [asked(client, {**scene, **change})[0] for change in changes if change]
    yardstick = min(timed(lambda: lesson.study(name))[0] for _ in range(3))
    assert statistics.median(times) < 4.0 * yardstick
    return (
        f"{name:28} {len(times):3} changes: median {1000 * statistics.median(times):4.0f} ms, "
        f"worst {1000 * max(times):4.0f} ms; study {1000 * yardstick:4.0f} ms"
    )


def test_an_answer_that_is_known_takes_a_fraction(tmp_path: Path) -> None:
    with server(tmp_path / "scratch") as running, running.client() as client:
        inputs = {**HARBOUR, "set": {"wind": "5 m/s"}}
        first, _ = timed(lambda: client.post("/api/plan", json=inputs))
        again = min(timed(lambda: client.post("/api/plan", json=inputs))[0] for _ in range(5))
        assert again < first / 3
