"""The scene that is written beside a class's readings can be read, whatever they are called. All invented."""

from __future__ import annotations

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from sonify.inputs.logger import read_table
from sonify.inputs.measured_scene import measured_scene_text, process_for, understood
from sonify.inputs.scene_file import read_scene
from sonify.records.scene import Scene
from sonify.records.table import Table
from sonify.say import say
from tests.catalogue import catalogue

POND = "Time (min),Temp (°C),Light (lux),Noise (dB)\n0,14.2,300,40\n1,14.5,310,41\n2,15.1,290,55\n3,15.0,250,44\n"
CLOTHS = "Material,Test 1 (ml),Test 2 (ml),Mass (g)\npaper,12,13,2\ntowel,22,21,30\nsponge,16,15,11\n"


def table(text: str, file: str = "pond.csv") -> Table:
    return read_table(text.encode(), file=file)


def scene(made: Table, name: str = "pond") -> Scene:
    return read_scene(measured_scene_text(made, name), file="pond.toml", name=name)


def test_readings_over_time_become_a_scene_of_their_own_process() -> None:
    made = scene(table(POND))
    assert (made.process, made.data, made.title) == ("measured", "pond.csv", "Our readings: pond")
    heard = [(rule.quantity, rule.control, rule.low.text, rule.high.text) for rule in made.rules]
    assert heard == [
        ("temp", "tempo", "14.2 degC", "15.1 degC"),
        ("temp", "pitch", "14.2 degC", "15.1 degC"),
        ("light", "density", "250 lux", "310 lux"),
        ("temp", "dynamics", "14.2 degC", "15.1 degC"),
        ("noise", "dynamics", "40 dB", "55 dB"),
    ]
    assert {rule.part for rule in made.rules if rule.part} <= {part.name for part in made.parts}


def test_a_table_of_results_becomes_one_sound_a_material_with_the_same_rules() -> None:
    made = scene(table(CLOTHS))
    assert made.process == "results-table"
    assert [part.stages for part in made.parts[:3]] == [
        ("paper", "in order"),
        ("towel", "in order"),
        ("sponge", "in order"),
    ]
    assert [(rule.quantity, rule.control, rule.part) for rule in made.rules] == [
        ("test", "pitch", None),
        ("mass", "dynamics", None),
    ]
    assert made.music.slowest_bpm == made.music.fastest_bpm


def test_the_scene_explains_itself_in_lines_that_fit_a_screen() -> None:
    for text in (POND, CLOTHS):
        rows = measured_scene_text(table(text), "pond").split("\n")
        assert max(len(row) for row in rows if row.startswith("#")) <= 120
        assert sum("#" in row for row in rows) > 15


def test_every_sound_is_an_instrument_and_each_part_can_do_without_a_cupboard() -> None:
    for text in (POND, CLOTHS):
        for part in scene(table(text)).parts:
            rows = [catalogue().find(sound) for sound in part.sounds]
            assert rows[-1].bodily
            assert all(part.texture in row.textures for row in rows), part.name


def test_a_file_without_times_is_told_where_to_write_the_interval() -> None:
    text = measured_scene_text(table("Temp (°C)\n14\n15\n16\n"), "pond")
    assert tomllib.loads(text)["conditions"]["interval"] == "1 min"
    assert "CHANGE THIS" in text
    assert "interval" not in measured_scene_text(table(POND), "pond")


def test_a_wild_reading_does_not_stretch_the_rules() -> None:
    rows = "".join(f"{i},{14 + i % 5 / 10}\n" for i in range(40))
    made = scene(table("Time (s),Temp (°C)\n" + rows + "40,85\n" + rows.replace("\n", "0\n")))
    assert {rule.high.text for rule in made.rules} == {"14.4 degC"}


def test_what_was_understood_is_said_in_sentences() -> None:
    said = "\n".join(map(say, understood(table("made by hand\n\n" + POND))))
    assert "4 rows of readings (rows 4 to 7 of the file), UTF-8, cells between commas, decimal point" in said
    assert "2 lines above the table" in said
    assert "time from the start in the column time, from 0 min to 3 min: 3 minutes, a reading every 60 seconds" in said
    assert "temp: 4 readings, 14.2 °C to 15.1 °C" in said
    results = "\n".join(map(say, understood(table(CLOTHS))))
    assert "there is none" in results and "paper, towel and sponge" in results


NAMES = st.text(st.characters(blacklist_categories=("Cc", "Cs")), min_size=1, max_size=80)
VALUES = st.floats(-1e11, 1e11, allow_nan=False).map(lambda value: f"{value:.3f}")


@given(NAMES, st.lists(st.lists(VALUES, min_size=2, max_size=2), min_size=2, max_size=8), st.booleans())
def test_whatever_the_readings_are_called_the_scene_can_be_read(name: str, rows: list[list[str]], timed: bool) -> None:
    heading = name.replace('"', "'")
    first = "Time (s)" if timed else "Material"
    body = [f"{i if timed else chr(97 + i)},{row[0]},{row[1]}" for i, row in enumerate(rows)]
    text = "\n".join([f'{first},"{heading}",Light (lux)', *body])
    made = table(text)
    found = scene(made, heading)
    assert found.process == process_for(made)
    assert {rule.quantity for rule in found.rules} <= {column.name for column in made.columns}


@pytest.mark.parametrize("unit", ["hops", "no unit", "1/min", "W/m**2", "delta_degC"])
def test_every_unit_that_is_read_can_be_written(unit: str) -> None:
    headings = {"1/min": "Pulse (bpm)", "W/m**2": "Sun (W/m2)", "delta_degC": "Change (°C)", "no unit": "Bounces"}
    if unit == "hops":
        made = table("Time (s),Frog\n0,1 hops\n1,2 hops\n2,4 hops\n")
    else:
        made = table(f"Time (s),{headings[unit]}\n0,1\n1,2\n2,4\n")
    assert made.columns[0].unit == unit
    assert {rule.low.unit for rule in scene(made).rules} == {unit}


def test_the_range_of_a_table_of_results_has_every_reading() -> None:
    """What differs from all others is no slip there: foam bounces low."""
    table = read_table(b"Ball,Bounce (cm)\nTennis,55\nRubber,71\nFoam,20\nGolf,66\nSquash,57\n", file="balls.csv")
    assert 'from     = ["20 cm", "71 cm"]' in measured_scene_text(table, "balls")
