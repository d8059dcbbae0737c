"""The sheets of a pack from a cold start, with the share of each; a whole pack is in `test_costs`. Help is instant.

Run: python -m pytest tests/benchmarks/test_pack.py -s

The yardstick is a fixed amount of array work (forty real transforms of 2**20 samples, numpy, one core) timed in the
same run, so that a slow or busy machine slows both.
"""

from __future__ import annotations

import json
import subprocess
import sys
import time
from pathlib import Path

import numpy as np

SHEETS = [
    ("engraving", "staves"),
    ("graphic score", "graphic"),
    ("pictures of the cards", "card_pictures"),
    ("conductor.pdf", "conductor_file"),
    ("pupils.pdf", "pupils_file"),
    ("teacher.pdf", "teacher_file"),
    ("poster.pdf", "poster_pdf"),
]

#: Paper and notation alone: what a teacher waits for who has the recording already.
PAPER = (
    f"""
SHEETS = {SHEETS}
"""
    + """
import json, time
from sonify import lesson
from sonify.lesson import packing, sheet_files
studied = lesson.study("harbour-water-cycle")
spent = {}
def timed(room, work, *args, **options):
    begun = time.perf_counter()
    try:
        return work(*args, **options)
    finally:
        spent[room] = spent.get(room, 0.0) + time.perf_counter() - begun
for room, name in SHEETS:
    def outer(*args, inner=getattr(sheet_files, name), room=room, **options):
        return timed(room, inner, *args, **options)
    setattr(sheet_files, name, outer)
start = time.perf_counter()
timed("MIDI", packing.midi_bytes, studied.score)
timed("MIDI", packing.midi_files, studied.score)
music = timed("MusicXML", packing.musicxml_bytes, studied.score)
made = dict(sheet_files.sheets(studied, lambda: music, lesson.sheet_settings()))
print(json.dumps({**spent, "whole": time.perf_counter() - start}))
"""
)


def yardstick_s() -> float:
    signal = np.random.default_rng(0).standard_normal(2**20)
    begun = time.perf_counter()
    for _ in range(40):
        np.fft.irfft(np.fft.rfft(signal))
    return time.perf_counter() - begun


def test_paper_and_notation_of_a_pack_take_under_four_seconds_cold() -> None:
    yardstick = min(yardstick_s() for _ in range(3))
    runs = (subprocess.run([sys.executable, "-c", PAPER], check=True, capture_output=True).stdout for _ in range(2))
    told = min((json.loads(run) for run in runs), key=lambda run: float(run["whole"]))
    print(f"\npaper and notation {told['whole']:.2f} s cold ({told['whole'] / yardstick:.1f} yardsticks)")
    for part, seconds in told.items():
        print(f"  {part:<24} {seconds:6.2f} s  {100 * seconds / told['whole']:3.0f} %")
    assert told["whole"] < 4 * 2 * yardstick  # 4 s where the yardstick takes half a second


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
