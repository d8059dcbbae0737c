"""Loudness range: measured as EBU Tech 3342 has it, and kept small without turning any order round."""

from __future__ import annotations

from dataclasses import replace

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify import lesson
from sonify.records.score import Score
from sonify.sound.levelling import LEAST_DB, in_own_order, stage_edges_s, stage_levels_db
from sonify.sound.loudness import loudness_range_lu, quantile
from tests.sound.metering import squares_of
from tests.sound.recording import record

RATE_HZ = 44_100


# EBU Tech 3342, table of minimum requirements: 1 kHz in both channels, 20 s a level; LU, each +- 1 (from memory)
@pytest.mark.parametrize(
    ("levels_dbfs", "printed_lu"),
    [((-20, -30), 10), ((-20, -15), 5), ((-40, -20), 20), ((-50, -35, -20, -35, -50), 15)],
)
def test_the_meter_reads_the_standards_test_signals(levels_dbfs: tuple[int, ...], printed_lu: int) -> None:
    t = np.arange(20 * RATE_HZ) / RATE_HZ
    tone = np.sin(2 * np.pi * 1000 * t)
    mono = np.concatenate([10 ** (level / 20) * tone for level in levels_dbfs])
    assert loudness_range_lu(squares_of(np.array([mono, mono]))) == pytest.approx(printed_lu, abs=1.0)


def test_silence_has_no_range() -> None:
    assert loudness_range_lu(np.zeros(100)) == 0.0


LEVELS = st.lists(st.floats(-40, 0), min_size=5, max_size=5).map(np.array)


@given(wish=st.lists(st.floats(-6, 6), min_size=5, max_size=5).map(np.array), own=st.lists(LEVELS, max_size=3))
def test_no_lift_turns_a_parts_own_stages_round(wish: np.ndarray, own: list[np.ndarray]) -> None:
    lift = in_own_order(wish, own)
    for levels in own:
        for high in range(5):
            for low in range(5):
                if levels[high] - levels[low] > LEAST_DB + 0.1:
                    assert levels[high] + lift[high] > levels[low] + lift[low] - 0.1


def test_a_part_without_limits_gets_the_lift_that_was_wished_for() -> None:
    wish = np.array([3.0, -1.0, -2.0])
    np.testing.assert_allclose(in_own_order(wish, []), wish)
    silent = np.array([np.nan, -10.0, -20.0])
    lift = in_own_order(wish, [silent])
    assert lift[0] == 3.0 and lift[1] - lift[2] > -10.0


def stages_db(score: Score) -> tuple[float, np.ndarray]:
    hops = squares_of(record(score, stems=False).mix)
    return loudness_range_lu(hops), stage_levels_db(hops, stage_edges_s(score))


@pytest.mark.parametrize("scene", ["playground-pulse", "two-cups"])
def test_a_scenes_quiet_and_loud_lie_ten_units_apart_at_most_and_further_on_request(scene: str) -> None:
    score = lesson.compose(scene)
    (near_lu, near), (wide_lu, wide) = stages_db(score), stages_db(replace(score, loudness_range="wide"))
    assert near_lu <= 10.0
    assert wide_lu > near_lu + 3.0
    for high in range(len(wide)):
        for low in range(len(wide)):
            if wide[high] - wide[low] > 1.0:
                assert near[high] > near[low], (wide, near)


def test_a_quantile_is_the_one_that_numpy_gives() -> None:
    rng = np.random.default_rng(3)
    for size in (1, 2, 3, 11, 40):
        values = rng.standard_normal(size)
        for share in (0.0, 0.1, 0.5, 0.7, 0.95, 1.0):
            assert quantile(values, share) == np.quantile(values, share)
