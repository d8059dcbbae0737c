"""What it costs to measure a recording of the class: `python -m pytest tests/benchmarks/test_listening.py -s`.

The yardstick is FluidSynth with TimGM6mb playing the piece's own MIDI to a file, turn about with ours in one run. Time
is the processor's, of a process and all that it began: it means the same on a busy machine.
"""

from __future__ import annotations

import json
import os
import resource
import subprocess
import sys
from pathlib import Path

import numpy as np
import pytest
import soundfile

from sonify import lesson
from sonify.data.exports import score_json
from sonify.notation.midi import midi_bytes
from tests.listening.performances import manner_of, perform
from tests.listening.takes import FONT, RATE_HZ, has_fluidsynth, recorded, wet_sound

SCENE, TURNS = "harbour-water-cycle", 3
#: What the issue of it asks: three minutes in under two of FluidSynth's times, two hours in 300 MiB.
MOST_TIMES, MOST_MIB, HOURS = 2.0, 300.0, 2.0


def cost(command: list[str]) -> float:
    """Seconds of the processor."""
    before = resource.getrusage(resource.RUSAGE_CHILDREN)
    subprocess.run(command, check=True, capture_output=True)
    after = resource.getrusage(resource.RUSAGE_CHILDREN)
    return after.ru_utime + after.ru_stime - before.ru_utime - before.ru_stime


@pytest.fixture(scope="module")
def folder(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The piece as a score and as MIDI, and a class that plays it."""
    made = tmp_path_factory.mktemp("listening")
    studied = lesson.study(SCENE)
    (made / "score.json").write_text(score_json(studied.score), encoding="utf-8")
    (made / "piece.mid").write_bytes(midi_bytes(studied.score))
    score, rng = json.loads(score_json(studied.score)), np.random.default_rng(3)
    played = perform(score, manner_of(score, rng), rng)
    samples = recorded(played, wet_sound(played, rng), rng, snr_db=10.0)
    soundfile.write(made / "class.flac", samples, RATE_HZ)
    with soundfile.SoundFile(made / "long.flac", "w", RATE_HZ, 1) as file:
        for _ in range(round(HOURS * 3600 * RATE_HZ / samples.size)):
            file.write(samples)
    return made


MEASURE = (
    "import sys; from pathlib import Path; from sonify.lesson.class_recording import listen;"
    " found = listen(Path(sys.argv[1]), Path(sys.argv[2])); assert found.recognised;"
    " from tests.campaign.reading import most_mib; print(found.takes, most_mib())"
)


@pytest.mark.skipif(not has_fluidsynth(), reason="FluidSynth or its sound font is missing")
def test_three_minutes_are_measured_in_under_two_of_fluidsynths_times(folder: Path) -> None:
    fluid = ["fluidsynth", "-ni", "-F", os.devnull, "-T", "wav", "-r", "44100", str(FONT), str(folder / "piece.mid")]
    ours = [sys.executable, "-m", "sonify", "listen", str(folder), str(folder / "class.flac"), "--json"]
    nothing = [sys.executable, "-c", "import numpy, soundfile, scipy.ndimage"]
    ratios = []
    for _ in range(TURNS):
        theirs, start = cost(fluid), cost(nothing)
        ratios.append((cost(ours) / theirs, start / theirs))
    ratio, start = min(ratios)
    print(f"\na recording of 3 minutes: {ratio:.2f} of FluidSynth's times, {start:.2f} of it the start of Python")
    assert ratio < MOST_TIMES


def test_two_hours_are_measured_in_three_hundred_mebibytes(folder: Path) -> None:
    ours = [sys.executable, "-c", MEASURE, str(folder), str(folder / "long.flac")]
    takes, mib = subprocess.run(ours, check=True, capture_output=True, text=True).stdout.split()
    print(f"\ntwo hours: {takes} takes, {float(mib):.0f} MiB at most")
    assert float(mib) < MOST_MIB
