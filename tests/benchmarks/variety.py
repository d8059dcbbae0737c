"""How much there is to hear in a piece, and how far pieces lie from each other: by seed and by scene.

    python -m tests.benchmarks.variety [SCENE...]

Read from the Score alone. A bar's rhythm is where its notes begin; a bar's pitch set is its pitch classes. A section's
chord is what its accompaniment has: the pitch classes of tuned notes that no rule has asked for, those most heard.
The distance of two pieces is how much of what is heard in one has no counterpart in the other, 0 to 1: the mean over
bar rhythms, steps from note to note, and chords above the tonic (each as shares of all, half the sum of differences).
"""

from __future__ import annotations

import sys
from collections import Counter
from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from functools import cache
from itertools import combinations, pairwise
from statistics import median

from sonify.records.score import Note, Part
from tests.benchmarks.arranging import SCENES, Take, classes, take

SEEDS = (0, 1, 2)
#: Half of the greatest weight in its section makes a pitch class part of the chord; three at the most.
IN_CHORD, MOST_IN_CHORD = 0.34, 3
LONG_S, LONG_STAGES = 170.0, 3
AIM_RHYTHMS, AIM_CHORDS = 6, 3


def own_notes(one: Take, part: Part) -> list[Note]:
    return [note for note in part.notes if (note.instrument or part.instrument) == part.instrument]


def by_bar(one: Take, part: Part) -> dict[int, list[Note]]:
    found: dict[int, list[Note]] = {}
    for note in own_notes(one, part):
        found.setdefault(int(note.beat // one.beats) + 1, []).append(note)
    return found


def rhythms(one: Take, part: Part) -> Counter[Hashable]:
    return Counter(
        tuple(sorted({str(note.beat % one.beats) for note in notes})) for notes in by_bar(one, part).values()
    )


def pitch_sets(one: Take, part: Part) -> Counter[Hashable]:
    return Counter(tuple(sorted({note.midi % 12 for note in notes})) for notes in by_bar(one, part).values())


def tuned(one: Take, part: Part) -> bool:
    return one.score.instrument(part.instrument).pitched


def chords(one: Take) -> list[tuple[int, ...]]:
    """What accompanies each section, as semitones over the tonic; () where nothing tuned does."""
    found = []
    parts = [part for part in one.score.group_parts if tuned(one, part)]
    for section in one.score.sections:
        first, end = ((bar - 1) * one.beats for bar in (section.bar, section.bar + section.bars))
        here = [(part, [n for n in own_notes(one, part) if first <= n.beat < end]) for part in parts]
        under = [notes for part, notes in here if part.texture in ("drone", "ostinato")]
        under = [notes for notes in under if notes and all(note.asked is None for note in notes)]
        heard_here = [note for notes in under or [notes for _, notes in here] for note in notes if note.asked is None]
        weights = Counter((note.midi - one.score.scale.tonic) % 12 for note in heard_here)
        most = max(weights.values(), default=0)
        kept = [pitch for pitch, weight in weights.most_common(MOST_IN_CHORD) if weight >= IN_CHORD * most]
        found.append(tuple(sorted(kept)))
    return found


def steps(one: Take) -> Counter[Hashable]:
    """From each note of a tune to the next, in semitones, and whether it comes on the beat."""
    found: Counter[Hashable] = Counter()
    for part in one.score.group_parts:
        if tuned(one, part) and part.texture in ("melody", "ostinato"):
            for a, b in pairwise(own_notes(one, part)):
                found[b.midi - a.midi, b.beat.denominator == 1] += 1
    return found


@dataclass(frozen=True)
class Heard:
    """What one piece has."""

    rhythms: Counter[Hashable]
    steps: Counter[Hashable]
    chords: Counter[Hashable]


@cache
def heard(scene: str, label: str, seed: int) -> Heard:
    one = take(scene, classes()[label], seed)
    rows: Counter[Hashable] = Counter()
    for part in one.score.group_parts:
        if not part.pulse:
            rows += Counter({(part.texture, bar): n for bar, n in rhythms(one, part).items()})
    return Heard(rhythms=rows, steps=steps(one), chords=Counter(chords(one)))


def apart(a: Heard, b: Heard) -> float:
    pairs = ((a.rhythms, b.rhythms), (a.steps, b.steps), (a.chords, b.chords))
    return sum(_apart(one, other) for one, other in pairs) / len(pairs)


def _apart(a: Counter[Hashable], b: Counter[Hashable]) -> float:
    one, other = max(sum(a.values()), 1), max(sum(b.values()), 1)
    return sum(abs(a[key] / one - b[key] / other) for key in a.keys() | b.keys()) / 2


@dataclass(frozen=True)
class Row:
    """One piece: the least and the most bar rhythms of a tune, pitch sets of one, chords and their changes."""

    scene: str
    label: str
    seconds: float
    stages: int
    rhythms: tuple[int, ...]
    sets: tuple[int, ...]
    chords: int
    changes: int
    others: float

    @property
    def reaches(self) -> bool:
        enough = self.stages <= LONG_STAGES or self.chords == 0 or self.chords >= AIM_CHORDS
        return enough and (self.seconds < LONG_S or min(self.rhythms, default=AIM_RHYTHMS) >= AIM_RHYTHMS)


def row(scene: str, label: str, seed: int = 0) -> Row:
    one = take(scene, classes()[label], seed)
    parts = [part for part in one.score.group_parts if not part.pulse]
    # a tune that plays in less than half of the piece has less time for it
    tunes = [p for p in parts if p.texture == "melody" and tuned(one, p) and len(by_bar(one, p)) > one.score.bars / 2]
    others = [len(rhythms(one, part)) for part in parts if part.texture in ("ostinato", "tremolo")]
    own = chords(one)
    return Row(
        scene=scene,
        label=label,
        seconds=float(one.score.clock.seconds(one.score.end_beat)),
        stages=len(one.score.sections),
        rhythms=tuple(len(rhythms(one, part)) for part in tunes),
        sets=tuple(len(pitch_sets(one, part)) for part in tunes),
        chords=len(set(own) - {()}),
        changes=sum(a != b for a, b in pairwise(own)),
        others=median(others) if others else 0.0,
    )


def main(scenes: Sequence[str]) -> None:
    scenes = scenes or SCENES
    print("scene, class: seconds, stages, bar rhythms a tune, pitch sets a tune, chords, changes, rhythms of others")
    rows = [row(scene, label) for scene in scenes for label in classes()]
    for one in rows:
        tunes = "/".join(map(str, one.rhythms)) or "-"
        sets = "/".join(map(str, one.sets)) or "-"
        short = "" if one.reaches else "  under the aim"
        figures = (
            f"{one.seconds:4.0f} {one.stages:2} {tunes:10} {sets:10} {one.chords:2} {one.changes:2} {one.others:4.1f}"
        )
        print(f"{one.scene:26} {one.label:16} {figures}{short}")
    print(f"{sum(one.reaches for one in rows)} of {len(rows)} reach {AIM_RHYTHMS} bar rhythms and {AIM_CHORDS} chords")
    for label in classes():
        seeds = [
            (apart(heard(scene, label, a), heard(scene, label, b)), scene)
            for scene in scenes
            for a, b in combinations(SEEDS, 2)
        ]
        pairs = [(apart(heard(a, label, 0), heard(b, label, 0)), f"{a} and {b}") for a, b in combinations(scenes, 2)]
        for what, found in (("two seeds of one scene", seeds), ("two scenes", pairs)):
            if found:
                middle = median(each for each, _ in found)
                (least, where), (most, _) = min(found), max(found)
                print(f"{label}: {what} lie {middle:.2f} apart, {least:.2f} ({where}) to {most:.2f}")


if __name__ == "__main__":
    main(sys.argv[1:])
