"""What a page sends, read for its shape alone."""

from __future__ import annotations

from typing import Any

import pytest

from sonify.errors import SonifyError
from sonify.inputs.scene_edits import MOST_EDITS
from sonify.web.desk import Desk
from sonify.web.inputs import MOST_CHANGES, conditions_in, read_inputs


@pytest.mark.parametrize(
    ("given", "read"),
    [
        ("5", 5),
        (" +7 ", 7),
        ("-12", -12),
        (172, 172),
        ("--5", "--5"),
        ("+-5", "+-5"),
        ("5 degC", "5 degC"),
        ("\u0665", "\u0665"),
    ],
)
def test_only_what_is_a_whole_number_becomes_one(given: str | int, read: str | int) -> None:
    assert conditions_in({"set": {"day": given}}) == {"day": read}


@pytest.mark.parametrize(
    "given",
    [
        {"edits": {"title": "\ud800"}},
        {"edits": {"part.0.sounds": ["claves", "\udfff"]}},
        {"edits": {"sound.The rain": {"name": "\ud800", "file": "a.wav"}}},
        {"edits": {"pattern.\ud800": None}},
        {"rules": {"0": {"to": ["\ud800", "loud"]}}},
        {"set": {"\udc00": "1"}},
        {"class": {"needs": ["\ud800"]}},
    ],
)
def test_half_a_character_is_refused_wherever_it_stands(given: dict[str, Any]) -> None:
    with pytest.raises(SonifyError, match=f'"{next(iter(given))}" holds half a character'):
        read_inputs({"scene": {"name": "two-cups"}, **given})


def test_edits_have_one_limit_and_are_told_what_to_do_beyond_it() -> None:
    def draft(count: int) -> None:
        edits = {f"stage.s{n}.caption": "a" for n in range(count)}
        Desk().draft(read_inputs({"scene": {"name": "two-cups"}, "edits": edits}))

    with pytest.raises(SonifyError, match=f"more than {MOST_EDITS} changes at once; save the scene"):
        draft(MOST_EDITS + 1)
    with pytest.raises(SonifyError) as caught:  # of stages that are not there, and no longer of their number
        draft(MOST_CHANGES + 1)
    assert "changes at once" not in str(caught.value) and "lines" not in str(caught.value)
