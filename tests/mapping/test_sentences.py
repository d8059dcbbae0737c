"""The key: sentences, tables and values with the quantity that goes with them."""

from __future__ import annotations

import numpy as np
import pytest

from sonify.errors import UnknownName
from sonify.kinds.controls import CONTROLS
from sonify.mapping.companions import relation_between
from sonify.mapping.sound_words import sound, written_text
from sonify.records.controls import Key
from sonify.records.scene import Rule
from sonify.records.timeline import Quantity
from sonify.say import say
from sonify.science.kinetic import mean_speed
from tests.mapping.making import map_scene, process, quantity, rule, scene, stepped, timeline

WHOSE = "the water on its journey"
LEVELS_K = np.array(stepped([282.0, 294.0, 286.0, 280.0, 288.0]))


def speed(companion: str = "journey temperature") -> Quantity:
    speeds = [float(v) for v in mean_speed(LEVELS_K, 0.01801528)]
    return quantity("mean molecule speed", speeds, unit="m/s", si_unit="m/s", whose=WHOSE, companion=companion)


def key_of(written: Rule, *quantities: Quantity) -> Key:
    given = quantities or (speed(), quantity("journey temperature", list(LEVELS_K), whose=WHOSE))
    found = timeline(*given)
    return map_scene(scene(written), found, process(found))[0].keys[0]


def test_the_sentence_says_whose_and_both_ends_and_which_way() -> None:
    key = key_of(rule("mean molecule speed", ends=("572 m/s", "592 m/s")))
    # reference table 1: at 0 and 20 degC 566.6 and 587.0 m/s; 572 and 592 m/s are 5 and 25 degC
    assert key.sentence == (
        "When the mean molecule speed of the water on its journey is 572 m/s (5 °C), the beat is 66 a minute; "
        "at 592 m/s (25 °C), 112 a minute. The higher the mean molecule speed, the faster the beat."
    )


#: What happens to the sound as the control rises, and as it falls.
DIRECTIONS = {
    "tempo": ("the faster the beat", "the slower the beat"),
    "pitch": ("the higher the notes", "the lower the notes"),
    "density": ("the more taps", "the fewer taps"),
    "dynamics": ("the louder the sound", "the softer the sound"),
    "brightness": ("the brighter the sound", "the darker the sound"),
}


@pytest.mark.parametrize("control", CONTROLS)
def test_the_direction_is_turned_where_the_control_falls(control: str) -> None:
    ends = {"tempo": (66.0, 112.0), "pitch": (60, 72), "density": (0.5, 2), "dynamics": (44, 89), "brightness": (0, 1)}
    low, high = ends[control]
    rising = key_of(rule("journey temperature", control, to=(low, high))).sentence
    falling = key_of(rule("journey temperature", control, to=(high, low))).sentence
    assert DIRECTIONS[control][0] in rising and DIRECTIONS[control][1] not in rising
    assert DIRECTIONS[control][1] in falling and DIRECTIONS[control][0] not in falling
    # written downwards in `from` as well: rising again
    both = key_of(rule("journey temperature", control, ends=("25 degC", "5 degC"), to=(high, low))).sentence
    assert both == rising


def test_a_part_is_named_and_its_sound_said_in_words() -> None:
    key = key_of(rule("journey temperature", "dynamics", to=(44.0, 89.0), part="The sea"))
    assert 'is 5 °C, the part "The sea" plays p (piano, soft); at 25 °C, f (forte, loud).' in key.sentence
    key = key_of(rule("journey temperature", "density", to=(0.25, 2.0), part="The sea"))
    assert 'the part "The sea" plays 1 tap a bar; at 25 °C, 2 taps a beat.' in key.sentence
    key = key_of(rule("journey temperature", "pitch", to=(60.0, 79.0)))
    assert "everybody plays around C4; at 25 °C, G5." in key.sentence
    key = key_of(rule("journey temperature", "brightness", to=(0.1, 0.9)))
    assert "everybody sounds very dark (the softest beater); at 25 °C, very bright" in key.sentence


def test_a_logarithmic_rule_says_how_it_steps() -> None:
    key = key_of(rule("mean molecule speed", ends=("572 m/s", "592 m/s"), curve="logarithmic"))
    assert key.sentence.endswith("Each doubling makes the same step.")


def test_the_table_runs_from_end_to_end_in_sounds_that_are_played() -> None:
    key = key_of(rule("journey temperature", ends=("5 degC", "25 degC"), to=(66.0, 112.0)))
    assert [row[1].split(" (")[0] for row in key.values] == [f"{n} a minute" for n in (66, 78, 89, 101, 112)]
    assert [row[0] for row in key.values] == ["5 °C", "10 °C", "15 °C", "20 °C", "25 °C"]
    assert key.values[0][1] == "66 a minute (Adagio, unhurried)"
    notes = [row[1] for row in key_of(rule("journey temperature", "pitch", to=(60.0, 72.0))).values]
    assert notes == ["C4", "D4", "G4", "A4", "C5"]  # 63, 66 and 69 in C pentatonic; halfway, the lower
    marks = [row[1][:2].strip() for row in key_of(rule("journey temperature", "dynamics", to=(89.0, 44.0))).values]
    assert marks == ["f", "mf", "mp", "p"]


def test_each_stage_tells_what_is_heard_in_it() -> None:
    key = key_of(rule("mean molecule speed", ends=("572 m/s", "592 m/s")))
    assert [row[0] for row in key.stages] == [
        "Sun warms",
        "Evaporation",
        "Condensation",
        "Precipitation",
        "Collection",
    ]
    assert key.stages[1][1] == "588 m/s (21 °C)"  # 294 K


def test_density_is_said_in_beats_or_bars() -> None:
    assert [say(sound("density", each, 3)) for each in (1.0, 1.5, 1 / 3, 0.5, 1 / 6)] == [
        "1 tap a beat",
        "1.5 taps a beat",
        "1 tap a bar",
        "1.5 taps a bar",
        "1 tap in 2 bars",
    ]


def test_what_is_written_is_what_a_scene_file_reads() -> None:
    from sonify.inputs.readings import sound as read
    from sonify.records.scene import Metre

    for control, value in [("tempo", 66), ("pitch", 70), ("density", 0.25), ("dynamics", 57), ("brightness", 0.35)]:
        assert read(control, written_text(control, value).strip('"'), Metre()) == pytest.approx(value)


def test_sounds_in_words_at_the_ends_of_their_bands() -> None:
    assert say(sound("brightness", 0.0, 4)).startswith("very dark")
    assert say(sound("brightness", 1.0, 4)).startswith("very bright")
    assert say(sound("density", 0.0, 4)) == "no taps"


def test_a_companion_is_carried_on_past_the_samples_but_not_for_ever() -> None:
    relation = relation_between(speed().values, LEVELS_K)
    assert relation is not None
    for temperature_k in (272.0, 285.0, 305.0):
        own = float(mean_speed(temperature_k, 0.01801528))
        assert relation(own) == pytest.approx(temperature_k, abs=0.01)
    assert relation(700.0) is None
    key = key_of(rule("mean molecule speed", ends=("572 m/s", "700 m/s")))
    assert "572 m/s (5.2 °C)" in key.sentence and "at 700 m/s, 112" in key.sentence


def test_a_relation_that_is_no_parabola_ends_with_its_samples() -> None:
    xs = np.linspace(0.0, 1.0, 50)
    relation = relation_between(xs, np.exp(8.0 * xs))
    assert relation is not None
    assert relation(0.5) == pytest.approx(np.exp(4.0), rel=0.01)
    assert relation(1.2) is None


@pytest.mark.parametrize("others", [np.sin(np.linspace(0.0, 9.0, 50)), np.full(50, 3.0)])
def test_what_is_no_function_is_no_companion(others: np.ndarray) -> None:
    assert relation_between(np.linspace(0.0, 1.0, 50), others) is None
    assert relation_between(np.full(50, 2.0), np.linspace(0.0, 1.0, 50)) is None


def test_a_companion_that_the_process_lacks_is_named() -> None:
    with pytest.raises(UnknownName, match="warmness"):
        key_of(rule("mean molecule speed", ends=("572 m/s", "592 m/s")), speed("warmness"))


def test_without_a_companion_the_value_stands_alone() -> None:
    key = key_of(rule("mean molecule speed", ends=("572 m/s", "592 m/s")), speed(""))
    assert "is 572 m/s, the beat" in key.sentence


def test_an_owner_that_the_name_holds_already_is_named_once() -> None:
    height = quantity("height of the water", stepped([0, 9, 6, 3, 0]), unit="m", si_unit="m", whose=WHOSE)
    key = key_of(rule("height of the water", "pitch", ("0 m", "9 m"), (60.0, 84.0)), height)
    assert key.sentence.startswith("When the height of the water is 0 m,")
    mass = quantity("mass of ice", stepped([0, 9, 6, 3, 0]), unit="kg", si_unit="kg", whose="the cup")
    key = key_of(rule("mass of ice", "pitch", ("0 kg", "9 kg"), (60.0, 84.0)), mass)
    assert key.sentence.startswith("When the mass of ice of the cup is 0 kg,")


def test_small_values_of_a_logarithmic_rule_keep_their_digits() -> None:
    sizes = quantity("grain size", stepped([20.0e-3, 0.5e-3, 0.025e-3, 0.004e-3]), unit="mm", si_unit="m")
    written = rule("grain size", ends=("0.003 mm", "20 mm"), curve="logarithmic")
    found = timeline(sizes)
    key = map_scene(scene(written), found, process(found))[0].keys[0]
    shown = [value for _, value, _ in key.stages]
    assert "0.26 mm" in shown and "0.02 mm" in shown and "0 mm" not in shown
    assert key.values[0][0] == "0.003 mm" and key.values[-1][0] == "20 mm"
