"""Noise gives way to tones: what beads, shakers and hiss are lowered by while tuned notes sound.

Worked out from when the notes come, not from the sound: so a stem carries its own share, and stems sum to the mix.
"""

from __future__ import annotations

from collections.abc import Sequence

import numpy as np

from sonify.records.score import Part, Score
from sonify.sound.events import SoundEvent, length_frames
from sonify.sound.levelling import stage_edges_s
from sonify.sound.rate import BLOCK, RATE_HZ, STEP, Floats, Samples
from sonify.sound.voices.bank import voice_of
from sonify.sound.voices.records import Blown, Shaken
from sonify.sound.voices.tuned import TUNED

#: A corner of gain every 14 ms, 77 to a block.
DUCK_STEP = 10 * STEP
#: By so much at the most (ours); it is down AHEAD before a note and comes back over COMES_BACK_S after it.
DUCK_DB, AHEAD, COMES_BACK_S = 6.0, 4, 0.5


def is_noise(part: Part) -> bool:
    """Whether a part's main sound is noise: grains in a container, or breath without a note."""
    if part.instrument in TUNED:
        return False
    voice = voice_of(part.instrument)
    return isinstance(voice, Shaken) or (isinstance(voice, Blown) and not voice.harmonics_db and not voice.formants)


def ducked(score: Score, played: Sequence[Sequence[SoundEvent]]) -> list[Samples | None]:
    """For each part of noise its gain at the corners of every DUCK_STEP of the whole piece; None for all others.

    Within a stage it moves with the tuned notes; its mean is one for all stages, so that it leaves the order in which a
    part grows from stage to stage as it is.
    """
    noise = [is_noise(part) for part in score.parts]
    if not any(noise):
        return [None] * len(noise)
    steps = -(-length_frames(score) // BLOCK) * (BLOCK // DUCK_STEP) + 1
    busy = _busy(played, steps)
    if score.sections:
        edges = [0, *np.rint(stage_edges_s(score) * RATE_HZ / DUCK_STEP).astype(int)[1:-1], steps]
        middle = busy.mean()
        for first, last in zip(edges, edges[1:], strict=False):
            if last > first:
                busy[first:last] += middle - busy[first:last].mean()
    curve = np.asarray(10.0 ** (-DUCK_DB * _smooth(busy) / 20.0), dtype=np.float32)
    return [curve if hidden else None for hidden in noise]


def _busy(played: Sequence[Sequence[SoundEvent]], steps: int) -> Floats:
    """1 where a tuned note begins or is held, falling to 0 after it."""
    begun = np.zeros(steps, dtype=bool)
    for events in played:
        for event in events:
            if event.stroke.instrument in TUNED:
                first = max(0, event.start // DUCK_STEP - AHEAD)
                begun[first : (event.stop if event.stroke.held else event.start) // DUCK_STEP + 1] = True
    at = np.arange(steps)
    last = np.maximum.accumulate(np.where(begun, at, -steps))
    return np.asarray(np.maximum(0.0, 1.0 - (at - last) * (DUCK_STEP / RATE_HZ) / COMES_BACK_S))


def _smooth(busy: Floats) -> Floats:
    """A running mean as long as AHEAD either way, so that no step is heard."""
    box = 2 * AHEAD + 1
    total = np.cumsum(np.concatenate([[0.0], np.full(AHEAD, busy[0]), busy, np.full(AHEAD, busy[-1])]))
    return np.asarray((total[box:] - total[:-box]) / box)
