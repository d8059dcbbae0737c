"""Samples as bytes: dither, 16 and 24 bit, and the WAV file around them."""

from __future__ import annotations

import struct
from collections.abc import Sequence
from functools import cache

import numpy as np
from numpy.typing import NDArray

from sonify.errors import OutOfRange
from sonify.records.safe_text import for_midi
from sonify.sound.rate import RATE_HZ, Samples

DITHER_SEED, NOISE = 0x5EED, 1 << 18
WAV_BYTES = 2**32 - 1  # sizes in a WAV file are 32-bit numbers
FULL_16, FULL_24 = 32_767.0, 8_388_607.0


@cache
def _noise() -> Samples:
    """Triangular noise of two steps peak to peak: the difference of two uniform numbers of 16 bits."""
    raw = np.random.Philox(key=DITHER_SEED).random_raw(NOISE // 2).view(np.uint16).reshape(2, NOISE)
    out = raw[0].astype(np.float32)
    out -= raw[1]
    out *= np.float32(1.0 / 65_536.0)
    return np.asarray(out)


def dither(block: int, length: int, channels: int) -> list[Samples]:
    """Noise for each channel of a block, drawn from the block's own place in the stream: so any block can be had on its
    own. Stretches of one long noise, none alike: where each begins is drawn by lot."""
    places = np.random.Philox(key=DITHER_SEED, counter=[0, 1 + block, 0, 0]).random_raw(channels)
    starts = [int(place % (NOISE - length)) for place in places]
    return [_noise()[start : start + length] for start in starts]


def to_16(samples: Samples, gain: Samples | np.float32, block: int) -> NDArray[np.int16]:
    """Channels by length to interleaved 16 bit with dither."""
    channels, length = samples.shape
    scaled = samples * (gain * np.float32(FULL_16))
    for row, noise in zip(scaled, dither(block, length, channels), strict=True):
        row += noise
    np.rint(scaled, out=scaled)
    np.clip(scaled, -32_768.0, 32_767.0, out=scaled)
    out = np.empty((length, channels), dtype="<i2")
    for channel in range(channels):
        out[:, channel] = scaled[channel]
    return out


def pack_24(steps: NDArray[np.int32]) -> memoryview[int]:
    """Channels by length of 24-bit steps to interleaved little-endian bytes."""
    channels, length = steps.shape
    raw = steps.astype("<i4", copy=False).view(np.uint8).reshape(channels, length, 4)
    out = np.empty((length, channels, 3), dtype=np.uint8)
    for channel in range(channels):  # byte by byte is five times as fast as three bytes at a time
        for byte in range(3):
            out[:, channel, byte] = raw[channel, :, byte]
    return out.reshape(-1).data


def wav_header(frames: int, *, channels: int = 2, bits: int = 16, after: int = 0) -> bytes:
    """The head of a WAV file of so many frames, with `after` bytes of chunks behind the samples."""
    frame_bytes = channels * bits // 8
    data = frames * frame_bytes
    padded = data + (data & 1)
    if 36 + padded + after > WAV_BYTES:
        raise OutOfRange("length", frames / RATE_HZ / 60.0, "min", "files up to 4 GiB", "a WAV file")
    return b"".join(
        (
            b"RIFF",
            struct.pack("<I", 36 + padded + after),
            b"WAVEfmt ",
            struct.pack("<IHHIIHH", 16, 1, channels, RATE_HZ, RATE_HZ * frame_bytes, frame_bytes, bits),
            b"data",
            struct.pack("<I", data),
        )
    )


def cue_chunks(marks: Sequence[tuple[int, str]]) -> bytes:
    """Cue markers (frame, label) as the RIFF chunks `cue ` and `LIST adtl`; nothing for no markers."""
    if not marks:
        return b""
    points = b"".join(struct.pack("<II4sIII", n, at, b"data", 0, 0, at) for n, (at, _) in enumerate(marks, start=1))
    labels = b"adtl"
    for n, (_, label) in enumerate(marks, start=1):
        labels += _chunk(b"labl", struct.pack("<I", n) + for_midi(label).encode("utf-8") + b"\0")
    return _chunk(b"cue ", struct.pack("<I", len(marks)) + points) + _chunk(b"LIST", labels)


def _chunk(name: bytes, body: bytes) -> bytes:
    return name + struct.pack("<I", len(body)) + body + (b"\0" if len(body) & 1 else b"")
