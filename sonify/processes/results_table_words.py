"""What is told of a table of results: each material's readings, and all materials in the order of size. No time."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from sonify.processes.telling import Stretch
from sonify.records.fact import Amount, Arg, Claim, Fact, fact
from sonify.records.timeline import Event, FloatArray


@dataclass(frozen=True, slots=True, kw_only=True)
class Results:
    """The quantities, turn after turn. time_s: when each turn begins and ends. names: the quantities in the order of
    the table, the first one ranks."""

    whole: Stretch
    time_s: FloatArray
    names: tuple[str, ...]

    def begins(self, number: int) -> float:
        return float(self.time_s[2 * number])

    def ends(self, number: int) -> float:
        return float(self.time_s[2 * number + 1])

    def turn(self, number: int) -> Stretch:
        """The moment at which a turn begins."""
        return self.whole.between(self.begins(number), self.begins(number))

    def turns(self, first: int, count: int) -> Stretch:
        """From the beginning of one turn to that of the last of `count`."""
        return self.whole.between(self.begins(first), self.begins(first + count - 1))

    def figure(self, number: int, name: str) -> Amount:
        return self.turn(number).figure(name, "first")


def told_material(results: Results, first: int, count: int, mean_turn: int, title: Arg) -> Fact:
    """The readings of one material, quantity by quantity. mean_turn: the turn in which its means come."""
    turns = range(first, first + count)
    clauses = tuple(_readings(results, name, turns, mean_turn) for name in results.names)
    return fact("results_table-material", material=title, readings=clauses)


def _readings(results: Results, name: str, turns: Sequence[int], mean_turn: int) -> Fact:
    figures = tuple(results.figure(number, name) for number in turns)
    if len({told(figure) for figure in figures}) == 1:
        return fact("results_table-reading", quantity=name, reading=figures[0])
    return fact("results_table-readings", quantity=name, readings=figures, mean=results.figure(mean_turn, name))


def told_order(results: Results, first: int, ranked: Sequence[str]) -> Fact:
    """All materials from the least to the most of the first quantity, each with its mean."""
    name = results.names[0]
    span = results.turns(first, len(ranked))
    listed = tuple(
        fact("results_table-place", material=material, mean=results.figure(first + place, name))
        for place, material in enumerate(ranked)
    )
    if _alike(results, first, len(ranked)):
        return fact("results_table-alike", quantity=name, mean=results.figure(first, name))
    in_order = Claim(kind="never falls", left=span.reading(name, "change"))
    return fact("results_table-order", in_order, quantity=name, places=listed)


def order_events(results: Results, first: int, ranked: Sequence[str]) -> tuple[Event, ...]:
    """The two ends of the order; none where all materials are alike."""
    count, name = len(ranked), results.names[0]
    if _alike(results, first, count):
        return ()
    span = results.turns(first, count)
    found = []
    for which, place in (("least", 0), ("most", count - 1)):
        here = results.turn(first + place)
        ends = Claim(kind="same", left=here.reading(name, "first"), right=span.reading(name, which), slack=1e-9)
        mean = results.figure(first + place, name)
        # those whose mean is printed alike share the end
        shared = [n for n in range(count) if told(results.figure(first + n, name)) == told(mean)]
        text = fact(f"results_table-{which}", ends, materials=tuple(ranked[n] for n in shared), mean=mean)
        found.append(Event(name=f"{which} {name}", time_s=here.start, text=text))
    return tuple(found)


def told(figure: Amount) -> str:
    """A figure as it is printed, to three digits."""
    return f"{figure.value:.3g}"


def _alike(results: Results, first: int, count: int) -> bool:
    """Whether all means are printed alike."""
    return len({told(results.figure(first + place, results.names[0])) for place in range(count)}) == 1
