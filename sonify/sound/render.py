"""A Score as a recording: rendered and measured once, then written with one fixed gain."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from dataclasses import dataclass
from fractions import Fraction
from typing import BinaryIO

import numpy as np
from numpy.typing import NDArray

from sonify.records.score import Score
from sonify.sound import limiter
from sonify.sound.beds import Beds, corners
from sonify.sound.engine import FADE_S, Player, events_of, length_frames, players_of
from sonify.sound.loudness import integrated_lufs
from sonify.sound.rate import BLOCK, HOP, RATE_HZ, Samples
from sonify.sound.room import Room
from sonify.sound.samples import FULL_24, pack_24, to_16, wav_header
from sonify.sound.seating import places, sides
from sonify.sound.survey import Survey, lufs_of
from sonify.sound.voices.bank import Bank

TARGET_LUFS = -18.0
CEILING_DBTP = -1.0
TOLERANCE_LU = 0.5
RINGING = 1.6  # what rings on after 100 ms and the room add to the energy of a stroke, about
BACKGROUND = "background"

Progress = Callable[[float], None]


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Rendering:
    """A rendered mix on its scratch, and what was decided about it.

    gain: the one fixed gain. curve: gain of the limiter at every STEP, or None where it never acts.
    lufs, peak_dbtp: of the finished mix. reduction_db: the limiter's largest reduction (0: none).
    """

    score: Score
    scratch: BinaryIO
    bank: Bank
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


def _fade(block: int, frames: int) -> Samples | None:
    """The end's fade within a block, or None before it. Nothing sounds after the last frame."""
    start, fade = block * BLOCK, round(FADE_S * RATE_HZ)
    if start + BLOCK <= frames - fade:
        return None
    left = np.clip((frames - start - np.arange(BLOCK, dtype=np.float32)) / fade, 0.0, 1.0)
    return np.asarray(0.5 - 0.5 * np.cos(np.pi * left), dtype=np.float32)


def _mixed(
    players: Sequence[Player], gains: Sequence[tuple[float, float]], beds: Beds, room: Room, block: int
) -> Samples:
    """One block of the mix: parts in order, the room's answer to them, the beds."""
    out = np.zeros((2, BLOCK), dtype=np.float32)
    part = np.empty(BLOCK, dtype=np.float32)
    heard = False
    for player, (left, right) in zip(players, gains, strict=True):
        dry = player.block(block)
        if dry is not None:
            heard = True
            for ear, gain in enumerate((left, right)):
                np.multiply(dry, np.float32(gain), out=part)
                out[ear] += part
    room.add(out.copy() if heard else None, out)
    beds.add(block, out)
    return out


def blocks_of(score: Score, bank: Bank, start: Fraction | int | None = None) -> Iterator[Samples]:
    """The unscaled mix, 2 by BLOCK at a time; the last is cut at the end."""
    players, first = players_of(score, bank, start)
    gains = [sides(place) for place in places(score)]
    beds, room, frames = Beds(score), Room(), length_frames(score)
    for block in range(first, -(-frames // BLOCK)):
        out = _mixed(players, gains, beds, room, block)
        fade = _fade(block, frames)
        if fade is not None:
            out *= fade
        yield out[:, : frames - block * BLOCK]


def provisional_gain(score: Score) -> float:
    """A gain guessed without rendering: strokes are made to one K-weighted energy, so the notes tell the loudness."""
    hops = np.zeros(length_frames(score) // HOP + 2)
    for part in score.parts:
        for event in events_of(score, part):
            if event.stroke.held:
                hops[event.start // HOP : event.stop // HOP + 1] += event.gain**2
            else:
                hops[event.start // HOP] += event.gain**2  # a stroke has the energy of a mean square of 1 in 100 ms
    for bed in score.beds:
        times, levels = corners(score, bed)
        hops += np.interp(np.arange(hops.size) * HOP / RATE_HZ, times, levels) ** 4
    lufs = integrated_lufs(hops * RINGING)
    return float(10.0 ** ((TARGET_LUFS - lufs) / 20.0)) if math.isfinite(lufs) else 1.0


def render(score: Score, scratch: BinaryIO, *, progress: Progress | None = None) -> Rendering:
    """Render the mix to `scratch` (an empty binary file to read and write, as long as the piece: 21 MB a minute).

    Measures loudness and true peak and decides the fixed gain: -18 LUFS, and a limiter where that would pass -1 dBTP.
    """
    bank, frames, survey = Bank(score.seed), length_frames(score), Survey()
    done = 0
    for out in blocks_of(score, bank):
        survey.add(out)
        scratch.write(np.ascontiguousarray(out).data)
        done += out.shape[1]
        if progress:
            progress(done / frames)
    return _decided(score, scratch, bank, survey)


def _decided(score: Score, scratch: BinaryIO, bank: Bank, survey: Survey) -> Rendering:
    frames, energies = length_frames(score), survey.energies
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
        plan = limiter.Plan(gain=1.0, curve=None, lufs=-math.inf, peak_dbtp=-math.inf, reduction_db=0.0)
    return Rendering(
        score=score,
        scratch=scratch,
        bank=bank,
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


def _gains(rendering: Rendering, block: int, length: int) -> Samples | np.float32:
    """What the mix and every stem are multiplied by in a block."""
    if rendering.curve is None:
        return np.float32(rendering.gain)
    return np.float32(rendering.gain) * limiter.gains(rendering.curve, block)[:length]


def mix_blocks(rendering: Rendering) -> Iterator[NDArray[np.int16]]:
    """The finished mix, frames by 2, 16 bit with dither."""
    for block, out in enumerate(_scratch_blocks(rendering.scratch, rendering.frames)):
        yield to_16(out, _gains(rendering, block, out.shape[1]), block)


def float_blocks(rendering: Rendering) -> Iterator[Samples]:
    """The finished mix before dither, 2 by length."""
    for block, out in enumerate(_scratch_blocks(rendering.scratch, rendering.frames)):
        yield out * _gains(rendering, block, out.shape[1])


def write_wav(rendering: Rendering, out: BinaryIO) -> None:
    """The mix as a 16-bit stereo WAV."""
    out.write(wav_header(rendering.frames))
    for block in mix_blocks(rendering):
        out.write(block.tobytes())


def stem_names(score: Score) -> tuple[str, ...]:
    """One stem a part, in order, then the background where there is one."""
    names = tuple(part.name for part in score.parts)
    return (*names, BACKGROUND) if score.beds else names


def write_stems(rendering: Rendering, outs: Sequence[BinaryIO], *, progress: Progress | None = None) -> None:
    """One 24-bit WAV for each name of `stem_names`, with the mix's gain and its own share of the room.

    The last stem that sounds takes what rounding the others left over, so that they sum to the mix within a step.
    """
    score, frames = rendering.score, rendering.frames
    if len(outs) != len(stem_names(score)):
        raise ValueError(f"{len(stem_names(score))} stems need as many outputs, not {len(outs)}")
    players, _ = players_of(score, rendering.bank)
    gains = [sides(place) for place in places(score)]
    rooms, beds = [Room(gain) for gain in gains], Beds(score)
    for out in outs:
        out.write(wav_header(frames, bits=24))
    total = -(-frames // BLOCK)
    for block, mix in enumerate(float_blocks(rendering)):
        length = mix.shape[1]
        gain, fade = _gains(rendering, block, length), _fade(block, frames)
        stems = [_stem_block(*one, block) for one in zip(players, gains, rooms, strict=True)]
        if score.beds:
            background = np.zeros((2, BLOCK), dtype=np.float32)
            stems.append(background if beds.add(block, background) else None)
        sounding = [index for index, stem in enumerate(stems) if stem is not None]
        left = np.rint(mix * np.float32(FULL_24))
        for index, (stem, out) in enumerate(zip(stems, outs, strict=True)):
            if stem is None:
                out.write(bytes(2 * 3 * length))
                continue
            if index == sounding[-1]:
                steps = left  # takes what rounding the others left over
            else:
                steps = stem[:, :length] * gain
                if fade is not None:
                    steps *= fade[:length]
                steps *= np.float32(FULL_24)
                np.rint(steps, out=steps)
                left -= steps
            np.clip(steps, -FULL_24 - 1.0, FULL_24, out=steps)
            out.write(pack_24(steps.astype(np.int32)))
        if progress:
            progress((block + 1) / total)


def _stem_block(player: Player, gains: tuple[float, float], room: Room, block: int) -> Samples | None:
    """A part's block with its share of the room, or None for silence."""
    dry = player.block(block)
    if dry is None and room.quiet:
        return None
    out = np.zeros((2, BLOCK), dtype=np.float32)
    if dry is not None:
        np.multiply(dry, np.float32(gains[0]), out=out[0])
        np.multiply(dry, np.float32(gains[1]), out=out[1])
    room.add(None if dry is None else dry[None], out)
    return out
