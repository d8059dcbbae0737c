"""The groups as the conductor sees them: where each sits, its number, look, instruments and parts."""

from __future__ import annotations

from math import cos, pi, sin
from typing import Any

from sonify.facts.sharing import sharing
from sonify.page.timing import dynamic_rows, spans
from sonify.records.palette import GroupStyle, group_style
from sonify.records.score import Part, Score
from sonify.say import say


def instruments_text(parts: list[Part], score: Score) -> str:
    """What a group plays: "3 soprano glockenspiels, suspended cymbal"; the same instrument once."""
    counts: dict[str, int] = {}
    for part in parts:
        for seat in part.seats:
            counts[seat.instrument] = max(counts.get(seat.instrument, 0), seat.count)
        if not part.seats:
            counts.setdefault(part.instrument, 1)
    rows = ((score.instrument(name), count) for name, count in counts.items())
    return ", ".join(f"{count} {row.of(count)}" if count > 1 else row.called for row, count in rows)


def seat(place: int, of: int) -> tuple[float, float]:
    """Where a group sits on the half circle, left to right: across 0 to 1, and up from the conductor 0 to 1."""
    angle = pi * (1.0 - (place + 0.5) / of)
    return round(0.5 + 0.5 * cos(angle), 4), round(sin(angle), 4)


def group_rows(score: Score, palette: tuple[GroupStyle, ...]) -> list[dict[str, Any]]:
    """One row a group, in order of number, the lowest at the conductor's left."""
    numbers = sorted({part.group for part in score.group_parts})
    rows = []
    for place, number in enumerate(numbers):
        parts = [part for part in score.group_parts if part.group == number]
        style = group_style(palette, number)
        across, up = seat(place, len(numbers))
        rows.append(
            {
                "number": number,
                "name": " and ".join(part.name for part in parts),
                "instruments": instruments_text(parts, score),
                "sharing": "; ".join(say(told) for part in parts for told in sharing(part, score)),
                "colour": style.colour,
                "colourName": style.name,
                "hatching": style.hatching,
                "across": across,
                "up": up,
            }
        )
    return rows


def part_rows(score: Score) -> list[dict[str, Any]]:
    """One row a part, in the Score's order (the count-in too), so that events find theirs by index."""
    return [
        {
            "name": part.name,
            "group": part.group,
            "instruments": instruments_text([part], score),
            "spans": spans(part, score) if part.group else [],
            "dynamics": dynamic_rows(part),
        }
        for part in score.parts
    ]
