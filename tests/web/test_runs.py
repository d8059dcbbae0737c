"""Runs that take seconds: begun once, waited for by every tab, and stopped only when nobody asks any more."""

from __future__ import annotations

import asyncio
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from sonify.web import runs
from sonify.web.errors import Refused
from sonify.web.runs import MOST_WAITING, Runs

UNASKED_S = 0.3


@pytest.fixture
def stopped(monkeypatch: pytest.MonkeyPatch) -> list[str]:
    """Runs that never end by themselves; the names of those that were stopped."""
    found: list[str] = []

    async def worked(task: dict[str, Any], folder: Path, tell: Callable[[str, float], None], workers: object) -> str:
        try:
            await asyncio.sleep(60.0)
        except asyncio.CancelledError:
            found.append(task["name"])
            raise
        return ""

    monkeypatch.setattr(runs, "worked", worked)
    monkeypatch.setattr(runs, "UNASKED_S", UNASKED_S)
    return found


def ask(held: Runs, name: str, owner: str = "one browser", *, unasked: bool = False) -> dict[str, Any] | None:
    return held.waiting(name, owner, {"name": name}, unasked=unasked)


async def poll(held: Runs, names: list[str], seconds: float) -> None:
    for _ in range(round(seconds / 0.05)):
        for name in names:
            assert ask(held, name)
        await asyncio.sleep(0.05)


def test_two_tabs_of_one_browser_leave_each_other_their_runs(tmp_path: Path, stopped: list[str]) -> None:
    async def both() -> None:
        held = Runs(tmp_path)
        await poll(held, ["first", "second"], 3 * UNASKED_S)
        assert stopped == []
        await held.close()

    asyncio.run(both())


def test_what_nobody_asks_for_is_stopped_and_the_next_has_its_turn(tmp_path: Path, stopped: list[str]) -> None:
    async def moved_on() -> None:
        held = Runs(tmp_path)
        ask(held, "before")
        await poll(held, ["now"], 2 * UNASKED_S)
        assert stopped == ["before"]
        await asyncio.sleep(2 * UNASKED_S)  # the tab is closed
        assert stopped == ["before", "now"]

    asyncio.run(moved_on())


def test_what_the_server_itself_began_goes_on_unasked(tmp_path: Path, stopped: list[str]) -> None:
    async def warmed() -> None:
        held = Runs(tmp_path)
        ask(held, "warm", "the server", unasked=True)
        await asyncio.sleep(2 * UNASKED_S)
        assert stopped == []
        await held.close()

    asyncio.run(warmed())


def test_a_slider_that_is_dragged_far_fills_the_queue_for_nobody(tmp_path: Path, stopped: list[str]) -> None:
    async def dragged() -> None:
        held = Runs(tmp_path)
        for step in range(MOST_WAITING + 3):
            assert ask(held, f"step {step}")
            await asyncio.sleep(0)
        with pytest.raises(Refused, match="enough simulations"):
            ask(held, "another", "another browser")
        await held.close()

    asyncio.run(dragged())


@pytest.mark.parametrize(
    ("error", "said"),
    [
        (BlockingIOError(11, "Resource temporarily unavailable"), "temporarily unavailable"),
        (KeyError("x"), "in sonify"),
    ],
)
def test_a_run_that_cannot_be_started_is_told(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch, error: Exception, said: str
) -> None:
    async def worked(*given: object) -> str:
        raise error

    async def refused() -> None:
        held = Runs(tmp_path)
        assert ask(held, "run")
        await asyncio.sleep(0.01)
        with pytest.raises(Refused, match=said):
            ask(held, "run")
        assert ask(held, "run")  # and the next time it is tried anew
        await held.close()

    monkeypatch.setattr(runs, "worked", worked)
    asyncio.run(refused())
