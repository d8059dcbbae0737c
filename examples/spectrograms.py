"""Draw examples/pictures/voices.png: nine instruments of `sonify sounds --out FILE.wav` as pictures, to look at.

Run from the project folder: python examples/spectrograms.py. Needs Pillow, as tests do. Each plays from soft to
strong with a soft to a hard beater, then a longer note.
"""

from __future__ import annotations

import tempfile
from pathlib import Path

import numpy as np
import soundfile
from numpy.typing import NDArray
from PIL import Image, ImageDraw, ImageFont

from sonify import lesson
from sonify.sound.showcase import BARS_EACH, BPM

ROOT = Path(__file__).resolve().parent.parent
TARGET = ROOT / "examples" / "pictures" / "voices.png"
FONT = ROOT / "shared" / "fonts" / "Andika-Regular.ttf"
SHOWN = (
    "alto-glockenspiel",
    "alto-xylophone",
    "bass-xylophone",
    "hand-drum",
    "maracas",
    "suspended-cymbal",
    "guiro",
    "voices-oo",
    "wind-wand",
)
SECONDS = BARS_EACH * 4 * 60 / BPM
WIDTH, HEIGHT, COLUMNS = 440, 300, 3
LEFT, TOP, RIGHT, BELOW = 74, 44, 16, 46  # around each picture
LOWEST_HZ, HIGHEST_HZ, RANGE_DB = 60.0, 16_000.0, 70.0
WINDOW, TRANSFORM = 2048, 8192


def spectrogram(samples: NDArray[np.floating], rate: int, width: int = WIDTH, height: int = HEIGHT) -> Image.Image:
    """Time to the right, frequency up on a logarithmic scale, the louder the darker: 70 dB from white to ink. A column
    of a long recording has the loudest of what it stands for."""
    each = max(1, samples.size // (width * WINDOW))
    hop = (samples.size - WINDOW) // (width * each)
    frames = np.lib.stride_tricks.sliding_window_view(samples, WINDOW)[::hop][: width * each]
    columns = np.split(frames, width)
    spectra = np.array([np.abs(np.fft.rfft(some * np.hanning(WINDOW), TRANSFORM)).max(axis=0) for some in columns])
    bins = (np.geomspace(LOWEST_HZ, HIGHEST_HZ, height + 1) / rate * TRANSFORM).astype(int)
    rows = [spectra[:, low : max(low + 1, high)].max(axis=1) for low, high in zip(bins[:-1], bins[1:], strict=True)]
    db = 20 * np.log10(np.array(rows)[::-1] / np.max(rows) + 1e-9)
    darkness = np.clip(1.0 + db / RANGE_DB, 0.0, 1.0)[..., None]
    return Image.fromarray((255 - darkness * (255 - np.array([12, 32, 84]))).astype(np.uint8))


def mark_hz(pen: ImageDraw.ImageDraw, x: int, y: int, height: int, font: ImageFont.FreeTypeFont) -> None:
    """The frequencies beside a spectrogram whose upper left corner is at (x, y)."""
    for hz, word in ((100, "100 Hz"), (1000, "1 kHz"), (10_000, "10 kHz")):
        at = y + height * (1 - np.log(hz / LOWEST_HZ) / np.log(HIGHEST_HZ / LOWEST_HZ))
        pen.line((x - 6, at, x, at), "black")
        pen.text((x - 9, at), word, "black", font, anchor="rm")


def draw(named: list[tuple[str, NDArray[np.float64]]], rate: int) -> Image.Image:
    across, down = LEFT + WIDTH + RIGHT, TOP + HEIGHT + BELOW
    sheet = Image.new("RGB", (COLUMNS * across, -(-len(named) // COLUMNS) * down), "white")
    pen = ImageDraw.Draw(sheet)
    title, small = ImageFont.truetype(FONT, 24), ImageFont.truetype(FONT, 16)
    for index, (name, samples) in enumerate(named):
        x, y = index % COLUMNS * across + LEFT, index // COLUMNS * down + TOP
        sheet.paste(spectrogram(samples, rate), (x, y))
        pen.rectangle((x - 1, y - 1, x + WIDTH, y + HEIGHT), outline="black")
        pen.text((x, y - 6), name, "black", title, anchor="ls")
        mark_hz(pen, x, y, HEIGHT, small)
        for second in range(int(SECONDS) + 1):
            at = x + second / SECONDS * WIDTH
            pen.line((at, y + HEIGHT, at, y + HEIGHT + 6), "black")
            pen.text((at, y + HEIGHT + 8), f"{second} s", "black", small, anchor="mt")
    return sheet


def voices() -> None:
    with tempfile.TemporaryDirectory() as scratch:
        mix, rate = soundfile.read(lesson.write_sounds(Path(scratch) / "sounds.wav"))
    instruments, _ = lesson.sounds()
    places = {row.id: (row.name, round(number * SECONDS * rate)) for number, row in enumerate(instruments)}
    named = [
        (name, mix[start : start + round(SECONDS * rate)].mean(axis=1))
        for name, start in (places[key] for key in SHOWN)
    ]
    TARGET.parent.mkdir(exist_ok=True)
    draw(named, rate).quantize(32).save(TARGET, optimize=True)


if __name__ == "__main__":
    voices()
