"""What a scene's author draws, types in or puts in order, where nothing is measured or computed."""

from __future__ import annotations

from sonify.frozen import dataclass

#: Stages that a process of one's own may have: fewer have no course, more no class can play.
FEWEST_STAGES, MOST_STAGES = 3, 12


@dataclass(frozen=True, slots=True, kw_only=True)
class DrawnQuantity:
    """One quantity, given in one of three ways: `values`, `points` or `shape`. Every number is in `unit`.

    values: one a stage, which it has all through the stage; or one more than there are stages: its value where each
    stage begins and where the last one ends, with straight lines between.
    points: (place, value), with straight lines between. Place 0 is the beginning of the first stage, 1 that of the
    second, and so on. shape: a row of `kinds.shapes`, from `start` to `end`; times, at: as that row asks.
    """

    name: str
    unit: str
    values: tuple[float, ...] = ()
    points: tuple[tuple[float, float], ...] = ()
    shape: str = ""
    start: float = 0.0
    end: float = 0.0
    times: int = 0  # 0: as often as the shape usually comes round
    at: str = ""
    key: str = "drawn.0"


@dataclass(frozen=True, slots=True, kw_only=True)
class OwnEvent:
    """A moment that the author names. share: how far into the stage it comes, 0 to 1."""

    text: str
    stage: str
    share: float = 0.0
    key: str = "event.0"
