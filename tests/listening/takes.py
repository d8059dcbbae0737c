"""Performances as sound: a class's own instruments or a General MIDI synthesiser, a room, a phone, talk and chairs.

The dry sound of two in three is made of the toolkit's strokes, of every third by FluidSynth with a sound font:

    apt-get install fluidsynth timgm6mb-soundfont
"""

from __future__ import annotations

import io
import shutil
import subprocess
import tempfile
from collections.abc import Iterable
from fractions import Fraction
from functools import lru_cache
from pathlib import Path
from typing import Any

import mido
import numpy as np
import soundfile
from scipy.signal import butter, fftconvolve, lfilter, resample_poly, sosfilt

from sonify.listening.frames import Heard, Listener
from sonify.sound.voices.bank import Bank, is_held, strength, stroke_of, variants_of, voice_of
from tests.listening.performances import Performance, Rng

RATE_HZ = 22_050
FONT = Path("/usr/share/sounds/sf2/TimGM6mb.sf2")
#: T60 and share of the sound that comes off the walls: a carpeted classroom, a bare one, a hall.
ROOMS = {"carpet": (0.45, 0.5), "bare": (0.8, 1.0), "hall": (1.5, 1.4)}
BANK = Bank(0)
_HALVED: dict[Any, np.ndarray] = {}


def has_fluidsynth() -> bool:
    return shutil.which("fluidsynth") is not None and FONT.exists()


def own_sound(played: Performance) -> np.ndarray:
    out = np.zeros(int(played.seconds * RATE_HZ) + 4 * RATE_HZ, dtype=np.float32)
    for turn, stroke in enumerate(played.strokes):
        samples = _shot(stroke, turn)
        at = int(max(0.0, stroke.time_s) * RATE_HZ)
        out[at : at + samples.size] += np.float32(strength(stroke.velocity)) * samples[: max(0, out.size - at)]
    return out


def _shot(stroke: Any, turn: int) -> np.ndarray:
    voice = voice_of(stroke.instrument)
    held = is_held(voice, "drone" if stroke.held else "", Fraction(stroke.length_s).limit_denominator(8))
    key = stroke_of(
        stroke.instrument,
        stroke.midi,
        min(127, 12 * round(stroke.velocity / 12)),
        stroke.brightness,
        turn=turn % variants_of(voice),
        held=held,
    )
    if key not in _HALVED:
        shot = BANK.shot(key)
        whole = shot.loop if held and shot.loop.size else shot.samples
        small = resample_poly(whole[: 3 * 44_100], 1, 2).astype(np.float32)
        if not held:
            fade = min(small.size, RATE_HZ // 4)
            small[-fade:] *= np.linspace(1, 0, fade, dtype=np.float32)
        _HALVED[key] = small
    samples = _HALVED[key]
    if not held or not samples.size:
        return samples
    length = max(RATE_HZ // 10, int(stroke.length_s * RATE_HZ))
    long = np.resize(samples, length)
    ramp = np.minimum(1.0, np.minimum(np.arange(length), length - np.arange(length)) / (0.04 * RATE_HZ))
    return long * ramp.astype(np.float32)


def font_sound(played: Performance) -> np.ndarray:
    """The same strokes as MIDI, by FluidSynth."""
    rows = {row["id"]: row for row in played.score["instruments"]}
    file = mido.MidiFile(ticks_per_beat=1000)
    track = mido.MidiTrack()
    file.tracks.append(track)
    track.append(mido.MetaMessage("set_tempo", tempo=1_000_000))
    channels: dict[int, int] = {}
    events: list[tuple[int, Any]] = []
    for stroke in played.strokes:
        row = rows[stroke.instrument]
        channel = 9
        if row["pitched"]:
            free = [n for n in range(16) if n != 9]
            if row["gm_program"] not in channels:
                channels[row["gm_program"]] = free[len(channels) % 15]
                number = row["gm_program"] - 1
                track.append(mido.Message("program_change", channel=channels[row["gm_program"]], program=number))
            channel = channels[row["gm_program"]]
        on, off = int(1000 * max(0.0, stroke.time_s)), int(1000 * (max(0.0, stroke.time_s) + stroke.length_s))
        events.append((on, mido.Message("note_on", channel=channel, note=stroke.midi, velocity=stroke.velocity)))
        events.append((off, mido.Message("note_off", channel=channel, note=stroke.midi)))
    now = 0
    for at, message in sorted(events, key=lambda one: one[0]):
        track.append(message.copy(time=at - now))
        now = at
    with tempfile.TemporaryDirectory() as folder:
        file.save(f"{folder}/a.mid")
        command = ["fluidsynth", "-ni", "-F", f"{folder}/a.wav", "-r", str(RATE_HZ), str(FONT), f"{folder}/a.mid"]
        subprocess.run(command, capture_output=True, check=True)
        samples, _ = soundfile.read(f"{folder}/a.wav", dtype="float32")
    return np.asarray(samples.mean(axis=1), dtype=np.float32)


def in_room(dry: np.ndarray, room: str, rng: Rng) -> np.ndarray:
    t60, share = ROOMS[room]
    time_s = np.arange(int(t60 * RATE_HZ)) / RATE_HZ
    tail = rng.normal(0.0, 1.0, time_s.size) * 10.0 ** (-3.0 * time_s / t60)
    tail *= time_s > 0.008
    tail = lfilter(*butter(1, 4000, fs=RATE_HZ), tail)
    tail *= share / np.sqrt(np.square(tail).sum())
    tail[0] += 1.0
    return np.asarray(fftconvolve(dry, tail)[: dry.size + RATE_HZ], dtype=np.float32)


def through_phone(samples: np.ndarray, rng: Rng) -> np.ndarray:
    """A phone's band, and its slow levelling, which no recording app can be talked out of everywhere."""
    band = butter(2, [180, 7500], btype="band", fs=RATE_HZ, output="sos")
    out = sosfilt(band, samples)
    follow = np.sqrt(lfilter([1 - 0.9999], [1, -0.9999], np.square(out)) + 1e-9)
    return np.asarray(out * (np.median(follow) / follow) ** rng.uniform(0.0, 0.25), dtype=np.float32)


def talk_and_chairs(length: int, rng: Rng) -> np.ndarray:
    """Three that talk by turns, and what is pushed and dropped. By formulae: pulses through moving formants."""
    out = np.zeros(length)
    for _ in range(3):
        f0 = rng.uniform(120, 300) * np.exp(0.15 * _smooth(length, 2.5, rng))
        phase = np.cumsum(f0 / RATE_HZ)
        source = np.diff(np.floor(phase), prepend=0.0) + 0.08 * rng.normal(size=length)
        voice = np.zeros(length)
        for centre, width in ((500, 150), (1500, 250), (2600, 350)):
            pieces, step = [], RATE_HZ // 5
            for start in range(0, length, step):
                sos = _formant(centre, width, round(rng.normal(0.0, 0.25) / 0.05))
                pieces.append(sosfilt(sos, source[max(0, start - 400) : start + step])[min(start, 400) :])
            voice += np.concatenate(pieces)[:length] * (500 / centre) ** 0.7
        syllables = np.clip(_smooth(length, 4.0, rng), 0, None)
        turns = (_smooth(length, 0.25, rng) > -0.2).astype(float)
        out += voice * syllables * lfilter([0.001], [1, -0.999], turns)
    out /= np.sqrt(np.mean(np.square(out))) + 1e-12
    for _ in range(max(1, int(length / RATE_HZ / 6))):
        at, size = int(rng.integers(0, length)), int(rng.uniform(0.05, 0.6) * RATE_HZ)
        low = rng.uniform(150, 900)
        sos = butter(2, [low, low * rng.uniform(2, 5)], btype="band", fs=RATE_HZ, output="sos")
        burst = sosfilt(sos, rng.normal(size=size)) * np.exp(-np.arange(size) / (size * rng.uniform(0.1, 0.8)))
        burst *= rng.uniform(2, 8) / (np.sqrt(np.mean(np.square(burst))) + 1e-9)
        out[at : at + size] += burst[: max(0, length - at)]
    return out / (np.sqrt(np.mean(np.square(out))) + 1e-12)


def listened(blocks: Iterable[np.ndarray], rate_hz: int) -> Heard:
    """All frames of a recording that comes in blocks."""
    listener = Listener(rate_hz)
    for block in blocks:
        listener.take(block)
    return listener.heard()


@lru_cache(maxsize=1000)
def _formant(centre_hz: int, width_hz: int, moved: int) -> np.ndarray:
    """A band about a vowel's formant, moved by so many twentieths of its own pitch (as a logarithm)."""
    hz = centre_hz * np.exp(0.05 * moved)
    low, high = max(80.0, hz - width_hz), min(RATE_HZ * 0.45, hz + width_hz)
    return np.asarray(butter(1, [low, high], btype="band", fs=RATE_HZ, output="sos"))


def _smooth(length: int, hz: float, rng: Rng) -> np.ndarray:
    points = rng.normal(size=int(length / RATE_HZ * hz) + 3)
    return np.interp(np.arange(length) * hz / RATE_HZ, np.arange(points.size), points)


def applause(length: int, rng: Rng) -> np.ndarray:
    out = np.zeros(length)
    for at in rng.integers(0, max(1, length - 400), int(length / RATE_HZ * 60)):
        out[at : at + 400] += rng.normal(size=400) * np.exp(-np.arange(400) / 80.0)
    return np.asarray(sosfilt(butter(1, [500, 4000], btype="band", fs=RATE_HZ, output="sos"), out))


def wet_sound(played: Performance, rng: Rng, *, room: str = "carpet", font: bool = False) -> np.ndarray:
    """The class alone, at the windowsill."""
    wet = in_room(font_sound(played) if font else own_sound(played), room, rng)
    size = int(played.seconds * RATE_HZ)
    return np.pad(wet, (0, max(0, size - wet.size)))[:size]


def bar_levels_db(played: Performance, take: int, wet: np.ndarray) -> dict[int, float]:
    """True level of every bar of a take: the class alone."""
    rows = [(bar.bar, wet[int(bar.start_s * RATE_HZ) : int(bar.end_s * RATE_HZ)]) for bar in played.take(take)]
    return {bar: float(10 * np.log10(np.mean(np.square(piece)) + 1e-12)) for bar, piece in rows}


def recorded(played: Performance, wet: np.ndarray, rng: Rng, *, snr_db: float = 20.0, phone: bool = True) -> np.ndarray:
    """What the phone on the windowsill has, mono, its peak at 0.7."""
    size = wet.size
    first, last = int(played.bars[0].start_s * RATE_HZ), int(played.bars[-1].end_s * RATE_HZ)
    level = np.sqrt(np.mean(np.square(wet[first:last]))) + 1e-9
    noise = talk_and_chairs(size, rng) * 10.0 ** (-snr_db / 20.0)
    noise[:first] *= 10.0 ** (min(snr_db, 6.0) / 20.0)  # talk before, louder than what goes on while they play
    clap = applause(size - last, rng)
    noise[last:] += 0.5 * clap / (np.sqrt(np.mean(np.square(clap))) + 1e-9)
    whole = wet + (level * noise).astype(np.float32)
    out = through_phone(whole, rng) if phone else whole
    return np.asarray(0.7 * out / (np.abs(out).max() + 1e-9), dtype=np.float32)


def coded(samples: np.ndarray, codec: str) -> tuple[bytes, str]:
    """As a file: wav, flac, mp3 by soundfile; m4a (AAC 64k) and webm (Opus 32k) by PyAV. With the file's ending."""
    out = io.BytesIO()
    if codec in ("wav", "flac", "mp3", "ogg"):
        subtype = {"wav": "PCM_16", "flac": "PCM_16", "mp3": "MPEG_LAYER_III", "ogg": "VORBIS"}[codec]
        soundfile.write(out, samples, RATE_HZ, format=codec.upper(), subtype=subtype)
        return out.getvalue(), codec
    import av

    name, rate, bits = {"m4a": ("aac", 44_100, 64_000), "webm": ("libopus", 48_000, 32_000)}[codec]
    box = av.open(out, "w", format={"m4a": "mp4", "webm": "webm"}[codec])
    stream = box.add_stream(name, rate=rate, layout="mono")
    stream.bit_rate = bits
    resampler = av.AudioResampler(format="fltp", layout="mono", rate=rate)
    frame = av.AudioFrame.from_ndarray(samples[None, :], format="fltp", layout="mono")
    frame.sample_rate = RATE_HZ
    fifo = av.AudioFifo()
    for one in resampler.resample(frame) + resampler.resample(None):
        one.pts = None
        fifo.write(one)
    size = stream.codec_context.frame_size or 960
    while (chunk := fifo.read(size)) is not None or (chunk := fifo.read(0)) is not None:
        for packet in stream.encode(chunk):
            box.mux(packet)
        if not fifo.samples:
            break
    for packet in stream.encode(None):
        box.mux(packet)
    box.close()
    return out.getvalue(), codec
