"""Which page carries the particle box: the usual one from the shelf, or the lesson's own, kept between runs."""

from __future__ import annotations

import json
from pathlib import Path

import pytest

from sonify import lesson as pipeline
from sonify.lesson import packing
from sonify.page import film_text, is_film
from sonify.processes.states_of_matter_film import filmed, usual_params
from sonify.storage import cache


@pytest.mark.parametrize(
    ("scene", "carries"), [("harbour-water-cycle", True), ("two-cups", True), ("playground-pulse", False)]
)
def test_a_lesson_with_a_temperature_has_the_box(scene: str, carries: bool, monkeypatch: pytest.MonkeyPatch) -> None:
    given: list[str] = []
    to_come = lambda lesson, palette, film, *more: given.append(film) or (lambda sounds: "")  # noqa: E731
    monkeypatch.setattr(packing, "page_to_sound", to_come)
    pipeline.page_text(pipeline.study(scene), sounds=None)  # type: ignore[arg-type]
    assert is_film(given[0]) if carries else given == [""]


def test_the_shipped_film_is_what_the_simulation_gives() -> None:
    assert pipeline.particle_film(pipeline.study("two-cups")) == film_text(filmed(usual_params()))


def test_a_lesson_about_the_box_has_its_own_and_a_broken_copy_is_made_anew(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("SONIFY_CACHE", str(tmp_path))
    few = ["particles=60", "box_width=7 nm", "duration=60 ps"]
    lesson = pipeline.study(pipeline.load("ice-rink-particles", few))
    text = pipeline.particle_film(lesson)
    assert json.loads(text)["particles"] == 60
    for file in tmp_path.iterdir():
        if file.read_bytes() == cache.sealed(text.encode()):
            file.write_bytes(cache.sealed(text.encode()[:1000]))
            break
    else:
        pytest.fail("the film was not kept")
    assert pipeline.particle_film(lesson) == text


def test_a_kept_film_says_what_would_be_said_today(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setenv("SONIFY_CACHE", str(tmp_path))
    lesson = pipeline.study(pipeline.load("ice-rink-particles", ["particles=60", "box_width=7 nm", "duration=60 ps"]))
    text = pipeline.particle_film(lesson)
    (kept,) = (file for file in tmp_path.iterdir() if file.read_bytes() == cache.sealed(text.encode()))
    older = json.loads(text)
    older["stages"][0]["science"] = older["slowed"] = "As it was said last year."
    kept.write_bytes(cache.sealed(json.dumps(older).encode()))
    assert pipeline.particle_film(lesson) == text
