"""Published figures of hearing, and laws of sound, against the table of thresholds and the factors.

Drake and Botte 1993, "Tempo sensitivity in auditory sequences: evidence for a multiple-look model", abstract as read:
single intervals 6 %, two intervals 4 %, four 3.2 %, six 3 %, and as low as 1.5 % between 300 and 800 ms.
Level (about 1 dB) and pitch (0.2 to 0.7 %): standard figures from memory, not verified.
Velocity law of Downloadable Sounds, 40 log10(v / 127) dB, and its values for six dynamic marks: as quoted in answers of
a MIDI forum; the marks' velocities are those of the music21 library.
Equal temperament: a semitone is 1.0594631, an octave 2 (MIDI Tuning; printed by two pitch libraries).
"""

from __future__ import annotations

import pytest

from sonify.kinds.marks import DYNAMICS
from sonify.mapping.exaggeration import sound_ratio
from sonify.mapping.thresholds import can_be_told_apart, threshold
from sonify.records.telling_apart import difference, level_db
from tests.reference.tolerance import half_last_digit

DRAKE_BOTTE_SINGLE = "6"
DRAKE_BOTTE_MORE = ("4 %", "3.2 %", "3 %", "1.5 %")
VELOCITY_LEVELS = [("ff", "-2.8"), ("f", "-6.2"), ("mf", "-10.3"), ("mp", "-13.9"), ("p", "-18.4"), ("pp", "-23.9")]
SEMITONE = "1.0594631"


def test_the_tempo_row_asks_twice_what_the_abstract_prints_for_one_interval() -> None:
    row = threshold("tempo")
    assert row.asked == 2.0 * float(DRAKE_BOTTE_SINGLE) and row.unit == "%"
    assert all(figure in row.published for figure in DRAKE_BOTTE_MORE)
    assert "abstract" in row.status and "Drake and Botte 1993" in row.source


@pytest.mark.parametrize(("slower", "faster", "apart"), [(100, 112, True), (100, 111.9, False), (60, 66, False)])
def test_tempi_twelve_per_cent_apart_are_told_apart(slower: float, faster: float, apart: bool) -> None:
    assert can_be_told_apart("tempo", slower, faster) is apart
    assert can_be_told_apart("tempo", faster, slower) is apart


@pytest.mark.parametrize(("mark", "printed"), VELOCITY_LEVELS)
def test_dynamic_marks_have_the_level_of_the_velocity_law(mark: str, printed: str) -> None:
    assert level_db(float(DYNAMICS[mark])) == pytest.approx(float(printed), rel=0, abs=half_last_digit(printed))


def test_every_mark_can_be_told_from_the_next() -> None:
    velocities = sorted(DYNAMICS.values())
    for softer, louder in zip(velocities, velocities[1:], strict=False):
        assert can_be_told_apart("dynamics", softer, louder)


def test_limits_ask_for_at_least_the_published_difference() -> None:
    assert threshold("dynamics").asked >= 1.0  # dB, from memory
    semitone_percent = 100.0 * (float(SEMITONE) - 1.0)
    assert threshold("pitch").asked * semitone_percent >= 0.7  # per cent, from memory
    for control in ("dynamics", "pitch"):
        assert "from memory" in threshold(control).status
    for control in ("density", "brightness"):
        assert threshold(control).status.startswith("our own")


def test_pitch_becomes_frequency_by_equal_temperament() -> None:
    ratio = sound_ratio("pitch", 60.0, 61.0)
    assert ratio == pytest.approx(float(SEMITONE), rel=0, abs=half_last_digit(SEMITONE))
    assert sound_ratio("pitch", 57.0, 69.0) == 2.0


def test_dynamics_become_amplitude_by_the_same_law() -> None:
    ratio = sound_ratio("dynamics", 44.0, 89.0)
    assert ratio == pytest.approx(10.0 ** (difference("dynamics", 44.0, 89.0) / 20.0))
