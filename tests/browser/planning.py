"""What the tests of the Plan and Print views do on the served page, in the words of the page."""

from __future__ import annotations

from typing import Any

from playwright.sync_api import Locator, Page

SCENE = "harbour-water-cycle"


def held(page: Page) -> dict[str, Any]:
    """What the page holds: inputs, the plan as answered, steps back and forward, and how far the pack is."""
    found: dict[str, Any] = page.evaluate("sonifyPlan()")
    return found


def until(page: Page, condition: str, *, seconds: float = 20.0) -> dict[str, Any]:
    """What the page holds once a condition over it, `s`, is true. By polling: the policy forbids evaluated text."""
    waited = 0.0
    there = "typeof sonifyPlan === 'function'"  # not yet while the page comes back
    while not page.evaluate(f"(() => {{ const s = {there} && sonifyPlan(); return Boolean(s && ({condition})); }})()"):
        assert waited < seconds, f"after {seconds} s still not: {condition}"
        page.wait_for_timeout(25)
        waited += 0.025
    return held(page)


def planned(page: Page) -> dict[str, Any]:
    """The plan of what is set now, once the server has answered and the answer is drawn."""
    plan: dict[str, Any] = until(page, "s.plan && !s.waiting")["plan"]
    return plan


def choose(page: Page, name: str = SCENE) -> dict[str, Any]:
    """A scene taken from its card."""
    page.locator(f'.card [data-plan="{name}"]').click()
    return planned(page)


def field(page: Page, where: str) -> Locator:
    return page.locator(f'[data-field="{where}"]')


def shown(page: Page, plan: dict[str, Any]) -> dict[str, Any]:
    """What stands on the screen of the curve, the tempo's key, and the map, as text and lines."""
    return {
        "curve": page.locator("#curve-line").get_attribute("d"),
        "written": page.locator("#curve-steps").get_attribute("d"),
        "stages": page.locator("#stage-line").inner_text(),
        "rule": page.locator('[data-rule="0"]').inner_text(),
        "heard": page.locator("#heard").inner_text(),
        "map": page.locator("#map").inner_text(),
        "title": plan["title"],
    }


def drop(page: Page, files: dict[str, bytes]) -> None:
    """Files let fall on the page, as a browser reports it."""
    data = page.evaluate_handle(
        """(files) => { const data = new DataTransfer();
        for (const [name, bytes] of Object.entries(files)) data.items.add(new File([new Uint8Array(bytes)], name));
        return data; }""",
        {name: list(data) for name, data in files.items()},
    )
    page.dispatch_event("main", "dragover", {"dataTransfer": data})
    page.dispatch_event("main", "drop", {"dataTransfer": data})
