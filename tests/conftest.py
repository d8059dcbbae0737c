"""What all tests share: property tests find the same examples every time; which scenes a plain run tries.

A test that is asked of every scene is asked, in a plain run, of one scene a process, and of a fifth of the others:
another fifth for each test, always the same. Of costly tests a quarter of the first are enough. A test marked `long`
has a shorter twin. `--whole` asks all, with more examples.
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
ONE_IN = 5
#: Of these files each test takes seconds a scene: a plain run asks it of a quarter of the scenes.
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
    4,
)
#: Long tests whose like is asked in the campaign's slice or beside them.
LONG = (
    "tests/browser/test_listening.py::"
    "test_a_clip_sounds_from_its_first_bar_to_its_last_and_the_piece_stands_where_it_stood",
    "tests/browser/test_print.py::test_a_pack_is_made_with_progress_and_downloaded_whole",
    "tests/lesson/test_outputs_agree.py::test_onsets_heard_in_the_stems_are_those_of_the_score[few-instruments]",
    "tests/test_campaign_slice.py::test_processes_of_ones_own_tell_nothing_false_at_the_edges",
    "tests/web/test_many.py::test_many_browsers_at_once[6]",
    "tests/web/test_plan.py::test_what_is_saved_plays_the_same_by_command_line",
    "tests/cli/test_raw_errors.py::test_names_that_are_not_utf_8_do_not_stop_a_command",
    "tests/cli/test_recording_faults.py::test_ctrl_c_while_an_hour_is_recorded_stops_soon_and_leaves_nothing[SIGHUP]",
    "tests/lesson/test_scenes.py::test_the_pieces_really_differ",
    "tests/paper/test_said.py::test_every_word_of_the_sheets_is_said_and_stays_on_the_page[two-cups-True]",
    "tests/test_sheets.py::test_few_and_many_parts_are_drawn_engraved_and_printed[twelve-parts]",
    "tests/web/test_packs.py::test_a_disk_that_is_full",
    "tests/web/test_packs.py::test_a_file_that_has_gone_from_the_disk_is_told_and_no_fault_of_ours",
    "tests/web/test_packs.py::test_a_kill_in_the_middle_leaves_nothing_after_the_next_start",
    "tests/web/test_serving.py::test_a_browser_that_cannot_be_opened_is_no_error",
    "tests/web/test_serving.py::test_it_stops_cleanly[15]",
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
#: Nothing kept from an older version of the code may stand in for what is tested.
os.environ["SONIFY_CACHE"] = ""
atexit.register(shutil.rmtree, os.environ["NUMBA_CACHE_DIR"], ignore_errors=True)


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption("--whole", action="store_true", help="every test of every scene, the long ones too")


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
    if item.get_closest_marker("long") or item.nodeid in LONG:
        return False
    call = getattr(item, "callspec", None)
    given = [getattr(value, "stem", value) for value in call.params.values()] if call else []
    names = {value for value in given if isinstance(value, str)}
    firsts, others = _processes()
    turn = crc32(item.nodeid.encode())
    if names & others:
        return turn % ONE_IN == 0
    costly = item.nodeid.partition("::")[0] in COSTLY
    return not (costly and names & firsts) or turn % ONE_IN_COSTLY == 0


def pytest_collection_modifyitems(config: pytest.Config, items: list[pytest.Item]) -> None:
    if config.getoption("--whole"):
        settings.load_profile("whole")
    else:
        asked = [_asked(item) for item in items]
        config.hook.pytest_deselected(items=[item for item, yes in zip(items, asked, strict=True) if not yes])
        items[:] = [item for item, yes in zip(items, asked, strict=True) if yes]
    turn = {name: number for number, name in enumerate(SLOWEST_FIRST)}
    items.sort(key=lambda item: turn.get(item.nodeid.partition("::")[0], len(turn)))
