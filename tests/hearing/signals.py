"""Sounds made here, of sines, noise and clicks, and by FluidSynth: nothing of them comes from the sound room."""

from __future__ import annotations

import shutil
import subprocess
from collections.abc import Sequence
from pathlib import Path

import numpy as np
from numpy.typing import NDArray

RATE_HZ = 44_100
SOUND_FONTS = ("/usr/share/sounds/sf2/TimGM6mb.sf2",)


def ring(hz: float, seconds: float = 0.5, level_db: float = -12.0, t60_s: float = 1.0) -> NDArray[np.float32]:
    """A tone that begins at once and dies away, with a weaker line at 2.76 times its pitch as bars have."""
    t = np.arange(round(seconds * RATE_HZ)) / RATE_HZ
    out = np.sin(2 * np.pi * hz * t) + 0.3 * np.sin(2 * np.pi * 2.76 * hz * t) * np.exp(-20 * t)
    return np.asarray(10 ** (level_db / 20) * out * np.exp(-6.9 * t / t60_s), dtype=np.float32)


def click(level_db: float = -12.0, centre_hz: float = 2000.0, seed: int = 1) -> NDArray[np.float32]:
    """A short burst of noise about a frequency."""
    t = np.arange(round(0.05 * RATE_HZ)) / RATE_HZ
    noise = np.random.default_rng(seed).standard_normal(t.size)
    carried = noise * np.cos(2 * np.pi * centre_hz * t)
    return np.asarray(10 ** (level_db / 20) * carried * np.exp(-120 * t), dtype=np.float32)


def laid(seconds: float, sounds: Sequence[tuple[float, NDArray[np.float32]]]) -> NDArray[np.float32]:
    out = np.zeros(round(seconds * RATE_HZ), dtype=np.float32)
    for at_s, sound in sounds:
        first = round(at_s * RATE_HZ)
        piece = sound[: max(0, out.size - first)]
        out[first : first + piece.size] += piece
    return out


def hz(midi: float) -> float:
    return float(440.0 * 2 ** ((midi - 69) / 12))


def fluidsynth(midi: bytes, folder: Path) -> NDArray[np.float32] | None:
    """A MIDI file as another program plays it, in one channel; None where it or its font is missing."""
    import soundfile

    program, font = shutil.which("fluidsynth"), next((f for f in SOUND_FONTS if Path(f).exists()), None)
    if program is None or font is None:
        return None
    (folder / "a.mid").write_bytes(midi)
    command = [program, "-ni", "-R", "0", "-C", "0", "-F", str(folder / "a.wav"), "-r", str(RATE_HZ), font]
    subprocess.run([*command, str(folder / "a.mid")], capture_output=True, check=True)
    return np.asarray(soundfile.read(folder / "a.wav", dtype="float32", always_2d=True)[0].mean(axis=1))
