"""A recording of the class brought to the server: measured by it, kept nowhere, told to the browser it came from."""

from __future__ import annotations

import io
import time
from collections.abc import Callable
from typing import Any

import httpx
import numpy as np
import pytest
import soundfile

from sonify.web.safety import MICROPHONE
from tests.web.running import HARBOUR, Running

SENT = {"Content-Type": "application/octet-stream"}


def wav(seconds: float, rate_hz: int = 8_000) -> bytes:
    """Noise: no piece is in it, and no silence that would be told at once."""
    out = io.BytesIO()
    samples = 0.1 * np.random.default_rng(4).normal(size=int(seconds * rate_hz))
    soundfile.write(out, samples, rate_hz, format="WAV", subtype="PCM_16")
    return out.getvalue()


@pytest.fixture
def lesson(client: httpx.Client) -> str:
    while "key" not in (found := client.post("/api/lesson", json=HARBOUR).json()):
        time.sleep(0.3)
    return str(found["key"])


def state(client: httpx.Client, key: str, until: Callable[[dict[str, Any]], bool]) -> dict[str, Any]:
    for _ in range(600):
        found = client.get(f"/api/recording/{key}").json()
        if until(found):
            return dict(found)
        time.sleep(0.1)
    raise AssertionError(found)


def left(running: Running) -> list[str]:
    return [
        path.name
        for folder in running.folders()
        for path in folder.iterdir()
        if "ecord" in path.name or "sent" in path.name
    ]


def test_a_recording_is_measured_and_gone(running: Running, client: httpx.Client, lesson: str) -> None:
    address = f"/api/recording/{lesson}"
    assert client.post(f"{address}/file?name=a.wav", content=wav(50.0), headers=SENT).status_code == 202
    found = state(client, lesson, lambda now: now["state"] not in ("arriving", "measuring"))
    assert (found["state"], found["told"]["recognised"], found["told"]["stages"]) == ("ready", False, [])
    assert found["told"]["why"] and left(running) == []
    # what is no recording is one plain message, and a name that is a path is only a name
    client.post(f"{address}/file?name=../../a.wav", content=b"no sound at all" * 99, headers=SENT)
    found = state(client, lesson, lambda now: now["state"] not in ("arriving", "measuring"))
    assert found["state"] == "failed" and "recording.wav" in found["error"] and left(running) == []
    # another browser has nothing of it
    with running.client() as other:
        other.get("/")
        assert other.get(address).json()["state"] == "none"


@pytest.mark.long
def test_measuring_can_be_stopped(running: Running, client: httpx.Client, lesson: str) -> None:
    address = f"/api/recording/{lesson}"
    client.post(f"{address}/file?name=a.wav", content=wav(600.0), headers=SENT)
    busy = client.post(f"{address}/file?name=b.wav", content=wav(1.0), headers=SENT)
    assert busy.status_code == 409 and "already" in busy.json()["error"]
    assert client.post(f"{address}/cancel", json={}).json()["state"] == "cancelled"
    assert left(running) == []


@pytest.mark.long
def test_a_phone_sends_for_the_lesson_that_waits(running: Running, client: httpx.Client, lesson: str) -> None:
    with running.client() as phone:
        refused = phone.post("/api/sent-recording/file?name=a.m4a", content=wav(1.0), headers=SENT)
        assert refused.status_code == 409 and "Wait for a phone" in refused.json()["error"]
        assert client.post(f"/api/recording/{lesson}/wait", json={}).json()["state"] == "waiting"
        sent = phone.post("/api/sent-recording/file?name=a.wav", content=wav(1.0), headers=SENT)
    assert sent.json() == {"sent": True}
    found = state(client, lesson, lambda now: now["state"] == "ready")
    assert found["from_phone"] and found["told"]["why"]


def test_the_microphone_is_for_the_page_that_records(client: httpx.Client, lesson: str) -> None:
    page = client.get(f"/lesson/{lesson}/recording")
    assert page.headers["Permissions-Policy"] == MICROPHONE
    assert "policy before you record" in page.text
    for other in (f"/lesson/{lesson}", "/send"):
        assert "microphone=()" in client.get(other).headers["Permissions-Policy"]


@pytest.mark.parametrize(
    ("headers", "status"),
    [({"Content-Type": "application/json"}, 415), ({**SENT, "X-Sonify": "0"}, 403)],
)
def test_a_recording_is_refused_that_no_page_of_ours_sends(
    headers: dict[str, str], status: int, client: httpx.Client, lesson: str
) -> None:
    answer = client.post(f"/api/recording/{lesson}/file", content=b"x", headers=headers)
    assert answer.status_code == status


def test_a_lesson_that_is_gone_takes_no_recording(client: httpx.Client) -> None:
    answer = client.post("/api/recording/nobody/file?name=a.wav", content=wav(0.1), headers=SENT)
    assert answer.status_code == 404 and "no longer has this lesson" in answer.json()["error"]
