"""What is kept of a person's own work between two runs: a plan or a class, by name, with its latest states.

`storage/keeping.py` writes it to a file and reads it; what a state holds is what a page sends and `web.inputs` reads.
"""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from sonify.frozen import dataclass

PLAN, CLASS = "plan", "class"
KINDS = (PLAN, CLASS)
#: The latest states of each are kept; older ones go.
MOST_STATES = 20


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """How something was. at_s: when it came to be so, in seconds since 1970."""

    at_s: float
    held: Mapping[str, Any]

    @property
    def readings(self) -> str:
        """The key of the file of readings that goes with it, "" for none."""
        scene = self.held.get("scene")
        key = scene.get("csv_key") if isinstance(scene, Mapping) else None
        return key if isinstance(key, str) else ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Kept:
    """A plan or a class. states: the newest last, never none. gone_s: when it was deleted, which can be undone."""

    kind: str
    id: str
    name: str
    states: tuple[State, ...]
    gone_s: float | None = None

    @property
    def newest(self) -> State:
        return self.states[-1]

    @property
    def readings(self) -> frozenset[str]:
        """The keys of all files of readings that its states need."""
        return frozenset(state.readings for state in self.states) - {""}
