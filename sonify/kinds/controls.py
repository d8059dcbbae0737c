"""The sound controls that a rule can drive, in the order in which pages and sheets list them."""

from __future__ import annotations

from sonify.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class Control:
    """One control. unit: how it is held. Pitch is a MIDI number, density strokes a beat for the group, dynamics a MIDI
    velocity, brightness 0 (softest beater, darkest) to 1 (hardest, brightest)."""

    id: str
    unit: str
    of_piece: bool = False  # the whole piece has it, not one part


CONTROLS = {
    row.id: row
    for row in (
        Control(id="tempo", unit="bpm", of_piece=True),
        Control(id="pitch", unit="MIDI note"),
        Control(id="density", unit="per beat"),
        Control(id="dynamics", unit="velocity"),
        Control(id="brightness", unit="1"),
    )
}
