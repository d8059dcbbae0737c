from __future__ import annotations

from dataclasses import replace

import numpy as np

from sonify.sound.estimate import provisional_gain
from sonify.sound.live import stream_blocks
from sonify.sound.page import PAGE_RATE_HZ, page_sounds
from tests.sample import sample_score
from tests.sound.recording import recording


def test_the_page_has_every_note_at_its_time_and_fits() -> None:
    score = sample_score()
    sounds = page_sounds(score)
    times = sorted((float(score.clock.seconds(n.beat)), i) for i, p in enumerate(score.parts) for n in p.notes)
    assert len(sounds.events) == len(times)
    for event, (time_s, part) in zip(sounds.events, times, strict=True):
        assert abs(event.time_s - time_s) < 1e-4 and event.part == part
    assert sum(len(s.pcm) for s in sounds.samples) * 4 / 3 < 6e6


def test_a_small_budget_is_kept_by_telling_fewer_sounds_apart() -> None:
    sounds = page_sounds(sample_score(), budget_bytes=1_300_000)
    assert sum(len(s.pcm) for s in sounds.samples) <= 1_300_000
    assert len(sounds.events) == len(page_sounds(sample_score()).events)


def test_the_page_mixed_is_as_loud_as_the_recording() -> None:
    """Mixed as a browser would, without the room, it lies within 3 dB of the recording, part by part in time."""
    score = replace(sample_score(), beds=())
    gain = recording().rendering.gain
    sounds = page_sounds(score, gain=gain)
    out = np.zeros((2, 60 * PAGE_RATE_HZ))
    for event in sounds.events:
        sample = sounds.samples[event.sample]
        pcm = np.frombuffer(sample.pcm, "<i2") / 32_768 * event.gain
        if event.duration_s:
            length = round((event.duration_s + 0.05) * PAGE_RATE_HZ)
            pcm = np.resize(pcm, length) if sample.loop else pcm[:length]
        start = round(event.time_s * PAGE_RATE_HZ)
        angle = (event.pan + 1) * np.pi / 4
        out[0, start : start + pcm.size] += pcm * np.cos(angle)
        out[1, start : start + pcm.size] += pcm * np.sin(angle)
    from sonify.sound.mixing import blocks_of
    from sonify.sound.voices.bank import Bank

    mix = np.concatenate(list(blocks_of(score, Bank(score.seed))), axis=1) * gain
    for start, end in ((0, 7), (8, 20), (21, 35)):
        page = np.sqrt(np.mean(out[:, start * PAGE_RATE_HZ : end * PAGE_RATE_HZ] ** 2))
        room = np.sqrt(np.mean(mix[:, start * 44_100 : end * 44_100] ** 2))
        assert abs(20 * np.log10(page / room)) < 3.0


def test_the_guessed_gain_is_near_the_measured_one() -> None:
    guess = provisional_gain(sample_score())
    assert abs(20 * np.log10(guess / recording().rendering.gain)) < 3.0


def test_live_blocks_are_the_recording_from_any_beat() -> None:
    score = sample_score()
    whole = np.concatenate(list(stream_blocks(score)))
    assert whole.shape == (recording().rendering.frames, 2)
    assert np.abs(whole).max() <= 0.89 + 1e-6
    part = np.concatenate(list(stream_blocks(score, 8)))
    assert len(part) == len(whole) - round(float(score.clock.seconds(8)) * 44_100)
    assert np.abs(part[:44_100]).max() > 0.01
