"""Python's own search for cycles: put off for a while, and left as it was found."""

from __future__ import annotations

import gc
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from threading import Barrier

import pytest

from sonify import lesson
from sonify.cycles import SELDOM, seldom_looked_for
from sonify.errors import UnknownName


@pytest.fixture(autouse=True)
def as_python_has_it() -> Iterator[None]:
    before = gc.get_threshold()
    gc.set_threshold(700, 10, 10)
    yield
    gc.set_threshold(*before)


def test_cycles_are_looked_for_seldom_and_then_as_before() -> None:
    with seldom_looked_for():
        assert gc.get_threshold() == (SELDOM, 10, 10)
        with seldom_looked_for():
            assert gc.get_threshold() == (SELDOM, 10, 10)
        assert gc.get_threshold() == (SELDOM, 10, 10)
    assert gc.get_threshold() == (700, 10, 10)


def test_so_they_are_after_an_error() -> None:
    with pytest.raises(UnknownName):
        lesson.load("no-such-scene")
    assert gc.get_threshold() == (700, 10, 10)


@pytest.mark.parametrize("own", [(0, 10, 10), (SELDOM + 1, 3, 3)])
def test_who_has_set_it_otherwise_is_left_alone(own: tuple[int, int, int]) -> None:
    gc.set_threshold(*own)
    with seldom_looked_for():
        assert gc.get_threshold() == own
    assert gc.get_threshold() == own


def test_threads_that_overlap_leave_it_as_the_first_found_it() -> None:
    one, other = Barrier(2), Barrier(2)

    def first() -> None:
        with seldom_looked_for():
            one.wait(10)
        other.wait(10)

    def second() -> tuple[int, int, int]:
        with seldom_looked_for():
            one.wait(10)
            other.wait(10)
            return gc.get_threshold()

    with ThreadPoolExecutor(2) as threads:
        begun = threads.submit(first)
        assert threads.submit(second).result(20)[0] == SELDOM
        begun.result(20)
    assert gc.get_threshold() == (700, 10, 10)
