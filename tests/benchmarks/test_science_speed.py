"""How long each scene's science takes, and how cost grows with particles and with rows. Ratios asserted, seconds told.

Run: python -m pytest tests/benchmarks/test_science_speed.py -s
"""

from __future__ import annotations

import time
from collections.abc import Callable
from pathlib import Path

import numpy as np

from sonify import lesson
from sonify.inputs.logger import read_table
from sonify.processes.states_of_matter_box import BoxParams, simulate_box
from sonify.processes.states_of_matter_run import BoxRun

SLOW = {"states-of-matter"}  # kept between runs by `sonify.storage.cache`


def spent_s(work: Callable[[], object], times: int = 3) -> float:
    best = float("inf")
    for _ in range(times):
        begun = time.perf_counter()
        work()
        best = min(best, time.perf_counter() - begun)
    return best


def yardstick_s() -> float:
    """A fixed amount of array work in the same run."""
    signal = np.random.default_rng(0).standard_normal(2**20)
    return spent_s(lambda: np.fft.irfft(np.fft.rfft(signal)), 5)


def test_every_scene_is_computed_while_a_teacher_waits() -> None:
    yardstick = yardstick_s()
    for name in lesson.scene_names():
        scene = lesson.load(name)
        seconds = spent_s(lambda scene=scene: lesson.simulate(scene))  # type: ignore[misc]
        print(f"\n{name:<26} {scene.process:<18} {seconds:7.3f} s {seconds / yardstick:6.1f} yardsticks", end="")
        assert scene.process in SLOW or seconds < 10 * yardstick


def test_the_particle_box_grows_with_its_particles_and_comes_back_at_once(tmp_path: Path) -> None:
    width_m = BoxParams().width_m
    for particles in (100, 200, 400, 800):
        params = BoxParams(
            particles=particles, width_m=width_m * (particles / 400) ** 0.5, frames=100, duration_s=1e-11
        )
        print(
            f"\n{particles} particles, 100 frames: {spent_s(lambda params=params: simulate_box(params), 1):.2f} s",
            end="",
        )  # type: ignore[misc]
    begun = time.perf_counter()
    run = simulate_box(BoxParams())
    first = time.perf_counter() - begun
    data = run.to_bytes()
    again = spent_s(lambda: BoxRun.from_bytes(data))
    print(f"\n400 particles, {run.places.shape[0]} frames: {first:.2f} s, {again:.3f} s from {len(data) / 1e6:.1f} MB")
    assert again < first / 20


def test_rows_are_read_in_proportion() -> None:
    spent = {}
    for rows in (10_000, 100_000, 1_000_000):
        seconds = np.arange(rows) * 0.5
        lines = "\n".join(f"{a:.1f};{b:.2f}" for a, b in zip(seconds, 20 + np.sin(seconds / 5e4), strict=True))
        data = f"Time (s);Temp (°C)\n{lines}\n".replace(".", ",").encode()
        spent[rows] = spent_s(lambda data=data: read_table(data, file="rows.csv"), 1)  # type: ignore[misc]
        print(f"\n{rows} rows: {spent[rows]:.2f} s", end="")
    assert spent[1_000_000] < 20 * spent[100_000]
