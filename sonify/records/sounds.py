"""Sounds for the classroom page: short recordings and when to play them, so that the browser schedules every note."""

from __future__ import annotations

from sonify.frozen import dataclass


@dataclass(frozen=True, slots=True, kw_only=True)
class PageSample:
    """One recorded stroke or loop: mono, little-endian 16-bit PCM at the sheet's rate. loop: repeats without a seam."""

    name: str
    pcm: bytes
    loop: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class PageEvent:
    """Play sample number `sample` at `time_s` from the start of the file. part: index into score.parts.

    gain: linear. pan: -1 left to 1 right. duration_s: when to let go (0: let it ring).
    """

    time_s: float
    part: int
    sample: int
    gain: float
    pan: float
    duration_s: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class PageBed:
    """A looped background: levels are (time_s, linear gain) corners."""

    sample: int
    levels: tuple[tuple[float, float], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class PageRoom:
    """The room's answer for each ear (left, right) to all groups mixed to one channel, 16-bit PCM times `gain`."""

    rate_hz: int
    ears: tuple[bytes, bytes]
    gain: float


@dataclass(frozen=True, slots=True, kw_only=True)
class PageSounds:
    """All that the page needs to sound like the recording, small enough to embed."""

    rate_hz: int
    samples: tuple[PageSample, ...]
    events: tuple[PageEvent, ...]
    beds: tuple[PageBed, ...] = ()
    room: PageRoom | None = None
