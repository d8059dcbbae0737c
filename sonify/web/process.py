"""A task in a process of its own, as `web.work` does it: told by lines of JSON, stopped at any moment."""

from __future__ import annotations

import asyncio
import json
import os
import sys
from collections.abc import Callable
from contextlib import suppress
from pathlib import Path
from typing import Any

from anyio.to_thread import run_sync

import sonify
from sonify.say import say
from sonify.web.errors import OUR_FAULT

#: Seconds between asking a process to stop and making it.
PATIENCE_S = 1.0


async def worked(task: dict[str, Any], folder: Path, tell: Callable[[str, float], None]) -> str:
    """Do a task in a process of its own, in a folder; the error's words, or "". Cancelling it stops the process."""
    process = await asyncio.create_subprocess_exec(
        sys.executable,
        "-P",  # nothing is imported from the folder it works in
        "-m",
        "sonify.web.work",
        stdin=asyncio.subprocess.PIPE,
        stdout=asyncio.subprocess.PIPE,
        cwd=folder,
        env=_environment(folder),
    )
    assert process.stdin is not None and process.stdout is not None
    said: dict[str, Any] = {}
    try:
        process.stdin.write(await run_sync(lambda: encoded({**task, "server": os.getpid()})))
        with suppress(ConnectionError):
            await process.stdin.drain()
        async for line in process.stdout:
            said = _told(line) or said
            if "share" in said:
                tell(said["doing"], said["share"])
        await process.wait()
    finally:
        await _ended(process)
    if "error" in said:
        return str(said["error"])
    return "" if process.returncode == 0 and said.get("share") == 1.0 else say(OUR_FAULT)


def encoded(task: dict[str, Any]) -> bytes:
    """A task as one line. With large readings in it this takes a while."""
    return json.dumps(task).encode() + b"\n"


def _told(line: bytes) -> dict[str, Any]:
    """What a line tells; nothing where it is not ours: a library may print, too."""
    try:
        found = json.loads(line)
    except ValueError:
        return {}
    return found if isinstance(found, dict) else {}


def _environment(folder: Path) -> dict[str, str]:
    """Scratch space lies in the folder too; the package is this very one."""
    home = str(Path(sonify.__file__).resolve().parent.parent)
    paths = [home, *filter(None, [os.environ.get("PYTHONPATH")])]
    return {
        **os.environ,
        "TMPDIR": str(folder),
        "TEMP": str(folder),
        "TMP": str(folder),
        "PYTHONPATH": os.pathsep.join(paths),
    }


async def _ended(process: asyncio.subprocess.Process) -> None:
    """The process is gone when this returns."""
    if process.returncode is not None:
        return
    with suppress(ProcessLookupError):
        process.terminate()
    try:
        await asyncio.wait_for(process.wait(), PATIENCE_S)
    except TimeoutError:
        with suppress(ProcessLookupError):
            process.kill()
        await process.wait()
