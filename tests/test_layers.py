"""Imports point one way only (design: the house)."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import sonify

ROOT = Path(sonify.__file__).parent
GROUND = {"errors", "frozen", "cycles", "constants", "known_units", "units", "templates"}
OUTPUTS = {"sound", "notation", "paper", "page", "data"}
#: Rooms that serve all others (besides `say`, which serves those at the edge).
SERVING = {"records", "kinds"}

#: Each room, and all that it may import besides the ground, the rooms that serve all, and itself.
ALLOWED: dict[str, set[str]] = {
    **{room: set() for room in (*GROUND, *SERVING, "science", "inputs", "mapping", "arrange", "hearing", "listening")},
    **{room: {"facts", "say"} for room in OUTPUTS},
    "facts": set(),
    "say": set(),
    "processes": {"science"},
    "storage": {""},
    "recording": {"sound", "storage"},
    "study": {"inputs", "processes", "page", "storage"},
    "starting": {"study", "inputs", "processes", "mapping", "storage", "say"},
    "lesson": {
        "hearing",
        "listening",
        "facts",
        "say",
        "study",
        "starting",
        "science",
        "inputs",
        "processes",
        "mapping",
        "arrange",
        "storage",
        "recording",
        *OUTPUTS,
        "",
    },
    "batch": {"lesson", "page", "sound", "storage", "recording", "say"},
    "web": {"lesson", "inputs", "study", "storage", "recording", *OUTPUTS, "facts", "say", ""},
    "cli": {"lesson", "batch", "web", "data", "facts", "say", ""},
    "__main__": {"cli"},
    "__init__": {"lesson", "say", ""},
}

#: Names that open a file, a device or a socket: allowed in the doors only.
#: `templates` reads the package's own text and nothing else.
DOORS = {"lesson", "starting", "storage", "recording", "batch", "cli", "web", "__main__", "templates"}
OPENERS = {"open", "read_text", "read_bytes", "write_text", "write_bytes", "NamedTemporaryFile", "mkdtemp", "urlopen"}

FILES = sorted(ROOT.rglob("*.py"))


def room_of(path: Path) -> str:
    return path.relative_to(ROOT).parts[0].removesuffix(".py")


def rooms_imported_by(path: Path) -> Iterator[tuple[str, int]]:
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom):
            assert node.level == 0, f"{path.name}:{node.lineno} write the full name"
            names = [f"{node.module}.{alias.name}" for alias in node.names]
        elif isinstance(node, ast.Import):
            names = [alias.name for alias in node.names]
        else:
            continue
        for name in names:
            top, _, rest = name.partition(".")
            if top == "sonify":
                first = rest.split(".")[0]
                known = (ROOT / first).is_dir() or (ROOT / f"{first}.py").is_file()
                yield first if known else "", node.lineno


def test_imports_point_one_way() -> None:
    assert {room_of(path) for path in FILES} <= ALLOWED.keys()  # every room is on the map of the house
    breaches = [
        f"{path.relative_to(ROOT)}:{line}: {room} imports {target or 'sonify'}"
        for path in FILES
        for room in [room_of(path)]
        for target, line in rooms_imported_by(path)
        if target not in ALLOWED[room] | (GROUND if room in GROUND else GROUND | SERVING) | {room}
    ]
    assert breaches == []


def test_only_the_doors_open_files() -> None:
    """No file is opened below lesson, cli and web."""
    opened = [
        f"{path.relative_to(ROOT)}:{node.lineno}"
        for path in FILES
        if room_of(path) not in DOORS
        for node in ast.walk(ast.parse(path.read_text(encoding="utf-8")))
        if isinstance(node, ast.Call)
        and (getattr(node.func, "id", None) or getattr(node.func, "attr", None)) in OPENERS
    ]
    assert opened == []


def test_the_check_would_catch_a_breach(tmp_path: Path) -> None:
    bad = tmp_path / "bad.py"
    bad.write_text("from sonify.sound import voices\nimport sonify.lesson\n", encoding="utf-8")
    assert [room for room, _ in rooms_imported_by(bad)] == ["sound", "lesson"]
