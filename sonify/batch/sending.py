"""Pairs sent to other machines, and what comes back put in its place: the ledger is kept as it is on one machine.

What takes the parcels (`Cluster`) need not be dependable: a machine that goes takes nothing with it, for what it was
at work on is made again by another, and only what arrived whole is put in its place, once, by this process.
"""

from __future__ import annotations

import json
import time
from collections import deque
from collections.abc import Callable, Collection, Hashable, Mapping, Sequence
from dataclasses import field
from pathlib import Path
from typing import Any, Protocol

from sonify.batch.ledger import Ledger, Row
from sonify.batch.pairs import Pair
from sonify.batch.parcel import Damaged, arrived, awaited, packed, put
from sonify.batch.room import disk_is_full
from sonify.batch.running import LOOK_S, Course, Tell
from sonify.errors import SonifyError
from sonify.frozen import dataclass
from sonify.records.fact import Fact, fact, wrong
from sonify.say import say
from sonify.storage.pack import check_place
from sonify.storage.toolkit import about

#: So many parcels are under way for each pack that is made at once: nobody waits, and little is lost with a scheduler.
AHEAD = 2
#: So long nobody may be there to make anything.
ALONE_S = 60.0


class Cluster(Protocol):
    """What makes packs elsewhere. A parcel's outcome is what `far.made` returns with the name of the `worker`, or
    `lost`: why it never will be."""

    def at_once(self) -> Mapping[str, int]:
        """The names of all workers, and how many packs each makes at once. Raises SonifyError where nobody answers any
        more."""

    def abouts(self, workers: Collection[str]) -> Mapping[str, Mapping[str, str]]:
        """What each of these workers is (`toolkit.about`); empty where it has no toolkit. One that does not answer, or
        not yet, is left out."""

    def begin(self, parcel: Mapping[str, Any], workers: Collection[str]) -> Hashable:
        """Have a parcel made by one of these."""

    def give_up(self, handle: Hashable) -> None:
        """A parcel is not wanted any more."""

    def ended(self, wait_s: float) -> Sequence[tuple[Hashable, Mapping[str, Any]]]:
        """The parcels that have come to an end, told once; waits so long for the first."""

    def close(self) -> None:
        """What is under way is not wanted any more."""


def check_same(cluster: Cluster) -> None:
    """Raises SonifyError where nobody is there, or all would make other bytes than this program."""
    found = cluster.abouts(cluster.at_once())
    if not found:
        raise SonifyError(wrong("error_batch-no-workers"))
    if about() not in found.values():
        raise SonifyError(wrong("error_batch-differs", why=_difference(*next(iter(found.items())))))


def _difference(worker: str, there: Mapping[str, str]) -> Fact:
    if not there:
        return fact("batch-no-toolkit", worker=worker)
    here = about()
    names = [name for name in (*here, *(there.keys() - here)) if there.get(name) != here.get(name)]
    rows = [say(fact("batch-differs", name=n, there=there.get(n, "-"), here=here.get(n, "-"))) for n in names]
    return fact("batch-other-bytes", worker=worker, list="; ".join(rows))


@dataclass(frozen=True, slots=True)
class _Parcel:
    """One that is under way, and who may make it."""

    pair: Pair
    workers: frozenset[str]


@dataclass(eq=False, kw_only=True)
class _Sending(Course):
    cluster: Cluster
    left_out: Callable[[str], None]
    arrivals: Path
    sent: dict[Hashable, _Parcel] = field(default_factory=dict)
    differences: dict[str, Fact | None] = field(default_factory=dict)  # of each worker that is there, None: none
    alone_since_s: float | None = None

    def work(self) -> None:
        """Until nothing is left to be made."""
        while True:
            self._send()
            if not self.sent and (not self.waiting or disk_is_full(self.ledger.out)):
                return
            for handle, said in self.cluster.ended(LOOK_S):
                self._came(self.sent.pop(handle).pair, said)
            self.show(tuple(parcel.pair.folder for parcel in self.sent.values()))

    def _workers(self) -> dict[str, int]:
        """Who makes the same bytes, and how many packs at once. Whoever joins is asked before it is given any."""
        there = self.cluster.at_once()
        self.differences = {name: each for name, each in self.differences.items() if name in there}
        new = [name for name in there if name not in self.differences]
        for name, said in (self.cluster.abouts(new) if new else {}).items():
            self.differences[name] = None
            if said != about():
                self._leave_out(name, said)
        return {name: packs for name, packs in there.items() if self.differences.get(name, "") is None}

    def _leave_out(self, worker: str, there: Mapping[str, str]) -> None:
        if not self.differences.get(worker):
            why = self.differences[worker] = _difference(worker, there)
            self.left_out(say(fact("batch-left-out", why=why)))

    def _send(self) -> None:
        workers = self._workers()
        self._watch(len(workers))
        for handle, sent in list(self.sent.items()):
            if sent.workers.isdisjoint(workers):  # all who may make it have left
                self.cluster.give_up(handle)
                self.waiting.appendleft(self.sent.pop(handle).pair)
        most = AHEAD * sum(workers.values())
        while self.waiting and len(self.sent) < most and not disk_is_full(self.ledger.out):
            pair = self.waiting.popleft()
            try:
                check_place(self.ledger.out / pair.folder, replace=_replaces(pair))
                parcel = packed(pair, self.arrivals, about())
            except (SonifyError, OSError) as error:
                self.fail(pair, str(error))
                continue
            self.ledger.begun(pair)
            self.sent[self.cluster.begin(parcel, workers)] = _Parcel(pair, frozenset(workers))

    def _watch(self, workers: int) -> None:
        """Raises SonifyError where nobody has been there for too long."""
        now_s = time.monotonic()
        if workers:
            self.alone_since_s = None
        elif self.alone_since_s is None:
            self.alone_since_s = now_s
        elif now_s - self.alone_since_s > ALONE_S:
            for why in filter(None, self.differences.values()):
                raise SonifyError(wrong("error_batch-differs", why=why))
            raise SonifyError(wrong("error_batch-workers-gone", left=len(self.sent) + len(self.waiting)))

    def _came(self, pair: Pair, said: Mapping[str, Any]) -> None:
        if "differs" in said:
            self._leave_out(str(said["worker"]), said["differs"])
            self.waiting.appendleft(pair)
        elif "failed" in said:
            self.fail(pair, str(said["failed"]), str(said.get("trace", "")))
        elif "ended" in said:
            self.again(pair, self.waiting, say(wrong("error_batch-worker-ended", status=said["ended"])))
        elif "lost" in said:
            self.again(pair, self.waiting, say(wrong("error_batch-lost", why=str(said["lost"]))))
        else:
            self._arrived(pair, said)

    def _arrived(self, pair: Pair, said: Mapping[str, Any]) -> None:
        try:
            pack = arrived(said, self.arrivals)
            self.ledger.card(pair, said["card"])
            put(pack, self.ledger.out / pair.folder, replace=_replaces(pair))
        except (Damaged, OSError) as error:
            self.again(pair, self.waiting, say(wrong("error_batch-damaged", why=str(error))))
        except SonifyError as error:
            self.fail(pair, str(error))
        else:
            self.ledger.made(pair, said["seconds"])
            self.done += 1


def send(
    pairs: Sequence[Pair],
    ledger: Ledger,
    cluster: Cluster,
    *,
    tell: Tell,
    warn: Callable[[Row], None],
    left_out: Callable[[str], None],
) -> None:
    """Have the packs of all pairs made by a cluster. What became of each stands in the ledger.

    left_out: told at once of a worker that would make other bytes, and so makes none. Raises SonifyError where nobody
    is left to make them.
    """
    with awaited(ledger.out) as arrivals:
        _Sending(
            ledger=ledger,
            tell=tell,
            warn=warn,
            waiting=deque(pairs),
            total=len(pairs),
            cluster=cluster,
            left_out=left_out,
            arrivals=arrivals,
        ).work()


def _replaces(pair: Pair) -> bool:
    return bool(json.loads(pair.task)["replace"])
