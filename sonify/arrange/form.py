"""The form of the piece beyond who plays when: the chord of each stage, the breath before the climax, the ending."""

from __future__ import annotations

from collections.abc import Collection

import numpy as np

from sonify.records.scene import Scale

_FIFTH = 7
#: Fewer stages stay on one chord: there is no way out and home again.
_LEAST_STAGES = 3
#: So many chords are to be heard in a piece that is long enough, and so often it is drawn for them (our own choice).
_HEARD, _DRAWS = 3, 32
#: What leads home, best first: the dominant, and what stands in for it in scales without.
_LEADS_HOME = (7, 5, 10, 2)


def chords_of_stages(
    stages: int, tuned: Collection[int], scale: Scale, rng: np.random.Generator, most: int | None = None
) -> tuple[int, ...]:
    """`chord_roots` without the stages inside the piece in which nothing tuned may sound: those keep the chord before.

    tuned: the stages, from 0, in which something may. A stage without notes would take a chord from those with notes.
    """
    silent = set(range(min(tuned, default=0), max(tuned, default=0))) - set(tuned)
    roots = iter(chord_roots(stages - len(silent), scale, rng, most))
    found: list[int] = []
    for stage in range(stages):
        found.append(found[-1] if stage in silent else next(roots))
    return tuple(found)


def chords_under_a_tune(
    stages: int, tuned: Collection[int], scale: Scale, rng: np.random.Generator, most: int
) -> tuple[int, ...]:
    """`chords_of_stages` where nothing tuned but tunes may sound: no hand has a bordun to learn there.

    Where fewer than three of its chords would be heard it has one more to choose from, and is drawn again. As many as
    there can be: a tune of two stages, or a scale with two fifths, has no third.
    """
    found = chords_of_stages(stages, tuned, scale, rng, most)
    if len(tuned) < _HEARD:
        return found
    for _ in range(_DRAWS):
        if len({found[stage] for stage in tuned}) >= _HEARD:
            break
        found = chords_of_stages(stages, tuned, scale, rng, most + 1)
    return found


def chord_roots(stages: int, scale: Scale, rng: np.random.Generator, most: int | None = None) -> tuple[int, ...]:
    """The root of each stage's chord, in semitones over the tonic: another one from stage to stage.

    The first and the last stand on the tonic, the last but one on what leads home; those between on what the scale
    has a fifth over, by lot, all different as far as there are enough (the bordun of classroom music; common practice).
    most: so many roots beside the tonic, for hands that are to learn them.
    """
    own = {(pitch - scale.tonic) % 12 for pitch in scale.pitch_classes}
    able = [root for root in sorted(own) if root and (root + _FIFTH) % 12 in own]
    if stages < _LEAST_STAGES or not able:
        return (0,) * stages
    home = next((root for root in _LEADS_HOME if root in able), able[0])
    if most is not None:
        others = [root for root in able if root != home]
        able = [home, *(others[int(i)] for i in rng.permutation(len(others))[: most - 1])]
    found = [0] * stages
    found[-2] = home
    left: list[int] = []
    for stage in range(1, stages - 2):
        if not left:
            left = [able[int(i)] for i in rng.permutation(len(able))]
        after = home if stage == stages - 3 else None
        fits = [root for root in left if root not in (found[stage - 1], after)]
        fits = fits or [root for root in (*able, 0) if root not in (found[stage - 1], after)] or [0]
        found[stage] = fits[0]
        left = [root for root in left if root != fits[0]]
    return tuple(found)
