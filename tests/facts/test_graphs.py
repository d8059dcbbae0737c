"""What a graph shows is what was measured: tables written here, read off the graphs again. Invented readings."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

import numpy as np
import pytest

from sonify import starting
from sonify.data.experiment_table import graph_facts
from sonify.facts.graphs import BARS, LINE, POINTS, Graph, graphs
from sonify.inputs.scene_file import read_scene
from sonify.processes import conditions_si, measured
from sonify.processes import experiment as experiments
from sonify.records.experiment import Experiment
from sonify.records.lesson import Lesson
from sonify.study.simulation import simulate
from tests.experiments import MAGNET, PLANTS, PULSES, experiment, series
from tests.inputs.tables import EXPECTED, FOLDER, corrected
from tests.processes.test_results_table import FLIGHTS, GLIDERS, run
from tests.sample import sample_lesson


def of_experiment(made: Experiment, *compared: str) -> Lesson:
    """A lesson of an experiment, with one pitch rule for all of the compared."""
    spec = (measured if made.timed else experiments).for_experiment(made)
    timeline = spec.run(conditions_si(spec, ()))
    lesson = sample_lesson()
    rule = lesson.scene.rules[0]
    rules = tuple(replace(rule, quantity=name, part=f"The {name}", key=name) for name in compared)
    return replace(lesson, timeline=timeline, scene=replace(lesson.scene, experiment=made, rules=rules))


def drawn(lesson: Lesson, *names: str) -> tuple[Graph, ...]:
    return graphs(lesson, [lesson.timeline.quantity(name) for name in names])


def test_of_a_table_each_material_has_a_bar_with_all_its_tries_and_their_spread() -> None:
    lesson = sample_lesson()
    lesson = replace(lesson, timeline=run(GLIDERS), scene=replace(lesson.scene, rules=()))
    (graph,) = drawn(lesson, "flight")
    assert graph.kind == BARS and graph.x is None and list(graph.places) == list(FLIGHTS)
    for spot, tries in zip(graph.traces[0].spots, FLIGHTS.values(), strict=True):
        assert spot.tries == pytest.approx(tries)
        assert (spot.y, spot.least, spot.most) == pytest.approx((sum(tries) / 4, min(tries), max(tries)))
    assert graph.y.ticks[0] == 0.0 and graph.y.ticks[-1] >= 12.2


def test_bars_stand_on_zero_and_reach_below_it_too() -> None:
    lesson = replace(sample_lesson(), timeline=run("Place,Change (g)\nsill,-4\nfridge,-1.5\n"))
    (graph,) = drawn(lesson, "change")
    assert graph.y.ticks[0] <= -4.0 and graph.y.ticks[-1] == 0.0


def test_one_number_against_another_is_points_along_what_was_changed() -> None:
    (graph,) = drawn(of_experiment(MAGNET), "paper clips")
    assert graph.kind == POINTS and graph.x is not None and graph.x.name == "layers of paper"
    spots = graph.traces[0].spots
    assert [spot.x for spot in spots] == [0, 1, 2, 4, 6, 8]
    assert (spots[0].y, spots[0].least, spots[0].most) == pytest.approx((34 / 3, 11, 12))
    assert [graph.x.share(tick) for tick in (graph.x.ticks[0], graph.x.ticks[-1])] == [0.0, 1.0]


def test_groups_over_time_stand_in_one_graph_under_their_own_names() -> None:
    names = ("height: sill", "height: cupboard", "height: fridge")
    (graph,) = drawn(of_experiment(PLANTS, *names), *names)
    assert graph.kind == LINE and graph.name == "height"
    assert [trace.name for trace in graph.traces] == ["sill", "cupboard", "fridge"]
    assert [spot.y for spot in graph.traces[2].spots] == [0, 0, 0, 0, 0.5, 1, 1, 1.5]
    assert graph.y.ticks[-1] >= 44.0


def test_before_and_after_have_bars_side_by_side() -> None:
    names = ("pulse: Ada", "pulse: Ben")
    (graph,) = drawn(of_experiment(PULSES, *names), *names)
    assert graph.kind == BARS and len(graph.places) == 2
    assert [[spot.y for spot in trace.spots] for trace in graph.traces] == [[72, 110], [80, 140]]


def test_where_nothing_was_read_nothing_is_drawn() -> None:
    gap = experiment("number", "distance", "m", [1, 2, 4], series("loudness", [[80, np.nan, 68]], "dB"))
    (graph,) = drawn(of_experiment(gap), "loudness")
    assert [(spot.x, spot.y) for spot in graph.traces[0].spots] == [(1, 80), (4, 68)]


@lru_cache
def kept(name: str) -> Lesson:
    """A table of tests/inputs/tables with the science of its scene, nothing arranged."""
    found = starting.measurement((FOLDER / name).read_bytes(), file=name, stem="ours", roles=corrected(name))
    scene = read_scene(found.text, file="ours.toml", name="ours")
    scene = replace(scene, table=found.table, experiment=found.experiment)
    return replace(sample_lesson(), scene=scene, timeline=simulate(scene))


PLAYED = [name for name, wanted in EXPECTED.items() if "refused" not in wanted]


@pytest.mark.parametrize(
    "name", [pytest.param(name, marks=() if at % 8 == 0 else pytest.mark.long) for at, name in enumerate(PLAYED)]
)
def test_the_table_on_the_page_and_the_sheets_show_one_graph(name: str) -> None:
    lesson = kept(name)
    experiment = lesson.scene.experiment
    assert experiment is not None
    table = graph_facts(experiment)
    groups = experiment.of(experiment.quantities[0])
    (graph,) = drawn(replace(lesson, scene=replace(lesson.scene, rules=())), *(each.name for each in groups))
    assert (table["kind"], tuple(tick for tick, _ in table["ticks"])) == (graph.kind, pytest.approx(graph.y.ticks))
    if graph.x is not None:
        assert [mark for mark, _ in table["marks"]] == pytest.approx(list(graph.x.ticks))
    for trace, own in zip(graph.traces, table["series"], strict=True):
        there = [
            row for row in zip(*(own[each] for each in ("values", "least", "most")), strict=True) if None not in row
        ]
        assert there == [pytest.approx((spot.y, spot.least, spot.most), rel=1e-9, abs=1e-9) for spot in trace.spots]
