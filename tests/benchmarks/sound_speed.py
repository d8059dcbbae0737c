"""How long a recording takes, against a general-purpose synthesiser that plays the same notes.

    pytest -s tests/benchmarks/sound_speed.py

The yardstick is FluidSynth with a small General MIDI sound font, both as Debian has them:

    apt-get install fluidsynth timgm6mb-soundfont

It renders our own exported MIDI to a file, in the same run, turn about with ours; the shorter of two runs counts on
each side. Ours includes starting Python, the room, loudness, peak and dither. Seconds are printed, ratios asserted.
Where the yardstick is missing this says so and only prints our own seconds.
"""

from __future__ import annotations

import os
import pickle
import shutil
import subprocess
import sys
import time
from dataclasses import dataclass
from fractions import Fraction as F
from pathlib import Path

import numpy as np
import pytest

from sonify.notation.midi import midi_bytes
from sonify.records.clock import Tempo
from sonify.records.scene import Metre, Scale
from sonify.records.score import COUNT_IN, Bed, Note, Part, Score, Seat, Section
from tests.catalogue import catalogue

ROOT = Path(__file__).resolve().parents[2]
SOUND_FONTS = ("/usr/share/sounds/sf2/TimGM6mb.sf2",)
BPM = 100

#: name: (minutes, notes, most of FluidSynth's wall time). A note in ten of the harbour's density is "sparse".
CASES = {
    "3 min, 600 notes": (3, 600, 1.2),
    "3 min, 4 000 notes": (3, 4_000, 0.45),
    "3 min, 30 000 notes": (3, 30_000, 0.15),
    "30 min, 39 000 notes": (30, 39_000, 0.25),
}
MOST_MIB, MOST_SCRATCH_MB, MOST_FOR_STEMS = 300, 700, 1.4

CHILD = """
import os, pickle, resource, sys, tempfile, time
score = pickle.load(open(sys.argv[1], "rb"))
begun = time.perf_counter()
from sonify.sound.render import render, stem_names, write_stems, write_wav
folder, shares = sys.argv[2], {"import": time.perf_counter() - begun}
with tempfile.TemporaryFile(dir=folder) as scratch:
    t = time.perf_counter(); rendering = render(score, scratch); shares["render"] = time.perf_counter() - t
    t = time.perf_counter()
    with open(os.path.join(folder, "out.wav"), "wb") as out:
        write_wav(rendering, out)
    shares["write"] = time.perf_counter() - t
    scratch_mb = scratch.seek(0, 2) / 1e6
    if sys.argv[3] == "stems":
        t = time.perf_counter()
        outs = [open(os.path.join(folder, f"{n}.wav"), "wb") for n in range(len(stem_names(score)))]
        write_stems(rendering, outs)
        for out in outs:
            out.close()
        shares["stems"] = time.perf_counter() - t
peak = resource.getrusage(resource.RUSAGE_SELF).ru_maxrss / 1024
print(repr({"shares": shares, "mib": peak, "scratch_mb": scratch_mb, "seconds": rendering.seconds,
            "on_target": rendering.on_target}))
"""


def piece(minutes: int, notes: int) -> Score:
    """Count-in, a sea throughout and five groups with everything else, on a semiquaver grid. Invented."""
    rng = np.random.default_rng(1)
    bars = round(minutes * BPM / 4)
    rows = catalogue()
    groups = (
        ("Vapour", "alto-xylophone", "ostinato"),
        ("Cloud", "alto-metallophone", "melody"),
        ("Rain", "egg-shaker", "scatter"),
        ("Storm", "hand-drum", "tremolo"),
        ("Drops", "soprano-glockenspiel", "scatter"),
    )
    click = tuple(Note(beat=F(b), beats=F(1, 2), midi=75, velocity=80) for b in range(-8, 0))
    waves = tuple(Note(beat=F(4 * b), beats=F(4), midi=69, velocity=60) for b in range(bars))
    parts = [
        Part(name=COUNT_IN, group=0, instrument="claves", texture="ostinato", notes=click),
        Part(name="Sea", group=1, instrument="ocean-drum", texture="drone", notes=waves),
    ]
    each = (notes - len(click) - len(waves)) // len(groups)
    for group, (name, instrument, texture) in enumerate(groups, start=2):
        row = rows[instrument]
        keys = [k for k in range(row.low, row.high + 1) if k % 12 in (0, 2, 4, 7, 9)] if row.pitched else [row.gm_key]
        steps = np.sort(rng.integers(0, bars * 16, each))
        played = tuple(
            Note(
                beat=F(int(step), 4),
                beats=F(1, 2),
                midi=int(rng.choice(keys)),
                velocity=int(rng.integers(44, 100)),
                brightness=(0.25, 0.5, 0.75)[min(2, 3 * int(step) // (bars * 16))],
                player=1 + index % 4,
            )
            for index, step in enumerate(steps)
        )
        seats = (Seat(instrument=instrument, players=5, count=3),)
        parts.append(Part(name=name, group=group, instrument=instrument, texture=texture, notes=played, seats=seats))
    end = F(bars * 4)
    return Score(
        title="Benchmark",
        scene="benchmark",
        metre=Metre(beats=4),
        scale=Scale(name="C pentatonic", tonic=0, pitch_classes=(0, 2, 4, 7, 9)),
        bars=bars,
        tempi=(Tempo(bar=1, bpm=BPM),),
        sections=(Section(name="a", title="A", letter="A", bar=1, bars=bars),),
        parts=tuple(parts),
        cues=(),
        instruments=tuple(row for row in rows.instruments if row.id in {part.instrument for part in parts}),
        beds=(
            Bed(kind="sea", levels=((F(0), 0.35), (end, 0.35)), seed=1),
            Bed(kind="rain", levels=((end / 4, 0.0), (end / 2, 0.35), (3 * end / 4, 0.0)), seed=2),
        ),
    )


@dataclass(frozen=True)
class Ours:
    wall_s: float
    shares: dict[str, float]
    mib: float
    scratch_mb: float
    seconds: float


def ours(score: Score, folder: Path, *, stems: bool = False) -> Ours:
    """One whole run in a process of its own. Its wall time is from the first import to the last byte."""
    (folder / "score.pickle").write_bytes(pickle.dumps(score))
    run = subprocess.run(
        [sys.executable, "-c", CHILD, str(folder / "score.pickle"), str(folder), "stems" if stems else ""],
        capture_output=True,
        text=True,
        check=True,
        cwd=ROOT,
        env={**os.environ, "PYTHONPATH": str(ROOT)},
    )
    found = eval(run.stdout)
    assert found["on_target"]
    return Ours(
        wall_s=sum(found["shares"].values()),
        shares=found["shares"],
        mib=found["mib"],
        scratch_mb=found["scratch_mb"],
        seconds=found["seconds"],
    )


def yardstick_s(score: Score, folder: Path) -> float | None:
    """Wall time of FluidSynth for the same notes, or None where it or its font is missing."""
    program, font = shutil.which("fluidsynth"), next((f for f in SOUND_FONTS if Path(f).exists()), None)
    if program is None or font is None:
        return None
    (folder / "score.mid").write_bytes(midi_bytes(score))
    begun = time.perf_counter()
    subprocess.run(
        [program, "-ni", "-F", str(folder / "fluid.wav"), "-r", "44100", font, str(folder / "score.mid")],
        capture_output=True,
        check=True,
    )
    return time.perf_counter() - begun


@pytest.mark.parametrize("case", CASES)
def test_a_recording_takes_less_than_its_share_of_the_yardstick(case: str, tmp_path: Path) -> None:
    minutes, notes, most = CASES[case]
    score = piece(minutes, notes)
    runs = [(yardstick_s(score, tmp_path), ours(score, tmp_path)) for _ in range(2)]
    best = min((run for _, run in runs), key=lambda run: run.wall_s)
    shares = ", ".join(f"{name} {100 * s / best.wall_s:.0f} %" for name, s in best.shares.items())
    print(
        f"\n{case}: {best.wall_s:.2f} s, {best.seconds / best.wall_s:.0f} times real time ({shares});"
        f" {best.mib:.0f} MiB, scratch {best.scratch_mb:.0f} MB"
    )
    assert best.mib < MOST_MIB and best.scratch_mb < MOST_SCRATCH_MB
    times = [fluid for fluid, _ in runs if fluid is not None]
    if not times:
        pytest.skip("FluidSynth and TimGM6mb.sf2 are not here: apt-get install fluidsynth timgm6mb-soundfont")
    print(f"    FluidSynth {min(times):.2f} s, ours {best.wall_s / min(times):.2f} of it (at most {most})")
    assert best.wall_s <= most * min(times)


def test_stems_cost_and_a_three_minute_piece_is_sixty_times_real_time(tmp_path: Path) -> None:
    score = piece(3, 600)
    plain = min((ours(score, tmp_path) for _ in range(2)), key=lambda run: run.wall_s)
    stems = min((ours(score, tmp_path, stems=True) for _ in range(2)), key=lambda run: run.wall_s)
    ratio = stems.wall_s / plain.wall_s
    print(f"\nstems: {plain.wall_s:.2f} s without, {stems.wall_s:.2f} s with: {ratio:.2f} (aim {MOST_FOR_STEMS})")
    assert plain.seconds > 60 * plain.wall_s
    assert ratio < 2.5
