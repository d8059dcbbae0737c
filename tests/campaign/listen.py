"""Classes simulated by the hundred, recorded badly, and what `sonify listen` tells of them: the table of DEVELOPERS.md.

In slices, their figures kept in a file, and the table of all of them:

    python -m tests.campaign.listen --seed 12 --first 0 --count 20 --results FILE [--frames FOLDER]
    python -m tests.campaign.listen --table FILE...
"""

from __future__ import annotations

import argparse
import json
import pickle
import tempfile
from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import asdict, dataclass
from pathlib import Path
from typing import Any

import numpy as np

from sonify import lesson
from sonify.data.exports import score_json
from sonify.lesson.class_recording import heard_in
from sonify.listening import Heard, measured, plan_of
from tests.campaign.tally import Tally
from tests.listening import judged as judging
from tests.listening.performances import Performance, begun_later, manner_of, perform, recorded_from
from tests.listening.takes import RATE_HZ, ROOMS, bar_levels_db, coded, has_fluidsynth, recorded, wet_sound

SCENES = (
    "harbour-water-cycle",
    "one-string",
    "beans-in-three-places",
    "the-cake-case",
    "two-cups",
    "playground-puddle",
    "muddy-water",
    "the-stalk-on-the-sill",
    "one-swing-one-bar",
    "stretch-test",
    "a-month-of-moon",
    "salt-in-the-jar",
)
#: Scenes of these in which parts with a sound of their own come in one after another, for the order of entries.
ENTERING = ("harbour-water-cycle", "stretch-test", "salt-in-the-jar", "two-cups", "muddy-water")
KINDS = ("", "late", "swapped", "flat", "again", "skipped", "repeated", "twice")
ENTERING_KINDS = ("", "late", "swapped", "swapped")
#: Of those that begin in the middle so many stages are missing at most, and not the last two.
MOST_MISSING = 2
NOISE_DB = (20, 10, 5, 0)
CODECS = ("wav", "m4a", "webm", "mp3")
#: The decks hold so many cards.
MOST = 240
#: Every so many-th performance is also measured against another scene's pack.
OTHERS = 4


@dataclass(frozen=True)
class Setting:
    """What one class plays and how it is recorded. font: FluidSynth's sounds, not the toolkit's."""

    scene: str
    kind: str
    room: str
    noise_db: int
    codec: str
    font: bool


def setting(number: int, seed: int, *, sort: str = "") -> Setting:
    """Each drawn from a deck of its own, so that every scene, fault, room, noise and codec comes equally often and
    none goes with another."""
    decks = np.random.default_rng([seed, 1_000_000])

    def drawn(cards: Sequence[Any]) -> Any:
        return cards[int(decks.permutation(MOST)[number % MOST]) % len(cards)]

    kinds = {"entering": ENTERING_KINDS, "middle": ("begun later", "recorded later")}.get(sort, KINDS)
    return Setting(
        scene=drawn(ENTERING if sort == "entering" else SCENES),
        kind=drawn(kinds),
        room=drawn(list(ROOMS)),
        noise_db=drawn(NOISE_DB),
        codec=drawn(CODECS),
        font=drawn((True, False, False)) and has_fluidsynth(),
    )


def score_of(scene: str, plans: dict[str, str]) -> str:
    if scene not in plans:
        plans[scene] = score_json(lesson.study(scene).score)
    return plans[scene]


@dataclass(frozen=True)
class Simulated:
    """One class: how it was set, what it did, every take's levels by bar, and all that is kept of its recording."""

    how: Setting
    played: Performance
    levels_db: dict[int, dict[int, float]]
    heard: Heard


def simulated(number: int, seed: int, plans: dict[str, str], *, sort: str = "") -> Simulated:
    """Played, recorded, coded and read again as a file. sort: "", "entering" or "middle"."""
    how, rng = setting(number, seed, sort=sort), np.random.default_rng([seed, number])
    score = json.loads(score_of(how.scene, plans))
    manner = manner_of(score, rng, kind=how.kind)
    starts = [stage["bar"] for stage in score["sections"]]
    most = min(MOST_MISSING, len(starts) - 2)
    if how.kind == "begun later":
        manner = begun_later(score, manner, starts[int(rng.integers(1, most + 1))])
    played = perform(score, manner, rng)
    wet = wet_sound(played, rng, room=how.room, font=how.font)
    if how.kind == "recorded later":
        at_s = {bar.bar: bar.start_s for bar in played.bars}
        late_s = float(rng.uniform(at_s[starts[0]] + 5.0, at_s[starts[most]]))
        played, wet = recorded_from(played, late_s), wet[int(late_s * RATE_HZ) :]
    samples = recorded(played, wet, rng, snr_db=how.noise_db)
    levels = {take: bar_levels_db(played, take, wet) for take in {bar.take for bar in played.bars}}
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / f"class.{how.codec}"
        file.write_bytes(coded(samples, how.codec)[0])
        return Simulated(how, played, levels, heard_in(file))


def kept(number: int, seed: int, plans: dict[str, str], folder: Path | None, *, sort: str = "") -> Simulated:
    """The same, and the next time out of a folder of this program's own: a class takes longer to make than to hear."""
    if folder is None:
        return simulated(number, seed, plans, sort=sort)
    file = folder / f"{sort}{'-' if sort else ''}{seed}-{number:03}.pickle"
    if not file.exists():
        made = simulated(number, seed, plans, sort=sort)
        file.write_bytes(pickle.dumps((asdict(made.how), made.played, made.levels_db, made.heard)))
    how, *rest = pickle.loads(file.read_bytes())
    return Simulated(Setting(**how), *rest)


def row_of(number: int, one: Simulated, plans: dict[str, str], *, others: bool) -> dict[str, Any]:
    """What came of one class, as a line of a file of results."""
    told = measured(plan_of(one.played.score), one.heard)
    found = judging.judged(one.played, told, one.levels_db)
    row = {"number": number, **asdict(one.how), "counts": dict(found.counts), "faults": found.faults}
    if others and number % OTHERS == 0:
        scenes = [name for name in SCENES if name != one.how.scene]
        row["other"] = scenes[number // OTHERS % len(scenes)]
        row["taken_for_it"] = measured(plan_of(json.loads(score_of(row["other"], plans))), one.heard).recognised
    return row


def performances(tally: Tally, count: int, seed: int) -> None:
    plans: dict[str, str] = {}
    rows = []
    for number in range(count):
        rows.append(row_of(number, simulated(number, seed, plans), plans, others=True))
        print(json.dumps(rows[-1]), flush=True)
    told(tally, rows)


def told(tally: Tally, rows: Iterable[dict[str, Any]]) -> None:
    """The table, and what the issue asks for."""
    by_noise = {noise: judging.Judged() for noise in NOISE_DB}
    for row in rows:
        by_noise[row["noise_db"]] += judging.Judged(Counter(row["counts"]), row["faults"])
        tally.add(f"performances at {row['noise_db']} dB")
        if "other" in row:
            wrong = f"{row['number']}: {row['scene']} taken for {row['other']}" if row["taken_for_it"] else ""
            tally.add("another scene's pack", wrong)
    print(table(by_noise))
    quiet, whole = by_noise[20] + by_noise[10], sum(by_noise.values(), judging.Judged())
    _asked(tally, "stages told at 10 dB and better", quiet.share("stages told", "stages") >= 0.9, quiet)
    _asked(tally, "tempi within 2 % at 10 dB", quiet.share("wrong stages told", "stages told") <= 0.01, quiet)
    _asked(tally, "boundaries", quiet.share("wrong boundaries told", "boundaries told") <= 0.01, quiet)
    _asked(tally, "order of entries", whole.share("wrong entry answers", "entry answers") <= 0.05, whole)
    _asked(tally, "wrong verdicts under 1 %", whole.share("wrong answers", "answers") < 0.01, whole)


def _asked(tally: Tally, what: str, good: bool, rows: judging.Judged) -> None:
    tally.add(what, "" if good else f"missed; {dict(rows.counts)} {rows.faults}")


def table(rows: dict[int, judging.Judged]) -> str:
    kinds = ("tempo", "level", "crescendo", "entry", "came")
    lines = [
        "| talk and chairs | recordings | recognised | stages told | within 2 % | in their interval | "
        "begin within half a bar | tempo | level | crescendo | order of entries | came in where written | "
        "wrong answers |",
        "|" + " --- |" * 13,
    ]
    for name, row in [
        *((f"{noise} dB", row) for noise, row in rows.items()),
        ("all", sum(rows.values(), judging.Judged())),
    ]:
        count = row.counts
        answers = " | ".join(f"{count[f'{kind} answers']} of {count[f'{kind} questions']}" for kind in kinds)
        lines.append(
            f"| {name} | {count['recordings']} | {count['recordings'] - count['not recognised']} | "
            f"{count['stages told']} of {count['stages']} | {count['stages told'] - count['wrong stages told']} | "
            f"{count['intervals that hold']} | {count['boundaries told'] - count['wrong boundaries told']} | "
            f"{answers} | {count['wrong answers']} of {count['answers']} |"
        )
    return "\n".join(lines)


def main() -> None:
    parser = argparse.ArgumentParser(prog="python -m tests.campaign.listen", description=__doc__)
    parser.add_argument("--seed", type=int, default=1)
    parser.add_argument("--first", type=int, default=0)
    parser.add_argument("--count", type=int, default=20)
    parser.add_argument("--entering", action="store_true", help="of scenes whose parts come in one after another")
    parser.add_argument("--middle", action="store_true", help="which begin in the middle of the piece")
    parser.add_argument("--results", type=Path, help="a file to which a line is added for each")
    parser.add_argument("--frames", type=Path, help="a folder in which classes are kept between runs")
    parser.add_argument("--table", type=Path, nargs="+", metavar="FILE", help="only the table of what files hold")
    asked = parser.parse_args()
    if not asked.table:
        plans: dict[str, str] = {}
        sort = "entering" if asked.entering else "middle" if asked.middle else ""
        for number in range(asked.first, asked.first + asked.count):
            one = kept(number, asked.seed, plans, asked.frames, sort=sort)
            row = {"seed": asked.seed, **row_of(number, one, plans, others=not asked.entering)}
            print(json.dumps(row), flush=True)
            if asked.results:
                with asked.results.open("a", encoding="utf-8") as file:
                    file.write(json.dumps(row) + "\n")
        return
    lines = [line for file in asked.table for line in file.read_text(encoding="utf-8").splitlines()]
    rows = {(row["seed"], row["number"]): row for row in map(json.loads, lines)}  # the last of each counts
    tally = Tally()
    told(tally, [rows[key] for key in sorted(rows)])
    print(tally.report())


if __name__ == "__main__":
    main()
