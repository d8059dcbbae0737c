"""What was computed is kept in memory by its inputs, and all that is kept counts against one limit."""

from __future__ import annotations

import threading
from collections import OrderedDict
from collections.abc import Callable, Hashable, Mapping
from typing import Any, Generic, TypeVar

Value = TypeVar("Value")

#: What weighs in a result: bytes by what they are of. Results that share a thing hold it but once.
Weights = Mapping[Hashable, int]


class Limit:
    """So many bytes for all that counts here, wherever it is kept. What was asked for least lately goes first."""

    def __init__(self, most_bytes: float) -> None:
        self.most_bytes, self.lock = most_bytes, threading.RLock()
        self._order: OrderedDict[tuple[Results[Any], Hashable], Weights] = OrderedDict()
        self._weighed: dict[Hashable, tuple[int, int]] = {}  # bytes of each thing, and how many results hold it
        self._total = 0

    @property
    def bytes(self) -> int:
        return self._total

    def add(self, results: Results[Any], key: Hashable, weights: Weights) -> None:
        """Count a result, and let others go that it leaves no room for. One alone may be larger than the limit."""
        self.remove(results, key)
        self._order[results, key] = weights
        for thing, weight in weights.items():
            known, holders = self._weighed.get(thing, (weight, 0))
            self._weighed[thing] = known, holders + 1
            self._total += 0 if holders else weight
        while self._total > self.most_bytes and len(self._order) > 1:
            oldest, its_key = next(iter(self._order))
            oldest.drop(its_key)

    def used(self, results: Results[Any], key: Hashable) -> None:
        self._order.move_to_end((results, key))

    def remove(self, results: Results[Any], key: Hashable) -> None:
        for thing in self._order.pop((results, key), {}):
            weight, holders = self._weighed.pop(thing)
            if holders > 1:
                self._weighed[thing] = weight, holders - 1
            else:
                self._total -= weight


class Results(Generic[Value]):
    """Results by their inputs. Each is computed once, also where several ask for it at the same time.

    most: so many at most, the longest unused go. weigh: what weighs in one of them.
    """

    def __init__(self, most: int, limit: Limit, *, weigh: Callable[[Value], Weights]) -> None:
        self._most, self._limit, self._lock, self._weigh = most, limit, limit.lock, weigh
        self._held: OrderedDict[Hashable, Value] = OrderedDict()
        self._under_way: dict[Hashable, threading.Lock] = {}
        self._cleared = 0

    def get(self, key: Hashable) -> Value | None:
        with self._lock:
            if key in self._held:
                self._held.move_to_end(key)
                self._limit.used(self, key)
                return self._held[key]
        return None

    def put(self, key: Hashable, value: Value, *, since: int | None = None) -> None:
        """since: how often this had been cleared when the value was begun; one begun before the last time goes."""
        weights = self._weigh(value)
        with self._lock:
            if since not in (None, self._cleared):
                return
            self._held[key] = value
            self._held.move_to_end(key)
            self._limit.add(self, key, weights)
            while len(self._held) > self._most:
                self.drop(next(iter(self._held)))

    def drop(self, key: Hashable) -> None:
        with self._lock:
            self._limit.remove(self, key)
            self._held.pop(key, None)

    def clear(self, whose: Callable[[Hashable], bool] = lambda key: True) -> None:
        """Nothing is left whose key is such a one; what is being computed now is not kept, whatever its key."""
        with self._lock:
            for key in [key for key in self._held if whose(key)]:
                self.drop(key)
            self._cleared += 1

    def __len__(self) -> int:
        return len(self._held)

    def of(self, key: Hashable, compute: Callable[[], Value], *, keep: Callable[[], bool] = lambda: True) -> Value:
        """keep: whether what it was computed from is still kept itself."""
        if (found := self.get(key)) is not None:
            return found
        with self._lock:
            turn = self._under_way.setdefault(key, threading.Lock())
        try:
            with turn:
                if (found := self.get(key)) is not None:
                    return found
                since = self._cleared
                value = compute()
                if keep():
                    self.put(key, value, since=since)
                return value
        finally:
            with self._lock:
                self._under_way.pop(key, None)
