"""Two hands for one piece: what makes half of the sounds beside the other half. How, is the caller's business."""

from __future__ import annotations

from collections.abc import Callable, Iterator

from sonify.sound.rate import Samples

#: One step's sounds, each of one fixed shape or None for silence.
Sounds = list[Samples | None]
Steps = Callable[[], Iterator[Sounds]]
#: Steps, how many sounds a step has, and their shape -> the same steps, wherever they were worked out.
Beside = Callable[[Steps, int, tuple[int, int]], Iterator[Sounds]]


def here(steps: Steps, count: int, shape: tuple[int, int]) -> Iterator[Sounds]:
    """The steps worked out here, one after the other."""
    return steps()
