"""Which packs are kept, and for how long."""

from __future__ import annotations

import asyncio
import shutil
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from sonify.web import jobs
from sonify.web.jobs import MOST_OVER, MOST_READY, Job, Jobs


@pytest.fixture
def made(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Jobs:
    """Jobs that are over at once; a task has the error that it ends with."""

    async def worked(task: dict[str, Any], folder: Path, tell: Callable[[str, float], None], workers: object) -> str:
        (folder / jobs.PACK).mkdir()
        return str(task["error"])

    monkeypatch.setattr(jobs, "worked", worked)
    return Jobs(tmp_path)


async def over(made: Jobs, owner: str, error: str = "") -> Job:
    job = made.add(owner, {"error": error}, "pack")
    assert job.running is not None
    await job.running
    return job


def kept(made: Jobs) -> list[str]:
    return [job.owner for job in made._jobs.values() if job.state == "ready" and job.pack.is_dir()]


def test_the_newest_packs_are_kept_and_one_for_each_browser(made: Jobs, tmp_path: Path) -> None:
    async def many() -> None:
        for owner in "abcdefgh":
            await over(made, owner)
        assert kept(made) == list("cdefgh")
        await over(made, "e")  # takes the place of her own, of nobody else's
        assert kept(made) == list("cdfghe")
        assert len(list(tmp_path.iterdir())) == MOST_READY

    asyncio.run(many())


def test_what_failed_costs_nobody_a_pack(made: Jobs, tmp_path: Path) -> None:
    async def many() -> None:
        for owner in "abcdef":
            await over(made, owner)
        for number in range(MOST_READY):
            assert (await over(made, f"unlucky {number}", "no such scene")).state == "failed"
        assert kept(made) == list("abcdef")
        assert len(list(tmp_path.iterdir())) == MOST_READY

    asyncio.run(many())


def test_what_became_of_jobs_is_forgotten_in_the_end(made: Jobs) -> None:
    async def many() -> None:
        begun = [await over(made, f"{number}", "no such scene") for number in range(MOST_OVER + 5)]
        assert list(made._jobs) == [job.id for job in begun[-MOST_OVER - 1 :]]

    asyncio.run(many())


def test_folders_are_removed_off_the_loop(made: Jobs, monkeypatch: pytest.MonkeyPatch) -> None:
    where: list[bool] = []
    remove = shutil.rmtree

    def noted(folder: Path, ignore_errors: bool = False) -> None:
        where.append(threading.current_thread() is threading.main_thread())
        remove(folder, ignore_errors)

    async def twice() -> None:
        await over(made, "a")
        await over(made, "a")

    monkeypatch.setattr(jobs.shutil, "rmtree", noted)
    asyncio.run(twice())
    assert where == [False]
