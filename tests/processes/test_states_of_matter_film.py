"""The film of the particle box is the very run that the states are found in, with every knock that it counts."""

from __future__ import annotations

from functools import lru_cache

import numpy as np
import pytest

from sonify.processes.states_of_matter import box_params, timeline
from sonify.processes.states_of_matter_box import UNIT_SPEED_M_S, BoxParams, simulate_box
from sonify.processes.states_of_matter_film import (
    FRAME_S,
    MOST_PLACES,
    film_key,
    film_params,
    filmed,
    one_that_breaks_free,
    steps_a_film_frame,
    usual_params,
)
from sonify.records.film import ParticleFilm

SMALL = BoxParams(particles=60, width_m=7.0e-9, heat_j_per_mol=3000.0, duration_s=30e-12, frames=40)


@lru_cache(maxsize=1)
def small() -> ParticleFilm:
    return filmed(SMALL)


def test_the_film_is_the_run_and_its_knocks_are_those_that_the_run_counts() -> None:
    film, run = small(), simulate_box(SMALL)
    # Where a frame of the run and one of the film fall on one step they are the same to the last bit.
    every = round(film.frame_s / film.step_s)
    both = np.lcm(every, SMALL.steps_a_frame)
    assert both * 3 < SMALL.frames * SMALL.steps_a_frame, "they meet often enough to be compared"
    np.testing.assert_array_equal(film.places[:: both // every][1:4], run.places[:: both // SMALL.steps_a_frame][1:4])
    counted = np.sum(run.knocks_per_s) * 0.5 * SMALL.particles * SMALL.duration_s / SMALL.frames
    assert len(film.knocks.time_s) == round(counted) > 50


def test_every_knock_is_a_meeting_at_its_time_and_place() -> None:
    film = small()
    diameter = film.diameter_m / film.width_m
    assert np.all(np.diff(film.knocks.time_s) >= 0.0)
    near = np.minimum(np.rint(film.knocks.time_s / film.frame_s).astype(int), film.frames - 1)
    one, other = film.knocks.pairs.T
    gap = np.linalg.norm(film.places[near, one] - film.places[near, other], axis=1) / diameter
    # At the knock they are one diameter apart; up to half a frame away they have moved by what their speed gives.
    reach = film.knocks.closing_m_s * 0.5 * film.frame_s / film.diameter_m
    assert np.all(np.abs(gap - 1.0) < reach + 0.25)
    assert np.all(film.knocks.closing_m_s > 0.0) and np.all(film.knocks.closing_m_s < 10 * UNIT_SPEED_M_S)


def test_states_and_readings_are_those_of_the_lesson() -> None:
    film, lesson = small(), timeline(simulate_box(SMALL), SMALL)
    assert film.stages == lesson.stages
    at_s = np.arange(film.frames) * film.frame_s
    np.testing.assert_allclose(film.speed_m_s, lesson.at("mean speed", at_s))
    # Kinetic theory: real atoms, free to move in three directions, are 4/pi as fast on average as those of the flat.
    np.testing.assert_allclose(np.mean(film.real_m_s / film.speed_m_s), 4 / np.pi, rtol=0.06)  # sixty fluctuate


def test_water_and_its_vapour_of_one_temperature_are_equally_fast() -> None:
    # OPENSTAX-UP2's formula by hand: sqrt(8 * 8.314 * 293.15 / (pi * 0.018015)) = 587 m/s.
    speeds = {(row.what, round(row.temperature_k - 273.15)): row.speed_m_s for row in small().real}
    cup, air = (next(v for (what, c), v in speeds.items() if word in what and c == 20) for word in ("cup", "vapour"))
    assert cup == air == pytest.approx(587, abs=0.5)


def test_a_large_box_has_fewer_frames_and_a_lesson_about_the_box_its_own_film() -> None:
    usual = usual_params()
    assert steps_a_film_frame(usual) * usual.step * 2.16e-12 == pytest.approx(FRAME_S, rel=0.05)
    conditions = {
        "particles": 600.0,
        "box_width": 21e-9,
        "start_temperature": 24.15,
        "heat": 3000.0,
        "duration": 400e-12,
        "shuffle": 3.0,
    }
    large = film_params("states-of-matter", conditions)
    frames = large.frames * large.steps_a_frame // steps_a_film_frame(large) + 1
    assert large == box_params(conditions)
    assert 0.9 * MOST_PLACES < frames * large.particles <= MOST_PLACES + large.particles
    assert film_params("water-cycle", {}) == usual
    assert film_key(large) != film_key(usual)


def test_the_ringed_one_comes_from_the_middle_and_gets_furthest() -> None:
    places = np.full((3, 8, 2), 0.5, dtype=np.float32)
    places[:, 4:] = 0.1  # at the rim, however far they get
    places[2, 7] = 0.9
    places[2, 1] = 0.7
    assert one_that_breaks_free(places, 1) == 1
