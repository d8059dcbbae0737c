"""A cluster of `dask.distributed` (the extra `[cluster]`): each parcel a future, made by whichever worker is free.

A worker that dies is the scheduler's to notice: it gives what that one was at work on to another, three times at most.
"""

from __future__ import annotations

import asyncio
import logging
import re
import threading
import time
import warnings
from collections.abc import Collection, Hashable, Iterator, Mapping
from concurrent.futures import Future, wait
from contextlib import contextmanager, suppress
from typing import Any

from sonify.batch import far
from sonify.errors import SonifyError
from sonify.records.fact import wrong
from sonify.say import say
from sonify.storage import toolkit

#: How long a scheduler may take to answer, and a worker that reads the toolkit from a slow drive first.
REACH_S, ANSWER_S = 5.0, 20.0
#: What a scheduler says of itself: tcp://192.168.1.5:8786. Anything else the library might take for something else.
ADDRESS = re.compile(r"((tcp|tls)://)?([\w.-]+|\[[0-9a-fA-F:.]+\]):\d{1,5}/?")


class DaskCluster:
    """The workers of one scheduler."""

    def __init__(self, address: str) -> None:
        """Raises SonifyError where the extra is not installed or no scheduler answers."""
        try:
            import distributed
        except ImportError:
            raise SonifyError(wrong("error_batch-needs-distributed")) from None
        for name in [each for each in logging.root.manager.loggerDict if each.startswith("distributed")]:
            logging.getLogger(name).setLevel(logging.CRITICAL)  # what matters is told by us
        version = distributed.__version__
        self._dask, self._address = distributed, address
        self._futures: dict[Hashable, Any] = {}
        self._answers: dict[str, Future[Any]] = {}
        try:
            if not ADDRESS.fullmatch(address) or asyncio.run(self._kind()) != "Scheduler":
                raise ValueError(address)
            with warnings.catch_warnings():
                warnings.simplefilter("ignore")  # of versions: we compare them ourselves
                self._client = distributed.Client(address, timeout=REACH_S, name="sonify")
        except Exception as error:  # whatever it is that answers there
            raise SonifyError(wrong("error_batch-no-scheduler", address=address, version=version)) from error

    async def _kind(self) -> str:
        """What answers at the address: a client would wait for ever for one that is no scheduler."""
        async with self._dask.rpc(self._address) as there:
            return str((await asyncio.wait_for(there.identity(), REACH_S))["type"])

    def at_once(self) -> dict[str, int]:
        there: dict[str, int] = dict(self._asked(self._client.nthreads))
        self._answers = {name: answer for name, answer in self._answers.items() if name in there}
        return there

    def abouts(self, workers: Collection[str]) -> dict[str, dict[str, str]]:
        """Each is asked by a thread of its own: one that is frozen keeps nobody waiting, and may answer later."""
        new = [name for name in workers if name not in self._answers]
        for name in new:
            answer: Future[Any] = Future()
            self._answers[name] = answer
            threading.Thread(target=self._ask, args=(name, answer), daemon=True).start()
        wait([self._answers[name] for name in workers], timeout=ANSWER_S if new else 0.0)
        self._check_there()
        told = {name: self._answers.pop(name).result() for name in workers if self._answers[name].done()}
        answers = {name: said for name, said in told.items() if not isinstance(said, OSError)}  # it has just left
        return {name: said if isinstance(said, dict) else {} for name, said in answers.items()}

    def _ask(self, worker: str, answer: Future[Any]) -> None:
        try:
            answer.set_result(self._client.run(toolkit.about, workers=[worker], on_error="return")[worker])
        except Exception as error:  # the scheduler has gone
            answer.set_result(OSError(error))

    def begin(self, parcel: Mapping[str, Any], workers: Collection[str]) -> Hashable:
        with warnings.catch_warnings():
            warnings.simplefilter("ignore")  # of large tables
            future = self._asked(lambda: self._client.submit(made_here, parcel, workers=list(workers), pure=False))
        self._futures[future.key] = future
        return str(future.key)

    def give_up(self, handle: Hashable) -> None:
        self._asked(self._futures.pop(handle).cancel)

    def ended(self, wait_s: float) -> list[tuple[Hashable, dict[str, Any]]]:
        if not self._futures:
            time.sleep(wait_s)
        with suppress(TimeoutError, self._dask.CancelledError):
            self._dask.wait(list(self._futures.values()), timeout=wait_s, return_when="FIRST_COMPLETED")
        over = [key for key, future in self._futures.items() if future.status != "pending"]
        return [(key, self._outcome(self._futures.pop(key))) for key in over]

    def close(self) -> None:
        with suppress(Exception):
            self._client.cancel(list(self._futures.values()), force=True)
        with suppress(Exception):
            self._client.close(timeout=REACH_S)

    def _outcome(self, future: Any) -> dict[str, Any]:
        self._check_there()
        try:
            return dict(future.result())
        except self._dask.scheduler.KilledWorker:
            return {"failed": say(wrong("error_batch-workers-killed"))}
        except Exception as error:  # whatever another machine may raise
            return {"lost": f"{type(error).__name__}: {error}"}
        finally:
            future.release()

    def _asked(self, question: Any) -> Any:
        self._check_there()
        try:
            return question()
        except (OSError, TimeoutError) as error:
            raise SonifyError(wrong("error_batch-scheduler-gone", address=self._address)) from error

    def _check_there(self) -> None:
        if self._client.status != "running":
            raise SonifyError(wrong("error_batch-scheduler-gone", address=self._address))


def made_here(parcel: Mapping[str, Any]) -> dict[str, Any]:
    """On a worker: what became of a parcel, and which one it is."""
    from distributed import get_worker

    return {**far.made(parcel), "worker": get_worker().address}


@contextmanager
def reached(address: str) -> Iterator[DaskCluster]:
    """The cluster of a scheduler, let go at the end. Raises SonifyError where it cannot be had."""
    cluster = DaskCluster(address)
    try:
        yield cluster
    finally:
        cluster.close()
