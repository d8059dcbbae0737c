"""A film of the particle box as data for the page: small enough to embed, and every figure already worked out.

Positions are kept as whole steps of a fine grid: where each particle begins, and in one byte how far it moves from
frame to frame. Each move is counted from where the moves before it have led, so that rounding never adds up.
"""

from __future__ import annotations

import json
from base64 import b64encode
from collections.abc import Sequence
from typing import Any

import numpy as np
from numpy.typing import NDArray

from sonify.constants import ZERO_CELSIUS_K
from sonify.page.curves import drawn
from sonify.page.graphs import HEIGHT
from sonify.records.fact import fact
from sonify.records.film import Knocks, ParticleFilm
from sonify.records.timeline import FloatArray, Stage
from sonify.say import say

#: Raise it with every change of what the data hold: films that were kept in an older form are made anew.
FORM = 2
GRID = 65_535
FULL_BYTE = 127
#: The beat: so many a minute for each m/s of the mean speed. Nothing exaggerated: twice the speed, twice the beat.
BEATS_A_MINUTE_FOR_M_S = 0.6
#: How slowly it is shown: so much time of the box in a second of ours.
SHOWN_S_A_SECOND = 4.0e-12
#: Held at one place of the heating, so much time around it is run to and fro.
HELD_S = 16.0e-12


def encoded(array: NDArray[Any]) -> str:
    return b64encode(np.ascontiguousarray(array).tobytes()).decode("ascii")


def moves(places: NDArray[np.float32]) -> tuple[NDArray[np.uint16], NDArray[np.int8], int]:
    """Places (frames x particles x 2, shares of the width) as first places, moves, and the grid steps in one move."""
    grid = np.rint(np.asarray(places, dtype=np.float64) * GRID).astype(np.int64)
    furthest = int(np.abs(np.diff(grid, axis=0)).max(initial=0))
    # One more in reserve: a move also makes up for the rounding of the one before.
    scale = max(1, -(-furthest // (FULL_BYTE - 1)))
    at, steps = grid[0].copy(), np.empty((len(grid) - 1, *grid.shape[1:]), dtype=np.int8)
    for k, wanted in enumerate(grid[1:]):
        move = np.rint((wanted - at) / scale).astype(np.int64)
        at += scale * move
        steps[k] = move
    return grid[0].astype("<u2"), steps, scale


def knocks_data(knocks: Knocks, film: ParticleFilm) -> dict[str, Any]:
    """When (in steps of the simulation), who, and how hard on a scale of 255."""
    hardest = float(knocks.closing_m_s.max(initial=1.0))
    return {
        "step": encoded(np.rint(knocks.time_s / film.step_s).astype("<u4")),
        "one": encoded(knocks.pairs[:, 0].astype("<u2")),
        "other": encoded(knocks.pairs[:, 1].astype("<u2")),
        "hard": encoded(np.rint(knocks.closing_m_s / hardest * 255.0).astype("u1")),
        "stepsAFrame": round(film.frame_s / film.step_s),
    }


def knocks_a_second(film: ParticleFilm) -> list[int]:
    """For each frame how many knocks are heard in a second of ours, averaged over what is run to and fro there."""
    held = min((film.frames - 1) * film.frame_s, HELD_S)
    end_s = (film.frames - 1) * film.frame_s
    first = np.clip(np.arange(film.frames) * film.frame_s - 0.5 * held, 0.0, end_s - held)
    within = np.searchsorted(film.knocks.time_s, first + held) - np.searchsorted(film.knocks.time_s, first)
    return [round(float(count)) for count in within * SHOWN_S_A_SECOND / held]


def degrees(temperature_k: float) -> str:
    return f"{temperature_k - ZERO_CELSIUS_K:.0f}\u00a0°C".replace("-", "−")


def whole(values: FloatArray) -> list[int]:
    return [round(float(value)) for value in values]


def stage_row(stage: Stage, film: ParticleFilm) -> dict[str, Any]:
    """A state as the simulation found it: frames, its word, and what it is in words."""
    last = film.frames - 1
    word, what, science = stage_words(stage)
    return {
        "word": word,
        "what": what,
        "from": min(last, round(stage.start_s / film.frame_s)),
        "to": min(last, round(stage.end_s / film.frame_s)),
        "science": science,
    }


def stage_words(stage: Stage) -> tuple[str, str, str]:
    """A state's one word, what it is, and its science."""
    word, _, rest = say(stage.title).partition(": ")
    return word, rest[:1].upper() + rest[1:], say(stage.science)


def slowed_words() -> str:
    """How much slower than in the box it is shown: "250 thousand million times slower"."""
    times = 1.0 / SHOWN_S_A_SECOND / 1e9
    return say(fact("particles-slower", times=f"{times:.0f}"))


def film_data(film: ParticleFilm) -> dict[str, Any]:
    """The film as the page reads it."""
    first, steps, scale = moves(film.places)
    beats = film.speed_m_s * BEATS_A_MINUTE_FOR_M_S
    return {
        "form": FORM,
        "particles": int(film.places.shape[1]),
        "frames": film.frames,
        "framesASecond": SHOWN_S_A_SECOND / film.frame_s,
        "heldFrames": min(film.frames - 1, round(HELD_S / film.frame_s)),
        "radius": round(0.5 * film.diameter_m / film.width_m, 6),
        "first": encoded(first),
        "moves": encoded(steps),
        "scale": scale,
        "ringed": film.ringed,
        "knocks": knocks_data(film.knocks, film),
        "height": HEIGHT,
        "levels": drawn(film.temperature_k),
        "coldest": degrees(float(film.temperature_k.min())),
        "hottest": degrees(float(film.temperature_k.max())),
        "temperatures": [degrees(float(value)) for value in film.temperature_k],
        "speeds": whole(film.speed_m_s),
        "realSpeeds": whole(film.real_m_s),
        "beats": [round(float(value), 1) for value in beats],
        "knocksASecond": knocks_a_second(film),
        "stages": [stage_row(stage, film) for stage in film.stages],
        "substance": film.substance,
        "slowed": slowed_words(),
        "beatRule": BEATS_A_MINUTE_FOR_M_S,
        "real": [
            {"what": row.what, "temperature": degrees(row.temperature_k), "speed": round(row.speed_m_s)}
            for row in film.real
        ],
    }


def film_text(film: ParticleFilm) -> str:
    """The film as JSON: what is kept between runs and put into the page."""
    return _json(film_data(film))


def retold(text: str, stages: Sequence[Stage]) -> str:
    """A kept film with its words said anew: what was simulated keeps, what is said of it may since have changed.

    stages: those of the same run. ValueError: the film has other stages.
    """
    data = json.loads(text)
    for row, stage in zip(data["stages"], stages, strict=True):
        row["word"], row["what"], row["science"] = stage_words(stage)
    data["slowed"] = slowed_words()
    return _json(data)


def _json(data: dict[str, Any]) -> str:
    return json.dumps(data, ensure_ascii=False, allow_nan=False, separators=(",", ":"))


def is_film(text: str) -> bool:
    """Whether a text that was kept is whole, and in the form that the page reads."""
    try:
        data = json.loads(text)
    except ValueError:
        return False
    return isinstance(data, dict) and data.get("form") == FORM
