"""Record two pieces, examples/recordings/*.ogg, and draw each beside its notes, examples/pictures/piece-*.png.

Run from the project folder: python examples/pieces.py. Needs Pillow, as tests do. Recordings are Ogg Opus near
40 kbit/s, under 1 MB each; the same scene gives the same bytes.
"""

from __future__ import annotations

from pathlib import Path

import numpy as np
import soundfile
from numpy.typing import NDArray
from PIL import Image, ImageDraw, ImageFont
from scipy.signal import resample_poly
from spectrograms import FONT, mark_hz, spectrogram

import sonify
from sonify.recording import rendered
from sonify.records.score import Note, Part, Score
from sonify.say import say
from sonify.sound.rate import RATE_HZ
from sonify.sound.writing import PIECE, float_blocks, number_stream

HERE = Path(__file__).resolve().parent
PICTURES, RECORDINGS = HERE / "pictures", HERE / "recordings"
SCENES = ("harbour-water-cycle", "two-cups")
OPUS_HZ, UP, DOWN = 48_000, 160, 147
#: Of the encoder's range, from 256 to 6 kbit/s a channel.
COMPRESSION = 0.945
MOST_BYTES = 1_000_000
WIDTH, LEFT, RIGHT = 1400, 285, 24
TITLE, STAGES, BELOW = 52, 30, 40
LANE, SEMITONE, BETWEEN, SPECTRUM = 16, 4, 12, 260


def recorded(score: Score) -> NDArray[np.float32]:
    """The finished mix, frames by 2."""
    with rendered(score) as rendering:
        return np.concatenate([block.T for block in float_blocks(rendering)])


def write_ogg(mix: NDArray[np.float32], path: Path) -> None:
    slower = resample_poly(mix, UP, DOWN, axis=0).astype(np.float32)
    with path.open("w+b") as out:
        wishes = {"format": "OGG", "subtype": "OPUS", "compression_level": COMPRESSION}
        with soundfile.SoundFile(out, "w", OPUS_HZ, 2, **wishes) as file:
            for start in range(0, len(slower), PIECE):
                file.write(slower[start : start + PIECE])
        number_stream(out)
    if path.stat().st_size >= MOST_BYTES:
        raise SystemExit(f"{path.name} has {path.stat().st_size} bytes: raise COMPRESSION")


def shown_as(part: Part) -> str:
    return f"{say(part.name)}: {part.instrument.replace('-', ' ')}"


def heights(score: Score, part: Part) -> tuple[int, int]:
    """The lowest note of a part and the height of its lane; a part without pitch has one line."""
    if not score.instrument(part.instrument).pitched:
        return 0, LANE
    keys = [note.midi for note in part.notes]
    return min(keys), max(LANE, (max(keys) - min(keys) + 1) * SEMITONE)


def ink(velocity: int) -> tuple[int, int, int]:
    """The louder the darker."""
    light = 1.0 - min(1.0, velocity / 112.0)
    return tuple(round(dark + (205 - dark) * light) for dark in (12, 32, 84))  # type: ignore[return-value]


def piece(score: Score, mix: NDArray[np.float32]) -> Image.Image:
    """The notes of every part, each in its lane, above the sound that they make, on one line of time."""
    parts = [part for part in score.parts if part.notes and not part.pulse and part.group]
    lanes = [heights(score, part) for part in parts]
    roll = sum(height + BETWEEN for _, height in lanes)
    top = TITLE + STAGES
    sheet = Image.new("RGB", (LEFT + WIDTH + RIGHT, top + roll + BETWEEN + SPECTRUM + BELOW), "white")
    pen = ImageDraw.Draw(sheet)
    title, small = ImageFont.truetype(FONT, 26), ImageFont.truetype(FONT, 15)
    seconds = len(mix) / RATE_HZ

    def across(second: float) -> float:
        return LEFT + WIDTH * second / seconds

    def drawn(note: Note, low: int, y: int, height: int, pitched: bool) -> None:
        start, stop = (across(float(score.clock.seconds(b))) for b in (note.beat, note.beat + note.beats))
        if pitched:
            upper = y + height - (note.midi - low + 1) * SEMITONE
            pen.rectangle((start, upper, max(start + 1, stop - 1), upper + SEMITONE - 1), ink(note.velocity))
        else:
            pen.line((start, y + 2, start, y + height - 2), ink(note.velocity), 2)
            if note.beats > 1:
                pen.line((start, y + height // 2, stop - 2, y + height // 2), ink(note.velocity), 3)

    pen.text((LEFT, TITLE - 14), say(score.title), "black", title, anchor="ls")
    below = top + roll + BETWEEN
    sheet.paste(spectrogram(mix.mean(axis=1), RATE_HZ, WIDTH, SPECTRUM), (LEFT, below))
    y = top + BETWEEN // 2
    for part, (low, height) in zip(parts, lanes, strict=True):
        pen.line((LEFT, y + height + BETWEEN // 2, LEFT + WIDTH, y + height + BETWEEN // 2), "#cbd5e1")
        pen.text((LEFT - 10, y + height / 2), shown_as(part), "black", small, anchor="rm")
        for note in part.notes:
            drawn(note, low, y, height, score.instrument(part.instrument).pitched)
        y += height + BETWEEN
    for section in score.sections:
        at = across(float(score.clock.seconds(score.clock.beat_of_bar(section.bar))))
        pen.line((at, top - STAGES + 6, at, below + SPECTRUM), "#9ca3af")
        pen.text((at + 5, top - 8), f"{section.letter}  {say(section.title)}", "black", small, anchor="ls")
    mark_hz(pen, LEFT, below, SPECTRUM, small)
    pen.rectangle((LEFT - 1, below - 1, LEFT + WIDTH, below + SPECTRUM), outline="black")
    for second in range(0, int(seconds) + 1, 15):
        pen.line((across(second), below + SPECTRUM, across(second), below + SPECTRUM + 6), "black")
        pen.text((across(second), below + SPECTRUM + 8), f"{second} s", "black", small, anchor="mt")
    return sheet


def pieces() -> None:
    RECORDINGS.mkdir(exist_ok=True)
    for scene in SCENES:
        score = sonify.compose(scene)
        mix = recorded(score)
        write_ogg(mix, RECORDINGS / f"{scene}.ogg")
        piece(score, mix).quantize(32).save(PICTURES / f"piece-{scene}.png", optimize=True)


if __name__ == "__main__":
    pieces()
