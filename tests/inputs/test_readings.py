"""What the words of a scene file mean, and what is said of those that mean nothing."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.errors import SonifyError
from sonify.inputs import readings
from sonify.kinds.controls import CONTROLS
from sonify.records.scene import Metre
from sonify.records.words import note_name

BAR = Metre(beats=4)


@given(st.integers(readings.LOWEST_NOTE, readings.HIGHEST_NOTE))
def test_a_note_is_read_back_from_the_name_that_paper_prints(note: int) -> None:
    assert readings.note_number(note_name(note)) == note


def test_sharps_and_flats_may_be_signs_or_letters() -> None:
    assert readings.note_number("F♯4") == readings.note_number("f#4") == readings.note_number("Gb4") == 66


@pytest.mark.parametrize("name", ["C", "H4", "C44", "4C", "C9", "C-1", "C##4", ""])
def test_what_is_no_note_of_a_piano_is_refused(name: str) -> None:
    with pytest.raises(readings.UnreadableWord, match="not a note|A0 to C8"):
        readings.note_number(name)


@pytest.mark.parametrize(
    ("control", "text", "value"),
    [
        ("tempo", "66 bpm", 66.0),
        ("tempo", "66bpm", 66.0),
        ("density", "1 per bar", 0.25),
        ("density", "0 per bar", 0.0),
        ("density", "1.5 per  beat", 1.5),
        ("dynamics", "ff", 108.0),
        ("brightness", "20 %", 0.2),
        ("brightness", "20%", 0.2),
    ],
)
def test_a_sound_is_in_its_controls_own_unit(control: str, text: str, value: float) -> None:
    assert readings.sound(control, text, BAR) == value


@pytest.mark.parametrize(
    ("control", "text", "says"),
    [
        ("tempo", "29 bpm", "30 to 240 bpm"),
        ("tempo", "66 beats", 'such as "66 bpm"'),
        ("density", "25 per beat", "0 to 24 per beat for the whole group"),
        ("density", "-1 per beat", "0 to 24 per beat"),
        ("density", "2 per minute", 'such as "1 per bar" or "2 per beat"'),
        ("density", "2", 'such as "1 per bar" or "2 per beat"'),
        ("dynamics", "mff", "Allowed: pp, p, mp, mf, f, ff"),
        ("brightness", "120 %", "0 % to 100 %"),
        ("brightness", "0.2", 'such as "20 %"'),
    ],
)
def test_a_sound_outside_what_is_allowed_is_refused(control: str, text: str, says: str) -> None:
    with pytest.raises(readings.UnreadableWord, match=says):
        readings.sound(control, text, BAR)


@pytest.mark.parametrize("text", ["3 min", "180 s", "0.05 h", "180000 ms"])
def test_a_length_may_be_in_any_unit_of_time(text: str) -> None:
    assert readings.length_s(text) == pytest.approx(180.0)


@pytest.mark.parametrize(
    "text", ["1 m/s", "1 W/m**2", "1 W/(m**2 K)", "1 kg m^-3", "1 g/m³", "1 °C", "1 %", "1 µm", "-1.5e-3 mm/h", "1 m·s"]
)
def test_units_as_people_write_them_are_measures(text: str) -> None:
    assert readings.measure(text).text == text


@pytest.mark.parametrize("unit", ["s**9**9**9", "(s**9)**9", "9**9", "s**99", "__import__('os')", "m;s", "s" * 41])
def test_what_pint_must_not_be_given_is_no_unit(unit: str) -> None:
    with pytest.raises(SonifyError, match="is not a unit"):
        readings.measure(f"1 {unit}")


@given(
    st.sampled_from(tuple(CONTROLS)),
    st.text() | st.from_regex(r"[-+.\de]{1,6} ?(bpm|%|per bar|per beat)", fullmatch=True),
)
def test_any_text_is_a_finite_sound_or_a_clear_refusal(control: str, text: str) -> None:
    try:
        assert 0 <= readings.sound(control, text, BAR) <= 240
    except SonifyError as error:
        assert str(error)
