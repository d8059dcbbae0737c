"""A stroke as bytes, for whoever keeps strokes from one recording to the next. This room opens no file: it is given
what remembers bytes by a key (`keep_with`), once for the whole process."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import replace
from typing import NamedTuple, TypeAlias

import numpy as np
from numpy.typing import NDArray

from sonify.sound.voices.records import SILENT, Shot

#: The bytes that were kept under a key, else those that the function makes.
Remember: TypeAlias = Callable[[str, Callable[[], bytes]], bytes]


class KeptVoice(NamedTuple):
    """A stroke as the bank keeps it: in steps of 16 bits of `unit` each, the strongest sample full scale. held: all the
    rest of the Shot."""

    steps: NDArray[np.int16]
    unit: np.float32
    held: Shot


_remember: Remember | None = None


def keep_with(remember: Remember | None) -> None:
    """From now on strokes are asked of `remember` before they are made; None: no longer."""
    global _remember
    _remember = remember


def kept(key: str, make: Callable[[], KeptVoice]) -> KeptVoice:
    """The stroke of this key: what was kept of it, to the bit, or made now."""
    return make() if _remember is None else from_bytes(_remember(key, lambda: to_bytes(make())))


def to_bytes(voice: KeptVoice) -> bytes:
    held = voice.held
    head = {
        "steps": voice.steps.size,
        "loop": held.loop.size,
        "envelope": held.envelope,
        "attack_s": held.attack_s,
        "release_s": held.release_s,
        "damp_s": held.damp_s,
    }
    unit = np.asarray(voice.unit, dtype="<f4").tobytes()
    arrays = (voice.steps.astype("<i2", copy=False), held.loop.astype("<f4", copy=False))
    return b"".join((json.dumps(head).encode(), b"\n", unit, *(array.tobytes() for array in arrays)))


def from_bytes(data: bytes) -> KeptVoice:
    line, _, body = data.partition(b"\n")
    head = json.loads(line)
    steps, loop = head.pop("steps"), head.pop("loop")
    loop_at = 4 + 2 * steps
    held = Shot(samples=SILENT, loop=np.frombuffer(body[loop_at : loop_at + 4 * loop], dtype="<f4"), **head)
    return KeptVoice(
        np.frombuffer(body, dtype="<i2", count=steps, offset=4), np.frombuffer(body, dtype="<f4", count=1)[0], held
    )


def folded(shot: Shot, full: float) -> KeptVoice:
    peak = float(np.abs(shot.samples).max(initial=0.0))
    unit = np.float32(peak / full if peak else 1.0)
    return KeptVoice(np.rint(shot.samples / unit).astype(np.int16), unit, replace(shot, samples=SILENT))
