"""One group as loud as another: what the notes alone say of how loud each part will be, and what that is made up by.

Every sound is made with one K-weighted energy (BS.1770), so loudness can be told from when notes come, how long they
are held and how long they ring. A steady drone is far louder than single strokes of the same strength; with this they
come out alike, and what dynamics and density do within a part stays in its order.
"""

from __future__ import annotations

import math
import threading
from collections.abc import Sequence
from dataclasses import fields
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from sonify.frozen import dataclass
from sonify.kinds.marks import DYNAMICS
from sonify.records.score import COUNT_IN, Bed, Part, PlayedLevels, Score
from sonify.sound.beds import corners
from sonify.sound.ducking import DUCK_STEP, ducked, is_noise
from sonify.sound.events import SoundEvent, events_of, length_frames
from sonify.sound.levelling import (
    NARROWED,
    Heard,
    Levels,
    in_order_of_part,
    levels_for,
    lifted,
    stage_edges_s,
    stage_levels_db,
)
from sonify.sound.loudness import integrated_lufs, quantile
from sonify.sound.masking import unmasked_db
from sonify.sound.rate import HOP, RATE_HZ, Floats, Samples
from sonify.sound.seating import places, sides
from sonify.sound.standing import made_up
from sonify.sound.voices.bank import note_hz, strength, voice_of
from sonify.sound.voices.blows import HIGHEST_HZ, MEZZO_FORTE, WINDOW, blow_gain, contact_s, ring_times
from sonify.sound.voices.modal import LN_1000
from sonify.sound.voices.recorded import forget, learn
from sonify.sound.voices.records import Struck
from sonify.sound.weighting import power_response

#: A part is made louder or softer by at most so much (ours).
MOST_DB = 8.0
#: Noise hides more than it says: parts of shakers, beads and hiss lie so much under the others.
NOISE_UNDER_DB = 5.0
WINDOW_S = WINDOW / 44_100
SWELLING = 0.7  # mean square of the envelopes of held sounds that swell, about
#: The mark that keeps its level when the others are drawn nearer to it.
MIDDLE = strength(DYNAMICS["mf"])


@dataclass(frozen=True, slots=True, eq=False)
class Sketch:
    """A part's energies before they are rendered: which hop of 100 ms, how much for a gain of 1, and the gain."""

    at: NDArray[np.intp]
    energy: Floats
    gain: Floats

    def hops(self, count: int, narrowed: float = 1.0) -> Floats:
        """K-weighted mean square of every 100 ms, guessed; marks drawn together by a factor."""
        return np.asarray(np.bincount(self.at, self.energy * narrow(self.gain, narrowed) ** 2, count), dtype=float)


@dataclass(frozen=True, slots=True, kw_only=True, eq=False)
class Balance:
    """Every part's sounds with their gains as they are played, how the piece was levelled, and for each part what it is
    lowered by where it gives way to others (see `ducking`), or None."""

    events: list[list[SoundEvent]]
    levels: Levels
    under: list[Samples | None]


def narrow(gain: Floats, factor: float) -> Floats:
    """Gains with the decibels between them times `factor`, mezzo forte unmoved."""
    return np.asarray(MIDDLE * (gain / MIDDLE) ** factor)


@lru_cache(maxsize=4096)
def ringing(instrument: str, midi: int, ring_s: float) -> float:
    """Energy of a whole stroke over that of its first 93 ms, from its partials; ring_s: where it is cut short."""
    voice = voice_of(instrument)
    if not isinstance(voice, Struck):
        return 1.0
    first_hz = voice.first_hz[0] if voice.first_hz else note_hz(midi)
    ratios = np.array(voice.ratios)
    hz = ratios * first_hz
    power = 10.0 ** (np.array(voice.levels_db) / 10.0) * blow_gain(hz, contact_s(voice, MEZZO_FORTE, 0.5)) ** 2
    power *= power_response(np.minimum(hz, HIGHEST_HZ)) * (hz < HIGHEST_HZ)
    rate = 2.0 * LN_1000 / ring_times(voice, first_hz)
    begun = np.sum(power * -np.expm1(-rate * WINDOW_S) / rate)
    later = rate + (2.0 * LN_1000 / ring_s if ring_s else 0.0)
    return float(1.0 + np.sum(power * np.exp(-rate * WINDOW_S) / later) / begun)


def sketch(events: Sequence[SoundEvent]) -> Sketch:
    at: list[int] = []
    energies: list[float] = []
    gains: list[float] = []
    for event in events:
        stroke = event.stroke
        if stroke.held:
            hops = range(event.start // HOP, event.stop // HOP + 1)
            at += hops
            energies += [SWELLING] * len(hops)
            gains += [event.gain] * len(hops)
            continue
        at.append(event.start // HOP)
        energies.append(ringing(stroke.instrument, stroke.midi, event.ring_s) * WINDOW_S * 10.0)
        gains.append(event.gain)
    return Sketch(np.array(at, dtype=np.intp), np.array(energies), np.array(gains))


def hops_of(score: Score) -> int:
    return length_frames(score) // HOP + 2


def part_changes_db(score: Score, sketches: Sequence[Sketch]) -> list[float]:
    """What each part is made louder or softer by, so that groups would be equally loud if all struck equally hard."""
    count = hops_of(score)
    levels = [integrated_lufs(np.bincount(one.at, one.energy, count).astype(float)) for one in sketches]
    groups = [
        level for part, level in zip(score.parts, levels, strict=True) if part.name != COUNT_IN and math.isfinite(level)
    ]
    middle = quantile(np.array(groups), 0.5) if groups else 0.0
    changes = [
        min(MOST_DB, max(-MOST_DB, middle - level)) if groups and math.isfinite(level) else 0.0 for level in levels
    ]
    return [
        change - (NOISE_UNDER_DB if is_noise(part) else 0.0) for part, change in zip(score.parts, changes, strict=True)
    ]


def bed_hops(score: Score) -> Floats:
    """Guessed energies of the natural sounds."""
    hops = np.zeros(hops_of(score))
    for bed in score.beds:
        hops += _bed_levels(score, bed, np.arange(hops.size) * HOP / RATE_HZ) ** 4
    return hops


def _bed_levels(score: Score, bed: Bed, times_s: Floats) -> Floats:
    return np.asarray(np.interp(times_s, *corners(score, bed)))


#: The newest Score that was levelled: the mix, the stems and the page ask one after another.
_newest: list[tuple[Score, Balance]] = []
_forgot = 0  # how often recordings were forgotten: what was begun before is not remembered
_lock = threading.Lock()


def balance(score: Score) -> Balance:
    """All sounds of a Score, levelled: groups alike at one dynamic, noise under tones, quiet stages not too quiet."""
    learn(score.sounds)
    with _lock:
        newest, forgot = _newest[0] if _newest else None, _forgot
    if newest is not None and _plays_as(newest[0], score):
        return newest[1]
    made = _balanced(score)
    with _lock:
        if forgot == _forgot:
            _newest[:] = [(score, made)]
    return made


def forget_recordings(key: str = "") -> None:
    """What pupils recorded is remembered no longer. key: how the digest of its file begins, "" for all of it."""
    global _forgot
    forget(key)
    with _lock:
        _newest.clear()
        _forgot += 1


def _plays_as(one: Score, other: Score) -> bool:
    """Whether two Scores hold the very same records, what was found of their levels apart."""
    return all(
        getattr(one, field.name) is getattr(other, field.name) for field in fields(Score) if field.name != "levels"
    )


def _balanced(score: Score) -> Balance:
    played = [events_of(score, part) for part in score.parts]
    sketches = [sketch(events) for events in played]
    factors = [10.0 ** (change / 20.0) for change in part_changes_db(score, sketches)]
    under = ducked(score, played)
    means = [1.0 if curve is None else float(np.sqrt(np.mean(curve**2))) for curve in under]
    heard = _heard(score, played, sketches, [f * mean for f, mean in zip(factors, means, strict=True)])
    levels = levels_for(score, heard)
    out = _levelled(score, played, factors, levels)
    if score.sections:
        levels = lifted(score, heard, levels, _unmasked_db(score, _under(out, under), heard, levels))
        out = _levelled(score, played, factors, levels)
    return Balance(events=_in_the_room(score, out), levels=levels, under=under)


def _in_the_room(score: Score, events: Sequence[Sequence[SoundEvent]]) -> list[list[SoundEvent]]:
    """The sounds made up for what the room adds to some pitches and takes from others, each at its place."""
    out = []
    for place, own in zip(places(score), events, strict=True):
        left, right = sides(place)
        makes = {
            (name, midi): made_up(name, midi, left, right)
            for name, midi in {(one.stroke.instrument, one.stroke.midi) for one in own}
        }
        out.append(_with_gains(own, [one.gain * makes[one.stroke.instrument, one.stroke.midi] for one in own]))
    return out


def _with_gains(events: Sequence[SoundEvent], gains: Sequence[float]) -> list[SoundEvent]:
    return [
        SoundEvent(start, stop, stroke, gain, ring_s)
        for (start, stop, stroke, _, ring_s), gain in zip(events, gains, strict=True)
    ]


def _narrowed(part: Part, free: float, ruled: float) -> float:
    """What is left of the decibels between a part's marks; where a rule sets them they tell of the science."""
    return ruled if "dynamics" in part.ruled else free


def _levelled(
    score: Score, played: Sequence[Sequence[SoundEvent]], factors: Sequence[float], levels: Levels
) -> list[list[SoundEvent]]:
    out = []
    for row, (events, factor) in enumerate(zip(played, factors, strict=True)):
        gains = np.array([event.gain for event in events], dtype=float)
        at_s = np.array([event.start for event in events], dtype=float) / RATE_HZ
        narrowed = narrow(gains, _narrowed(score.parts[row], levels.narrowed, levels.ruled))
        out.append(_with_gains(events, (factor * narrowed * levels.lift(row, at_s)).tolist()))
    return out


def _under(events: Sequence[Sequence[SoundEvent]], under: Sequence[Samples | None]) -> list[list[SoundEvent]]:
    """The sounds as they are heard where noise gives way to tones."""
    return [
        list(own)
        if curve is None
        else _with_gains(own, [event.gain * float(curve[event.start // DUCK_STEP]) for event in own])
        for own, curve in zip(events, under, strict=True)
    ]


def _unmasked_db(score: Score, events: Sequence[Sequence[SoundEvent]], heard: Heard, levels: Levels) -> Floats:
    """What lifts covered parts over those that cover them, no part's own stages turned round."""
    edges, at_s = stage_edges_s(score), np.arange(hops_of(score)) * HOP / RATE_HZ
    beds = heard.hops[0][-1] * levels.lift(-1, at_s) ** 2
    more = unmasked_db(score, events, beds, edges, lambda row, db: in_order_of_part(heard, levels, edges, row, db))
    return np.vstack([more, np.zeros(edges.size - 1)])


def _heard(
    score: Score, played: Sequence[Sequence[SoundEvent]], sketches: Sequence[Sketch], factors: Sequence[float]
) -> Heard:
    count, beds = hops_of(score), bed_hops(score)
    hops = [
        np.array(
            [
                *(
                    f * f * one.hops(count, _narrowed(part, *factors_of_marks))
                    for f, one, part in zip(factors, sketches, score.parts, strict=True)
                ),
                beds,
            ]
        )
        for factors_of_marks in NARROWED
    ]
    if not score.sections:
        return Heard(hops=hops, own_db=())
    edges = stage_edges_s(score)
    own = [
        [_written_db(events, edges)] if "dynamics" in part.ruled and events else []
        for part, events in zip(score.parts, played, strict=True)
    ]
    at_s = np.arange(count) * HOP / RATE_HZ
    natural = [stage_levels_db(_bed_levels(score, bed, at_s) ** 4, edges) for bed in score.beds]
    return Heard(hops=hops, own_db=(*own, natural))


def _written_db(events: Sequence[SoundEvent], edges_s: Floats) -> Floats:
    """The mean level of a part's strokes in each stage; nan where it is silent."""
    stage = np.searchsorted(np.rint(edges_s * RATE_HZ), [event.start for event in events], side="right") - 1
    levels = 20.0 * np.log10([event.gain for event in events])
    inside = (stage >= 0) & (stage < edges_s.size - 1)
    count = np.bincount(stage[inside], minlength=edges_s.size - 1)
    total = np.bincount(stage[inside], levels[inside], edges_s.size - 1)
    return np.where(count > 0, total / np.maximum(count, 1), math.nan)


def played_levels(score: Score) -> PlayedLevels:
    """What a Score's marks and stages come to in its recording."""
    levels = balance(score).levels
    edges = stage_edges_s(score) if score.sections else np.zeros(1)
    middles = 0.5 * (edges[1:] + edges[:-1])
    lifts = (np.interp(middles, levels.times_s, row) for row in levels.lifts_db[:-1])
    return PlayedLevels(
        narrowed=levels.narrowed,
        ruled=levels.ruled,
        lifts_db=tuple(tuple(round(float(db), 2) for db in row) for row in lifts),
    )
