"""The Score as short recordings and a list of when to play them: what the classroom page embeds."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from functools import lru_cache

import numpy as np

from sonify.frozen import dataclass
from sonify.records.score import Score
from sonify.records.sounds import PageBed, PageEvent, PageRoom, PageSample, PageSounds
from sonify.sound.balance import Balance, balance
from sonify.sound.beds import corners, layers_of
from sonify.sound.ducking import DUCK_STEP
from sonify.sound.engine import cut_short, envelope
from sonify.sound.estimate import provisional_gain
from sonify.sound.events import SoundEvent, length_frames
from sonify.sound.halving import LATE
from sonify.sound.landscape import Layer
from sonify.sound.levelling import Levels
from sonify.sound.rate import RATE_HZ, STEP, Floats, Samples
from sonify.sound.room import HALF, RESPONSE, ROOM_HZ, spectra
from sonify.sound.seating import places
from sonify.sound.transform import samples_of, spectrum_of
from sonify.sound.voices.bank import BEATERS, MARKS, Bank, VoiceStroke, sides_of, voice_of
from sonify.sound.voices.noise import power_of_two
from sonify.sound.voices.records import Shot

# The room for the page: one response an ear, for all groups together, short enough to embed ---------------------------

#: Where this much of the response's energy is left it is cut: 44 dB down, in a room that is 12 dB under the sound.
LEFT = 4e-5


def page_room() -> PageRoom:
    """The room's answer to what all groups play, mixed to one channel, as each ear has it.

    The recording's room answers the left and the right of the class apart (`spectra`); the page's adds both, which is
    the same for whoever sits in the middle, and takes half the space.
    """
    both = samples_of(spectra().sum(axis=0), HALF)[:, :RESPONSE]
    late = np.zeros((2, LATE // 2), dtype=np.float32)  # the recording's way to half the rate and back
    answer: Samples = np.concatenate([late, both], axis=1)
    left = np.cumsum(np.sum(np.square(answer, dtype=np.float64), axis=0)[::-1])[::-1]
    answer = answer[:, : int(np.argmax(left < LEFT * left[0])) or answer.shape[1]]
    peak = float(np.abs(answer).max())
    pcm = [np.rint(ear * np.float32(FULL / peak)).astype("<i2").tobytes() for ear in answer]
    return PageRoom(rate_hz=round(ROOM_HZ), ears=(pcm[0], pcm[1]), gain=peak * 32_768.0 / FULL)


PAGE_RATE_HZ = RATE_HZ // 2
BED_LOOP = 1 << 17  # 3 s
BED_CORNER_S = 0.5
FULL = 32_000.0
#: Base64 makes four bytes of three.
BUDGET_BYTES = 4_400_000


@dataclass(frozen=True, slots=True, kw_only=True)
class Fineness:
    """How finely sounds are told apart. marks, beaters: so many dynamic marks and beaters share one recording.

    variants: of a stroke. floor_db: how far down a tail is kept. stroke_s: the longest stroke. apart: held sounds that
    swell are recorded again where their lengths differ by more than this factor.
    """

    marks: int
    beaters: int
    variants: int
    floor_db: float
    stroke_s: float
    apart: float


#: Tried in turn until the sounds fit.
FINENESS = (
    Fineness(marks=2, beaters=2, variants=2, floor_db=-50.0, stroke_s=4.0, apart=1.15),
    Fineness(marks=2, beaters=2, variants=1, floor_db=-46.0, stroke_s=3.0, apart=1.3),
    Fineness(marks=3, beaters=5, variants=1, floor_db=-42.0, stroke_s=2.0, apart=1.5),
    Fineness(marks=6, beaters=5, variants=1, floor_db=-36.0, stroke_s=1.2, apart=2.2),
    Fineness(marks=6, beaters=5, variants=1, floor_db=-30.0, stroke_s=0.6, apart=4.0),
)
#: Kept as loops, at one gain: a singer's swell would take a recording for each length of note.
EVEN = ("steady", "sung")
HELD_MARK, HELD_BEATER = 3, 2  # held sounds are recorded once, mezzo forte with a medium beater


@lru_cache(maxsize=8)  # strokes are of a few powers of two
def _below_treble(bins: int) -> Floats:
    """What leaves a spectrum up to half the page's rate as it is up to 9.5 kHz, and nothing over 10.5."""
    hz = np.linspace(0.0, PAGE_RATE_HZ / 2.0, bins)
    return np.asarray(0.5 + 0.5 * np.cos(np.pi * np.clip((hz - 9500.0) / 1000.0, 0.0, 1.0)))


def half_rate(samples: Samples, *, loop: bool = False) -> Samples:
    """Every second sample, after what lies over 10.5 kHz has been taken away. A loop stays without a seam."""
    size = samples.size if loop else power_of_two(samples.size + 256)
    spectrum = spectrum_of(samples, size)[: size // 4 + 1]
    spectrum *= _below_treble(spectrum.size)
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


def _merged(stroke: VoiceStroke, fineness: Fineness) -> VoiceStroke:
    """The stroke that stands for this one on the page."""
    if stroke.held:
        return replace(stroke, mark=HELD_MARK, beater=HELD_BEATER)
    sides = sides_of(voice_of(stroke.instrument))
    return replace(
        stroke,
        mark=min(len(MARKS) - 1, stroke.mark // fineness.marks * fineness.marks + fineness.marks // 2),
        beater=min(BEATERS - 1, stroke.beater // fineness.beaters * fineness.beaters + fineness.beaters // 2),
        turn=stroke.turn % max(fineness.variants, sides),
    )


def _held(shot: Shot, frames: int) -> Samples:
    """A held note written out with its envelope, as the recording has it; a sung one without its swell."""
    shot = replace(shot, envelope="steady") if shot.envelope in EVEN else shot
    total = frames + round(shot.release_s * RATE_HZ)
    t = np.arange(-(-total // STEP) + 1) * STEP / RATE_HZ
    gain = np.interp(np.arange(total) / RATE_HZ, t, envelope(shot, t, frames / RATE_HZ))
    out = np.resize(shot.loop, total) * gain
    out[: shot.samples.size] += shot.samples[:total]
    return np.asarray(out, dtype=np.float32)


class _Made:
    """Sounds at half the rate, made once for all attempts at a fineness."""

    def __init__(self, score: Score, bank: Bank) -> None:
        self.bank = bank
        self._score = score
        self._strokes: dict[tuple[VoiceStroke, float], Samples] = {}
        self._held: dict[tuple[VoiceStroke, int], tuple[PageSample, float]] = {}
        self._beds: list[list[tuple[Layer, PageSample, float]]] | None = None

    @property
    def beds(self) -> list[list[tuple[Layer, PageSample, float]]]:
        """The layers of each of the Score's beds."""
        if self._beds is None:
            self._beds = [
                [
                    (layer, *_sample(bed.kind, half_rate(layer.loop[0], loop=True), loop=True))
                    for layer in layers_of(bed, BED_LOOP)
                ]
                for bed in self._score.beds
            ]
        return self._beds

    def stroke(self, stroke: VoiceStroke, ring_s: float) -> Samples:
        """A stroke to its end, or cut short to `ring_s`."""
        key = (stroke, ring_s)
        if key not in self._strokes:
            self._strokes[key] = half_rate(cut_short(self.bank.shot(stroke).samples, ring_s))
        return self._strokes[key]

    def held(self, stroke: VoiceStroke, frames: int) -> tuple[PageSample, float]:
        """A held sound of `frames` (0: as a loop)."""
        key = (stroke, frames)
        if key not in self._held:
            shot, name = self.bank.shot(stroke), _name(stroke)
            if frames:
                self._held[key] = _sample(name, half_rate(_held(shot, frames)))
            else:
                self._held[key] = _sample(name, half_rate(shot.loop, loop=True), loop=True)
        return self._held[key]


def _name(stroke: VoiceStroke) -> str:
    return f"{stroke.instrument} {stroke.midi}"


class _Sheet:
    """Samples gathered so far, and where each is. Raises _TooMuch as soon as they pass the budget."""

    def __init__(self, made: _Made, fineness: Fineness, budget_bytes: int | None) -> None:
        self.samples: list[PageSample] = []
        self._gains: list[float] = []
        self._index: dict[tuple[VoiceStroke, int, float], int] = {}
        self._made, self._fineness = made, fineness
        self._left = budget_bytes

    def add(self, sample: PageSample, gain: float) -> int:
        self.samples.append(sample)
        self._gains.append(gain)
        if self._left is not None:
            self._left -= len(sample.pcm)
            if self._left < 0:
                raise _TooMuch
        return len(self.samples) - 1

    def gain(self, index: int) -> float:
        return self._gains[index]

    def stroke(self, stroke: VoiceStroke, frames: int, ring_s: float) -> int:
        """The sample for a stroke (cut short to `ring_s`), or for a held sound of `frames` (0: as a loop)."""
        key = (stroke, frames, ring_s)
        if key not in self._index:
            if stroke.held:
                self._index[key] = self.add(*self._made.held(stroke, frames))
            else:
                fineness = self._fineness
                cut = _trimmed(self._made.stroke(stroke, ring_s), fineness.floor_db, fineness.stroke_s)
                self._index[key] = self.add(*_sample(_name(stroke), cut))
        return self._index[key]


class _TooMuch(Exception):
    """The sounds do not fit the budget."""


def _recorded_lengths(
    part_events: Sequence[list[SoundEvent]], bank: Bank, fineness: Fineness
) -> dict[tuple[VoiceStroke, int], int]:
    """Length in frames of the recording for each held stroke and length. Sounds that swell are recorded at full
    length, one for lengths that are near each other; steady ones once, as long as the longest, or as a loop (0)."""
    lengths: dict[VoiceStroke, set[int]] = {}
    for events in part_events:
        for event in events:
            if event.stroke.held:
                lengths.setdefault(_merged(event.stroke, fineness), set()).add(event.stop - event.start)
    recorded: dict[tuple[VoiceStroke, int], int] = {}
    for stroke, found in lengths.items():
        shot = bank.shot(stroke)
        if shot.envelope in EVEN:
            longest = max(found)
            recorded |= {(stroke, length): longest if longest < shot.loop.size else 0 for length in found}
            continue
        group: list[int] = []
        for length in [*sorted(found), 0]:
            if group and (length == 0 or length > group[0] * fineness.apart):
                recorded |= {(stroke, one): group[-1] for one in group}
                group = []
            group.append(length)
    return recorded


def _beds(score: Score, made: _Made, sheet: _Sheet, levels: Levels) -> tuple[PageBed, ...]:
    beds = []
    t = np.arange(0.0, length_frames(score) / RATE_HZ + BED_CORNER_S, BED_CORNER_S)
    for bed, layers in zip(score.beds, made.beds, strict=True):
        level = np.interp(t, *corners(score, bed))
        for layer, sample, peak in layers:
            index = sheet.add(sample, peak)
            gains = layer.gain(level, t) * levels.lift(-1, t) * sheet.gain(index)
            beds.append(PageBed(sample=index, levels=tuple(zip(t.tolist(), gains.tolist(), strict=True))))
    return tuple(beds)


def _under_tones(balanced: Balance) -> Balance:
    """The page plays a note at one gain: a noise is lowered by what the recording lowers it by while it lasts."""

    def lowered(event: SoundEvent, summed: Floats) -> SoundEvent:
        first = event.start // DUCK_STEP
        last = max(first + 1, min(event.stop // DUCK_STEP, summed.size - 1))
        return event._replace(gain=event.gain * float(summed[last] - summed[first]) / (last - first))

    events = []
    for played, under in zip(balanced.events, balanced.under, strict=True):
        if under is not None:
            summed = np.concatenate([[0.0], np.cumsum(under, dtype=float)])
            played = [lowered(event, summed) for event in played]
        events.append(played)
    return replace(balanced, events=events)


def _attempt(score: Score, balanced: Balance, made: _Made, fineness: Fineness, budget: int | None) -> PageSounds:
    sheet, events = _Sheet(made, fineness, budget), []
    beds = _beds(score, made, sheet, balanced.levels)
    part_events = balanced.events
    lengths = _recorded_lengths(part_events, made.bank, fineness)
    merged: dict[VoiceStroke, VoiceStroke] = {}
    for part, (pan, played) in enumerate(zip(places(score), part_events, strict=True)):
        for event in played:
            if event.stroke not in merged:
                merged[event.stroke] = _merged(event.stroke, fineness)
            stroke, lasts = merged[event.stroke], event.stop - event.start
            index = sheet.stroke(stroke, lengths[stroke, lasts] if stroke.held else 0, event.ring_s)
            events.append(
                PageEvent(
                    time_s=event.start / RATE_HZ,
                    part=part,
                    sample=index,
                    gain=event.gain * sheet.gain(index),
                    pan=pan,
                    duration_s=lasts / RATE_HZ if event.stop else 0.0,
                )
            )
    events.sort(key=lambda e: (e.time_s, e.part))
    return PageSounds(
        rate_hz=PAGE_RATE_HZ, samples=tuple(sheet.samples), events=tuple(events), beds=beds, room=page_room()
    )


def page_sounds(
    score: Score, *, gain: float | None = None, budget_bytes: int = BUDGET_BYTES, bank: Bank | None = None
) -> PageSounds:
    """The sounds of a Score for the page: mono at 22.05 kHz, at most `budget_bytes` of PCM where that can be done.

    gain: the recording's fixed gain (`Rendering.gain`), so that both are as loud; None: estimated from the notes.
    bank: the recording's strokes, where they are there already.
    An event's pan is equal power, 0.707 to each side in the middle. Where sounds would take more than the budget,
    strokes that differ little share one recording and tails are cut sooner; the coarsest is given even if it is more.
    """
    return at_gain(page_sounds_ungained(score, budget_bytes, bank), provisional_gain(score) if gain is None else gain)


def page_sounds_ungained(score: Score, budget_bytes: int = BUDGET_BYTES, bank: Bank | None = None) -> PageSounds:
    """`page_sounds` before its gain, which is known only when the recording was heard to its end."""
    made = _Made(score, bank or Bank(score.seed))
    balanced = _under_tones(balance(score))
    for fineness in FINENESS[:-1]:
        try:
            return _attempt(score, balanced, made, fineness, budget_bytes)
        except _TooMuch:
            continue
    return _attempt(score, balanced, made, FINENESS[-1], None)


def at_gain(sounds: PageSounds, gain: float) -> PageSounds:
    """The same sounds so much louder."""
    beds = tuple(
        PageBed(sample=bed.sample, levels=tuple((at_s, round(level * gain, 5)) for at_s, level in bed.levels))
        for bed in sounds.beds
    )
    events = tuple(replace(event, gain=event.gain * gain) for event in sounds.events)
    return replace(sounds, beds=beds, events=events)
