"""The palette file as records."""

from __future__ import annotations

from itertools import combinations
from pathlib import Path

import pytest

from sonify.records.palette import GroupStyle, group_style, read_palette

TEXT = (Path(__file__).resolve().parents[2] / "shared" / "palette.toml").read_text(encoding="utf-8")


def test_shipped_palette_gives_every_group_a_colour_and_a_hatching_of_its_own() -> None:
    styles = read_palette(TEXT)
    assert len(styles) == 8
    for one, other in combinations(styles, 2):
        assert one.colour != other.colour and one.hatching != other.hatching and one.name != other.name


def test_a_ninth_group_begins_again() -> None:
    styles = read_palette(TEXT)
    assert group_style(styles, 1) == styles[0]
    assert group_style(styles, 9) == styles[0]


@pytest.mark.parametrize(
    ("field", "value", "message"),
    [("colour", "blue", 'colour "blue"'), ("hatching", "zigzag", 'hatching "zigzag"')],
)
def test_a_colour_or_hatching_that_cannot_be_drawn_is_refused(field: str, value: str, message: str) -> None:
    row = {"colour": "#0072B2", "name": "blue", "hatching": "dots", field: value}
    with pytest.raises(ValueError, match=message):
        GroupStyle(**row)


def test_an_empty_palette_is_refused() -> None:
    with pytest.raises(ValueError, match=r"no \[\[group\]\]"):
        read_palette("")
