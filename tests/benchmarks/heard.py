"""What an outsider hears in the recordings of all scenes, in slices that can be run one after another and go on later.

    python -m tests.benchmarks.heard --results FILE [--class few-instruments] [--seed 0] [SCENE...]
    python -m tests.benchmarks.heard --table FILE...     # the table, and how many rules reach their aim
    python -m tests.benchmarks.heard --results FILE --minutes 20     # end after so long, go on later

A line of the file is one recording: JSON with its rows and what `check --heard` finds nobody could hear. Aims: the
tempo's rank by stage 1.0 from the mix (held stages count as ties); the median rank by stage of pitch, density and
dynamics from the mix at least 0.95. The estimator was made with seed 0 and the usual class.
"""

from __future__ import annotations

import argparse
import json
import time
from collections import defaultdict
from collections.abc import Iterable, Sequence
from pathlib import Path
from statistics import median
from typing import Any

AIMS = {"tempo": 1.0, "pitch": 0.95, "density": 0.95, "dynamics": 0.95}
USUAL = "usual"


def heard(scene: str, label: str = USUAL, seed: int = 0) -> dict[str, Any]:
    """One recording measured: its rows as `check --heard --json` lists them, and the problems that only it shows."""
    from sonify import lesson
    from sonify.data.exports import heard_rows
    from sonify.say import say
    from tests.benchmarks.arranging import classes

    findings, rows = lesson.listened(scene, None if label == USUAL else classes()[label], seed=seed)
    unheard = [
        [say(each.message), each.part, say(each.where)]
        for each in findings
        if getattr(each.message, "message", "").startswith("heard-")
    ]
    return {"scene": scene, "class": label, "seed": seed, "rows": heard_rows(rows), "problems": unheard}


def read(files: Iterable[Path]) -> list[dict[str, Any]]:
    return [json.loads(line) for file in files if file.exists() for line in file.read_text("utf-8").splitlines()]


def rows_of(records: Sequence[dict[str, Any]]) -> list[dict[str, Any]]:
    return [{"scene": one["scene"], "class": one["class"], **row} for one in records for row in one["rows"]]


def medians(rows: Sequence[dict[str, Any]], what: str = "rank_by_stage") -> dict[tuple[str, str], tuple[float, int]]:
    """Of each control from each source: the median rank, and of how many."""
    found: dict[tuple[str, str], list[float]] = defaultdict(list)
    for row in rows:
        if row[what] is not None:
            found[row["as"], row["from"]].append(row[what])
    return {key: (median(ranks), len(ranks)) for key, ranks in sorted(found.items())}


def printed(records: Sequence[dict[str, Any]]) -> None:
    rows = rows_of(records)
    for row in rows:
        ranks = ["  -  " if row[k] is None else f"{row[k]:5.2f}" for k in ("rank_by_stage", "rank_by_bar")]
        off = "-" if row["error"] is None else f"{row['error']:.3g} {row['unit']}"
        who = f"{row['scene']:25} {row['as']:10} {row['quantity'][:24]:24} {row['part'][:20]:20} {row['from']:5}"
        print(who, *ranks, off)
    for one in records:
        for problem in one["problems"]:
            print("PROBLEM", one["scene"], one["class"], *problem, sep=" | ")
    for what in ("rank_by_stage", "rank_by_bar"):
        for (control, source), (middle, count) in medians(rows, what).items():
            aim = f" (aim {AIMS[control]})" if what == "rank_by_stage" and control in AIMS else ""
            print(f"median {what} {control} from the {source}: {middle:.2f} of {count}{aim}")
    for control, aim in AIMS.items():
        own = [r for r in rows if r["as"] == control and r["from"] == "mix" and r["rank_by_stage"] is not None]
        under = sorted({r["scene"] for r in own if r["rank_by_stage"] < aim - 1e-6})
        reach = sum(r["rank_by_stage"] >= aim - 1e-6 for r in own)
        print(f"{control}: {reach} of {len(own)} rules; under: {under}")


def main() -> None:
    from sonify import lesson

    asked = argparse.ArgumentParser(description=__doc__, formatter_class=argparse.RawDescriptionHelpFormatter)
    asked.add_argument("scenes", nargs="*", metavar="SCENE")
    asked.add_argument("--class", dest="label", default=USUAL)
    asked.add_argument("--seed", type=int, default=0)
    asked.add_argument("--results", type=Path)
    asked.add_argument("--table", type=Path, nargs="+", default=[])
    asked.add_argument("--minutes", type=float, default=1e9)
    given = asked.parse_args()
    if given.results is not None:
        end = time.monotonic() + 60.0 * given.minutes
        done = {(one["scene"], one["class"], one["seed"]) for one in read([given.results])}
        for scene in given.scenes or lesson.scene_names():
            if (scene, given.label, given.seed) not in done and time.monotonic() < end:
                one = heard(scene, given.label, given.seed)
                with given.results.open("a", encoding="utf-8") as file:
                    file.write(json.dumps(one) + "\n")
    if given.table or given.results is None:
        records = read(given.table) or [heard(s, given.label, given.seed) for s in given.scenes or lesson.scene_names()]
        printed(records)


if __name__ == "__main__":
    main()
