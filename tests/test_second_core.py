"""The copy that works beside a process: the same steps as without it, and gone whatever happens."""

from __future__ import annotations

import os
import subprocess
import sys
import threading
import time
from collections.abc import Iterator
from pathlib import Path

import numpy as np
import pytest

from sonify.errors import SonifyError
from sonify.recording import Wishes, second_core, write_recordings
from sonify.recording.second_core import Copies, Tell, beside, can_help
from sonify.records.fact import wrong
from sonify.sound.hands import Sounds
from tests.sample import sample_score

SHAPE = (2, 1000)
helped = pytest.mark.usefixtures("helping")


@pytest.fixture
def helping(monkeypatch: pytest.MonkeyPatch) -> None:
    """A copy is made even where a test runner has threads of its own, or one core."""
    if not hasattr(os, "fork"):
        pytest.skip("this system does not copy processes")
    monkeypatch.setattr(second_core, "can_help", lambda: True)


def steps(many: int = 50) -> Iterator[Sounds]:
    """Two sounds a step, every third one silent."""
    for number in range(many):
        yield [np.full(SHAPE, 2 * number + place, np.float32) if (number + place) % 3 else None for place in range(2)]


def copied(found: Iterator[Sounds]) -> list[list[float | None]]:
    """The first sample of every sound, checked against all its others before the next step takes its place."""
    out = []
    for sounds in found:
        assert all(sound is None or (sound.shape == SHAPE and np.ptp(sound) == 0.0) for sound in sounds)
        out.append([None if sound is None else float(sound[0, 0]) for sound in sounds])
    return out


def children() -> list[int]:
    """This process's own children, ended and not yet forgotten ones too."""
    with open(f"/proc/self/task/{os.getpid()}/children") as listed:
        return [int(number) for number in listed.read().split()]


@helped
@pytest.mark.parametrize("ring_bytes", [1, 40_000, 24_000_000])
def test_the_steps_are_the_same_however_much_waits_to_be_taken(
    ring_bytes: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(second_core, "RING_BYTES", ring_bytes)
    before = children()
    assert copied(beside(steps, 2, SHAPE)) == copied(steps())
    assert children() == before


@helped
def test_they_are_made_in_another_process() -> None:
    def told() -> Iterator[Sounds]:
        yield [np.full(SHAPE, os.getpid() % 65_536, np.float32)]

    ((number,),) = copied(beside(told, 1, SHAPE))
    assert number != os.getpid() % 65_536


@helped
def test_a_copy_that_is_no_longer_wanted_is_gone() -> None:
    before, found = children(), beside(lambda: steps(10_000), 2, SHAPE)
    next(found)
    assert len(children()) == len(before) + 1
    found.close()  # type: ignore[attr-defined]
    assert children() == before


@helped
def test_a_fault_in_the_copy_is_told_and_not_taken_for_the_end(capfd: pytest.CaptureFixture[str]) -> None:
    def faulty() -> Iterator[Sounds]:
        yield from steps(3)
        raise ZeroDivisionError("in the copy")

    with pytest.raises(RuntimeError, match="could not be made"):
        copied(beside(faulty, 2, SHAPE))
    assert "in the copy" in capfd.readouterr().err


@helped
def test_a_copy_that_was_killed_is_not_taken_for_the_end() -> None:
    def killed() -> Iterator[Sounds]:
        yield from steps(3)
        os.kill(os.getpid(), 9)

    with pytest.raises(RuntimeError, match="could not be made"):
        copied(beside(killed, 2, SHAPE))


def test_beside_other_threads_the_steps_are_made_here() -> None:
    stop = threading.Event()
    other = threading.Thread(target=stop.wait)
    other.start()
    try:
        assert not can_help()
        assert copied(beside(steps, 2, SHAPE)) == copied(steps())
    finally:
        stop.set()
        other.join()


# --- whole pieces of work -------------------------------------------------------------------------------------------

NEEDS_FORK = pytest.mark.skipif(not hasattr(os, "fork"), reason="this system does not copy processes")


@NEEDS_FORK
def test_what_copies_make_comes_back_and_their_progress_is_told() -> None:
    def work(tell: Tell) -> tuple[int, list[float]]:
        for share in (0.25, 1.0):
            tell(share)
        return os.getpid(), [3.0] * 100_000

    before, shares = children(), list[float]()
    with Copies() as copies:
        one, other = copies.begin(work, shares.append), copies.begin(work)
        (maker, values), (second, _) = one(), other()
        assert one() == (maker, values)
    assert len({maker, second, os.getpid()}) == 3 and values == [3.0] * 100_000 and shares == [0.25, 1.0]
    assert children() == before


@NEEDS_FORK
def test_while_one_is_waited_for_the_others_are_heard() -> None:
    """More is told than a pipe holds: a copy that nobody heard would wait for ever, and this test with it."""
    told, written = list[float](), os.pipe()

    def talks(tell: Tell) -> None:
        for number in range(20_000):
            tell(number)
        os.write(written[1], b"x")

    with Copies() as copies:
        copies.begin(talks, told.append)
        assert copies.begin(lambda tell: os.read(written[0], 1))() == b"x"
    assert len(told) > 15_000


@NEEDS_FORK
def test_an_error_in_a_copy_is_the_same_error_here() -> None:
    def too_many(tell: Tell) -> None:
        raise SonifyError(wrong("error_files-seed-give-whole", seed=-7))

    def full(tell: Tell) -> None:
        raise OSError(28, "No space left on device", "soundscape.wav")

    with pytest.raises(SonifyError, match="the seed is -7"), Copies() as copies:
        copies.begin(too_many)()
    with pytest.raises(OSError, match="No space left") as told, Copies() as copies:
        copies.begin(full)()
    assert told.value.errno == 28 and told.value.filename == "soundscape.wav"


@NEEDS_FORK
def test_a_killed_copy_is_told_and_one_that_is_not_wanted_is_gone() -> None:
    before = children()
    with pytest.raises(RuntimeError, match="before it was done"), Copies() as copies:
        copies.begin(lambda tell: os.kill(os.getpid(), 9))()
    with pytest.raises(ZeroDivisionError), Copies() as copies:
        copies.begin(lambda tell: time.sleep(60))
        assert len(children()) == len(before) + 1
        raise ZeroDivisionError
    assert children() == before


@pytest.mark.skipif(sys.platform != "linux", reason="the system tells a copy that its maker is gone")
def test_the_copy_goes_with_the_process_that_was_killed() -> None:
    program = (
        "import os, time\nfrom sonify.recording.second_core import Copies\nwith Copies() as copies:\n"
        "    copies.begin(lambda tell: (print(os.getpid(), flush=True), time.sleep(60)))\n    time.sleep(60)\n"
    )
    with subprocess.Popen([sys.executable, "-c", program], stdout=subprocess.PIPE, text=True) as maker:
        assert maker.stdout is not None
        copy = Path(f"/proc/{int(maker.stdout.readline())}")
        assert copy.exists()
        maker.kill()
        maker.wait(10)
        until = time.monotonic() + 10
        while copy.exists() and time.monotonic() < until:
            time.sleep(0.01)
    assert not copy.exists()


@helped
def test_what_is_done_alone_is_done_in_a_copy_that_goes() -> None:
    before, held = children(), list[int]()

    def work() -> tuple[int, int]:
        held.append(1)  # in the copy's memory
        return os.getpid(), len(held)

    found = second_core.alone(work)
    assert found[0] != os.getpid() and found[1] == 1
    assert held == [] and children() == before


def test_what_is_done_alone_is_done_here_where_no_copy_can_help(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(second_core, "can_help", lambda: False)
    assert second_core.alone(os.getpid) == os.getpid()
    with pytest.raises(ZeroDivisionError):
        second_core.alone(lambda: 1 // 0)


@helped
def test_a_recording_and_the_pages_sounds_are_the_same_made_beside_each_other_and_in_turn(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    before, found = children(), []
    for helps in (True, False):
        monkeypatch.setattr(second_core, "can_help", lambda helps=helps: helps)
        folder = tmp_path / str(helps)
        folder.mkdir()
        told = write_recordings(sample_score(), folder, Wishes(stems=False), lambda share: None)
        found.append((told, (folder / "soundscape.wav").read_bytes()))
    assert found[0] == found[1]
    assert found[0][0][0].events and children() == before


@helped
def test_a_copy_can_let_others_go_before_it() -> None:
    with Copies() as begun:
        usual, yielding = begun.begin(lambda tell: os.nice(0)), begun.begin(lambda tell: os.nice(0), yielding=3)
        assert yielding() == min(19, usual() + 3)
