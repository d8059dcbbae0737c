"""What is held: shakers shake with the beat, singers swell."""

from __future__ import annotations

from dataclasses import replace
from fractions import Fraction

import numpy as np
import pytest
from numpy.typing import NDArray

from sonify.records.clock import Tempo
from sonify.records.score import Note, Part, Score
from sonify.sound.engine import Player
from sonify.sound.events import events_of
from sonify.sound.rate import BLOCK, RATE_HZ
from sonify.sound.showcase import showcase
from sonify.sound.voices.bank import Bank
from tests.catalogue import catalogue


def part_of(name: str, bpm: float, beats: int, texture: str = "drone", first: int = 1) -> tuple[Score, Part]:
    row = catalogue()[name]
    note = Note(
        beat=Fraction(first), beats=Fraction(beats), midi=row.low + 7 if row.pitched else row.gm_key, velocity=80
    )
    score = replace(showcase([row]), tempi=(Tempo(bar=1, bpm=bpm),), bars=4, parts=(), sections=())
    return score, Part(name="It", group=1, instrument=name, texture=texture, notes=(note,))


def played(name: str, bpm: float, beats: int, seed: int = 1) -> NDArray[np.float64]:
    """The dry sound of one held note, from its first sample to its last."""
    score, part = part_of(name, bpm, beats)
    events = events_of(score, part)
    player = Player(events, Bank(seed))
    sound = np.zeros((events[0].stop // BLOCK + 1) * BLOCK)
    for number in range(sound.size // BLOCK):
        block = player.block(number)  # lent until the next
        if block is not None:
            sound[number * BLOCK : (number + 1) * BLOCK] = block
    return sound[events[0].start : events[0].stop]


def levels(sound: NDArray[np.float64], frames: int) -> NDArray[np.float64]:
    return 10 * np.log10(np.mean(sound[: sound.size // frames * frames].reshape(-1, frames) ** 2, axis=1))


@pytest.mark.parametrize("name", ["maracas", "egg-shaker"])
@pytest.mark.parametrize(("bpm", "a_beat"), [(60.0, 4), (90.0, 4), (126.0, 2)])
def test_shakers_shake_with_the_beat(name: str, bpm: float, a_beat: int) -> None:
    """Strongest just after each beat; a clear dip before each stroke; as many strokes as go into a beat, in step."""
    sound = played(name, bpm, 8)
    stroke = 60 / bpm / a_beat * RATE_HZ
    eighths = np.array(
        [np.mean(sound[int(k * stroke / 8) : int((k + 1) * stroke / 8)] ** 2) for k in range(8 * 8 * a_beat)]
    )
    by_place = eighths.reshape(-1, 8)[1:].mean(axis=0)
    assert 10 * np.log10(by_place[:3].max() / by_place[-1]) > 8, "no dip before a stroke"
    by_stroke = eighths.reshape(8, a_beat, 8).mean(axis=(0, 2))
    assert by_stroke.argmax() == 0 and 10 * np.log10(by_stroke[0] / by_stroke[-1]) > 2, "no weight on the beat"


def test_a_shaker_keeps_its_loudness_from_beat_to_beat() -> None:
    found = levels(played("egg-shaker", 100.0, 12), round(0.6 * RATE_HZ))
    assert np.ptp(found[1:-1]) < 1.0


def course_db(name: str, bpm: float, beats: int) -> NDArray[np.float64]:
    """Level of a sung note in eight stretches, a mean of eight: a choir's own coming and going is in none of it."""
    power = []
    for seed in range(8):
        sound = played(name, bpm, beats, seed)
        power.append(np.mean(sound[: sound.size // 8 * 8].reshape(8, -1) ** 2, axis=1))
    return np.asarray(10 * np.log10(np.mean(power, axis=0)))


@pytest.mark.parametrize("name", ["voices-oo", "voices-mm"])
def test_singers_swell_and_give_way_within_a_long_note(name: str) -> None:
    found = course_db(name, 120.0, 8)
    crest = found[2:5].max()
    assert found.argmax() in (2, 3, 4)
    assert 2.0 < crest - found[0] < 8.0 and 2.0 < crest - found[-1] < 8.0


def test_a_short_note_is_sung_more_evenly() -> None:
    found = course_db("voices-oo", 120.0, 1)
    assert found.max() - found[-1] < 2.0
