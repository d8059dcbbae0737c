"""What a process tells, held against what it computed."""

from __future__ import annotations

import re
from collections.abc import Mapping
from dataclasses import replace

from sonify.facts.evidence import Evidence
from sonify.facts.verdicts import Falsehood, true_words
from sonify.records.fact import Words
from sonify.records.timeline import Timeline
from sonify.say import say

_NO_CHANGE = re.compile(r"from (?:about )?(\S+(?: °?[^\s.,;]+)?) to (?:about )?\1(?:[ ,;]|\.(?!\d))")


def judged(timeline: Timeline, conditions: Mapping[str, float]) -> tuple[list[tuple[str, str]], list[Falsehood]]:
    """Every sentence of a run as it is printed, by what it is about; and everything false that was not printed."""
    evidence = Evidence(timeline=replace(timeline, conditions=tuple(conditions.items())))
    texts: list[tuple[str, Words]] = [
        *((stage.name, stage.science) for stage in timeline.stages),
        *((event.name, event.text) for event in timeline.events),
        *((lacking.stage, lacking.reason) for lacking in timeline.missing),
    ]
    told, false = [], []
    for about, words in texts:
        kept, faults = true_words(words, evidence)
        told.append((about, say(kept)))
        false += faults
    return told, false


def check_told(timeline: Timeline, conditions: Mapping[str, float]) -> None:
    """Nothing is left unsaid because it would be false in every wording, nothing is nonsense."""
    told, false = judged(timeline, conditions)
    for about, text in told:
        assert text, (about, false)
        assert "nan" not in text and "  " not in text, text
        assert not _NO_CHANGE.search(text), text
