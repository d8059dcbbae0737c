"""Loudness range, order of stages and repetition of the backgrounds, over all scenes.

    python -m pytest -s tests/benchmarks/test_levels.py
    python -m tests.benchmarks.test_levels [CLASS [SEED]]      # the table alone, of another class or seed

Aims: a loudness range (EBU Tech 3342) of at most 10 LU; stages over 1 dB apart with `loudness_range = "wide"` in
the same order without; a background's normalised autocorrelation under 0.2 from 1 to 60 s.
"""

from __future__ import annotations

import io
import sys
from concurrent.futures import ProcessPoolExecutor
from dataclasses import dataclass, replace
from statistics import median

import numpy as np

from sonify import lesson
from sonify.records.score import Score
from sonify.sound.beds import Beds
from sonify.sound.events import length_frames
from sonify.sound.levelling import stage_edges_s, stage_levels_db
from sonify.sound.loudness import loudness_range_lu
from sonify.sound.rate import BLOCK, RATE_HZ, Samples
from sonify.sound.render import float_blocks, render
from sonify.sound.survey import Survey, hop_squares

AIM_LU, AIM_ALIKE, APART_DB = 10.0, 0.2, 1.0
WORKERS = 2


@dataclass(frozen=True)
class Row:
    """limiter_db: the most the limiter takes. turned: pairs of stages whose order differs from the wide one's."""

    scene: str
    range_lu: float
    wide_lu: float
    limiter_db: float
    turned: int
    alike: float


def row(asked: tuple[str, str | None, int]) -> Row:
    scene, classroom, seed = asked
    score = lesson.compose(scene, classroom, seed)
    near_lu, near, limiter_db = measured(score)
    wide_lu, wide, _ = measured(replace(score, loudness_range="wide"))
    pairs = [(a, b) for a in range(len(wide)) for b in range(len(wide)) if wide[a] - wide[b] > APART_DB]
    turned = sum(1 for a, b in pairs if near[a] <= near[b])
    return Row(scene, near_lu, wide_lu, limiter_db, turned, alike(score))


def measured(score: Score) -> tuple[float, np.ndarray, float]:
    rendering, survey = render(score, io.BytesIO()), Survey()
    for block in float_blocks(rendering):
        survey.add(block)
    hops = hop_squares(survey.energies)
    return loudness_range_lu(hops), stage_levels_db(hops, stage_edges_s(score)), rendering.reduction_db


def alike(score: Score) -> float:
    """The largest normalised autocorrelation of the background's left side, 1 to 60 s on; 0 without one."""
    if not score.beds:
        return 0.0
    beds, blocks = Beds(score), []
    for block in range(-(-length_frames(score) // BLOCK)):
        out: Samples = np.zeros((2, BLOCK), dtype=np.float32)
        beds.add(block, out)
        blocks.append(out[0])
    whole = np.concatenate(blocks)
    found = np.fft.irfft(np.abs(np.fft.rfft(whole, 1 << int(2 * whole.size - 1).bit_length())) ** 2)
    return float(np.abs(found[RATE_HZ : 60 * RATE_HZ]).max() / found[0])


def rows(classroom: str | None = None, seed: int = 0) -> list[Row]:
    with ProcessPoolExecutor(WORKERS) as pool:
        return list(pool.map(row, [(scene, classroom, seed) for scene in lesson.scene_names()]))


def printed(found: list[Row]) -> None:
    print(
        f"\n{'scene':26}  range  wide  limiter  turned  background alike (aims: {AIM_LU:g} LU, 0 turned, {AIM_ALIKE:g})"
    )
    for one in found:
        ranges = f"{one.range_lu:6.1f} {one.wide_lu:5.1f}"
        print(f"{one.scene:26} {ranges} {one.limiter_db:8.1f} {one.turned:7} {one.alike:8.3f}")
    over = [one.scene for one in found if one.range_lu > AIM_LU]
    print(f"median {median(one.range_lu for one in found):.1f} LU; over the aim: {', '.join(over) or 'none'}")


def test_quiet_and_loud_lie_near_each_other_and_backgrounds_do_not_repeat() -> None:
    found = rows()
    printed(found)
    assert median(one.range_lu for one in found) <= AIM_LU
    assert sum(one.range_lu <= AIM_LU for one in found) >= 12
    assert all(one.range_lu < one.wide_lu for one in found)
    assert max(one.alike for one in found) < AIM_ALIKE


if __name__ == "__main__":
    printed(rows(sys.argv[1] if len(sys.argv) > 1 else None, int(sys.argv[2]) if len(sys.argv) > 2 else 0))
