"""Sounds of pupils' own as a scene file names them."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from sonify.inputs.document import Fault, shown
from sonify.records.fact import wrong
from sonify.records.own_sound import OwnSound

if TYPE_CHECKING:
    from sonify.inputs.scene_shape import PartShape
    from sonify.inputs.sound_shape import SoundShape


def own_sounds(rows: Sequence[SoundShape]) -> tuple[OwnSound, ...]:
    return tuple(
        OwnSound(name=row.name, file=row.file, like=row.like, how=row.how, key=f"sound.{number}")
        for number, row in enumerate(rows)
    )


def faults_of_sounds(rows: Sequence[SoundShape], parts: Sequence[PartShape]) -> Iterator[Fault]:
    """Two of one name, and one that no part plays."""
    asked = {" ".join(name.lower().split()) for part in parts for name in part.sounds}
    first: dict[str, int] = {}
    for number, row in enumerate(rows):
        name = row.name.lower()
        if name in first:
            yield Fault(key=f"sound.{number}.name", message=wrong("error_sound-twice", name=shown(row.name)))
        elif name not in asked:
            yield Fault(key=f"sound.{number}.name", message=wrong("error_sound-unplayed", name=shown(row.name)))
        first.setdefault(name, number)
