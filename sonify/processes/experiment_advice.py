"""Advice on an experiment before it is played: what so few steps, or so many sounds, can and cannot show by ear."""

from __future__ import annotations

from sonify.kinds.experiments import BEFORE_AFTER, CATEGORIES, NUMBER
from sonify.records.experiment import Experiment
from sonify.records.fact import Fact, Words, fact
from sonify.records.findings import Finding

#: So many values one after the other are rather a chord than a tune (our own limits).
CHORD = (3, 5)
#: More sounds than this side by side no class tells apart by ear; a score has no room for more than this.
MOST_APART, MOST_SOUNDS = 8, 11


def advice(experiment: Experiment) -> tuple[Finding, ...]:
    """What asks to be done before, or beside, playing an experiment."""
    return (*_steps(experiment), *_sounds(experiment))


def _steps(experiment: Experiment) -> list[Finding]:
    """Two values have no shape, and a few are a chord."""
    steps = len(experiment.labels)
    changed = experiment.changed
    if experiment.shape in (CATEGORIES, BEFORE_AFTER) or experiment.groups:
        return []
    if steps == 2 and experiment.shape == NUMBER:
        return [_finding(fact("experiment-two-values", changed=changed), fact("experiment-measure-more"), serious=True)]
    if CHORD[0] <= steps <= CHORD[1]:
        return [_finding(fact("experiment-chord", n=steps), fact("experiment-play-together"))]
    return []


def _sounds(experiment: Experiment) -> list[Finding]:
    """More kinds of sound than a class can tell apart."""
    count = len(experiment.labels) if experiment.shape == CATEGORIES else len(experiment.groups)
    if count <= MOST_APART:
        return []
    most, lost = str(MOST_APART), experiment.shape != CATEGORIES and count > MOST_SOUNDS
    told = fact("experiment-too-many-lost" if lost else "experiment-too-many", n=count, most=str(MOST_SOUNDS))
    return [_finding(told, fact("experiment-join-or-choose", most=most), serious=True)]


def _finding(message: Fact, fix: Words, *, serious: bool = False) -> Finding:
    return Finding(kind="data", message=message, fix=fix, serious=serious)
