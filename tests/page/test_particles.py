"""The particle box as data: places true to a hair, every figure worked out, and small."""

from __future__ import annotations

import json
from base64 import b64decode
from typing import Any

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st
from hypothesis.extra.numpy import arrays

from sonify.page.document import page_html
from sonify.page.particles import BEATS_A_MINUTE_FOR_M_S, GRID, film_data, film_text, is_film, moves, slowed_words
from sonify.records.film import Knocks, ParticleFilm, RealSpeed
from sonify.records.timeline import Stage
from tests.page.blips import blips
from tests.page.lessons import palette, usual_film
from tests.sample import sample_lesson


def film(speed_m_s: tuple[float, ...] = (100.0, 150.0, 200.0)) -> ParticleFilm:
    """Two particles that pass each other in three frames."""
    count = len(speed_m_s)
    across = np.linspace(0.2, 0.8, count)
    places = np.stack([np.stack([across, across], axis=1), np.stack([1.0 - across, across], axis=1)], axis=1)
    return ParticleFilm(
        width_m=10.0e-9,
        diameter_m=0.4e-9,
        frame_s=0.3e-12,
        step_s=0.01e-12,
        places=places.astype(np.float32),
        ringed=1,
        knocks=Knocks(time_s=np.array([0.31e-12]), pairs=np.array([[0, 1]]), closing_m_s=np.array([120.0])),
        temperature_k=np.array([30.0, 50.0, 80.0][:count]),
        speed_m_s=np.array(speed_m_s),
        real_m_s=1.27 * np.array(speed_m_s),
        heat_j_per_mol=3000.0,
        stages=(
            Stage(name="solid", title="Solid: in rows", start_s=0.0, end_s=0.3e-12, science="Rows."),
            Stage(name="gas", title="Gas: each on its own", start_s=0.3e-12, end_s=0.6e-12, science="Free."),
        ),
        substance="argon",
        real=(RealSpeed(what="water in a cup", temperature_k=293.15, speed_m_s=586.96),),
    )


def decoded(first: Any, steps: Any, scale: int) -> Any:
    """Places as the page makes them from first places and moves."""
    return (first.astype(np.int64) + scale * np.concatenate([np.zeros((1, *first.shape)), np.cumsum(steps, 0)])) / GRID


@given(
    arrays(np.float32, st.tuples(st.integers(2, 30), st.integers(1, 5), st.just(2)), elements=st.floats(0, 1, width=32))
)
def test_places_come_back_to_within_half_a_move_however_long_the_film(places: Any) -> None:
    first, steps, scale = moves(places)
    assert np.abs(decoded(first, steps, scale) - places).max() <= (0.5 * scale + 0.5) / GRID + 1e-6


def test_the_beat_is_the_speed_and_nothing_is_exaggerated() -> None:
    data = film_data(film())
    assert data["beats"] == [60.0, 90.0, 120.0], (
        "0.6 beats a minute for a metre a second: twice the speed, twice as fast"
    )
    assert data["speeds"] == [100, 150, 200] and data["realSpeeds"] == [127, 190, 254]
    assert pytest.approx(132) == 220 * BEATS_A_MINUTE_FOR_M_S, "the beat of the shipped scene of the particles"


def test_states_knocks_and_figures_are_told_in_frames_and_words() -> None:
    data = film_data(film())
    assert [(s["word"], s["what"], s["from"], s["to"]) for s in data["stages"]] == [
        ("Solid", "In rows", 0, 1),
        ("Gas", "Each on its own", 1, 2),
    ]
    assert data["temperatures"] == ["−243\u00a0°C", "−223\u00a0°C", "−193\u00a0°C"]
    assert np.frombuffer(b64decode(data["knocks"]["step"]), "<u4").tolist() == [31]
    assert data["knocks"]["stepsAFrame"] == 30
    # One knock in the whole film of 0.6 ps, which takes 0.15 s to show: 7 a second.
    assert data["knocksASecond"] == [7, 7, 7]
    assert data["radius"] == pytest.approx(0.02)
    assert data["real"] == [{"what": "water in a cup", "temperature": "20\u00a0°C", "speed": 587}]
    assert slowed_words() == "250 thousand million times slower than it happens"


def test_the_shipped_film_is_small_and_goes_from_solid_to_gas() -> None:
    text = usual_film()
    data = json.loads(text)
    assert is_film(text) and len(text.encode()) < 600_000
    assert [stage["word"] for stage in data["stages"]] == ["Solid", "Melting", "Liquid", "Evaporating", "Gas"]
    first = np.frombuffer(b64decode(data["first"]), "<u2").reshape(-1, 2)
    steps = np.frombuffer(b64decode(data["moves"]), "i1").reshape(data["frames"] - 1, -1, 2)
    places = decoded(first, steps, data["scale"])
    assert places.min() > -0.001 and places.max() < 1.001, "nobody leaves the box"
    # A crystal fills the middle; a gas the whole box, half of it on either side.
    assert np.std(places[0]) < 0.2 < 0.25 < np.std(places[-1])


def test_a_page_has_the_box_only_where_it_is_given_one() -> None:
    lesson = sample_lesson()
    sounds = blips(lesson.score)
    text = film_text(film())
    assert 'id="particles"' not in page_html(lesson, sounds, palette())
    page = page_html(lesson, sounds, palette(), text)
    inside = page.split('id="film-data">', 1)[1].split("</script>", 1)[0]
    assert json.loads(inside) == json.loads(text)
    assert "A model, not to scale" in page and "A gas is not faster because it is a gas" in page


def test_a_film_that_was_cut_short_is_known_as_such() -> None:
    assert is_film(film_text(film()))
    assert not is_film(film_text(film())[:-5]) and not is_film("") and not is_film("3")
    assert not is_film(film_text(film()).replace('"form":', '"shape":')), "nor one of another form"
