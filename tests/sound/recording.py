"""A rendered sample piece, once for all tests that only look at it."""

from __future__ import annotations

import io
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
import soundfile
from numpy.typing import NDArray

from sonify.records.score import COUNT_IN, Bed, Score
from sonify.sound.render import Rendering, render
from sonify.sound.writing import float_blocks, stem_names, write_stems, write_wav
from tests.sample import sample_score


@dataclass(frozen=True)
class Recording:
    score: Score
    rendering: Rendering
    wav: bytes
    mix: NDArray[np.float64]  # before dither, 2 by frames
    stems: dict[str, bytes]


def record(score: Score, *, stems: bool = True) -> Recording:
    rendering = render(score, io.BytesIO())
    wav = io.BytesIO()
    write_wav(rendering, wav)
    outs = [io.BytesIO() for _ in stem_names(score)]
    if stems:
        write_stems(rendering, outs)
    return Recording(
        score=score,
        rendering=rendering,
        wav=wav.getvalue(),
        mix=np.concatenate(list(float_blocks(rendering)), axis=1).astype(float),
        stems={name: out.getvalue() for name, out in zip(stem_names(score), outs, strict=True)},
    )


@lru_cache(maxsize=1)
def recording() -> Recording:
    return record(sample_score())


def brief_score() -> Score:
    """The first bar of the sample, with everybody in it: where length does not matter."""
    score = sample_score()
    parts = []
    for part in score.parts:
        shift = part.notes[0].beat if part.name != COUNT_IN else 0
        notes = tuple(replace(note, beat=note.beat - shift) for note in part.notes)
        parts.append(replace(part, notes=tuple(note for note in notes if note.beat < 4)))
    return replace(
        score,
        bars=1,
        tempi=score.tempi[:1],
        sections=(replace(score.sections[0], bars=1),),
        cues=score.cues[:1],
        parts=tuple(parts),
    )


@lru_cache(maxsize=1)
def brief() -> Recording:
    return record(brief_score())


def without_beds(score: Score, *beds: Bed) -> Score:
    return replace(score, beds=beds)


def read(wav: bytes) -> NDArray[np.float64]:
    """2 by frames, read by another library."""
    samples, rate = soundfile.read(io.BytesIO(wav), always_2d=True)
    assert rate == 44_100
    return np.asarray(samples.T)


def read_24(wav: bytes) -> NDArray[np.int64]:
    samples, rate = soundfile.read(io.BytesIO(wav), dtype="int32", always_2d=True)
    assert rate == 44_100
    return np.asarray(samples.T, dtype=np.int64) >> 8
