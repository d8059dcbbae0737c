"""A worker: `python -m sonify.batch.work` reads a pack to make on each line of its input, and answers in lines of JSON.

What the packs of a scene share is computed once: its science stays here from one class to the next, slow science and
the strokes of instruments stand in the cache for all workers. A worker goes with the process that started it.
"""

from __future__ import annotations

import json
import os
import queue
import signal
import sys
import threading
import traceback
from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path
from typing import Any

from sonify import lesson
from sonify.errors import SonifyError
from sonify.page.shelf import card_of
from sonify.recording.second_core import goes_with
from sonify.records.fact import fact
from sonify.records.scene import Scene
from sonify.records.timeline import Timeline
from sonify.say import say
from sonify.sound.voices.keeping import keep_with
from sonify.storage import cache


def main() -> None:
    signal.signal(signal.SIGINT, signal.SIG_IGN)  # whoever started us decides, and ends us
    signal.signal(signal.SIGTERM, _stop)
    keep_with(lambda key, compute: cache.remembered(key, compute, alone=False))
    science, orders = Science(), _orders()
    for task in orders:
        try:
            make(task, science, orders)
        except SonifyError as error:
            _say({"failed": str(error)})
        except StopIteration:
            return
        except OSError as error:
            _say({"failed": str(error), "trace": traceback.format_exc()})
        except Exception as error:
            told = fact("batch-our-fault", error=f"{type(error).__name__}: {error}")
            _say({"failed": say(told), "trace": traceback.format_exc()})
        else:
            _say({"made": True})


def _stop(number: int, frame: Any) -> None:
    raise SystemExit(1)


class Science:
    """The Timeline of the scene that was made last: the next pair is mostly of the same."""

    def __init__(self) -> None:
        self._of = ""
        self._timeline: Timeline | None = None

    def of(self, scene: Scene, changes: list[str]) -> Timeline:
        name = json.dumps([scene.name, scene.origin.sha256, scene.table.sha256 if scene.table else "", changes])
        if self._timeline is None or name != self._of:
            self._of, self._timeline = name, lesson.simulate(scene)
        return self._timeline


def make(task: dict[str, Any], science: Science, orders: Iterator[dict[str, Any]]) -> None:
    """The pack of one pair, as `sonify make` alone makes it. Its card is in the ledger before it can stand."""
    options = task["options"]
    scene = lesson.load(task["scene"], task["changes"])
    classroom = lesson.load_class(task["class"])
    if called := task.get("called"):  # made for another machine: files are named as they are there
        scene = replace(scene, origin=replace(scene.origin, file=called.get("scene", scene.origin.file)))
        classroom = replace(
            classroom, origin=replace(classroom.origin, file=called.get("class", classroom.origin.file))
        )
    lesson.check_out(scene, task["out"], replace=task["replace"])
    studied = lesson.study(
        scene,
        classroom,
        seed=options["seed"],
        scaffold=options["scaffold"],
        timeline=science.of(scene, task["changes"]),
    )
    _say({"card": card_of(studied)})
    next(orders)  # noted
    lesson.write_pack(
        studied,
        out=Path(task["out"]),
        replace=task["replace"],
        wishes=lesson.Wishes(**_tuples(options["wishes"])),
        printing=lesson.Printing(**_tuples(options["printing"])),
        plan=lesson.plan_of(studied, lesson.readings_beside(task["scene"], scene)),
        progress=lambda doing, share: _say({"share": round(share, 2)}),
    )


def _tuples(given: dict[str, Any]) -> dict[str, Any]:
    """JSON knows lists only, the records have tuples."""
    return {name: tuple(value) if isinstance(value, list) else value for name, value in given.items()}


def _orders() -> Iterator[dict[str, Any]]:
    """What whoever started us says, line by line: a pack to make, a card is noted; until that is all, or it is gone.

    Where the system does not end us with it, a thread watches for that.
    """
    line = sys.stdin.readline()
    if not line:
        return
    first = json.loads(line)
    if goes_with(first["maker"]):
        yield first
        for line in sys.stdin:
            yield json.loads(line)
        return
    lines: queue.SimpleQueue[str] = queue.SimpleQueue()
    waiting = threading.Event()

    def watch() -> None:
        for line in sys.stdin:
            lines.put(line)
        lines.put("")
        if not waiting.is_set():
            os._exit(1)

    threading.Thread(target=watch, daemon=True).start()
    yield first
    while True:
        waiting.set()
        line = lines.get()
        waiting.clear()
        if not line:
            return
        yield json.loads(line)


def _say(said: dict[str, Any]) -> None:
    print(json.dumps(said), flush=True)


if __name__ == "__main__":
    main()
