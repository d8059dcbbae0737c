"""Every sound a Score needs, made once, when first asked for."""

from __future__ import annotations

import zlib
from dataclasses import replace
from fractions import Fraction
from functools import lru_cache

import numpy as np

from sonify.errors import UnknownName
from sonify.frozen import dataclass
from sonify.kinds.marks import DYNAMICS
from sonify.records.instrument import stands_for
from sonify.sound.rate import RATE_HZ
from sonify.sound.voices import blows, breath, grains
from sonify.sound.voices.further import FURTHER_TUNED, FURTHER_UNTUNED
from sonify.sound.voices.keeping import KeptVoice, folded, kept
from sonify.sound.voices.noise import burst
from sonify.sound.voices.recorded import recorded
from sonify.sound.voices.recorded import stroke_of as recorded_stroke
from sonify.sound.voices.records import SILENT, Blown, Recorded, Shaken, Shot, Struck, Voice
from sonify.sound.voices.tuned import TUNED
from sonify.sound.voices.untuned import UNTUNED

VOICES: dict[str, Voice] = {**TUNED, **UNTUNED, **FURTHER_TUNED, **FURTHER_UNTUNED}

#: Spectra are made for the six dynamic marks (every other one for struck bodies) and five beaters; levels are exact.
#: Strokes alike come in variants: three of a short sound, two of one that rings.
MARKS = tuple(sorted(DYNAMICS.values()))
BEATERS, VARIANTS, RINGING_VARIANTS = 5, 3, 2
#: Sounds are kept up to this size; the longest unused are made again when wanted.
KEPT_BYTES = 108 << 20
FULL = 32_767.0
#: Pupils who strike together are this far apart at most (ours). Skilled trios spread by 30 to 50 ms (Rasch 1979, from
#: memory, not verified), but a recording to learn from should be crisper than a class.
LATEST_S, MOST_TOGETHER = 0.010, 3
CONCERT_A_HZ = 440.0


def strength(velocity: float) -> float:
    """Amplitude of a stroke against the strongest: 40 log10(v / 127) dB (the DLS law; GM 2 has it for volume).

    >>> round(strength(127), 3), round(strength(70), 3)
    (1.0, 0.304)
    """
    return float((velocity / 127.0) ** 2)


def note_hz(midi: int) -> float:
    """Equal temperament, A4 = 440 Hz (ISO 16).

    >>> round(note_hz(60), 4)
    261.6256
    """
    return float(CONCERT_A_HZ * 2.0 ** ((midi - 69) / 12.0))


def voice_of(instrument: str) -> Voice:
    if (own := recorded(instrument)) is not None:
        return own
    name = stands_for(instrument)
    if name not in VOICES:
        raise UnknownName("voice", name, VOICES)
    return VOICES[name]


@dataclass(frozen=True, slots=True)
class VoiceStroke:
    """What tells one sound from another. turn: which hand, side or variant. players: how many strike together. shake:
    frames from beat to beat for what is shaken on in time; 0 for all else."""

    instrument: str
    midi: int
    mark: int
    beater: int
    turn: int
    held: bool
    players: int = 1
    shake: int = 0


#: Velocity 0 to 127 to the nearest dynamic mark.
NEAREST_MARK = tuple(min(range(len(MARKS)), key=lambda mark: abs(MARKS[mark] - velocity)) for velocity in range(128))


def stroke_of(
    instrument: str,
    midi: int,
    velocity: int,
    brightness: float,
    *,
    turn: int,
    held: bool,
    players: int = 1,
    shake: int = 0,
) -> VoiceStroke:
    """The sound of a note, its velocity and brightness taken to the nearest that are made."""
    beater = min(BEATERS - 1, max(0, round(brightness * (BEATERS - 1))))
    return _stroke(instrument, midi, NEAREST_MARK[velocity], beater, turn, held, players, shake)


@lru_cache(maxsize=20_000)
def _stroke(
    instrument: str, midi: int, mark: int, beater: int, turn: int, held: bool, players: int, shake: int
) -> VoiceStroke:
    """One object for all strokes alike. A body that is struck sounds alike at two neighbouring marks: its beater stays
    on 14 % shorter at the stronger, which is the one that is made."""
    if isinstance(voice_of(instrument), Struck):
        mark |= 1
    return VoiceStroke(instrument, midi, mark, beater, turn, held, players, shake)


class Bank:
    """Shots by VoiceStroke. `seed` is the Score's: another seed, other strokes of the same instruments."""

    def __init__(self, seed: int) -> None:
        self._seed = seed
        self._shots: dict[VoiceStroke, KeptVoice] = {}  # in order of use, the latest last
        self._bytes = 0

    def shot(self, stroke: VoiceStroke) -> Shot:
        steps, unit, held = self.kept(stroke)
        return replace(held, samples=steps * unit)

    def kept(self, stroke: VoiceStroke) -> KeptVoice:
        """The stroke without unfolding it."""
        found = self._shots.pop(stroke, None)
        if found is None:
            if recorded(stroke.instrument) is None:
                found = kept(f"stroke {self._seed} {stroke}", lambda: folded(self._make(stroke), FULL))
            else:  # what pupils recorded stays in no cache
                found = folded(self._make(stroke), FULL)
            self._bytes += found.steps.nbytes + found.held.bytes
            while self._bytes > KEPT_BYTES and self._shots:
                oldest = self._shots.pop(next(iter(self._shots)))
                self._bytes -= oldest.steps.nbytes + oldest.held.bytes
        self._shots[stroke] = found
        return found

    def _rng(self, stroke: VoiceStroke) -> np.random.Generator:
        # Two strokes that differ only in strength or beater come from one draw: the same spot, struck otherwise.
        name = zlib.crc32(f"{stroke.instrument} {stroke.midi} {stroke.turn} {stroke.held}".encode())
        return np.random.Generator(np.random.SFC64(np.random.SeedSequence([self._seed & 0xFFFFFFFF, name])))

    def _make(self, stroke: VoiceStroke) -> Shot:
        voice, rng = voice_of(stroke.instrument), self._rng(stroke)
        if stroke.players > 1:
            return self._together(stroke, variants_of(voice), rng)
        power = strength(MARKS[stroke.mark])
        brightness = stroke.beater / (BEATERS - 1)
        if isinstance(voice, Recorded):
            return Shot(samples=recorded_stroke(voice), loop=SILENT, damp_s=voice.cut_s)
        if isinstance(voice, Struck):
            first_hz = voice.first_hz[stroke.turn % len(voice.first_hz)] if voice.first_hz else note_hz(stroke.midi)
            samples = blows.strike(voice, first_hz, power, brightness, rng)
            return Shot(samples=samples, loop=SILENT, damp_s=voice.damp_s if voice.damped != "never" else 0.0)
        if isinstance(voice, Shaken):
            if not stroke.held:
                return Shot(samples=grains.stroke(voice, power, brightness, rng), loop=SILENT)
            if stroke.shake:
                loop = grains.shaken_loop(voice, stroke.shake, power, brightness, rng)
            else:
                loop = grains.held_loop(voice, power, brightness, rng)
            return Shot(
                samples=SILENT, loop=loop, envelope=voice.envelope, attack_s=voice.attack_s, release_s=voice.release_s
            )
        return _blown_shot(voice, stroke, power, brightness, rng)

    def _together(self, stroke: VoiceStroke, variants: int, rng: np.random.Generator) -> Shot:
        """Several players on one beat: the first on it, the others a little after, each with a stroke of their own."""
        alone = [
            self.shot(replace(stroke, players=1, turn=(stroke.turn + k) % variants)).samples
            for k in range(stroke.players)
        ]
        late = [0, *np.sort(rng.uniform(0.002, LATEST_S, stroke.players - 1) * RATE_HZ).astype(int)]
        out = np.zeros(max(at + one.size for at, one in zip(late, alone, strict=True)), dtype=np.float32)
        for at, one in zip(late, alone, strict=True):
            out[at : at + one.size] += one
        return Shot(samples=blows.finished(out), loop=SILENT)


def _blown_shot(voice: Blown, stroke: VoiceStroke, power: float, brightness: float, rng: np.random.Generator) -> Shot:
    first_hz = voice.first_hz or (note_hz(stroke.midi) if voice.harmonics_db or voice.formants else 0.0)
    loop = breath.held_loop(voice, first_hz, power, brightness, rng)
    chiff = SILENT
    if voice.chiff:
        noise = burst(voice.chiff, brightness, rng)
        chiff = blows.finished(noise) * np.float32(10.0 ** (voice.chiff.level_db / 20.0))
    return Shot(
        samples=np.asarray(chiff, dtype=np.float32),
        loop=loop,
        envelope=voice.envelope,
        attack_s=voice.attack_s,
        release_s=voice.release_s,
    )


def sides_of(voice: Voice) -> int:
    """Hands or sides that strike in turn, each at a pitch of its own."""
    return max(1, len(voice.first_hz)) if isinstance(voice, Struck) else 1


def variants_of(voice: Voice) -> int:
    """How many strokes alike are told apart; a voice with two hands or sides has them in turn, twice."""
    if isinstance(voice, Recorded):
        return 1
    if not isinstance(voice, Struck):
        return VARIANTS
    if sides_of(voice) > 1:
        return 2 * sides_of(voice)
    return RINGING_VARIANTS if voice.ring_s > 0.6 else VARIANTS


def strikes_together(voice: Voice) -> bool:
    """Whether a group's strokes are made as several players': short sounds only, where it can be heard."""
    return not isinstance(voice, Blown | Recorded) and not (
        isinstance(voice, Struck) and (voice.ring_s > 0.6 or not voice.first_hz)
    )


def is_held(voice: Voice, texture: str, beats: Fraction | int) -> bool:
    """Whether a note is held for its length rather than struck once: breath always; shakers where they are shaken on,
    that is in a drone, or in a tremolo written as notes of a beat and more."""
    if isinstance(voice, Shaken):
        on = not (voice.ridges or voice.rattle)  # a scrape and a rattle go off once
        return voice.always_held or (on and texture in ("drone", "tremolo") and beats >= 1)
    return isinstance(voice, Blown)


def is_shaken_in_time(voice: Voice) -> bool:
    """Whether a hand that goes to and fro with the beat holds its sound."""
    return isinstance(voice, Shaken) and voice.in_time


def ring_of(instrument: str) -> float:
    """T60 of a struck body's first partial at its reference pitch, about as long as it is heard to ring; else 0."""
    voice = voice_of(instrument)
    return voice.ring_s if isinstance(voice, Struck) else 0.0


def longest_frames() -> int:
    """No stroke is longer than this, but for what pupils recorded."""
    return int(max(v.longest_s for v in VOICES.values() if isinstance(v, Struck)) * RATE_HZ) + 1
