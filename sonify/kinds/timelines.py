"""What the time axis of a Timeline stands for, and so what may be told of it."""

from __future__ import annotations

from sonify.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class TimelineKind:
    """timed: its moments are told as times ("3 to 6 minutes", a when-column, a clock on the axis). joined: a line
    between neighbouring values means something; else each stands on its own, as a bar or a dot. order: what puts the
    stages in order where pupils are asked to: "time", or "size" of the first quantity."""

    id: str
    timed: bool = True
    joined: bool = True
    order: str = "time"


#: time: a process or readings over time. table: one reading after another, each with a turn of one length, which is no
#: time. brief: a process so short that its times mean nothing to a reader; it is told by its stages alone. axis: a walk
#: along a number that a class changed (`Timeline.axis`), in its own units. order: stages one after another, of which
#: nobody said how long they take.
TIME, TABLE, BRIEF, AXIS, ORDER = "time", "table", "brief", "axis", "order"
TIMELINES = {
    row.id: row
    for row in (
        TimelineKind(id=TIME),
        TimelineKind(id=TABLE, timed=False, joined=False, order="size"),
        TimelineKind(id=BRIEF, timed=False),
        TimelineKind(id=AXIS, timed=False, order="size"),
        TimelineKind(id=ORDER, timed=False),
    )
}
