"""A rule to be heard before the piece, as the page plays it."""

from __future__ import annotations

from typing import Any

from sonify.lesson.axis import rule_sounds
from sonify.page.audio import sounds_data
from sonify.records.fact import wrong
from sonify.say import say
from sonify.web.desk import Study
from sonify.web.inputs import refuse


def axis_facts(study: Study, name: str) -> dict[str, Any]:
    """The sounds of a rule's key, where each begins, and its rows in words. name: as the page knows the rule."""
    keys = study.lesson.controls.keys
    key = next((key for key in keys if study.draft.rows.which(key.rule.key) == name and key.rule.quantity), None)
    if key is None:
        refuse(wrong("error_edits-unknown", path=f"hear.{name}"[:60]), "rule")
    sounds, starts = rule_sounds(study.lesson, key.rule)
    rows = [[say(each) for each in pair] for pair in key.values]
    return {**sounds_data(sounds), "starts": [round(start, 4) for start in starts], "rows": rows}
