"""The MIDI files of a pack beside the whole piece: one a group, and all of them for a keyboard where that is wished."""

from __future__ import annotations

from sonify.notation.midi import midi_bytes
from sonify.records.score import Score
from sonify.records.words import plain_name

FOLDER = "midi"
FOR_KEYBOARD = "-for-keyboard"


def midi_files(score: Score, *, count_in: bool = True, for_keyboard: bool = False) -> dict[str, bytes]:
    """File name -> bytes, each group's parts with the count-in: "midi/group-2-the-rain.mid".

    count_in: False lets these files begin at bar 1. for_keyboard: also a file of each kind, and one of the whole piece,
    with unpitched parts on keys of a 61-key keyboard. Names are legal on Windows.
    """
    found = {}
    for group, name in group_names(score).items():
        found[f"{FOLDER}/{name}.mid"] = midi_bytes(score, count_in=count_in, group=group)
        if for_keyboard:
            data = midi_bytes(score, count_in=count_in, group=group, for_keyboard=True)
            found[f"{FOLDER}/{name}{FOR_KEYBOARD}.mid"] = data
    if for_keyboard:
        found[f"{FOLDER}/everybody{FOR_KEYBOARD}.mid"] = midi_bytes(score, count_in=count_in, for_keyboard=True)
    return found


def group_names(score: Score) -> dict[int, str]:
    """Group -> "group-2-the-warm-shallows-and-the-river": its number and its parts."""
    parts: dict[int, list[str]] = {}
    for part in score.group_parts:
        parts.setdefault(part.group, []).append(part.name)
    return {group: f"group-{group}-{plain_name(' and '.join(names))}" for group, names in sorted(parts.items())}
