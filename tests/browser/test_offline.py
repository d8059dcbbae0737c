"""The page opens from a file with no network, and the texts of a scene stay texts."""

from __future__ import annotations

import pytest

from tests.browser.conftest import Opener, state
from tests.page.lessons import HOSTILE

pytestmark = pytest.mark.browser


def test_the_page_opens_from_a_file_and_asks_the_network_for_nothing(opened: Opener) -> None:
    page = opened()
    assert page.title() == "A sample piece"
    assert page.get_by_role("heading", level=1).inner_text() == "A sample piece"
    assert page.locator("html").get_attribute("lang") == "en-GB"
    assert state(page)["playing"] is False
    assert page.evaluate("document.querySelectorAll('[src], link, iframe, object, embed').length") == 0


def test_markup_in_a_scenes_texts_is_shown_and_never_run(opened: Opener) -> None:
    page = opened("hostile")
    assert page.title() == HOSTILE
    assert page.get_by_role("heading", level=1).inner_text() == HOSTILE
    page.locator('.stage[data-stage="1"]').click()
    page.locator("#play").click()
    page.wait_for_timeout(300)
    assert HOSTILE in page.locator("#sounding").inner_text()
    page.evaluate("location.hash = '#conduct'")
    page.wait_for_timeout(200)
    assert HOSTILE in page.locator("#coming-reason").inner_text()
    assert page.evaluate("document.documentElement.dataset.broken") is None
    assert page.evaluate("document.images.length") == 0


def test_the_policy_stops_a_script_that_is_not_ours(opened: Opener) -> None:
    page = opened(expect_error="Executing inline event handler")
    policy = page.locator('meta[http-equiv="Content-Security-Policy"]').get_attribute("content") or ""
    assert "default-src 'none'" in policy
    assert "unsafe" not in policy
    blocked = page.evaluate(
        """() => new Promise((resolve) => {
          addEventListener('securitypolicyviolation', (event) => resolve(event.effectiveDirective));
          const button = document.createElement('button');
          button.setAttribute('onclick', 'window.stranger = true');
          document.body.append(button);
          button.click();
        })"""
    )
    assert blocked == "script-src-attr"
    assert page.evaluate("window.stranger") is None
