"""Make one folder that needs no Python and no installation: python tools/folder.py OUT

OUT/sonify is then all there is: `OUT/sonify/sonify make harbour-water-cycle` works from a stick, on the system and the
kind of processor on which it was made (Linux: with zlib, and no older C library than there). It takes 355 MB, and a
start 0.3 s. It wants an environment with sonify and PyInstaller, which is a tool here (GPL, with an exception for what
it bundles) and goes into the folder only as the small program that starts it:

    python -m venv making
    making/bin/python -m pip install -c tests/constraints.txt . "pyinstaller==6.22.3"
    making/bin/python tools/folder.py OUT

Tried on Linux (x86-64, Debian 12, Python 3.11), as `tests/folder OUT` does, in a root with nothing else in it: the same
bytes as from source. NOT TRIED, the same on Windows and macOS, each on a machine of its own kind:

    py -m venv making
    making\\Scripts\\python -m pip install -c tests\\constraints.txt . "pyinstaller==6.22.3"
    making\\Scripts\\python tools\\folder.py OUT

Neither is signed, so Windows warns of an unknown publisher, and macOS wants it allowed in its privacy settings.
"""

from __future__ import annotations

import argparse
import os
import sys
import tomllib
from collections.abc import Iterator
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
#: What is asked for its version, or finds its own parts by it.
NAMED = ("numpy", "scipy", "verovio", "typst", "soundfile", "lxml", "mido", "pint", "fluent.runtime", "babel", "jinja2")
#: Found by no import that can be read: modules that are named in a text, and files beside modules.
WHOLE = ("sonify", "fluent.runtime", "fluent.syntax", "uvicorn")
FILES = ("sonify", "verovio", "pint", "flexparser", "flexcache")
#: What hooks would add and nothing here uses.
NOT_WANTED = (
    "matplotlib",
    "pandas",
    "PIL",
    "tkinter",
    "IPython",
    "pytest",
    "hypothesis",
    "distributed",
    "dask",
    "music21",
)


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("out", type=Path)
    out = parser.parse_args().out.resolve()
    import PyInstaller.__main__ as installer

    os.environ["PYTHONPATH"] = str(ROOT)  # the modules of this checkout, for the processes that look for them, too
    sys.path.insert(0, str(ROOT))
    work = out / "making"
    places = ["--distpath", str(out), "--workpath", str(work), "--specpath", str(work), "--paths", str(ROOT)]
    how = ["--noconfirm", "--onedir", "--console", "--log-level", "WARN", "--name", "sonify"]
    installer.run([*how, *places, *words(), str(ROOT / "tools" / "start.py")])
    return 0


def words() -> Iterator[str]:
    """PyInstaller's options that say what goes into the folder besides what is imported."""
    for package in WHOLE:
        yield from ("--collect-submodules", package)
    for package in FILES:
        yield from ("--collect-data", package)
    for name in NAMED:
        yield from ("--copy-metadata", name)
    for name in NOT_WANTED:
        yield from ("--exclude-module", name)
    for source, target in shipped().items():
        place = target if (ROOT / source).is_dir() else str(Path(target).parent)
        yield from ("--add-data", f"{ROOT / source}{os.pathsep}{place}")


def shipped() -> dict[str, str]:
    """What a wheel brings besides the package, and where it lies there."""
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))
    return dict(project["tool"]["hatch"]["build"]["targets"]["wheel"]["force-include"])


if __name__ == "__main__":
    sys.exit(main())
