"""Make examples/harbour-pack, examples/pictures and shared/particle-box.json anew: the ready-made pack, what the README
shows of it, and the particle box that most pages carry.

Run from the project folder: python examples/refresh.py. Needs pdftoppm, and Chromium with playwright, as tests do.
"""

from __future__ import annotations

import shutil
import subprocess
import tempfile
from pathlib import Path

import sonify
from sonify.page import film_text
from sonify.processes.states_of_matter_film import filmed, usual_params

HERE = Path(__file__).resolve().parent
PACK, PICTURES = HERE / "harbour-pack", HERE / "pictures"
FILM = HERE.parent / "shared" / "particle-box.json"
KEPT = ("page.html", "teacher.pdf", "conductor.pdf", "pupils.pdf", "soundscape.mid")
PAGES = {"cue-sheet": ("conductor.pdf", 2), "map": ("conductor.pdf", 1), "card": ("pupils.pdf", 3)}
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
    for picture, (sheet, page) in PAGES.items():
        number = str(page)
        target = PICTURES / picture
        command = ["pdftoppm", "-r", "60", "-png", "-singlefile", "-f", number, "-l", number]
        subprocess.run([*command, str(PACK / sheet), str(target)], check=True)


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


if __name__ == "__main__":
    FILM.write_text(film_text(filmed(usual_params())), encoding="utf-8", newline="\n")
    with tempfile.TemporaryDirectory() as scratch:
        keep(sonify.make("harbour-water-cycle", out=Path(scratch) / "harbour-water-cycle"))
    PICTURES.mkdir(exist_ok=True)
    print_pages()
    photograph_page()
