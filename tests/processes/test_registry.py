"""Finding a process, and making a scene's conditions ready for it."""

from __future__ import annotations

import subprocess
import sys
from collections.abc import Mapping
from math import radians

import pytest

from sonify.errors import BadCondition, UnknownName
from sonify.processes import PROCESSES, conditions_si, find
from sonify.records.fact import Fact
from sonify.records.process import ProcessSpec
from sonify.records.scene import Condition, Measure
from sonify.say import say
from sonify.units import split


def condition(name: str, text: str) -> Condition:
    """A condition as a scene file writes it; a bare number has the unit "1"."""
    try:
        value, unit = split(text)
    except ValueError:
        value, unit = float(text), "1"
    return Condition(name=name, measure=Measure(text=text, value=value, unit=unit))


@pytest.mark.parametrize("name", list(PROCESSES))
def test_all_that_a_process_declares_can_be_said(name: str) -> None:
    spec = find(name)
    texts = [spec.title, spec.summary, *spec.honesty]
    texts += [words for stage in spec.stages for words in (stage.title, stage.seen_as)]
    texts += [one.meaning for one in spec.conditions] + [one.meaning for one in spec.quantities]
    assert all(isinstance(words, Fact) and say(words).strip() for words in texts)  # in the catalogue, to the last one
    assert all(say(each.meaning) == say(each.meaning).strip().removesuffix(".") for each in spec.conditions)


@pytest.fixture
def water_cycle() -> ProcessSpec:
    return find("water-cycle")


@pytest.mark.parametrize("name", list(PROCESSES))
def test_every_process_is_found_by_its_name_and_is_consistent(name: str) -> None:
    spec = find(name)
    assert spec.name == name
    assert spec.summary and spec.honesty and (spec.sources or spec.for_scene)
    for records in (spec.conditions, spec.stages, spec.quantities):
        names = [record.name for record in records]
        assert len(set(names)) == len(names)
    for one in spec.conditions:
        assert one.low <= one.default <= one.high, one.name
        assert one.meaning


def test_a_misspelt_process_is_named_with_the_nearest() -> None:
    with pytest.raises(UnknownName, match='did you mean "water-cycle"'):
        find("water-cylce")


def test_the_registry_is_a_mapping_and_lists_names_without_importing() -> None:
    assert isinstance(PROCESSES, Mapping)
    assert "water-cycle" in PROCESSES
    code = (
        "import sys, sonify.processes as p; list(p.PROCESSES); 'x' in p.PROCESSES; "
        "heavy = {'pint', 'scipy', 'sonify.processes.water_cycle', 'sonify.science.sun'} & set(sys.modules); "
        "sys.exit(', '.join(heavy) or 0)"
    )
    done = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=False)
    assert done.returncode == 0, done.stderr


def test_conditions_left_out_are_the_defaults(water_cycle: ProcessSpec) -> None:
    values = conditions_si(water_cycle, ())
    assert values == {one.name: one.default for one in water_cycle.conditions}
    assert values["sea_temperature"] == pytest.approx(287.15)


@pytest.mark.parametrize(
    ("name", "text", "si"),
    [
        ("sea_temperature", "19 degC", 292.15),
        ("sea_temperature", "59 degF", 288.15),
        ("sea_temperature", "290 K", 290.0),
        ("humidity", "55 %", 0.55),
        ("humidity", "55 percent", 0.55),
        ("latitude", "51.5 deg", radians(51.5)),
        ("latitude", "-0.5 rad", -0.5),
        ("wind", "18 km/h", 5.0),
        ("hill_height", "0.9 km", 900.0),
        ("day", "355", 355.0),
        ("humidity", "100 %", 1.0),
        ("latitude", "65 deg", radians(65.0)),
        ("sea_temperature", "0 degC", 273.15),
    ],
)
def test_units_are_turned_into_si(water_cycle: ProcessSpec, name: str, text: str, si: float) -> None:
    assert conditions_si(water_cycle, (condition(name, text),))[name] == pytest.approx(si, rel=1e-12)


@pytest.mark.parametrize(
    ("name", "text", "message"),
    [
        ("sea_temprature", "14 degC", 'no such condition; did you mean "sea_temperature"'),
        ("sea_temperature", "14 m/s", '"m/s" is no unit .*allowed: 0 °C to 30 °C, such as "14 degC"'),
        ("sea_temperature", "14", "without a unit; allowed: 0 °C to 30 °C"),
        ("sea_temperature", "41 degC", '"41 degC" is out of range; allowed: 0 °C to 30 °C'),
        ("humidity", "120 %", '"120 %" is out of range; allowed: 5 % to 100 %, such as "72 %"'),
        ("humidity", "72", "out of range; allowed: 5 % to 100 %"),
        ("humidity", "20 deg", 'is in "deg"; allowed: 5 % to 100 %'),
        ("latitude", "0.9", "without a unit; allowed: -65° to 65°"),
        ("latitude", "50 %", 'is in "%"; allowed: -65° to 65°'),
        ("latitude", "80 deg", "out of range; allowed: -65° to 65°"),
        ("wind", "-3 m/s", "out of range; allowed: 1 m/s to 20 m/s"),
        ("wind", "4 blorps", '"blorps" is no unit'),
        ("hill_height", "4 km", "out of range; allowed: 0 m to 3000 m"),
        ("day", "0", "out of range; allowed: 1 to 365, such as 172"),
        ("day", "172.5", "not a whole number"),
        ("day", "172 s", 'is in "s"; allowed: 1 to 365'),
    ],
)
def test_wrong_conditions_are_named_with_what_is_allowed(
    water_cycle: ProcessSpec, name: str, text: str, message: str
) -> None:
    with pytest.raises(BadCondition, match=message) as caught:
        conditions_si(water_cycle, (condition(name, text),))
    assert caught.value.key == name


def test_not_a_number_is_out_of_range(water_cycle: ProcessSpec) -> None:
    given = Condition(name="wind", measure=Measure(text="nan m/s", value=float("nan"), unit="m/s"))
    with pytest.raises(BadCondition, match="out of range"):
        conditions_si(water_cycle, (given,))


def test_a_condition_set_twice_is_refused(water_cycle: ProcessSpec) -> None:
    with pytest.raises(BadCondition, match="twice"):
        conditions_si(water_cycle, (condition("wind", "4 m/s"), condition("wind", "5 m/s")))
