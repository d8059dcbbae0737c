from __future__ import annotations

from dataclasses import replace
from itertools import product

import numpy as np
import pyloudnorm
import pytest

from sonify.records.score import COUNT_IN, Score
from sonify.sound import standing
from sonify.sound.balance import balance
from sonify.sound.ducking import is_noise
from sonify.sound.events import events_of
from sonify.sound.levelling import stage_edges_s
from sonify.sound.rate import BLOCK, RATE_HZ
from sonify.sound.room import Room
from sonify.sound.seating import places, sides
from sonify.sound.standing import MOST_DB, made_up
from sonify.sound.voices.bank import Bank, stroke_of
from tests.sample import sample_score
from tests.sound.recording import read, record, without_beds


def all_mezzo_forte() -> Score:
    score = without_beds(sample_score())
    parts = tuple(replace(p, notes=tuple(replace(n, velocity=70) for n in p.notes)) for p in score.parts)
    return replace(score, parts=parts)


def test_groups_that_play_equally_strongly_are_equally_loud_but_for_noise_which_lies_under_them() -> None:
    """A drone of beads, single bars, a scatter and a roll, measured in the stems by another meter."""
    meter = pyloudnorm.Meter(44_100, filter_class="DeMan")
    score = all_mezzo_forte()
    stems = record(score).stems
    noise = {part.name for part in score.parts if is_noise(part)}
    loudness = {name: meter.integrated_loudness(read(wav).T) for name, wav in stems.items() if name != COUNT_IN}
    tones = [level for name, level in loudness.items() if name not in noise]
    assert max(tones) - min(tones) < 4.5, loudness
    assert noise, "the sample has a part of noise"
    for name in noise:
        assert np.median(tones) - 10.0 < loudness[name] < np.median(tones) - 1.0, loudness


def test_within_a_stage_dynamics_keep_their_order_and_are_narrowed_by_one_factor_or_by_another_under_a_rule() -> None:
    score = sample_score()
    balanced = balance(score)
    edges = stage_edges_s(score) * RATE_HZ
    for part, played, place in zip(score.parts, balanced.events, places(score), strict=True):
        plain = events_of(score, part)
        inside = [n for n, event in enumerate(plain) if edges[0] + RATE_HZ < event.start < edges[1] - RATE_HZ]
        written = np.log(np.array([plain[n].gain for n in inside]))
        room = [made_up(played[n].stroke.instrument, played[n].stroke.midi, *sides(place)) for n in inside]
        heard = np.log(np.array([played[n].gain for n in inside]) / room)
        left = balanced.levels.ruled if "dynamics" in part.ruled else balanced.levels.narrowed
        moved = heard - left * written
        np.testing.assert_allclose(moved, moved[:1].repeat(len(inside)), atol=1e-9)


def test_groups_on_one_tuned_instrument_do_not_strike_in_the_same_sample() -> None:
    """One wave on its like makes 6 dB, two groups make 3: players of an ensemble are some 30 ms apart (Rasch 1979, from
    memory); so little is heard as one stroke. Drums and shakers are as they were."""
    score = sample_score()
    tune = next(part for part in score.parts if part.instrument == "soprano-glockenspiel")
    for instrument, apart_s in (("soprano-glockenspiel", 0.007), ("claves", 0.0)):
        first = replace(tune, instrument=instrument, notes=tuple(replace(n, instrument="") for n in tune.notes))
        pair = replace(score, parts=(first, replace(first, name="The other group")))
        one, other = (np.array([event.start for event in events_of(pair, part)]) for part in pair.parts)
        np.testing.assert_allclose((other - one) / RATE_HZ, apart_s, atol=1.0 / RATE_HZ)


def test_parts_without_notes_do_no_harm() -> None:
    score = sample_score()
    empty = replace(score, parts=tuple(replace(part, notes=()) for part in score.parts))
    assert balance(empty).events == [[] for _ in score.parts]


@pytest.mark.parametrize(
    ("instrument", "held"), [("alto-xylophone", False), ("alto-metallophone", False), ("recorder", True)]
)
def test_the_notes_of_an_instrument_come_as_loud_as_each_other_out_of_the_room(instrument: str, held: bool) -> None:
    """Whole strokes at three places with the room's answer, measured by another meter than the one that levels."""
    bank, plain_db, made_up_db = Bank(3), [], []
    for place in (-0.72, 0.0, 0.36):
        left, right = sides(place)
        for midi in range(72, 84, 2):
            shot = bank.shot(stroke_of(instrument, midi, 70, 0.5, turn=0, held=held))
            dry = np.tile(shot.loop, 4)[:RATE_HZ] if held else shot.samples
            heard_db = loudness_db(in_the_room(dry, left, right)) - loudness_db(np.array([dry]))
            plain_db.append(heard_db)
            made_up_db.append(heard_db + 20.0 * np.log10(made_up(instrument, midi, left, right)))
    assert np.std(plain_db) > 1.3, "the room has its own way with each note"
    assert np.std(made_up_db) < 0.6 * np.std(plain_db)
    assert np.std(made_up_db) < 1.3


def test_no_note_is_moved_beyond_the_limit_and_none_that_we_have_reaches_it(monkeypatch: pytest.MonkeyPatch) -> None:
    def moved_db() -> list[float]:
        notes = product(("voices-mm", "bass-bar"), range(48, 85, 2), (-0.5, 0.25))
        return [20.0 * np.log10(made_up.__wrapped__(name, midi, *sides(place))) for name, midi, place in notes]

    asked = moved_db()
    assert -MOST_DB < min(asked) < -3.0 and 6.0 < max(asked) < MOST_DB, "the room takes more from low C than 6 dB"
    monkeypatch.setattr(standing, "MOST_DB", 3.0)
    held = moved_db()
    assert (min(held), max(held)) == pytest.approx((-3.0, 3.0)) and held == pytest.approx(np.clip(asked, -3.0, 3.0))


def in_the_room(dry: np.ndarray, left: float, right: float) -> np.ndarray:
    blocks = -(-(dry.size + RATE_HZ // 2) // BLOCK)
    whole = np.zeros((2, blocks * BLOCK), dtype=np.float32)
    whole[:, : dry.size] = np.outer((left, right), dry)
    room, out = Room(), whole.copy()
    for block in range(blocks):
        span = slice(block * BLOCK, (block + 1) * BLOCK)
        room.add(whole[:, span], out[:, span])
    return out


def loudness_db(sound: np.ndarray) -> float:
    """K-weighted energy by pyloudnorm's filters."""
    meter = pyloudnorm.Meter(RATE_HZ, filter_class="DeMan")
    for stage in meter._filters.values():
        sound = np.array([stage.apply_filter(channel.astype(float)) for channel in sound])
    return float(10.0 * np.log10(np.sum(np.square(sound))))
