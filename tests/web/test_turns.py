"""What takes turns and what does not: a Plan is answered while sounds are rendered."""

from __future__ import annotations

import asyncio
import threading
from dataclasses import replace
from pathlib import Path
from types import SimpleNamespace
from typing import Any, cast

import pytest

from sonify.errors import SonifyError, UnknownName
from sonify.web import process
from sonify.web.app import MOST_BEGUN, SOUNDS_AT_ONCE, Server
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
        others = [replace(study, key=f"another {number}") for number in range(SOUNDS_AT_ONCE)]
        rendered = [asyncio.create_task(server.sounds_of(each)) for each in (study, *others)]
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


def test_sounds_are_rendered_once_however_many_ask_and_few_before_anybody_does(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SONIFY_SHELF", "")
    server, go, rendered = Server(tmp_path, Door("")), threading.Event(), []

    def of(study: Any) -> bytes:
        rendered.append(study.key)
        if study.key == "one" and not go.wait(20):
            raise AssertionError("the other lesson never had its turn")
        if study.key == "other":
            go.set()
        return str(study.key).encode()

    monkeypatch.setattr(server.sounds, "of", of)
    one, other, *more = (SimpleNamespace(key=key) for key in ("one", "other", *map(str, range(30))))

    async def asked() -> None:
        server.begin_sounds(cast(Any, one))
        wanted = [one, one, other]
        assert await asyncio.gather(*(server.sounds_of(cast(Any, each)) for each in wanted)) == [
            b"one",
            b"one",
            b"other",
        ]
        for study in more:
            server.begin_sounds(cast(Any, study))
        await asyncio.sleep(0.2)

    asyncio.run(asked())
    assert rendered[:2] == ["one", "other"] and len(rendered) == 2 + MOST_BEGUN


def test_who_asks_for_sounds_that_fail_is_told_and_the_next_asks_anew(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SONIFY_SHELF", "")
    server, times = Server(tmp_path, Door("")), [0]

    def of(study: Any) -> bytes:
        times[0] += 1
        if times[0] == 1:
            raise OSError("no room")
        return b"sounds"

    monkeypatch.setattr(server.sounds, "of", of)
    study = cast(Any, SimpleNamespace(key="one"))

    async def asked() -> bytes:
        with pytest.raises(OSError, match="no room"):
            await server.sounds_of(study)
        return await server.sounds_of(study)

    assert asyncio.run(asked()) == b"sounds"
