"""How far an arrangement keeps its promises to the science and to the teacher, over every scene, class and seed.

    python -m tests.benchmarks.arranging                # the table, each row with its aim
    python -m tests.benchmarks.arranging --sound        # and what only a recording shows: about two seconds for each
    python -m tests.benchmarks.arranging two-cups       # one scene, row by row for each class and seed

Everything is read from what comes out (the Score, its notes and cues) and from the scene's own rules; none of the code
that arranges is asked. Three classes: the two in `examples`, and one of seven-year-olds with an empty cupboard.
"""

from __future__ import annotations

import re
import sys
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from functools import cache, cached_property
from itertools import combinations, pairwise
from pathlib import Path

import numpy as np

from sonify import lesson
from sonify.kinds.marks import DYNAMICS
from sonify.lesson.studying import arranged_for
from sonify.mapping.thresholds import can_be_told_apart
from sonify.records.classroom import Classroom
from sonify.records.controls import ControlCurve, Controls
from sonify.records.findings import Finding
from sonify.records.instrument import Instrument
from sonify.records.scene import Rule, Scene
from sonify.records.score import Note, Part, Score
from sonify.records.timeline import Timeline
from sonify.say import say
from tests.benchmarks.test_levels import AIM_ALIKE, AIM_LU, alike, measured

EXAMPLES = Path(__file__).resolve().parent.parent.parent / "examples"
SCENES = tuple(lesson.scene_names())
SEEDS = (0, 1, 2, 3, 4)
#: A mark stands for the velocities nearer to it than to any other; a bar may stray by half a step between two marks.
MARK_SLACK = 7.0
CLAPPED = ("claps", "finger-snaps")


def classes() -> dict[str, Classroom]:
    """Well-stocked (year 5), few instruments (year 4), an empty cupboard (year 3)."""
    rich, poor = (lesson.load_class(EXAMPLES / f"{name}.toml") for name in ("well-stocked", "few-instruments"))
    bare = Classroom(year=3, pupils=24, groups=5, name="empty cupboard")
    return {"well-stocked": rich, "few-instruments": poor, "empty cupboard": bare}


@cache
def computed(name: str) -> tuple[Scene, Timeline]:
    """A scene as far as it does not depend on the class."""
    scene = lesson.load(name)
    return scene, lesson.simulate(scene)


def take(name: str, classroom: Classroom, seed: int = 0) -> Take:
    scene, timeline = computed(name)
    made = arranged_for(scene, timeline, classroom, seed=seed)
    return Take(
        scene=made.scene,
        timeline=timeline,
        controls=made.controls,
        classroom=classroom,
        score=made.score,
        findings=made.findings,
    )


@dataclass(frozen=True, kw_only=True, eq=False)
class Take:
    """One arrangement, and what an outsider can read from it. Not slotted: what is worked out once is kept."""

    scene: Scene
    timeline: Timeline
    controls: Controls
    classroom: Classroom
    score: Score
    findings: tuple[Finding, ...]

    @property
    def beats(self) -> int:
        return self.score.metre.beats

    @property
    def bars(self) -> range:
        return range(1, self.score.bars + 1)

    @cached_property
    def plans(self) -> dict[str, str]:
        """Each part's name in the score, and the scene's part that it plays; "" for a pulse kept while others play."""
        names = [plan.name for plan in self.scene.parts]
        return {
            part.name: next((name for name in names if part.name == name or part.name.startswith(f"{name}, ")), "")
            for part in self.score.group_parts
        }

    @cached_property
    def sounding(self) -> dict[str, set[int]]:
        """The bars in which each of the scene's parts sounds, whichever groups play it."""
        found: dict[str, set[int]] = {plan.name: set() for plan in self.scene.parts}
        for part in self.score.group_parts:
            if self.plans[part.name]:
                found[self.plans[part.name]] |= self.bars_of(part)
        return found

    def bars_of(self, part: Part) -> set[int]:
        """The bars in which a part's notes are struck or held."""
        found: set[int] = set()
        for note in part.notes:
            last = (note.beat + note.beats - Fraction(1, 64)) // self.beats
            found.update(range(int(note.beat // self.beats) + 1, int(last) + 2))
        return found

    @cached_property
    def entered(self) -> dict[str, set[int]]:
        """The bars of each of the scene's parts by its entries."""
        found: dict[str, set[int]] = {plan.name: set() for plan in self.scene.parts}
        for part in self.score.group_parts:
            if self.plans[part.name]:
                bars = (bar for entry in part.entries for bar in range(entry.bar, entry.bar + entry.bars))
                found[self.plans[part.name]].update(bars)
        return found

    @cached_property
    def compared(self) -> list[tuple[str, ...]]:
        """Parts that the scene sets side by side: own rules alike but for the quantity, or named by `with`."""
        sides: dict[tuple[object, ...], list[str]] = {}
        quantities: dict[tuple[object, ...], set[str]] = {}
        for rule in self.scene.rules:
            if rule.part and any(rule.part == plan.name for plan in self.scene.parts):
                ends = (rule.low.value, rule.low.unit, rule.high.value, rule.high.unit, rule.to_low, rule.to_high)
                sides.setdefault((rule.control, *ends), []).append(rule.part)
                quantities.setdefault((rule.control, *ends), set()).add(rule.quantity)
        found = [tuple(parts) for key, parts in sides.items() if len(quantities[key]) == len(parts) > 1]
        texture = {plan.name: plan.texture for plan in self.scene.parts}
        named = [
            (plan.partner, plan.name)
            for plan in self.scene.parts
            if plan.partner and texture[plan.name] == texture.get(plan.partner)
        ]
        return found + [pair for pair in named if not any(set(pair) <= set(other) for other in found)]

    @property
    def streams(self) -> int:
        """How many meanings at once: two for seven- to eight-year-olds, else three."""
        return 2 if self.classroom.year <= 3 else 3

    @cached_property
    def meanings(self) -> dict[str, frozenset[tuple[str, str]]]:
        """What each part of the scene stands for, as (quantity, control): by rules of its own, or by its tune.

        The beat itself stands for nothing, nor does a part without a rule; one rule for several parts is one meaning.
        """
        found = {}
        for plan in self.scene.parts:
            own = {(r.quantity, r.control) for r in self.scene.rules if r.part == plan.name and r.control != "tempo"}
            if plan.texture == "melody" and not own:
                own = {(r.quantity, r.control) for r in self.scene.rules if r.part is None and r.control == "pitch"}
                own = own or {(plan.name, "pitch")}
            found[plan.name] = frozenset() if plan.on_beat else frozenset(own)
        return found

    def said(self, bar: int) -> set[frozenset[tuple[str, str]]]:
        """The meanings that are heard in a bar, by the parts' entries."""
        return {self.meanings[name] for name, bars in self.entered.items() if bar in bars} - {frozenset()}

    def may_sound(self, name: str) -> set[int]:
        """The bars of a part's stages in which there is some of what it stands for."""
        plan = next(plan for plan in self.scene.parts if plan.name == name)
        found = {
            bar
            for stage in self.controls.time_map.stages
            if plan.stages == ("all",) or stage.stage in plan.stages
            for bar in range(stage.bar, stage.bar + stage.bars)
        }
        for curve in self.controls.curves:
            if curve.part == name and curve.rule.control in ("density", "dynamics", "brightness"):
                found -= self.none_of(curve)
        return found

    def busy(self, name: str) -> set[int]:
        """Bars in which the pupils of a part play another one of the scene."""
        desks = {(part.group, part.team) for part in self.score.group_parts if self.plans[part.name] == name}
        found: set[int] = set()
        for part in self.score.group_parts:
            if (part.group, part.team) in desks and self.plans[part.name] not in ("", name):
                found |= {bar for entry in part.entries for bar in range(entry.bar, entry.bar + entry.bars)}
        return found

    def kept_alone(self, name: str) -> set[int]:
        """Bars in which the pupils of a part keep the pulse, and no other pattern does (a roll swells and fades)."""
        desks = {(part.group, part.team) for part in self.score.group_parts if self.plans[part.name] == name}
        pulses = [part for part in self.score.group_parts if not self.plans[part.name]]
        own = [part for part in pulses if (part.group, part.team) in desks]
        others = [part for part in self.score.group_parts if part not in own and part.texture == "ostinato"]
        bars = set().union(*(self.bars_of(part) for part in own))
        return {bar for bar in bars if not any(self.steady(part, bar) for part in others)}

    def steady(self, part: Part, bar: int) -> bool:
        """Whether a part strikes at the beginning of a bar and again after equal steps of at most two beats."""
        first = (bar - 1) * self.beats
        own = self.onsets[part.name]
        steps = [step for step in (1, 2) if self.beats % step == 0 or self.beats == 3]
        wanted = [{Fraction(first + beat) for beat in range(0, self.beats, step)} for step in steps]
        if self.beats in (2, 3):
            wanted.append({Fraction(first)})  # one stroke a bar: every second or third beat
        return any(beats <= own for beats in wanted)

    @cached_property
    def onsets(self) -> dict[str, set[Fraction]]:
        """When each part strikes, but for what is too soft to play to."""
        return {
            part.name: {note.beat for note in part.notes if note.velocity >= DYNAMICS["pp"] - 8}
            for part in self.score.group_parts
        }

    @cached_property
    def crowded(self) -> set[int]:
        """Bars of the first sixteen of a stage at whose beginning there are two cues already."""
        found: set[int] = set()
        for section in self.score.sections:
            here = [c for c in self.score.cues if c.bar == section.bar and c.action in ("tempo", "enter", "change")]
            if len(here) >= 2:
                found.update(range(section.bar, section.bar + min(section.bars, 15)))
        return found

    def none_of(self, curve: ControlCurve) -> set[int]:
        """Bars in which a rule's quantity is nought where nought is the rule's quiet end, or its density is none."""
        rule = curve.rule
        quiet = rule.low if rule.to_low <= rule.to_high else rule.high
        absolute = self.timeline.quantity(rule.quantity).true_zero and quiet.value == 0.0
        span = float(np.max(np.abs(curve.quantity_values))) or 1.0
        found = set()
        for bar in self.bars:
            here = slice((bar - 1) * self.beats, bar * self.beats)
            gone = absolute and float(np.max(curve.quantity_values[here])) <= 1e-3 * span
            if gone or (rule.control == "density" and float(np.sum(curve.results[here])) < 0.5):
                found.add(bar)
        return found


# --- the rows: one number for each arrangement ------------------------------------------------------------------------


def together(take: Take) -> float:
    """The least share, in per cent, of the bars of the one that plays less in which compared parts sound together.

    Three or more that two streams cannot hold are heard in pairs: then a part counts as together with any other.
    """
    shares = [100.0]
    for parts in take.compared:
        if len(parts) > take.streams:
            for name in parts:
                others = set().union(*(take.sounding[other] for other in parts if other != name))
                shares.append(_share(take.sounding[name], others))
            continue
        for a, b in combinations(parts, 2):
            less, more = sorted((take.sounding[a], take.sounding[b]), key=len)
            shares.append(_share(less, more))
    return min(shares)


def _share(own: set[int], others: set[int]) -> float:
    return 100.0 * len(own & others) / len(own) if own else 0.0


def bars_together(take: Take) -> float:
    """For information: the bars, of the whole piece, in which compared parts sound together, mean share in per cent."""
    pairs = [pair for parts in take.compared for pair in combinations(parts, 2)]
    if not pairs:
        return float("nan")
    return float(np.mean([100.0 * len(take.sounding[a] & take.sounding[b]) / take.score.bars for a, b in pairs]))


def apart_at_first(take: Take) -> int:
    """Bars between the first notes of compared parts; of those heard in pairs, of the first two."""
    most = 0
    for parts in take.compared:
        firsts = sorted(min(take.sounding[name], default=take.score.bars) for name in parts)[: take.streams]
        most = max(most, firsts[-1] - firsts[0])
    return most


def unlike_pairs(take: Take) -> int:
    """Pairs of compared parts of which one is on instruments and one on voices, or one has notes and one none."""
    rows = {part.name: take.score.instrument(part.instrument) for part in take.score.group_parts}
    kinds = {name: (row.family == "voice", row.pitched) for name, row in rows.items()}
    pairs = [pair for parts in take.compared for pair in combinations(parts, 2)]
    return sum(kinds.get(a) != kinds.get(b) for a, b in pairs if a in kinds and b in kinds)


def empty_bars(take: Take) -> int:
    return take.score.bars - len(set().union(*(take.bars_of(part) for part in take.score.group_parts)))


def _moments(take: Take) -> dict[tuple[int, Fraction], int]:
    found: dict[tuple[int, Fraction], int] = {}
    for cue in take.score.cues:
        if cue.action not in ("louder", "softer"):
            found[cue.bar, cue.beat] = found.get((cue.bar, cue.beat), 0) + 1
    return found


def cues_at_once(take: Take) -> int:
    return max(_moments(take).values())


def seconds_a_moment(take: Take) -> float:
    return float(take.score.clock.seconds(take.score.end_beat)) / len(_moments(take))


def cues(take: Take) -> int:
    return len(take.score.cues)


def cues_counted(take: Take) -> int:
    """Cues that are not for louder or softer."""
    return sum(_moments(take).values())


def shortest_stay(take: Take) -> int:
    """The fewest bars between two changes of who plays, by the parts' entries; a new stage may come at any time."""
    starts = {section.bar for section in take.score.sections} | {take.score.bars + 1}
    playing = [frozenset(name for name, bars in take.entered.items() if bar in bars) for bar in take.bars]
    changes = [bar for bar in take.bars if bar > 1 and playing[bar - 1] != playing[bar - 2]]
    inside = [bar for bar in changes if bar not in starts]
    edges = sorted({1, *changes})
    return min((bar - max(e for e in edges if e < bar) for bar in inside), default=take.score.bars)


def bars_without_pulse(take: Take) -> int:
    """Bars in which no part strikes at the beginning of the bar and again after equal steps of at most two beats."""
    return sum(not any(take.steady(part, bar) for part in take.score.group_parts) for bar in take.bars)


def longest_silence(take: Take) -> int:
    """The longest run of bars in which a group plays nothing at all."""
    groups: dict[int, set[int]] = {}
    for part in take.score.group_parts:
        groups.setdefault(part.group, set()).update(take.bars_of(part))
    return max(_longest_gap(bars, take.score.bars) for bars in groups.values())


def _longest_gap(bars: set[int], last: int) -> int:
    edges = [0, *sorted(bars), last + 1]
    return max(b - a - 1 for a, b in zip(edges, edges[1:], strict=False))


def pupils_idle_in_a_half(take: Take) -> int:
    """Pupils who have no note of their own, or of all of their instrument's, in one half of the piece."""
    half = take.score.bars * take.beats / 2
    played: dict[tuple[int, int, int], set[bool]] = {}
    for part in take.score.group_parts:
        first = 1
        for seat in part.seats:
            for place in range(seat.players):
                halves = played.setdefault((part.group, part.team, first + place), set())
                halves |= {n.beat >= half for n in part.notes if _has(take, part, n, (seat.instrument, first, place))}
            first += seat.players
    return sum(len(halves) < 2 for halves in played.values())


def _has(take: Take, part: Part, note: Note, where: tuple[str, int, int]) -> bool:
    instrument, first, place = where
    if note.player:
        return note.player == first + place
    seat = next(seat for seat in part.seats if seat.instrument == instrument)
    duty = seat.on_duty(int(note.beat // take.beats) + 1)
    return (note.instrument or part.instrument) == instrument and place in duty


def streams_over(take: Take) -> int:
    """Bars with more meanings at once than the age allows."""
    return sum(len(take.said(bar)) > take.streams for bar in take.bars)


def rests_without_cause(take: Take) -> int:
    """Part-bars in which a part that has something to say rests although another meaning would have had room.

    Not counted: where its pupils play another part, or keep the beat that no other part keeps, and a stage into which
    two others have been brought in already.
    """
    count = 0
    played = {plan for plan in take.plans.values() if plan}
    for name in played:
        for bar in take.may_sound(name) - take.entered[name]:
            if bar in take.busy(name) or bar in take.crowded or bar in take.kept_alone(name):
                continue
            count += len((take.said(bar) | {take.meanings[name]}) - {frozenset()}) <= take.streams
    return count


def named_unheard(take: Take) -> int:
    """Parts that a stage names and that are not heard in it, as far as its bars have room for so many meanings.

    Named: in the caption, or given to this stage in particular. A stage has room for two or three in every eight bars,
    less those that never rest by the scene's wish.
    """
    count = 0
    played = {plan for plan in take.plans.values() if plan}
    for section in take.score.sections:
        words = _stems(say(section.caption))
        bars = set(range(section.bar, section.bar + section.bars))
        named_here = heard = going_on = 0
        for name in played:
            plan = next(plan for plan in take.scene.parts if plan.name == name)
            named = _stems(name) & words or (section.name in plan.stages and not _compared_fill(take))
            if named and take.meanings[name] and bars & take.may_sound(name):
                named_here += 1
                heard += bool(bars & take.sounding[name])
            elif not plan.rests and take.meanings[name]:
                going_on += bool(bars & take.may_sound(name))
        room = (take.streams - going_on) * max(1, section.bars // 8)
        count += max(0, min(named_here, room) - heard)
    return count


def _compared_fill(take: Take) -> bool:
    """Whether the compared parts alone are as many as may be heard at once."""
    return any(len(parts) >= take.streams for parts in take.compared)


_SMALL = {"the", "and", "one", "its", "all", "other", "usually", "water", "free"}


def _stems(text: str) -> set[str]:
    return {word.rstrip("s") for word in re.findall(r"[a-z]{3,}", text.lower()) if word not in _SMALL}


def marks_not_played(take: Take) -> float:
    """Bars, in per cent of those a part plays, whose mean velocity is not that of the mark printed for it."""
    wrong = total = 0
    for part in take.score.group_parts:
        by_bar: dict[int, list[int]] = {}
        for note in part.notes:
            if (note.instrument or part.instrument) == part.instrument:
                by_bar.setdefault(int(note.beat // take.beats) + 1, []).append(note.velocity)
        for bar, velocities in by_bar.items():
            total += 1
            wrong += not _within(part, bar, float(np.mean(velocities)))
    return 100.0 * wrong / max(total, 1)


def _within(part: Part, bar: int, velocity: float) -> bool:
    before = [mark for mark in part.dynamics if mark.bar <= bar]
    if not before:
        return False
    marks = [before[-1].mark]
    if before[-1].hairpin:
        marks += [next(mark.mark for mark in part.dynamics if mark.bar > bar)]
    ends = [_band(mark) for mark in marks]
    return min(low for low, _ in ends) - MARK_SLACK <= velocity <= max(high for _, high in ends) + MARK_SLACK


def _band(mark: str) -> tuple[float, float]:
    levels = sorted(DYNAMICS.values())
    here = levels.index(DYNAMICS[mark])
    low = 0.0 if here == 0 else (levels[here - 1] + levels[here]) / 2
    high = 127.0 if here == len(levels) - 1 else (levels[here] + levels[here + 1]) / 2
    return low, high


def unused_while_clapping(take: Take) -> int:
    """Instruments of the cupboard that suit a part that is given to claps or snaps, and that nobody has."""
    given: dict[str, dict[tuple[int, int], int]] = {}
    for part in take.score.group_parts:
        for seat in part.seats:
            desk = given.setdefault(seat.instrument, {})
            desk[part.group, part.team] = max(desk.get((part.group, part.team), 0), seat.count)
    left = {
        stock.instrument: stock.count - sum(given.get(stock.instrument, {}).values())
        for stock in take.classroom.cupboard
    }
    catalogue = lesson.catalogue()
    unused: set[str] = set()
    for part in take.score.group_parts:
        if take.plans[part.name] and any(seat.instrument in CLAPPED for seat in part.seats):
            unused |= {name for name, n in left.items() if n > 0 and _suits(take, part, catalogue[name])}
    return sum(left[name] for name in unused)


def _suits(take: Take, part: Part, row: Instrument) -> bool:
    gentle = "no sudden loud sounds" in take.classroom.needs
    needs_notes = any(r.part == take.plans[part.name] and r.control == "pitch" for r in take.scene.rules)
    notes = row.pitched or not (needs_notes or part.texture == "melody")
    blown = row.family in ("wind", "keys")  # a recorder or a keyboard joins no group of taps
    return part.texture in row.textures and notes and not (gentle and row.loud >= 3) and not blown


def silent_seats(take: Take) -> int:
    """Instruments that a part hands out and never plays."""
    return sum(
        not any((note.instrument or part.instrument) == seat.instrument for note in part.notes)
        for part in take.score.group_parts
        for seat in part.seats
    )


def smallest_tempo_step(take: Take) -> float:
    """Of the steps between stages, larger over smaller, the least; a held tempo is none. 9 where there is none.

    Not counted: a piece whose tempo glides, and a rule that exaggerates nothing (a factor of 1: it plays the science's
    own ratio, however small).
    """
    rule = next((rule for rule in take.scene.rules if rule.control == "tempo"), None)
    bpms = [stage.bpm for stage in take.controls.time_map.stages]
    if rule is None or take.scene.music.gliding or _as_science(rule.low.value, rule.high.value, rule):
        return 9.0
    return min((max(a, b) / min(a, b) for a, b in pairwise(bpms) if a != b), default=9.0)


def _as_science(low: float, high: float, rule: Rule) -> bool:
    if low <= 0 or high <= 0 or rule.to_low <= 0 or rule.to_high <= 0 or low == high:
        return False
    return abs(np.log(rule.to_high / rule.to_low) / np.log(high / low) - 1.0) < 0.02


def rules_untold(take: Take) -> int:
    """Rules of which nothing differs enough to be heard where their parts play, though it does elsewhere in the piece:
    by the means of stages and of their quarters, as written, and the table of thresholds."""
    youngest = take.classroom.youngest_age
    return sum(
        curve.part in take.entered
        and curve.rule.control != "tempo"
        and bool(take.entered[curve.part])
        and _can_be_told(take, curve, take.may_sound(curve.part), youngest)
        and not _can_be_told(take, curve, take.entered[curve.part], youngest)
        for curve in take.controls.curves
    )


def _can_be_told(take: Take, curve: ControlCurve, bars: set[int], youngest: int) -> bool:
    means: list[float] = []
    pairs: list[tuple[float, float]] = []
    for stage in take.controls.time_map.stages:
        own = range(stage.bar, stage.bar + stage.bars)
        if not bars & set(own):
            continue
        values = np.asarray(curve.results)[(stage.bar - 1) * take.beats : (own.stop - 1) * take.beats]
        means.append(float(values.mean()))
        quarters = [float(part.mean()) for part in np.array_split(values, 4) if part.size]
        pairs += combinations(quarters, 2)
    pairs += combinations(means, 2)
    return any(can_be_told_apart(curve.rule.control, one, other, youngest) for one, other in pairs)


def loudness_range(take: Take) -> float:
    """EBU Tech 3342 of the recording; a scene that asks for wide is not held to the aim."""
    return float("nan") if take.score.loudness_range == "wide" else measured(take.score)[0]


def background_alike(take: Take) -> float:
    """How much a background has in common with itself 1 to 60 s on, at the most."""
    return alike(take.score) if take.score.beds else float("nan")


@dataclass(frozen=True, kw_only=True)
class Row:
    """A line of the table. worst: which of two figures is the worse. good: whether a figure reaches the aim."""

    name: str
    aim: str
    figure: Callable[[Take], float]
    worst: Callable[[Sequence[float]], float] = max
    good: Callable[[float], bool] = lambda value: value == 0


ROWS = (
    Row(name="compared parts together, % of lesser", aim=">= 60", figure=together, worst=min, good=lambda v: v >= 60),
    Row(name="compared parts begin apart, bars", aim="0", figure=apart_at_first),
    Row(name="compared pairs on unlike instruments", aim="0", figure=unlike_pairs),
    Row(name="bars in which nobody plays", aim="0", figure=empty_bars),
    Row(name="cues at one moment", aim="<= 2", figure=cues_at_once, good=lambda v: v <= 2),
    Row(name="seconds to a moment", aim=">= 8", figure=seconds_a_moment, worst=min, good=lambda v: v >= 8),
    Row(name="shortest stay within a stage, bars", aim=">= 8", figure=shortest_stay, worst=min, good=lambda v: v >= 8),
    Row(name="bars without a steady pulse", aim="0", figure=bars_without_pulse),
    Row(name="longest silence of a group, bars", aim="<= 16", figure=longest_silence, good=lambda v: v <= 16),
    Row(name="pupils idle in a half", aim="0", figure=pupils_idle_in_a_half),
    Row(name="bars with too many meanings at once", aim="0", figure=streams_over),
    Row(name="part-bars at rest without cause", aim="0", figure=rests_without_cause),
    Row(name="named by a stage and not heard in it", aim="0", figure=named_unheard),
    Row(name="bars not played as marked, %", aim="0", figure=marks_not_played),
    Row(name="suitable instruments unused beside claps", aim="0", figure=unused_while_clapping),
    Row(name="instruments handed out and never played", aim="0", figure=silent_seats),
    Row(
        name="least step of the tempo, ratio",
        aim=">= 1.12",
        figure=smallest_tempo_step,
        worst=min,
        good=lambda v: v >= 1.12 - 1e-9,
    ),
    Row(name="rules not told apart where they play", aim="0", figure=rules_untold),
)
SOUND = (
    Row(name="loudness range, LU", aim="<= 10", figure=loudness_range, good=lambda v: v <= AIM_LU),
    Row(name="background alike after 1 to 60 s", aim="< 0.2", figure=background_alike, good=lambda v: v < AIM_ALIKE),
)
#: Counted for the changelog, without an aim.
COUNTS = (
    Row(name="compared parts together, % of the piece", aim="", figure=bars_together, good=lambda _: True),
    Row(name="cues", aim="", figure=cues, good=lambda _: True),
    Row(name="cues but louder and softer", aim="", figure=cues_counted, good=lambda _: True),
)


def all_takes(scenes: Sequence[str] = SCENES, seeds: Sequence[int] = SEEDS) -> Iterator[tuple[str, str, int, Take]]:
    for scene in scenes:
        for label, classroom in classes().items():
            for seed in seeds:
                yield scene, label, seed, take(scene, classroom, seed)


def main(scenes: Sequence[str], shown: Sequence[Row] = ROWS) -> None:
    """Print the table: the worst of all arrangements, where it is, the median, and how many reach the aim."""
    takes = list(all_takes(scenes or SCENES))
    print(f"{len(takes)} arrangements")
    print(f"{'':45}{'aim':>6} {'worst':>8} {'median':>8}  reach it   worst in")
    for row in (*shown, *COUNTS):
        figures = [(row.figure(one), scene, label, seed) for scene, label, seed, one in takes]
        known = [one for one in figures if not np.isnan(one[0])]
        worst = row.worst([value for value, *_ in known])
        where = next(one for one in known if one[0] == worst)
        reach = sum(row.good(value) for value, *_ in known)
        median = float(np.median([value for value, *_ in known]))
        print(
            f"{row.name:45}{row.aim:>6} {worst:8.4g} {median:8.4g}  {reach:3} of {len(known)}  "
            f"{where[1]}, {where[2]}, seed {where[3]}"
        )
    if scenes:
        for scene, label, seed, one in takes:
            print(scene, label, seed, *(f"{row.figure(one):.4g}" for row in shown))


if __name__ == "__main__":
    asked = [word for word in sys.argv[1:] if word != "--sound"]
    main(asked, (*ROWS, *SOUND) if "--sound" in sys.argv else ROWS)
