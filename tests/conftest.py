"""What all tests share: property tests find the same examples every time; which scenes a plain run tries.

A test that is asked of every scene is asked, in a plain run, of one scene a process, and of a third of the others:
another third for each test, always the same. `--every-scene` asks it of all.
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
ONE_IN = 3
#: The files that take longest, the longest first: begun last, one of them would keep one core waiting for the other.
SLOWEST_FIRST = (
    "tests/test_campaign_slice.py",
    "tests/pinned/test_words.py",
)

settings.register_profile(
    "house", deadline=None, derandomize=True, print_blob=False, suppress_health_check=[HealthCheck.too_slow]
)
settings.load_profile("house")

#: librosa brings compiled code that two test workers must not write to one folder at a time.
os.environ["NUMBA_CACHE_DIR"] = tempfile.mkdtemp(prefix="sonify-tests-")
#: Nothing kept from an older version of the code may stand in for what is tested.
os.environ["SONIFY_CACHE"] = ""
atexit.register(shutil.rmtree, os.environ["NUMBA_CACHE_DIR"], ignore_errors=True)


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--every-scene", action="store_true", help="ask the tests that are asked of scenes of every scene")


@lru_cache(maxsize=1)
def _shared_process() -> frozenset[str]:
    """The scenes whose process another scene, earlier by name, plays already."""
    first: dict[str, str] = {}
    for file in sorted((ROOT / "scenes").glob("*.toml")):
        first.setdefault(tomllib.loads(file.read_text(encoding="utf-8"))["process"], file.stem)
    return frozenset(file.stem for file in (ROOT / "scenes").glob("*.toml")) - set(first.values())


def _asked(item: pytest.Item) -> bool:
    """Whether a plain run asks this."""
    call = getattr(item, "callspec", None)
    given = [getattr(value, "stem", value) for value in call.params.values()] if call else []
    other = any(isinstance(value, str) and value in _shared_process() for value in given)
    return not other or crc32(item.nodeid.encode()) % ONE_IN == 0


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    if not config.getoption("--every-scene"):
        asked = [_asked(item) for item in items]
        config.hook.pytest_deselected(items=[item for item, yes in zip(items, asked, strict=True) if not yes])
        items[:] = [item for item, yes in zip(items, asked, strict=True) if yes]
    turn = {name: number for number, name in enumerate(SLOWEST_FIRST)}
    items.sort(key=lambda item: turn.get(item.nodeid.partition("::")[0], len(turn)))
