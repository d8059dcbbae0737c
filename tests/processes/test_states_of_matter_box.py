"""The particle box: motion that keeps its energy, warmth that is motion, Maxwell's speeds, a faithful copy."""

from __future__ import annotations

import math
from dataclasses import replace
from functools import lru_cache

import numpy as np
import pytest

from sonify.errors import OutOfRange
from sonify.processes.states_of_matter_box import (
    STEP,
    UNIT_SPEED_M_S,
    UNIT_TEMPERATURE_K,
    BoxParams,
    advance,
    bounce,
    box_of,
    calm,
    crystal,
    heated,
    mean_speed,
    settled,
    simulate_box,
)
from sonify.processes.states_of_matter_order import arrangement, spacing_inside
from sonify.processes.states_of_matter_run import BoxRun
from sonify.science.particles import ARGON_DIAMETER_M, ARGON_KG_PER_MOL, flat_mean_speed

SMALL = BoxParams(particles=60, width_m=7.0e-9, heat_j_per_mol=3000.0, duration_s=30e-12, frames=40)


@lru_cache(maxsize=1)
def small_run() -> BoxRun:
    return simulate_box(SMALL)


@pytest.mark.parametrize("start_k", [24.0, 60.0])
def test_energy_of_a_box_left_alone_hardly_drifts(start_k: float) -> None:
    # Found in trials with this step and cut-off: at most 5e-4 of the energy of motion over 100 units of time; a solid,
    # and a drop with vapour and walls. 20 units here.
    box = settled(BoxParams(particles=100, width_m=9.0e-9, start_k=start_k))
    before, moving = box.kinetic + box.potential, box.kinetic
    worst = 0.0
    for _ in range(8):
        for _ in range(500):
            advance(box, STEP)
        worst = max(worst, abs(box.kinetic + box.potential - before))
    assert worst < 2e-3 * moving


def test_a_longer_step_drifts_more() -> None:
    # Velocity Verlet: the error of the energy grows with the square of the step, or faster.
    errors = []
    for step in (STEP, 4.0 * STEP):
        box = settled(BoxParams(particles=60, width_m=8.0e-9, start_k=40.0))
        before = box.kinetic + box.potential
        error = []
        for _ in range(round(4.0 / step)):
            advance(box, step)
            error.append(box.kinetic + box.potential - before)
        errors.append(float(np.std(error)))
    assert errors[1] > 8.0 * errors[0]


def test_motion_runs_backwards() -> None:
    box = settled(BoxParams(particles=60, width_m=8.0e-9))
    before = box.places.copy()
    for sign in (-1.0, -1.0):
        for _ in range(300):
            advance(box, STEP)
        box.speeds *= sign
    np.testing.assert_allclose(box.places, before, rtol=0.0, atol=1e-6)


def test_temperature_is_the_mean_energy_of_motion() -> None:
    box = settled(SMALL)
    kinetic, speed, _ = heated(box, 1, STEP, 0.0)
    squared = np.mean(np.sum((box.speeds * UNIT_SPEED_M_S) ** 2, axis=0))
    # in the flat: m <v^2> / 2 = k T
    by_speeds = 0.5 * ARGON_KG_PER_MOL * squared / 8.31446261815324
    assert kinetic / SMALL.particles * UNIT_TEMPERATURE_K == pytest.approx(by_speeds, rel=1e-9)
    assert speed == pytest.approx(mean_speed(box))
    run = small_run()
    np.testing.assert_allclose(run.speed_m_s, flat_mean_speed(np.array(run.temperature_k), ARGON_KG_PER_MOL), rtol=0.12)


def test_speeds_in_balance_are_those_of_maxwell_in_the_flat() -> None:
    from scipy.stats import kstest, rayleigh

    box = settled(BoxParams(particles=200, width_m=12.0e-9, start_k=60.0))
    heated(box, 2000, STEP, 2.0 * 200 / 2000.0)
    heated(box, 4000, STEP, 0.0)
    speeds, warmth = [], []
    for _ in range(40):
        heated(box, 150, STEP, 0.0)  # most particles have knocked anew
        speeds.append(np.sqrt(np.sum(box.speeds**2, axis=0)))
        warmth.append(box.kinetic / 200.0)
    t = float(np.mean(warmth))
    together = np.concatenate(speeds)
    # Rayleigh: mean sqrt(pi/2), 8000 speeds of which perhaps a quarter are independent
    assert together.mean() == pytest.approx(rayleigh.mean(scale=math.sqrt(t)), rel=0.02)
    assert kstest(together, rayleigh(scale=math.sqrt(t)).cdf).statistic < 0.03
    # and they are not the speeds of three dimensions
    from scipy.stats import maxwell

    assert kstest(together, maxwell(scale=math.sqrt(2.0 * t / 3.0)).cdf).statistic > 0.06


def test_heat_given_is_energy_gained() -> None:
    run = small_run()
    assert run.energy_drift < 5e-3
    gained = run.energy_j_per_mol[-1] - run.energy_j_per_mol[0]
    assert gained == pytest.approx(SMALL.heat_j_per_mol, rel=5e-3)


def test_the_crystal_is_whole_round_and_at_rest_as_a_whole() -> None:
    places = crystal(200)
    found = arrangement(places)
    assert found.order > 0.75 and found.isolated == 0.0
    radius = math.sqrt(200 / 0.9 / math.pi)
    assert np.hypot(*places).max() < radius + 1.0
    box = settled(replace(SMALL, particles=200, width_m=11e-9))
    middle = box.places - box.places.mean(axis=1, keepdims=True)
    turning = np.sum(middle[0] * box.speeds[1] - middle[1] * box.speeds[0])
    assert np.abs(box.speeds.sum(axis=1)).max() < 1e-9 and abs(turning) < 1e-7
    box.speeds[0] += 3.0 - 2.0 * middle[1]
    calm(box)
    turning = np.sum(middle[0] * box.speeds[1] - middle[1] * box.speeds[0])
    assert abs(box.speeds[0].sum()) < 1e-9 and abs(turning) < 1e-7


def test_the_spacing_inside_is_the_crystal_s_own_and_no_rim_nor_straggler_widens_it() -> None:
    rows, columns = np.meshgrid(np.arange(8.0), np.arange(8.0))
    honeycomb = 1.1 * np.column_stack([(rows + 0.5 * columns).ravel(), (np.sqrt(0.75) * columns).ravel()])
    assert spacing_inside(honeycomb) == pytest.approx(1.1)
    assert spacing_inside(np.vstack([honeycomb, [[30.0, 1.0], [1.0, 30.0]]])) == pytest.approx(1.1)
    assert arrangement(honeycomb.T).spacing > 1.2
    assert spacing_inside(honeycomb[:7]) > 1.1, "a row has no inside: all of it counts"


def test_particles_stay_within_the_walls() -> None:
    run = small_run()
    assert run.places.min() >= 0.0 and run.places.max() <= 1.0
    assert run.places.max() > 0.95, "the gas reaches the walls"


def test_walls_are_mirrors() -> None:
    places = np.array([[-0.1, 10.3, 5.0], [5.0, 5.0, 10.05]])
    box = box_of(np.clip(places, 0.0, 10.0), np.array([[-1.0, 2.0, 0.5], [0.25, 0.5, 3.0]]), 10.0)
    box.places[:] = places
    bounce(box)
    np.testing.assert_allclose(box.places, [[0.1, 9.7, 5.0], [5.0, 5.0, 9.95]], rtol=1e-12)
    np.testing.assert_array_equal(box.speeds, [[1.0, -2.0, 0.5], [0.25, 0.5, -3.0]])


def test_two_particles_share_each_knock() -> None:
    run = small_run()
    frame_s = SMALL.duration_s / SMALL.frames
    box = settled(SMALL)
    steps = (SMALL.steps_a_frame, SMALL.step, SMALL.heat_a_step)
    knocks = [heated(box, *steps)[2] for _ in range(SMALL.frames)]
    assert sum(knocks) > 100
    np.testing.assert_allclose(run.knocks_per_s[1:] * frame_s * SMALL.particles, 2.0 * np.array(knocks), rtol=1e-9)


def test_knocks_of_a_thin_gas_are_as_many_as_kinetic_theory_has() -> None:
    # Flat discs of diameter d: a particle sweeps 2 d sqrt(2) <v>, and meets n of them for each square metre. Where a
    # knock is counted the potential is nought, as it is far away, so the same pairs get there as without any pull.
    box = settled(BoxParams(particles=100, width_m=25.0e-9, start_k=60.0))
    heated(box, 3000, STEP, 8.0 * 100 / 3000.0)
    heated(box, 2000, STEP, 0.0)
    _, speed, knocks = heated(box, 24_000, STEP, 0.0)
    density = 99.0 / box.width**2
    expected = 2.0 * math.sqrt(2.0) * speed * density * 24_000 * STEP * 100 / 2.0
    assert expected > 900, "enough to count: chance leaves 3 %"
    assert knocks == pytest.approx(expected, rel=0.1)


def test_no_knock_is_missed_when_the_pairs_are_listed_anew() -> None:
    apart_by = 1.01  # two particles flying at each other, one step before they knock
    for far in (0.0, 0.3):  # with and without having come far enough for a new list
        box = box_of(np.array([[4.0, 4.0 + apart_by], [5.0, 5.0]]), np.array([[2.0, -2.0], [0.0, 0.0]]), 10.0)
        box.listed_at[0, 0] -= far
        assert [advance(box, STEP), advance(box, STEP)] == [1, 0]


def test_the_same_parameters_give_the_same_bytes_and_others_do_not() -> None:
    again = simulate_box(SMALL)
    assert again.to_bytes() == small_run().to_bytes()
    assert SMALL.key() == replace(SMALL).key() != replace(SMALL, seed=1).key()
    other = simulate_box(replace(SMALL, seed=1))
    assert np.abs(other.places - again.places).max() > 0.01


def test_a_run_comes_back_from_its_bytes() -> None:
    run = small_run()
    back = BoxRun.from_bytes(run.to_bytes())
    assert back.key == run.key and back.width_m == run.width_m
    assert back.places.dtype == np.float32
    np.testing.assert_array_equal(back.places, run.places)
    np.testing.assert_array_equal(back.knocks_per_s, run.knocks_per_s)
    with pytest.raises(ValueError, match="read-only"):
        back.order[0] = 0.0
    for broken in (b"", b"PK", run.to_bytes()[:-100], run.to_bytes()[100:]):
        with pytest.raises(ValueError, match="not a run of the particle box"):
            BoxRun.from_bytes(broken)


def test_compact_places_are_right_to_a_65_535th() -> None:
    run = small_run()
    compact = run.compact_places()
    assert compact.dtype == np.dtype("<u2") and compact.shape == run.places.shape
    np.testing.assert_allclose(compact / 65_535.0, run.places, rtol=0.0, atol=0.6 / 65_535.0)


@pytest.mark.parametrize(
    ("wrong", "said"),
    [
        ({"particles": 3}, "particles is 3"),
        ({"width_m": 1e-9}, "density is"),
        ({"start_k": 200.0}, "start_k is 200 K"),
        ({"duration_s": math.nan}, "duration_s is nan"),
        ({"heat_j_per_mol": -1.0}, "heat_j_per_mol is -1"),
        ({"frames": 0}, "frames is 0"),
    ],
)
def test_impossible_boxes_are_refused(wrong: dict[str, float], said: str) -> None:
    with pytest.raises(OutOfRange, match=said):
        replace(SMALL, **wrong)  # type: ignore[arg-type]


def test_the_width_of_the_box_says_how_crowded_it_is() -> None:
    assert replace(SMALL, particles=100, width_m=10 * ARGON_DIAMETER_M / math.sqrt(0.2)).density == pytest.approx(0.2)
