"""Notes as sounds: when each begins, what it sounds like, how strong it is, and where it is stopped."""

from __future__ import annotations

from bisect import bisect_right
from collections.abc import Sequence
from fractions import Fraction
from itertools import pairwise
from operator import itemgetter
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from sonify.records.clock import Clock, microseconds
from sonify.records.score import Part, Score
from sonify.sound.rate import RATE_HZ, frame
from sonify.sound.voices.bank import (
    MOST_TOGETHER,
    VoiceStroke,
    is_held,
    is_shaken_in_time,
    ring_of,
    strength,
    strikes_together,
    stroke_of,
    variants_of,
    voice_of,
)
from sonify.sound.voices.blows import WINDOW
from sonify.sound.voices.records import Recorded, Struck

#: After the last beat: what still rings, the last part of it drawn to silence.
TAIL_S, FADE_S = 4.0, 1.5

BY_START = itemgetter(0)
#: Where strokes come thick a ring is cut short, so that it is over by the time that so many more have been struck; one
#: of a few lengths. A child's hand does so on a triangle, and what has rung for long is not missed (ours).
STROKES_OVER, RINGS_S = 4, (0.6, 0.9, 1.3, 1.9, 2.8)
SOUNDED = WINDOW
#: Groups that strike together are never nearer than some milliseconds (players of an ensemble: 30 to 50 ms, Rasch 1979,
#: from memory, not verified); so much is heard as one stroke.
APART_S = 0.007


class SoundEvent(NamedTuple):
    """One note to sound. stop: where a held note ends or a hand stops a ringing one; 0: it rings out.

    ring_s: a T60 that it dies with once it has sounded for SOUNDED frames, where strokes come thick; 0: its own.
    """

    start: int
    stop: int
    stroke: VoiceStroke
    gain: float
    ring_s: float = 0.0


def length_frames(score: Score) -> int:
    """Length of the recording: to the end of the last bar, and TAIL_S."""
    return frame(score.clock.seconds(score.end_beat)) + round(TAIL_S * RATE_HZ)


def frames_at(clock: Clock, beats: Sequence[float]) -> NDArray[np.int64]:
    """The sample of each beat: the clock's seconds as floats, times the rate, rounded. Many beats at once."""
    bars = [clock.beat_of_bar(tempo.bar) for tempo in clock.tempi]
    bars[0] = Fraction(-clock.count_in_beats)  # the count-in takes the first tempo
    starts = np.array([float(beat) for beat in bars])
    seconds = np.array([float(second) for second in clock.many_seconds(bars)])
    a_beat = np.array([microseconds(tempo.bpm) / 1e6 for tempo in clock.tempi])
    at = np.array(beats, dtype=np.float64)
    tempo = np.maximum(np.searchsorted(starts, at, side="right") - 1, 0)
    frames = np.rint((seconds[tempo] + (at - starts[tempo]) * a_beat[tempo]) * RATE_HZ)
    return np.asarray(frames, dtype=np.int64)


def beat_frames(clock: Clock, beat: Fraction) -> int:
    """Frames from beat to beat in the tempo that holds there."""
    bars = [clock.beat_of_bar(tempo.bar) for tempo in clock.tempi]
    bpm = clock.tempi[max(0, bisect_right(bars, beat) - 1)].bpm
    return round(microseconds(bpm) / 1e6 * RATE_HZ)


def _spans(score: Score, part: Part) -> tuple[list[int], list[int]]:
    """First sample of every note, and the sample at its end. A sum of two beats is as exact as a beat alone."""
    begins, ends = [], []
    for note in part.notes:
        above, below = note.beat.as_integer_ratio()
        more, of = note.beats.as_integer_ratio()
        begins.append(above / below)
        ends.append((above * of + more * below) / (below * of))
    return frames_at(score.clock, begins).tolist(), frames_at(score.clock, ends).tolist()


def events_of(score: Score, part: Part, factor: float = 1.0) -> list[SoundEvent]:
    """The part's notes in order of time, each with its sound, its strength times `factor`."""
    names = [note.instrument or part.instrument for note in part.notes]
    voices = {name: voice_of(name) for name in set(names)}
    variants = {name: variants_of(voice) for name, voice in voices.items()}
    stopping = {name: voice.damped for name, voice in voices.items() if isinstance(voice, Struck)}
    groups = {seat.instrument: min(seat.count, seat.players, MOST_TOGETHER) for seat in part.seats}
    groups = {name: groups.get(name, 1) if strikes_together(voice) else 1 for name, voice in voices.items()}
    starts, stops = _spans(score, part)
    if late := _late(score, part):
        starts, stops = [start + late for start in starts], [stop + late for stop in stops]
    shaken = {name for name, voice in voices.items() if is_shaken_in_time(voice)}
    begun = set(zip(names, starts, strict=True))
    strengths = [factor * strength(velocity) for velocity in range(128)]
    events = []
    brief, long = ({name: is_held(voices[name], part.texture, beats) for name in voices} for beats in (0, 1))
    for index, (note, name, start, stop) in enumerate(zip(part.notes, names, starts, stops, strict=True)):
        held = brief[name] or (long[name] and note.beats >= 1)
        damped = stopping.get(name, "never")
        stopped = held or damped == "note" or (damped == "rest" and (name, stop) not in begun)
        stroke = stroke_of(
            name,
            note.midi,
            note.velocity,
            note.brightness,
            turn=0 if held else index % variants[name],
            held=held,
            players=1 if held or note.player else groups[name],
            shake=beat_frames(score.clock, note.beat) if held and name in shaken else 0,
        )
        events.append(SoundEvent(start, stop if stopped else 0, stroke, strengths[note.velocity]))
    events.sort(key=BY_START)
    if any(isinstance(voice, Recorded) for voice in voices.values()):
        events = _given_way(events)
    return _shortened(events)


def _given_way(events: list[SoundEvent]) -> list[SoundEvent]:
    """The events, those of a recorded sound stopped where the next of the kind begins."""
    starts: dict[str, list[int]] = {}
    for event in events:
        starts.setdefault(event.stroke.instrument, []).append(event.start)
    own = {name: sorted(set(every)) for name, every in starts.items() if isinstance(voice_of(name), Recorded)}
    after = {name: dict(pairwise(every)) for name, every in own.items()}
    return [
        event._replace(stop=after.get(event.stroke.instrument, {}).get(event.start, event.stop)) for event in events
    ]


def _late(score: Score, part: Part) -> int:
    """Frames by which a part is behind those before it on the same tuned instrument: struck in the very same sample
    their waves would add up as one, 6 dB louder for two and not 3."""
    voice = voice_of(part.instrument)
    if not isinstance(voice, Struck) or voice.first_hz:  # what has a pitch of its own is no tuned instrument
        return 0
    names = [other.name for other in score.parts]
    before = score.parts[: names.index(part.name)] if part.name in names else ()
    return round(APART_S * RATE_HZ) * sum(other.instrument == part.instrument for other in before)


def _shortened(events: list[SoundEvent]) -> list[SoundEvent]:
    """The events, their rings cut short where more strokes follow soon."""
    longest = {event.stroke.instrument: 0.0 for event in events}
    longest = {name: ring_of(name) for name in longest}
    if max(longest.values(), default=0.0) <= RINGS_S[0]:
        return events
    starts = np.array(sorted({event.start for event in events}))
    over = np.append(starts[STROKES_OVER:], np.full(min(STROKES_OVER, starts.size), np.iinfo(np.int64).max // 2))
    until_s = dict(zip(starts.tolist(), ((over - starts) / RATE_HZ).tolist(), strict=True))
    out = []
    for event in events:
        length_s = next((ring_s for ring_s in RINGS_S if ring_s >= until_s[event.start]), 0.0)
        short = length_s and not event.stroke.held and length_s < longest[event.stroke.instrument]
        out.append(event._replace(ring_s=length_s) if short else event)
    return out
