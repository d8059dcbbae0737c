"""A class's experiment as a piece: a walk along what was changed, groups beside each other. Invented readings."""

from __future__ import annotations

import re
from collections.abc import Iterator

import numpy as np
import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from sonify.errors import BadCondition, BadFile
from sonify.kinds.timelines import TIMELINES
from sonify.processes import conditions_si, experiment, measured
from sonify.processes.experiment_advice import advice
from sonify.records.experiment import Experiment
from sonify.records.fact import Amount, facts_in
from sonify.records.scene import WORD, Condition, Measure
from sonify.records.timeline import Timeline
from sonify.say import say
from tests import experiments as made
from tests.processes.truth import check_told, judged


def run(given: Experiment) -> Timeline:
    spec = (measured if given.timed else experiment).for_experiment(given)
    return spec.run(conditions_si(spec, ()))


def told(found: Timeline) -> list[str]:
    return [say(stage.science) for stage in found.stages]


def test_each_step_of_what_was_changed_is_a_stage_that_holds_its_mean() -> None:
    found = run(made.MAGNET)
    assert [stage.name for stage in found.stages][:3] == ["0 layers of paper", "1 layers of paper", "2 layers of paper"]
    assert [say(stage.title) for stage in found.stages][:3] == [
        "0 layers of paper",
        "1 layer of paper",
        "2 layers of paper",
    ]
    clips = made.MAGNET.series[0]
    for stage, mean in zip(found.stages, clips.values, strict=True):
        inside = np.linspace(stage.start_s, stage.end_s, 50)
        np.testing.assert_allclose(found.at("paper clips", inside), mean)
    assert found.quantity("paper clips spread").values[0] == 1.0
    assert (found.kind, found.axis) == ("axis", "layers of paper")


def test_what_is_said_of_a_step_has_the_figures_of_the_table_and_the_words_of_its_roles() -> None:
    sentences = told(run(made.MAGNET))
    assert sentences[0] == "With 0 layers of paper, we counted 11.3 paper clips on average (tries: 3)."
    assert sentences[2].endswith("we counted 7.7 paper clips on average (tries: 3). That is fewer than with 1.")
    assert sentences[-1].endswith("All in all: the more layers of paper, the fewer paper clips.")
    assert told(run(made.LOUDNESS))[1] == (
        "When the distance was 2 m, the loudness was 74.5 dB. That is less than at 1 m."
    )


def test_repeats_that_overlap_are_said_to_leave_it_open() -> None:
    """3.67 and 3 clips, and the tries with 6 layers were 4, 4 and 3."""
    assert "But the tries with 6 lie 1 apart themselves" in told(run(made.MAGNET))[-1]
    assert "apart themselves" not in told(run(made.MAGNET))[1]


@pytest.mark.parametrize("given", [made.MAGNET, made.LOUDNESS, made.BALLS], ids=lambda each: each.changed)
def test_no_time_is_told_where_none_was_measured(given: Experiment) -> None:
    found = run(given)
    assert not TIMELINES[found.kind].timed and found.clock_start is None
    words = " ".join([*told(found), *(say(event.text) for event in found.events)])
    assert not re.search(r"\d (?:seconds?|minutes?|hours?|s|min)\b", words)


def test_groups_stand_beside_each_other_at_each_step() -> None:
    sentences = told(run(made.BALLS))
    assert sentences[0] == (
        "When the drop height was 20 cm, the bounce height was: tennis ball 11 cm and rubber ball 15 cm."
    )
    assert "(so it was in every group)" in sentences[-1]


def test_before_and_after_are_two_stages_and_the_greatest_change_is_named() -> None:
    before, after = told(run(made.PULSES))
    assert before == "Before, the pulse was: Ada 72 a minute and Ben 80 a minute."
    assert after.endswith("The pulse rose most of all here: Ben.")


def test_many_steps_are_walked_without_a_stop_in_stretches_that_end_at_readings() -> None:
    metres = np.arange(31.0)
    loud = made.series("loudness", [np.round(90.0 - 20.0 * np.log10(1.0 + metres), 1)], "dB")
    found = run(made.experiment("number", "distance", "m", metres.tolist(), loud))
    assert 2 <= len(found.stages) <= 6
    assert told(found)[0].startswith("From 0 m to 8 m, the loudness falls from 90 dB to 70.9 dB.")


def test_groups_over_time_are_cut_at_readings_and_told_one_by_one() -> None:
    found = run(made.PLANTS)
    assert told(found)[-1] == (
        "From day 6 to day 21, the height goes: sill from 5 cm to 44 cm, cupboard from 4 cm to 16 cm and fridge from "
        "0 cm to 1.5 cm. At the end of it, greatest height: sill; smallest: fridge."
    )
    assert found.quantity("height: fridge").in_unit()[-1] == pytest.approx(1.5)


def test_an_empty_cell_costs_that_cell_only_and_it_is_said() -> None:
    inside = made.series("loudness", [[80, np.nan, 68]], "dB", "inside")
    outside = made.series("loudness", [[80, 70, 60]], "dB", "outside")
    given = made.experiment("number", "distance", "m", [1, 2, 4], inside, outside)
    spec = experiment.for_experiment(given)
    assert len(spec.stages) == 3
    assert "loudness was: inside (nothing was read) and outside 70 dB" in told(run(given))[1]
    assert any("loudness (inside) 1" in say(words) for words in spec.honesty)


def test_an_experiment_of_another_shape_is_sent_to_its_process() -> None:
    with pytest.raises(BadFile, match='write process = "measured"'):
        experiment.for_experiment(made.PLANTS)
    with pytest.raises(BadFile, match='write process = "experiment"'):
        measured.for_experiment(made.MAGNET)


@pytest.mark.parametrize("given", [made.PLANTS, made.LOUDNESS])
def test_repeats_that_have_no_turn_are_refused_with_what_to_do(given: Experiment) -> None:
    spec = (measured if given.timed else experiment).for_experiment(given)
    with pytest.raises(BadCondition, match="the mean is played.*How sure"):
        conditions_si(spec, (Condition(name="repeats", measure=Measure(value=0.0, unit=WORD, text="one by one")),))


def _figures(found: Timeline) -> Iterator[Amount]:
    for stage in found.stages:
        for fact in facts_in(stage.science):
            yield from (figure for figure in fact.figures() if isinstance(figure, Amount))


@st.composite
def tables(draw: st.DrawFn) -> Experiment:
    """Two to sixteen steps, one to three groups, one to three tries; whole numbers or decimals; over time or not."""
    steps = sorted(draw(st.sets(st.integers(0, 60), min_size=3, max_size=16)))
    unit = draw(st.sampled_from(["cm", "degC", "dB", "no unit"]))
    reading = st.integers(-40, 90) if draw(st.booleans()) else st.integers(-400, 900).map(lambda n: n / 10)
    reading = reading | st.just(float("nan")) if draw(st.booleans()) else reading
    groups = draw(st.sampled_from([("",), ("sill", "fridge"), ("a", "b", "c")]))
    tries = st.lists(reading, min_size=len(steps), max_size=len(steps))
    found = [
        made.series("height", draw(st.lists(tries, min_size=1, max_size=3)), unit, group, counted=unit == "no unit")
        for group in groups
    ]
    assume(all(np.isfinite(each.values).sum() > 2 for each in found))
    if draw(st.booleans()):
        return made.experiment("time", "day", "s", [made.DAY_S * (step - steps[0]) for step in steps], *found)
    return made.experiment("number", "layers", "no unit", [float(step) for step in steps], *found)


@given(tables())
def test_what_is_told_of_any_experiment_is_so_and_every_figure_stands_in_its_table(given: Experiment) -> None:
    found = run(given)
    conditions = {"level": 0.1, "stretches": 6.0, "follow": 1.0}
    assert not judged(found, conditions)[1]
    check_told(found, conditions)
    written = np.concatenate([*(each.values for each in given.series), given.steps])
    written = written[np.isfinite(written)]
    spreads = [np.nan_to_num(each.most - each.least) for each in given.series]
    for figure in _figures(found):
        near = 0.5 * 10.0 ** -(figure.places or 0) + 1e-9
        assert np.min(np.abs(np.concatenate([written, *spreads]) - figure.value)) <= near, figure


def advised(given: Experiment) -> list[tuple[str, bool]]:
    return [(say(each.message), each.serious) for each in advice(given)]


def test_what_so_few_or_so_many_values_cannot_show_is_said_with_what_to_do() -> None:
    two = made.experiment("number", "distance", "m", [1, 2], made.series("loudness", [[80, 70]], "dB"))
    assert advised(two) == [
        ("Two values of distance have no shape: anything may lie between them, and beyond them.", True)
    ]
    assert advised(made.LOUDNESS)[0][0].startswith("4 values make a chord rather than a tune")
    assert not advised(made.MAGNET) and not advised(made.BALLS) and not advised(made.PULSES)
    many = [made.series("height", [[1, 2, 3]], "cm", f"pot {number}") for number in range(1, 21)]
    (told,) = advised(made.experiment("time", "day", "s", [0, 1, 2], *many))
    assert told == (
        "20 groups are more than can be played: 11 have a sound, and the others are only in the table.",
        True,
    )
    assert all(say(each.fix) for each in (*advice(two), *advice(made.LOUDNESS)))
