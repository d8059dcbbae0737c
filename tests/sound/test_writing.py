from __future__ import annotations

import io
import struct

import numpy as np
import pytest
import soundfile

from sonify.errors import OutOfRange, UnknownName
from sonify.sound.samples import cue_chunks, dither, pack_24, wav_header
from sonify.sound.writing import FORMATS, marks_of, write_compressed, write_wav
from tests.sound.recording import brief, read, read_24, recording


def written(kind: str) -> bytes:
    out = io.BytesIO()
    write_compressed(brief().rendering, out, kind)
    return out.getvalue()


def test_markers_stand_at_stages_and_cues_as_libsndfile_reads_them() -> None:
    out = io.BytesIO()
    write_wav(recording().rendering, out, marked=True)
    out.seek(0)
    info = soundfile.info(out, verbose=True)
    assert info.frames == recording().rendering.frames
    assert "A Evaporation" in info.extra_info and "Rising vapour: come in" in info.extra_info
    marks = marks_of(recording().score)
    assert len(marks) == 10
    assert [at for at, _ in marks] == sorted(at for at, _ in marks)
    clock = recording().score.clock
    assert (round(float(clock.seconds(16)) * 44_100), "B Condensation") in marks
    # the samples are those of the file without markers
    plain = recording().wav
    assert out.getvalue()[44 : len(plain)] == plain[44:]


def test_the_riff_size_counts_every_byte() -> None:
    out = io.BytesIO()
    write_wav(brief().rendering, out, bits=24, marked=True)
    data = out.getvalue()
    assert struct.unpack("<I", data[4:8])[0] == len(data) - 8
    assert np.abs(read_24(data) - brief().mix * 8_388_607).max() <= 1.0


def test_flac_holds_the_samples_of_the_wav() -> None:
    np.testing.assert_array_equal(read(written("flac")), read(brief().wav))


@pytest.mark.parametrize("kind", ["ogg", "mp3"])
def test_lossy_formats_sound_the_same(kind: str) -> None:
    samples, original = read(written(kind)), read(brief().wav)
    assert abs(samples.shape[1] - original.shape[1]) < 3000
    length = min(samples.shape[1], original.shape[1]) // 4410 * 4410
    levels = [np.sqrt(np.mean(x[:, :length].reshape(2, -1, 4410) ** 2, axis=(0, 2))) for x in (samples, original)]
    loud = levels[1] > 0.01
    assert np.abs(20 * np.log10(levels[0][loud] / levels[1][loud])).max() < 1.5
    assert np.abs(samples).max() < 1.0


@pytest.mark.parametrize("kind", FORMATS)
def test_the_same_rendering_gives_the_same_bytes(kind: str) -> None:
    assert written(kind) == written(kind)


def test_an_ogg_pages_checksum_is_right_after_its_number_was_changed() -> None:
    """Against the bitwise definition in RFC 3533, on every page of the file."""
    data, at, pages = written("ogg"), 0, 0
    while at < len(data) and pages < 4:
        segments = data[at + 27 : at + 27 + data[at + 26]]
        page = bytearray(data[at : at + 27 + len(segments) + sum(segments)])
        (crc,) = struct.unpack_from("<I", page, 22)
        page[22:26] = bytes(4)
        value = 0
        for byte in page:
            value ^= byte << 24
            for _ in range(8):
                value = (value << 1) ^ (0x104C11DB7 if value >> 31 else 0)
        assert value == crc
        assert page[14:18] == b"\1\0\0\0"
        at, pages = at + len(page), pages + 1
    assert pages == 4


def test_an_unknown_format_is_named_with_the_known_ones() -> None:
    with pytest.raises(UnknownName, match='unknown sound format "aiff".*flac, mp3, ogg, wav'):
        write_compressed(recording().rendering, io.BytesIO(), "aiff")
    with pytest.raises(UnknownName, match='"32".*Allowed: 16, 24'):
        write_wav(recording().rendering, io.BytesIO(), bits=32)


def test_dither_is_triangular_of_two_steps_and_belongs_to_its_block() -> None:
    noise = np.array(dither(7, 50_000, 2))
    np.testing.assert_array_equal(noise, dither(7, 50_000, 2))
    assert not np.array_equal(noise, dither(8, 50_000, 2))
    assert np.abs(noise).max() < 1.0
    assert noise.var() == pytest.approx(1 / 6, rel=0.01)  # triangular over two steps
    assert abs(noise.mean()) < 0.01
    assert abs(np.corrcoef(noise[0], noise[1])[0, 1]) < 0.02


def test_dither_is_white_over_a_minute_of_blocks() -> None:
    """Stretches of one noise are drawn anew for every block and channel, so that nothing is heard to repeat."""
    blocks = np.array([dither(block, 44_100, 2) for block in range(60)])
    rows = blocks.reshape(120, 44_100)
    alike = np.abs(np.corrcoef(rows) - np.eye(120))
    assert alike.max() < 0.03
    power = np.mean(np.abs(np.fft.rfft(rows)) ** 2, axis=0) / 44_100
    bands = [band.mean() for band in np.array_split(power, 20)]
    assert np.ptp(bands) < 0.1 * np.mean(bands)


def test_24_bits_are_little_endian_twos_complement() -> None:
    steps = np.array([[1, -1, 8_388_607], [-8_388_608, 256, 0]], dtype=np.int32)
    assert pack_24(steps).hex(" ", 3) == "010000 000080 ffffff 000100 ffff7f 000000"


def test_a_file_too_long_for_its_format_is_refused() -> None:
    with pytest.raises(OutOfRange, match="length is 600 min; a WAV file covers files up to 4 GiB"):
        wav_header(600 * 60 * 44_100, bits=24)


def test_headers_and_chunks_in_bytes() -> None:
    assert wav_header(2).hex() == (
        "52494646" "2c000000" "57415645" "666d7420" "10000000" "0100" "0200" "44ac0000" "10b10200" "0400" "1000"
        "64617461" "08000000"
    )  # fmt: skip
    assert cue_chunks([]) == b""
    chunk = cue_chunks([(441, "A")])
    assert chunk[:8] == b"cue " + struct.pack("<I", 28)
    assert chunk[-10:] == b"\x06\x00\x00\x00" + struct.pack("<I", 1) + b"A\0"
