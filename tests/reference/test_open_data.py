"""Open data that general-purpose packages carry, read as if a logger had saved it.

statsmodels 0.15: co2, nile, sunspots, elnino ("public domain" says the package). vega_datasets 0.9.0: seattle_weather.
bokeh_sampledata 2026.1: sea_surface_temperature ("free to use and redistribute"), penguins (CC0 1.0). Counts, means and
ends as reference libraries loaded them (pandas), noted beside each.
"""

from __future__ import annotations

import csv
import gzip
from importlib.util import find_spec
from pathlib import Path

import numpy as np
import pytest

from sonify.inputs.logger import read_table
from sonify.records.table import NO_UNIT, Table
from sonify.say import say

SCENES = Path(__file__).resolve().parent.parent.parent / "scenes"


def folder(package: str) -> Path:
    spec = find_spec(package)  # not imported: only its files are wanted
    assert spec is not None and spec.origin is not None
    return Path(spec.origin).parent


def statsmodels(name: str) -> Table:
    data = (folder("statsmodels") / "datasets" / name / f"{name}.csv").read_bytes()
    return read_table(data, file=f"{name}.csv")


def told(table: Table) -> str:
    return "\n".join(say(finding.message) for finding in table.findings)


def test_co2() -> None:
    """2284 weeks, 59 missing, first 316.1, last 371.5 ppm."""
    table = statsmodels("co2")
    (co2,) = table.columns
    assert (table.rows.size, np.isnan(co2.values).sum(), co2.unit) == (2284, 59, NO_UNIT)
    assert (co2.values[0], co2.values[-1]) == (316.1, 371.5)
    assert (table.start, table.end) == ("29 March 1958", "29 December 2001")
    assert table.time_s is not None and set(np.diff(table.time_s)) == {7 * 86_400.0}
    assert "59 readings missing" in told(table)


def test_nile() -> None:
    """100 years, mean 919.35, least 456, most 1370."""
    table = statsmodels("nile")
    (volume,) = table.columns
    assert (table.start, table.end, table.rows.size) == ("1871", "1970", 100)
    assert (volume.values.mean(), volume.values.min(), volume.values.max()) == (pytest.approx(919.35), 456.0, 1370.0)


def test_sunspots() -> None:
    """309 years, mean 49.75, most 190.2."""
    table = statsmodels("sunspots")
    (spots,) = table.columns
    assert (table.rows.size, spots.values.max()) == (309, 190.2)
    assert spots.values.mean() == pytest.approx(49.75, abs=0.005)


def test_elnino() -> None:
    """61 years in twelve columns."""
    table = statsmodels("elnino")
    assert (table.start, table.end, table.rows.size, len(table.columns)) == ("1950", "2010", 61, 12)
    assert table.column("JAN").values[0] == 23.11
    assert all(np.isfinite(column.values).all() for column in table.columns)


def test_seattle_weather() -> None:
    """1461 days; 4426.0 mm of precipitation; greatest temperatures -1.6 to 35.6 °C; a column of words."""
    data = (folder("vega_datasets") / "_data" / "seattle-weather.csv").read_bytes()
    table = read_table(data, file="seattle-weather.csv")
    assert (table.rows.size, table.start, table.end) == (1461, "1 January 2012", "31 December 2015")
    assert [column.name for column in table.columns] == ["precipitation", "temp_max", "temp_min", "wind"]
    assert table.column("precipitation").values.sum() == pytest.approx(4426.0)
    warmest = table.column("temp_max").values
    assert (warmest.min(), warmest.max()) == (-1.6, 35.6)
    assert "The column weather is not played: it holds words" in told(table)


def test_sea_surface_temperature() -> None:
    """19,226 readings every half-hour, mean 10.59 °C, 3.61 to 22.15; some half-hours are missing, one comes twice."""
    path = folder("bokeh_sampledata") / "_data" / "sea_surface_temperature.csv.gz"
    table = read_table(gzip.decompress(path.read_bytes()), file="sea.csv")
    (sea,) = table.columns
    assert (table.rows.size, sea.name, sea.unit) == (19_226, "temperature", "degC")
    assert sea.values.mean() == pytest.approx(10.59, abs=0.005)
    assert (sea.values.min(), sea.values.max()) == (pytest.approx(3.61, abs=0.005), pytest.approx(22.15, abs=0.005))
    assert table.time_s is not None and np.median(np.diff(table.time_s)) == 1800.0
    assert "The readings pause" in told(table) and "The same time comes more than once" in told(table)


def test_the_scene_of_the_warm_sea_carries_the_readings_as_published() -> None:
    """36 months of elnino, and the means of each month over 1961 to 1990, to the two decimals that are written."""
    shipped = read_table((SCENES / "the-sea-that-stayed-warm.csv").read_bytes(), file="warm.csv")
    source = statsmodels("elnino")
    months = np.array([column.values for column in source.columns]).T  # a row a year, from 1950
    sea, usual = shipped.column("sea temperature").values, shipped.column("usual temperature").values
    np.testing.assert_allclose(sea, months[46:49].ravel(), atol=0.0051)
    np.testing.assert_allclose(usual, np.tile(months[11:41].mean(axis=0), 3), atol=0.0051)
    np.testing.assert_allclose(shipped.column("difference from usual").values, sea - usual, atol=0.0151)
    assert (shipped.start, shipped.end) == ("1 January 1996", "1 December 1998")


def test_the_scene_of_the_penguins_carries_the_birds_as_published() -> None:
    """bokeh_sampledata 2026.1, penguins (CC0 1.0, says the package): all birds whose sex is known, in its order."""
    source = csv.DictReader((folder("bokeh_sampledata") / "_data" / "penguins.csv").read_text("utf-8").splitlines())
    birds = [
        [row["species"], row["sex"].lower(), row["body_mass_g"], row["bill_depth_mm"]] for row in source if row["sex"]
    ]
    shipped = (SCENES / "three-kinds-of-penguin.csv").read_text("utf-8").splitlines()
    assert "CC0 1.0" in shipped[1]
    assert [line.split(",") for line in shipped[4:]] == birds and len(birds) == 333


def test_the_scene_of_the_sunspots_carries_the_years_as_published() -> None:
    """statsmodels 0.15, sunspots ("public domain" says the package): 1976 to 2008."""
    (spots,) = statsmodels("sunspots").columns
    shipped = read_table((SCENES / "spots-on-the-sun.csv").read_bytes(), file="spots.csv")
    assert (shipped.start, shipped.end) == ("1976", "2008")
    assert shipped.columns[0].values.tolist() == spots.values[276:].tolist()
