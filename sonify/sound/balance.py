"""One group as loud as another: what the notes alone say of how loud each part will be, and what that is made up by.

Every sound is made with one K-weighted energy (BS.1770), so loudness can be told from when notes come, how long they
are held and how long they ring. A steady drone is far louder than single strokes of the same strength; with this they
come out alike, and what dynamics and density do within a part stays as it is written.
"""

from __future__ import annotations

import math
from collections.abc import Sequence

import numpy as np

from sonify.records.score import COUNT_IN, Score
from sonify.sound.events import Event, events_of, length_frames
from sonify.sound.loudness import integrated_lufs
from sonify.sound.rate import HOP, Floats
from sonify.sound.voices.bank import Stroke, note_hz, voice_of
from sonify.sound.voices.blows import WINDOW
from sonify.sound.voices.records import Struck

#: A part is made louder or softer by at most so much (ours).
MOST_DB = 8.0
WINDOW_S = WINDOW / 44_100
SWELLING = 0.7  # mean square of the envelopes of held sounds that swell, about


def ringing(stroke: Stroke) -> float:
    """Energy of a whole stroke over that of its first 93 ms: its partials ring half as long as the first, about."""
    voice = voice_of(stroke.instrument)
    if not isinstance(voice, Struck):
        return 1.0
    first_hz = voice.first_hz[0] if voice.first_hz else note_hz(stroke.midi)
    ring_s = voice.ring_s * (voice.ring_at_hz / first_hz) ** voice.ring_power
    return min(3.0, 1.0 / -math.expm1(-WINDOW_S * 12.0 * math.log(10.0) / ring_s))


def hop_energies(events: Sequence[Event], hops: int, *, as_written: bool) -> Floats:
    """K-weighted mean square of every 100 ms, guessed. as_written False: all notes equally strong."""
    out = np.zeros(hops)
    known: dict[tuple[str, int], float] = {}
    struck: list[int] = []
    energies: list[float] = []
    for start, stop, stroke, gain in events:
        power = gain * gain if as_written else 1.0
        if stroke.held:
            out[start // HOP : stop // HOP + 1] += power * SWELLING
            continue
        kind = (stroke.instrument, stroke.midi)
        if kind not in known:
            known[kind] = ringing(stroke) * WINDOW_S * 10.0
        struck.append(start // HOP)
        energies.append(power * known[kind])
    np.add.at(out, np.array(struck, dtype=np.intp), np.array(energies))
    return out


def hops_of(score: Score) -> int:
    return length_frames(score) // HOP + 2


def part_levels_db(score: Score, played: Sequence[Sequence[Event]]) -> list[float]:
    """Guessed loudness of each part if all its notes were equally strong; nan for one that never sounds."""
    levels = [integrated_lufs(hop_energies(events, hops_of(score), as_written=False)) for events in played]
    return [level if math.isfinite(level) else math.nan for level in levels]


def balanced_events(score: Score) -> list[list[Event]]:
    """Every part's sounds, their gains such that all groups are about equally loud at one dynamic."""
    played = [events_of(score, part) for part in score.parts]
    levels = part_levels_db(score, played)
    groups = [
        level for part, level in zip(score.parts, levels, strict=True) if part.name != COUNT_IN and math.isfinite(level)
    ]
    if not groups:
        return played
    middle = float(np.median(groups))
    out = []
    for events, level in zip(played, levels, strict=True):
        change_db = min(MOST_DB, max(-MOST_DB, middle - level)) if math.isfinite(level) else 0.0
        factor = 10.0 ** (change_db / 20.0)
        out.append([Event(start, stop, stroke, gain * factor) for start, stop, stroke, gain in events])
    return out
