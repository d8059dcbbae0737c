"""Seating a piece anew without what would have next to nothing to play comes to an end, whatever is left to play on."""

from __future__ import annotations

from dataclasses import replace
from typing import Any

import pytest

from sonify import lesson
from sonify.arrange import arranging
from tests.studies import studied


def test_seating_anew_ends_where_nothing_that_is_left_suits_the_part(monkeypatch: pytest.MonkeyPatch) -> None:
    made, rounds = studied("ice-rink-particles"), [0]
    seat_all = arranging.seat_all

    def counted(*given: Any) -> Any:
        rounds[0] += 1
        assert rounds[0] < 40, "the same instruments are spared again and again"
        return seat_all(*given)

    monkeypatch.setattr(arranging, "seat_all", counted)
    scene = lesson.load("ice-rink-particles")
    first = replace(scene.parts[0], texture="tremolo")
    found = lesson.study(replace(scene, parts=(first, *scene.parts[1:])), timeline=made.timeline)
    assert rounds[0] > 1 and any(part.name == first.name for part in found.score.group_parts)
