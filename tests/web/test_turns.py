"""What takes turns and what does not: a Plan is answered while sounds are rendered."""

from __future__ import annotations

import asyncio
import threading
from pathlib import Path

import pytest

from sonify.errors import SonifyError, UnknownName
from sonify.web import process
from sonify.web.app import SOUNDS_AT_ONCE, Server
from sonify.web.desk import Desk, Study
from sonify.web.inputs import read_inputs
from sonify.web.jobs import Jobs
from sonify.web.options import read_options
from sonify.web.packs import Packs
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


def test_a_pack_with_slow_science_is_taken_at_once(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """Its science is computed in the pack's own process, which can be stopped, and in none of the server's turns."""
    monkeypatch.setenv("SONIFY_CACHE", str(tmp_path / "cache"))
    desk = Desk()
    packs = Packs(desk, Jobs(tmp_path), lambda request: "me", lambda work: work(), lambda request: True)
    slow = {"scene": {"name": "ice-rink-particles"}}
    assert packs._checked(read_inputs(slow), ["nobody"]) == "ice-rink-particles"
    assert not desk.knows(read_inputs(slow))
    with pytest.raises(SonifyError, match="pupils"):
        packs._checked(read_inputs({**slow, "class": {"year": 4, "pupils": 3, "groups": 5}}), [])
    with pytest.raises(UnknownName, match="nobody"):
        packs._checked(read_inputs(HARBOUR), ["nobody"])


def test_the_process_of_a_pack_tells_of_a_group_that_is_not_there(tmp_path: Path) -> None:
    options = read_options({"without": ["nobody"], "stems": False})
    task = {"task": "pack", "name": "x", "inputs": HARBOUR, "options": options, "readings": {}}
    assert "nobody" in asyncio.run(process.worked(task, tmp_path, lambda doing, share: None))
