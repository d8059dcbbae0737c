"""A task in a process of its own, as `web.work` does it: told by lines of JSON, stopped at any moment.

A process that has done its task waits for the next one, which then begins at once.
"""

from __future__ import annotations

import asyncio
import json
import os
import sys
from collections.abc import Callable
from contextlib import suppress
from dataclasses import dataclass, field
from pathlib import Path
from typing import Any

from anyio.to_thread import run_sync

import sonify
from sonify.say import say
from sonify.storage.program import command
from sonify.web.errors import OUR_FAULT

#: Seconds between asking a process to stop and making it.
PATIENCE_S = 1.0
#: Processes that wait for their next task; each holds some 100 MB.
MOST_IDLE = 2


@dataclass(slots=True)
class Workers:
    """The processes of one server. kept: the folder for what packs have in common, None where nothing is kept."""

    kept: Path | None = None
    _idle: list[asyncio.subprocess.Process] = field(default_factory=list)

    async def worked(self, task: dict[str, Any], folder: Path, tell: Callable[[str, float], None]) -> str:
        """Do a task in a process of its own, in a folder; the error's words, or "". Cancelling it stops the process."""
        process = await self._free()
        given = {**task, "folder": str(folder.resolve()), "kept": str(self.kept.resolve()) if self.kept else ""}
        said: dict[str, Any] = {}
        again = False
        try:
            assert process.stdin is not None and process.stdout is not None
            process.stdin.write(await run_sync(lambda: encoded(given)))
            with suppress(ConnectionError):
                await process.stdin.drain()
            async for line in process.stdout:
                said |= _told(line)
                if "ended" in said:
                    again = True
                    break
                if "share" in said:
                    tell(said["doing"], said["share"])
        finally:
            if again and sys.platform == "linux" and len(self._idle) < MOST_IDLE:
                self._idle.append(process)
            else:
                await _ended(process)
        if "error" in said:
            return str(said["error"])
        return "" if said.get("ended") == 0 and said.get("share") == 1.0 else say(OUR_FAULT)

    async def _free(self) -> asyncio.subprocess.Process:
        """One that waits, or a new one."""
        while self._idle:
            process = self._idle.pop()
            if process.returncode is None:
                return process
        return await asyncio.create_subprocess_exec(
            *command("sonify.web.work"),
            str(os.getpid()),
            stdin=asyncio.subprocess.PIPE,
            stdout=asyncio.subprocess.PIPE,
            env=environment(),
        )

    async def close(self) -> None:
        """No process waits any longer."""
        while self._idle:
            await _ended(self._idle.pop())


async def worked(
    task: dict[str, Any], folder: Path, tell: Callable[[str, float], None], workers: Workers | None = None
) -> str:
    """`Workers.worked`; without workers by one that is gone afterwards."""
    own = workers or Workers()
    try:
        return await own.worked(task, folder, tell)
    finally:
        if workers is None:
            await own.close()


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


def environment() -> dict[str, str]:
    """The package is this very one."""
    home = str(Path(sonify.__file__).resolve().parent.parent)
    return {**os.environ, "PYTHONPATH": os.pathsep.join([home, *filter(None, [os.environ.get("PYTHONPATH")])])}


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
