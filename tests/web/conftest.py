"""One server for the tests that leave it as it was."""

from __future__ import annotations

from collections.abc import Iterator

import httpx
import pytest

from tests.web.running import Running, server


@pytest.fixture(scope="session")
def running(tmp_path_factory: pytest.TempPathFactory) -> Iterator[Running]:
    with server(tmp_path_factory.mktemp("server") / "scratch") as found:
        yield found


@pytest.fixture
def client(running: Running) -> Iterator[httpx.Client]:
    with running.client() as found:
        yield found
