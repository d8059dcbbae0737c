"""A Score as a recording: rendered and measured once, with one fixed gain decided for all that is then written."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator
from itertools import islice
from typing import BinaryIO

import numpy as np

from sonify.frozen import dataclass
from sonify.records.score import Score
from sonify.sound import limiter
from sonify.sound.hands import Beside, Sounds, here
from sonify.sound.loudness import CEILING_DBTP, TARGET_LUFS, TOLERANCE_LU
from sonify.sound.mixing import MixingDesk
from sonify.sound.rate import BLOCK, RATE_HZ, Samples
from sonify.sound.stems import Stems
from sonify.sound.survey import Survey, lufs_of
from sonify.sound.voices.bank import Bank

Progress = Callable[[float], None]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Rendering:
    """A rendered mix on its scratch, and what was decided about it.

    bank: the sounds it was made of. backed: the blocks in which natural sounds are heard. far_stems: each block's stems
    from the other hand, in turn and once, where they were asked for.

    gain: the one fixed gain. curve: gain of the limiter (and of the gentle rise) at every STEP, or None where it never
    acts. lufs, peak_dbtp: of the finished mix. reduction_db: the curve's largest reduction (0: none).
    """

    score: Score
    scratch: BinaryIO
    bank: Bank
    backed: frozenset[int]
    far_stems: Iterator[Sounds] | None
    frames: int
    gain: float
    curve: Samples | None
    lufs: float
    peak_dbtp: float
    reduction_db: float

    @property
    def seconds(self) -> float:
        return self.frames / RATE_HZ

    @property
    def on_target(self) -> bool:
        """Whether loudness and peak are as promised. A silent piece is never on target."""
        return abs(self.lufs - TARGET_LUFS) <= TOLERANCE_LU and self.peak_dbtp <= CEILING_DBTP + 0.05

    def mix(self) -> Iterator[Samples]:
        """The unscaled mix as rendered, 2 by BLOCK at a time."""
        return _scratch_blocks(self.scratch, self.frames)

    def gains(self, block: int, length: int) -> Samples | np.float32:
        """What the mix and every stem are multiplied by in a block."""
        if self.curve is None:
            return np.float32(self.gain)
        return np.float32(self.gain) * limiter.gains(self.curve, block)[:length]


def render(
    score: Score, scratch: BinaryIO, *, progress: Progress | None = None, stems: bool = False, beside: Beside = here
) -> Rendering:
    """Render the mix to `scratch` (an empty binary file to read and write: 21 MB a minute).

    Measures loudness and true peak and decides the fixed gain: -18 LUFS, with a limiter where that would pass -1 dBTP.
    progress is called with the share done. stems: they are wanted, too, so the other hand goes on to them. beside: what
    makes half of the sounds, here or on another core.
    """
    _keep_freed_memory()
    bank, survey = Bank(score.seed), Survey()
    desk, done, backed = MixingDesk(score, bank), 0, set()
    wanted = Stems(score, bank) if stems else None

    def steps() -> Iterator[Sounds]:
        for block in desk.blocks:
            yield [*desk.far(block), *[None] * (count - 2)]
        if wanted is not None:
            for block in desk.blocks:
                sounds = wanted.far(block)
                yield [*sounds, *[None] * (count - len(sounds))]

    count = 2 if wanted is None else max(2, len(wanted.far_parts))
    far = beside(steps, count, (2, BLOCK))
    for block, other in zip(desk.blocks, islice(far, len(desk.blocks)), strict=True):
        out = desk.finished(desk.near(block), other[:2], block)
        survey.add(out)
        scratch.write(np.ascontiguousarray(out).data)
        done += out.shape[1]
        if other[1] is not None:
            backed.add(block)
        if progress:
            progress(done / desk.frames)
    return _decided(desk, scratch, bank, survey, frozenset(backed), far if stems else None)


def _keep_freed_memory() -> None:
    """Ask for a large array once and let it go: the C library takes that as a sign to keep what is freed for the next
    block, rather than to hand it back and have every page of it cleared again (GNU's `malloc`; harmless elsewhere)."""
    np.empty(31 << 20, dtype=np.uint8)


def _decided(
    desk: MixingDesk,
    scratch: BinaryIO,
    bank: Bank,
    survey: Survey,
    backed: frozenset[int],
    far_stems: Iterator[Sounds] | None,
) -> Rendering:
    score, frames, energies = desk.score, desk.frames, survey.energies
    if math.isfinite(lufs_of(energies)):
        plan = limiter.plan(
            lambda: _scratch_blocks(scratch, frames),
            survey.peaks,
            energies,
            target_lufs=TARGET_LUFS,
            ceiling_dbtp=CEILING_DBTP,
            gentle=score.gentle,
        )
    else:
        plan = limiter.GainPlan(gain=1.0, curve=None, lufs=-math.inf, peak_dbtp=-math.inf, reduction_db=0.0)
    return Rendering(
        score=score,
        scratch=scratch,
        bank=bank,
        backed=backed,
        far_stems=far_stems,
        frames=frames,
        gain=plan.gain,
        curve=plan.curve,
        lufs=plan.lufs,
        peak_dbtp=plan.peak_dbtp,
        reduction_db=plan.reduction_db,
    )


def _scratch_blocks(scratch: BinaryIO, frames: int) -> Iterator[Samples]:
    scratch.seek(0)
    for start in range(0, frames, BLOCK):
        length = min(BLOCK, frames - start)
        yield np.frombuffer(scratch.read(8 * length), dtype=np.float32).reshape(2, length)
