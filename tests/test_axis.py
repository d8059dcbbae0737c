"""A rule heard before the piece: the sounds of its key are those that the rule's own ends ask for."""

from __future__ import annotations

import pytest

from sonify.lesson.axis import rule_sounds
from sonify.sound.page import PAGE_RATE_HZ
from tests.studies import studied


@pytest.mark.parametrize("control", ["tempo", "pitch", "density", "dynamics"])
def test_each_row_of_a_key_sounds_as_it_says(control: str) -> None:
    lesson = studied("harbour-water-cycle", "well-stocked")
    key = next(key for key in lesson.controls.keys if key.rule.control == control)
    rule = key.rule
    sounds, starts = rule_sounds(lesson, rule)
    assert len(starts) == len(key.values) + 1 and sounds.rate_hz == PAGE_RATE_HZ
    rows = [
        [event for event in sounds.events if start - 1e-3 <= event.time_s < end - 1e-3]
        for start, end in zip(starts, starts[1:], strict=False)
    ]
    assert all(rows)
    lows, highs = rows[0], rows[-1]
    if control == "tempo":  # three beats sound: two of their lengths lie between the first and the last
        for row, bpm in ((lows, rule.to_low), (highs, rule.to_high)):
            assert 120.0 / (row[-1].time_s - row[0].time_s) == pytest.approx(bpm, rel=0.01)
    elif control == "pitch":  # a sample's name ends in its note: C4 is 60, A5 81, put up by the part's octaves
        octaves = next(part.octaves for part in lesson.score.group_parts if part.name == rule.part)
        notes = [int(sounds.samples[row[0].sample].name.split()[-1]) for row in (lows, highs)]
        assert notes == [60 + 12 * octaves, 81 + 12 * octaves]
    elif control == "density":  # 1 a bar, 3 a beat over the three beats that sound
        assert [len(lows), len(highs)] == [1, 9]
    else:
        assert max(event.gain for event in lows) < 0.6 * max(event.gain for event in highs)
