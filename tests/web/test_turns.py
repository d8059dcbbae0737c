"""What takes turns and what does not: a Plan is answered while sounds are rendered."""

from __future__ import annotations

import asyncio
import threading
from pathlib import Path

import pytest

from sonify.web.app import SOUNDS_AT_ONCE, Server
from sonify.web.desk import Study
from sonify.web.inputs import read_inputs
from sonify.web.sharing import Door
from tests.web.running import HARBOUR


def test_sounds_that_are_rendered_hold_up_no_plan(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    server = Server(tmp_path, Door(""))
    begun, go_on = threading.Semaphore(0), threading.Event()

    def slow(given: Study) -> bytes:
        begun.release()
        assert go_on.wait(30)
        return b"sounds"

    monkeypatch.setattr(server.sounds, "of", slow)

    async def asked() -> None:
        study = await server.compute(lambda: server.desk.study(read_inputs(HARBOUR)))
        rendered = [asyncio.create_task(server.sounds_of(study)) for _ in range(SOUNDS_AT_ONCE + 1)]
        server.begin_sounds(study)
        for _ in range(SOUNDS_AT_ONCE):
            assert await asyncio.to_thread(begun.acquire, timeout=10)
        try:
            assert await asyncio.wait_for(server.compute(lambda: "a plan"), 5) == "a plan"
        finally:
            go_on.set()
        assert await asyncio.gather(*rendered) == [b"sounds"] * (SOUNDS_AT_ONCE + 1)

    asyncio.run(asked())
