"""Notes as sounds: when each begins, what it sounds like, how strong it is, and where it is stopped."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass
from fractions import Fraction

import numpy as np
from numpy.typing import NDArray

from sonify.records.clock import Clock, microseconds
from sonify.records.score import Part, Score
from sonify.sound.rate import RATE_HZ, frame
from sonify.sound.voices.bank import (
    MOST_TOGETHER,
    Stroke,
    is_held,
    strength,
    strikes_together,
    stroke_of,
    variants_of,
    voice_of,
)
from sonify.sound.voices.records import Struck

#: After the last beat: what still rings, the last part of it drawn to silence.
TAIL_S, FADE_S = 4.0, 1.5


@dataclass(frozen=True, slots=True)
class Event:
    """One note to sound. stop: where a held note ends or a hand stops a ringing one; 0: it rings out."""

    start: int
    stop: int
    stroke: Stroke
    gain: float


def length_frames(score: Score) -> int:
    """Length of the recording: to the end of the last bar, and TAIL_S."""
    return frame(score.clock.seconds(score.end_beat)) + round(TAIL_S * RATE_HZ)


def frames_of(clock: Clock, beats: Sequence[Fraction]) -> NDArray[np.int64]:
    """The sample of each beat: the clock's seconds as floats, times the rate, rounded. Many beats at once."""
    bars = [clock.beat_of_bar(tempo.bar) for tempo in clock.tempi]
    bars[0] = Fraction(-clock.count_in_beats)  # the count-in takes the first tempo
    starts = np.array([float(beat) for beat in bars])
    seconds = np.array([float(second) for second in clock.many_seconds(bars)])
    a_beat = np.array([microseconds(tempo.bpm) / 1e6 for tempo in clock.tempi])
    at = np.array([beat.numerator / beat.denominator for beat in beats])
    tempo = np.maximum(np.searchsorted(starts, at, side="right") - 1, 0)
    frames = np.rint((seconds[tempo] + (at - starts[tempo]) * a_beat[tempo]) * RATE_HZ)
    return np.asarray(frames, dtype=np.int64)


def events_of(score: Score, part: Part) -> list[Event]:
    """The part's notes in order of time, each with its sound."""
    names = [note.instrument or part.instrument for note in part.notes]
    voices = {name: voice_of(name) for name in set(names)}
    variants = {name: variants_of(voice) for name, voice in voices.items()}
    stopping = {name: voice.damped for name, voice in voices.items() if isinstance(voice, Struck)}
    groups = {seat.instrument: min(seat.count, seat.players, MOST_TOGETHER) for seat in part.seats}
    groups = {name: groups.get(name, 1) if strikes_together(voice) else 1 for name, voice in voices.items()}
    starts = frames_of(score.clock, [note.beat for note in part.notes]).tolist()
    stops = frames_of(score.clock, [note.beat + note.beats for note in part.notes]).tolist()
    begun = set(zip(names, starts, strict=True))
    events = []
    for index, (note, name) in enumerate(zip(part.notes, names, strict=True)):
        held = is_held(voices[name], part.texture, note.beats)
        damped = stopping.get(name, "never")
        stopped = held or damped == "note" or (damped == "rest" and (name, stops[index]) not in begun)
        stroke = stroke_of(
            name,
            note.midi,
            note.velocity,
            note.brightness,
            turn=0 if held else index % variants[name],
            held=held,
            players=1 if held or note.player else groups[name],
        )
        events.append(Event(starts[index], stops[index] if stopped else 0, stroke, strength(note.velocity)))
    return sorted(events, key=lambda event: event.start)
