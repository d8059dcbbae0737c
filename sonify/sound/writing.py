"""A rendering as files: the mix with its dither, and the stems, on buffers that the caller has opened."""

from __future__ import annotations

import struct
from collections.abc import Iterator, Sequence
from typing import BinaryIO

import numpy as np
from numpy.typing import NDArray

from sonify.errors import UnknownName
from sonify.records.score import Score
from sonify.sound.hands import Beside, Sounds, here
from sonify.sound.mixing import fade_of
from sonify.sound.rate import BLOCK, RATE_HZ, Samples, frame
from sonify.sound.rendering import Progress, Rendering
from sonify.sound.samples import FULL_24, cue_chunks, pack_24, to_16, wav_header
from sonify.sound.stems import Stems

# Ogg pages with a fixed stream number, so that the same recording gives the same bytes --------------------------------
#
# The encoder draws a stream number at random for each file (RFC 3533: any number will do). Here every page gets ours.
# Its checksum is linear, so it is corrected for the four bytes that change without reading the rest of the page.

STREAM = 1
POLYNOMIAL = 0x104C11DB7  # RFC 3533, section 6: direct algorithm, no reflection, starts from 0
HEADER, SERIAL_AT, CRC_AT = 27, 14, 22


def _times(a: int, b: int) -> int:
    """Product of two polynomials over two elements, modulo the checksum's."""
    out = 0
    while b:
        if b & 1:
            out ^= a
        a <<= 1
        if a >> 32:
            a ^= POLYNOMIAL
        b >>= 1
    return out


def _shifted(value: int, bits: int) -> int:
    """A polynomial times x ** bits, modulo the checksum's."""
    power, square = 1, 2
    while bits:
        if bits & 1:
            power = _times(power, square)
        square = _times(square, square)
        bits >>= 1
    return _times(value, power)


def corrected_crc(crc: int, change: int, after: int) -> int:
    """A page's checksum once `change` has been added (exclusive or) to four of its bytes, `after` bytes before its
    end; the first byte counts most."""
    return crc ^ _shifted(change, 8 * after + 32)


def number_stream(out: BinaryIO, start: int = 0) -> None:
    """Give every page of an Ogg file, which begins at `start`, the stream number STREAM."""
    at = start
    while True:
        out.seek(at)
        header = out.read(HEADER)
        if len(header) < HEADER:
            break
        if header[:4] != b"OggS":
            raise ValueError(f"no Ogg page begins at byte {at}")
        segments = out.read(header[HEADER - 1])
        length = HEADER + len(segments) + sum(segments)
        new = struct.pack("<I", STREAM)
        change = int.from_bytes(
            bytes(a ^ b for a, b in zip(header[SERIAL_AT : SERIAL_AT + 4], new, strict=True)), "big"
        )
        (crc,) = struct.unpack_from("<I", header, CRC_AT)
        out.seek(at + SERIAL_AT)
        out.write(new)
        out.seek(at + CRC_AT)
        out.write(struct.pack("<I", corrected_crc(crc, change, length - SERIAL_AT - 4)))
        at += length
    out.seek(0, 2)


BACKGROUND = "background"
#: Compressed formats: libsndfile's format and subtype.
FORMATS = {"flac": ("FLAC", "PCM_16"), "ogg": ("OGG", "VORBIS"), "mp3": ("MP3", "MPEG_LAYER_III")}
PIECE = 8192  # frames handed to an encoder at once; long pieces crash one of them


def float_blocks(rendering: Rendering) -> Iterator[Samples]:
    """The finished mix before dither, 2 by length."""
    for block, out in enumerate(rendering.mix()):
        yield out * rendering.gains(block, out.shape[1])


def mix_blocks(rendering: Rendering) -> Iterator[NDArray[np.int16]]:
    """The finished mix, frames by 2, 16 bit with dither."""

    for block, out in enumerate(rendering.mix()):
        yield to_16(out, rendering.gains(block, out.shape[1]), block)


def marks_of(score: Score) -> tuple[tuple[int, str], ...]:
    """Markers for a sound editor: each stage where it begins, each cue on its beat, in order of time."""
    from sonify.say import say  # a recording without markers wants no words
    from sonify.say.cues import told_words

    clock = score.clock
    marks = [
        (frame(clock.seconds(clock.beat_of_bar(section.bar))), f"{section.letter} {say(section.title)}")
        for section in score.sections
    ]
    for cue in score.cues:
        marks.append((frame(clock.seconds(clock.beat_of_bar(cue.bar) + cue.beat - 1)), told_words(cue)))
    return tuple(sorted(marks, key=lambda mark: mark[0]))


def write_wav(rendering: Rendering, out: BinaryIO, *, bits: int = 16, marked: bool = False) -> None:
    """The mix as a stereo WAV, 16 bit with dither or 24 bit without; marked: with cue markers at stages and cues."""
    if bits not in (16, 24):
        raise UnknownName("sample size", str(bits), ("16", "24"))
    chunks = cue_chunks(marks_of(rendering.score)) if marked else b""
    out.write(wav_header(rendering.frames, bits=bits, after=len(chunks)))
    if bits == 16:
        for block in mix_blocks(rendering):
            out.write(block.data)
    else:
        for number, floats in enumerate(rendering.mix()):
            out.write(pack_24(_steps_24(floats, rendering.gains(number, floats.shape[1])).astype(np.int32)))
    out.write(chunks)  # frames are of four or six bytes: what follows begins on an even byte


def write_compressed(rendering: Rendering, out: BinaryIO, kind: str) -> None:
    """The mix as FLAC (16 bit, the WAV's own samples), OGG (Vorbis) or MP3. `out` must be able to seek and read."""
    import soundfile

    if kind not in FORMATS:
        raise UnknownName("sound format", kind, ("wav", *FORMATS))
    container, subtype = FORMATS[kind]
    blocks: Iterator[NDArray[np.generic]] = (
        mix_blocks(rendering) if kind == "flac" else (block.T for block in float_blocks(rendering))
    )
    with soundfile.SoundFile(out, "w", RATE_HZ, 2, format=container, subtype=subtype) as file:
        for block in blocks:
            for start in range(0, len(block), PIECE):
                file.write(np.ascontiguousarray(block[start : start + PIECE]))
    if kind == "ogg":
        number_stream(out)


def stem_names(score: Score) -> tuple[str, ...]:
    """One stem a part, in order, then the background where there is one."""
    names = tuple(part.name for part in score.parts)
    return (*names, BACKGROUND) if score.beds else names


def write_stems(
    rendering: Rendering, outs: Sequence[BinaryIO], *, progress: Progress | None = None, beside: Beside = here
) -> None:
    """One 24-bit WAV for each name of `stem_names`, with the mix's gain and its own share of the room.

    The last stem that sounds takes what rounding the others left over, so that they sum to the mix within a step.
    beside: what makes some of the stems, here or on another core.
    """
    if len(outs) != len(stem_names(rendering.score)):
        raise ValueError(f"{len(stem_names(rendering.score))} stems need as many outputs, not {len(outs)}")
    for out in outs:
        out.write(wav_header(rendering.frames, bits=24))
    blocks = -(-rendering.frames // BLOCK)
    for block, (mix, parts) in enumerate(zip(rendering.mix(), _stems(rendering, beside), strict=True)):
        steps = _block_steps(rendering, block, mix, parts)
        for out, stem in zip(outs, steps, strict=True):
            if stem is not None:
                out.write(pack_24(stem.astype(np.int32)))
            elif block + 1 < blocks and out.seekable():
                out.seek(6 * mix.shape[1], 1)  # silence is a hole in the file
            else:
                out.write(bytes(6 * mix.shape[1]))
        if progress:
            progress((block + 1) / blocks)


def heard_blocks(
    rendering: Rendering, *, beside: Beside = here
) -> Iterator[tuple[Samples, list[Samples | None], list[tuple[float, float]]]]:
    """The mix at both ears, every stem of `stem_names` as both ears' mean, and each part's energy at either ear, block
    after block, as loud as they are written."""
    for block, (mix, parts) in enumerate(zip(rendering.mix(), _stems(rendering, beside), strict=True)):
        length = mix.shape[1]
        gain, fade = rendering.gains(block, length), fade_of(block, rendering.frames)
        faded = gain if fade is None else gain * fade[:length]
        ears = mix * gain
        stems = [None if s is None else s[:, :length].mean(axis=0) * faded for s in parts]
        energies = [(0.0, 0.0) if s is None else (float(s[0] @ s[0]), float(s[1] @ s[1])) for s in parts]
        if rendering.score.beds:  # the background is what all the others leave of the mix
            heard = sum((stem for stem in stems if stem is not None), start=np.zeros(length, dtype=np.float32))
            stems.append(ears.mean(axis=0) - heard if block in rendering.backed else None)
        yield ears, stems, energies


def _stems(rendering: Rendering, beside: Beside) -> Iterator[Sounds]:
    """All parts' stems, block after block."""
    stems, blocks = Stems(rendering.score, rendering.bank), range(-(-rendering.frames // BLOCK))
    many = len(stems.far_parts)
    far = rendering.far_stems
    if far is None:
        far = beside(lambda: (stems.far(block) for block in blocks), many, (2, BLOCK))
    for block, others in zip(blocks, far, strict=False):
        yield stems.all(block, others[:many])


def _block_steps(rendering: Rendering, block: int, mix: Samples, parts: Sounds) -> list[Samples | None]:
    """A block's stems in whole 24-bit steps, None for silence, the background last where there is one."""
    length = mix.shape[1]
    gain = rendering.gains(block, length)
    fade = fade_of(block, rendering.frames)
    faded = gain if fade is None else gain * fade[:length]
    steps = [None if stem is None else _steps_24(stem[:, :length], faded) for stem in parts]
    whole = _steps_24(mix, gain)
    if block in rendering.backed:  # the last that sounds is the mix less all the others: it need not be made
        _take(whole, steps)
        return [*steps, whole]
    _settle(steps, whole)
    return [*steps, None] if rendering.score.beds else steps


def _steps_24(samples: Samples, gain: Samples | np.float32) -> Samples:
    """Samples times gain in 24-bit steps, rounded. Two products: one would be rounded otherwise than the mix is."""
    steps = samples * gain
    steps *= np.float32(FULL_24)
    np.rint(steps, out=steps)
    return np.asarray(np.clip(steps, -FULL_24 - 1.0, FULL_24, out=steps))


def _settle(steps: list[Samples | None], mix: Samples) -> None:
    """Give what rounding left over to the last stem that sounds: it becomes the mix less all the others."""
    last = max((index for index, stem in enumerate(steps) if stem is not None), default=None)
    if last is not None:
        _take(mix, steps[:last])
        steps[last] = mix


def _take(mix: Samples, stems: Sequence[Samples | None]) -> None:
    """Take stems out of the mix."""
    for stem in stems:
        if stem is not None:
            mix -= stem
