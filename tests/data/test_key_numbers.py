"""The key in pack.json can be turned round: from what is played back to what was computed, with numpy alone."""

from __future__ import annotations

import json

import numpy as np
import pytest

from sonify.lesson import pack_facts
from tests.studies import SCENES, studied


def turned_round(rule: dict, sound: float) -> float:
    """The value that a sound stands for, by the rule as pack.json has it."""
    low, high = (end["si"] for end in rule["from"])
    to_low, to_high = (end["value"] for end in rule["to"])
    share = min(max((sound - to_low) / (to_high - to_low), 0.0), 1.0)
    return low * (high / low) ** share if rule["curve"] == "logarithmic" else low + share * (high - low)


@pytest.mark.parametrize("name", SCENES)
def test_the_tempo_of_each_stage_gives_back_the_stages_mean(name: str) -> None:
    lesson = studied(name)
    facts = json.loads(json.dumps(pack_facts(lesson)))
    rule = next((each for each in facts["rules"] if each["as"] == "tempo"), None)
    if rule is None or lesson.scene.music.gliding:
        return
    bars = facts["time_map"]
    quantity = lesson.timeline.quantity(rule["quantity"])
    for stage in lesson.controls.time_map.stages:
        if stage.bpm != stage.asked_bpm:
            continue  # a step too small to hear: the tempo before it is held, and the sheets say so
        first, last = bars[stage.bar - 1], bars[stage.bar + stage.bars - 2]
        times = np.linspace(first["model_time_s"], last["until_s"], 20_001)
        mean = float(np.mean(np.interp(times, lesson.timeline.time_s, quantity.values)))
        low, high = sorted(end["si"] for end in rule["from"])
        # a tempo is a whole number, so the value is known to half a beat a minute
        allowed = [turned_round(rule, stage.bpm + half) for half in (-0.51, 0.51)]
        assert min(allowed) - 0.01 * (high - low) <= np.clip(mean, low, high) <= max(allowed) + 0.01 * (high - low)


@pytest.mark.parametrize("name", SCENES)
def test_the_time_map_has_every_bar_and_no_bar_ends_after_the_next_begins(name: str) -> None:
    lesson = studied(name)
    rows = pack_facts(lesson)["time_map"]
    assert [row["bar"] for row in rows] == list(range(1, lesson.score.bars + 1))
    edges = [edge for row in rows for edge in (row["model_time_s"], row["until_s"])]
    assert np.all(np.diff(edges)[::2] > 0) and np.all(np.diff(edges)[1::2] >= -1e-6)
