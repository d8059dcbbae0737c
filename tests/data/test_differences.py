"""Two versions side by side: what is told, in the order in which it stands."""

from __future__ import annotations

from typing import Any

from sonify.data.differences import MOST_OF_A_KIND, differences


def version(*stages: str) -> dict[str, Any]:
    rows = [{"name": name.lower(), "title": name, "bpm": 80.0} for name in stages]
    return {"name": "a", "title": "A", "length": "1 min", "conditions": [], "stages": rows, "rules": [], "map": []} | {
        "texts": []
    }


def test_stages_that_one_version_lacks_are_told_in_their_order() -> None:
    gone = ("Dew", "Rain", "Hail", "Sleet", "Snow", "Fog")
    told = differences(version("Sun", *gone), version("Sun"))
    assert len(told) == len(gone) == MOST_OF_A_KIND
    assert [next(name for name in gone if name in line) for line in told] == list(gone)
