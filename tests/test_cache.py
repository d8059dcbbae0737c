"""What is kept between runs: found again by its key, computed anew where it is broken, never in the way."""

from __future__ import annotations

import os
import time
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path

import numpy as np
import pytest

from sonify import lesson
from sonify.sound.voices.bank import Bank, stroke_of
from sonify.sound.voices.keeping import keep_with
from sonify.storage import cache, keeping
from sonify.web.errors import without_places


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


def test_what_was_asked_for_least_lately_goes_first_when_the_folder_is_full(
    kept: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(cache, "SWEEP_AFTER_BYTES", 1)
    monkeypatch.setattr(cache, "LIMIT_BYTES", 3 * (1_000 + cache.DIGEST_BYTES))
    for age, name in enumerate("cba"):
        cache.remembered(name, lambda: bytes(1_000))
        os.utime(kept / cache._name(name), (1_000_000 - age,) * 2)
    cache.remembered("a", lambda: b"asked for again, and so the last to go")
    cache.remembered("d", lambda: bytes(1_000))
    assert [cache.holds(name) for name in "abcd"] == [True, False, True, True]


def test_of_several_that_want_the_same_one_computes(kept: Path) -> None:
    calls: list[int] = []

    def compute() -> bytes:
        calls.append(1)
        time.sleep(0.2)
        return b"result"

    with ThreadPoolExecutor(4) as pool:
        found = [pool.submit(cache.remembered, "slow", compute) for _ in range(4)]
    assert [each.result() for each in found] == [b"result"] * 4
    assert len(calls) == 1


def test_a_stroke_comes_back_to_the_bit(kept: Path) -> None:
    strokes = [
        stroke_of("cabasa", 60, 90, 0.5, turn=0, held=True),
        stroke_of("soprano-glockenspiel", 84, 90, 0.5, turn=1, held=False),
    ]
    made = [Bank(7).kept(stroke) for stroke in strokes]
    keep_with(cache.remembered)
    try:
        for _ in range(2):
            for stroke, alone in zip(strokes, made, strict=True):
                again = Bank(7).kept(stroke)
                np.testing.assert_array_equal(again.steps, alone.steps)
                np.testing.assert_array_equal(again.held.loop, alone.held.loop)
                names = ("envelope", "attack_s", "release_s", "damp_s")
                assert [getattr(again.held, name) for name in names] == [getattr(alone.held, name) for name in names]
                assert again.unit == alone.unit
    finally:
        keep_with(None)
    assert len(list(kept.glob("*.bin"))) == 2


def test_what_was_half_written_by_a_process_that_was_killed_goes_after_a_day(
    kept: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(cache, "SWEEP_AFTER_BYTES", 1)
    kept.mkdir()
    for name, hours in (("killed.1-1.part", 25), ("under-way.2-2.part", 1), ("of-somebody-else.txt", 99)):
        (kept / name).write_bytes(b"half")
        os.utime(kept / name, (time.time() - hours * 3600,) * 2)
    cache.remembered("a", lambda: b"result")
    assert {file.name for file in kept.iterdir() if file.suffix != ".bin"} == {
        "under-way.2-2.part",
        "of-somebody-else.txt",
        *(file.name for file in kept.glob("*.lock")),
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


def test_an_account_without_a_home_keeps_nothing(monkeypatch: pytest.MonkeyPatch) -> None:
    """As in an empty root, or for a user number that nobody knows (Linux: no HOME, no line in /etc/passwd)."""
    for name in ("SONIFY_CACHE", "SONIFY_SHELF", "XDG_CACHE_HOME", "XDG_DATA_HOME"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr(os.path, "expanduser", lambda path: path)
    assert cache.folder() is None and keeping.folder() is None
    assert cache.remembered("a", lambda: b"result") == b"result"
    assert without_places("~/packs/a.wav cannot be written") == "a.wav cannot be written"


def test_the_particle_box_comes_back_the_same_and_broken_bytes_are_computed_anew(kept: Path) -> None:
    first = lesson.simulate("ice-rink-particles")
    begun = time.perf_counter()
    again = lesson.simulate("ice-rink-particles")
    print(f"\nfrom the cache in {time.perf_counter() - begun:.2f} s")
    for a, b in zip(first.quantities, again.quantities, strict=True):
        np.testing.assert_array_equal(a.values, b.values)
    (file,) = kept.glob("*.bin")
    file.write_bytes(b"broken")
    mended = lesson.simulate("ice-rink-particles")
    np.testing.assert_array_equal(mended.quantities[0].values, first.quantities[0].values)
    assert file.read_bytes() != b"broken"
