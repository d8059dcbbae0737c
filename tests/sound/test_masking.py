"""Covered parts are lifted and those that cover them give way; where instruments sound, against their own strokes."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest

from sonify.records.played import played_db
from sonify.records.score import COUNT_IN, Part, Score
from sonify.sound.balance import balance, bed_hops, played_levels
from sonify.sound.bands import BANDS_HZ, bands_of
from sonify.sound.levelling import in_own_order, stage_edges_s
from sonify.sound.masking import unmasked_db
from sonify.sound.rate import RATE_HZ
from sonify.sound.voices.bank import Bank, stroke_of
from tests.sample import sample_score
from tests.sound.recording import without_beds


@pytest.mark.parametrize(
    ("instrument", "midi"), [("alto-xylophone", 72), ("alto-metallophone", 74), ("claves", 75), ("voices-oo", 67)]
)
def test_a_sound_is_strongest_in_the_band_that_its_row_says(instrument: str, midi: int) -> None:
    """Against the spectrum of a rendered stroke."""
    held = instrument.startswith("voices")
    shot = Bank(1).shot(stroke_of(instrument, midi, 70, 0.5, turn=0, held=held))
    samples = (shot.loop if held else shot.samples)[:16_384].astype(float)
    power = np.abs(np.fft.rfft(samples * np.hanning(samples.size))) ** 2
    hz = np.fft.rfftfreq(samples.size, 1.0 / RATE_HZ)
    measured = [power[np.abs(3.0 * np.log2(np.maximum(hz, 1.0) / band)) <= 0.5].sum() for band in BANDS_HZ]
    assert abs(int(np.argmax(measured)) - int(np.argmax(bands_of(instrument, midi)))) <= 1


def two_alike(softest: int) -> Score:
    """Two parts on one instrument, on the same notes and beats, the second so much softer."""
    score = without_beds(sample_score())
    tune = next(part for part in score.parts if part.texture == "melody")
    loud = replace(tune, name="loud", notes=tuple(replace(n, velocity=100) for n in tune.notes))
    soft = replace(tune, name="soft", notes=tuple(replace(n, velocity=softest) for n in tune.notes), texture="ostinato")
    return replace(score, parts=(score.parts[0], *(replace(one, ruled=("dynamics",)) for one in (loud, soft))))


def lifts(score: Score) -> dict[str, np.ndarray]:
    events, edges = balance(replace(score, loudness_range="wide")).events, stage_edges_s(score)
    plain = [[event._replace(gain=event.gain) for event in played] for played in events]
    found = unmasked_db(score, plain, bed_hops(score), edges, lambda row, db: in_own_order(db, []))
    return dict(zip([part.name for part in score.parts], found, strict=True))


def test_what_is_not_covered_stays_as_it_is() -> None:
    score = two_alike(98)
    apart = tuple(
        replace(p, notes=tuple(replace(n, beat=n.beat + (1 if p.name == "soft" else 0)) for n in p.notes))
        for p in score.parts
    )
    alone: tuple[Part, ...] = (apart[0], apart[1])
    assert not np.any(lifts(replace(score, parts=alone))["loud"])


def test_a_covered_part_is_lifted_and_the_one_over_it_gives_way() -> None:
    score = two_alike(40)
    whole = balance(replace(score, levels=None))
    rows = {part.name: row for row, part in enumerate(score.parts)}
    plain = replace(score, parts=tuple(replace(p, ruled=()) for p in score.parts))  # nothing tells of the science
    before, after = (
        np.log10([np.mean([event.gain for event in one.events[rows[name]]]) for name in ("soft", "loud")])
        for one in (balance(plain), whole)
    )
    assert after[0] - after[1] > before[0] - before[1] + 0.1
    assert COUNT_IN in rows


def test_what_is_said_to_be_played_is_what_sounds() -> None:
    """The levels of a Score's stages, against the gains of its strokes."""
    score = sample_score()
    score = replace(score, levels=played_levels(score))
    balanced, edges = balance(score), stage_edges_s(score) * RATE_HZ
    for row, part in enumerate(score.parts):
        if "dynamics" not in part.ruled:
            continue
        told = played_db(score, [part])
        stages = [np.nanmean(told[s.bar - 1 : s.bar - 1 + s.bars]) for s in score.sections if np.isfinite(told).any()]
        gains = [
            np.mean([20.0 * np.log10(event.gain) for event in balanced.events[row] if first <= event.start < last])
            for first, last in zip(edges, edges[1:], strict=False)
        ]
        np.testing.assert_allclose(np.diff(stages), np.diff(gains), atol=1.0)
