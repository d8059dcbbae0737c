"""Ogg pages with a fixed stream number, so that the same recording gives the same bytes.

The encoder draws a stream number at random for each file (RFC 3533: any number will do). Here every page gets ours.
Its checksum is linear, so it is corrected for the four bytes that change without reading the rest of the page.
"""

from __future__ import annotations

import struct
from typing import BinaryIO

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
