"""Every process under conditions anywhere in their ranges: is all that it tells of such a run true, and is it told?"""

from __future__ import annotations

import random
import traceback
from collections import Counter
from dataclasses import replace

from sonify.errors import BadCondition
from sonify.processes import PROCESSES, find
from sonify.records.process import ConditionSpec, ProcessSpec
from tests.campaign.tally import Tally
from tests.processes.stories import converted, left_out

#: How one set of conditions is drawn: all anywhere, all near the usual, all at an end of their ranges, or a mixture.
WAYS = ("anywhere", "near", "ends", "mixed")
SLOW = {"states-of-matter": 50}  # runs that take seconds: one of so many is tried


def stories(tally: Tally, each: int, seed: int) -> None:
    """`each` runs of every process that tells facts, and how many facts were false and left out."""
    for name in PROCESSES:
        spec = find(name)
        if not spec.conditions or spec.for_table is not None:
            continue
        lost: Counter[str] = Counter()
        refused = 0
        for number in range(max(1, each // SLOW.get(name, 1))):
            conditions = drawn(spec, random.Random(f"{seed} {name} {number}"))
            try:
                timeline = spec.run(conditions)
            except BadCondition:
                refused += 1
                continue
            except Exception:
                tally.add(name, f"{conditions}: {traceback.format_exc(limit=-1)}")
                continue
            if not converted(timeline):
                break
            try:
                lost += left_out(replace(timeline, conditions=tuple(conditions.items())))
                tally.add(name)
            except Exception as fault:
                tally.add(name, f"{type(fault).__name__}: {str(fault)[:160]} under {conditions}")
        else:
            most = ", ".join(f"{message} {count}" for message, count in lost.most_common(3))
            print(f"{name}: {refused} runs refused, {lost.total()} sentences left out{f': {most}' if most else ''}")


def drawn(spec: ProcessSpec, lot: random.Random) -> dict[str, float]:
    """A set of conditions, each in its range."""
    way = lot.choice(WAYS)
    return {one.name: _value(one, way, lot) for one in spec.conditions}


def _value(one: ConditionSpec, way: str, lot: random.Random) -> float:
    if way == "mixed":
        way = lot.choice(("anywhere", "ends", "usual"))
    match way:
        case "anywhere":
            value = lot.uniform(one.low, one.high)
        case "ends":
            value = lot.choice((one.low, one.high))
        case "near":
            end = lot.choice((one.low, one.high))
            value = one.default + 0.3 * lot.random() * (end - one.default)
        case _:
            value = one.default
    return float(round(value)) if one.whole else value
