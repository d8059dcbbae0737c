"""Work shared between threads, its results in order: they do not depend on how many cores there are."""

from __future__ import annotations

from collections import deque
from collections.abc import Callable, Iterable, Iterator
from concurrent.futures import Future, ThreadPoolExecutor
from typing import TypeVar

Given = TypeVar("Given")
Made = TypeVar("Made")

#: Pieces of work under way at once: no more are held in memory.
AHEAD = 4


def in_order(make: Callable[[Given], Made], given: Iterable[Given], *, workers: int) -> Iterator[Made]:
    """`make` of each in other threads, in order; `given` is drawn from in this one, a few ahead."""
    with ThreadPoolExecutor(max_workers=workers) as pool:
        under_way: deque[Future[Made]] = deque()
        try:
            for one in given:
                under_way.append(pool.submit(make, one))
                if len(under_way) >= AHEAD:
                    yield under_way.popleft().result()
            while under_way:
                yield under_way.popleft().result()
        finally:
            for future in under_way:
                future.cancel()
