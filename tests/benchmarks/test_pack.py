"""A whole pack from a cold start: seconds and memory reported with the share of each part, ratios asserted.

Run: python -m pytest tests/benchmarks/test_pack.py -s

The yardstick is a fixed amount of array work (forty real transforms of 2**20 samples, numpy, one core) timed in the
same run, so that a slow or busy machine slows both.
"""

from __future__ import annotations

import os
import subprocess
import sys
import time
from pathlib import Path

import numpy as np
import pytest

TRACE = """
import sys, time, json
start = time.perf_counter()
marks = [("import", 0.0)]
from sonify import lesson
spent = {}
def timed(room, name):
    inner = getattr(lesson, name)
    def outer(*args, **options):
        begun = time.perf_counter()
        try:
            return inner(*args, **options)
        finally:
            spent[room] = spent.get(room, 0.0) + time.perf_counter() - begun
    setattr(lesson, name, outer)
imported = time.perf_counter() - start
for room, name in [
    ("science and arrangement", "study"), ("sound (second core)", "write_recordings"), ("MIDI", "midi_bytes"),
    ("MusicXML", "musicxml_bytes"), ("engraving", "engraved_pages"), ("conductor.pdf", "conductor_pdf"),
    ("pupils.pdf", "pupils_pdf"), ("teacher.pdf", "teacher_pdf"), ("page", "page_html"),
]:
    timed(room, name)
lesson.make("harbour-water-cycle", out=sys.argv[1])
print(json.dumps({"imports": imported, **spent, "whole": time.perf_counter() - start}))
"""


def yardstick_s() -> float:
    signal = np.random.default_rng(0).standard_normal(2**20)
    begun = time.perf_counter()
    for _ in range(40):
        np.fft.irfft(np.fft.rfft(signal))
    return time.perf_counter() - begun


@pytest.mark.skipif(os.name == "nt", reason="reads memory through wait4")
def test_a_whole_pack_from_a_cold_start(tmp_path: Path) -> None:
    import json

    yardstick = min(yardstick_s() for _ in range(3))
    with subprocess.Popen([sys.executable, "-c", TRACE, str(tmp_path / "pack")], stdout=subprocess.PIPE) as child:
        assert child.stdout is not None
        told = json.loads(child.stdout.read())
        _, status, usage = os.wait4(child.pid, 0)
        child.returncode = os.waitstatus_to_exitcode(status)
    assert child.returncode == 0
    peak_mib = usage.ru_maxrss / 1024
    audio_s = json.loads((tmp_path / "pack" / "pack.json").read_text(encoding="utf-8"))["sound"]["seconds"]
    print(f"\nwhole pack {told['whole']:.2f} s cold ({told['whole'] / yardstick:.1f} yardsticks), {peak_mib:.0f} MiB")
    for part, seconds in told.items():
        print(f"  {part:<24} {seconds:6.2f} s  {100 * seconds / told['whole']:3.0f} %")
    sound = told["sound (second core)"]
    print(f"  sound with stems and page sounds: {audio_s / sound:.0f} times real time")
    assert peak_mib < 500
    assert told["whole"] < 12 * 2 * yardstick  # 12 s where the yardstick takes half a second


def test_help_and_import_are_instant(tmp_path: Path) -> None:
    def best(*args: str) -> float:
        spent = []
        for _ in range(5):
            begun = time.perf_counter()
            subprocess.run([sys.executable, *args], cwd=tmp_path, check=True, capture_output=True)
            spent.append(time.perf_counter() - begun)
        return min(spent)

    bare, imported, helped = best("-c", "pass"), best("-c", "import sonify"), best("-m", "sonify", "--help")
    numpy = best("-c", "import numpy")
    print(
        f"\nbare Python {bare:.3f} s, import sonify {imported:.3f} s, import numpy {numpy:.3f} s, help {helped:.3f} s"
    )
    assert imported < numpy + bare
    assert helped < 4 * numpy
