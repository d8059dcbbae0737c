"""Large readings: they are read and handed on beside the event loop, which answers everybody else meanwhile."""

from __future__ import annotations

import asyncio
import threading
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from sonify.errors import SonifyError
from sonify.web import http, inputs, process
from sonify.web.desk import Desk


def noted(work: Callable[..., Any], where: list[bool]) -> Callable[..., Any]:
    """The same work; whether each call was on the main thread, where the loop of these tests runs."""

    def noting(*given: Any) -> Any:
        where.append(threading.current_thread() is threading.main_thread())
        return work(*given)

    return noting


def test_inputs_are_read_off_the_loop(monkeypatch: pytest.MonkeyPatch) -> None:
    where: list[bool] = []
    monkeypatch.setattr(inputs, "digest", noted(inputs.digest, where))
    given = {"scene": {"text": "title = 1", "file": "a.toml", "csv": "1,2\n"}}
    assert asyncio.run(http.inputs_of(given, Desk(), home=True)).csv == "1,2\n"
    assert where == [False]


def test_a_task_is_written_off_the_loop(monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> None:
    where: list[bool] = []
    monkeypatch.setattr(process, "encoded", noted(process.encoded, where))
    task = {"task": "science", "inputs": {"scene": {"name": "no-such-scene"}}}
    said = asyncio.run(process.worked(task, tmp_path, lambda doing, share: None))
    assert "no-such-scene" in said
    assert where == [False]


@pytest.mark.parametrize("half", ["\ud800", "\udc00", "\udfff", "1,2\n\udbff"])
def test_half_a_character_is_refused(half: str) -> None:
    with pytest.raises(SonifyError, match="half a character"):
        inputs.text_at({"csv": half}, "csv", 100)
    assert inputs.text_at({"csv": "\ud7ff\ue000\U0001f30a"}, "csv", 100) == "\ud7ff\ue000\U0001f30a"
