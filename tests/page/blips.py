"""Sounds for page tests: a sine blip a pitch, so that the page is tested without the sound room."""

from __future__ import annotations

import numpy as np

from sonify.records.score import Score
from sonify.records.sounds import PageBed, PageEvent, PageRoom, PageSample, PageSounds

RATE_HZ = 22_050
#: A recording begins sounds on whole samples: as early as this, at worst.
HALF_A_SAMPLE_S = 0.5 / 44_100


def blip(hz: float, lasts_s: float, *, decay_s: float) -> bytes:
    t = np.arange(round(RATE_HZ * lasts_s)) / RATE_HZ
    wave = 0.5 * np.sin(2 * np.pi * hz * t) * np.exp(-t / decay_s)
    return np.round(wave * 32767).astype("<i2").tobytes()


def echo() -> PageRoom:
    """A room of a third of a second: noise that dies away, without what a page could not carry to another rate."""
    t = np.arange(RATE_HZ // 3) / RATE_HZ
    noise = np.random.default_rng(3).standard_normal((2, t.size)) * np.exp(-t / 0.05) * np.minimum(1.0, t / 0.01)
    spectrum = np.fft.rfft(noise) * (np.fft.rfftfreq(t.size, 1 / RATE_HZ) < 9000)
    ears = [np.round(8000 * ear).astype("<i2").tobytes() for ear in np.fft.irfft(spectrum, t.size)]
    return PageRoom(rate_hz=RATE_HZ, ears=(ears[0], ears[1]), gain=0.1)


def blips(score: Score) -> PageSounds:
    """A blip for every note, one sample a pitch, and one steady loop for every bed."""
    pitches = sorted({note.midi for part in score.parts for note in part.notes})
    samples = [
        PageSample(name=f"blip {midi}", pcm=blip(440 * 2 ** ((midi - 69) / 12), 0.5, decay_s=0.12)) for midi in pitches
    ]
    samples.append(PageSample(name="hum", pcm=blip(110.0, 1.0, decay_s=1e9), loop=True))
    clock = score.clock
    events = []
    for index, part in enumerate(score.parts):
        for note in part.notes:
            start, end = clock.many_seconds([note.beat, note.beat + note.beats])
            events.append(
                PageEvent(
                    time_s=max(0.0, float(start) - HALF_A_SAMPLE_S),
                    part=index,
                    sample=pitches.index(note.midi),
                    gain=0.3 * note.velocity / 127,
                    pan=-0.5 + index / len(score.parts),
                    duration_s=float(end - start) if part.texture == "drone" else 0.0,
                )
            )
    beds = tuple(
        PageBed(sample=len(pitches), levels=tuple((float(clock.seconds(b)), 0.02 * v) for b, v in bed.levels))
        for bed in score.beds
    )
    return PageSounds(rate_hz=RATE_HZ, samples=tuple(samples), events=tuple(events), beds=beds, room=echo())
