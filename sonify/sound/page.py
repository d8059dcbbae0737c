"""The Score as short recordings and a list of when to play them: what the classroom page embeds."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

import numpy as np

from sonify.records.score import Score
from sonify.records.sounds import PageBed, PageEvent, PageSample, PageSounds
from sonify.sound.beds import corners, layers_of
from sonify.sound.engine import envelope
from sonify.sound.estimate import provisional_gain
from sonify.sound.events import Event, events_of, length_frames
from sonify.sound.rate import RATE_HZ, STEP, Samples
from sonify.sound.seating import places
from sonify.sound.transform import samples_of, spectrum_of
from sonify.sound.voices.bank import Bank, Stroke
from sonify.sound.voices.noise import power_of_two
from sonify.sound.voices.records import Shot

PAGE_RATE_HZ = RATE_HZ // 2
BED_LOOP = 1 << 17  # 3 s
BED_CORNER_S = 0.5
FULL = 32_000.0
#: Base64 makes four bytes of three.
BUDGET_BYTES = 4_400_000
#: How finely sounds are told apart, tried until they fit: dynamic marks and beaters merged, variants, how far down a
#: tail is kept (dB), longest stroke and longest held sound (s).
FINENESS = (
    (2, 2, 2, -50.0, 4.0, 12.0),
    (2, 2, 1, -46.0, 3.0, 8.0),
    (3, 4, 1, -42.0, 2.0, 6.0),
    (6, 4, 1, -36.0, 1.2, 4.0),
    (6, 4, 1, -30.0, 0.6, 3.0),
)


@dataclass(frozen=True, slots=True)
class Grain:
    """How finely one attempt tells sounds apart (a row of FINENESS)."""

    marks: int
    beaters: int
    variants: int
    floor_db: float
    stroke_s: float
    held_s: float


def half_rate(samples: Samples, *, loop: bool = False) -> Samples:
    """Every second sample, after what lies over 10.5 kHz has been taken away. A loop stays without a seam."""
    size = samples.size if loop else power_of_two(samples.size + 256)
    spectrum = spectrum_of(samples, size)[: size // 4 + 1]
    hz = np.linspace(0.0, PAGE_RATE_HZ / 2.0, spectrum.size)
    spectrum *= 0.5 + 0.5 * np.cos(np.pi * np.clip((hz - 9500.0) / 1000.0, 0.0, 1.0))
    out = samples_of(spectrum, size // 2) * np.float32(0.5)
    return np.asarray(out if loop else out[: -(-samples.size // 2)], dtype=np.float32)


def _trimmed(samples: Samples, floor_db: float, longest_s: float) -> Samples:
    """A stroke cut where it has fallen by floor_db, its end drawn to nothing."""
    loud = np.flatnonzero(np.abs(samples) > np.abs(samples).max() * 10.0 ** (floor_db / 20.0))
    length = min(int(loud[-1]) + 1, round(longest_s * PAGE_RATE_HZ))
    out = samples[:length].copy()
    fade = min(length, PAGE_RATE_HZ // 25)
    out[-fade:] *= np.linspace(1.0, 0.0, fade, dtype=np.float32)
    return out


def _sample(name: str, samples: Samples, *, loop: bool = False) -> tuple[PageSample, float]:
    """Samples as 16 bit at full scale, and the gain that makes up for it."""
    peak = float(np.abs(samples).max())
    pcm = np.rint(samples * np.float32(FULL / peak)).astype("<i2").tobytes()
    return PageSample(name=name, pcm=pcm, loop=loop), peak * 32_768.0 / FULL


def _merged(stroke: Stroke, grain: Grain) -> Stroke:
    """The stroke that stands for this one on the page."""
    return replace(
        stroke,
        mark=stroke.mark // grain.marks * grain.marks + grain.marks // 2,
        beater=stroke.beater // grain.beaters * grain.beaters,
        turn=stroke.turn if _sides(stroke) else stroke.turn % grain.variants,
    )


def _sides(stroke: Stroke) -> bool:
    return stroke.instrument in ("two-tone-block", "bongos")


def _held(shot: Shot, frames: int) -> Samples:
    """A held note written out with its envelope, as the recording has it."""
    total = frames + round(shot.release_s * RATE_HZ)
    t = np.arange(-(-total // STEP) + 1) * STEP / RATE_HZ
    gain = np.interp(np.arange(total) / RATE_HZ, t, envelope(shot, t, frames / RATE_HZ))
    out = np.resize(shot.loop, total) * gain
    out[: shot.samples.size] += shot.samples[:total]
    return np.asarray(out, dtype=np.float32)


class _Sheet:
    """Samples gathered so far, and where each is."""

    def __init__(self, bank: Bank, grain: Grain) -> None:
        self.samples: list[PageSample] = []
        self._gains: list[float] = []
        self._index: dict[tuple[Stroke, int], int] = {}
        self._bank, self._grain = bank, grain

    @property
    def bytes(self) -> int:
        return sum(len(sample.pcm) for sample in self.samples)

    def add(self, name: str, samples: Samples, *, loop: bool = False) -> int:
        sample, gain = _sample(name, samples, loop=loop)
        self.samples.append(sample)
        self._gains.append(gain)
        return len(self.samples) - 1

    def gain(self, index: int) -> float:
        return self._gains[index]

    def stroke(self, stroke: Stroke, frames: int) -> int:
        """The sample for a stroke; for a held one that lasts at least `frames`, if need be as a loop."""
        key = (stroke, frames)
        if key not in self._index:
            shot = self._bank.shot(stroke)
            name = f"{stroke.instrument} {stroke.midi}"
            if not stroke.held:
                cut = _trimmed(half_rate(shot.samples), self._grain.floor_db, self._grain.stroke_s)
                self._index[key] = self.add(name, cut)
            elif frames > self._grain.held_s * RATE_HZ:
                self._index[key] = self.add(name, half_rate(shot.loop, loop=True), loop=True)
            else:
                self._index[key] = self.add(name, half_rate(_held(shot, frames)))
        return self._index[key]


def _played(score: Score, part_events: Sequence[list[Event]], grain: Grain) -> Iterator[tuple[int, Event, Stroke]]:
    for part, events in enumerate(part_events):
        for event in events:
            yield part, event, _merged(event.stroke, grain)


def _longest(score: Score, part_events: Sequence[list[Event]], grain: Grain) -> dict[Stroke, int]:
    """How long each held stroke must last at most."""
    longest: dict[Stroke, int] = {}
    for _, event, stroke in _played(score, part_events, grain):
        if stroke.held:
            longest[stroke] = max(longest.get(stroke, 0), event.stop - event.start)
    return longest


def _beds(score: Score, sheet: _Sheet, gain: float) -> tuple[PageBed, ...]:
    beds = []
    t = np.arange(0.0, length_frames(score) / RATE_HZ + BED_CORNER_S, BED_CORNER_S)
    for bed in score.beds:
        times, levels = corners(score, bed)
        level = np.interp(t, times, levels)
        for layer in layers_of(bed, BED_LOOP):
            index = sheet.add(bed.kind, half_rate(layer.loop[0], loop=True), loop=True)
            gains = layer.gain(level, t) * sheet.gain(index) * gain
            beds.append(
                PageBed(
                    sample=index, levels=tuple((float(a), round(float(g), 5)) for a, g in zip(t, gains, strict=True))
                )
            )
    return tuple(beds)


def _attempt(score: Score, part_events: Sequence[list[Event]], bank: Bank, grain: Grain, gain: float) -> PageSounds:
    sheet, events = _Sheet(bank, grain), []
    longest = _longest(score, part_events, grain)
    pans = places(score)
    for part, event, stroke in _played(score, part_events, grain):
        shaped = stroke.held and bank.shot(stroke).envelope != "steady"
        lasting = event.stop - event.start if shaped else longest.get(stroke, 0)
        index = sheet.stroke(stroke, lasting)
        held_on = stroke.held and (not shaped or sheet.samples[index].loop)
        events.append(
            PageEvent(
                time_s=event.start / RATE_HZ,
                part=part,
                sample=index,
                gain=event.gain * sheet.gain(index) * gain,
                pan=pans[part],
                duration_s=(event.stop - event.start) / RATE_HZ if held_on or (event.stop and not stroke.held) else 0.0,
            )
        )
    beds = _beds(score, sheet, gain)
    events.sort(key=lambda e: (e.time_s, e.part))
    return PageSounds(rate_hz=PAGE_RATE_HZ, samples=tuple(sheet.samples), events=tuple(events), beds=beds)


def page_sounds(score: Score, *, gain: float | None = None, budget_bytes: int = BUDGET_BYTES) -> PageSounds:
    """The sounds of a Score for the page: mono at 22.05 kHz, at most `budget_bytes` of PCM where that can be done.

    gain: the recording's fixed gain (`Rendering.gain`), so that both are as loud; None: estimated from the notes.
    An event's pan is equal power, 0.707 to each side in the middle. Where sounds would take more than the budget,
    strokes that differ little share one recording and tails are cut sooner.
    """
    bank = Bank(score.seed)
    part_events = [events_of(score, part) for part in score.parts]
    level = provisional_gain(score) if gain is None else gain
    for row in FINENESS:
        sounds = _attempt(score, part_events, bank, Grain(*row), level)
        if sum(len(sample.pcm) for sample in sounds.samples) <= budget_bytes:
            break
    return sounds
