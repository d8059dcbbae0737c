"""A whole piece mapped: every rule heard over the computed process, with its key and what the checks found."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import replace

import numpy as np

from sonify.mapping.audibility import Audit, audit, stage_sound
from sonify.mapping.companions import ValueWords, value_words
from sonify.mapping.exaggeration import exaggeration
from sonify.mapping.hearing import Hearing, as_said, hearing
from sonify.mapping.held import held_beats, held_findings, tempo_limit_findings, unused_findings
from sonify.mapping.ideas import idea_controls
from sonify.mapping.rules import BoundRule, bound_rules
from sonify.mapping.sound_words import sound, sound_in_table
from sonify.mapping.thresholds import THRESHOLDS
from sonify.mapping.timemap import stage_mean, time_map
from sonify.mapping.verdicts import audibility_findings, verdict
from sonify.records.controls import ControlCurve, Controls, Key, StageBars
from sonify.records.fact import Claim, Fact, Named, Reading, Words, fact
from sonify.records.findings import Finding
from sonify.records.process import ProcessSpec
from sonify.records.scene import Music, Rule, Scene
from sonify.records.telling_apart import OLDER
from sonify.records.timeline import FloatArray, Timeline
from sonify.units import YES_OR_NO

# The key of a rule: one sentence for every sheet and screen, a table of values, what each stage sounds like.

#: The key's table has this many rows, evenly along the rule.
TABLE_ROWS = 5

#: Rules that were mapped, each with its curve, its key and what the checks found.
MappedRules = dict[Rule, tuple[ControlCurve, Key, list[Finding]]]


def whose(bound: BoundRule, process: ProcessSpec) -> Fact:
    """Whose quantity it is: "the mean molecule speed of the water on its journey".

    Where the owner is in the quantity's own name ("height of the water"), it is not named twice.
    """
    name = bound.quantity.name
    spec = process.quantity(name)
    owner = (spec.whose if spec else "") or bound.quantity.whose
    quantity = Named("quantity", name)
    if not owner or f"{owner} ".startswith(f"{name.rpartition(' of ')[2]} "):
        return fact("key-quantity", quantity=quantity)
    return fact("key-quantity-of", quantity=quantity, owner=owner)


def sentence(bound: BoundRule, values: ValueWords, of_whom: Fact, music: Music) -> Fact:
    """The rule as a pupil reads it, from its low end to its high end, and which way it goes."""
    control, curve = bound.rule.control, bound.curve
    low, high = (
        sound(control, as_said(control, end, music), music.metre.beats) for end in (curve.to_low, curve.to_high)
    )
    return fact(
        "key-sentence",
        _sounds_as(bound, curve.low, curve.to_low),
        _sounds_as(bound, curve.high, curve.to_high),
        whose=of_whom,
        who="part" if bound.rule.part else "all",
        part=bound.rule.part or "",
        control=control,
        low=values.told(curve.low),
        high=values.told(curve.high),
        low_sound=low,
        high_sound=high,
        quantity=Named("quantity", bound.quantity.name),
        way="up" if curve.to_high > curve.to_low else "down",
        answer="yes" if bound.quantity.unit == YES_OR_NO else "no",
        ratios="yes" if curve.kind == "logarithmic" else "no",
    )


def _sounds_as(bound: BoundRule, value: float, sounds: float) -> Claim:
    return Claim(
        kind="by rule",
        left=Reading(how="by rule", of=bound.rule.key, level=value),
        right=Reading(how="fixed", level=sounds),
    )


def said_sounds(control: str, to_low: float, to_high: float, music: Music) -> list[float]:
    """Sounds that are really played, evenly from one end of a rule to the other."""
    spaced = np.linspace(to_low, to_high, TABLE_ROWS)
    return list(dict.fromkeys(as_said(control, float(each), music) for each in spaced))


def key_table(bound: BoundRule, values: ValueWords, music: Music) -> tuple[tuple[Fact, Fact], ...]:
    """Sounds that are really played, evenly along the rule, and the values they stand for, low to high."""
    control, curve = bound.rule.control, bound.curve
    said = said_sounds(control, curve.to_low, curve.to_high, music)
    least, most = sorted((curve.to_low, curve.to_high))
    # A written end that is no note of the scale or no mark is played as its neighbour, which may lie just outside.
    found = curve.inverse(np.clip(said, least, most))
    return tuple(
        (values.told(float(value)), sound_in_table(control, each, music.metre.beats))
        for value, each in zip(found, said, strict=True)
    )


def stage_table(hearing: Hearing, values: ValueWords, timeline: Timeline) -> tuple[tuple[Words, Fact, Fact], ...]:
    """Each stage in which the rule sounds: title, the quantity's mean, and what is heard of it."""
    control, music = hearing.bound.rule.control, hearing.music
    found: list[tuple[Words, Fact, Fact]] = []
    for stage in hearing.stages:
        heard = sound_in_table(control, as_said(control, stage_sound(hearing, stage), music), music.metre.beats)
        found.append((stage.title, stage_told(hearing, values, stage, timeline), heard))
    return tuple(found)


def stage_told(hearing: Hearing, values: ValueWords, stage: StageBars, timeline: Timeline) -> Fact:
    """The quantity's mean over a stage, with the reading it is."""
    quantity = hearing.bound.quantity
    source = Reading(how="mean", of=quantity.name, start=stage.start_s, end=stage.end_s)
    return values.told(stage_mean(quantity, timeline, stage.start_s, stage.end_s), source)


def map_scene(
    scene: Scene,
    timeline: Timeline,
    process: ProcessSpec,
    *,
    youngest: int = OLDER,
    played: Mapping[str, FloatArray] | None = None,
    calm: bool = False,
    once: MappedRules | None = None,
) -> tuple[Controls, tuple[Finding, ...]]:
    """The controls of a piece, beat by beat with their traces and keys, and what the checks found.

    youngest: the age of the youngest of the class, in years: how small a difference they can hear depends on it.
    played: once it is arranged, how loud the recording plays each part of the scene bar by bar, in dB (nan: silent);
    rules of dynamics are judged by that. calm: whether it was softened for a class that needs no sudden loud sounds.
    once: filled with what each rule comes to that `played` does not judge; where the same rules of the same scene are
    mapped once more, those are taken from it.

    Raises BadRule or UnknownName for a rule that cannot work, naming its key in the scene file, and SonifyError where
    no stage was found at all.
    """
    if not timeline.quantities:
        return idea_controls(scene, timeline, process)
    bounds = bound_rules(scene, timeline, process)
    tempo_rule = next((bound for bound in bounds if bound.rule.control == "tempo"), None)
    bars, findings = time_map(scene, timeline, process, tempo_rule)
    curves, keys, found = [], [], [*_missing(timeline, process), *findings]
    once = {} if once is None else once
    for bound in bounds:
        played_db = (played or {}).get(bound.rule.part or "") if bound.rule.control == "dynamics" else None
        if played_db is not None:
            heard = hearing(bound, scene, timeline, process, bars, youngest).as_played(played_db)
            key, its_findings = _key(heard, timeline, process)
            if calm and heard.loudness is not None and not key.audible:
                its_findings = _lost_to_calm(heard, its_findings, timeline, process)
            curve = _curve(heard)
        else:
            if bound.rule not in once:
                heard = hearing(bound, scene, timeline, process, bars, youngest)
                once[bound.rule] = _curve(heard), *_key(heard, timeline, process)
            curve, key, its_findings = once[bound.rule]
        curves.append(curve)
        keys.append(key)
        found += its_findings
    controls = {bound.rule.control for bound in bounds}
    rows = tuple(row for row in THRESHOLDS if row.control in controls)
    return Controls(time_map=bars, curves=tuple(curves), keys=tuple(keys), thresholds=rows), tuple(found)


def _lost_to_calm(
    heard: Hearing, findings: Sequence[Finding], timeline: Timeline, process: ProcessSpec
) -> list[Finding]:
    """What would be heard as the rule has it, and is not for a class that needs calm: told, and asked of nobody.

    What is lost as the rule has it, too, stays the problem that it is.
    """
    plain = replace(heard, loudness=None)
    now, written = audit(heard), audit(plain)
    if not written.told_apart or (now.told_apart and _pairs(now) <= _pairs(written)):
        return list(findings)
    problems = [each for each in findings if each.kind == "audibility" and each.serious]
    told = fact("ear-lost-to-calm")
    notes = [replace(each, message=(each.message, told), fix=(), change=None, serious=False) for each in problems]
    others = [each for each in findings if each not in problems]
    as_written = [each for each in _key(plain, timeline, process)[1] if each.kind == "audibility" and each.serious]
    return [*others, *notes, *as_written]


def _pairs(found: Audit) -> set[tuple[int, ...]]:
    """The neighbouring stages between which a change is lost, by their first bars."""
    return {tuple(stage.bar for stage in step.stages) for step in found.lost}


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
