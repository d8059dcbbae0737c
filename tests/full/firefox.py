"""Firefox over WebDriver BiDi (W3C working draft): keys as a person presses them, and a look at what the page shows."""

from __future__ import annotations

import json
import re
import shutil
import subprocess
import time
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path
from typing import Any

from websockets.sync.client import ClientConnection, connect

#: Keys without a letter, as WebDriver numbers them.
KEYS = {
    "Tab": "\ue004",
    "Enter": "\ue006",
    "Space": " ",
    "ArrowRight": "\ue014",
    "ArrowDown": "\ue015",
    "Escape": "\ue00c",
    "End": "\ue010",
}
CONTROL = "\ue009"


def program() -> str | None:
    return shutil.which("firefox-esr") or shutil.which("firefox")


class Firefox:
    """One tab. Every method raises AssertionError where the browser says no."""

    def __init__(self, line: ClientConnection) -> None:
        self._line, self._number = line, 0
        self._asked("session.new", capabilities={})
        self._tab = self._asked("browsingContext.getTree")["contexts"][0]["context"]

    def _asked(self, method: str, **params: Any) -> dict[str, Any]:
        self._number += 1
        self._line.send(json.dumps({"id": self._number, "method": method, "params": params}))
        while (answer := json.loads(self._line.recv(60))).get("id") != self._number:
            pass
        assert answer["type"] == "success", answer
        found: dict[str, Any] = answer["result"]
        return found

    def size(self, width: int, height: int) -> None:
        self._asked("browsingContext.setViewport", context=self._tab, viewport={"width": width, "height": height})

    def open(self, address: str) -> None:
        self._asked("browsingContext.navigate", context=self._tab, url=address, wait="complete")

    def value(self, script: str) -> Any:
        """What an expression is on the page, by way of JSON."""
        found = self._asked(
            "script.evaluate",
            expression=f"JSON.stringify({script})",
            target={"context": self._tab},
            awaitPromise=True,
        )
        assert found["type"] == "success", found
        text = found["result"].get("value")
        return None if text is None else json.loads(text)

    def until(self, script: str, seconds: float = 30.0) -> None:
        end = time.monotonic() + seconds
        while not self.value(f"Boolean({script})"):
            assert time.monotonic() < end, f"it never came: {script}"
            time.sleep(0.1)

    def focus(self, selector: str) -> None:
        """Put the focus where a person would have tabbed to."""
        named = json.dumps(selector)
        assert self.value(f"(document.querySelector({named}).focus(), document.activeElement.matches({named}))")

    def press(self, *keys: str, control: bool = False) -> None:
        actions = [{"type": kind, "value": KEYS.get(key, key)} for key in keys for kind in ("keyDown", "keyUp")]
        if control:
            actions = [{"type": "keyDown", "value": CONTROL}, *actions, {"type": "keyUp", "value": CONTROL}]
        self._asked(
            "input.performActions", context=self._tab, actions=[{"type": "key", "id": "keys", "actions": actions}]
        )

    def click(self, selector: str) -> None:
        """A click of the mouse in the middle of an element."""
        self.value(f"document.querySelector({json.dumps(selector)}).scrollIntoView({{block: 'center'}})")
        locator = {"type": "css", "value": selector}
        (node,) = self._asked("browsingContext.locateNodes", context=self._tab, locator=locator, maxNodeCount=1)[
            "nodes"
        ]
        moved = {
            "type": "pointerMove",
            "x": 0,
            "y": 0,
            "origin": {"type": "element", "element": {"sharedId": node["sharedId"]}},
        }
        actions = [moved, {"type": "pointerDown", "button": 0}, {"type": "pointerUp", "button": 0}]
        self._asked(
            "input.performActions", context=self._tab, actions=[{"type": "pointer", "id": "mouse", "actions": actions}]
        )


@contextmanager
def firefox(folder: Path) -> Iterator[Firefox]:
    """A Firefox with a new profile in a folder, gone at the end."""
    path = program()
    assert path is not None
    profile = folder / "profile"
    profile.mkdir()
    process = subprocess.Popen(
        [path, "--headless", "--no-remote", "--profile", str(profile), "--remote-debugging-port", "0"],
        stderr=subprocess.PIPE,
        text=True,
    )
    assert process.stderr is not None
    try:
        address = None
        while address is None:
            row = process.stderr.readline()
            assert row, "Firefox ended at once"
            address = re.search(r"WebDriver BiDi listening on (ws://\S+)", row)
        with connect(f"{address[1]}/session", max_size=50_000_000) as line:
            yield Firefox(line)
    finally:
        process.terminate()
        process.wait(20)
        process.stderr.close()
