"""The whole room at once."""

from __future__ import annotations

import subprocess
import sys
from dataclasses import replace

import pytest

from sonify.arrange import playability
from sonify.errors import UnknownName
from sonify.kinds.cues import ACTIONS
from sonify.records.score import Score
from sonify.records.score_invariants import faults
from sonify.say import say
from tests.arrange.lessons import WATER, few_instruments, part, well_stocked

LARGE = replace(WATER, classroom=well_stocked(groups=8, pupils=32))
CLASSES = [WATER.classroom, few_instruments(), LARGE.classroom]


@pytest.mark.parametrize("classroom", CLASSES, ids=["five groups", "few instruments", "eight groups"])
def test_the_piece_is_sound_playable_and_tells_no_problem(classroom: object) -> None:
    sketch = replace(WATER, classroom=classroom)  # type: ignore[arg-type]
    score, findings = sketch.arranged()
    assert faults(score) == []
    assert [f for f in playability(score, sketch.classroom) if f.serious] == []
    assert not any(finding.serious for finding in findings)
    assert all(say(finding.message) and say(finding.fix) for finding in findings)


def test_the_same_inputs_and_seed_give_the_same_score() -> None:
    assert LARGE.arranged(seed=5) == LARGE.arranged(seed=5)


def test_another_seed_changes_only_taps_and_small_choices() -> None:
    a, b = WATER.score(seed=1), WATER.score(seed=2)

    def frame(score: Score) -> object:
        parts = [(p.name, p.group, p.instrument, p.seats, [(e.bar, e.bars) for e in p.entries]) for p in score.parts]
        # Marks are those of the notes as played, so a crescendo may lie elsewhere where the seed's notes do.
        cues = [(c.bar, c.part, c.action) for c in score.cues if not ACTIONS[c.action].fine]
        return parts, score.tempi, score.sections, score.swaps, cues

    assert frame(a) == frame(b)
    rain = [next(p for p in score.parts if p.name == "The rain").notes for score in (a, b)]
    assert rain[0] != rain[1]
    sea = [next(p for p in score.parts if p.name == "The sea").notes for score in (a, b)]
    assert sea[0] == sea[1]


def test_the_score_carries_what_was_asked_for() -> None:
    score = WATER.score(seed=7)
    assert (score.title, score.scene, score.seed, score.scaffold) == ("A sketch", "sketch", 7, "full")
    assert (score.bars, score.metre.beats, score.count_in_bars) == (64, 4, 2)
    assert [(tempo.bar, tempo.bpm) for tempo in score.tempi] == [(1, 66), (11, 104), (25, 80), (37, 72), (53, 84)]


def test_rules_that_cannot_be_heard_are_reported() -> None:
    curves = (
        *WATER.curves,
        ("density", "The sea", (1.0,) * 6),
        ("pitch", "The rain", (60.0, 62.0, 64.0, 66.0, 68.0, 70.0)),
    )
    _, findings = replace(WATER, curves=curves).arranged()
    unheard = {finding.part: say(finding.where) for finding in findings if "rule is not heard" in say(finding.message)}
    assert unheard == {"The sea": "density", "The rain": "pitch"}


def test_an_unknown_instrument_is_named() -> None:
    odd = replace(WATER, parts=(*WATER.parts, part("Odd", "scatter", "kazoo")))
    with pytest.raises(UnknownName, match='unknown instrument "kazoo"'):
        odd.score()


def test_a_long_piece_is_arranged_in_little_time() -> None:
    hour = replace(WATER, stages=tuple((name, 300, bpm) for name, _, bpm in WATER.stages))
    score = hour.score()
    assert score.bars == 1500 and faults(score) == []


def test_importing_the_room_loads_nothing_heavy() -> None:
    code = (
        "import sys, sonify.arrange; "
        "print([m for m in ('scipy', 'pint', 'music21', 'matplotlib', 'verovio', 'typst') if m in sys.modules])"
    )
    out = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert out.stdout.strip() == "[]"
