"""Write tests/constraints.txt: the versions here of all that the extras draw in (`python -m tests.pins`).

In an environment with all of them: `pip install -e '.[test,listen,cluster]'`.
"""

from __future__ import annotations

import tomllib
from importlib.metadata import PackageNotFoundError, distribution
from pathlib import Path

from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).resolve().parent.parent
FILE = ROOT / "tests" / "constraints.txt"
#: An interpreter brings its own, and each wants another.
NOT_PINNED = {"setuptools", "pip"}


def drawn_in(wanted: list[str]) -> dict[str, str]:
    """Every distribution that these requirements draw in here: name -> version installed."""
    todo, found = [Requirement(text) for text in wanted], dict[str, str]()
    seen = set[tuple[str, frozenset[str]]]()
    while todo:
        one = todo.pop()
        name = canonicalize_name(one.name)
        if (name, frozenset(one.extras)) in seen:
            continue
        seen.add((name, frozenset(one.extras)))
        try:
            here = distribution(one.name)
        except PackageNotFoundError:
            continue  # of another system or another Python
        found[name] = here.version
        extras = one.extras or {""}
        for text in here.requires or []:
            further = Requirement(text)
            if further.marker is None or any(further.marker.evaluate({"extra": extra}) for extra in extras):
                todo.append(further)
    return {name: version for name, version in sorted(found.items()) if name not in NOT_PINNED}


def required() -> list[str]:
    project = tomllib.loads((ROOT / "pyproject.toml").read_text(encoding="utf-8"))["project"]
    return [*project["dependencies"], *(row for rows in project["optional-dependencies"].values() for row in rows)]


if __name__ == "__main__":
    head = [line for line in FILE.read_text(encoding="utf-8").splitlines() if line.startswith("#")]
    rows = [f"{name}=={version}" for name, version in drawn_in(required()).items()]
    FILE.write_text("\n".join([*head, *rows]) + "\n", encoding="utf-8")
    print(f"{FILE}: {len(rows)} versions")
