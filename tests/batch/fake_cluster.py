"""A cluster without a network: parcels are made by the stub, one after the other, and can be spoilt on their way."""

from __future__ import annotations

from collections.abc import Collection, Hashable, Mapping
from pathlib import Path
from typing import Any

from sonify.batch import far, make_pairs
from sonify.batch.pairs import Pair
from sonify.storage.toolkit import about
from tests.batch.stubbed import COMMAND


class FakeCluster:
    """near: sees the folder in which packs are awaited. spoil: what becomes of the outcomes of a folder, in turn."""

    def __init__(self, *, near: bool = False, spoil: Mapping[str, list[Any]] | None = None) -> None:
        self.near, self.spoil = near, dict(spoil or {})
        self.parcels: dict[Hashable, tuple[Mapping[str, Any], Collection[str]]] = {}
        self.workers: dict[str, dict[str, str]] = {"one": about(), "two": about()}
        self.asked: list[str] = []
        self.makers: list[str] = []
        self.most, self.handed = 0, set[str]()

    def at_once(self) -> Mapping[str, int]:
        return dict.fromkeys(self.workers, 1)

    def abouts(self, workers: Collection[str]) -> Mapping[str, Mapping[str, str]]:
        return {name: self.workers[name] for name in workers}

    def give_up(self, handle: Hashable) -> None:
        del self.parcels[handle]

    def begin(self, parcel: Mapping[str, Any], workers: Collection[str]) -> Hashable:
        key = f"parcel {len(self.asked)}"
        self.asked.append(parcel["task"]["name"])
        self.parcels[key] = parcel, tuple(workers)
        self.most = max(self.most, len(self.parcels))
        return key

    def ended(self, wait_s: float) -> list[tuple[Hashable, Mapping[str, Any]]]:
        ready = [key for key, (_, workers) in self.parcels.items() if not self.workers.keys().isdisjoint(workers)]
        if not ready:
            return []
        key = ready[0]
        parcel, workers = self.parcels.pop(key)
        self.makers.append(next(name for name in reversed(self.workers) if name in workers))
        if not self.near:
            parcel = {**parcel, "arrivals": {**parcel["arrivals"], "word": "of another folder"}}
        said = far.made(parcel, COMMAND)
        self.handed |= said.keys()
        spoilt = self.spoil.get(parcel["task"]["name"])
        return [(key, {**(spoilt.pop(0)(said) if spoilt else said), "worker": self.makers[-1]})]

    def close(self) -> None:
        self.parcels.clear()


def sent(out: Path, pairs: list[Pair], cluster: FakeCluster, **more: Any) -> Any:
    return make_pairs(pairs, out, cluster=cluster, **more)
