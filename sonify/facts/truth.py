"""A lesson with every false sentence of ours taken out: a true, weaker one takes its place, or it is left out.

What was false is told as a finding, so that it can be mended where it was written.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import replace
from typing import TypeVar

from sonify.facts.evidence import Evidence
from sonify.facts.verdicts import Falsehood, true_words
from sonify.records.controls import Controls
from sonify.records.fact import Words, fact
from sonify.records.findings import Finding
from sonify.records.scene import Rule
from sonify.records.score import FOR_THE_MUSIC, Cue, Part, Pattern, Reason, Score
from sonify.records.timeline import Timeline

Row = TypeVar("Row", bound="tuple[Words, ...]")


def true_timeline(timeline: Timeline) -> tuple[Timeline, tuple[Finding, ...]]:
    """The Timeline as it may be told: what its stages, events and missing stages say holds."""
    held = _Held(Evidence(timeline=timeline))
    told = replace(
        timeline,
        stages=tuple(
            replace(stage, title=held.words(stage.title), science=held.words(stage.science))
            for stage in timeline.stages
        ),
        events=tuple(replace(event, text=held.words(event.text)) for event in timeline.events),
        missing=tuple(
            replace(each, reason=held.words(each.reason), fix=held.words(each.fix)) for each in timeline.missing
        ),
    )
    return told, held.findings()


def true_controls(controls: Controls, evidence: Evidence) -> tuple[Controls, tuple[Finding, ...]]:
    """The Controls as they may be told: what each key says of its rule holds, its two tables row by row."""
    held = _Held(evidence)
    keys = tuple(
        replace(
            key,
            sentence=held.words(key.sentence),
            exaggeration_words=held.words(key.exaggeration_words),
            for_pupils=held.words(key.for_pupils),
            verdict=held.words(key.verdict),
            values=held.rows(key.values),
            stages=held.rows(key.stages),
        )
        for key in controls.keys
    )
    return replace(controls, keys=keys), held.findings()


def true_findings(findings: Iterable[Finding], evidence: Evidence) -> tuple[Finding, ...]:
    """Findings whose message holds; of one that does not, the weaker message, or nothing."""
    held = _Held(evidence)
    kept = [replace(each, message=held.words(each.message), fix=held.words(each.fix)) for each in findings]
    return (*(each for each in kept if each.message), *held.findings())


def true_score(score: Score, timeline: Timeline, rules: tuple[Rule, ...] = ()) -> tuple[Score, tuple[Finding, ...]]:
    """The Score as it may be told: captions of its sections, reasons of its cues and words of its cards hold."""
    held = _Held(Evidence(timeline=timeline, score=score, rules=rules))
    sections = tuple(
        replace(each, title=held.words(each.title), caption=held.words(each.caption)) for each in score.sections
    )
    swaps = tuple(replace(each, reason=held.words(each.reason)) for each in score.swaps)
    told = replace(score, sections=sections, swaps=swaps)
    cues = tuple(
        replace(
            cue,
            reason=_reason(cue, told, held),
            what=held.words(cue.what) or "",
            also=tuple(replace(each, what=held.words(each.what) or "") for each in cue.also),
        )
        for cue in score.cues
    )
    parts = tuple(_part(part, held) for part in told.parts)
    return replace(told, cues=cues, parts=parts), held.findings()


def _part(part: Part, held: _Held) -> Part:
    """A part's card as it may be told."""
    told = (held.words(words) for words in part.instructions)
    return replace(
        part,
        instructions=tuple(words for words in told if words),
        entries=tuple(replace(each, instruction=held.words(each.instruction)) for each in part.entries),
        patterns=_patterns(part.patterns, held),
        others=tuple(
            replace(
                each,
                patterns=_patterns(each.patterns, held),
                words=tuple(words for words in map(held.words, each.words) if words),
            )
            for each in part.others
        ),
        blanks=tuple(replace(each, ask=held.words(each.ask)) for each in part.blanks),
        seats=tuple(replace(each, job=held.words(each.job)) for each in part.seats),
    )


def _patterns(patterns: Iterable[Pattern], held: _Held) -> tuple[Pattern, ...]:
    return tuple(replace(each, words=held.words(each.words), spoken=held.words(each.spoken)) for each in patterns)


def _reason(cue: Cue, score: Score, held: _Held) -> Reason:
    """What holds of a cue's reason; of none, what its stage is about."""
    words = held.words(cue.reason.words)
    if words or cue.reason.music:
        return replace(cue.reason, words=words or "")
    section = score.section_at(cue.bar)
    return Reason(words=section.caption or section.title) if section else FOR_THE_MUSIC


class _Held:
    """Words held against the evidence, and what was found false."""

    def __init__(self, evidence: Evidence) -> None:
        self.evidence = evidence
        self.false: list[Falsehood] = []

    def words(self, words: Words) -> Words:
        kept, faults = true_words(words, self.evidence)
        self.false += faults
        return kept

    def rows(self, rows: tuple[Row, ...]) -> tuple[Row, ...]:
        """Those rows of a table of which every cell holds."""
        kept = []
        for row in rows:
            before = len(self.false)
            for cell in row:
                self.words(cell)
            if len(self.false) == before:
                kept.append(row)
        return tuple(kept)

    def findings(self) -> tuple[Finding, ...]:
        return tuple(
            Finding(
                kind="claim",
                message=fact(
                    "truth-not-said",
                    message=fault.fact.message,
                    claim=fault.kind,
                    found=fault.found,
                    instead="yes" if fault.fact.otherwise else "no",
                ),
                fix="",
                serious=False,
            )
            for fault in self.false
        )
