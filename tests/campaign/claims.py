"""Every scene, for three classes, under conditions anywhere in their ranges: does all that the lesson tells hold?

The figures of the stages' sentences are held a second time, against the text of `science.csv` alone: what a pupil with
a spreadsheet would find.
"""

from __future__ import annotations

import csv
import io
import random
import traceback
from collections import Counter
from collections.abc import Iterable, Iterator
from dataclasses import replace

import numpy as np

from sonify import lesson
from sonify.data.exports import science_csv
from sonify.errors import BadCondition, BadFile
from sonify.facts.evidence import Evidence
from sonify.facts.verdicts import falsehoods
from sonify.processes import process_of
from sonify.records.classroom import Classroom
from sonify.records.experiment import Experiment
from sonify.records.fact import Fact, facts_in
from sonify.records.lesson import Lesson
from sonify.records.scene import Scene
from sonify.records.timeline import Timeline
from sonify.say import say
from sonify.units import convert
from tests.campaign.stories import SLOW, drawn
from tests.campaign.tally import Tally
from tests.facts.told import evidence_of, whole_facts
from tests.studies import EXAMPLES

CLASSES = ("well-stocked", "few-instruments", "empty")


def claims(
    tally: Tally, each: int, seed: int, scenes: tuple[str, ...] = (), classes: tuple[str, ...] = CLASSES
) -> None:
    """`each` sets of conditions of every scene (of these scenes), and what was told weaker or not at all."""
    lost: Counter[str] = Counter()
    for name in scenes or lesson.scene_names():
        for number, (scene, conditions, timeline) in enumerate(_runs(name, each, seed)):
            for room in classes:
                try:
                    found = lesson.study(scene, classroom(room), timeline=timeline)
                    tally.add(name, "; ".join(false_in(found)))
                except Exception as fault:
                    where = traceback.extract_tb(fault.__traceback__)[-1]
                    told = f"{type(fault).__name__}: {str(fault)[:160]} at {where.name}"
                    tally.add(name, f"{told} for {room}, set {number}: {conditions}")
                else:
                    lost += left_out(found)
    print("\n".join(f"{count} {what}" for what, count in lost.most_common()), flush=True)


def classroom(name: str) -> Classroom:
    """A class of the examples, or the first of them with nothing in its cupboard."""
    if name != "empty":
        return lesson.load_class(EXAMPLES / f"{name}.toml")
    return replace(lesson.load_class(EXAMPLES / "well-stocked.toml"), name="An empty cupboard", cupboard=())


def _runs(name: str, each: int, seed: int) -> Iterator[tuple[Scene, object, Timeline]]:
    """The scene's own run, then others under conditions drawn by lot; what the process refuses is drawn anew.

    An experiment runs with other readings, of the same steps.
    """
    scene: Scene = lesson.load(name)
    process = process_of(scene)
    yield scene, {}, lesson.simulate(scene)
    if scene.experiment is not None:
        for number in range(each - 1):
            way = WAYS_OF_READINGS[number % len(WAYS_OF_READINGS)]
            read = _other(scene.experiment, way, random.Random(f"{seed} {name} {number}"))
            other = replace(scene, experiment=read, stages=(), claims=(), sentences=())  # they are of her own table
            try:
                yield other, way, lesson.simulate(other)
            except BadFile:
                continue
        return
    if not process.conditions:
        return
    wanted, number = max(1, (each - 1) // SLOW.get(process.name, 1)) if each > 1 else 0, 0
    while wanted:
        conditions = drawn(process, random.Random(f"{seed} {name} {number}"))
        number += 1
        try:
            timeline = process.run(conditions)
        except BadCondition:
            continue
        wanted -= 1
        yield scene, conditions, replace(timeline, conditions=tuple(conditions.items()))


#: What another class may have read at the same steps.
WAYS_OF_READINGS = ("shuffled", "noisy", "equal", "small", "huge", "below nothing", "with gaps", "few values")


def _other(experiment: Experiment, way: str, lot: random.Random) -> Experiment:
    """The same experiment with other readings; what was read again and again keeps its spread."""
    factors = {"small": 10.0 ** lot.uniform(-4, -1), "huge": 10.0 ** lot.uniform(1, 5), "below nothing": -1.0}
    factor = factors.get(way, 1.0)
    series = []
    for one in experiment.series:
        there = np.flatnonzero(np.isfinite(one.values))
        values = one.values[there]
        order = list(range(there.size))
        if way in ("shuffled", "noisy"):
            lot.shuffle(order)
        moved = values[order] * factor
        reach = float(np.ptp(values)) or 1.0
        if way == "noisy":
            moved = moved + reach * np.array([lot.gauss(0.0, 0.3) for _ in order])
        elif way == "equal":
            moved = np.full(there.size, values[0])
        elif way == "few values":
            moved = np.round(moved / reach) * reach
        elif way == "with gaps" and there.size > 3:
            moved[lot.randrange(1, there.size - 1)] = np.nan
        new = one.values.copy()
        new[there] = moved
        gone = np.isnan(new)
        shift = new - one.values * factor
        ends = np.sort(np.array([one.least * factor + shift, one.most * factor + shift]), axis=0)
        tries = np.where(gone, 0, one.tries)
        every = tuple(
            () if gone[at] else tuple(float(read * factor + shift[at]) for read in reads)
            for at, reads in enumerate(one.every)
        )
        whole = one.counted and way in ("shuffled", "equal", "with gaps")
        series.append(replace(one, values=new, least=ends[0], most=ends[1], tries=tries, every=every, counted=whole))
    return replace(experiment, series=tuple(series))


def false_in(found: Lesson) -> list[str]:
    """What does not hold in a lesson, and what is said to nobody's use."""
    wrong = _faults(whole_facts(found), evidence_of(found))
    printed = from_csv(found.timeline)
    for stage in found.timeline.stages:
        wrong += [f"by science.csv: {fault}" for fault in _faults(facts_in(stage.science), printed)]
        if not say(stage.science).strip() or "nan" in say(stage.science):
            wrong.append(f"stage {stage.name} says {say(stage.science)!r}")
    return wrong


def _faults(facts: Iterable[Fact], evidence: Evidence) -> list[str]:
    found = [fault for told in facts for fault in falsehoods(told, evidence)]
    return [f"{fault.fact.message} ({fault.kind}) {fault.said}: found {fault.found}" for fault in found]


def from_csv(timeline: Timeline) -> Evidence:
    """Evidence that knows of the quantities only what stands in science.csv: its headings, its units and its digits."""
    heading, *rows = csv.reader(io.StringIO(science_csv(timeline)))
    columns = np.array(rows, dtype=np.float64).T
    quantities = []
    for text, values in zip(heading[1:], columns[1:], strict=True):
        name, _, unit = text.removesuffix("]").rpartition(" [")
        own = timeline.quantity(name.removeprefix("'"))
        quantities.append(replace(own, unit=unit, values=convert(values, unit, own.si_unit)))
    assert heading[0] == "time [s]"
    # a stage that begins a millionth of a second after another ends is not to begin before it for want of a digit
    np.testing.assert_allclose(columns[0], timeline.time_s, rtol=1e-11, atol=1e-11 * timeline.time_s[-1])
    return Evidence(timeline=replace(timeline, quantities=tuple(quantities)))


def left_out(found: Lesson) -> Counter[str]:
    """The sentences of ours that would have been false here: which gave way to a weaker one, which to nothing."""
    told = [dict(each.args) for finding in found.findings for each in facts_in(finding.message) if _untold(each)]
    return Counter(f"{_fate(one['instead'])}: {one['message']} ({one['claim']})" for one in told)


def _fate(instead: object) -> str:
    return "weaker" if instead == "yes" else "left out"


def _untold(words: Fact) -> bool:
    return words.message == "truth-not-said"
