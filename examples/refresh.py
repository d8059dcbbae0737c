"""Make examples/harbour-pack, examples/pictures, examples/recordings and shared/particle-box.json anew: the ready-made
pack, what the README shows of it, two recordings, and the particle box that most pages carry.

Run from the project folder: python examples/refresh.py. Needs pdftoppm, and Chromium with playwright, as tests do.
"""

from __future__ import annotations

import shutil
import signal
import subprocess
import sys
import tempfile
from pathlib import Path
from typing import TYPE_CHECKING

from pieces import pieces
from spectrograms import voices

import sonify
from sonify.page import film_text
from sonify.processes.states_of_matter_film import filmed, usual_params

if TYPE_CHECKING:
    from PIL import Image
    from playwright.sync_api import Page

HERE = Path(__file__).resolve().parent
PACK, PICTURES = HERE / "harbour-pack", HERE / "pictures"
FILM = HERE.parent / "shared" / "particle-box.json"
KEPT = ("page.html", "teacher.pdf", "conductor.pdf", "pupils.pdf", "poster.pdf", "soundscape.mid")
#: Pictures that show every page of some sheets, so many beside each other.
OVERVIEWS = {
    "conductor": (("conductor.pdf", "poster.pdf"), 4),
    "pupils": (("pupils.pdf",), 6),
    "teacher": (("teacher.pdf",), 5),
}
#: A view, the keys that are pressed there, and how long it then plays.
SHOTS = {
    "hear": ("", ("Space",), 14_000),
    "conduct": ("#conduct", ("Space",), 9_000),
    "particle-box": ("#particles", ("PageDown", "PageDown", "PageDown", "Space"), 5_000),
}
CHROMIUM = ("--no-sandbox", "--disable-gpu", "--disable-background-networking", "--disable-sync", "--no-first-run")


def keep(folder: Path) -> None:
    """Copy what opens without installing anything."""
    shutil.rmtree(PACK, ignore_errors=True)
    PACK.mkdir()
    for name in KEPT:
        shutil.copy(folder / name, PACK / name)


def print_pages() -> None:
    for picture, (sheets, across) in OVERVIEWS.items():
        with tempfile.TemporaryDirectory() as folder:
            for number, sheet in enumerate(sheets):
                subprocess.run(["pdftoppm", "-r", "42", "-png", str(PACK / sheet), f"{folder}/{number}"], check=True)
            overview(sorted(Path(folder).iterdir()), across).save(PICTURES / f"{picture}.png", optimize=True)


def overview(pages: list[Path], across: int) -> Image.Image:
    """Pages beside each other on grey, in few colours: pictures for a README have to be small."""
    from PIL import Image

    opened = [Image.open(page).convert("RGB") for page in pages]
    width, height = (max(getattr(page, side) for page in opened) + 8 for side in ("width", "height"))
    out = Image.new("RGB", (across * width, -(-len(opened) // across) * height), "#9ca3af")
    for number, page in enumerate(opened):
        out.paste(page, (number % across * width + 4, number // across * height + 4))
    return out.quantize(48)


def photograph_page() -> None:
    from playwright.sync_api import sync_playwright

    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=list(CHROMIUM))
        for picture, (view, keys, wait_ms) in SHOTS.items():
            page = browser.new_page(viewport={"width": 1280, "height": 800})
            page.goto((PACK / "page.html").as_uri() + view)
            for key in keys:
                page.keyboard.press(key)
            page.wait_for_timeout(wait_ms)
            page.screenshot(path=PICTURES / f"{picture}.png")
            page.close()
        browser.close()


def settled(page: Page, condition: str) -> None:
    """Wait until something holds of what the page says of itself."""
    while not page.evaluate(f"(() => {{ const s = sonifyPlan(); return Boolean({condition}); }})()"):
        page.wait_for_timeout(100)


def photograph_plan_and_print() -> None:
    """The two views that need the server: the sea made warmer, and a pack that is ready."""
    from playwright.sync_api import sync_playwright

    command = [sys.executable, "-m", "sonify", "serve", "--port", "0", "--no-browser"]
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True) as server, sync_playwright() as playwright:
        assert server.stdout is not None
        address = server.stdout.readline().split("at ")[1].split()[0]
        browser = playwright.chromium.launch(executable_path=shutil.which("chromium"), args=list(CHROMIUM))
        page = browser.new_page(viewport={"width": 1400, "height": 900}, device_scale_factor=0.8)
        page.goto(address)
        page.locator('.card [data-plan="harbour-water-cycle"]').click()
        settled(page, "s.plan && !s.waiting")
        page.locator('[data-field="set.sea_temperature"] input[type="number"]').fill("19")
        page.wait_for_timeout(200)
        settled(page, "!s.waiting")
        page.evaluate("document.getElementById('science-controls-title').scrollIntoView()")
        page.screenshot(path=PICTURES / "plan.png")
        page.get_by_role("link", name="Print").click()
        page.get_by_role("button", name="Make everything").click()
        settled(page, "s.job === 'ready'")
        page.get_by_label("Sheet", exact=True).select_option("1")
        page.set_viewport_size({"width": 1400, "height": 1300})
        page.wait_for_timeout(8_000)
        page.evaluate("window.scrollTo(0, 0)")
        page.screenshot(path=PICTURES / "print.png")
        browser.close()
        server.send_signal(signal.SIGINT)


if __name__ == "__main__":
    FILM.write_text(film_text(filmed(usual_params())), encoding="utf-8", newline="\n")
    with tempfile.TemporaryDirectory() as scratch:
        keep(sonify.make("harbour-water-cycle", out=Path(scratch) / "harbour-water-cycle"))
    PICTURES.mkdir(exist_ok=True)
    voices()
    pieces()
    print_pages()
    photograph_page()
    photograph_plan_and_print()
