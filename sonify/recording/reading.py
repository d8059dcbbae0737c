"""A recording read from a file, mono, a block at a time: none of it is kept and none is written anywhere.

`soundfile` reads WAV, FLAC, OGG and MP3. What a phone or a camera makes of it (M4A, WebM, a video's sound) PyAV reads,
which is the extra `listen`.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from pathlib import Path
from typing import Any

import numpy as np
from numpy.typing import NDArray

from sonify.errors import SonifyError
from sonify.frozen import dataclass
from sonify.records.fact import wrong
from sonify.storage.quiet import quiet

Singles = NDArray[np.float32]

#: Samples that are read at a time, all channels together; the rates and the hours that are listened to.
BLOCK, RATES_HZ, MOST_CHANNELS, MOST_HOURS = 1 << 17, (4_000, 200_000), 64, 3
#: A packet of sound lasts some hundredths of a second; one that says it lasts longer than this is not believed.
LONGEST_PACKET_S = 1.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Sound:
    """blocks: mono, float. seconds: as the file says, 0 where it does not."""

    rate_hz: int
    seconds: float
    blocks: Iterator[Singles]


def read_sound(path: Path) -> Sound:
    """Raises SonifyError for what is no recording, is too long, or needs PyAV where it is missing."""
    if not path.is_file():
        raise SonifyError(wrong("error_listen-no-file", file=path.name))
    if path.stat().st_size == 0:
        raise SonifyError(wrong("error_listen-empty", file=path.name))
    return _by_soundfile(path) or _by_av(path)


def _by_soundfile(path: Path) -> Sound | None:
    import soundfile

    try:
        file = soundfile.SoundFile(path)
    except (soundfile.LibsndfileError, TypeError, ValueError, OSError):
        return None
    _check(path, file.samplerate, file.channels, file.frames / file.samplerate if file.samplerate else 0.0)
    return Sound(
        rate_hz=file.samplerate,
        seconds=max(0.0, file.frames / file.samplerate),
        blocks=_limited(path, file.samplerate, _soundfile_blocks(file)),
    )


def _soundfile_blocks(file: Any) -> Iterator[Singles]:
    import soundfile

    size = max(1, BLOCK // file.channels)
    with file, suppress(soundfile.LibsndfileError, RuntimeError):  # a file that is cut off ends where it is cut off
        while True:
            with quiet():
                block = file.read(size, dtype="float32", always_2d=True)
            if not len(block):
                break
            yield block.mean(axis=1, dtype=np.float32)


def _by_av(path: Path) -> Sound:
    try:
        import av
    except ImportError:
        raise SonifyError(wrong("error_listen-needs-av", file=path.name)) from None
    av.logging.set_level(None)
    try:
        box = av.open(str(path), mode="r", options={"protocol_whitelist": "file"})
    except (av.error.FFmpegError, ValueError, OSError, UnicodeError) as error:
        raise SonifyError(wrong("error_listen-unreadable", file=path.name)) from error
    # without a context: coded in no way known
    streams = [stream for stream in box.streams.audio if stream.codec_context is not None]
    if not streams:
        box.close()
        raise SonifyError(wrong("error_listen-no-sound", file=path.name))
    stream = streams[0]
    rate = stream.codec_context.sample_rate
    seconds = float(box.duration / av.time_base) if box.duration else 0.0
    try:
        _check(path, rate, stream.codec_context.channels, seconds)
    except SonifyError:
        box.close()
        raise
    return Sound(rate_hz=rate, seconds=max(0.0, seconds), blocks=_limited(path, rate, _av_blocks(box, stream, rate)))


def _av_blocks(box: Any, stream: Any, rate: int) -> Iterator[Singles]:
    import av

    resampler = av.AudioResampler(format="flt", layout="mono", rate=rate)
    with box, suppress(av.error.FFmpegError, ValueError, OSError):
        for packet in box.demux(stream):
            try:
                frames = packet.decode()
            except av.error.FFmpegError:
                # spoilt in the middle: silence for as long as it says it lasts, so that what follows keeps its time
                lasts_s = float((packet.duration or 0) * (packet.time_base or 0))
                yield np.zeros(round(rate * min(max(0.0, lasts_s), LONGEST_PACKET_S)), dtype=np.float32)
                continue
            for frame in frames:
                for one in resampler.resample(frame):
                    yield np.asarray(one.to_ndarray().reshape(-1), dtype=np.float32)


def _check(path: Path, rate_hz: int, channels: int, seconds: float) -> None:
    low, high = RATES_HZ
    if not low <= rate_hz <= high or not 1 <= channels <= MOST_CHANNELS:
        raise SonifyError(
            wrong("error_listen-odd", file=path.name, rate=rate_hz, channels=channels, low=low, high=high)
        )
    if seconds > MOST_HOURS * 3600.0:
        raise SonifyError(wrong("error_listen-too-long", file=path.name, hours=MOST_HOURS))


def _limited(path: Path, rate_hz: int, blocks: Iterator[Singles]) -> Iterator[Singles]:
    """The blocks, as long as a file may be whatever it says of itself. A file whose first cannot be read is none."""
    most = left = MOST_HOURS * 3600 * rate_hz
    for block in blocks:
        left -= block.size
        if left < 0:
            raise SonifyError(wrong("error_listen-too-long", file=path.name, hours=MOST_HOURS))
        yield block
    if left == most:
        raise SonifyError(wrong("error_listen-unreadable", file=path.name))
