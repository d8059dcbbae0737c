"""A whole piece mapped: every rule heard over the computed process, with its key and what the checks found."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace

from sonify.mapping.audibility import audit
from sonify.mapping.companions import value_words
from sonify.mapping.exaggeration import exaggeration
from sonify.mapping.hearing import Hearing, hearing
from sonify.mapping.held import held_beats, held_findings, tempo_limit_findings, unused_findings
from sonify.mapping.ideas import idea_controls
from sonify.mapping.rules import bound_rules
from sonify.mapping.sentences import key_table, sentence, stage_table, whose
from sonify.mapping.thresholds import OLDER, THRESHOLDS
from sonify.mapping.timemap import time_map
from sonify.mapping.verdicts import audibility_findings, verdict
from sonify.records.controls import ControlCurve, Controls, Key
from sonify.records.fact import fact
from sonify.records.findings import Finding
from sonify.records.process import ProcessSpec
from sonify.records.scene import Scene
from sonify.records.timeline import FloatArray, Timeline


def map_scene(
    scene: Scene,
    timeline: Timeline,
    process: ProcessSpec,
    *,
    youngest: int = OLDER,
    played: Mapping[str, FloatArray] | None = None,
) -> tuple[Controls, tuple[Finding, ...]]:
    """The controls of a piece, beat by beat with their traces and keys, and what the checks found.

    youngest: the age of the youngest of the class, in years: how small a difference they can hear depends on it.
    played: once it is arranged, how loud the recording plays each part of the scene bar by bar, in dB (nan: silent);
    rules of dynamics are judged by that.

    Raises BadRule or UnknownName for a rule that cannot work, naming its key in the scene file, and SonifyError where
    no stage was found at all.
    """
    if not timeline.quantities:
        return idea_controls(scene, timeline, process)
    bounds = bound_rules(scene, timeline, process)
    tempo_rule = next((bound for bound in bounds if bound.rule.control == "tempo"), None)
    bars, findings = time_map(scene, timeline, process, tempo_rule)
    curves, keys, found = [], [], [*_missing(timeline, process), *findings]
    for bound in bounds:
        heard = hearing(bound, scene, timeline, process, bars, youngest)
        if bound.rule.control == "dynamics" and bound.rule.part in (played or {}):
            heard = heard.as_played((played or {})[bound.rule.part or ""])
        key, its_findings = _key(heard, timeline, process)
        keys.append(key)
        curves.append(_curve(heard))
        found += its_findings
    controls = {bound.rule.control for bound in bounds}
    rows = tuple(row for row in THRESHOLDS if row.control in controls)
    return Controls(time_map=bars, curves=tuple(curves), keys=tuple(keys), thresholds=rows), tuple(found)


def _curve(heard: Hearing) -> ControlCurve:
    return ControlCurve(
        rule=heard.bound.rule,
        part=heard.bound.rule.part,
        quantity_values=heard.values,
        results=heard.results,
        held=held_beats(heard),
    )


def _key(heard: Hearing, timeline: Timeline, process: ProcessSpec) -> tuple[Key, list[Finding]]:
    bound, music = heard.bound, heard.music
    words = value_words(bound.quantity, timeline, process, bound.curve.low, bound.curve.high)
    words = replace(words, by_ratio=bound.curve.kind == "logarithmic")
    of_whom = whose(bound, process)
    found = audit(heard)
    stretch = exaggeration(bound, words, of_whom)
    key = Key(
        rule=bound.rule,
        sentence=sentence(bound, words, of_whom, music),
        exaggeration=stretch.slope,
        exaggeration_words=stretch.words,
        audible=bool(heard.stages) and found.good,
        verdict=verdict(heard, found),
        values=key_table(bound, words, music),
        stages=stage_table(heard, words, timeline),
        for_pupils=stretch.for_pupils,
    )
    return key, [
        *held_findings(heard, found, words),
        *unused_findings(heard, found, words),
        *tempo_limit_findings(heard),
        *audibility_findings(heard, found, words),
    ]


def _missing(timeline: Timeline, process: ProcessSpec) -> list[Finding]:
    titles = {spec.name: spec.title for spec in process.stages}
    return [
        Finding(
            kind="science",
            message=fact("science-never-comes", title=titles.get(missing.stage, missing.stage), reason=missing.reason),
            fix=missing.fix,
            where=missing.condition,
        )
        for missing in timeline.missing
    ]
