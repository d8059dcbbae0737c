"""Classes that play a Score, made by program, with the exact truth of what they did. Knows nothing of the estimator.

No real class stands behind these: a player's strokes lie 20 to 60 ms about the beat, the tempo is up to a quarter off
and drifts, strokes are missing and wrong (round figures of ours, for want of measured classes).
"""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field, replace
from typing import Any

import numpy as np

Rng = np.random.Generator


@dataclass(frozen=True)
class Manner:
    """How a class plays. ratios: tempo against the score's, a stage each; shape: takes as lists of bars."""

    ratios: tuple[float, ...]
    drift: float = 0.03
    scatter_s: float = 0.03
    missing: float = 0.05
    wrong: float = 0.03
    late_bars: Mapping[str, int] = field(default_factory=dict)
    swapped: tuple[str, str] | None = None
    flat: bool = False
    takes: tuple[tuple[int, ...], ...] = ()
    pauses_s: tuple[float, ...] = ()
    before_s: float = 6.0
    after_s: float = 5.0
    count_in: bool = True


@dataclass(frozen=True)
class Stroke:
    time_s: float
    length_s: float
    midi: int
    velocity: int
    brightness: float
    instrument: str
    part: str
    held: bool


@dataclass(frozen=True)
class PlayedBar:
    take: int
    bar: int
    start_s: float
    end_s: float


@dataclass(frozen=True)
class Performance:
    """What was played. bars: in order of time. entries_s: (take, part) -> its first stroke."""

    score: Mapping[str, Any]
    manner: Manner
    strokes: tuple[Stroke, ...]
    bars: tuple[PlayedBar, ...]
    seconds: float

    def take(self, number: int) -> list[PlayedBar]:
        return [bar for bar in self.bars if bar.take == number]

    def whole_takes(self) -> list[int]:
        """Takes that reach from the first stage into the last, whatever was left out between."""
        first, last = self.score["sections"][0], self.score["sections"][-1]
        out = []
        for number in sorted({bar.take for bar in self.bars}):
            bars = {bar.bar for bar in self.take(number)}
            if first["bar"] in bars and last["bar"] + last["bars"] - 1 in bars:
                out.append(number)
        return out

    def stage_bpm(self, take: int, section: Mapping[str, Any]) -> list[float]:
        """Beats a minute of each time that the stage was played whole in a take."""
        beats = int(self.score["metre"].split("/")[0])
        wanted = list(range(section["bar"], section["bar"] + section["bars"]))
        bars, out = self.take(take), []
        for at, bar in enumerate(bars):
            run = bars[at : at + len(wanted)]
            if bar.bar == wanted[0] and [one.bar for one in run] == wanted:
                out.append(60.0 * beats * len(wanted) / (run[-1].end_s - run[0].start_s))
        return out

    def stage_start_s(self, take: int, section: Mapping[str, Any]) -> list[float]:
        return [bar.start_s for bar in self.take(take) if bar.bar == section["bar"]]

    def entries_s(self, take: int) -> dict[str, float]:
        """First stroke of every part in a take, and so of its group's part."""
        bars = self.take(take)
        first: dict[str, float] = {}
        for stroke in sorted(self.strokes, key=lambda one: one.time_s):
            if bars[0].start_s - 0.4 <= stroke.time_s < bars[-1].end_s:
                first.setdefault(stroke.part, stroke.time_s)
        first.pop("count-in", None)
        return first


def manner_of(score: Mapping[str, Any], rng: Rng, *, kind: str = "") -> Manner:
    """A class, drawn by lot. kind: "" or one of "late", "swapped", "flat", "again", "skipped", "repeated", "twice"."""
    sections = score["sections"]
    everywhere = rng.uniform(0.85, 1.15)
    ratios = tuple(float(np.clip(everywhere * rng.uniform(0.9, 1.12), 0.75, 1.25)) for _ in sections)
    every = tuple(range(1, score["bars"] + 1))
    takes: tuple[tuple[int, ...], ...] = (every,)
    stages = [tuple(range(s["bar"], s["bar"] + s["bars"])) for s in sections]
    if kind == "again":
        takes = (every[: int(rng.integers(6, max(7, 2 * len(every) // 3)))], every)
    elif kind == "twice":
        takes = (every, every)
    elif kind in ("skipped", "repeated"):
        which = int(rng.integers(1, len(stages) - 1)) if len(stages) > 2 else 0
        order = [s for n, s in enumerate(stages) for _ in range(1 if n != which else (0 if kind == "skipped" else 2))]
        takes = (tuple(bar for stage in order for bar in stage),)
    entering = _entering(score)
    late = {}
    swapped = None
    if kind == "late" and entering:
        late = {name: int(rng.integers(1, 4)) for name, _ in entering if rng.random() < 0.6}
    if kind == "swapped":
        pairs = [(a, b) for a, one in entering for b, two in entering if 0 < two - one <= 16]
        swapped = pairs[int(rng.integers(len(pairs)))] if pairs else None
    return Manner(
        ratios=ratios,
        drift=float(rng.uniform(0.01, 0.05)),
        scatter_s=float(rng.uniform(0.02, 0.06)),
        missing=float(rng.uniform(0.0, 0.15)),
        wrong=float(rng.uniform(0.0, 0.1)),
        late_bars=late,
        swapped=swapped,
        flat=kind == "flat",
        takes=takes,
        pauses_s=tuple(float(rng.uniform(4.0, 15.0)) for _ in takes[1:]),
        before_s=float(rng.uniform(2.0, 15.0)),
        after_s=float(rng.uniform(2.0, 10.0)),
        count_in=bool(rng.random() < 0.8),
    )


def begun_later(score: Mapping[str, Any], manner: Manner, bar: int) -> Manner:
    """The same class, which begins at a bar of the piece."""
    return replace(manner, takes=(tuple(range(bar, score["bars"] + 1)),), pauses_s=())


def recorded_from(played: Performance, at_s: float) -> Performance:
    """What is left of a performance where the recorder was started late. The bar that was being played is none."""
    return replace(
        played,
        strokes=tuple(replace(one, time_s=one.time_s - at_s) for one in played.strokes if one.time_s >= at_s),
        bars=tuple(
            replace(bar, start_s=bar.start_s - at_s, end_s=bar.end_s - at_s)
            for bar in played.bars
            if bar.start_s >= at_s
        ),
        seconds=played.seconds - at_s,
    )


def _entering(score: Mapping[str, Any]) -> list[tuple[str, int]]:
    """Parts that come in after the piece has begun, and the bar in which they do."""
    beats = int(score["metre"].split("/")[0])
    rows = [
        (part["name"], int(part["notes"][0]["beat"] // beats) + 1)
        for part in score["parts"]
        if part["group"] and part["notes"]
    ]
    return [(name, bar) for name, bar in rows if bar > 1]


def perform(score: Mapping[str, Any], manner: Manner, rng: Rng) -> Performance:
    """The Score as this class plays it."""
    beats = int(score["metre"].split("/")[0])
    lines = {part["name"]: _line(score, part, manner, beats) for part in score["parts"] if part["group"]}
    players = {part["name"]: _players(part, manner, rng) for part in score["parts"]}
    now, strokes, bars = manner.before_s, [], []
    for number, take in enumerate(manner.takes):
        if number:
            now += manner.pauses_s[number - 1]
        walk = _walk(score, take, manner, rng)
        a_beat = 60.0 / (_bpm(score, take[0]) * walk[0])
        if manner.count_in:
            count = next((part for part in score["parts"] if not part["group"]), None)
            first = min((note["beat"] for note in count["notes"]), default=0) if count else 0
            for note in count["notes"] if count else ():
                at = now + float(note["beat"] - first) * a_beat
                strokes.append(_stroke(note, at + rng.normal(0, 0.015), a_beat, "count-in", count["instrument"]))
            now += -float(first) * a_beat
        for bar, ratio in zip(take, walk, strict=True):
            a_beat = 60.0 / (_bpm(score, bar) * ratio)
            bars.append(PlayedBar(number, bar, now, now + beats * a_beat))
            for part in score["parts"]:
                if not part["group"]:
                    continue
                for note in lines[part["name"]].get(bar, ()):
                    if part["texture"] == "scatter":  # free taps: so many in a bar, wherever a hand likes
                        note = {**note, "beat": (bar - 1 + rng.random()) * beats}
                    at = now + (note["beat"] - (bar - 1) * beats) * a_beat
                    strokes += _played(note, at, a_beat, part, players[part["name"]], manner, rng)
            now += beats * a_beat
    return Performance(score, manner, tuple(strokes), tuple(bars), now + manner.after_s)


def _walk(score: Mapping[str, Any], take: Sequence[int], manner: Manner, rng: Rng) -> np.ndarray:
    """Tempo of each bar against the score's: the stage's own, and a slow drift about it."""
    stage = [max(n for n, s in enumerate(score["sections"]) if s["bar"] <= bar) for bar in take]
    steps = rng.normal(0.0, 1.0, len(take)).cumsum()
    drift = steps - np.linspace(steps[0], steps[-1], len(take))
    drift *= manner.drift / max(1e-9, np.abs(drift).max())
    jitter = rng.normal(0.0, 0.005, len(take))
    ratios = np.array([manner.ratios[n] for n in stage]) * np.exp(drift + jitter)
    return np.clip(ratios, 0.75, 1.25)


def _bpm(score: Mapping[str, Any], bar: int) -> float:
    return next(row["bpm"] for row in reversed(score["tempo"]) if row["bar"] <= bar)


def _line(score: Mapping[str, Any], part: Mapping[str, Any], manner: Manner, beats: int) -> dict[int, list[Any]]:
    """Notes by bar as the group means to play them: late, swapped, or without its crescendos."""
    notes = part["notes"]
    if manner.flat and notes:
        middle = int(np.median([note["velocity"] for note in notes]))
        notes = [{**note, "velocity": middle} for note in notes]
    by_bar: dict[int, list[Any]] = {}
    for note in notes:
        by_bar.setdefault(int(note["beat"] // beats) + 1, []).append(note)
    if not by_bar:
        return by_bar
    entry = min(by_bar)
    if part["name"] in manner.late_bars:
        by_bar = {bar: row for bar, row in by_bar.items() if bar >= entry + manner.late_bars[part["name"]]}
    if manner.swapped and part["name"] in manner.swapped:
        other = next(p for p in score["parts"] if p["name"] == next(n for n in manner.swapped if n != part["name"]))
        theirs = int(other["notes"][0]["beat"] // beats) + 1
        if theirs > entry:
            by_bar = {bar: row for bar, row in by_bar.items() if bar >= theirs}
        else:
            early = {}
            for bar in range(theirs, entry):
                like = entry + (bar - theirs) % max(1, min(4, max(by_bar) - entry + 1))
                early[bar] = [{**n, "beat": n["beat"] - (like - bar) * beats} for n in by_bar.get(like, ())]
            by_bar = {**early, **by_bar}
    return by_bar


def _players(part: Mapping[str, Any], manner: Manner, rng: Rng) -> dict[str, list[float]]:
    """Each player's own lag behind the beat; at most four of a group are made."""
    seats = part["seats"] or [{"instrument": part["instrument"], "players": 1}]
    return {
        seat["instrument"]: [float(rng.normal(0.0, manner.scatter_s / 2)) for _ in range(min(4, seat["players"]) or 1)]
        for seat in seats
    }


def _played(note: Any, at: float, a_beat: float, part: Any, players: Any, manner: Manner, rng: Rng) -> list[Stroke]:
    lags = players.get(note["instrument"], [0.0])
    lags = lags if note["player"] == 0 else [lags[note["player"] % len(lags)]]
    out = []
    for lag in lags:
        if rng.random() < manner.missing:
            continue
        own = dict(note)
        if rng.random() < manner.wrong:
            own["midi"] = note["midi"] + int(rng.choice([-5, -3, -2, 2, 3, 5]))
        own["velocity"] = int(np.clip(note["velocity"] + rng.normal(0, 6), 8, 127))
        when = at + lag + rng.normal(0.0, manner.scatter_s * 0.87)
        out.append(_stroke(own, when, a_beat, part["name"], note["instrument"] or part["instrument"], part["texture"]))
    return out


def _stroke(note: Any, at: float, a_beat: float, part: str, instrument: str, texture: str = "") -> Stroke:
    return Stroke(
        time_s=float(at),
        length_s=float(note["beats"]) * a_beat,
        midi=note["midi"],
        velocity=note["velocity"],
        brightness=note["brightness"],
        instrument=note["instrument"] or instrument,
        part=part,
        held=texture in ("drone", "tremolo"),
    )
