"""How long a recording takes, against a general-purpose synthesiser that plays the same notes.

    pytest -s tests/benchmarks/sound_speed.py
    python -m tests.benchmarks.sound_cost      # draws examples/pictures/sound-cost.svg from the same measurements

The yardstick is FluidSynth with a small General MIDI sound font, both as Debian has them:

    apt-get install fluidsynth timgm6mb-soundfont

It renders our own exported MIDI to a file, in the same run, turn about with ours; the shortest of the runs counts on
each side. Ours has the room, loudness, peak and dither in it, and counts from the first import of the sound room to the
last byte; Python's own start and reading the Score (about 0.3 s) are printed beside it. Seconds are printed, ratios of
wall time asserted; processor seconds are printed too, because they depend less on what else the machine does.
Where the yardstick is missing this says so and only prints our own seconds.
"""

from __future__ import annotations

import ast
import os
import pickle
import shutil
import subprocess
import sys
import time
from contextlib import suppress
from dataclasses import dataclass, field, replace
from fractions import Fraction as F
from pathlib import Path

import numpy as np
import pytest

import sonify
from sonify.notation.midi import midi_bytes
from sonify.records.clock import Tempo
from sonify.records.scene import Metre, Scale
from sonify.records.score import COUNT_IN, Bed, Note, Part, Score, Seat, Section
from tests.catalogue import catalogue

ROOT = Path(__file__).resolve().parents[2]
SOUND_FONTS = ("/usr/share/sounds/sf2/TimGM6mb.sf2",)
BPM = 100

HARBOUR = "harbour-water-cycle"
RUNS = 3


@dataclass(frozen=True)
class Case:
    """A Score, and the most that it may take of the yardstick's wall time. minutes 0: the scene itself."""

    minutes: int
    notes: int
    most: float


CASES = {
    "the harbour scene": Case(0, 0, 0.75),
    "3 min, 4 000 notes": Case(3, 4_000, 0.36),
    "3 min, 30 000 notes": Case(3, 30_000, 0.12),
    "30 min, 39 000 notes": Case(30, 39_000, 0.18),
}
MOST_MIB, MOST_SCRATCH_MB = 270, 700
STEMS_AIM, STEMS_MOST = 1.5, 2.2

CHILD = """
import os, pickle, resource, sys, tempfile, time
score = pickle.load(open(sys.argv[1], "rb"))
begun, cpu = time.perf_counter(), time.process_time()
from sonify.recording.second_core import beside
from sonify.sound.render import render, stem_names, write_stems, write_wav
folder, shares = sys.argv[2], {"import": time.perf_counter() - begun}
with tempfile.TemporaryFile(dir=folder) as scratch:
    t = time.perf_counter()
    rendering = render(score, scratch, stems=sys.argv[3] == "stems", beside=beside)
    shares["render"] = time.perf_counter() - t
    t = time.perf_counter()
    with open(os.path.join(folder, "out.wav"), "wb") as out:
        write_wav(rendering, out)
    shares["write"] = time.perf_counter() - t
    scratch_mb = scratch.seek(0, 2) / 1e6
    if sys.argv[3] == "stems":
        t = time.perf_counter()
        outs = [open(os.path.join(folder, f"{n}.wav"), "wb") for n in range(len(stem_names(score)))]
        write_stems(rendering, outs, beside=beside)
        for out in outs:
            out.close()
        rendering.far_stems.close()
        shares["stems"] = time.perf_counter() - t
helped = resource.getrusage(resource.RUSAGE_CHILDREN)
cpu_s = time.process_time() - cpu + helped.ru_utime + helped.ru_stime
print(repr({"shares": shares, "cpu_s": cpu_s, "scratch_mb": scratch_mb, "seconds": rendering.seconds,
            "on_target": rendering.on_target}))
"""


def memory_mib(process: int) -> float:
    """What a process and its copy take now, each its part of what they share (proportional set size); Linux only."""
    tasks = Path(f"/proc/{process}/task/{process}/children")
    pages = 0
    with suppress(OSError, ValueError):
        for one in (process, *map(int, tasks.read_text().split())):
            told = Path(f"/proc/{one}/smaps_rollup").read_text()
            pages += int(next(line for line in told.splitlines() if line.startswith("Pss:")).split()[1])
    return pages / 1024


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
class Run:
    """wall_s, cpu_s: as the module's docstring has it. start_s: Python's start and reading the Score. Ours only:
    shares of the wall time, memory, scratch space, and how long the recording lasts."""

    wall_s: float
    cpu_s: float
    start_s: float = 0.0
    shares: dict[str, float] = field(default_factory=dict)
    mib: float = 0.0
    scratch_mb: float = 0.0
    seconds: float = 0.0


def score_of(case: Case) -> Score:
    return piece(case.minutes, case.notes) if case.minutes else sonify.compose(HARBOUR)


def ours(score: Score, folder: Path, *, stems: bool = False) -> Run:
    """One whole run in a process of its own."""
    (folder / "score.pickle").write_bytes(pickle.dumps(score))
    begun = time.perf_counter()
    command = [sys.executable, "-c", CHILD, str(folder / "score.pickle"), str(folder), "stems" if stems else ""]
    env, mib = {**os.environ, "PYTHONPATH": str(ROOT)}, 0.0
    with subprocess.Popen(command, stdout=subprocess.PIPE, text=True, cwd=ROOT, env=env) as run:
        while run.poll() is None:
            mib = max(mib, memory_mib(run.pid))
            time.sleep(0.05)
        told = run.communicate()[0]
    assert run.returncode == 0
    whole = time.perf_counter() - begun
    found = ast.literal_eval(told)
    assert found.pop("on_target")
    wall_s = sum(found["shares"].values())
    return Run(wall_s=wall_s, start_s=whole - wall_s, mib=mib, **found)


def yardstick(score: Score, folder: Path) -> Run | None:
    """FluidSynth with the same notes, or None where it or its font is missing."""
    program, font = shutil.which("fluidsynth"), next((f for f in SOUND_FONTS if Path(f).exists()), None)
    if program is None or font is None:
        return None
    (folder / "score.mid").write_bytes(midi_bytes(score))
    before, begun = os.times(), time.perf_counter()
    subprocess.run(
        [program, "-ni", "-F", str(folder / "fluid.wav"), "-r", "44100", font, str(folder / "score.mid")],
        capture_output=True,
        check=True,
    )
    wall_s, after = time.perf_counter() - begun, os.times()
    used = (after.children_user - before.children_user) + (after.children_system - before.children_system)
    return Run(wall_s=wall_s, cpu_s=used)


def both(score: Score, folder: Path, runs: int = RUNS) -> tuple[Run, Run | None]:
    """Our best run and the yardstick's, taken turn about."""
    pairs = [(ours(score, folder), yardstick(score, folder)) for _ in range(runs)]
    fluid = [run for _, run in pairs if run is not None]
    return quickest([run for run, _ in pairs]), quickest(fluid) if fluid else None


def quickest(runs: list[Run]) -> Run:
    """The run of least wall time, with the least processor time of all."""
    return replace(min(runs, key=lambda run: run.wall_s), cpu_s=min(run.cpu_s for run in runs))


@pytest.mark.parametrize("name", CASES)
def test_a_recording_takes_less_than_its_share_of_the_yardstick(name: str, tmp_path: Path) -> None:
    case = CASES[name]
    best, fluid = both(score_of(case), tmp_path)
    shares = ", ".join(f"{part} {100 * s / best.wall_s:.0f} %" for part, s in best.shares.items())
    print(
        f"\n{name}: {best.wall_s:.2f} s ({best.cpu_s:.2f} of the processors, {best.start_s:.2f} to start),"
        f" {best.seconds / best.wall_s:.0f} times real time ({shares}); {best.mib:.0f} MiB, scratch"
        f" {best.scratch_mb:.0f} MB"
    )
    assert best.mib < MOST_MIB and best.scratch_mb < MOST_SCRATCH_MB
    if fluid is None:
        pytest.skip("FluidSynth and TimGM6mb.sf2 are not here: apt-get install fluidsynth timgm6mb-soundfont")
    ratio = best.wall_s / fluid.wall_s
    print(
        f"    FluidSynth {fluid.wall_s:.2f} s ({fluid.cpu_s:.2f}): ours {ratio:.2f} of it, at most {case.most};"
        f" of its processor time {best.cpu_s / fluid.cpu_s:.2f}"
    )
    assert ratio <= case.most


@pytest.mark.parametrize("name", ["the harbour scene", "3 min, 4 000 notes"])
def test_what_stems_cost(name: str, tmp_path: Path) -> None:
    score = score_of(CASES[name])
    runs = [(ours(score, tmp_path), ours(score, tmp_path, stems=True)) for _ in range(RUNS)]
    plain, stems = quickest([run for run, _ in runs]), quickest([run for _, run in runs])
    ratio = stems.wall_s / plain.wall_s
    print(
        f"\nstems, {name}: {plain.wall_s:.2f} s without, {stems.wall_s:.2f} s with: {ratio:.2f} times"
        f" (aim {STEMS_AIM}, at most {STEMS_MOST}); of the processors {stems.cpu_s / plain.cpu_s:.2f} times"
    )
    assert stems.mib < MOST_MIB
    assert ratio < STEMS_MOST
