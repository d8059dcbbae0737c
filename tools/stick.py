"""Gather an installation without network: python tools/stick.py FOLDER [--for windows ...] [--python 3.12 ...] [--list]
[--with listen cluster]

For each system and each Python: the wheels of sonify and of all that it rests on, in the versions that the tests ran
with, go to FOLDER/wheels, and FOLDER/INSTALL.txt says what to type. A stick with that folder is enough:

    python -m pip install --no-index --find-links wheels sonify

--with takes along what the extras need: phones' recordings, many packs on many machines ("sonify[listen]").

pip reads a requirement's conditions ("; sys_platform == ...") for the machine that it runs on. So what other systems
need besides is read out of the wheels themselves here, until nothing is missing; what has no wheel for a system ends it
with an error.
"""

from __future__ import annotations

import argparse
import json
import subprocess
import sys
import tempfile
from collections.abc import Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import Any
from urllib.parse import unquote

try:
    from packaging.requirements import Requirement
    from packaging.utils import canonicalize_name
except ImportError:  # a fresh virtual environment: pip has a copy
    from pip._vendor.packaging.requirements import Requirement
    from pip._vendor.packaging.utils import canonicalize_name

ROOT = Path(__file__).resolve().parent.parent
PINS = ROOT / "tests" / "constraints.txt"
#: System -> the platforms whose wheels it takes, and what a requirement's conditions ask there.
SYSTEMS = {
    "windows": (["win_amd64"], {"sys_platform": "win32", "platform_system": "Windows", "os_name": "nt"}),
    "macos": (["macosx_14_0_arm64"], {"sys_platform": "darwin", "platform_system": "Darwin", "os_name": "posix"}),
    "macos-intel": (
        ["macosx_14_0_x86_64"],
        {"sys_platform": "darwin", "platform_system": "Darwin", "os_name": "posix"},
    ),
    "linux": (
        [f"manylinux_2_{minor}_x86_64" for minor in (28, 27, 24, 17, 12, 5)] + ["manylinux2014_x86_64"],
        {"sys_platform": "linux", "platform_system": "Linux", "os_name": "posix"},
    ),
}
MACHINES = {"windows": "AMD64", "macos": "arm64", "macos-intel": "x86_64", "linux": "x86_64"}
INSTALL = """\
sonify from this folder, with no network. Python 3.11 or newer must be on the machine (this folder serves: {pythons}).

Windows:        py -m venv sonify
                sonify\\Scripts\\python -m pip install --no-index --find-links wheels {sonify}
                sonify\\Scripts\\sonify make harbour-water-cycle
macOS, Linux:   python3 -m venv sonify
                sonify/bin/python -m pip install --no-index --find-links wheels {sonify}
                sonify/bin/sonify make harbour-water-cycle
"""


@dataclass(frozen=True, slots=True, kw_only=True)
class Wheel:
    """One wheel that a system would install: its distribution, version, file name, and what it asks for."""

    name: str
    version: str
    file: str
    requires: tuple[Requirement, ...]


def main() -> int:
    parser = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    parser.add_argument("folder", type=Path)
    parser.add_argument("--for", dest="systems", nargs="+", choices=SYSTEMS, default=list(SYSTEMS))
    parser.add_argument("--python", dest="pythons", nargs="+", default=["3.11", "3.12", "3.13"])
    parser.add_argument("--with", dest="extras", nargs="+", choices=("listen", "cluster"), default=[])
    parser.add_argument("--list", action="store_true", help="print which wheel serves each system, and gather none")
    asked = parser.parse_args()
    wheels = asked.folder / "wheels"
    wheels.mkdir(parents=True, exist_ok=True)
    pip("wheel", "--quiet", "--no-deps", "--wheel-dir", str(wheels), str(ROOT))
    (own,) = wheels.glob("sonify-*.whl")
    for system in asked.systems:
        for python in asked.pythons:
            found = resolved(own, system, python, asked.extras)
            print(
                f"{system}, Python {python}: {len(found)} wheels",
                *(wheel.file for wheel in found),
                sep="\n  ",
                flush=True,
            )
            if not asked.list:
                exact = [f"{wheel.name}=={wheel.version}" for wheel in found if wheel.name != "sonify"]
                pip("download", "--quiet", "--no-deps", "--dest", str(wheels), *target(system, python), *exact)
    if not asked.list:
        told = INSTALL.format(pythons=", ".join(asked.pythons), sonify=with_extras("sonify", asked.extras))
        (asked.folder / "INSTALL.txt").write_text(told, encoding="utf-8")
    return 0


def with_extras(name: str, extras: Sequence[str]) -> str:
    """
    >>> with_extras("sonify", ["listen"]), with_extras("sonify", [])
    ('"sonify[listen]"', 'sonify')
    """
    return f'"{name}[{",".join(extras)}]"' if extras else name


def resolved(own: Path, system: str, python: str, extras: Sequence[str] = ()) -> list[Wheel]:
    """All wheels of one system, in order of name. Raises CalledProcessError where something has no wheel for it."""
    more: set[str] = set()
    while True:
        with tempfile.TemporaryDirectory() as name:
            report = Path(name) / "report.json"
            ways = (
                "--dry-run",
                "--ignore-installed",
                "--target",
                name,
                "--report",
                str(report),
                "--constraint",
                str(PINS),
            )
            wanted = with_extras(str(own), extras).strip('"')
            pip("install", "--quiet", *ways, *target(system, python), wanted, *sorted(more))
            rows = json.loads(report.read_text(encoding="utf-8"))["install"]
        found = sorted((wheel_of(row) for row in rows), key=lambda wheel: wheel.name)
        if not (unmet := missing(found, conditions(system, python), extras)):
            return found
        more |= unmet


def wheel_of(row: dict[str, Any]) -> Wheel:
    """A row of pip's report."""
    told = row["metadata"]
    return Wheel(
        name=canonicalize_name(told["name"]),
        version=told["version"],
        file=unquote(row["download_info"]["url"].rsplit("/", 1)[-1]),
        requires=tuple(Requirement(text) for text in told.get("requires_dist", ())),
    )


def missing(wheels: Sequence[Wheel], conditions: dict[str, str], extras: Sequence[str] = ()) -> set[str]:
    """What these wheels ask for on a system of these conditions and is not among them. extras: of sonify."""
    here = {wheel.name for wheel in wheels}

    def is_wanted(wheel: Wheel, each: Requirement) -> bool:
        asked = ["", *extras] if wheel.name == "sonify" else [""]
        return each.marker is None or any(each.marker.evaluate({**conditions, "extra": extra}) for extra in asked)

    return {
        f"{canonicalize_name(each.name)}{each.specifier}"
        for wheel in wheels
        for each in wheel.requires
        if canonicalize_name(each.name) not in here and is_wanted(wheel, each)
    }


def conditions(system: str, python: str) -> dict[str, str]:
    """What a requirement's conditions are held against, on the machine that is meant."""
    own = {"python_version": python, "python_full_version": f"{python}.0", "platform_machine": MACHINES[system]}
    return {
        **SYSTEMS[system][1],
        **own,
        "platform_python_implementation": "CPython",
        "implementation_name": "cpython",
    }


def target(system: str, python: str) -> list[str]:
    """pip's options that have it take wheels for that machine, and nothing that is not a wheel."""
    platforms = [word for platform in SYSTEMS[system][0] for word in ("--platform", platform)]
    return ["--only-binary", ":all:", "--implementation", "cp", "--python-version", python, *platforms]


def pip(*words: str) -> None:
    subprocess.run([sys.executable, "-m", "pip", "--disable-pip-version-check", *words], check=True)


if __name__ == "__main__":
    sys.exit(main())
