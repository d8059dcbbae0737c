"""What a foreign page, a broken client or a wicked file can do to the server: get a plain refusal."""

from __future__ import annotations

import json
import re
import socket
from base64 import b64encode
from collections.abc import Mapping
from hashlib import sha256
from pathlib import Path
from typing import Any

import httpx
import pytest

from sonify.web.drafts import shipped_scene_text
from sonify.web.errors import without_places
from tests.web.running import HARBOUR, Running


def raw(running: Running, head: str, body: bytes = b"") -> tuple[int, str]:
    """A request letter for letter, as no well-behaved client would send it; the status and the whole answer."""
    with socket.create_connection(("127.0.0.1", running.port), timeout=60) as sock:
        sock.sendall(head.replace("\n", "\r\n").encode("latin-1") + b"\r\n\r\n" + body)
        found = b""
        while chunk := sock.recv(65_536):
            found += chunk
    text = found.decode("latin-1")
    return int(text.split(" ", 2)[1]), text


@pytest.mark.parametrize(
    "host",
    [
        "evil.example",
        "evil.example:{port}",
        "127.0.0.1",
        "127.0.0.1:1",
        "localhost.evil.example:{port}",
        "0.0.0.0:{port}",
    ],
)
def test_a_foreign_host_is_refused(running: Running, host: str) -> None:
    status, text = raw(running, f"GET / HTTP/1.1\nHost: {host.format(port=running.port)}\nConnection: close")
    assert status == 403
    assert "water" not in text


@pytest.mark.parametrize("host", ["127.0.0.1:{port}", "localhost:{port}", "LocalHost:{port}", "[::1]:{port}"])
def test_its_own_names_are_answered(running: Running, host: str) -> None:
    head = f"GET /api/start HTTP/1.1\nHost: {host.format(port=running.port)}\nConnection: close"
    assert raw(running, head)[0] == 200


def test_two_hosts_are_refused(running: Running) -> None:
    own = f"127.0.0.1:{running.port}"
    assert raw(running, f"GET / HTTP/1.1\nHost: {own}\nHost: evil.example\nConnection: close")[0] in (400, 403)


@pytest.mark.parametrize("origin", ["http://evil.example", "https://127.0.0.1:{port}", "null", "http://127.0.0.1:1"])
def test_a_foreign_origin_is_refused(client: httpx.Client, running: Running, origin: str) -> None:
    headers = {"Origin": origin.format(port=running.port)}
    assert client.post("/api/plan", json=HARBOUR, headers=headers).status_code == 403
    assert client.get("/api/start", headers=headers).status_code == 403


def test_its_own_origin_is_answered(client: httpx.Client, running: Running) -> None:
    assert client.get("/api/start", headers={"Origin": running.address}).status_code == 200


def test_another_site_cannot_fetch(client: httpx.Client) -> None:
    assert client.get("/api/start", headers={"Sec-Fetch-Site": "cross-site"}).status_code == 403
    assert client.get("/api/start", headers={"Sec-Fetch-Site": "same-origin"}).status_code == 200


@pytest.mark.parametrize(
    ("headers", "status"),
    [
        ({}, 403),
        ({"X-Sonify": "0"}, 403),
        ({"X-Sonify": "1", "Content-Type": "text/plain"}, 415),
        ({"X-Sonify": "1", "Content-Type": "application/x-www-form-urlencoded"}, 415),
    ],
)
def test_what_a_foreign_form_can_send_is_refused(running: Running, headers: Mapping[str, str], status: int) -> None:
    usual = {"Content-Type": "application/json"}
    answer = httpx.post(f"{running.address}/api/plan", content=json.dumps(HARBOUR), headers={**usual, **headers})
    assert answer.status_code == status


@pytest.mark.parametrize("method", ["PUT", "DELETE", "OPTIONS", "PATCH", "TRACE"])
def test_other_methods(client: httpx.Client, method: str) -> None:
    answer = client.request(method, "/api/plan")
    assert answer.status_code == 405
    assert "access-control-allow-origin" not in answer.headers


WALKS = (
    "/static/../pyproject.toml",
    "/static/..%2f..%2fpyproject.toml",
    "/static/%2e%2e/%2e%2e/etc/passwd",
    "/static//etc/passwd",
    "/static/..\\\\..\\\\x",
    "/lesson/../../etc/passwd",
    "/api/data/../../examples/well-stocked",
    "/api/data/..%2fexamples%2fwell-stocked",
    "/api/data/%2fetc%2fpasswd",
    "/api/pack/../../etc/passwd",
    "/api/pack/x/file/..%2f..%2fpack.json",
)


@pytest.mark.parametrize("path", WALKS)
def test_no_path_reaches_the_file_system(running: Running, path: str) -> None:
    head = f"GET {path} HTTP/1.1\nHost: 127.0.0.1:{running.port}\nConnection: close"
    status, text = raw(running, head)
    assert status == 404
    for leaked in ("root:", "[project]", "pupils", "Traceback", "/work/", "/usr/"):
        assert leaked not in text


def test_a_scene_is_no_path(client: httpx.Client) -> None:
    for name in ("../examples/well-stocked", "/etc/passwd", "harbour-water-cycle.toml", "scenes/two-cups"):
        answer = client.post("/api/plan", json={"scene": {"name": name}})
        assert answer.status_code == 404
        assert "two-cups" in answer.json()["error"]


BODIES: dict[str, bytes] = {
    "no JSON": b"{",
    "not UTF-8": b'{"scene": "\xff"}',
    "deep": b"[" * 200_000 + b"]" * 200_000,
    "deep object": b'{"scene":' * 50_000,
    "NaN": b'{"scene": {"name": "two-cups"}, "seed": NaN}',
    "Infinity": b'{"scene": {"name": "two-cups"}, "seed": Infinity}',
    "a long number": b'{"scene": {"name": "two-cups"}, "seed": ' + b"9" * 5000 + b"}",
    "a list": b"[]",
    "null": b"null",
    "no scene": b"{}",
    "no name": b'{"scene": {"name": ""}}',
    "both kinds of scene": b'{"scene": {"name": "two-cups", "text": "x"}}',
    "a name that is a table": b'{"scene": {"name": {}}}',
    "half a letter": b'{"scene": {"text": "\\ud800"}}',
    "a seed that is true": b'{"scene": {"name": "two-cups"}, "seed": true}',
    "a scaffold that is none": b'{"scene": {"name": "two-cups"}, "scaffold": "none"}',
    "a condition that is a list": b'{"scene": {"name": "two-cups"}, "set": {"drink": [1]}}',
    "a condition that is a bare fraction": b'{"scene": {"name": "two-cups"}, "set": {"drink": 1.5}}',
    "a rule without a number": b'{"scene": {"name": "two-cups"}, "rules": {"x": {}}}',
    "a rule that is not there": b'{"scene": {"name": "two-cups"}, "rules": {"99": {"curve": "linear"}}}',
    "a class of words": b'{"scene": {"name": "two-cups"}, "class": {"year": "four"}}',
    "a class of tables": b'{"scene": {"name": "two-cups"}, "class": {"year": {"a": {}}, "cupboard": [[1]]}}',
    "a class of nothing": b'{"scene": {"name": "two-cups"}, "class": {"needs": [null]}}',
    "a cupboard of nobody": b'{"scene": {"name": "two-cups"}, "class": {"year": 4, "pupils": 3, "groups": 1, '
    b'"cupboard": {"kazoo": 1}}}',
    "a class text that is none": b'{"scene": {"name": "two-cups"}, "class": {"text": "[[[", "year": 4}}',
}


@pytest.mark.parametrize("name", BODIES)
def test_a_request_of_another_shape_has_a_plain_answer(client: httpx.Client, name: str) -> None:
    for path in ("/api/plan", "/api/lesson"):
        answer = client.post(path, content=BODIES[name], headers={"Content-Type": "application/json"})
        assert answer.status_code == 400, answer.text
        assert set(answer.json()) <= {"error", "where"}
        assert 10 < len(answer.json()["error"]) < 4000
        assert "Traceback" not in answer.text


def test_the_error_names_the_field(client: httpx.Client) -> None:
    answer = client.post("/api/plan", json={**HARBOUR, "class": {"year": 9, "pupils": 3, "groups": 1}})
    assert answer.json()["where"] == "year"
    assert "3 to 6" in answer.json()["error"]


@pytest.mark.parametrize(
    ("path", "body"),
    [
        ("/api/plan", {"scene": {"text": "#" * 1_000_001, "file": "a.toml"}}),
        ("/api/plan", {**HARBOUR, "class": {"text": "#" * 1_000_001}}),
        ("/api/read", {"kind": "csv", "file": "a.csv", "text": "1,2\n" * 13_000_000}),
        ("/api/join", {"code": "x" * 5_000_000}),
        ("/api/plan", {"scene": {"text": "x" * 85_000_000}}),
    ],
)
def test_what_is_too_large_is_refused(client: httpx.Client, path: str, body: dict[str, Any]) -> None:
    answer = client.post(path, json=body)
    assert answer.status_code == 413
    assert "error" in answer.json()


def test_a_body_longer_than_it_says_is_not_read_to_its_end(running: Running) -> None:
    def endless() -> Any:
        for _ in range(200):
            yield b" " * 1_000_000

    headers = {"X-Sonify": "1", "Content-Type": "application/json"}
    try:
        answer = httpx.post(f"{running.address}/api/plan", content=endless(), headers=headers, timeout=60)
    except httpx.TransportError:
        return  # the server hung up: as good
    assert answer.status_code == 413


BOMBS = {
    "nested lists": "a = " + "[" * 100_000 + "]" * 100_000,
    "nested tables": "a = " + "{b = " * 50_000 + "1" + "}" * 50_000,
    "a long dotted key": ".".join("a" * 50_000) + " = 1",
    "many tables": "[[hear]]\n" * 100_000,
    "many keys": "\n".join(f"k{n} = {n}" for n in range(60_000)),
    "a long number": f"title = {'9' * 900_000}",
    "many conditions": "[conditions]\n" + "\n".join(f'c{n} = "1 m"' for n in range(50_000)),
    "control characters": 'title = "\\u0000\\u001b[31m"',
    "open quotes": 'title = """' + "x" * 900_000,
}


@pytest.mark.parametrize("name", BOMBS)
def test_a_wicked_scene_file_has_a_plain_answer(client: httpx.Client, name: str) -> None:
    inputs = {"scene": {"text": BOMBS[name], "file": "bomb.toml"}, "set": {"a": "1 m"}}
    answer = client.post("/api/plan", json=inputs)
    assert answer.status_code == 400
    assert answer.json()["error"].startswith("bomb.toml")
    assert len(answer.text) < 20_000


def test_markup_in_a_scene_stays_text(client: httpx.Client) -> None:
    wicked = "<script>alert(1)</script><img src=x onerror=alert(1)>{{ 7*7 }}</title>"
    text = shipped_scene_text("two-cups")
    text = re.sub(r"(?m)^title.*$", f'title = "{wicked}"', text, count=1)
    inputs = {"scene": {"text": text, "file": f"{wicked}.toml"}}
    plan = client.post("/api/plan", json=inputs)
    assert plan.headers["content-type"] == "application/json"
    assert plan.json()["title"] == wicked
    assert not set(plan.json()["scene_file"]) & set('<>:"/\\|?*')
    key = client.post("/api/lesson", json=inputs).json()["key"]
    page = client.get(f"/lesson/{key}").text
    assert "<script>alert" not in page and "<img src=x" not in page and "49</title>" not in page
    assert "&lt;script&gt;alert(1)" in page


def test_every_answer_carries_the_headers_of_safety(client: httpx.Client) -> None:
    answers = [client.get("/"), client.get("/api/start"), client.get("/nowhere"), client.post("/api/plan", json={})]
    answers.append(client.get("/", headers={"Host": "evil.example"}))
    for answer in answers:
        assert answer.headers["x-content-type-options"] == "nosniff"
        assert answer.headers["x-frame-options"] == "DENY"
        assert answer.headers["cache-control"] == "no-store"
        assert "default-src 'none'" in answer.headers["content-security-policy"]
        assert "frame-ancestors 'none'" in answer.headers["content-security-policy"]
        assert "server" not in answer.headers
        assert "unsafe" not in answer.headers["content-security-policy"]


def test_pages_let_nothing_run_but_their_own_script(client: httpx.Client) -> None:
    key = client.post("/api/lesson", json=HARBOUR).json()["key"]
    for path in ("/", f"/lesson/{key}", "/lesson/none"):
        answer = client.get(path)
        policy = answer.headers["content-security-policy"]
        assert answer.headers["content-type"] == "text/html; charset=utf-8"
        for kind in ("script", "style"):
            for text in re.findall(rf"<{kind}>(.*?)</{kind}>", answer.text, re.DOTALL):
                assert f"'sha256-{b64encode(sha256(text.encode()).digest()).decode()}'" in policy
        assert not re.search(r"\son[a-z]+=|<[^>]+\sstyle=|javascript:", answer.text.partition("<script")[0])


def test_the_cookie_is_kept_from_scripts_and_other_sites(running: Running) -> None:
    given = httpx.get(running.address).headers["set-cookie"].lower()
    assert "httponly" in given and "samesite=strict" in given


def test_no_message_tells_how_the_machine_is_laid_out(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.chdir(tmp_path)
    for place in (tmp_path / "my packs", Path.home() / "a b", Path("/srv/school")):
        said = without_places(f"{place}/pack: no space left; 2 mm/h")
        assert said == "pack: no space left; 2 mm/h"
    assert without_places("C:\\Users\\me\\pack: full") == "pack: full"
    assert without_places("rain in mm/h, 4 m/s and W/m**2/K, 80 /min") == "rain in mm/h, 4 m/s and W/m**2/K, 80 /min"
