"""What all tests share: property tests find the same examples every time; which scenes a plain run tries.

A test that is asked of every scene is asked, in a plain run, of a third of the scenes that are the first of their
process, and of a tenth of the others: another third and tenth for each test, always the same. Of costly tests an eighth
of the first are enough. A test marked `long` waits for `--whole`, which asks all, with more examples.
"""

from __future__ import annotations

import atexit
import os
import shutil
import tempfile
import tomllib
from functools import lru_cache
from pathlib import Path
from zlib import crc32

import pytest
from hypothesis import HealthCheck, settings

ROOT = Path(__file__).resolve().parent.parent
#: One in so many of the scenes that share a process with another.
ONE_IN = 10
#: And of the scenes that stand for their process.
ONE_IN_FIRSTS = 3
#: Of these files each test takes seconds a scene: a plain run asks it of an eighth of those.
COSTLY, ONE_IN_COSTLY = (
    (
        "tests/lesson/test_any_class_any_scene.py",
        "tests/lesson/test_listening.py",
        "tests/lesson/test_scenes.py",
        "tests/lesson/test_safe_outputs.py",
        "tests/notation/test_snippets.py",
        "tests/paper/test_pages.py",
        "tests/paper/test_reading.py",
        "tests/paper/test_said.py",
        "tests/paper/test_teacher.py",
        "tests/pinned/test_words.py",
        "tests/web/test_plan.py",
    ),
    8,
)
#: The files that take longest, the longest first: begun last, one of them would keep one core waiting for the other.
SLOWEST_FIRST = (
    "tests/test_campaign_slice.py",
    "tests/pinned/test_words.py",
    "tests/web/test_packs.py",
    "tests/web/test_many.py",
)

settings.register_profile(
    "whole", deadline=None, derandomize=True, print_blob=False, suppress_health_check=[HealthCheck.too_slow]
)
settings.register_profile("house", settings.get_profile("whole"), max_examples=25)
settings.load_profile("house")

#: librosa brings compiled code that two test workers must not write to one folder at a time.
os.environ["NUMBA_CACHE_DIR"] = tempfile.mkdtemp(prefix="sonify-tests-")
#: What the tests start reads compiled code, also where whoever runs them wants none written: a start takes half as long
os.environ.pop("PYTHONDONTWRITEBYTECODE", None)
#: Nothing kept from an older version of the code may stand in for what is tested.
os.environ["SONIFY_CACHE"] = ""
#: Whoever runs the tests has plans of her own: no test may come near them.
os.environ["SONIFY_SHELF"] = ""
atexit.register(shutil.rmtree, os.environ["NUMBA_CACHE_DIR"], ignore_errors=True)


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--whole", action="store_true", help="every test of every scene, the long ones too")


def pytest_configure(config: pytest.Config) -> None:
    """Before any test is read: what it sets for itself stands on this."""
    if config.getoption("--whole"):
        settings.load_profile("whole")


@lru_cache(maxsize=1)
def _processes() -> tuple[frozenset[str], frozenset[str]]:
    """The scenes that are the first of their process by name, and all others."""
    first: dict[str, str] = {}
    files = sorted((ROOT / "scenes").glob("*.toml"))
    for file in files:
        first.setdefault(tomllib.loads(file.read_text(encoding="utf-8"))["process"], file.stem)
    return frozenset(first.values()), frozenset(file.stem for file in files) - set(first.values())


def _asked(item: pytest.Item) -> bool:
    """Whether a plain run asks this."""
    if item.get_closest_marker("long"):
        return False
    call = getattr(item, "callspec", None)
    given = [getattr(value, "stem", value) for value in call.params.values()] if call else []
    names = {value for value in given if isinstance(value, str)}
    firsts, others = _processes()
    turn = crc32(item.nodeid.encode())
    if names & others:
        return turn % ONE_IN == 0
    if names & firsts:
        return turn % (ONE_IN_COSTLY if item.nodeid.partition("::")[0] in COSTLY else ONE_IN_FIRSTS) == 0
    return True


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    if not config.getoption("--whole"):
        asked = [_asked(item) for item in items]
        config.hook.pytest_deselected(items=[item for item, yes in zip(items, asked, strict=True) if not yes])
        items[:] = [item for item, yes in zip(items, asked, strict=True) if yes]
    turn = {name: number for number, name in enumerate(SLOWEST_FIRST)}
    items.sort(key=lambda item: turn.get(item.nodeid.partition("::")[0], len(turn)))
