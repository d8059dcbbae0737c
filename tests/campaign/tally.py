"""What a campaign counts: cases, and what was wrong in them."""

from __future__ import annotations

import time
from dataclasses import dataclass, field


@dataclass
class Tally:
    """Cases by kind, and every fault in words."""

    cases: dict[str, int] = field(default_factory=dict)
    faults: dict[str, list[str]] = field(default_factory=dict)
    since_s: float = field(default_factory=time.monotonic)

    def add(self, kind: str, fault: str = "") -> None:
        """One case, with its fault or ""."""
        self.cases[kind] = self.cases.get(kind, 0) + 1
        self.wrong(kind, fault)

    def wrong(self, kind: str, fault: str, where: str = "") -> None:
        """A fault of a case that is counted already; "" is none."""
        if fault:
            self.faults.setdefault(kind, []).append(f"{where}: {fault}" if where else fault)

    @property
    def good(self) -> bool:
        return not self.faults

    def report(self) -> str:
        rows = [f"{kind}: {count} cases, {len(self.faults.get(kind, []))} faults" for kind, count in self.cases.items()]
        told = [f"  {kind}: {fault}" for kind, faults in self.faults.items() for fault in faults[:10]]
        return "\n".join([*rows, *told, f"{time.monotonic() - self.since_s:.0f} s"])
