"""What is imported is declared, and what is declared is pinned for the tests within the range that users get."""

from __future__ import annotations

import re
import tomllib
from importlib.metadata import packages_distributions
from pathlib import Path

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

import sonify
from tests.pins import FILE, ROOT, drawn_in, required
from tools import stick

PACKAGE = Path(sonify.__file__).parent
#: A line that imports: by this and not by parsing, which takes seconds for the whole package.
IMPORTED = re.compile(r"^\s*(?:from|import) ([\w.]+)", re.MULTILINE)


def pins() -> dict[str, str]:
    lines = FILE.read_text(encoding="utf-8").splitlines()
    return dict(line.split("==") for line in lines if line and not line.startswith("#"))


#: What a user installs, and the extras that a message names where they are wanted.
FOR_USERS = ("listen", "cluster")


def declared() -> set[str]:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    rows = project["dependencies"] + [row for name in FOR_USERS for row in project["optional-dependencies"][name]]
    return {canonicalize_name(Requirement(row).name) for row in rows}


def imported() -> set[str]:
    """The distributions that the package imports; of a name that several share, the one called as the module."""
    modules = set[str]()
    for path in PACKAGE.rglob("*.py"):
        modules.update(IMPORTED.findall(path.read_text(encoding="utf-8")))
    of, found = packages_distributions(), set()
    for module in modules:
        top, _, rest = module.partition(".")
        if top in of and top != "sonify":  # a line of prose may begin with "from", too
            names = {canonicalize_name(name) for name in of[top]}
            own = canonicalize_name(f"{top}-{rest.split('.')[0]}")
            found |= {own} if own in names else names
    return found


def test_what_the_package_imports_it_declares() -> None:
    found = imported()
    assert {"numpy", "anyio", "markupsafe", "fluent-runtime"} <= found
    assert found - declared() == set()


def test_every_requirement_is_pinned_within_its_range() -> None:
    pinned = pins()
    wanted = [Requirement(row) for row in required()]
    assert {canonicalize_name(each.name) for each in wanted} <= pinned.keys()
    outside = [str(each) for each in wanted if not each.specifier.contains(pinned[canonicalize_name(each.name)])]
    assert outside == []


def test_what_requirements_draw_in_is_pinned_too() -> None:
    assert drawn_in(required()).keys() <= pins().keys()


def test_a_stick_takes_what_each_system_and_extra_needs() -> None:
    """`tools/stick.py` finds what pip on this machine would not ask for: conditions of other systems, and extras."""
    asks = ("numpy", "colorama; sys_platform == 'win32'", "av>=12; extra == 'listen'", "pytest; extra == 'test'")
    own = stick.Wheel(name="sonify", version="0", file="", requires=tuple(Requirement(text) for text in asks))
    numpy = stick.Wheel(name="numpy", version="2", file="", requires=(Requirement("av; extra == 'listen'"),))
    windows, linux = (stick.conditions(system, "3.12") for system in ("windows", "linux"))
    assert stick.missing([own], windows) == {"numpy", "colorama"}
    assert stick.missing([own, numpy], linux) == set()
    assert stick.missing([own, numpy], linux, ["listen"]) == {"av>=12"}
