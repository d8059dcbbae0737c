"""Whatever valid conditions a scene sets, the water's day is finite, keeps its water and tells a true story."""

from __future__ import annotations

import re
from dataclasses import replace

import numpy as np
import pytest
from hypothesis import example, given, settings
from hypothesis import strategies as st

from sonify.errors import BadCondition
from sonify.processes import conditions_si, find
from sonify.records.timeline import Missing
from sonify.say import say
from tests.processes.stories import left_out
from tests.processes.test_registry import condition
from tests.processes.test_water_cycle import STAGES, STORE_NAMES

SPEC = find("water-cycle")
CORNER = {c.name: c.high for c in SPEC.conditions}
COLD_CORNER = {c.name: c.low for c in SPEC.conditions}


@st.composite
def conditions(draw: st.DrawFn) -> dict[str, float]:
    values = {}
    for one in SPEC.conditions:
        value = draw(st.floats(one.low, one.high))
        values[one.name] = float(round(value)) if one.whole else value
    return values


@settings(max_examples=10)
@example(CORNER)
@example(COLD_CORNER)
@example({**CORNER, "wind": 1.0, "humidity": 0.05})  # the hottest shallows
@example({**COLD_CORNER, "humidity": 1.0, "air_temperature": 305.15, "day": 172.0})  # dew and fog
@given(conditions())
def test_any_day(values: dict[str, float]) -> None:
    try:
        timeline = SPEC.run(values)  # the record itself refuses what is not finite, and stages that overlap
    except BadCondition as nothing_comes:
        assert "nothing of the water cycle comes" in str(nothing_comes)
        return
    left_out(replace(timeline, conditions=tuple(values.items())))
    found = [stage.name for stage in timeline.stages]
    assert found == [name for name in STAGES if name in found]
    assert sorted(found + [m.stage for m in timeline.missing]) == sorted(STAGES)
    for before, after in zip(timeline.stages, timeline.stages[1:], strict=False):
        assert before.end_s == after.start_s
    assert all(0.0 <= stage.start_s < stage.end_s <= 86_400.0 for stage in timeline.stages)
    assert timeline.conserved[0].relative_drift < 1e-9
    for name in STORE_NAMES:
        assert timeline.quantity(name).values.min() >= 0.0, name
    assert timeline.quantity("height of the water").values.min() >= 0.0
    water = timeline.quantity("journey temperature").values - 273.15
    assert water.min() > -30.0 and water.max() < 60.0
    assert np.abs(np.diff(water)).max() < 6.0
    assert all("nan" not in say(stage.science) for stage in timeline.stages)
    rained = timeline.quantity("rain rate").values.max() >= 0.1e-3 / 3600.0
    assert rained or "precipitation" not in found


@settings(max_examples=8)
@given(conditions())
def test_advice_on_a_missing_stage_brings_it(values: dict[str, float]) -> None:
    try:
        timeline = SPEC.run(values)
    except BadCondition:
        return
    for lacking in timeline.missing:
        assert lacking.reason and lacking.condition in values
        fix = say(lacking.fix)
        if not fix.startswith("Set "):
            assert "No single change" in fix
            continue
        if "may need more" in fix and lacking.stage != "condensation":
            continue
        after = SPEC.run(changed(values, lacking))
        assert lacking.stage in [stage.name for stage in after.stages], lacking


def changed(values: dict[str, float], lacking: Missing) -> dict[str, float]:
    """The conditions with the advice followed, read as a scene file would read it."""
    found = re.match(r'Set (\w+) = (?:"([^"]+)"|(\d+))', say(lacking.fix))
    assert found, say(lacking.fix)
    assert found[1] == lacking.condition
    text = found[2] or found[3]
    return {**values, found[1]: conditions_si(SPEC, (condition(found[1], text),))[found[1]]}


def test_the_reader_of_advice_notices_other_words() -> None:
    with pytest.raises(AssertionError):
        changed({}, Missing(stage="warming", reason="", condition="day", fix="Wait for summer."))
