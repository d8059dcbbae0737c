"""What is kept between runs: found again by its key, computed anew where it is broken, never in the way."""

from __future__ import annotations

import os
import time
from pathlib import Path

import numpy as np
import pytest

from sonify import lesson
from sonify.storage import cache


@pytest.fixture
def kept(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    monkeypatch.setenv("SONIFY_CACHE", str(tmp_path / "kept"))
    return tmp_path / "kept"


def test_a_key_is_computed_once(kept: Path) -> None:
    calls: list[str] = []

    def compute() -> bytes:
        calls.append("once")
        return b"result"

    assert [cache.remembered("a", compute) for _ in range(3)] == [b"result"] * 3
    assert calls == ["once"]
    assert cache.remembered("b", lambda: b"other") == b"other"


def test_only_the_newest_are_kept(kept: Path) -> None:
    for number in range(cache.KEPT + 5):
        cache.remembered(str(number), lambda: b"x")
    assert len(list(kept.iterdir())) == cache.KEPT


def test_what_was_half_written_by_a_process_that_was_killed_goes_after_a_day(kept: Path) -> None:
    kept.mkdir()
    for name, hours in (("killed.1-1.part", 25), ("under-way.2-2.part", 1), ("of-somebody-else.txt", 99)):
        (kept / name).write_bytes(b"half")
        os.utime(kept / name, (time.time() - hours * 3600,) * 2)
    cache.remembered("a", lambda: b"result")
    assert {file.name for file in kept.iterdir() if file.suffix != ".bin"} == {
        "under-way.2-2.part",
        "of-somebody-else.txt",
    }


def test_a_folder_that_cannot_be_written_is_no_error(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    (tmp_path / "file").write_text("in the way", encoding="utf-8")
    monkeypatch.setenv("SONIFY_CACHE", str(tmp_path / "file"))
    assert cache.remembered("a", lambda: b"result") == b"result"


def test_turned_off_it_leaves_nothing(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SONIFY_CACHE", "")
    monkeypatch.chdir(tmp_path)
    assert cache.remembered("a", lambda: b"result") == b"result"
    assert list(tmp_path.iterdir()) == []


def test_the_particle_box_comes_back_the_same_and_broken_bytes_are_computed_anew(kept: Path) -> None:
    first = lesson.simulate("ice-rink-particles")
    begun = time.perf_counter()
    again = lesson.simulate("ice-rink-particles")
    print(f"\nfrom the cache in {time.perf_counter() - begun:.2f} s")
    for a, b in zip(first.quantities, again.quantities, strict=True):
        np.testing.assert_array_equal(a.values, b.values)
    (file,) = kept.iterdir()
    file.write_bytes(b"broken")
    mended = lesson.simulate("ice-rink-particles")
    np.testing.assert_array_equal(mended.quantities[0].values, first.quantities[0].values)
    assert file.read_bytes() != b"broken"
