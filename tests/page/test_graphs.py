"""Graphs of the page over the bars of the piece, as SVG paths. Invented readings."""

from __future__ import annotations

import re

import numpy as np

from sonify.facts.graphs import graphs
from sonify.page.curves import science
from sonify.page.graphs import HEIGHT, paths, range_of
from tests.studies import studied


def test_what_is_compared_comes_first_with_both_lines_on_one_scale_and_their_names() -> None:
    lesson = studied("two-cups")
    first = science(lesson)["curves"][0]
    assert first["name"] == "temperature of cup A, temperature of cup B"
    assert [name for name, _ in first["names"]] == ["Cup A", "Cup B"]
    a, b = ([float(y) for _, y in re.findall(r"([\d.]+) ([\d.]+)", path)] for path in first["paths"])
    assert a[0] == b[0] and a[-1] > b[-1]  # both start at 80 degC; in the end cup A is the colder, and lies lower
    assert first["values"][0].startswith("Cup A 80") and "Cup B 80" in first["values"][0]


def test_a_table_is_drawn_as_one_bar_a_reading_and_no_line_leads_over_categories() -> None:
    lesson = studied("stretch-test")
    (stretch, _) = lesson.timeline.quantities
    (graph,) = graphs(lesson, [stretch])
    within = range_of(graph, lesson)
    (path,) = paths(graph, lesson, within, np.linspace(0.0, 1.0, 2))
    bars = re.findall(r"M([\d.]+) (\d+)V(\d+)h([\d.]+)V(\d+)Z", path)
    assert "".join(f"M{a} {b}V{c}h{d}V{e}Z" for a, b, c, d, e in bars) == path
    # twelve readings and four means, in centimetres, as stretch-test.csv has them
    readings = [0.4, 0.5, 0.6, 2.8, 3.4, 3.1, 9.8, 10.1, 10.4, 14.9, 16.3, 15.6, 0.5, 3.1, 10.1, 15.6]
    tops = [(HEIGHT - int(top)) / HEIGHT * 16.3 for _, _, top, _, _ in bars]
    np.testing.assert_allclose(tops, readings, atol=0.01)
