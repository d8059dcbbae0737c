"""The same pack wherever it is made: other locales, clocks and accounts, in a folder with spaces and accents.

`python -m tests.campaign places` makes a pack as one of many in each surrounding, holds every file's digest against
those of the first, and asks for it again, which makes nothing. What this machine has not is counted as not tried: a
Turkish locale (`localedef -i tr_TR -f UTF-8 tr_TR.UTF-8`), a clock to set (Debian's libfaketime), an account to change
to (root may).
"""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
import time
from collections.abc import Callable, Mapping
from pathlib import Path
from typing import Any

from sonify.storage.pack import facts_of, whole
from tests.campaign.tally import Tally

ROOT = Path(__file__).resolve().parent.parent.parent
TYPED = ("-m", "sonify", "make", "two-cups", "--classes", "rooms İı é", "--out", "the packs é", "--no-stems")
NOBODY = "65534"
#: What shows that an account may start a Python, which then may start itself: in a root's own folder it may not.
BEGINS = "import numpy, subprocess, sys; subprocess.run([sys.executable, '-c', ''], check=True)"
#: With it every clock tells what a file says.
CLOCK = Path("/usr/lib/x86_64-linux-gnu/faketime/libfaketimeMT.so.1")
#: Python leaves the C locale for UTF-8 by itself, unless it is told not to.
ASCII = {"LC_ALL": "C", "PYTHONCOERCECLOCALE": "0", "PYTHONUTF8": "0"}


def surroundings(folder: Path) -> dict[str, Mapping[str, str]]:
    """What each is called, and what the environment says there."""
    here = subprocess.run(["locale", "-a"], capture_output=True, check=False, encoding="utf-8").stdout.lower()
    found: dict[str, Mapping[str, str]] = {
        "as it is": {},
        "locale C": {"LC_ALL": "C"},
        "locale C, ASCII alone": ASCII,
        "time zone Pacific/Kiritimati": {"TZ": "Pacific/Kiritimati"},
        "time zone America/St_Johns": {"TZ": "America/St_Johns"},
    }
    if "tr_tr.utf8" in here:
        found["locale tr_TR.UTF-8"] = {"LC_ALL": "tr_TR.UTF-8", "LANG": "tr_TR.UTF-8"}
    if CLOCK.is_file():
        clock = {"LD_PRELOAD": str(CLOCK), "FAKETIME_NO_CACHE": "1"}
        for name, text in (("1971", "@1971-03-01 00:00:00"), ("2037", "@2037-12-31 23:59:50")):
            found[f"clock at {name}"] = {**clock, "FAKETIME": text}
        found[BACKWARDS] = {**clock, "FAKETIME_TIMESTAMP_FILE": str(folder / "clock")}
    return found


NOBODY_S = "an account without rights"
BACKWARDS = "clock set back three days in the middle"


def campaign(tally: Tally, share: float, seed: int) -> None:
    """share: of the surroundings, another part with another seed, and always the first to hold the others against."""
    first: dict[str, Any] = {}
    with tempfile.TemporaryDirectory(prefix="sonify é ") as name:
        folder = Path(name)
        every = surroundings(folder)
        others = [*list(every)[1:], NOBODY_S]
        for what in [next(iter(every)), *others[seed % round(1 / share) :: round(1 / share)]]:
            if what == NOBODY_S:
                _as_nobody(tally, folder, first)
                continue
            place = _prepared(folder / what)
            (folder / "clock").write_text("+0", encoding="utf-8")
            found = _made(tally, what, place, every[what], lambda: _set_back(folder))
            first = first or found
            # ASCII has no letter for the classes' names, and so other sheets
            fault = _difference(first, found) if every[what] is not ASCII else "" if len(found) == 1 else "not made"
            tally.add(f"packs in other surroundings: {what}", fault)


def _as_nobody(tally: Tally, folder: Path, first: dict[str, Any]) -> None:
    """By an account that may write to its own folder alone, with the first Python that it may start."""
    what = f"packs in other surroundings: {NOBODY_S}"
    modules = os.pathsep.join([str(ROOT), *(path for path in sys.path if path.endswith("site-packages"))])
    os.chmod(folder, 0o755)
    place = _prepared(folder / "nobody")
    subprocess.run(["chown", "-R", f"{NOBODY}:{NOBODY}", str(place)], check=False)
    for python in (sys.executable, "/usr/bin/python3"):
        typed = ["setpriv", f"--reuid={NOBODY}", f"--regid={NOBODY}", "--clear-groups", python, *TYPED]
        env = {**os.environ, "PYTHONPATH": modules, "HOME": str(place), "SONIFY_CACHE": str(place / "cache")}
        tried = subprocess.run([*typed[:5], "-c", BEGINS], env=env, capture_output=True, check=False)
        if os.getuid() == 0 and tried.returncode == 0:
            done = subprocess.run(typed, cwd=place, env=env, capture_output=True, check=False, encoding="utf-8")
            tally.add(what, done.stderr[-300:] if done.returncode else _difference(first, _facts(place)))
            return
    tally.add(f"{what}: not tried")


def _prepared(place: Path) -> Path:
    (place / "rooms İı é").mkdir(parents=True)
    shutil.copy(ROOT / "examples/few-instruments.toml", place / "rooms İı é" / "4B Iğdır ısı.toml")
    return place


def _made(
    tally: Tally, what: str, place: Path, more: Mapping[str, str], in_the_middle: Callable[[], None]
) -> dict[str, Any]:
    env = {**os.environ, "PYTHONPATH": str(ROOT), **more}
    told = place / "told.txt"
    with told.open("wb") as file:
        run = subprocess.Popen([sys.executable, *TYPED], cwd=place, env=env, stdout=file, stderr=file)
        time.sleep(8.0)
        if what == BACKWARDS:
            in_the_middle()
        status = run.wait()
    tally.wrong(what, told.read_text(encoding="utf-8", errors="replace")[-300:] if status else "")
    stood = _times(place)
    again = subprocess.run([sys.executable, *TYPED], cwd=place, env=env, capture_output=True, check=False)
    tally.wrong(what, "made again" if _times(place) != stood or again.returncode else "")
    return _facts(place)


def _set_back(folder: Path) -> None:
    (folder / "clock").write_text("-3d", encoding="utf-8")


def _times(place: Path) -> dict[str, int]:
    return {str(path): path.stat().st_mtime_ns for path in place.glob("the packs é/*/*/*")}


def _facts(place: Path) -> dict[str, Any]:
    """What each whole pack's manifest says, by its class's digest: ASCII has not its name."""
    packs = [path.parent for path in sorted(place.glob("the packs é/*/*/pack.json"))]
    found = [facts_of(pack) for pack in packs if whole(pack)]
    return {facts["class"]["sha256"]: facts for facts in found}


def _difference(first: dict[str, Any], found: dict[str, Any]) -> str:
    if found.keys() != first.keys() or len(found) != 1:
        return f"{len(found)} packs, {len(first)} expected"
    parts = [key for room, facts in first.items() for key in facts if facts[key] != found[room].get(key)]
    files = [
        name
        for room, facts in first.items()
        for name in facts["files"]
        if facts["files"][name] != found[room]["files"].get(name)
    ]
    return f"other {sorted({*parts})}: {sorted({*files})}" if parts or files else ""
