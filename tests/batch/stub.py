"""A worker that makes small packs at once, through the real workshop and swap: `python -m tests.batch.stub`.

A task says how the making goes: "whole", "refused" (an error told in words), "breaks" (the process ends in the middle)
or "breaks once". `token` goes into the pack and is another at each making, so that a second one is seen from outside.
"""

from __future__ import annotations

import ctypes
import json
import os
import sys
import time
from pathlib import Path
from typing import Any

from sonify.errors import SonifyError
from sonify.storage.pack import building

CARD = {
    "scene": "a-scene",
    "title": "A scene",
    "topics": [["Year 4", "states of matter"]],
    "years": [4],
    "ages": [8, 9],
    "length": "The piece lasts 3:00.",
    "kind": "line",
    "curve": "heat",
    "described": "It rises.",
    "paths": ["M0 1000L1000 0"],
    "stages": ["One"],
    "class": "a class",
    "year": 4,
    "pupils": 28,
}


def main() -> None:
    if sys.platform == "linux":
        ctypes.CDLL(None).prctl(1, 9)  # ends with whoever started it, as the real worker does
    for line in sys.stdin:
        task = json.loads(line)
        if sys.platform == "linux" and os.getppid() != task["maker"]:
            os._exit(1)  # gone before we asked to go with it
        out, how = Path(task["out"]), task["how"]
        if how == "refused":
            say({"failed": "no such thing"})
            continue
        say({"card": {**CARD, "scene": out.parent.name, "title": out.parent.name, "class": out.name}})
        sys.stdin.readline()  # noted
        try:
            make(out, task)
        except SonifyError as error:
            say({"failed": str(error)})
        else:
            say({"made": True})


def make(out: Path, task: dict[str, Any]) -> None:
    how = task["how"]
    with building(out, {"toolkit": "sonify stub"}, replace=task["replace"]) as work:
        (work / "token.txt").write_text(os.urandom(8).hex(), encoding="utf-8")
        (work / "page.html").write_text("page", encoding="utf-8")
        time.sleep(task["seconds"])
        if how == "breaks" or (how == "breaks once" and not (mark := out.parent / f"{out.name}.broken").exists()):
            if how == "breaks once":
                mark.touch()
            os._exit(7)


def say(said: object) -> None:
    print(json.dumps(said), flush=True)


if __name__ == "__main__":
    main()
