"""What was told of a simulated performance, held against what was played."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass, field
from typing import Any

import numpy as np

from sonify.records.listened import CANNOT_TELL, YES, Listened, Question
from tests.listening.performances import Performance

#: What is promised of a stage's tempo (a share), and of where it begins (in bars).
TEMPO, BOUNDARY_BARS = 0.02, 0.5
#: A change of loudness smaller than this is neither: nobody would hear it (our own).
NO_CHANGE_DB = 0.5
#: A first stroke this much before a bar is that bar's: players scatter.
EARLY_S = 0.3


@dataclass
class Judged:
    """Counts of a performance or of many, and every fault in words."""

    counts: Counter[str] = field(default_factory=Counter)
    faults: list[str] = field(default_factory=list)

    def __add__(self, other: Judged) -> Judged:
        return Judged(self.counts + other.counts, self.faults + other.faults)

    def note(self, kind: str, fault: str = "") -> None:
        self.counts[kind] += 1
        if fault:
            self.counts[f"wrong {kind}"] += 1
            self.faults.append(f"{kind}: {fault}")

    def share(self, kind: str, of: str) -> float:
        return self.counts[kind] / self.counts[of] if self.counts[of] else float("nan")


def judged(played: Performance, found: Listened, levels_db: dict[int, dict[int, float]]) -> Judged:
    """levels_db: by take and bar, the class alone."""
    out = Judged()
    out.note("recordings")
    sections = played.score["sections"]
    take = _take_of(played, found)
    out.counts["stages"] += sum(bool(played.stage_bpm(take, section)) for section in sections)
    if not found.recognised:
        out.note("not recognised")
        return out
    for section, row in zip(sections, found.stages, strict=True):
        if row.bpm is None or row.start_s is None:
            continue
        true, starts = played.stage_bpm(take, section), played.stage_start_s(take, section)
        off = min((abs(row.bpm.value / bpm - 1.0) for bpm in true), default=9.0)
        out.note("stages told", f"{row.name}: {100 * off:.1f} % off" if off > TEMPO else "")
        out.counts["intervals that hold"] += any(row.bpm.low <= bpm <= row.bpm.high for bpm in true)
        away = min((abs(row.start_s - start) for start in starts), default=99.0)
        bars = away * row.bpm.value / 60.0 / int(played.score["metre"].split("/")[0])
        out.note("boundaries told", f"{row.name}: {bars:.1f} bars off" if bars > BOUNDARY_BARS else "")
    for question in found.questions:
        if _before_the_recording(played, take, question):
            invented = question.answer != CANNOT_TELL
            out.note("questions of what was before", f"{question.kind} {question.part}: told" if invented else "")
            continue
        truth = _truth(played, take, found, question, levels_db.get(take, {}))
        if truth is None:
            continue
        out.note(f"{question.kind} questions")
        out.note("questions")
        if question.answer != CANNOT_TELL:
            wrong = (question.answer == YES) != truth
            fault = f"{question.kind} {question.stage} {question.part}: told {question.answer}" if wrong else ""
            out.note("answers", fault)
            out.note(f"{question.kind} answers", fault)
    return out


def _take_of(played: Performance, found: Listened) -> int:
    """The take that was measured: the one most of which lies where it was found."""
    takes = sorted({bar.take for bar in played.bars})
    if found.start_s is None or found.end_s is None:
        return takes[-1]
    first, last = found.start_s - 1.0, found.end_s + 1.0
    return max(takes, key=lambda number: sum(first <= bar.start_s < last for bar in played.take(number)))


def _before_the_recording(played: Performance, take: int, question: Question) -> bool:
    """Whether a part, or both of two, is to come in before the first bar that was played: no listener can answer."""
    if question.kind not in ("came", "entry"):
        return False
    asked: dict[str, Any] = dict(question.asked.args)  # type: ignore[union-attr]
    beats, first = int(played.score["metre"].split("/")[0]), played.take(take)[0].bar
    planned = {part["name"]: part["notes"][0]["beat"] // beats + 1 for part in played.score["parts"] if part["notes"]}
    return all(planned[name] < first for name in (question.part, asked.get("later", question.part)))


def _truth(
    played: Performance, take: int, found: Listened, question: Question, levels_db: dict[int, float]
) -> bool | None:
    """What a perfect listener would answer; None where nothing true can be said."""
    asked: dict[str, Any] = dict(question.asked.args)  # type: ignore[union-attr]
    sections = played.score["sections"]
    place = next(n for n, section in enumerate(sections) if section["letter"] == question.stage)
    if question.kind == "tempo":
        before, after = (played.stage_bpm(take, sections[n]) for n in (place - 1, place))
        return (after[0] > before[0]) == (asked["way"] == "quicker") if before and after else None
    if question.kind == "entry":
        entries = played.entries_s(take)
        if question.part not in entries or asked["later"] not in entries:
            return None
        return entries[question.part] < entries[asked["later"]]
    if question.kind == "came":
        if question.part not in played.entries_s(take):
            return None
        at_s = played.entries_s(take)[question.part]
        came = max((bar for bar in played.take(take) if bar.start_s - EARLY_S <= at_s), key=lambda bar: bar.start_s)
        return abs(came.bar - int(asked["bar"])) <= int(asked["bars"])
    bars = [list(range(s["bar"], s["bar"] + s["bars"])) for s in sections]
    if question.kind == "level":
        rows = [[levels_db[bar] for bar in bars[n] if bar in levels_db] for n in (place - 1, place)]
        if not all(rows):
            return None
        change = float(np.mean(rows[1]) - np.mean(rows[0]))
    else:
        inside = [levels_db[bar] for bar in bars[place] if bar in levels_db]
        if len(inside) < len(bars[place]):
            return None
        third = max(2, len(inside) // 3)
        change = float(np.mean(inside[-third:]) - np.mean(inside[:third]))
    return change > NO_CHANGE_DB if asked["way"] == "louder" else change < -NO_CHANGE_DB
