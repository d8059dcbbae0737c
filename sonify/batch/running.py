"""Worker processes at work on the pairs of a run, and the ledger kept meanwhile.

A worker is a process that reads a line of JSON for each pack and answers in lines of JSON (`work`). It stays for many
packs, so that what is slow to start is started once. A worker that ends in the middle of a pack takes nothing with it:
that pack is tried once more, alone, when all others are done, in case there was not enough memory.
"""

from __future__ import annotations

import json
import queue
import threading
import time
from collections import deque
from collections.abc import Callable, Sequence
from dataclasses import field
from typing import Any

from sonify.batch.ledger import Ledger, Row
from sonify.batch.pairs import Pair
from sonify.batch.process import PACKS_A_WORKER, WORKER, Worker, gone, hand, started, told_by
from sonify.batch.room import disk_is_full
from sonify.frozen import dataclass
from sonify.records.fact import wrong
from sonify.say import say

#: So often Ctrl-C is looked for; on Windows it does not end a wait.
LOOK_S = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class State:
    """How far a run is. share: of the whole, with what is half made. left_s: None while nobody can tell."""

    done: int
    failed: int
    total: int
    share: float
    left_s: float | None
    making: tuple[str, ...]


Tell = Callable[[State], None]


@dataclass(eq=False, kw_only=True)
class Course:
    """How far a run is. A pack that was lost with whoever made it is tried once more."""

    ledger: Ledger
    tell: Tell
    warn: Callable[[Row], None]
    waiting: deque[Pair]
    total: int
    tried: set[str] = field(default_factory=set)
    done: int = 0
    failed: int = 0
    began_s: float = field(default_factory=time.monotonic)

    def fail(self, pair: Pair, why: str, trace: str = "") -> None:
        self.ledger.failed(pair, why, trace)
        self.failed += 1
        self.warn(self.ledger.row(pair))

    def again(self, pair: Pair, waiting: deque[Pair], why: str) -> None:
        """Once more, after all others; not for ever."""
        if pair.folder in self.tried:
            self.fail(pair, why)
        else:
            self.tried.add(pair.folder)
            waiting.append(pair)

    def show(self, making: tuple[str, ...], half: float = 0.0) -> None:
        """half: how much of those that are being made is done, as so many packs."""
        over = self.done + self.failed + half
        spent_s = time.monotonic() - self.began_s
        left_s = spent_s / over * (self.total - over) if self.done + self.failed else None
        share = min(1.0, over / self.total)
        self.tell(
            State(done=self.done, failed=self.failed, total=self.total, share=share, left_s=left_s, making=making)
        )


@dataclass(eq=False, kw_only=True)
class _Run(Course):
    command: Sequence[str]
    later: deque[Pair] = field(default_factory=deque)
    workers: list[Worker] = field(default_factory=list)
    told: queue.SimpleQueue[tuple[Worker, dict[str, Any] | None]] = field(default_factory=queue.SimpleQueue)

    def work(self, jobs: int) -> None:
        """Until nothing is left to be made."""
        while self.waiting and not disk_is_full(self.ledger.out):
            self._with_workers(min(jobs, len(self.waiting)))
            if not self.waiting and self.later:
                self.waiting, self.later, jobs = self.later, deque(), 1

    def _with_workers(self, jobs: int) -> None:
        try:
            for _ in range(jobs):
                self._start()
            while self.workers:
                try:
                    worker, line = self.told.get(timeout=LOOK_S)
                except queue.Empty:
                    continue
                if worker in self.workers:  # else one that was let go
                    self._heard(worker, line)
                    self._show()
        finally:
            for worker in self.workers:
                worker.process.terminate()
            for worker in self.workers:
                gone(worker)
            self.workers.clear()

    def _start(self) -> None:
        worker = started(self.command)
        self.workers.append(worker)
        worker.listener = threading.Thread(target=self._listen, args=(worker,), daemon=True)
        worker.listener.start()
        self._next(worker)

    def _listen(self, worker: Worker) -> None:
        """In a thread of its own: what a worker says, and None at its end."""
        for said in told_by(worker):
            self.told.put((worker, said))
        self.told.put((worker, None))

    def _next(self, worker: Worker) -> None:
        """The next pack for a worker; it is let go where there is none, or it has made enough of them."""
        if not self.waiting or disk_is_full(self.ledger.out):
            self._let_go(worker)
            return
        if worker.packs == PACKS_A_WORKER:
            self._let_go(worker)
            self._start()
            return
        pair = worker.pair = self.waiting.popleft()
        worker.share, worker.packs = 0.0, worker.packs + 1
        self.ledger.begun(pair)
        hand(worker, {**json.loads(pair.task), "out": str((self.ledger.out / pair.folder).absolute())})

    def _let_go(self, worker: Worker) -> None:
        self.workers.remove(worker)
        hand(worker, None)
        gone(worker)

    def _heard(self, worker: Worker, said: dict[str, Any] | None) -> None:
        pair = worker.pair
        assert pair is not None
        if said is None:
            self._ended(worker, pair)
        elif "share" in said:
            worker.share = float(said["share"])
        elif "card" in said:
            self.ledger.card(pair, said["card"])
            hand(worker, {})
        elif "failed" in said:
            self.fail(pair, str(said["failed"]), str(said.get("trace", "")))
            self._next(worker)
        elif "made" in said:
            self.ledger.made(pair)
            self.done += 1
            self._next(worker)

    def _ended(self, worker: Worker, pair: Pair) -> None:
        """A worker has ended by itself: killed, or broken down."""
        self.workers.remove(worker)
        status = gone(worker)
        if self.ledger.stands(pair):  # it was killed after its last step
            self.done += 1
        else:
            self.again(pair, self.later, say(wrong("error_batch-worker-ended", status=status)))
        if self.waiting:
            self._start()

    def _show(self) -> None:
        making = tuple(worker.pair.folder for worker in self.workers if worker.pair)
        self.show(making, sum(worker.share for worker in self.workers))


def run(
    pairs: Sequence[Pair],
    ledger: Ledger,
    *,
    tell: Tell,
    warn: Callable[[Row], None],
    jobs: int,
    command: Sequence[str] = WORKER,
) -> None:
    """Make the packs of all pairs with so many workers. What became of each stands in the ledger.

    Left by an error or Ctrl-C, the workers are gone. A disk that is nearly full ends it early.
    """
    run = _Run(ledger=ledger, tell=tell, warn=warn, waiting=deque(pairs), total=len(pairs), command=command)
    run.work(jobs)
